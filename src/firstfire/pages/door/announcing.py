"""A server that says as soon as it answers."""

from __future__ import annotations

import socket
from collections.abc import Callable

import uvicorn


class Announcing(uvicorn.Server):
    """The server.

    Parameters
    ----------
    config
        As uvicorn has it.
    ready
        Called once it answers.
    """

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start, then say so."""
        await super().startup(sockets=sockets)
        if self.started:
            self._ready()
