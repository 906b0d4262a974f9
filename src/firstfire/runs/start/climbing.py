"""A first combustion before top: what the shaft has at its spark, and what is in its way.

A shaft is stopped, or thrown back, when, somewhere before its top, what compression, the early burn
and friction have taken comes to all that it had at the spark and its starter has added. A slower
shaft gives the burn more time and its starter more to push with, so both are those of the slowest
one that just gets over: the shaft at hand is as far from being stopped as it has more than that.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.cycle_trace import rates_of_trace
from firstfire.engine.climb import Climb
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.runs.start.first_burn import FirstBurn
from firstfire.runs.start.first_combustion import ready_to_light
from firstfire.runs.steadily import Steadily

Floats = NDArray[np.float64]
Stop = Callable[[], bool]

_NEAR = 1e-6
"""An angle that is so near is reached, rad."""
_SLOWEST, _MORE, _MOST = 1e-3, 2.0, 400.0
"""Least energy at the spark that is tried, of what there is; how it is raised, and the most."""
_NOTHING = 1e-6
"""Share of what a shaft has at its spark that counts for nothing left."""
_FINE = 0.02
"""How near the least energy is found that gets over, as a share of it."""

NOT_TURNED = "its starter doesn't turn it over, so that no combustion meets it turning"
LET_OFF = "its starter turns it only while its compression is let off, which kicks less"
NOT_LIT = "its first charge doesn't light"
AFTER_TOP = "its spark comes after top centre, where what it lights drives the shaft on"
NOTHING_AGAINST = "nothing presses against it between its spark and its top"


def climb(
    plain: PlainEngine, row: int, turned: Steadily, strong: float, stop: Stop | None = None
) -> Climb:
    """What a cylinder's first combustion meets before its top, and what throws it back.

    Parameters
    ----------
    plain
        Plain numbers.
    row
        Cylinder that is lit first, counted from 0.
    turned
        How its starter turns it.
    strong
        In standard deviations, how much quicker than the mean it burns.
    stop
        Asked at least every 0.1 s.
    """
    ready = ready_to_light(plain, row, turned.shaft, turned.speed, stop)
    if ready.stands:
        return Climb(why_not=NOT_TURNED)
    lit = ready.sparked(strong, stop)
    if not lit.lights:
        return Climb(why_not=NOT_LIT)
    spark = lit.sparks[-1].angle
    if spark >= 0.0:
        return Climb(why_not=AFTER_TOP)
    return taken(lit, slowest_over(lit, lit.angle - spark, stop))


def slowest_over(lit: FirstBurn, top: float, stop: Stop | None = None) -> FirstBurn:
    """The slowest that gets over its top, or one with a thousandth of the energy if that does.

    One that stands on its way doesn't, though a burned charge that cools and leaks may let its
    starter creep on.

    Parameters
    ----------
    lit
        At its spark.
    top
        Angle of the top that the spark comes before, rad.
    stop
        Asked at least every 0.1 s.
    """

    def tried(energy: float) -> FirstBurn:
        return lit.with_energy(energy).climbed(top, stop)

    def gets_over(went: FirstBurn) -> bool:
        return went.angle >= top - _NEAR and went.stalled.over

    slowest = tried(_SLOWEST)
    if gets_over(slowest):
        return slowest
    low, high = _SLOWEST, 1.0
    over = tried(high)
    while not gets_over(over) and high < _MOST:
        low, high = high, _MORE * high
        over = tried(high)
    left = _left_over(over)
    while high - low > _FINE * high:
        # what is left over at the least speed is about what it could do without
        guess = high * (1.0 - left) if left > 0.0 else 0.0
        middle = guess if low < guess < high * (1.0 - _FINE / 2) else math.sqrt(low * high)
        went = tried(middle)
        if gets_over(went):
            high, over, left = middle, went, _left_over(went)
        else:
            low, left = middle, 0.0
    return over


def _left_over(went: FirstBurn) -> float:
    """Energy at the least speed on its way, of that at the spark."""
    speed = went.trace.values[:, layout.SPEED]
    return float((speed.min() / speed[0]) ** 2)


def taken(lit: FirstBurn, over: FirstBurn) -> Climb:
    """What an engine has at its spark, and what another takes on its way over from there.

    It is told of where the other's way leaves this one least.

    Parameters
    ----------
    lit
        At its spark.
    over
        The slowest that gets over, followed from the spark on.
    """
    trace = over.trace
    speed, rotor = trace.values[:, layout.SPEED], trace.values[:, layout.ROTOR]
    energy = 0.5 * (over.shaft.inertia + _swung(over, trace.angle)) * speed**2
    energy += 0.5 * over.shaft.rotor * rotor**2
    gas, helped = _by_gas(over), _by_starter(over, trace.time, speed, rotor)
    rubbed = energy[0] + helped - gas - energy
    own = float(energy[0]) * (lit.speed / float(speed[0])) ** 2
    # a starter that brakes the fast one it takes to get over would leave this one nothing
    has = np.maximum(own + helped, _NOTHING * own)
    share = (gas + rubbed) / has
    at = int(np.argmax(share))
    if share[at] <= 0.0:
        return Climb(why_not=NOTHING_AGAINST)
    return Climb(
        inertia=2.0 * own / lit.speed**2, speed=lit.speed, helped=float(has[at]) - own,
        gas=float(gas[at]), rubbed=float(rubbed[at]),
    )  # fmt: skip


def _swung(went: FirstBurn, angle: Floats) -> Floats:
    """Inertia at the crank of what goes up and down, kg·m²: m (dz/dθ)²."""
    total = np.zeros(len(angle))
    for row, cylinder in enumerate(went.spec.cylinders):
        size = cylinder.throw, cylinder.rod, cylinder.offset
        own = angle - cylinder.phase + slider_crank.top_centre_angle(*size)
        rise = np.array([slider_crank.piston_height_slope(one, *size) for one in own.tolist()])
        total += float(went.engines[0]["cylinders"]["reciprocating_mass"][row]) * rise**2
    return total


def _by_gas(went: FirstBurn) -> Floats:
    """Work that the gas of all cylinders has taken since the spark, J: -∫ (p - p under) dV."""
    trace, engine = went.trace, went.engines[0]
    _, room = rates_of_trace(went.engines, trace)
    first, size = layout.SHAFT_SIZE + layout.PRESSURE, layout.VOLUME_SIZE
    total = np.zeros(len(trace.time))
    for row in range(int(engine["cylinder_count"])):
        below = int(engine["cylinders"]["crankcase"][row])
        air = float(engine["shaft"]["still_air"])
        under = trace.values[:, first + below * size] if below >= 0 else air
        total -= _along(trace.values[:, first + row * size] - under, room[:, row])
    return total


def _by_starter(went: FirstBurn, time: Floats, speed: Floats, rotor: Floats) -> Floats:
    """Work of the starter since the spark, J; its rotor's own energy is the shaft's."""
    shaft = went.shaft
    own = rotor if shaft.rotor > 0.0 else speed
    torque = shaft.starter_stall * (1.0 - own / shaft.starter_free)
    if shaft.starter_one_way:
        torque = np.maximum(torque, 0.0)
    return _along(torque * own, time)


def _along(value: Floats, over: Floats) -> Floats:
    """Integral from the beginning to each step, by straight lines."""
    pieces = 0.5 * (value[1:] + value[:-1]) * np.diff(over)
    return np.concatenate([[0.0], np.cumsum(pieces)])
