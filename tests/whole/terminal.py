"""A command at a terminal of its own, as a person has it."""

import codecs
import fcntl
import os
import pty
import select
import signal
import struct
import sys
import termios
import time

import pytest

CODE = "from firstfire.cli.main import run; run()"
LONGEST = 240.0  # seconds: the machine may be busy, and compile first
PROMPT = "]: "


class Terminal:
    """A command at a terminal of its own, of 24 rows.

    Attributes
    ----------
    pid
        Of the command.
    heard
        All it has shown so far.
    """

    def __init__(self, folder, *words, columns=80):
        self.heard, self._read, self._until = "", 0, time.monotonic() + LONGEST
        self._words = codecs.getincrementaldecoder("utf-8")()
        self.pid, self._fd = pty.fork()
        if self.pid == 0:
            os.chdir(folder)
            os.environ.pop("COLUMNS", None)
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # ignored where tests run behind a shell
            fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
            os.execv(sys.executable, [sys.executable, "-c", CODE, *words])

    def until(self, said):
        """What it shows up to some words that it hasn't shown yet, without progress."""
        while (place := self.heard.find(said, self._read)) < 0:
            assert self._more(), self.heard[self._read :]
        begun, self._read = self._read, place + len(said)
        return _plain(self.heard[begun : self._read])

    def waits(self, for_what=PROMPT):
        """What is shown until it waits for an answer (or shows `for_what`)."""
        before = len(self.heard)
        while for_what not in self.heard[before:]:
            assert self._more(), self.heard
        return self.heard[before:]

    def types(self, answer):
        """Type a line; what is shown until the next question."""
        os.write(self._fd, f"{answer}\n".encode())
        return " ".join(self.waits().split())

    def presses(self, key):
        os.write(self._fd, key)

    def stops(self):
        """Press Ctrl-C at a question, once it sleeps there.

        In the moment between a prompt and its read, shorter than any hand, CPython's `input` only
        notes a signal and looks at it after the next key.
        """
        while True:
            with open(f"/proc/{self.pid}/stat") as stat:
                if stat.read().rpartition(")")[2].split()[0] == "S":
                    break
            os.sched_yield()
        self.presses(b"\x03")

    def ends(self):
        """Its exit code, once it has ended of itself."""
        while self._more():
            pass
        return os.waitstatus_to_exitcode(os.waitpid(self.pid, 0)[1])

    def rest(self):
        """All that was left to show, once it has ended."""
        return _plain(self.heard[self._read :])

    def _more(self):
        if not select.select([self._fd], [], [], self._until - time.monotonic())[0]:
            os.kill(self.pid, signal.SIGKILL)
            pytest.fail(f"it waits for ever: {self.heard}")
        try:
            piece = os.read(self._fd, 65536)
        except OSError:  # the other end has closed
            return False
        self.heard += self._words.decode(piece)
        return bool(piece)


def _plain(heard):
    """Without lines of progress, which are written over."""
    text = heard.replace("\r\n", "\n").replace("\u202f", " ")
    return "\n".join(line.rpartition("\r")[2] for line in text.split("\n"))
