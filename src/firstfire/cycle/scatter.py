"""Peaks of the strong and the rare cycle, without running a thousand.

Phase and duration of the burn scatter from cycle to cycle. To first order the peak is a plane over
the two; the strongest combination that is as unlikely as 1 in 20, or 1 in 1000, lies where the
plane rises steepest, and that one cycle is run. (The first-order reliability method, as in any
text on structural reliability; that peaks lie on the plane is tested against many drawn cycles.)
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from statistics import NormalDist

import numpy as np

from firstfire.cycle.build import build_engine
from firstfire.cycle.burn_plan import Burn
from firstfire.cycle.equilibrium_states import burn_at_constant_volume
from firstfire.cycle.fired import Fired, charge_at
from firstfire.cycle.layout import (
    DURATION,
    PHASE,
    PRESSURE,
    SHAFT_SIZE,
    VOLUME_SIZE,
    Records,
    State,
)
from firstfire.cycle.limit_cycle import CYCLE, FIRST_ANGLE, begin
from firstfire.cycle.run import Trace, run_traced, steady_factors
from firstfire.engine.fuel import Fuel
from firstfire.engine.records import Peaks

# Spread of one engine's cycles: of the delay to a tenth burned, and of the duration. They give a
# peak pressure that varies by about 10 %, as spark-ignition engines do near full load (J. B.
# Heywood, Internal Combustion Engine Fundamentals, 1988, section 9.4; from memory).
DELAY_SPREAD, DURATION_SPREAD = 0.12, 0.08
STRONG, RARE = 1 / 20, 1 / 1000
FASTEST = 0.3
"""Share of its mean delay or duration that no burn is shorter than."""


#: Shift of a burn, rad, and multiplier of its duration.
Shift = tuple[float, float]


def peaks(fired: Fired, phases: Sequence[float], fuel: str | Fuel) -> tuple[Peaks, ...]:
    """Mean, 1-in-20 and 1-in-1000 peak pressure of each cylinder at a steady point.

    Parameters
    ----------
    fired
        The point.
    phases
        Shaft angle of each cylinder's firing top centre, rad.
    fuel
        Of the catalog.

    Notes
    -----
    All cylinders are given their strong cycle at once: what they share, the intake, hardly feels
    it within one cycle. No peak passes that of burning the charge at once at top centre.
    """
    engines = build_engine(fired.spec)
    state = begin(fired.spec, engines, fired.cycle.speed, fired.cycle.state)

    def run(shifts: Sequence[Shift]) -> list[float]:
        return _peaks_with(engines, state, phases, shifts)

    return peaks_from(fired, phases, fuel, run)


def peaks_from(
    fired: Fired,
    phases: Sequence[float],
    fuel: str | Fuel,
    run: Callable[[Sequence[Shift]], list[float]],
) -> tuple[Peaks, ...]:
    """As `peaks`, with a function that gives each cylinder's peak for shifted burns."""
    means = [figures.peak_pressure for figures in fired.cycle.cylinders]
    if all(burn is None for burn in fired.burns):
        angles = [figures.peak_angle for figures in fired.cycle.cylinders]
        return tuple(Peaks(p, p, p, a) for p, a in zip(means, angles, strict=True))
    sizes = [(_delay_spread(burn), DURATION_SPREAD) for burn in fired.burns]
    by_delay = run([(-s[0], 1.0) for s in sizes])
    by_duration = run([(0.0, 1 - s[1]) for s in sizes])
    directions = [
        _steepest(earlier - mean, shorter - mean)
        for mean, earlier, shorter in zip(means, by_delay, by_duration, strict=True)
    ]
    found = []
    for odds in (STRONG, RARE):
        beta = NormalDist().inv_cdf(1 - odds)
        shifts = [
            (-beta * d[0] * s[0], max(1 - beta * d[1] * s[1], FASTEST))
            for d, s in zip(directions, sizes, strict=True)
        ]
        found.append(run(shifts))
    return tuple(
        bounded(fired, row, (found[0][row], found[1][row]), phase, fuel)
        for row, phase in enumerate(phases)
    )


def _delay_spread(burn: Burn | None) -> float:
    return 0.0 if burn is None else DELAY_SPREAD * burn.development


def _steepest(by_delay: float, by_duration: float) -> tuple[float, float]:
    size = math.hypot(by_delay, by_duration)
    return (by_delay / size, by_duration / size) if size > 0 else (0.0, 0.0)


def stretched(spread: float, drawn: float, strong: float = 0.0) -> float:
    """Multiplier of a burn's delay or duration.

    Parameters
    ----------
    spread
        Of the one that it is.
    drawn
        So many standard deviations longer by chance.
    strong
        So many deviations quicker the burn is asked to be; delay and duration share them, each by
        the square root of a half.

    Examples
    --------
    >>> round(stretched(DELAY_SPREAD, 1.0), 3), round(stretched(DELAY_SPREAD, 0.0, 1.645), 3)
    (1.12, 0.86)
    """
    return max(1.0 + spread * (drawn - strong / math.sqrt(2.0)), FASTEST)


def bounded(
    fired: Fired, row: int, found: tuple[float, float], phase: float, fuel: str | Fuel
) -> Peaks:
    """A cylinder's peaks, of which strong and rare ones were found, Pa: none passes `at_once`."""
    figures, (strong, rare) = fired.cycle.cylinders[row], found
    mean, angle = figures.peak_pressure, figures.peak_angle
    if fired.burns[row] is None:
        return Peaks(mean, mean, mean, angle)
    limit = at_once(fired, row, phase, fuel)
    return Peaks(mean, min(max(strong, mean), limit), min(max(rare, strong, mean), limit), angle)


def _peaks_with(
    engines: Records,
    state: State,
    phases: Sequence[float],
    shifts: Sequence[Shift],
) -> list[float]:
    """Peak of each cylinder about its next firing, with burns shifted (rad) and stretched."""
    factors = steady_factors(engines)
    for row, (shift, stretch) in enumerate(shifts):
        factors[0, row, PHASE], factors[0, row, DURATION] = shift, stretch
    events = state.cylinders.copy()
    # When the first of the burns ahead begins already stands in the state.
    events["next_burn"] += [shift for shift, _ in shifts]
    moved = state._replace(cylinders=events)
    _, trace = run_traced(engines, moved, UNTIL_PEAKS, factors=factors)
    return next_peaks(trace, phases)


_QUARTER = math.pi / 2
UNTIL_PEAKS = FIRST_ANGLE + CYCLE + 2 * _QUARTER
"""A run from the first angle on has met the next firing of every cylinder by here, rad."""


def next_peaks(trace: Trace, phases: Sequence[float]) -> list[float]:
    """Peak of each cylinder about its next firing, Pa, from a trace from the first angle on."""
    found = []
    for row, phase in enumerate(phases):
        # The firing whose burn begins after the state: no earlier than a quarter turn into it.
        next_top = FIRST_ANGLE + _QUARTER + (phase - FIRST_ANGLE - _QUARTER) % CYCLE
        near = np.abs(trace.angle - next_top) < _QUARTER
        pressure = trace.values[near, SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
        found.append(float(pressure.max()))
    return found


def at_once(fired: Fired, row: int, phase: float, fuel: str | Fuel) -> float:
    """Peak of burning the charge at once at top centre, Pa: a bound no cycle passes."""
    burn = fired.burns[row]
    if burn is None:
        return math.inf
    charge = charge_at(fired.cycle, row, phase, burn.spec.start)
    squeezed = max(charge.volume / float(np.min(fired.cycle.curves.volume[:, row])), 1.0)
    gas = burn_at_constant_volume(
        fuel,
        fired.spec.equivalence_ratio,
        charge.temperature * squeezed**0.32,
        charge.pressure * squeezed**1.32,
        fired.spec.water,
    )
    return float(gas.pressure)
