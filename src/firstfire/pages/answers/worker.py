"""The process that computes: it answers the newest question, and drops what is older."""

from __future__ import annotations

import signal
import socket
import sys
import traceback
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait

from firstfire.errors import FirstfireError, Stopped
from firstfire.pages.answers.measured import laid
from firstfire.pages.answers.messages import Asked, Measured, Question, Told
from firstfire.pages.answers.quick import Quick
from firstfire.pages.answers.setting.behind import set_up_behind
from firstfire.pages.answers.whole import Whole, Work

_PAUSE = 0.4
"""Seconds without a question after which the whole is begun: not between two keys."""


def work(outside: Connection) -> None:
    """Answer questions until nobody is there to ask any more."""
    quick, behind = Quick(), Behind()
    try:
        while True:
            ready = wait([outside, *behind.reading()])
            if outside in ready:
                _answer(outside, quick, behind)
                continue
            for told in behind.heard(ready):
                outside.send(told)
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return
    finally:
        behind.drop()


@dataclass(frozen=True)
class Behind:
    """What is computed behind, each in a process of its own: the check, and setting up."""

    whole: Whole = field(default_factory=Whole)
    setting: Whole = field(default_factory=Whole)

    def reading(self) -> list[Connection]:
        """What they write to."""
        return [one.reading for one in (self.whole, self.setting) if one.reading is not None]

    def heard(self, ready: Sequence[object]) -> Iterator[Told]:
        """What they said."""
        for one in (self.whole, self.setting):
            if one.reading is not None and one.reading in ready:
                told = one.heard()
                if told is not None:
                    yield told

    def drop(self, asked: Asked | None = None) -> None:
        """End what isn't of this question; all of it where there is none."""
        for one, wanted in self._wanted(asked):
            if not wanted or asked is None or one.key != asked.key:
                one.drop()

    def due(self, asked: Asked) -> list[tuple[Whole, Work | None]]:
        """What this question wants and isn't under way."""
        works: tuple[Work | None, ...] = (None, set_up_behind)
        return [
            (one, work)
            for (one, wanted), work in zip(self._wanted(asked), works, strict=True)
            if wanted and not (one.reading is not None and one.key == asked.key)
        ]

    def _wanted(self, asked: Asked | None) -> list[tuple[Whole, bool]]:
        return [
            (self.whole, asked is not None and asked.whole),
            (self.setting, asked is not None and asked.setting),
        ]


def _answer(outside: Connection, quick: Quick, behind: Behind) -> None:
    """Answer what waits: what was measured each time, of the other questions the newest."""
    waiting: list[Question] = [outside.recv()]
    while outside.poll(0):
        waiting.append(outside.recv())
    for one in waiting:
        if isinstance(one, Measured):
            outside.send(laid(one))
    asked = [one for one in waiting if isinstance(one, Asked)]
    if asked:
        _asked(asked[-1], outside, quick, behind)


def _asked(asked: Asked, outside: Connection, quick: Quick, behind: Behind) -> None:
    behind.drop(asked)
    try:
        for told in quick.answers(asked, lambda: outside.poll(0)):
            outside.send(told)
    except Stopped:
        return
    except FirstfireError as why:
        outside.send(Told(asked.number, asked.key, "failed", {"words": str(why)}))
        return
    except (EOFError, BrokenPipeError, ConnectionResetError):
        raise
    except Exception as why:  # a fault of ours must not end the pages: it is said, and logged
        traceback.print_exc()
        words = f"This could not be computed, by a fault of firstfire's own: {why!r}."
        outside.send(Told(asked.number, asked.key, "failed", {"words": words}))
        return
    due = behind.due(asked)
    if due and not outside.poll(_PAUSE) and quick.engine is not None:
        for one, work in due:
            one.begin(quick.engine, asked.key, asked.number, work)


def main() -> None:
    """Started by `firstfire.pages.answers.office` with the number of an open socket."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server to answer
    with socket.socket(fileno=int(sys.argv[1])) as handed:
        work(Connection(handed.detach()))


if __name__ == "__main__":
    main()
