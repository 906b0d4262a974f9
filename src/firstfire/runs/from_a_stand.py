"""Turned over from a stand: rings that stick first, compression let off until it turns fast."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.decompression import Decompression, whole_turn
from firstfire.runs.spun import Floats, Spun, Turning, turned_on
from firstfire.runs.stalled import Stalled
from firstfire.runs.stood import Stood

_CYCLE = 4 * math.pi
_LOOKED_AT = 0.05
"""Between two looks at how fast it turns, s."""
_NEAR = 1e-6


def turned_from_a_stand(
    plain: PlainEngine,
    turning: Turning,
    until: float,
    stop: Callable[[], bool] | None = None,
    until_angle: float = math.inf,
    stalled: Stalled | None = None,
) -> tuple[Turning, Spun]:
    """On to a time, its rings loosened and its holes shut on the way, with every step.

    Parameters
    ----------
    plain
        Plain numbers.
    turning
        From where: a stand.
    until
        s since it began.
    stop
        Asked at least every 0.1 s.
    until_angle
        Or on to an angle, rad, if that comes first.
    stalled
        Fed with all its steps.

    Raises
    ------
    Stopped
        If `stop` said so.
    """
    phases, stalled = firing_angles(plain), stalled or Stalled()
    holes = Decompression(plain, turning.spec, turning.engines)
    holes.stands_at(_angle(turning), phases)
    stuck = Stood(plain, turning.engines, _angle(turning))
    pieces: list[Spun] = []
    while (holes.acts or stuck.acts) and turning.seconds < until - 1e-12:
        if _angle(turning) > until_angle - _NEAR:
            return turning, _joined(pieces)
        mark, row, opens = _next(_angle(turning), phases, holes.shuts)
        looked = min(until, turning.seconds + _LOOKED_AT)
        ahead = min(mark, stuck.until, until_angle)
        let_off = holes.let_off(_angle(turning), phases)
        turning, spun = turned_on(turning, looked, until_angle=ahead, stop=stop)
        stalled.feel(spun.speed, let_off=let_off)
        pieces.append(spun)
        if _angle(turning) > mark - _NEAR and holes.shuts > 0.0:
            holes.turn(row, opens=opens)
        stuck.feel(_angle(turning))
        passed = [(float(one.time[0]), float(one.angle[0])) for one in pieces]
        holes.feel(whole_turn(passed, turning.seconds, _angle(turning)), turning.seconds)
    let_off = holes.let_off(_angle(turning), phases)
    turning, spun = turned_on(turning, until, until_angle=until_angle, stop=stop)
    stalled.feel(spun.speed, let_off=let_off)
    return turning, _joined([*pieces, spun])


def _angle(turning: Turning) -> float:
    return float(turning.state.values[0])


def _next(angle: float, phases: Sequence[float], shuts: float) -> tuple[float, int, bool]:
    """The next angle at which a hole opens or shuts, its cylinder, and whether it opens."""
    found = []
    for row, phase in enumerate(phases):
        for opens, at in ((True, phase - math.pi), (False, phase - shuts)):
            turns = math.floor((angle + _NEAR - at) / _CYCLE) + 1
            found.append((at + turns * _CYCLE, row, opens))
    return min(found)


def _joined(pieces: Sequence[Spun]) -> Spun:
    """All of them as one; each begins with the row that the one before ends with."""
    kept = [pieces[0], *(Spun(*(column[1:] for column in _columns(one))) for one in pieces[1:])]
    return Spun(*(np.concatenate(each) for each in zip(*map(_columns, kept), strict=True)))


def _columns(spun: Spun) -> list[Floats]:
    return [spun.time, spun.angle, spun.speed, spun.rotor, spun.pressure]
