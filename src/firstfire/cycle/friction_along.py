"""Friction torques along a cycle: what rubs, at each step, contact by contact."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass

import numpy as np

from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.cycle_trace import CycleTrace
from firstfire.cycle.friction import (
    BY_BEARINGS,
    BY_DRIVE,
    BY_RINGS,
    BY_SKIRTS,
    BY_VALVE_GEAR,
    FRICTION_SUMS,
    cylinder_friction,
    shaft_friction,
)
from firstfire.cycle.layout import RUBBING_RECORD, SHAFT_RUBBING_RECORD, Floats, Records
from firstfire.cycle.mechanism import piston_motion
from firstfire.cycle.records import EngineSpec, ValveSpec
from firstfire.cycle.rubbing import Rubbing, ShaftRubbing, cam_rubbing, rubbing, shaft_rubbing
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank

_CYCLE = 4 * math.pi

NAMES = {
    "rings": BY_RINGS,
    "skirts": BY_SKIRTS,
    "bearings": BY_BEARINGS,
    "valve gear": BY_VALVE_GEAR,
    "cam drive": BY_DRIVE,
}


@dataclass(frozen=True)
class Friction:
    """Friction over one cycle.

    Attributes
    ----------
    torque
        Of all contacts against the turning, N m, (rows,), 0 or more.
    mean_torque
        Its mean over the cycle, N m.
    by_contact
        Mean torque of rings, skirts, bearings (crank, pins, seals), valve gear and cam drive.
    rod_ends
        Of each cylinder, mean torque of its rod's big and small end: they are among the bearings.
    """

    torque: Floats
    mean_torque: float
    by_contact: dict[str, float]
    rod_ends: tuple[tuple[float, float], ...] = ()


def friction_along(engine: PlainEngine, spec: EngineSpec, curves: CycleTrace) -> Friction:
    """Friction torque at each step of a cycle.

    Parameters
    ----------
    engine
        Plain numbers.
    spec
        The network, for the valves' lift.
    curves
        The cycle.
    """
    torques = np.zeros((len(curves.angle), FRICTION_SUMS))
    below = _under_the_pistons(spec, curves)
    load = np.zeros(len(curves.angle))
    ends = []
    for row, cylinder in enumerate(spec.cylinders):
        parts = engine.cylinders[row]
        inline = curves.angle - cylinder.phase
        inline = inline + slider_crank.top_centre_angle(
            cylinder.throw, cylinder.rod, cylinder.offset
        )
        drop = curves.pressure[:, row] - below[:, row]
        area = math.pi / 4 * parts.cylinder.bore**2
        mechanism = np.array([area, cylinder.throw, cylinder.rod, cylinder.offset])
        rubs, before = rubbing(engine, row), load.copy()
        _rub_cylinder(
            _record(RUBBING_RECORD, rubs), mechanism, inline, curves.speed, drop, torques, load
        )
        swing = np.abs(cylinder.throw / cylinder.rod * np.cos(inline))
        ends.append(_rod_ends(rubs, load - before, swing, curves.angle))
    _rub_shaft(_record(SHAFT_RUBBING_RECORD, shaft_rubbing(engine)), load, curves.speed, torques)
    torques[:, BY_VALVE_GEAR] = _cams(engine, spec, curves.angle)
    means = np.trapezoid(torques, curves.angle, axis=0) / (curves.angle[-1] - curves.angle[0])
    return Friction(
        torque=torques.sum(axis=1),
        mean_torque=float(means.sum()),
        by_contact={name: float(means[at]) for name, at in NAMES.items()},
        rod_ends=tuple(ends),
    )


def _rod_ends(rubs: Rubbing, force: Floats, swing: Floats, angle: Floats) -> tuple[float, float]:
    """Mean torques of one rod's big and small end, N m, as the compiled law has them."""
    big = np.trapezoid(force * rubs.crankpin, angle)
    small = np.trapezoid(force * rubs.piston_pin * swing, angle)
    turned = angle[-1] - angle[0]
    return float(big / turned), float(small / turned)


def _record(kind: np.dtype[np.void], spec: Rubbing | ShaftRubbing) -> Records:
    record = np.zeros(1, kind)
    for name, value in asdict(spec).items():
        record[0][name] = value
    return record


def _under_the_pistons(spec: EngineSpec, curves: CycleTrace) -> Floats:
    """Pressure under each piston, (rows, cylinders), Pa."""
    names = [c.name for c in spec.cylinders] + [v.name for v in spec.volumes]
    below = np.full((len(curves.angle), len(spec.cylinders)), spec.ambient_pressure)
    for row, cylinder in enumerate(spec.cylinders):
        if cylinder.crankcase is not None:
            below[:, row] = curves.pressure[:, names.index(cylinder.crankcase)]
    return below


@kernel_entry
def _rub_cylinder(
    records: Records,
    mechanism: Floats,
    inline: Floats,
    speed: Floats,
    drop: Floats,
    torques: Floats,
    load: Floats,
) -> None:
    """Add one cylinder's friction to the torques, and its rod's force to the bearings' load."""
    record = records[0]
    area, throw, rod, offset = mechanism[0], mechanism[1], mechanism[2], mechanism[3]
    for step in range(len(inline)):
        _, slope, curvature = piston_motion(inline[step], throw, rod, offset)
        cosine, lean = math.cos(inline[step]), (throw * math.sin(inline[step]) - offset) / rod
        rings, skirt, pins, force = cylinder_friction(
            record, area, throw, rod, cosine, slope, curvature, lean, speed[step], drop[step]
        )
        torques[step, BY_RINGS] += rings
        torques[step, BY_SKIRTS] += skirt
        torques[step, BY_BEARINGS] += pins
        load[step] += force


@kernel_entry
def _rub_shaft(records: Records, load: Floats, speed: Floats, torques: Floats) -> None:
    """Add what rubs once an engine."""
    record = records[0]
    for step in range(len(load)):
        torques[step, BY_BEARINGS] += shaft_friction(record, load[step], speed[step])
        torques[step, BY_DRIVE] += record.drive


def _cams(engine: PlainEngine, spec: EngineSpec, angle: Floats) -> Floats:
    """Torque of all cams, N m, (rows,)."""
    total = np.zeros(len(angle))
    for number, parts in enumerate(engine.cylinders, start=1):
        for name, valve in (("inlet", parts.valves.inlet), ("exhaust", parts.valves.exhaust)):
            cam = next(v for v in spec.valves if v.name == f"{name} {number}")
            lift = lift_along(cam, angle)
            force = valve.spring_preload + valve.spring_rate * lift
            total += np.where(lift > 0.0, cam_rubbing(engine, valve) * force, 0.0)
    return total


def lift_along(valve: ValveSpec, angle: Floats) -> Floats:
    """Lift of a cam-worked valve at shaft angles, m; 0 for one that suction opens."""
    if valve.opens is None or valve.closes is None or valve.lift_law is None:
        return np.zeros(len(angle))
    share = ((angle - valve.opens) % _CYCLE) / (valve.closes - valve.opens)
    even = np.linspace(0.0, 1.0, len(valve.lift_law))
    lift: Floats = valve.max_lift * np.interp(share, even, valve.lift_law, right=0.0)
    return lift
