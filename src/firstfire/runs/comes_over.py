"""Whether a starter brings an engine over its tops: asked by check, first combustion and start."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from firstfire.cycle import layout
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.from_a_stand import turned_from_a_stand
from firstfire.runs.spun import PAST_TOP, Turning, on_its_shaft, starter_line, turned_on
from firstfire.runs.stalled import Stalled
from firstfire.runs.walls import cold

Stop = Callable[[], bool]

_CYCLE = 4 * math.pi
TRIED = 3.0
"""How long a starter may take to bring it over one top, s: what is slower only leaks past it."""
LEAST_SPEED = 1e-6
"""A catalog row of one's own may say that a starter has no speed, or no torque: rad/s, N·m."""
LONGEST_COAST = 20.0
"""For how long it is followed once its starter is off, s."""
_AS_FAST = 0.99
"""A top passed with so much of the speed at the one before is followed by more like it."""
_LOOK = 0.2
_NEAR = 1e-6
"""An angle that is so near is reached, rad."""


def comes_over(
    plain: PlainEngine, shaft: ShaftSpec | None = None, stop: Stop | None = None
) -> bool:
    """Whether it comes over each top when turned back first until compression is felt behind.

    It then starts just past the firing top before. With its compression let off it has to come over
    also once that is shut.

    Parameters
    ----------
    plain
        Plain numbers.
    shaft
        What turns it; None: its starter's own line. One that turns backwards has to bring it back
        over the top behind.
    stop
        Asked at least every 0.1 s.
    """
    shaft = shaft or starter_line(plain)
    ahead = sorted(firing_angles(plain))
    if abs(shaft.starter_free) <= LEAST_SPEED or shaft.starter_stall == 0.0:
        return False
    if shaft.starter_free < 0.0:
        return all(_passes_backwards(plain, shaft, top + PAST_TOP, stop) for top in ahead)
    before = [ahead[-1] - _CYCLE, *ahead[:-1]]
    return all(
        passes(plain, shaft, past + PAST_TOP, top, stop)
        for past, top in zip(before, ahead, strict=True)
    )


def stroke_of(plain: PlainEngine) -> float:
    """Angle of the crank through which one pull goes, rad; infinite but for a rope.

    Parameters
    ----------
    plain
        Plain numbers.
    """
    starter = plain.starter
    if starter.pull_length is None or starter.drum_diameter is None:
        return math.inf
    return 2.0 * starter.pull_length / starter.drum_diameter * starter.ratio


def passes(
    plain: PlainEngine, shaft: ShaftSpec, start: float, top: float, stop: Stop | None
) -> bool:
    """Whether from a stand at an angle it passes the next such top by a few degrees.

    What stands on its way, or is thrown back, until its compression has leaked away, is not brought
    over by its starter, nor is what stands before a top that follows. With compression let off it
    is followed for as long as it is tried.

    Parameters
    ----------
    plain
        Plain numbers.
    shaft
        What turns it, forwards.
    start, top
        rad.
    stop
        Asked at least every 0.1 s.
    """
    goal = start + (top - start) % _CYCLE + PAST_TOP
    turning = on_its_shaft(plain, cold(plain), shaft, start)
    pulled, stalled = start + stroke_of(plain), Stalled()
    ends = pulled if plain.starter.decompression else min(goal, pulled)
    turning, spun = turned_from_a_stand(
        plain, turning, TRIED, stop, until_angle=ends, stalled=stalled
    )
    if not stalled.over:
        return False
    reached = float(spun.angle[-1])
    if ends < goal and reached >= ends - _NEAR:
        reached = coasted(plain, turning, shaft, goal, stop)
    if reached < goal - _NEAR:
        return False
    return ends != goal or _goes_on(turning, goal, pulled, stop)


def _goes_on(turning: Turning, goal: float, pulled: float, stop: Stop | None) -> bool:
    """Whether it passes the tops that follow, until one is passed as fast as the one before.

    A rotor that a clutch leaves behind may have given all its run-up to the first.
    """
    speed, stalled = float(turning.state.values[layout.SPEED]), Stalled()
    while goal < pulled and turning.seconds < TRIED:
        goal += _CYCLE
        turning, spun = turned_on(turning, TRIED, until_angle=min(goal, pulled), stop=stop)
        stalled.feel(spun.speed, let_off=False)
        before, speed = speed, float(spun.speed[-1])
        if stalled.stood or speed >= _AS_FAST * before:
            break
    return not stalled.stood


def _passes_backwards(
    plain: PlainEngine, shaft: ShaftSpec, start: float, stop: Stop | None
) -> bool:
    """Whether it comes back over the top behind the next, a whole cycle back."""
    turning, stalled = on_its_shaft(plain, cold(plain), shaft, start), Stalled(-1.0)
    spun = turned_from_a_stand(plain, turning, TRIED, stop, stalled=stalled)[1]
    return stalled.over and float(spun.angle.min()) < start - _CYCLE - 2 * PAST_TOP


def coasted(
    plain: PlainEngine, turning: Turning, shaft: ShaftSpec, goal: float, stop: Stop | None
) -> float:
    """How far it goes on once its starter is off, rad, up to a goal.

    Parameters
    ----------
    plain
        Plain numbers.
    turning
        From where.
    shaft
        What has turned it.
    goal
        rad.
    stop
        Asked at least every 0.1 s.
    """
    engines = turning.engines.copy()
    rotor = 0.0 if shaft.rotor > 0.0 else plain.starter.inertia / plain.starter.ratio**2
    engines[0]["shaft"]["starter_stall"] = engines[0]["shaft"]["rotor"] = 0.0
    engines[0]["shaft"]["inertia"] = max(shaft.inertia - rotor, 1e-9)
    turning = replace(turning, engines=engines)
    ends, furthest = turning.seconds + LONGEST_COAST, -math.inf
    while turning.seconds < ends:
        turning, spun = turned_on(turning, turning.seconds + _LOOK, until_angle=goal, stop=stop)
        now = float(spun.angle.max())
        if now <= furthest + _NEAR or now >= goal - _NEAR:
            return max(now, furthest)
        furthest = now
    return furthest
