"""A start's account as the page shows it: fragments of HTML, and its shaft's way in time."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from firstfire.pages.answers.templates import rendered
from firstfire.report.start import start_shown
from firstfire.runs.start.account import Account
from firstfire.verdict.start.words import story

_MOST = 2400
"""Moments of a start that are told: one some 2 ms of five seconds."""
_PARTS: Mapping[str, tuple[float, float]] = {
    "cranking": (0.0, 0.06), "kick-back": (0.06, 0.08), "torque by speed": (0.08, 0.12),
    "advance": (0.12, 0.15), "idle": (0.15, 0.16), "priming": (0.16, 0.18), "story": (0.18, 0.2),
    "over-run": (0.2, 0.45), "odds": (0.45, 0.85), "changes": (0.85, 1.0),
}  # fmt: skip
"""From which share of the whole to which each part takes, roughly."""
_TOLD_FROM = 0.1
"""Share from which an estimate of the rest is worth telling."""


@dataclass
class Far:
    """How far an account is.

    Attributes
    ----------
    clock
        Seconds, rising.
    """

    clock: Callable[[], float] = time.monotonic
    _begun: float = field(default=0.0, init=False)

    def __post_init__(self) -> None:
        self._begun = self.clock()

    def now(self, what: str, share: float) -> dict[str, Any]:
        """What is told of it: what is being done, the share of the whole, and seconds left.

        Examples
        --------
        >>> Far(iter([0.0, 30.0]).__next__).now("odds", 0.125)
        {'what': 'odds', 'share': 0.5, 'left': 30.0}
        """
        low, high = _PARTS.get(what, (0.0, 1.0))
        reached = low + (high - low) * min(max(share, 0.0), 1.0)
        gone = self.clock() - self._begun
        left = gone / reached - gone if reached >= _TOLD_FROM else None
        return {"what": what, "share": reached, "left": left}


def start_told(found: Account, wrong: tuple[str, ...]) -> dict[str, Any]:
    """An account as the page shows it.

    Parameters
    ----------
    found
        The account.
    wrong
        Faults that it was given, as asked for.
    """
    return {
        "html": rendered("start_body.html.j2", **start_shown(found, wrong)),
        "story": way(found),
    }


def way(found: Account) -> dict[str, Any]:
    """How the shaft of the engine as it is written went: for a mechanism moved in time.

    Returns
    -------
    dict
        ``time`` in s, ``angle`` in degrees after the firing top centre of cylinder 1, unwrapped,
        ``rpm``; ``burns``: cylinder from 0 and second of each spark that lit; ``misses`` likewise;
        ``told``: second and words of each moment of the story.
    """
    spun, lived = found.lived.spun, found.lived
    ends = float(spun.time[-1])
    at = np.linspace(0.0, ends, min(_MOST, len(spun.time)))
    angle = np.degrees(np.interp(at, spun.time, spun.angle))
    rpm = np.interp(at, spun.time, spun.speed) * 30 / math.pi
    sparks = [(s.cylinder, round(s.seconds, 4), s.missed) for s in lived.sparks]
    return {
        "time": [round(float(t), 4) for t in at],
        "angle": [round(float(a), 1) for a in angle],
        "rpm": [round(float(s), 1) for s in rpm],
        "burns": [(row, when) for row, when, missed in sparks if missed is None],
        "misses": [(row, when) for row, when, missed in sparks if missed is not None],
        "told": [(round(one.seconds, 4), one.what) for one in story(found)],
    }
