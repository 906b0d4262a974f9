"""The server: loopback only, a free port, a new key each time, and the address to open."""

from __future__ import annotations

import os
import secrets
import socket
import sys
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from firstfire.errors import FirstfireError
from firstfire.pages.door.requests import TOKEN, Lock

_LOOPBACK = "127.0.0.1"


@dataclass(frozen=True)
class Place:
    """Where it listens, and what lets one in."""

    listening: socket.socket
    lock: Lock

    @property
    def address(self) -> str:
        """The address to open, key and all."""
        return f"http://{_LOOPBACK}:{self.lock.port}/?{TOKEN}={self.lock.token}"


def place(port: int = 0) -> Place:
    """A place to listen at: `port`, or any that is free.

    Raises
    ------
    FirstfireError
        Where that port is taken.
    """
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((_LOOPBACK, port))
    except OSError as why:
        listening.close()
        words = (
            f"Port {port} can't be listened on: {why.strerror}. Leave --port out for a free one."
        )
        raise FirstfireError(words) from None
    return Place(listening, Lock(secrets.token_urlsafe(24), listening.getsockname()[1]))


def serve(
    file: Path | None, *, port: int = 0, browser: bool = True, say: Callable[[str], None] = print
) -> None:
    """Serve the pages until Ctrl-C.

    Parameters
    ----------
    file
        The engine file; None to choose one on the first page.
    port
        0 for any that is free.
    browser
        Whether one is opened, where there is one.
    say
        Told the address.

    Raises
    ------
    FirstfireError
        Where the file can't be read, another firstfire has it open, or the port is taken.
    """
    import uvicorn

    from firstfire.pages.door.announcing import Announcing
    from firstfire.pages.door.guard import LARGEST, Guard
    from firstfire.pages.show.room import Room

    if file is not None:
        _there(file)
    at = place(port)
    folder = file.absolute().parent if file is not None else Path.cwd()
    room = Room(folder, tuple(f"http://{host}" for host in at.lock.hosts))
    try:
        if file is not None:
            room.take(file)
        from firstfire.pages.show.app import app

        config = uvicorn.Config(
            Guard(app(room), at.lock), log_level="warning", access_log=False,
            server_header=False, ws_max_size=LARGEST, timeout_graceful_shutdown=1, lifespan="on",
        )  # fmt: skip
        server = Announcing(config, lambda: _announce(at, browser=browser, say=say))
        server.run(sockets=[at.listening])
    finally:
        room.close()
        at.listening.close()


def _there(file: Path) -> None:
    """Refuse a file that isn't there, unless work on it was left unsaved.

    Raises
    ------
    FirstfireError
        Saying how to begin one.
    """
    from firstfire.pages.desk.journal import journal_file

    if not file.exists() and not journal_file(file).exists():
        raise FirstfireError(
            f"{file} is not there. `firstfire open` without a file begins one on its first page, "
            f"`firstfire new {file}` writes one."
        )


def _announce(at: Place, *, browser: bool, say: Callable[[str], None]) -> None:
    say(f"The pages are at {at.address}")
    say("That address is for you alone: who has it can change your engine file. Ctrl-C ends them.")
    if browser and not (_has_screen() and webbrowser.open(at.address)):
        say("No browser was found to open it: copy the address into one on this machine.")


def _has_screen() -> bool:
    """Whether a browser with windows can be expected: one in the terminal would take it over."""
    if sys.platform != "linux":
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
