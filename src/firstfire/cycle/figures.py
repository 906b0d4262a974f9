"""What a cycle of a cylinder comes to: peak, mean effective pressures, filling, heat, leak."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.cycle_trace import CycleTrace
from firstfire.cycle.records import CylinderSpec, EngineSpec, ValveSpec
from firstfire.cycle.run import Trace
from firstfire.cycle.thermo_data import air

Floats = NDArray[np.float64]
CYCLE = 4.0 * math.pi
SAME = 1e-6
"""Crank angles nearer than this are one, rad."""
_REPEATS = 0.05
"""Share by which the air in a cylinder may differ from cycle to cycle for a cycle that repeats."""


@dataclass(frozen=True)
class CylinderFigures:
    """One cylinder over one cycle.

    Attributes
    ----------
    peak_pressure, peak_angle
        Pa, and crank angle after its firing top centre, rad.
    imep_gross, imep_net, pmep
        Pa: work from the bottom centre before to that after firing, over the whole cycle, and
        net less gross (negative: pumping costs), each over the displacement.
    ca50
        Crank angle after firing top centre where half the charge is burned, rad; None unfired.
    volumetric_efficiency
        Air through the inlet valves over displacement full of ambient air.
    filling_trapped
        Air that is in it more when the last valve shuts before compression than at the top centre
        of gas exchange, over the same: what came in in time and stayed.
    inlet_shut
        Crank angle after bottom centre at which it did, rad.
    spat_back
        Share of what flows in through the inlet valves that flows out there again.
    trapped_mass, residual_fraction, trapped_phi
        When the last valve shut before compression: kg; burned gas by mass; equivalence ratio of
        the fresh part.
    peak_temperature
        Highest mass-mean temperature, K.
    burned_peak_temperature
        Highest of the burned zone, K; None unfired.
    heat
        To crown, head, valves and liner, J a cycle.
    heat_fraction
        The same over the energy of the fuel trapped; None without fuel.
    work
        ∮p dV, J.
    leaked_fraction
        Mass that left through passages other than valves, net, over mass trapped.
    """

    peak_pressure: float
    peak_angle: float
    imep_gross: float
    imep_net: float
    pmep: float
    ca50: float | None
    volumetric_efficiency: float
    filling_trapped: float
    inlet_shut: float
    spat_back: float
    trapped_mass: float
    residual_fraction: float
    trapped_phi: float
    peak_temperature: float
    burned_peak_temperature: float | None
    heat: tuple[float, float, float, float]
    heat_fraction: tuple[float, float, float, float] | None
    work: float
    leaked_fraction: float


def is_inlet(valve: ValveSpec, phase: float) -> bool:
    """Whether a valve lets in: opened by suction, or open mostly in the stroke before compression.

    Parameters
    ----------
    valve, phase
        The valve, and the shaft angle of its cylinder's firing top centre, rad.
    """
    if valve.opens is None or valve.closes is None:
        return True
    middle = (0.5 * (valve.opens + valve.closes) - phase) % CYCLE
    return middle > 0.5 * CYCLE


def cylinder_figures(
    spec: EngineSpec, engines: layout.Records, trace: Trace, curves: CycleTrace, row: int
) -> CylinderFigures:
    """The figures of one cylinder from a trace of exactly one cycle."""
    cylinder, engine = spec.cylinders[row], engines[0]
    record = engine["cylinders"][row]
    swept = float(record["displacement"])
    local, order = _local(curves.angle, cylinder.phase)
    pressure = curves.pressure[order, row]
    peak, peak_angle = _peak(local, pressure)
    sums = int(engine["cylinder_sums_at"]) + row * layout.CYLINDER_SUMS
    change = trace.values[-1, sums : sums + layout.CYLINDER_SUMS]
    change = change - trace.values[0, sums : sums + layout.CYLINDER_SUMS]
    gross = _work_between(trace, curves, cylinder, row, sums, (-math.pi, math.pi)) / swept
    net = float(change[layout.WORK]) / swept
    # What was noted last before the firing top centre: a suction valve may open again after it.
    fires = int(order[np.searchsorted(local, 0.0) - 1])
    event = trace.events[fires, row]
    full = swept * spec.ambient_pressure / (air(spec.water).gas_constant * spec.ambient_temperature)
    went_in, went_back = _through_inlets(spec, engines, trace, row)
    mass, fuel = float(event["reference_mass"]), float(event["reference_fuel"])
    burned = float(event["reference_burned"])
    fresh_air = mass - fuel - burned
    heat = tuple(float(q) for q in change[layout.HEAT_CROWN :])
    energy = fuel * float(engine["gas"]["lower_heating_value"])
    fired = bool(np.any(curves.burned_fraction[:, row] > 0.0))
    hot = curves.burned_temperature[:, row]
    return CylinderFigures(
        peak_pressure=peak,
        peak_angle=peak_angle,
        imep_gross=gross,
        imep_net=net,
        pmep=net - gross,
        ca50=_ca50(local, curves.burned_fraction[order, row]) if fired else None,
        volumetric_efficiency=_air_in(spec, engines, trace, row) / full,
        filling_trapped=(fresh_air - _air_left(curves, row, order, fires)) / full,
        inlet_shut=_after_bottom(float(event["reference_angle"]), cylinder.phase),
        spat_back=went_back / went_in if went_in > 0.0 else 0.0,
        trapped_mass=mass,
        residual_fraction=burned / mass if mass > 0 else 0.0,
        trapped_phi=fuel / fresh_air * float(engine["gas"]["stoichiometric_air_fuel_ratio"])
        if fresh_air > 0
        else 0.0,
        peak_temperature=float(curves.temperature[:, row].max()),
        burned_peak_temperature=float(np.nanmax(hot)) if fired else None,
        heat=(heat[0], heat[1], heat[2], heat[3]),
        heat_fraction=(heat[0] / energy, heat[1] / energy, heat[2] / energy, heat[3] / energy)
        if energy > 0.0 and fired
        else None,
        work=float(change[layout.WORK]),
        leaked_fraction=_leaked(spec, engines, trace, row) / mass if mass > 0 else 0.0,
    )


def _local(angle: Floats, phase: float) -> tuple[Floats, NDArray[np.intp]]:
    """Crank angles from -2π to 2π about a cylinder's firing top centre, sorted, and the order."""
    local = (angle - phase + 0.5 * CYCLE) % CYCLE - 0.5 * CYCLE
    order = np.argsort(local, kind="stable")
    return local[order], order


def _peak(angle: Floats, pressure: Floats) -> tuple[float, float]:
    """Top of the parabola through the highest point and its neighbours: Pa and rad."""
    # Where a cycle begins at this angle its first and last state stand side by side.
    apart = np.concatenate([[True], np.diff(angle) > SAME])
    angle, pressure = angle[apart], pressure[apart]
    top = int(np.argmax(pressure))
    highest, there = float(pressure[top]), float(angle[top])
    if top in (0, len(pressure) - 1):
        return highest, there
    near = slice(top - 1, top + 2)
    x, y = angle[near] - there, pressure[near]
    left, right = (y[0] - y[1]) / x[0], (y[2] - y[1]) / x[2]
    bend = (right - left) / (x[2] - x[0])
    slope = left - bend * x[0]
    if bend >= 0.0:
        return highest, there
    at = -slope / (2.0 * bend)
    if not x[0] <= at <= x[2]:
        return highest, there
    return float(highest - slope**2 / (4.0 * bend)), float(there + at)


def _work_between(
    trace: Trace,
    curves: CycleTrace,
    cylinder: CylinderSpec,
    row: int,
    at: int,
    ends: tuple[float, float],
) -> float:
    """Work of a cylinder between two angles about its firing top centre, within the cycle, J."""
    angle, work = curves.angle, trace.values[:, at]
    slope = np.gradient(curves.volume[:, row], angle) * curves.pressure[:, row]
    keep = np.concatenate([[True], np.diff(angle) > 1e-12])
    angle, work, slope = angle[keep], work[keep], slope[keep]
    whole = float(work[-1] - work[0])
    until = []
    for local in ends:
        turned = (cylinder.phase + local - float(angle[0])) / CYCLE
        within = _cubic_at(angle[0] + CYCLE * (turned % 1.0), angle, work, slope)
        until.append(whole * math.floor(turned) + within)
    return until[1] - until[0]


def _cubic_at(at: float, x: Floats, y: Floats, slope: Floats) -> float:
    """A curve given by points and slopes, at a place between two of them: Hermite's cubic."""
    i = int(np.clip(np.searchsorted(x, at) - 1, 0, len(x) - 2))
    width = x[i + 1] - x[i]
    t = (at - x[i]) / width
    left = (1.0 + 2.0 * t) * y[i] + width * t * slope[i]
    right = (3.0 - 2.0 * t) * y[i + 1] + width * (t - 1.0) * slope[i + 1]
    return float((1.0 - t) ** 2 * left + t**2 * right)


def _ca50(angle: Floats, fraction: Floats) -> float | None:
    """Where half of what burns at all is burned, on the rising side."""
    half = 0.5 * float(fraction.max())
    above = np.flatnonzero(fraction >= half)
    if not len(above) or above[0] == 0:
        return None
    i = int(above[0])
    low, high = fraction[i - 1], fraction[i]
    return float(angle[i - 1] + (half - low) / (high - low) * (angle[i] - angle[i - 1]))


def _passed(engines: layout.Records, trace: Trace, passage: int) -> Floats:
    """What went through a passage in the cycle: its sums."""
    at = int(engines[0]["passage_sums_at"]) + passage * layout.PASSAGE_SUMS
    passed: Floats = trace.values[-1, at : at + layout.PASSAGE_SUMS]
    change: Floats = passed - trace.values[0, at : at + layout.PASSAGE_SUMS]
    return change


def _air_left(curves: CycleTrace, row: int, order: NDArray[np.intp], fires: int) -> float:
    """Air in a cylinder at the top centre of gas exchange before its compression, kg.

    Where a cycle does not repeat and the trace begins after that top centre (a first combustion
    after turning without fire), a clearance volume as dense as when the inlet shut.
    """
    air = curves.mass[:, row] - curves.mass_fuel[:, row] - curves.mass_burned[:, row]
    top = int(order[0])
    repeats = abs(air[-1] - air[0]) < _REPEATS * float(air.max())
    if repeats or curves.angle[top] < curves.angle[fires]:
        return float(air[top])
    volume = curves.volume[:, row]
    return float(air[fires] * volume.min() / volume.max())


def _after_bottom(angle: float, phase: float) -> float:
    """A shaft angle counted from the bottom centre before a cylinder's firing, -2π to 2π, rad."""
    return (angle - phase + math.pi + 0.5 * CYCLE) % CYCLE - 0.5 * CYCLE


def _through_inlets(
    spec: EngineSpec, engines: layout.Records, trace: Trace, row: int
) -> tuple[float, float]:
    """What flowed in through a cylinder's inlet valves, and what of it out again, kg."""
    cylinder, forth, back = spec.cylinders[row], 0.0, 0.0
    for passage, valve in enumerate(spec.valves):
        if valve.cylinder == cylinder.name and is_inlet(valve, cylinder.phase):
            passed = _passed(engines, trace, passage)
            back += float(passed[layout.PASSED_BACK])
            forth += float(passed[layout.PASSED_MASS] + passed[layout.PASSED_BACK])
    return forth, back


def _air_in(spec: EngineSpec, engines: layout.Records, trace: Trace, row: int) -> float:
    """Air through a cylinder's inlet valves, net, kg."""
    cylinder = spec.cylinders[row]
    total = 0.0
    for passage, valve in enumerate(spec.valves):
        if valve.cylinder == cylinder.name and is_inlet(valve, cylinder.phase):
            passed = _passed(engines, trace, passage)
            total += float(passed[layout.PASSED_MASS])
            total -= float(passed[layout.PASSED_FUEL] + passed[layout.PASSED_BURNED])
    return total


def _leaked(spec: EngineSpec, engines: layout.Records, trace: Trace, row: int) -> float:
    """Mass out of a cylinder through passages that are no valves, net, kg."""
    name = spec.cylinders[row].name
    total = 0.0
    for passage, opening in enumerate(spec.passages, start=len(spec.valves)):
        out = float(_passed(engines, trace, passage)[layout.PASSED_MASS])
        if opening.start == name:
            total += out
        elif opening.end == name:
            total -= out
    return total
