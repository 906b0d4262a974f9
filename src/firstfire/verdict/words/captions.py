"""What a chart shows, in a sentence or two: for its heading and for those who don't see it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from firstfire.engine.records import Peaks
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.numbers import THIN, shown
from firstfire.verdict.words.made import bar
from firstfire.verdict.words.sentences import lasting, listed, power, which_cylinder


def at_speed(point: OperatingPoint) -> str:
    """The speed of a point in words.

    Nothing is rounded away: speeds are asked for in whole turns a minute.
    """
    return f"{point.speed * 30 / math.pi:.0f}{THIN}rpm"


def turned(angle: float) -> str:
    """A crank angle about firing top centre in words, from radians.

    Examples
    --------
    >>> turned(math.radians(-15)), turned(math.radians(12.2)), turned(0.0)
    ('15° before top', '12° after top', 'top')
    """
    degrees = round(math.degrees(angle))
    if degrees == 0:
        return "top"
    return f"{abs(degrees)}° {'after' if degrees > 0 else 'before'} top"


def pressure(point: OperatingPoint, cylinder: int, peaks: Peaks) -> str:
    """Pressure against crank angle of one cylinder, counted from 1."""
    which = which_cylinder(cylinder, len(point.walls))
    said = (
        f"Pressure in {which} at {at_speed(point)}: the mean cycle peaks at "
        f"{bar(peaks.mean)}{THIN}bar, {turned(peaks.angle)}"
    )
    if point.spark is None:
        return f"{said}."
    return (
        f"{said}; one in 20 reaches {bar(peaks.strong)}{THIN}bar, one in 1000 "
        f"{bar(peaks.rare)}{THIN}bar. The strip below shows when valves are open and what burns."
    )


def loop(point: OperatingPoint) -> str:
    """Pressure against volume."""
    work = sum(c.work for c in point.fired.cycle.cylinders)
    return (
        f"Pressure against volume at {at_speed(point)}, both as ratios: a straight line is a gas "
        f"that is only squeezed. The loops enclose {shown(work, 'J')} a cycle."
    )


def torque(point: OperatingPoint, low: float, high: float) -> str:
    """Torque over two turns."""
    return (
        f"Torque on the shaft over two turns at {at_speed(point)}: from {shown(low, 'N*m')} to "
        f"{shown(high, 'N*m')}, {shown(point.brake_torque, 'N*m')} in the mean. Gas, less "
        "friction, with what the moving parts take and give back."
    )


def joint(number: str, point: str, demand: float, capacity: float) -> str:
    """Twist of the crank joint that has least to spare, counted from the flywheel."""
    return (
        f"Twist through crank joint {number}, counted from the flywheel, at {point}, its strongest "
        f"cycle: {shown(demand, 'N*m')} at "
        f"most, of the {shown(capacity, 'N*m')} it holds."
    )


def thrust(cylinder: int, count: int, point: str, demand: float, capacity: float) -> str:
    """Force in a con rod, of a cylinder of so many, against what bends it sideways."""
    return (
        f"Force in the con rod of {which_cylinder(cylinder, count)} at {point}, its strongest "
        f"cycle: {shown(demand, 'N')} at most, of the {shown(capacity, 'N')} under which it "
        "buckles."
    )


def pushing(point: OperatingPoint, angle: float, gas: float, rod: float, side: float) -> str:
    """Forces of cylinder 1 at one crank angle, N."""
    whose = "the" if len(point.walls) == 1 else "cylinder 1's"
    return (
        f"At {at_speed(point)}, {turned(angle)}, where the mean cycle presses most: gas presses "
        f"{whose} piston down with {shown(gas, 'N')}, its rod carries {shown(rod, 'N')}, its "
        f"piston leans on the wall with {shown(abs(side), 'N')}. Arrows are to scale."
    )


def pointed(
    what: str,
    point: OperatingPoint,
    cylinder: tuple[int, int],
    angle: float,
    sizes: Mapping[str, float],
) -> str:
    """The load of one line of the ledger.

    Parameters
    ----------
    what, point
        The line, and the point that it is judged at.
    cylinder
        Number of the one that bears it, of so many.
    angle
        After that one's firing top centre, rad.
    sizes
        N by the name of each force on its path.
    """
    each = listed([f"{_OF_FORCE[name]} {shown(size, 'N')}" for name, size in sizes.items()])
    number, count = cylinder
    whose = f" of cylinder {number}" if count > 1 else ""
    return (
        f"{what}: its load in the cycle judged, at {at_speed(point)}, {turned(angle)}{whose}: "
        f"{each}. Arrows are to scale."
    )


_OF_FORCE = {
    "gas": "gas on the piston", "inertia": "inertia of what goes up and down",
    "rod": "in the rod", "crankpin": "on the crankpin",
}  # fmt: skip


def fading(point: str, horizon: float, sinking: Sequence[str]) -> str:
    """Factors against seconds into a run; `sinking` names what passes 1, the soonest first."""
    below = (
        f"Below 1 come, in this order: {listed(list(sinking))}."
        if sinking
        else "None of them comes below 1."
    )
    return (
        f"Factors of what heat weakens most, against seconds held at {point} from cold, up to "
        f"{lasting(horizon)}. {below}"
    )


def wall(name: str, point: str, seconds: float, hot: float, cold: float) -> str:
    """Temperature through one wall."""
    return (
        f"Temperature through the {name} at {point}, mean over the cycle: after "
        f"{lasting(seconds)} from {shown(hot, 'degC')} at the hot face to {shown(cold, 'degC')} "
        "behind."
    )


def powers(points: Sequence[OperatingPoint]) -> str:
    """Power of the points that were run."""
    told = [f"{power(p.brake_power)} at {at_speed(p)}" for p in points]
    return f"{listed(told)}; between them nothing was run." if len(told) > 1 else f"{told[0]}."


def torques(points: Sequence[OperatingPoint]) -> str:
    """Torque of the points that were run."""
    told = [f"{shown(p.brake_torque, 'N*m')} at {at_speed(p)}" for p in points]
    return f"{listed(told)}."
