"""Ctrl-C pressed at many moments of many checks; a process of its own for tests.

    python pressed_often.py HOW COUNT FIRST SECOND

HOW is ``compare`` or ``check`` for the command, or ``python`` for `ff.check`. The press comes as
the compiled stepper is called for the nth time, from whichever thread calls it, other threads
switching as fast as they can. Prints how each ended.
"""

from __future__ import annotations

import contextlib
import io
import os
import random
import signal
import sys
import threading
from typing import Any

import firstfire as ff
import firstfire.cycle.run as stepping
from firstfire.cli.main import app

MOMENTS = 250
"""Calls of the stepper among which the press comes; a check of a single takes more."""

_advance = stepping.advance


class Press:
    """Presses Ctrl-C at the nth call."""

    def __init__(self, moment: int) -> None:
        self.left = moment
        self.lock = threading.Lock()

    def __call__(self, *given: Any) -> Any:
        with self.lock:
            self.left -= 1
            now = self.left == 0
        if now:
            os.kill(os.getpid(), signal.SIGINT)
        return _advance(*given)


def by_command(words: list[str]) -> str:
    told, said = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(told), contextlib.redirect_stderr(said):
        code = app(words, standalone_mode=False)
    finished = "What was finished is shown above." in said.getvalue()
    shown = "finished" if finished and told.getvalue() else "nothing"
    return f"{code} {shown if finished or 'Nothing was finished.' in said.getvalue() else '?'}"


def by_python(file: str) -> str:
    try:
        ff.check(ff.read(file))
    except KeyboardInterrupt as halted:
        return type(halted).__name__
    return "not stopped"


def spin(ended: threading.Event) -> None:
    while not ended.is_set():
        sum(range(100))


def main(how: str, count: int, files: list[str]) -> None:
    chance = random.Random(f"{how} {count}")
    sys.setswitchinterval(1e-5)
    ended = threading.Event()
    busy = [threading.Thread(target=spin, args=(ended,)) for _ in range(2)]
    for one in busy:
        one.start()
    try:
        for _ in range(count):
            stepping.advance = Press(chance.randint(1, MOMENTS))  # type: ignore[assignment]
            words = [how, *files[: 1 if how == "check" else 2]]
            print(by_python(files[0]) if how == "python" else by_command(words), flush=True)
    finally:
        ended.set()


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), sys.argv[3:])
