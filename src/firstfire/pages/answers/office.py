"""The server's side of the answers: asks the process that computes, and keeps what came back."""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Callable
from multiprocessing.connection import Connection

from firstfire.pages.answers.messages import Question, Told

Heard = Callable[[Told], None]
MODULE = "firstfire.pages.answers.worker"


class Office:
    """Asks, and hands each answer on within the event loop.

    Parameters
    ----------
    heard
        Called in the event loop with each message. Those to older questions about another sheet
        come too: whoever hears says what they are good for.
    module
        That answers, as a process of its own.
    """

    def __init__(self, heard: Heard, module: str = MODULE) -> None:
        self._heard, self._module = heard, module
        self._loop: asyncio.AbstractEventLoop | None = None
        self._process: subprocess.Popen[bytes] | None = None
        self._line: Connection | None = None
        self._socket: socket.socket | None = None
        self._number = 0
        self._last: Question | None = None

    def next_number(self) -> int:
        """Number of the next question."""
        self._number += 1
        return self._number

    async def ask(self, asked: Question) -> None:
        """Ask; what is under way for an older sheet is dropped over there."""
        self._last = asked
        if self._line is None:
            self._open()
        line = self._line
        assert line is not None
        try:
            line.send(asked)
        except (BrokenPipeError, OSError):
            self._gone(line)

    def hurry(self) -> None:
        """Have what is under way end with what it has found so far."""
        if self._line is not None:
            with contextlib.suppress(BrokenPipeError, OSError):
                self._line.send(None)

    def drop(self) -> None:
        """End the process at once, whatever it is at; the next question starts another."""
        found = self._process
        if found is not None and self._line is not None and found.poll() is None:
            with contextlib.suppress(ProcessLookupError, PermissionError):
                # One that shares its work out leads a group of its own.
                leads = os.getpgid(found.pid) == found.pid
                (os.killpg if leads else os.kill)(found.pid, signal.SIGKILL)
        self.close()

    def _open(self) -> None:
        """Start the process that computes."""
        self._loop = asyncio.get_running_loop()
        ours, theirs = socket.socketpair()
        # -P: no file in the folder that somebody works in may take the place of a module.
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-m", self._module, str(theirs.fileno())],
            pass_fds=[theirs.fileno()],
            stdin=subprocess.DEVNULL,
        )
        theirs.close()
        self._socket, self._line = ours, Connection(os.dup(ours.fileno()))
        threading.Thread(target=self._listen, args=(self._line,), daemon=True).start()

    def _listen(self, line: Connection) -> None:
        """In a thread: waiting holds nobody up."""
        loop = self._loop
        assert loop is not None
        with line, contextlib.suppress(RuntimeError):  # the loop is closed: so are we
            while True:
                try:
                    told = line.recv()
                except (EOFError, OSError):
                    loop.call_soon_threadsafe(self._gone, line)
                    return
                loop.call_soon_threadsafe(self._heard, told)

    def _gone(self, line: Connection) -> None:
        """The process has ended by itself: say so; the next question starts another."""
        if line is not self._line:
            return
        self._line = None
        last = self._last
        if last is not None:
            words = "What computes has ended by itself. Change something and it starts again."
            self._heard(Told(last.number, last.key, "failed", {"words": words}))

    def close(self) -> None:
        """End the process that computes."""
        self._line = None
        if self._socket is not None:
            # Whoever reads from it, here or there, sees its end; the reader closes its own.
            with contextlib.suppress(OSError):
                self._socket.shutdown(socket.SHUT_RDWR)
            self._socket.close()
            self._socket = None
        if self._process is not None:
            try:
                self._process.wait(timeout=2)
            except subprocess.TimeoutExpired:
                self._process.kill()
