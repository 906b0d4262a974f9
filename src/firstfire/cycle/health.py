"""How far a cycle's books are from closing, reckoned again from its trace.

Work and heat are integrated by splines through rates that are worked out afresh from the traced
states, not by the stepper's own sums; what went through the openings to the surroundings is
taken from those. A step too long, a flow booked at one end only or a property that is not the
slope of its own surface all show here.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import cumulative_simpson

from firstfire.cycle import layout
from firstfire.cycle.cycle_trace import rates_of_trace
from firstfire.cycle.layout import Records
from firstfire.cycle.mixture import GasTables, mixture_state
from firstfire.cycle.run import Trace

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Closure:
    """What is left over in a cycle's books.

    Attributes
    ----------
    energy
        Of all gas within the engine: change of internal energy, plus work and heat out, plus
        enthalpy out to the surroundings; over the energy of fuel that came in, or, without fuel,
        over the work of compression.
    mass
        The larger of two: of all gas within, change less what came in, over all that went
        through the cylinders; and of each cylinder while its valves are shut, what it lost less
        its leaks, integrated afresh, over its mass.
    """

    energy: float
    mass: float


def internal_energy(engines: Records, gas: GasTables, values: Floats, room: Floats) -> float:
    """Internal energy of all gas that is not surroundings, J, heats of formation included."""
    engine = engines[0]
    total = 0.0
    volumes = int(engine["volume_count"])
    for row in range(volumes):
        if engine["volumes"]["kind"][row] == layout.FIXED:
            continue
        at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
        pressure, temperature = values[at + layout.PRESSURE], values[at + layout.TEMPERATURE]
        masses = values[at + layout.AIR : at + layout.BURNED + 1]
        total += _enthalpy(gas, masses, temperature, pressure)
        total -= pressure * room[row]
        if row < int(engine["cylinder_count"]):
            zone = int(engine["cylinders_at"]) + row * layout.CYLINDER_SIZE
            masses = values[zone + layout.ZONE_AIR : zone + layout.ZONE_BURNED + 1]
            if masses.sum() > 0.0:
                total += _enthalpy(gas, masses, values[zone], pressure)
    return total


def _enthalpy(gas: GasTables, masses: Floats, temperature: float, pressure: float) -> float:
    state = mixture_state(gas, masses[0], masses[1], masses[2], temperature, pressure)
    return float(masses.sum() * state[0])


def closure(engines: Records, gas: GasTables, trace: Trace) -> Closure:
    """What is left over in the books of a trace; see :class:`Closure`."""
    engine = engines[0]
    doubled = both_sides(trace)
    time = doubled.time
    rates, room = rates_of_trace(engines, doubled)
    first, last = trace.values[0], trace.values[-1]
    cylinders, volumes = int(engine["cylinder_count"]), int(engine["volume_count"])
    out_energy = out_mass = through = 0.0
    for row in range(cylinders):
        sums = int(engine["cylinder_sums_at"]) + row * layout.CYLINDER_SUMS
        for term in range(layout.CYLINDER_SUMS):
            out_energy += _integral(time, rates[:, sums + term])
    for row in range(volumes):
        sums = int(engine["volume_sums_at"]) + row * layout.VOLUME_SUMS
        out_energy += _integral(time, rates[:, sums + layout.VOLUME_HEAT])
        if engine["volumes"]["kind"][row] == layout.CRANKCASE:
            at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE + layout.PRESSURE
            power = np.zeros(len(time))
            for cylinder in range(cylinders):
                if engine["cylinders"]["crankcase"][cylinder] != row:
                    continue
                sums = int(engine["cylinder_sums_at"]) + cylinder * layout.CYLINDER_SUMS
                over = layout.SHAFT_SIZE + cylinder * layout.VOLUME_SIZE + layout.PRESSURE
                growth = rates[:, sums + layout.WORK] / doubled.values[:, over]
                power -= doubled.values[:, at] * growth
            out_energy += _integral(time, power)
    for row in range(int(engine["passage_count"])):
        passage = engine["passages"][row]
        ends = (int(passage["start"]), int(passage["end"]))
        at = int(engine["passage_sums_at"]) + row * layout.PASSAGE_SUMS
        passed = last[at : at + layout.PASSAGE_SUMS] - first[at : at + layout.PASSAGE_SUMS]
        fixed = [engine["volumes"]["kind"][end] == layout.FIXED for end in ends]
        sign = float(fixed[1]) - float(fixed[0])
        out_energy += sign * passed[layout.PASSED_ENTHALPY]
        out_mass += sign * passed[layout.PASSED_MASS]
        if min(ends) < cylinders:
            through += abs(passed[layout.PASSED_MASS]) + passed[layout.PASSED_BACK]
    change = internal_energy(engines, gas, last, room[-1])
    change -= internal_energy(engines, gas, first, room[0])
    held = _mass(engines, last) - _mass(engines, first)
    scale = _scale(engines, gas, trace)
    booked = (held + out_mass) / max(through, 1e-30)
    shut = [_shut_balance(engines, doubled, rates, row) for row in range(cylinders)]
    return Closure(energy=float((change + out_energy) / scale), mass=max(booked, *shut, key=abs))


def _shut_balance(engines: Records, doubled: Trace, rates: Floats, row: int) -> float:
    """Of a cylinder while all its valves are shut: loss less leaks, over its mass."""
    engine = engines[0]
    shut = doubled.events["closed"][:, row] == 1
    edges = np.flatnonzero(np.diff(shut.astype(int)))
    worst = 0.0
    for begin, end in itertools.pairwise([0, *(edges + 1), len(shut)]):
        if not shut[begin] or end - begin < 3:
            continue
        stretch = slice(begin, end)
        leaked = 0.0
        for passage in range(int(engine["valve_count"]), int(engine["passage_count"])):
            record = engine["passages"][passage]
            sign = float(record["start"] == row) - float(record["end"] == row)
            at = int(engine["passage_sums_at"]) + passage * layout.PASSAGE_SUMS
            if sign != 0.0:
                flow = rates[stretch, at + layout.PASSED_MASS]
                leaked += sign * _integral(doubled.time[stretch], flow)
        first = _cylinder_mass(engine, doubled.values[begin], row)
        last = _cylinder_mass(engine, doubled.values[end - 1], row)
        worst = max(worst, (last - first + leaked) / first, key=abs)
    return worst


def _cylinder_mass(engine: np.void, values: Floats, row: int) -> float:
    """All gas of a cylinder, both zones, kg."""
    at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE + layout.AIR
    zone = int(engine["cylinders_at"]) + row * layout.CYLINDER_SIZE + layout.ZONE_AIR
    return float(values[at : at + 3].sum() + values[zone : zone + 3].sum())


def _mass(engines: Records, values: Floats) -> float:
    """Mass of all gas that is not surroundings, kg."""
    engine = engines[0]
    total = 0.0
    for row in range(int(engine["volume_count"])):
        if engine["volumes"]["kind"][row] != layout.FIXED:
            at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE + layout.AIR
            total += float(values[at : at + 3].sum())
    for row in range(int(engine["cylinder_count"])):
        at = int(engine["cylinders_at"]) + row * layout.CYLINDER_SIZE + layout.ZONE_AIR
        total += float(values[at : at + 3].sum())
    return total


def _scale(engines: Records, gas: GasTables, trace: Trace) -> float:
    """Energy of the fuel trapped by all cylinders, or the work of compressing what they hold."""
    events = trace.events[-1]
    fuel = float(events["reference_fuel"].sum()) * gas.lower_heating_value
    compression = 0.0
    for row in range(len(events)):
        at = int(engines[0]["cylinder_sums_at"]) + row * layout.CYLINDER_SUMS + layout.WORK
        compression += float(np.abs(np.diff(trace.values[:, at])).sum()) / 2
    return max(fuel, compression)


def both_sides(trace: Trace) -> Trace:
    """The trace with a second row wherever an event changes a rate: before it, and after it.

    A zone born or joined at the event is left as it was before: both states have the same rates
    of heat and work.
    """
    events = trace.events
    changes = np.zeros(len(events) - 1, dtype=bool)
    for flag in ("burning", "closed", "fired"):
        changes |= (events[flag][1:] != events[flag][:-1]).any(axis=1)
    order = np.sort(np.concatenate([np.arange(len(events)), np.flatnonzero(changes)]))
    second = np.flatnonzero(np.diff(order) == 0) + 1
    doubled = events[order]
    after = events[order[second] + 1]
    after["burning"] = doubled["burning"][second]
    doubled[second] = after
    return Trace(trace.time[order], trace.values[order], doubled)


def _integral(time: Floats, rate: Floats) -> float:
    """Integral by Simpson's rule for uneven steps, each smooth stretch by itself."""
    total = 0.0
    ends = [0, *(np.flatnonzero(np.diff(time) == 0.0) + 1), len(time)]
    for begin, end in itertools.pairwise(ends):
        x, y = time[begin:end], rate[begin:end]
        if len(x) > 2:
            total += float(cumulative_simpson(y, x=x)[-1])
        elif len(x) == 2:
            total += float(np.trapezoid(y, x))
    return total
