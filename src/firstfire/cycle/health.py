"""How far a cycle's books are from closing, reckoned again from its trace.

Work and heat are integrated by parabolas through rates that are worked out afresh from the traced
states, not by the stepper's own sums; what went through the openings to the surroundings is
taken from those. A step too long, a flow booked at one end only or a property that is not the
slope of its own surface all show here.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

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


def internal_energy(engines: Records, values: Floats, room: Floats) -> float:
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
        total += _enthalpy(engine["gas"], masses, temperature, pressure)
        total -= pressure * room[row]
        if row < int(engine["cylinder_count"]):
            zone = int(engine["cylinders_at"]) + row * layout.CYLINDER_SIZE
            masses = values[zone + layout.ZONE_AIR : zone + layout.ZONE_BURNED + 1]
            if masses.sum() > 0.0:
                total += _enthalpy(engine["gas"], masses, values[zone], pressure)
    return total


def _enthalpy(gas: np.void, masses: Floats, temperature: float, pressure: float) -> float:
    state = mixture_state(gas, masses[0], masses[1], masses[2], temperature, pressure)
    return float(masses.sum() * state[0])


def closure(engines: Records, gas: GasTables, trace: Trace) -> Closure:
    """What is left over in the books of a trace; see :class:`Closure`."""
    engine = engines[0]
    doubled = both_sides(trace)
    rates, room = rates_of_trace(engines, doubled)
    first, last = trace.values[0], trace.values[-1]
    through, out_mass, out_enthalpy = _through_openings(engine, last - first)
    out_energy = out_enthalpy + _work_and_heat(engine, doubled, rates)
    change = internal_energy(engines, last, room[-1])
    change -= internal_energy(engines, first, room[0])
    held = _mass(engines, last) - _mass(engines, first)
    scale = _scale(engines, gas, trace)
    booked = (held + out_mass) / max(through, 1e-30)
    cylinders = range(int(engine["cylinder_count"]))
    shut = [_shut_balance(engines, doubled, rates, row) for row in cylinders]
    return Closure(energy=float((change + out_energy) / scale), mass=max(booked, *shut, key=abs))


def _work_and_heat(engine: np.void, doubled: Trace, rates: Floats) -> float:
    """Work on the pistons and heat to all walls over a trace, integrated afresh, J."""
    weights = integral_weights(doubled.time)
    cylinders, volumes = int(engine["cylinder_count"]), int(engine["volume_count"])
    sums = int(engine["cylinder_sums_at"])
    out = weights @ rates[:, sums : sums + cylinders * layout.CYLINDER_SUMS].sum(axis=1)
    heats = int(engine["volume_sums_at"])
    out += weights @ rates[:, heats : heats + volumes * layout.VOLUME_SUMS].sum(axis=1)
    for cylinder in range(cylinders):
        below = int(engine["cylinders"]["crankcase"][cylinder])
        if below < 0 or engine["volumes"]["kind"][below] != layout.CRANKCASE:
            continue
        at = layout.SHAFT_SIZE + below * layout.VOLUME_SIZE + layout.PRESSURE
        over = layout.SHAFT_SIZE + cylinder * layout.VOLUME_SIZE + layout.PRESSURE
        power = rates[:, sums + cylinder * layout.CYLINDER_SUMS + layout.WORK]
        growth = power / doubled.values[:, over]
        out -= weights @ (doubled.values[:, at] * growth)
    return float(out)


def _through_openings(engine: np.void, change: Floats) -> tuple[float, float, float]:
    """Mass that went through the cylinders, and net mass and enthalpy out to the surroundings."""
    through = out_mass = out_enthalpy = 0.0
    for row in range(int(engine["passage_count"])):
        passage = engine["passages"][row]
        ends = (int(passage["start"]), int(passage["end"]))
        at = int(engine["passage_sums_at"]) + row * layout.PASSAGE_SUMS
        passed = change[at : at + layout.PASSAGE_SUMS]
        fixed = [engine["volumes"]["kind"][end] == layout.FIXED for end in ends]
        sign = float(fixed[1]) - float(fixed[0])
        out_enthalpy += sign * float(passed[layout.PASSED_ENTHALPY])
        out_mass += sign * float(passed[layout.PASSED_MASS])
        if min(ends) < int(engine["cylinder_count"]):
            through += abs(float(passed[layout.PASSED_MASS])) + float(passed[layout.PASSED_BACK])
    return through, out_mass, out_enthalpy


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
        leaking = np.zeros(end - begin)
        for passage in range(int(engine["valve_count"]), int(engine["passage_count"])):
            record = engine["passages"][passage]
            sign = float(record["start"] == row) - float(record["end"] == row)
            at = int(engine["passage_sums_at"]) + passage * layout.PASSAGE_SUMS
            if sign != 0.0:
                leaking += sign * rates[stretch, at + layout.PASSED_MASS]
        leaked = float(integral_weights(doubled.time[stretch]) @ leaking)
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


EVEN = 10.0
"""How many times as long as its neighbour a step may be for a parabola through both.

Beyond it the weights grow as the ratio and tell of nothing but the rounding of their difference.
"""


def integral_weights(time: Floats) -> Floats:
    """Weights of Simpson's rule for uneven steps, each smooth stretch by itself, s.

    Stretches part where a time stands twice. An odd step at the end of one is integrated along
    the parabola through its last three points. Where one of two steps is more than ten times as
    long as the other, both are integrated along chords.

    Examples
    --------
    >>> time = np.array([0.0, 1.0, 2.0, 2.0, 2.5, 4.0])
    >>> [round(float(weight), 4) for weight in integral_weights(time)]
    [0.3333, 1.3333, 0.3333, -0.3333, 1.7778, 0.5556]
    >>> [round(float(weight), 4) for weight in integral_weights(np.array([0.0, 1.0, 1.001]))]
    [0.5, 0.5005, 0.0005]
    """
    weights = np.zeros(len(time))
    ends = [0, *(np.flatnonzero(np.diff(time) == 0.0) + 1), len(time)]
    for begin, end in itertools.pairwise(ends):
        _weigh(np.diff(time[begin:end]), weights[begin:end])
    return weights


def _weigh(step: Floats, here: Floats) -> None:
    """Add the weights of one smooth stretch, by its steps, in place."""
    pairs = len(step) // 2 * 2
    first, second = step[0:pairs:2], step[1:pairs:2]
    both, even = first + second, _alike(first, second)
    here[0:pairs:2] += np.where(even, both / 6.0 * (2.0 - second / first), 0.5 * first)
    here[1:pairs:2] += np.where(even, both**3 / (6.0 * first * second), 0.5 * both)
    here[2 : pairs + 1 : 2] += np.where(even, both / 6.0 * (2.0 - first / second), 0.5 * second)
    if pairs == len(step):
        return
    last = step[-1]
    if pairs == 0 or not _alike(step[-2], last):
        here[-2:] += 0.5 * last
        return
    before = step[-2]
    here[-3] -= last**3 / (6.0 * before * (before + last))
    here[-2] += last / 6.0 * (3.0 + last / before)
    here[-1] += last / 6.0 * (3.0 - last / (before + last))


def _alike(first: Floats, second: Floats) -> NDArray[np.bool_]:
    return (first <= EVEN * second) & (second <= EVEN * first)
