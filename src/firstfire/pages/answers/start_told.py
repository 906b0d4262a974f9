"""A start's account as the page shows it: fragments of HTML, and its shaft's way in time."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from firstfire.formulas.sound_level import sound_level
from firstfire.pages.answers.samples import AWAY, samples
from firstfire.pages.answers.templates import rendered
from firstfire.report.start import start_shown
from firstfire.runs.start.account import Account
from firstfire.runs.start.heard import Puffs, start_sound
from firstfire.verdict.start.words import story

_MOST = 2400
"""Moments of a start that are told: one some 2 ms of five seconds."""
_PARTS: Mapping[str, tuple[float, float]] = {
    "cranking": (0.0, 0.06), "kick-back": (0.06, 0.08), "torque by speed": (0.08, 0.12),
    "advance": (0.12, 0.15), "idle": (0.15, 0.16), "priming": (0.16, 0.18), "story": (0.18, 0.2),
    "over-run": (0.2, 0.45), "odds": (0.45, 0.85), "changes": (0.85, 1.0),
}  # fmt: skip
"""From which share of the whole to which each part takes, roughly."""
_RATE, _HEARD = 22_050.0, 12.0
"""Samples a second of its sound, and seconds of it that are told at most: half a megabyte."""
_STRETCH = 0.2
"""Of which the loudest is told, s."""
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
        "sound": sound_of_start(found.exhaust),
    }


def sound_of_start(given: Puffs) -> dict[str, Any]:
    """What is heard of that start: samples, from which second of it on, and words about them.

    Its samples are those of its own seconds: the way of the sound from there is left out.
    """
    sound = start_sound(given, distance=AWAY, rate=_RATE, most=_HEARD)
    length = round(_STRETCH * _RATE)
    if not sound.pressure.any():
        return {"words": "Nothing leaves its exhaust in this start: there is nothing to hear."}
    each = [sound.pressure[at : at + length] for at in range(0, len(sound.pressure), length)]
    loudest = max(each, key=lambda part: float((part * part).mean()))
    return {
        **samples(sound),
        "from": float(given.time[0]),
        "words": (
            f"Computed, of the exhaust alone, at {AWAY:g} m in the open: some "
            f"{sound_level(loudest):.0f} dB where it is loudest. Cranking is quiet beside a "
            "combustion, as it is. Played as loud as you set your speaker: an estimate."
        ),
    }


def way(found: Account) -> dict[str, Any]:
    """How the shaft of the engine as it is written went: for a mechanism moved in time.

    Returns
    -------
    dict
        ``time`` in s, ``angle`` in degrees after the firing top centre of cylinder 1, unwrapped,
        ``rpm``; ``burns``: cylinder from 0 and second of each spark that lit; ``misses`` likewise;
        ``told``: second and words of each moment of the story; ``pressure`` of each cylinder's gas
        in bar absolute.
    """
    spun, lived = found.lived.spun, found.lived
    ends = float(spun.time[-1])
    at = np.linspace(0.0, ends, min(_MOST, len(spun.time)))
    angle = np.degrees(np.interp(at, spun.time, spun.angle))
    rpm = np.interp(at, spun.time, spun.speed) * 30 / math.pi
    bars = spun.pressure[:, : len(found.plain.cylinders)].T / 1e5
    sparks = [(s.cylinder, round(s.seconds, 4), s.missed) for s in lived.sparks]
    return {
        "time": [round(float(t), 4) for t in at],
        "angle": [round(float(a), 1) for a in angle],
        "rpm": [round(float(s), 1) for s in rpm],
        "pressure": [[round(float(p), 2) for p in np.interp(at, spun.time, bar)] for bar in bars],
        "burns": [(row, when) for row, when, missed in sparks if missed is None],
        "misses": [(row, when) for row, when, missed in sparks if missed is not None],
        "told": [(round(one.seconds, 4), one.what) for one in story(found)],
    }
