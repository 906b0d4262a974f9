"""One cylinder on a free shaft with its starter, on the stepper of the whole engine.

A perfect gas, shut in between two angles and still air outside them: simple enough that a text
book's equations follow it, and worked by the same compiled step as an engine that is started.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.build import widening_along
from firstfire.cycle.one_cylinder import (
    PRESSURE_AT,
    Asked,
    Started,
    begun,
    checked,
    fired,
    run_on,
    turned_round,
    with_spark,
)
from firstfire.errors import OutsideValidity

Floats = NDArray[np.float64]

_LAST = 1.0
"""Of the end of a run, for which its mean and least speed are told, s."""
_COARSE, _FINE = 2.0, 1e-3
"""Degrees by which sparks are tried, latest first, and then how near."""


@dataclass(frozen=True)
class FreeShaft:
    """What a shaft did that a starter and one cylinder turned.

    Attributes
    ----------
    time
        s, at every step.
    angle
        Of the crank after firing top centre, going on beyond a turn, rad.
    speed
        rad/s.
    pressure
        In the cylinder, Pa.
    starter_torque, gas_torque
        On the crank, N·m, positive the way the engine turns.
    reversed
        Whether it ever turned backwards after it had turned forwards or stood.
    reversal_angle
        Where it first did, rad; NaN where it didn't.
    mean_speed_last_second, least_speed_last_second
        Mean in time and least speed of the last second, or of all if it was shorter, rad/s.
    """

    time: Floats = field(repr=False)
    angle: Floats = field(repr=False)
    speed: Floats = field(repr=False)
    pressure: Floats = field(repr=False)
    starter_torque: Floats = field(repr=False)
    gas_torque: Floats = field(repr=False)
    reversed: bool
    reversal_angle: float
    mean_speed_last_second: float
    least_speed_last_second: float


def free_shaft(
    *,
    bore: float,
    throw: float,
    rod: float,
    offset: float = 0.0,
    compression_ratio: float,
    inlet_closing: float,
    exhaust_opening: float,
    inertia: float,
    starter_stall_torque: float,
    starter_free_speed: float,
    starter_one_way: bool = False,
    friction_constant: float = 0.0,
    friction_per_speed: float = 0.0,
    ratio_of_heats: float = 1.38,
    ratio_of_heats_burned: float = 1.3,
    gas_constant: float = 287.0,
    ambient_pressure: float = 101325.0,
    ambient_temperature: float = 298.15,
    leak_area: float = 0.0,
    crankcase_pressure: float = 101325.0,
    start_angle: float,
    start_speed: float = 0.0,
    seconds: float,
    fire_at_seconds: float | None = None,
    spark: float | None = None,
    heat: float = 0.0,
    burn_seconds: float | None = None,
    wiebe_a: float = 5.0,
    wiebe_m: float = 2.0,
) -> FreeShaft:
    """How a shaft turns that a starter drives against one cylinder, with one burn or none.

    The cylinder is shut from `inlet_closing` to `exhaust_opening` about every second top centre;
    outside them it holds still air, at once. Nothing goes up and down but gas, no heat is lost.

    Parameters
    ----------
    bore, throw, rod, offset, compression_ratio
        As :func:`firstfire.closed_cycle` takes them.
    inlet_closing, exhaust_opening
        Crank angle after firing top centre, rad: the first negative, the second positive, within
        one turn either way.
    inertia
        Of all that turns, at the crank, kg·m².
    starter_stall_torque, starter_free_speed
        N·m at a stand and rad/s without load, at the crank; in a straight line between them and
        beyond: turned faster it brakes, turned backwards it pulls harder.
    starter_one_way
        Whether it has a clutch that lets the crank run ahead of it.
    friction_constant, friction_per_speed
        N·m against the turning, which also holds what stands, and N·m s.
    ratio_of_heats, ratio_of_heats_burned, gas_constant
        Of the charge, of what has burned, and J/(kg K) of both.
    ambient_pressure, ambient_temperature
        Of the still air, and of the charge that the run starts with, Pa and K.
    leak_area, crankcase_pressure
        Effective area from cylinder to crankcase, m², both ways, and what stands there and under
        the piston, Pa; at the ambient temperature.
    start_angle, start_speed, seconds
        Where it begins, rad after firing top centre and rad/s, and for how long it runs, s.
    fire_at_seconds, spark
        The charge burns at the first spark after this time, s; sparks come as the crank goes
        forwards over this angle after firing top centre, rad. None: it doesn't burn.
    heat, burn_seconds, wiebe_a, wiebe_m
        What the burn sets free, J, whatever leaks meanwhile, by Wiebe's law of the time since
        the spark over `burn_seconds`.

    Returns
    -------
    FreeShaft

    Raises
    ------
    OutsideValidity
        An argument outside the range above; the message names it.

    Notes
    -----
    Where the ratios of heats differ, burning changes no enthalpy at the temperature which the
    charge has at the spark; the heat comes in addition.

    Examples
    --------
    >>> drill = free_shaft(bore=0.04, throw=0.018, rod=0.065, compression_ratio=7.0,
    ...     inlet_closing=-2.2, exhaust_opening=2.2, inertia=2e-3, starter_stall_torque=14.0,
    ...     starter_free_speed=60.0, friction_constant=0.5, start_angle=-math.pi, seconds=2.0)
    >>> drill.reversed, round(drill.mean_speed_last_second * 30 / math.pi)
    (False, 537)
    """
    asked = checked(locals())
    if fire_at_seconds is None:
        return _told(asked, run_on(begun(asked), asked.seconds))
    before = run_on(begun(asked), min(fire_at_seconds, seconds))
    return _told(asked, fired(asked, before, asked.seconds))


def kick_back_angle(
    *,
    bore: float,
    throw: float,
    rod: float,
    offset: float = 0.0,
    compression_ratio: float,
    inlet_closing: float,
    exhaust_opening: float,
    inertia: float,
    starter_stall_torque: float,
    starter_free_speed: float,
    starter_one_way: bool = False,
    friction_constant: float = 0.0,
    friction_per_speed: float = 0.0,
    ratio_of_heats: float = 1.38,
    ratio_of_heats_burned: float = 1.3,
    gas_constant: float = 287.0,
    ambient_pressure: float = 101325.0,
    ambient_temperature: float = 298.15,
    leak_area: float = 0.0,
    crankcase_pressure: float = 101325.0,
    start_angle: float,
    start_speed: float = 0.0,
    seconds: float,
    fire_at_seconds: float,
    heat: float,
    burn_seconds: float,
    wiebe_a: float = 5.0,
    wiebe_m: float = 2.0,
) -> float | None:
    """The latest spark that turns the shaft round, rad after firing top centre; None: none does.

    Every later one lets it go on; nearly always every earlier one throws it back as well, but one
    so early that the charge had hardly been pressed may not.

    Parameters
    ----------
    bore, throw, rod, offset, compression_ratio, inlet_closing, exhaust_opening, inertia
        As :func:`free_shaft` takes them, like all others.

    Returns
    -------
    float or None
        To a thousandth of a degree.

    Raises
    ------
    OutsideValidity
        An argument outside its range, or a shaft that turns round without any burn.
    """
    asked = checked({**locals(), "spark": 0.0})
    before = run_on(begun(asked), fire_at_seconds)
    unfired = run_on(before, seconds, turned_round)
    if turned_round(unfired):
        raise OutsideValidity(
            "The shaft turns round without any burn: it does not come over its top, and no spark "
            "is the cause."
        )

    def throws_back(spark: float) -> bool:
        engines = before.engines.copy()
        engines["cylinders"]["burn_start"][0, 0] = spark
        again = with_spark(Started(engines, before.state, []), spark)
        return turned_round(fired(asked, again, seconds, turned_round))

    late, early = exhaust_opening, inlet_closing
    coarse = np.arange(late, early, -math.radians(_COARSE))
    found = next((float(spark) for spark in coarse[1:] if throws_back(float(spark))), None)
    if found is None:
        return None
    later = min(found + math.radians(_COARSE), late)
    while later - found > math.radians(_FINE):
        middle = 0.5 * (found + later)
        found, later = (middle, later) if throws_back(middle) else (found, middle)
    return found


def _told(asked: Asked, ended: Started) -> FreeShaft:
    rows = np.concatenate(ended.seen)
    time, angle, speed = rows[:, 0], rows[:, 1], rows[:, 2]
    pressure = rows[:, 1 + PRESSURE_AT]
    shaft = asked.spec.shaft
    assert shaft is not None  # it was put there with the rest
    starter = shaft.starter_stall * (1.0 - speed / shaft.starter_free)
    if shaft.starter_one_way:
        starter = np.maximum(starter, 0.0)
    under = asked.spec.volumes[1].pressure
    back = np.flatnonzero(speed < 0.0)
    if asked.start_speed < 0.0:  # it is turned backwards to begin with, which is no reversal
        forwards = np.flatnonzero(speed >= 0.0)
        back = back[back > forwards[0]] if len(forwards) else back[:0]
    late = time >= time[-1] - _LAST
    lasted = time[-1] - time[late][0]
    return FreeShaft(
        time=time,
        angle=angle,
        speed=speed,
        pressure=pressure,
        starter_torque=starter,
        gas_torque=widening_along(ended.engines, angle) * (pressure - under),
        reversed=bool(len(back)),
        reversal_angle=float(angle[back[0] - 1]) if len(back) else math.nan,
        mean_speed_last_second=float((angle[-1] - angle[late][0]) / lasted),
        least_speed_last_second=float(speed[late].min()),
    )
