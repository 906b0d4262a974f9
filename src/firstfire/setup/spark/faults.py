"""What keeps a spark from jumping, and the nearest change with which it would."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from firstfire.formulas import ignition_coil
from firstfire.setup.spark.circuit import GIVES_LEAST, Circuit
from firstfire.setup.spark.plug import Jump
from firstfire.setup.spark.triggers import PointsSet, SensorSet
from firstfire.verdict.numbers import THIN, figures

_ENOUGH = 0.8
"""Of the full current's energy: below it a coil is said not to charge. Common practice."""
_THIN_GAP = 0.3e-3
"""Below it flames are lit badly: cold electrodes. Common practice, no source."""
_SHUT = 0.8
"""Share of the way from opening to opening that points may be shut for. Common practice,
no source."""
_RPM = math.pi / 30


@dataclass(frozen=True)
class Fault:
    """What is wrong, and what would be right.

    Attributes
    ----------
    id
        Fixed.
    says
        What is wrong, in a sentence.
    cure
        The nearest that works, in a sentence.
    values
        The same as typed words by path of the engine file.
    """

    id: str
    says: str
    cure: str
    values: tuple[tuple[str, str], ...] = ()


def faults(
    feeds: Circuit, jumps: Sequence[Jump], trigger: PointsSet | SensorSet
) -> tuple[Fault, ...]:
    """Everything that is wrong with a spark."""
    return (*_charging(feeds, jumps), *_jumping(feeds, jumps, trigger), *_points(trigger))


def _charging(feeds: Circuit, jumps: Sequence[Jump]) -> Iterator[Fault]:
    if feeds.driving(min((one.supply for one in jumps), default=feeds.voltage)) <= 0.0:
        yield Fault(
            "coil.dead", "The coil never charges: its driver keeps all that the battery has.",
            f"Feed it with more than {figures(feeds.drop, 2)}{THIN}V, or take a driver that keeps "
            "less.",
        )  # fmt: skip
        return
    slowest = max(jumps, key=lambda one: one.charging, default=None)
    if slowest is None:
        return
    share = -math.expm1(-slowest.charging / feeds.constant)
    if share**2 >= _ENOUGH or feeds.shut > 0.0:
        return
    wanted = ignition_coil.dwell_for_current(
        math.sqrt(_ENOUGH) * feeds.full_current, feeds.driving(feeds.voltage), feeds.resistance,
        feeds.inductance,
    )  # fmt: skip
    dwell = math.ceil(1e4 * wanted) / 1e4
    yield Fault(
        "coil.dwell",
        f"The coil is never charged: {figures(1e3 * slowest.charging, 2)}{THIN}ms let in "
        f"{round(100 * share**2)}{THIN}% of its energy.",
        f"A dwell of {figures(1e3 * dwell, 2)}{THIN}ms lets in {round(100 * _ENOUGH)}{THIN}%.",
        (("spark.coil.dwell", f"{1e3 * dwell:.3g} ms"),),
    )


def _jumping(
    feeds: Circuit, jumps: Sequence[Jump], trigger: PointsSet | SensorSet
) -> Iterator[Fault]:
    bad = [one for one in jumps if one.word == "will not jump"]
    if not bad:
        return
    worst = min(bad, key=lambda one: one.gives / one.wants)
    gaps = [one.gap_that_would for one in jumps if not one.why_not]
    when = "when cranked" if worst.name == "cranked" else f"at {worst.name}"
    says = (
        f"The plug never jumps {when}: it wants {figures(worst.wants / 1e3, 2)}{THIN}kV "
        f"and the coil gives {figures(worst.gives / 1e3, 2)}."
    )
    if isinstance(trigger, PointsSet) and (short := _too_short(feeds, jumps, worst, trigger, says)):
        yield short
        return
    known = [gap for gap in gaps if gap is not None]
    if len(known) == len(gaps) and min(known) >= _THIN_GAP:
        gap = math.floor(min(known) / 0.05e-3) * 0.05e-3
        yield Fault(
            "plug.gap", says, f"A gap of {figures(1e3 * gap, 2)}{THIN}mm would jump every time.",
            (("plug.gap", f"{1e3 * gap:.2g} mm"),),
        )  # fmt: skip
        return
    yield Fault("plug.gap", says, *_stronger(feeds, worst))


def _too_short(
    feeds: Circuit, jumps: Sequence[Jump], worst: Jump, trigger: PointsSet, says: str
) -> Fault | None:
    """Points shut too short to charge the coil, where shutting them longer helps; else None."""
    longer, cure = _shut_longer(feeds, jumps, trigger), "it would jump every time"
    if longer is None and math.expm1(-worst.charging / feeds.constant) ** 2 < _ENOUGH:
        longer = -math.log1p(-math.sqrt(_ENOUGH)) * feeds.constant * worst.speed
        cure = f"it takes up {round(100 * _ENOUGH)}{THIN}% of its energy: do that first, look again"
    if longer is None or not feeds.shut < longer <= _SHUT * trigger.room:
        return None
    degrees = math.ceil(math.degrees(longer))
    return Fault(
        "points.short",
        f"{says} Its points are shut for {math.degrees(feeds.shut):.0f}° of the crank, "
        f"{figures(1e3 * worst.charging, 2)}{THIN}ms, too short to charge it.",
        f"Shut for {degrees}° {cure}.",
        (("spark.points.shut_angle", f"{degrees} deg"),),
    )


def _shut_longer(feeds: Circuit, jumps: Sequence[Jump], trigger: PointsSet) -> float | None:
    """Crank angle of shut points with which each surely jumps, rad.

    None where they have no time to be shut for so long, or where that is not what it lacks.
    """
    most, needed = _SHUT * trigger.room, 0.0
    for one in (jump for jump in jumps if not jump.why_not):
        low, high = feeds.shut, most
        if low >= high or one.speed <= 0.0 or not _sure(feeds, one, high):
            return None
        while high - low > math.radians(0.1):
            middle = 0.5 * (low + high)
            low, high = (low, middle) if _sure(feeds, one, middle) else (middle, high)
        needed = max(needed, high)
    return needed


def _sure(feeds: Circuit, one: Jump, shut: float) -> bool:
    """Whether even a worn plug jumps by the weakest such coil, its points shut so far."""
    return GIVES_LEAST * feeds.gives(shut / one.speed, one.supply) >= one.wants_most


def _stronger(feeds: Circuit, worst: Jump) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The coil's energy, and where that is not it the clamp, with which it would jump."""
    need = worst.wants_most / GIVES_LEAST
    if need > feeds.clamp * feeds.turns:
        turns = math.ceil(need / feeds.clamp / 5.0) * 5.0
        feeds = replace(feeds, turns=turns)
        words = f" and a ratio of turns of {figures(turns)}"
    else:
        turns, words = 0.0, ""
    energy = ignition_coil.energy_for_voltage(
        need, feeds.capacitance, feeds.condenser, feeds.turns
    ) / feeds.passed_on  # fmt: skip
    share = ignition_coil.coil_energy(1.0, worst.charging, feeds.constant)
    share *= (feeds.driving(worst.supply) / feeds.driving(feeds.voltage)) ** 2
    full = math.ceil(1e3 * energy / max(share, 1e-9))
    values = [("spark.coil_energy", f"{full} mJ")]
    if turns:
        values.append(("spark.coil.turns_ratio", f"{turns:g}"))
    return (
        f"No gap of {figures(1e3 * _THIN_GAP, 1)}{THIN}mm or more surely jumps; a coil of "
        f"{full}{THIN}mJ{words} would do this one.",
        tuple(values),
    )


def _points(trigger: PointsSet | SensorSet) -> Iterator[Fault]:
    if not isinstance(trigger, PointsSet):
        least, most = trigger.blanked_at_least, trigger.blanked_at_most
        if not least <= trigger.blanked <= most:
            wrong = "doubles edges" if trigger.blanked < least else "loses every other edge"
            right = min(max(trigger.blanked, least), most)
            yield Fault(
                "sensor.blanked",
                f"Blanked for {figures(1e3 * trigger.blanked, 2)}{THIN}ms after an edge it {wrong}"
                f" by {round(trigger.fastest / _RPM)} rpm.",
                f"Blank it for {figures(1e3 * least, 2)} to {figures(1e3 * most, 2)}{THIN}ms.",
                (("spark.sensor.blanked", f"{1e3 * right:.3g} ms"),),
            )
        return
    if trigger.shut_angle > _SHUT * trigger.room * (1.0 + 1e-9):
        degrees = math.floor(math.degrees(_SHUT * trigger.room) + 1e-6)
        yield Fault(
            "points.shut",
            f"The points have no time to open: shut for {math.degrees(trigger.shut_angle):.0f}° of "
            f"the {math.degrees(trigger.room):.0f}° from opening to opening.",
            f"Shut for {degrees}° or less.",
            (("spark.points.shut_angle", f"{degrees} deg"),),
        )
    if trigger.bounces:
        yield Fault(
            "points.bounce",
            f"The points leave their lobe from {round(trigger.bounces_at / _RPM)} rpm on, and it "
            f"is asked for {round(trigger.fastest / _RPM)}: sparks fail and scatter.",
            "A longer ramp, a lighter arm or a stronger spring, or a lower speed.",
        )
    if trigger.arcs:
        farads = math.ceil(1e8 * trigger.condenser_for) / 1e8
        yield Fault(
            "points.condenser",
            f"The points arc: {round(trigger.breaks_at)}{THIN}V stand across them as they open, "
            "and air never bears more than 327.",
            f"A condenser of {1e6 * farads:.2f}{THIN}µF.",
            (("spark.points.condenser", f"{1e6 * farads:.2f} uF"),),
        )
