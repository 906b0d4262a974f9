"""Torque that springs, gas and inertia of the valves ask of the crank through the cam drive."""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np

from firstfire.engine.cam_lift import Span, bottom_after_top, flanks, has_table, valve_motion
from firstfire.engine.description import CylinderParts
from firstfire.engine.records import Array
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import cam_law
from firstfire.loads.motion import own_angles
from firstfire.loads.running import Running

_CYCLE = 4 * math.pi
_STEPS = 181


class Lift(NamedTuple):
    """Lift of a valve, m, and its first two derivatives by crank angle, m/rad and m/rad²."""

    lift: Array
    slope: Array
    curvature: Array


def cam_drive_torque(
    engine: PlainEngine, cylinder: int, run: Running, phase: float | None = None
) -> Array:
    """Torque the cams of one cylinder ask of the crank, N·m; negative where springs push it on.

    By virtual work: spring, inertia and the gas in the cylinder against each cam-worked valve,
    times lift by crank angle. Without friction, so that springs alone give back all they take.
    The port is taken at the surroundings' pressure and the gas on the whole head, which is the
    most it can be once the valve is open.

    Parameters
    ----------
    engine
        The engine.
    cylinder
        Counted from 0.
    run
        How it runs.
    phase
        Where `run` is at `firstfire.loads.motion.own_angles` of it, rad: lifts are then reckoned
        once.
    """
    parts = engine.cylinders[cylinder]
    over_port = run.pressure - engine.surroundings.air_pressure
    torque = np.zeros_like(run.angle)
    for valve, opens, shuts in timed(parts):
        if valve.worked != "cam":
            continue
        lift = _lift(valve, run.angle, opens, shuts, phase)
        spring = valve.spring_preload + valve.spring_rate * lift.lift
        thrown = valve.mass * (lift.curvature * run.speed**2 + lift.slope * run.gain)
        held = math.pi / 4 * valve.head_diameter**2 * over_port
        torque += (spring + thrown + held) * lift.slope
    return torque


def _lift(valve: CamValve, angle: Array, opens: float, shuts: float, phase: float | None) -> Lift:
    if phase is None or valve.cam_law == "table":
        return valve_lift(valve, angle, opens, shuts)
    return _lift_over_cycle(valve.cam_law, valve.lift, opens, shuts, phase)


@lru_cache(maxsize=32)
def _lift_over_cycle(law: str, lift: float, opens: float, shuts: float, phase: float) -> Lift:
    return _by_law(law, lift, np.mod(own_angles(phase) - opens, _CYCLE), shuts - opens)


def valve_lift(valve: CamValve, angle: Array, opens: float, shuts: float) -> Lift:
    """Lift over crank angle: up by the valve's law and down again the same way, without a dwell.

    Parameters
    ----------
    valve
        Its law and its largest lift are used; a lift table is a smooth curve through its rows.
    angle
        rad after the firing top centre.
    opens, shuts
        Crank angles at which it leaves its seat and is back, rad.
    """
    into = np.mod(angle - opens, _CYCLE)
    if has_table(valve):
        return _from_table(valve, into)
    return _by_law(valve.cam_law, valve.lift, into, shuts - opens)


def _by_law(law: str, lift: float, into: Array, open_for: float) -> Lift:
    """Lift by how far into its opening the cam is, rad."""
    flank = open_for / 2
    progress = np.clip(np.minimum(into, 2 * flank - into) / flank, 0.0, 1.0)
    steps, rise, velocity, acceleration = _law(law)
    # 0 on the base circle, where a law's own end need not be
    way = np.where(into < flank, 1.0, -1.0) * (into < 2 * flank)
    return Lift(
        lift * np.interp(progress, steps, rise),
        lift / flank * way * np.interp(progress, steps, velocity),
        lift / flank**2 * np.abs(way) * np.interp(progress, steps, acceleration),
    )


def timed(parts: CylinderParts) -> tuple[tuple[CamValve, float, float], ...]:
    """Each valve with the crank angles after the firing top centre that bound its lift."""
    bottom = bottom_after_top(parts)
    top = 2 * math.pi
    inlet, exhaust = parts.valves.inlet, parts.valves.exhaust
    return (
        (inlet, top - inlet.opens_before_top, top + bottom + inlet.closes_after_bottom),
        (exhaust, bottom - exhaust.opens_before_bottom, top + exhaust.closes_after_top),
    )


def _from_table(valve: CamValve, into: Array) -> Lift:
    """By crank angle after opening, from even steps of the curve that the cam follows."""
    place, rise, velocity, acceleration = _curve(valve)
    return Lift(
        np.interp(into, place, rise, right=0.0),
        np.interp(into, place, velocity, right=0.0),
        np.interp(into, place, acceleration, right=0.0),
    )


_FINE = 721


@lru_cache(maxsize=16)
def _curve(valve: CamValve) -> tuple[Array, Array, Array, Array]:
    """Crank angle after opening, and lift with its first two derivatives by crank angle."""
    at = flanks(valve, Span(0.0, _CYCLE))
    turned = np.linspace(at.begins, at.ends, _FINE)
    motion = np.array([valve_motion(valve, Span(0.0, _CYCLE), one) for one in turned.tolist()])
    return 2 * turned, motion[:, 0], motion[:, 1] / 2, motion[:, 2] / 4


@cache
def _law(name: str) -> tuple[Array, Array, Array, Array]:
    """Progress, rise, velocity and acceleration of a named law at even steps."""
    law: cam_law.RiseLaw = getattr(cam_law, name)
    steps = np.linspace(0.0, 1.0, _STEPS)
    values = np.array([law(float(step)) for step in steps])
    # A law says 0 outside its rise, and some count the ends as outside.
    values[0], values[-1] = law(1e-9), law(1.0 - 1e-9)
    return steps, values[:, 0], values[:, 1], values[:, 2]
