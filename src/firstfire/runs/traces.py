"""The curves of operating points as a table: a row a step, one column a quantity."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import OperatingPoint

Column = NDArray[np.float64] | list[str]
_CYCLE = 4 * math.pi


def trace_table(points: Sequence[OperatingPoint], engine: PlainEngine) -> dict[str, Column]:
    """Columns of all points, one below the other; SI with units in names.

    Parameters
    ----------
    points
        At least one, of one engine.
    engine
        Plain numbers.

    Returns
    -------
    dict
        ``event``, ``speed_rpm``, ``angle_deg`` (of the shaft, -360 to 360, 0 = firing top centre
        of cylinder 1), then for each cylinder volume, pressure, mass-mean, unburned and burned
        temperature (NaN where there is no such zone), gas torque; then the flow through each
        passage, kg/s, and the friction torque.
    """
    tables = [_one(point, engine) for point in points]
    joined: dict[str, Column] = {
        "event": [point.event for point, t in zip(points, tables, strict=True)
                  for _ in range(len(t["angle_deg"]))]
    }  # fmt: skip
    for name in tables[0]:
        joined[name] = np.concatenate([table[name] for table in tables])
    return joined


def _one(point: OperatingPoint, engine: PlainEngine) -> dict[str, NDArray[np.float64]]:
    curves, cycle = point.fired.cycle.curves, point.fired.cycle
    turns = round((curves.angle[0] + _CYCLE / 2) / _CYCLE)
    columns = {
        "speed_rpm": curves.speed * 30 / math.pi,
        "angle_deg": np.degrees(curves.angle - turns * _CYCLE),
    }
    names = [c.name for c in point.fired.spec.cylinders]
    names += [v.name for v in point.fired.spec.volumes]
    case = names.index("case")
    for row in range(len(engine.cylinders)):
        label = f"cylinder_{row + 1}"
        columns[f"{label}_volume_m3"] = curves.volume[:, row]
        columns[f"{label}_pressure_pa"] = curves.pressure[:, row]
        columns[f"{label}_temperature_k"] = curves.temperature[:, row]
        columns[f"{label}_temperature_unburned_k"] = curves.unburned_temperature[:, row]
        columns[f"{label}_temperature_burned_k"] = curves.burned_temperature[:, row]
        slope = np.gradient(curves.volume[:, row], curves.angle)
        drop = curves.pressure[:, row] - curves.pressure[:, case]
        columns[f"{label}_torque_nm"] = drop * slope
    for place, name in enumerate(cycle.passages):
        columns[f"flow_{name.replace(' ', '_')}_kg_s"] = curves.flow[:, place]
    columns["friction_torque_nm"] = point.friction.torque
    return columns


def gas_cycles(point: OperatingPoint, engine: PlainEngine) -> tuple[GasCycle, ...]:
    """Each cylinder's cycle on its own angles, as loads and heat take it."""
    curves, spec = point.fired.cycle.curves, point.fired.spec
    names = [c.name for c in spec.cylinders] + [v.name for v in spec.volumes]
    case, phases = names.index("case"), firing_angles(engine)
    rings = list(point.fired.cycle.passages)
    found = []
    for row, phase in enumerate(phases):
        local = (curves.angle - phase + _CYCLE / 2) % _CYCLE - _CYCLE / 2
        order = np.argsort(local, kind="stable")
        keep = order[np.concatenate([[True], np.diff(local[order]) > 1e-9])]
        ring = f"ring leak {row + 1}"
        leak = curves.flow[:, rings.index(ring)] if ring in rings else np.zeros(len(local))
        found.append(
            GasCycle(
                angle=local[keep],
                speed=curves.speed[keep],
                pressure=curves.pressure[keep, row],
                volume=curves.volume[keep, row],
                gas_temperature=curves.temperature[keep, row],
                coefficient=_coefficient(point, row)[keep],
                crankcase_pressure=curves.pressure[keep, case],
                leak_to_crankcase=leak[keep],
            )
        )
    return tuple(found)


_TOLD_APART = 1.0
"""Kelvin between gas and wall above which heat tells its coefficient."""


def _coefficient(point: OperatingPoint, row: int) -> NDArray[np.float64]:
    """Heat transfer coefficient worked back from the heat to the head: q = h A (T - Tw).

    Where gas and wall are too near one another it is drawn through from both sides; gas that
    leaks so fast that it is never far from its wall tells by what little it warms. A coefficient
    of 0 is one that no heat ever shows.
    """
    cylinder = point.fired.spec.cylinders[row]
    curves = point.fired.cycle.curves
    area, heat = cylinder.head_area or 0.0, curves.wall_heat[:, row, 1]
    over = curves.temperature[:, row] - cylinder.walls.head
    apart = np.abs(over)
    least = min(_TOLD_APART, 0.1 * float(apart.max()))
    good = (apart >= least) & (apart * area > 0.0)
    if not good.any():
        return np.zeros(len(over))
    found = heat[good] / (area * over[good])
    filled: NDArray[np.float64] = np.interp(curves.angle, curves.angle[good], found)
    return filled
