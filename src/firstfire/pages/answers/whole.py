"""The whole check behind the quick answer, in a forked process that a change ends at once."""

from __future__ import annotations

import contextlib
import gc
import os
import pickle
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, Pipe
from typing import Any

from firstfire.engine.engine import Engine
from firstfire.errors import FirstfireError
from firstfire.pages.answers.margins import widths_of
from firstfire.pages.answers.messages import Told
from firstfire.pages.answers.share import Share
from firstfire.pages.answers.templates import environment, rendered
from firstfire.report.bars import bar
from firstfire.report.charts.collect import charts
from firstfire.report.drawn import part_of
from firstfire.report.page import anchor
from firstfire.runs.run import events
from firstfire.runs.tooth_off import why_none
from firstfire.verdict.check import check
from firstfire.verdict.compare.pairs import pair
from firstfire.verdict.compare.records import Column
from firstfire.verdict.compare.words import figure_line
from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.explain.words import NOTE_MOVERS, NOTE_TURNED
from firstfire.verdict.result import Result
from firstfire.verdict.words.card import card
from firstfire.verdict.words.lasting_words import curve_words
from firstfire.verdict.words.ledger import LedgerLine, ledger, next_moves, without_a_move
from firstfire.verdict.words.sentences import sentences
from firstfire.verdict.words.tooth import TITLE, tooth_lines

Progress = Callable[[str, float], None]
Work = Callable[[Engine, Connection], None]
"""What is done in a process behind: it writes pickled pairs of a kind and its data."""
_MOST = 16
"""Ledger lines that stand open to sight; the others, with larger factors, are folded away."""
_MORE = ("run_time", "power", "odds")
"""Figures of which more is better."""
_BEHIND = 10
"""How far it stands back (as `nice` has it) for the first answer to a change."""
_SHORTER = 4
"""How far other work does, which somebody waits for before the check."""


@dataclass
class Whole:
    """The check under way, if one is.

    Attributes
    ----------
    reading
        What it writes to; None where none is under way.
    key, number
        Of the sheet it is of, and of the question that began it.
    """

    reading: Connection | None = None
    key: str = ""
    number: int = 0
    _pid: int = field(default=0, repr=False)

    def begin(self, engine: Engine, key: str, number: int, work: Work | None = None) -> None:
        """Begin the check of an engine, or shorter work on it; what was under way is dropped."""
        self.drop()
        reading, writing = Pipe(duplex=False)
        sys.stdout.flush()
        pid = os.fork()
        if pid:
            writing.close()
            self.reading, self.key, self.number, self._pid = reading, key, number, pid
            return
        code = 1
        try:
            os.setpgid(0, 0)
            signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # who asked is gone: so is this
            os.nice(_BEHIND if work is None else _SHORTER)
            gc.freeze()
            reading.close()
            (work or _child)(engine, writing)
            code = 0
        finally:
            os._exit(code)

    def heard(self) -> Told | None:
        """What it said, when its pipe has something; None when it has ended."""
        assert self.reading is not None
        try:
            kind, data = pickle.loads(self.reading.recv_bytes())
        except (EOFError, OSError):
            self._ended()
            return None
        return Told(self.number, self.key, kind, data)

    def drop(self) -> None:
        """End it, and all that works for it."""
        if self.reading is None:
            return
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(self._pid, signal.SIGKILL)
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.kill(self._pid, signal.SIGKILL)  # it has not made its group yet
        self._ended()

    def _ended(self) -> None:
        if self.reading is not None:
            self.reading.close()
            self.reading = None
            with contextlib.suppress(ChildProcessError):
                os.waitpid(self._pid, 0)


def _child(engine: Engine, writing: Connection) -> None:
    """In the forked process: check, and say how far it is and what came of it."""

    def say(kind: str, **data: Any) -> None:
        writing.send_bytes(pickle.dumps((kind, data)))

    far = Share(len(events(engine)))

    def progress(what: str, share: float) -> None:
        reached = far.now(share)
        if what:
            say("progress", what=what, share=reached, left=far.left())

    try:
        result = check(engine, on_progress=progress)
    except FirstfireError as why:
        say("failed", words=str(why))
        return
    say("whole", **told(result))


def told(result: Result) -> dict[str, Any]:
    """A check as the pages show it: fragments of HTML, and numbers that later answers lean on."""
    lines = ledger(result.margins, result.plain)
    first, *rest = sentences(result)
    return {
        "sentence": rendered("sentence.html.j2", first=first, rest=rest),
        "card": rendered("card.html.j2", card=card(result)),
        "life": rendered(
            "life.html.j2",
            lines=lines,
            most=_MOST,
            bar=bar,
            part_of=part_of,
            anchor=anchor,
            teeth=tooth_lines(result.plain),
            teeth_title=TITLE,
            teeth_reason=why_none(result.plain),
        ),
        "whys": {anchor(line.margin.way.id): _why(result, line.margin) for line in lines},
        "moves": rendered(
            "moves.html.j2",
            moves=next_moves(result.margins, result.plain),
            unmoved=without_a_move(result.margins, result.plain),
            cautions=result.cautions,
        ),
        "trials": [
            {"words": one.raised.text, "set": {p: str(v) for p, v in one.raised.set.items()}}
            for moves in next_moves(result.margins, result.plain)
            for one in moves.moves
        ],
        "cautions": rendered(
            "cautions.html.j2", cautions=result.cautions, unjudged=result.unjudged
        ),
        "speeds": rendered("speeds.html.j2", charts=charts(result).speeds),
        "lasting": dict(_lasting(result)),
        "decides": _decides(result, lines),
        "lines": [_line(line) for line in lines],
        "figures": _figures(result),
        "widths": widths_of(result),
    }


def _why(result: Result, margin: Any) -> str:
    opened = environment().get_template("why.html.j2")
    return opened.render(
        why=explanation(result, margin),
        id=f"why-{anchor(margin.way.id)}",
        notes={"turned": NOTE_TURNED, "movers": NOTE_MOVERS},
    )


def _line(line: LedgerLine) -> dict[str, Any]:
    """One line as numbers, to be set beside that of another engine."""
    margin = line.margin
    return {
        "way": margin.way.id.partition("#")[0],
        "name": line.name,
        "point": margin.point,
        "factor": margin.least,
        "shown": line.factor,
        "word": margin.word,
    }


def _figures(result: Result) -> list[dict[str, Any]]:
    """Run time, power, odds and masses, as engines are compared by."""
    alone = Column("A", "", result.engine, result)
    return [
        {
            "id": one.id,
            "name": one.name,
            "shown": figure_line(one),
            "value": one.after,
            "more": one.id in _MORE,
        }
        for one in pair(alone, alone).figures
    ]


def _decides(result: Result, lines: Sequence[LedgerLine]) -> dict[str, dict[str, str]]:
    """By path of the engine file, the first line of the ledger that reads it and doesn't hold."""
    found: dict[str, dict[str, str]] = {}
    for line in lines:
        if line.margin.word == "holds":
            continue
        said = {"word": line.margin.word, "words": f"{line.name}, {line.factor}"}
        for path in result.read(line.margin):
            found.setdefault(path, said)
    return found


def _lasting(result: Result) -> Iterator[tuple[str, dict[str, Any]]]:
    for one in result.lasting:
        yield (
            one.event,
            {
                "seconds": [float(s) for s in one.seconds],
                "chance": [float(c) for c in one.chance],
                "words": curve_words(one),
            },
        )
