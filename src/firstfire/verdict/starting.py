"""Whether the starter turns the engine: what cranking takes, and what the starter gives."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from firstfire.engine.records import Raise
from firstfire.runs.over_the_top import helped_over
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.contract import HelpTold, StartingTold
from firstfire.verdict.numbers import spoken

if TYPE_CHECKING:
    from firstfire.verdict.result import Result

# A hundredth slower than was asked for isn't worth a word.
_AS_ASKED = 0.99


def turning_torque(cranked: OperatingPoint) -> tuple[float, float]:
    """Mean and largest torque a starter must give at a held speed, N·m."""
    needed = cranked.friction.torque - cranked.fired.cycle.curves.gas_torque
    return -cranked.brake_torque, float(needed.max())


def cranked_at(result: Result) -> OperatingPoint | None:
    """The point at which it is cranked, where that was run."""
    return next((p for p in result.points if p.event == "cranking"), None)


def speed_reached(result: Result) -> float:
    """Mean speed that the starter brings it to, rad/s; 0 where it doesn't come over the top."""
    return result.starting.speed if result.starting is not None else 0.0


def too_weak(result: Result) -> bool:
    """Whether the starter doesn't bring it over the top, however it is turned back first."""
    return result.starting is not None and not result.starting.over


def too_slow(result: Result) -> bool:
    """Whether the starter turns it, but slower than was asked for."""
    cranked = cranked_at(result)
    return (
        cranked is not None
        and not too_weak(result)
        and 0.0 < speed_reached(result) < _AS_ASKED * cranked.speed
    )


def helps(result: Result) -> tuple[Raise, ...]:
    """Changes that were tried and bring it over the top."""
    cranked = cranked_at(result)
    return helped_over(result.plain, cranked) if cranked is not None else ()


def told_starting(result: Result) -> StartingTold | None:
    """What the starter makes of it, in the contract's terms."""
    over = result.starting
    if over is None:
        return None
    rpm = 30 / math.pi
    return StartingTold(
        comes_over_top=over.over,
        from_rest=over.from_rest,
        peak_torque_nm=over.peak_torque,
        mean_torque_nm=over.mean_torque,
        stall_torque_nm=over.stall_torque,
        torque_lacking_nm=over.lacking_torque,
        inertia_kg_m2=over.inertia,
        compression_energy_j=over.compression_energy,
        stored_energy_j=over.stored_energy,
        speed_reached_rpm=over.speed * rpm if over.over else None,
        slowest_rpm=over.slowest * rpm if over.over else None,
        at_top_rpm=over.at_top * rpm if over.over else None,
        compressions_a_pull=over.pulls,
        would_help=[HelpTold(text=spoken(c.text), set=dict(c.set)) for c in helps(result)],
    )
