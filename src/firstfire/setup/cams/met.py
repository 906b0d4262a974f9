"""An engine whose valve meets its piston as drawn is refused, with the nearest cam that doesn't."""

from __future__ import annotations

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import EngineFileError, Problem
from firstfire.runs.valve_gaps import piston_gap, worked
from firstfire.setup.cams.events import as_it_is
from firstfire.setup.cams.makeable import nearest


def refuse_met_piston(engine: Engine, plain: PlainEngine) -> None:
    """Refuse an engine that would bend a valve at its first turn.

    Raises
    ------
    EngineFileError
        With which valve of which cylinder, where, and the nearest cam that clears the piston.
    """
    problems = []
    for cylinder in range(len(plain.cylinders)):
        for made in worked(plain.cylinders[cylinder]):
            gap = piston_gap(plain, cylinder, made)
            if gap is None or gap.gap > 0.0:
                continue
            whose = f" of cylinder {cylinder + 1}" if len(plain.cylinders) > 1 else ""
            near = nearest(engine, as_it_is(plain, made.which))
            cure = "Less lift, less overlap or a lower compression ratio clears it."
            if near is not None:
                cure = f"The nearest that clears it: {near.words}. `firstfire cam` has its values."
            problems.append(
                Problem(
                    f"valves.{made.which}.lift",
                    f"is {1e3 * made.valve.lift:.3g} mm: as drawn the {made.which} valve{whose} "
                    f"meets the piston {gap.where}",
                    cure,
                )
            )
    if problems:
        raise EngineFileError(engine.where, problems)
