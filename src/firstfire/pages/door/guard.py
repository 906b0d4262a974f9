"""The guard: an ASGI middleware before everything else, websockets included."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

from firstfire.pages.door.requests import TOKEN, Lock, Refusal, asked, headers, refusal

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

LARGEST = 2_000_000
"""Bytes of one request: an engine file has at most a million, and is sent with some words."""

# Vue builds its parts from text, so scripts may be built; nothing is fetched from elsewhere.
POLICY = (
    "default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval'; "
    "style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; "
    "connect-src 'self'; object-src 'none'; base-uri 'self'; form-action 'self'; "
    "frame-ancestors 'none'"
)
_HEADERS = (
    (b"content-security-policy", POLICY.encode()),
    (b"referrer-policy", b"no-referrer"),
    (b"x-content-type-options", b"nosniff"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
)


class _TooLarge(Exception):  # noqa: N818 - a refusal
    """A body that went on beyond the limit."""


class Guard:
    """Lets in only who has the token, from this machine and these pages.

    Parameters
    ----------
    app
        What is behind it.
    lock
        What is checked.
    largest
        Bytes that a request may bring.
    """

    def __init__(self, app: App, lock: Lock, largest: int = LARGEST) -> None:
        self.app, self.lock, self.largest = app, lock, largest

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Check, and hand on."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        refused = refusal(scope, self.lock)
        if scope["type"] == "websocket":
            await self._websocket(scope, receive, send, refused)
            return
        refused = refused or self._length(scope)
        if refused is not None:
            await _answer(send, refused.status, refused.words.encode())
        elif TOKEN in asked(scope):
            await self._first_visit(scope, send)
        else:
            await self._request(scope, receive, send)

    async def _websocket(
        self, scope: Scope, receive: Receive, send: Send, refused: Refusal | None
    ) -> None:
        if refused is None:
            await self.app(scope, receive, send)
            return
        await receive()  # the wish to connect
        await send({"type": "websocket.close", "code": 1008, "reason": "refused"})

    def _length(self, scope: Scope) -> Refusal | None:
        """A body that says itself that it is too large isn't even read."""
        for said in headers(scope, b"content-length"):
            if not said.isdecimal() or len(said) > 12 or int(said) > self.largest:
                return _too_large(self.largest)
        return None

    async def _first_visit(self, scope: Scope, send: Send) -> None:
        """The token moves from the address, which others may see, into a cookie."""
        cookie = f"{self.lock.cookie}={self.lock.token}; Path=/; HttpOnly; SameSite=Strict"
        there = [(b"location", scope["path"].encode()), (b"set-cookie", cookie.encode())]
        await _answer(send, 303, b"", there)

    async def _request(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Behind the guard: its body counted as it comes, its answer with our headers."""
        read, begun = 0, False

        async def counted() -> Message:
            nonlocal read
            message = await receive()
            read += len(message.get("body", b""))
            if read > self.largest:
                raise _TooLarge
            return message

        async def with_headers(message: Message) -> None:
            nonlocal begun
            if read > self.largest and not begun:
                return  # what the app says of a fault that was ours
            if message["type"] == "http.response.start":
                begun = True
                message = {**message, "headers": [*message.get("headers", []), *_HEADERS]}
            await send(message)

        try:
            await self.app(scope, counted, with_headers)
        except _TooLarge:
            if not begun:
                refused = _too_large(self.largest)
                await _answer(send, refused.status, refused.words.encode())


def _too_large(largest: int) -> Refusal:
    return Refusal(413, f"That is too much at once: {largest / 1e6:g} MB is the most.")


async def _answer(
    send: Send, status: int, words: bytes, more: list[tuple[bytes, bytes]] | None = None
) -> None:
    kept = (b"cache-control", b"no-store")
    plain = (b"content-type", b"text/plain; charset=utf-8")
    told = [plain, kept, *_HEADERS, *(more or [])]
    await send({"type": "http.response.start", "status": status, "headers": told})
    await send({"type": "http.response.body", "body": words})
