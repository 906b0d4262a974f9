"""Peaks of strong and rare cycles at a steady point, whichever way its charges burn."""

from __future__ import annotations

from firstfire.cycle.build import build_engine
from firstfire.cycle.fired import Fired
from firstfire.cycle.flame_plan import let_travel
from firstfire.cycle.layout import Records, State
from firstfire.cycle.limit_cycle import begin
from firstfire.cycle.run import run_traced, steady_factors
from firstfire.cycle.scatter import DELAY_SPREAD, UNTIL_PEAKS, bounded, next_peaks, peaks, stretched
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import Peaks
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.normal import NINETY, RARE


def peaks_of(plain: PlainEngine, fired: Fired) -> tuple[Peaks, ...]:
    """Mean, 1-in-20 and 1-in-1000 peak pressure of each cylinder at a steady point.

    Parameters
    ----------
    plain
        Plain numbers.
    fired
        Its point.

    Notes
    -----
    By Wiebe's law as :func:`firstfire.cycle.scatter.peaks` has them. Travelling flames are as much
    quicker, all of each, as those of a strong and a rare first combustion; the one cycle that is
    run so begins as the mean one ends.
    """
    phases = firing_angles(plain)
    if fired.flames is None:
        return peaks(fired, phases, plain.fuel)
    engines = build_engine(fired.spec)
    let_travel(engines, plain)
    state = begin(fired.spec, engines, fired.cycle.speed, fired.cycle.state)

    def run(strong: float) -> list[float]:
        quick = _quicker(state, 1.0 / stretched(DELAY_SPREAD, 0.0, strong))
        return _peaks_from(engines, quick, phases)

    strong, rare = run(NINETY), run(RARE)
    return tuple(
        bounded(fired, row, (strong[row], rare[row]), phase, plain.fuel)
        for row, phase in enumerate(phases)
    )


def _quicker(state: State, times: float) -> State:
    """The same with flames so many times as quick: their speed and what stirs them."""
    cylinders = state.cylinders.copy()
    cylinders["flame_speed"] *= times
    cylinders["flame_intensity"] *= times
    return state._replace(cylinders=cylinders)


def _peaks_from(engines: Records, state: State, phases: tuple[float, ...]) -> list[float]:
    """Peak of each cylinder about its next firing."""
    _, trace = run_traced(engines, state, UNTIL_PEAKS, factors=steady_factors(engines))
    return next_peaks(trace, phases)
