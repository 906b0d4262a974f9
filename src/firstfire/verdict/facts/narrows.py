"""Which reading at home, or test piece, would take away most of the doubt about the verdict.

The verdict's doubt is whether anything gives way up to the first second of full throttle. An
input's share of it is the first-order index of that yes or no among the engines drawn; what a
reading with an error of its own tells is less. `firstfire explain FILE --doubt` has all of them,
and times too; this is the first line of it as far as no engine has to be run again.

References
----------
A. Saltelli and others, *Global Sensitivity Analysis: The Primer*, Wiley 2008, section 1.2.4, from
memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import split
from firstfire.engine.readings import reading_of, span_left
from firstfire.engine.readings_table import Reading
from firstfire.engine.unknowns import Unknown
from firstfire.runs.drawn import SCATTER
from firstfire.runs.moved import Trials
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.decide import in_the_odds
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.odds import Bells, outcomes
from firstfire.verdict.facts.share import read_with_error, shares_told

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

TELLING = 0.01
"""A share below which a reading isn't worth telling of: one in a hundred."""
SURE = 0.005
"""Odds nearer to never or always than this aren't in doubt: too few draws say otherwise."""


@dataclass(frozen=True)
class Narrows:
    """The reading that narrows the verdict most.

    Attributes
    ----------
    reading
        What is measured and how; its `piece` where a test piece tells it.
    paths
        Of the engine file, of all cylinders.
    minutes
        For all of them.
    decides
        Share of the doubt whether anything gives way, 0 to 1.
    """

    reading: Reading
    paths: tuple[str, ...]
    minutes: float
    decides: float


def narrows(
    engine: Engine, results: Sequence[EventResult], margins: Sequence[Margin]
) -> Narrows | None:
    """The reading worth most to the verdict; None where it isn't in doubt, or none is worth it.

    Parameters
    ----------
    engine, results, margins
        Of a check, with its engines drawn.
    """
    found = outcomes(results, in_the_odds(margins))
    if not SURE < float(found.holds.mean()) < 1 - SURE:
        return None
    asked = found.holds.astype(np.float64)[None, :]
    each = [
        Narrows(reading, tuple(one.path for one in alike), reading.minutes * len(alike), share)
        for reading, alike in _readable(engine)
        if (share := _told(engine, reading, alike, asked, found.bells)) >= TELLING
    ]
    return max(each, key=lambda one: one.decides, default=None)


def _readable(engine: Engine) -> Iterator[tuple[Reading, list[Unknown]]]:
    """What can be measured at home before it runs, those of several cylinders together."""
    together: dict[str, list[Unknown]] = {}
    for unknown in Trials(engine).of_a_check:
        if unknown.path != SCATTER:
            together.setdefault(split(unknown.path)[1], []).append(unknown)
    for alike in together.values():
        reading = reading_of(engine, alike[0].path)
        if not reading.why_not and reading.stage != "running":
            yield reading, alike


def _told(
    engine: Engine, reading: Reading, alike: Sequence[Unknown], asked: Floats, bells: Bells
) -> float:
    """Share of the doubt that a reading of each takes away."""
    known = told = 0.0
    for one in alike:
        true, left = bells.of(one.path), span_left(reading, one, engine)
        share = float(shares_told(asked, true)[0])
        known += share
        if share > 0.0 and left < 1.0:
            luck = bells.of(f"error of the reading of {one.path}")
            told += float(shares_told(asked, read_with_error(true, left, luck))[0])
    return min(told, known)
