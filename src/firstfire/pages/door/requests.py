"""What a request or a websocket must be like to come in: judged from its head alone."""

from __future__ import annotations

import hmac
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import parse_qs, unquote_to_bytes

TOKEN = "token"
"""Name of the query's field that brings the token, once."""
_READING = ("GET", "HEAD")
_OURS = ("same-origin", "none")


@dataclass(frozen=True)
class Refusal:
    """Why somebody may not come in: the HTTP status and one sentence."""

    status: int
    words: str


@dataclass(frozen=True)
class Lock:
    """What is checked: the token, and under which names the server may be asked for.

    Attributes
    ----------
    token
        Random, made anew at each start.
    port
        That is listened on.
    """

    token: str
    port: int

    @property
    def cookie(self) -> str:
        """Name of the cookie: browsers share them among all ports of a machine."""
        return f"firstfire-{self.port}"

    @property
    def hosts(self) -> tuple[str, ...]:
        """All that a request may name as its host."""
        return tuple(f"{name}:{self.port}" for name in ("127.0.0.1", "localhost"))

    def fits(self, token: str) -> bool:
        """Whether a token is this one, compared in the same time whatever it is."""
        return hmac.compare_digest(token.encode("utf-8", "replace"), self.token.encode())


def refusal(scope: Mapping[str, Any], lock: Lock) -> Refusal | None:
    """Why a request or a websocket is refused; None where it may come in.

    Parameters
    ----------
    scope
        As ASGI has it, of kind ``http`` or ``websocket``.
    lock
        What it is checked against.
    """
    return (
        _host(scope, lock)
        or _origin(scope, lock)
        or _path(scope)
        or _token(scope, lock)
    )  # fmt: skip


def _host(scope: Mapping[str, Any], lock: Lock) -> Refusal | None:
    said = headers(scope, b"host")
    if len(said) == 1 and said[0] in lock.hosts:
        return None
    return Refusal(421, "These pages are served to this machine only, under its own address.")


def _origin(scope: Mapping[str, Any], lock: Lock) -> Refusal | None:
    """Another page in the same browser may neither ask nor listen.

    A browser names the origin with every websocket and whatever isn't a plain GET, and newer ones
    say by themselves whether a request comes from another site.
    """
    origins = headers(scope, b"origin")
    own = [f"http://{host}" for host in lock.hosts]
    needed = scope["type"] == "websocket" or scope["method"] not in _READING
    foreign = any(site not in _OURS for site in headers(scope, b"sec-fetch-site"))
    if foreign or any(origin not in own for origin in origins) or (needed and not origins):
        return Refusal(403, "Another page asked for this: only these pages themselves may.")
    return None


def _path(scope: Mapping[str, Any]) -> Refusal | None:
    """No step upwards, however it is written."""
    raw = scope.get("raw_path") or scope["path"].encode("utf-8", "replace")
    for _ in range(3):  # written twice over is written too
        if (
            any(bad in (b"..", b".") for bad in raw.replace(b"\\", b"/").split(b"/"))
            or b"\0" in raw
        ):
            return Refusal(400, "A path of these pages leads nowhere upwards.")
        raw = unquote_to_bytes(raw)
    return None


def _token(scope: Mapping[str, Any], lock: Lock) -> Refusal | None:
    if any(lock.fits(said) for said in tokens(scope, lock)):
        return None
    words = "This needs the whole address that firstfire printed when it was started, key and all."
    return Refusal(403, words)


def tokens(scope: Mapping[str, Any], lock: Lock) -> Iterable[str]:
    """Every token that is brought: in the cookie, or in the address of a plain GET."""
    for header in headers(scope, b"cookie"):
        yield from _in_cookie(header, lock.cookie)
    if scope["type"] == "http" and scope["method"] == "GET":
        yield from asked(scope).get(TOKEN, [])


def asked(scope: Mapping[str, Any]) -> dict[str, list[str]]:
    """The query's fields."""
    query = scope.get("query_string", b"").decode("latin-1")
    try:
        return parse_qs(query, max_num_fields=20)
    except ValueError:
        return {}


def _in_cookie(header: str, name: str) -> list[str]:
    jar: SimpleCookie = SimpleCookie()
    try:
        jar.load(header)
    except CookieError:
        return []
    return [jar[name].value] if name in jar else []


def headers(scope: Mapping[str, Any], name: bytes) -> list[str]:
    """Every header of one name, in small letters as ASGI has it."""
    return [value.decode("latin-1") for key, value in scope["headers"] if key == name]
