"""Whether the starter turns the engine: what cranking takes, and what the starter gives."""

from __future__ import annotations

from firstfire.runs.point import OperatingPoint
from firstfire.verdict.result import Result


def turning_torque(cranked: OperatingPoint) -> tuple[float, float]:
    """Mean and largest torque a starter must give at a held speed, N·m."""
    needed = cranked.friction.torque - cranked.fired.cycle.curves.gas_torque
    return -cranked.brake_torque, float(needed.max())


def starter_gives(cranked: OperatingPoint, result: Result) -> float:
    """Torque of the starter at the crank at the cranking speed, N·m."""
    starter = result.plain.starter
    if not _pulls(result):
        return 0.0
    slow = 1 - cranked.speed / (starter.no_load_speed * starter.ratio)
    return starter.stall_torque / starter.ratio * max(slow, 0.0)


def cranked_at(result: Result) -> OperatingPoint | None:
    """The point at which it is cranked, where that was run."""
    return next((p for p in result.points if p.event == "cranking"), None)


def speed_reached(cranked: OperatingPoint, result: Result) -> float:
    """Speed at which the starter gives what cranking takes, rad/s; 0 where it never does.

    What cranking takes is that at the speed asked for: it falls little with speed.
    """
    starter = result.plain.starter
    if not _pulls(result):
        return 0.0
    share = turning_torque(cranked)[0] * starter.ratio / starter.stall_torque
    return starter.no_load_speed * starter.ratio * max(1 - share, 0.0)


def _pulls(result: Result) -> bool:
    """Whether the starter has torque and speed at all: a row of one's own may say it has none."""
    starter = result.plain.starter
    return starter.stall_torque > 0 and starter.no_load_speed > 0


def too_weak(result: Result) -> bool:
    """Whether the starter, even held back to standstill, gives less than cranking takes."""
    cranked = cranked_at(result)
    return cranked is not None and speed_reached(cranked, result) <= 0.0


def too_slow(result: Result) -> bool:
    """Whether the starter turns it, but slower than was asked for."""
    cranked = cranked_at(result)
    return cranked is not None and 0.0 < speed_reached(cranked, result) < 0.99 * cranked.speed
