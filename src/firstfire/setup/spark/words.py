"""What is said of a spark, in sentences."""

from __future__ import annotations

import math

from firstfire.engine.trigger import trigger
from firstfire.setup.spark.advance_table import KEPT_FROM_KICK
from firstfire.setup.spark.edge_below import TOO_FAR
from firstfire.setup.spark.facts import SparkFacts
from firstfire.setup.spark.triggers import PointsSet, SensorSet
from firstfire.setup.spark.wasted import both_each_time
from firstfire.verdict.numbers import THIN, figures

_RPM = math.pi / 30
CAUTION = (
    "Tens of kilovolts: coil off while you set or touch anything, plug lead off and earthed "
    "whenever a hand turns it, no fuel near an open spark, shield, eyes and ears before it runs. "
    "Estimates, and no permission: local codes and licensed practice decide."
)


def degrees(angle: float, digits: int = 1) -> str:
    """An angle before top as one reads it: *5.0° before*."""
    value = round(math.degrees(angle), digits)
    return f"{abs(value):.{digits}f}° {'before' if value >= 0 else 'after'}"


def rpm(speed: float) -> str:
    """A speed."""
    return f"{round(speed / _RPM)}{THIN}rpm"


def kilovolts(volts: float) -> str:
    """A voltage of a spark."""
    return f"{figures(volts / 1e3, 2)}{THIN}kV"


def opening(found: SparkFacts) -> str:
    """The sum of it in a sentence."""
    name = found.plain.name
    if found.faults:
        return f"{name}: {found.faults[0].says} {found.faults[0].cure}"
    missing = [one for one in found.jumps if one.word == "may miss"]
    if missing:
        worst = min(missing, key=lambda one: one.gives / one.wants)
        would = _narrower(worst.gap_that_would)
        return (
            f"{name}: its spark may miss when {worst.name}: the plug wants "
            f"{kilovolts(worst.wants)}, worn {kilovolts(worst.wants_most)}; the coil gives "
            f"{kilovolts(worst.gives)}.{would}"
        )
    judged = [one for one in found.jumps if not one.why_not]
    if not judged:
        return f"{name}: whether its spark jumps is not judged."
    least = min(judged, key=lambda one: one.gives_least / one.wants_most)
    where = "cranked and at every speed asked for"
    if len(judged) < len(found.jumps):
        where = "wherever it is judged"
    return (
        f"{name}: its spark jumps, {where}. It is nearest to missing "
        f"when {least.name}: {kilovolts(least.wants)} wanted, {kilovolts(least.gives)} given."
    )


def _narrower(gap: float | None) -> str:
    if gap is None:
        return ""
    return f" At a gap of {figures(1e3 * gap, 2)}{THIN}mm it surely jumps."


def points_words(points: PointsSet) -> list[str]:
    """Breaker points."""
    return [
        f"Breaker points: shut {degrees(points.shuts, 0)} and open {degrees(points.opens)} firing "
        f"top; shut for {math.degrees(points.shut_angle):.0f}° of the crank, "
        f"{math.degrees(points.lobe_angle):.0f}° of their lobe. Gap "
        f"{figures(1e3 * points.gap, 2)}{THIN}mm.",
        f"The arm follows its lobe up to {rpm(points.bounces_at)} of the crank; asked for are "
        f"{rpm(points.fastest)}.",
        f"0.05{THIN}mm of heel worn away, or of gap, make it "
        f"{_worn(points.worn_shift)}. As they open {round(points.breaks_at)}{THIN}V stand across "
        "them; air bears 327 however near they are.",
    ]


def _worn(shift: float) -> str:
    if not math.isfinite(shift):
        return "never open"
    return f"fire {math.degrees(shift):.1f}° later"


def sensor_words(sensor: SensorSet) -> list[str]:
    """A sensor."""
    name = "Reed switch" if sensor.kind == "reed" else "Hall sensor"
    said = [
        f"{name}: first edge {degrees(sensor.leading)}, last edge {degrees(sensor.trailing)} "
        f"firing top: a tooth or magnet {figures(1e3 * sensor.width, 2)}{THIN}mm wide.",
        f"At {rpm(sensor.fastest)} its delay makes it {math.degrees(sensor.late):.1f}° late, "
        f"scattering by {math.degrees(sensor.scatter):.2g}° (one deviation); play adds "
        f"{math.degrees(sensor.play):.2g}° either way.",
        f"Blank it after an edge for {figures(1e3 * sensor.blanked_at_least, 2)} to "
        f"{figures(1e3 * sensor.blanked_at_most, 2)}{THIN}ms: the file has "
        f"{figures(1e3 * sensor.blanked, 2)}. It bridges bounce and what the spark disturbs.",
    ]
    if sensor.missed is not None and sensor.doubled is not None:
        said.append(
            f"An edge that is missed halves the speed it reads: the next spark comes "
            f"{_shift(sensor.missed)}. One counted twice doubles it: {_shift(sensor.doubled)}. "
            "Don't fire where a speed leaps by half from turn to turn."
        )
    else:
        said.append(
            "It fires on the edge itself: a missed edge is a missed spark, a false one fires "
            "wherever the crank is then, so blank and screen it."
        )
    return said


def _shift(early: float) -> str:
    return f"{abs(math.degrees(early)):.0f}° {'early' if early >= 0 else 'late'}"


def edge_words(found: SparkFacts) -> str:
    """Below which speed an edge has to fire."""
    by, clock = _fires_by(found), _clock_words(found)
    return f"{_BY[by]} {clock if _BY[by].endswith(':') else clock[0].upper() + clock[1:]}"


_BY = {
    "points": "Points fire where they open, at any speed. A controller in their place:",
    "edge": "It fires on an edge of its tooth, at any speed. Were it timed by a clock:",
    "clock": "It is timed by the clock from the last turn.",
    "edge_then_clock": "It fires on an edge in starting, and by the clock when running.",
}


def _fires_by(found: SparkFacts) -> str:
    return trigger(found.plain).by


def _clock_words(found: SparkFacts) -> str:
    below, asked = found.edge_below, found.plain.spark.start_angle
    far = math.degrees(TOO_FAR)
    bad = [one for one in below.errors if abs(one.early) > TOO_FAR and math.isfinite(one.early)]
    worst = max(bad, key=lambda one: abs(one.early), default=None)
    example = "" if worst is None else (
        f" At {rpm(worst.speed)} a clock fires {degrees(asked + worst.early, 0)} instead of "
        f"{degrees(asked, 0)}."
    )  # fmt: skip
    if not math.isfinite(below.speed):
        return (
            f"fire straight on an edge at the start angle at every speed: the shaft slows too much "
            f"into its compression for a clock.{example}"
        )
    if not bad and below.speed <= below.errors[0].speed:
        return f"a clock is good to {far:.0f}° from {rpm(below.speed)} on."
    return (
        f"below {rpm(below.speed)} fire straight on an edge that stands at the start angle: the "
        f"shaft slows into compression, and a clock that goes by the turn before errs by more "
        f"than {far:.0f}°.{example} Turning by itself; a starter that stays on holds it up."
    )


def coil_words(found: SparkFacts) -> list[str]:
    """The coil, its heat, resistor and driver."""
    coil, air = found.circuit, found.plain.surroundings.air_temperature
    seconds = coil.seconds_left_on(air)
    said = [
        f"Left on it takes {figures(coil.full_current, 2)}{THIN}A and "
        f"{figures(coil.heat_left_on, 2)}{THIN}W: its winding is at 130 °C in "
        f"{figures(seconds, 2)}{THIN}s if it gives none off. Running it takes "
        f"{figures(coil.heat(found.angles[-1].speed), 2)}{THIN}W at {found.angles[-1].name}.",
    ]
    more = coil.winding
    if coil.resistor == 0.0:
        said.append(
            f"A resistor of {figures(more, 2)}{THIN}Ω, {figures(_resistor_watts(found), 2)}{THIN}W,"
            " in series halves that current and quarters its energy; there is none now."
        )
    else:
        watts = coil.full_current**2 * coil.resistor
        said.append(
            f"Its resistor of {figures(coil.resistor, 2)}{THIN}Ω takes {figures(watts, 2)}{THIN}W "
            "left on: take one for twice that, away from plastic."
        )
    if found.plain.spark.source == "points":
        said.append(
            f"Condenser {figures(1e6 * coil.condenser, 2)}{THIN}µF. Key off with the points shut: "
            "a coil left on is what burns."
        )
    else:
        clamped = "" if not math.isfinite(coil.clamp) else (
            f" and clamped at {figures(coil.clamp, 3)}{THIN}V, which allows "
            f"{kilovolts(coil.clamp * coil.turns)}"
        )  # fmt: skip
        said.append(
            f"Driver: for {figures(2 * coil.full_current, 2)}{THIN}A{clamped}; it keeps "
            f"{figures(coil.drop, 2)}{THIN}V. Off in hardware until the controller runs, and after "
            "a second without an edge."
        )
    return said


def _resistor_watts(found: SparkFacts) -> float:
    coil = found.circuit
    half = coil.driving(coil.voltage) / (2 * coil.winding)
    return 2.0 * half**2 * coil.winding


def wasted_words(found: SparkFacts) -> str:
    """The wasted spark, if there is one."""
    one = found.wasted
    if both_each_time(found.plain):
        return (
            "One set of points opens for both cylinders. Two coils need two breakers; a coil with "
            "two ends fires both plugs each time, so that each also sparks on its exhaust stroke: "
            "say spark.wasted = true if that is meant."
        )
    if one is None:
        return ""
    where = f"{degrees(-one.own, 0)} the overlap top"
    inlet = "suction opens its inlet, not yet" if one.inlet is None else (
        f"inlet {figures(1e3 * one.inlet, 2)}{THIN}mm open"
    )  # fmt: skip
    how = "Both plugs of its one coil stand in series" if one.paired else "Each plug"
    end = ", so that the coil has to jump both gaps" if one.paired else " sparks every turn"
    risk = (
        " Fresh charge is there: it may spit back through the carburettor."
        if one.spits else " What lies there is burned."
    )  # fmt: skip
    return (
        f"{how}{end}. The wasted spark falls {where}: exhaust "
        f"{figures(1e3 * one.exhaust, 2)}{THIN}mm, {inlet}.{risk} Plug leads swapped or cam a turn "
        "out, nobody would notice by the spark."
    )


def start_words(found: SparkFacts) -> str:
    """The safe angle to start with."""
    kick, kept = found.kick, math.degrees(KEPT_FROM_KICK)
    if not found.cranked.over:
        return "Not judged: its starter doesn't turn it over its tops."
    if not math.isfinite(kick.strong):
        safe = "No spark up to 70° before top throws it back, even a strong one on a tired starter."
    else:
        safe = (
            f"A strong first combustion on a tired starter throws it back from "
            f"{degrees(kick.strong, 0)} top on; {kept:.0f}° later is safe."
        )
    asked = found.plain.spark.start_angle
    same = abs(found.start - asked) < 1e-6
    word = "the file's" if same else f"not the file's {degrees(asked, 0)}"
    return f"{safe} Ask for {degrees(found.start, 0)} top while starting, {word}."
