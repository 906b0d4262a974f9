"""What an engine makes and how it fills at each operating point, as lines of words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfire.cycle.figures import CylinderFigures
from firstfire.engine.events import called
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.shaft_span import ShaftSpan, shaft_spans
from firstfire.verdict.numbers import THIN, figures, shown
from firstfire.verdict.words.sentences import in_kilowatts, power

_BAR = 1e5


@dataclass(frozen=True)
class MadeLine:
    """What a point makes, ready to be shown.

    Attributes
    ----------
    point
        Whose it is.
    label
        What was done at which speed.
    power, torque
        At the shaft, with units.
    power_span, torque_span
        Low–high in the same unit, in brackets; "" where there is none.
    imep, friction
        Mean effective pressures, bar.
    peak, strong, rare
        Peak pressure of the mean, 1-in-20 and 1-in-1000 cycle, bar; the latter two are "" where
        nothing burns.
    """

    point: OperatingPoint
    label: str
    power: str
    torque: str
    imep: str
    friction: str
    peak: str
    strong: str
    rare: str
    power_span: str = ""
    torque_span: str = ""


@dataclass(frozen=True)
class FillingLine:
    """How one cylinder fills, burns, loses heat and leaks at a point, ready to be shown.

    Attributes
    ----------
    label
        As `MadeLine` has it.
    cylinder
        Its number.
    filling, trapped, back, residual, half_burned, heat_lost, leaked
        Air that came in and air trapped when the inlet shut, both over a swept volume of the air
        around; share of what came in that went out again through the inlet; burned gas left in
        the charge, where half is burned, share of the fuel's heat that the walls take, share of
        the charge that leaks.
    """

    label: str
    cylinder: int
    filling: str
    trapped: str
    back: str
    residual: str
    half_burned: str
    heat_lost: str
    leaked: str


def bar(pressure: float) -> str:
    """A pressure in bar, in three figures.

    Examples
    --------
    >>> bar(3.3712e6)
    '33.7'
    """
    return figures(pressure / _BAR)


def made(events: Sequence[EventResult]) -> tuple[MadeLine, ...]:
    """A line for each point of some events."""
    points = [point for event in events for point in event.points]
    return tuple(map(_made, points, shaft_spans(events)))


def power_span(watts: float, span: ShaftSpan | None) -> str:
    """Low–high of a power in brackets, in the unit it is told in; "" where there is none."""
    unit = 1000.0 if in_kilowatts(watts) else 1.0
    return "" if span is None else _between(span.power_low / unit, span.power_high / unit)


def torque_span(span: ShaftSpan | None) -> str:
    """Low–high of a torque in brackets, N·m; "" where there is none."""
    return "" if span is None else _between(span.torque_low, span.torque_high)


def _between(low: float, high: float) -> str:
    ends = [figures(end, 2) for end in (low, high)]
    return f"({(' to ' if low < 0 else '–').join(ends)})"


def _made(point: OperatingPoint, span: ShaftSpan | None) -> MadeLine:
    cylinders = point.fired.cycle.cylinders
    worst = max(point.peaks, key=lambda p: p.rare)
    burns = point.spark is not None
    return MadeLine(
        point=point,
        label=_label(point),
        power=power(point.brake_power),
        torque=shown(point.brake_torque, "N*m"),
        imep=bar(sum(c.imep_net for c in cylinders) / len(cylinders)),
        friction=bar(point.friction_mep),
        peak=bar(worst.mean),
        strong=bar(worst.strong) if burns else "",
        rare=bar(worst.rare) if burns else "",
        power_span=power_span(point.brake_power, span),
        torque_span=torque_span(span),
    )


def _label(point: OperatingPoint) -> str:
    return f"{called(point.event).brief} {point.speed * 30 / math.pi:.0f}{THIN}rpm"


def filling(points: Sequence[OperatingPoint]) -> Iterator[FillingLine]:
    """A line a cylinder of each point."""
    for point in points:
        for number, cylinder in enumerate(point.fired.cycle.cylinders, start=1):
            yield _filling(point, number, cylinder)


def _filling(point: OperatingPoint, number: int, c: CylinderFigures) -> FillingLine:
    lost = None if point.spark is None else c.heat_fraction
    return FillingLine(
        label=_label(point),
        cylinder=number,
        filling=f"{c.volumetric_efficiency:.2f}",
        trapped=f"{c.filling_trapped:.2f}",
        back=f"{c.spat_back:.0%}",
        residual=f"{c.residual_fraction:.1%}",
        half_burned="–" if c.ca50 is None else _angle(c.ca50),
        heat_lost="–" if lost is None else f"{math.fsum(lost):.0%}",
        leaked=f"{c.leaked_fraction:.0%}",
    )


def _angle(radians: float) -> str:
    degrees = math.degrees(radians)
    return f"{abs(degrees):.0f}° {'after' if degrees >= 0 else 'before'}"


_MUCH_BACK = 0.05


def breathing_words(points: Sequence[OperatingPoint]) -> list[str]:
    """What suction inlets lose by shutting late: a sentence for each fired point where they do."""
    said = []
    for point in points:
        suction = any(valve.opens is None for valve in point.fired.spec.valves)
        worst = max(point.fired.cycle.cylinders, key=lambda c: c.spat_back)
        if suction and point.spark is not None and worst.spat_back >= _MUCH_BACK:
            said.append(
                f"{_label(point).capitalize()}: the suction inlet shuts "
                f"{math.degrees(worst.inlet_shut):.0f}° after bottom and {worst.spat_back:.0%} of "
                "what came in goes out again; the power above has that loss."
            )
    return said


def friction_words(point: OperatingPoint) -> str:
    """Where a point's friction goes."""
    total = max(point.friction.mean_torque, 1e-12)
    shares = sorted(point.friction.by_contact.items(), key=lambda item: -item[1])
    told = ", ".join(f"{name} {torque / total:.0%}" for name, torque in shares)
    return f"Friction at {point.speed * 30 / math.pi:.0f} rpm: {told}."


def spark_words(point: OperatingPoint) -> str:
    """When a point's spark comes."""
    spark = -math.degrees(point.spark or 0.0)
    return f"Spark {abs(spark):.0f}° {'before' if spark >= 0 else 'after'} top."
