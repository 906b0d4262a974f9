"""Whether the starter turns the engine: what cranking takes, and what the starter gives."""

from __future__ import annotations

from firstfire.engine.records import Raise
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.facts.found import Found

# A hundredth slower than was asked for isn't worth a word.
_AS_ASKED = 0.99


def turning_torque(cranked: OperatingPoint) -> tuple[float, float]:
    """Mean and largest torque a starter must give at a held speed, N·m."""
    needed = cranked.friction.torque - cranked.fired.cycle.curves.gas_torque
    return -cranked.brake_torque, float(needed.max())


def cranked_at(result: Found) -> OperatingPoint | None:
    """The point at which it is cranked, where that was run."""
    return next((p for p in result.points if p.event == "cranking"), None)


def speed_reached(result: Found) -> float:
    """Mean speed that the starter brings it to, rad/s; 0 where it doesn't come over the top."""
    return result.starting.speed if result.starting is not None else 0.0


def too_weak(result: Found) -> bool:
    """Whether the starter doesn't bring it over the top, however it is turned back first."""
    return result.starting is not None and not result.starting.over


def too_slow(result: Found) -> bool:
    """Whether the starter turns it, but slower than was asked for."""
    cranked = cranked_at(result)
    return (
        cranked is not None
        and not too_weak(result)
        and 0.0 < speed_reached(result) < _AS_ASKED * cranked.speed
    )


def helps(result: Found) -> tuple[Raise, ...]:
    """Changes that were tried and bring it over the top."""
    return result.helped
