"""The spark of an engine on the terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from firstfire.setup.spark import words
from firstfire.setup.spark.advance_table import AdvanceTable
from firstfire.setup.spark.facts import SparkFacts
from firstfire.setup.spark.picture import picture
from firstfire.setup.spark.triggers import PointsSet
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped

_RPM = math.pi / 30
_MARKS = {"torque": " ", "knock": "k", "kick": "b", "not lit": "-"}
PICTURE = (
    "Degrees from 120 before firing top (T) to 30 after. < > edges, or points shut and open; = "
    "current in the coil; a asked, * true, - its scatter."
)


def spark_text(found: SparkFacts, *, width: int = WIDTH) -> str:
    """All of it as text."""
    lines = [*wrapped(words.opening(found), width=width), "", *picture(found)]
    lines += wrapped(PICTURE, 2, width=width)
    lines += _faults(found, width)
    lines += _trigger(found, width)
    lines += heading("Asked and true")
    lines += [*_angles(found), *wrapped(words.edge_words(found), 2, width=width)]
    lines += heading("Coil")
    lines += [*_coil(found), *_said(words.coil_words(found), width)]
    lines += heading("Plug: wanted and given")
    lines += [*_jumps(found), *wrapped(_JUMPS, 2, width=width)]
    wasted = words.wasted_words(found)
    lines += [*heading("Wasted spark"), *wrapped(wasted, 2, width=width)] if wasted else []
    lines += [*heading("Leads"), *_leads(found, width)]
    lines += [*heading("Starting"), *wrapped(words.start_words(found), 2, width=width)]
    if found.table is not None:
        lines += [*heading("Advance by speed and load"), *_table(found.table, width)]
    for note in found.notes:
        lines += wrapped(f"Not judged, or only so far: {note}.".replace("..", "."), 2, width=width)
    return "\n".join([*lines, "", *wrapped(words.CAUTION, width=width)])


def _faults(found: SparkFacts, width: int) -> Iterator[str]:
    if not found.faults:
        return
    yield from heading("Wrong, and the nearest that works")
    for fault in found.faults:
        yield from wrapped(f"{fault.says} {fault.cure}", 2, width=width, hang=4)
        for path, value in fault.values:
            yield f"    --set {path}='{value}'"


def _trigger(found: SparkFacts, width: int) -> Iterator[str]:
    yield from heading("Trigger")
    one = found.trigger
    said = words.points_words(one) if isinstance(one, PointsSet) else words.sensor_words(one)
    yield from _said(said, width)


def _said(sentences: list[str], width: int) -> Iterator[str]:
    for one in sentences:
        yield from wrapped(one, 2, width=width, hang=4)


def _angles(found: SparkFacts) -> Iterator[str]:
    yield f"  {'':<12}{'rpm':>7}{'asked':>14}{'true':>14}{'scatter':>10}{'early by':>11}"
    for one in found.angles:
        if one.why_not:
            yield from wrapped(f"{one.name}: not judged, {one.why_not}.", 2, hang=4)
            continue
        yield (
            f"  {one.name:<12}{round(one.speed / _RPM):>7}{words.degrees(one.asked):>14}"
            f"{words.degrees(one.true):>14}{'±' + _deg(one.scatter):>10}{_deg(one.early):>11}"
        )


def _deg(angle: float) -> str:
    return f"{round(math.degrees(angle), 1) + 0.0:.1f}°"


def _coil(found: SparkFacts) -> Iterator[str]:
    coil = found.circuit
    supplies = [coil.voltage] + ([found.left] if found.left < coil.voltage - 0.05 else [])
    yield f"  {'charged for':<14}" + "".join(f"{f'at {figures(v, 3)} V':>22}" for v in supplies)
    for share in (0.5, 1.0, 2.0, 4.0):
        charging = share * coil.constant
        yield f"  {figures(1e3 * charging, 2) + ' ms':<14}" + _at(found, charging, supplies)
    cranked = coil.charging(found.cranked.mean_speed)
    yield f"  {'as cranked':<14}" + _at(found, cranked, supplies)
    fast = found.angles[-1]
    yield f"  {fast.name[:14]:<14}" + _at(found, coil.charging(fast.speed), supplies[:1])


def _at(found: SparkFacts, charging: float, supplies: list[float]) -> str:
    coil = found.circuit
    told = ""
    for supply in supplies:
        amps, joules = coil.current(charging, supply), coil.energy(charging, supply)
        volts = coil.gives(charging, supply)
        cell = f"{figures(amps, 2)} A {figures(1e3 * joules, 2)} mJ {figures(volts / 1e3, 2)} kV"
        told += f"{cell:>22}"
    return told


_JUMPS = (
    "Wanted by Paschen's law for air at the gas's density, sharp to worn; given by the coil's "
    "energy in its own capacity. Jumps: even the worn plug by the weakest coil like it."
)


def _jumps(found: SparkFacts) -> Iterator[str]:
    yield f"  {'':<10}{'bar':>6}{'°C':>6}{'kV wanted':>18}{'kV given':>18}  {'':<13}{'gap':>5}"
    for one in found.jumps:
        if one.why_not:
            yield from wrapped(f"{one.name}: not judged. {one.why_not}", 2, hang=4)
            continue
        gap = "none" if one.gap_that_would is None else figures(1e3 * one.gap_that_would, 2)
        wants = _span(one.wants, one.wants_least, one.wants_most)
        gives = _span(one.gives, one.gives_least, one.gives_most)
        yield (
            f"  {one.name:<10}{figures(one.gas.pressure / 1e5, 2):>6}"
            f"{round(one.gas.temperature - 273.15):>6}{wants:>18}{gives:>18}"
            f"  {one.word:<13}{gap:>5}"
        )
    now = figures(1e3 * found.jumps[0].gap, 2)
    yield f"  Gap now {now}{THIN}mm; the last column is the widest that jumps, mm."


def _span(value: float, low: float, high: float) -> str:
    each = [figures(one / 1e3, 2) for one in (value, low, high)]
    return f"{each[0]} ({each[1]}–{each[2]})"


def _leads(found: SparkFacts, width: int) -> Iterator[str]:
    for one in found.leads:
        mark = {"done": "[x]", "do": "[ ]", "lacking": "[!]", "not judged": "[?]"}[one.state]
        yield from wrapped(f"{mark} {one.do} {one.why}", 2, width=width, hang=6)
    yield from wrapped("[x] the file has it, [!] the file says it lacks, [?] not judged.", 2)


def _table(table: AdvanceTable, width: int) -> Iterator[str]:
    speeds = "".join(f"{round(speed / _RPM):>8}" for speed in table.speeds)
    yield f"  {'throttle':<10}{'kPa':>6}{speeds}  rpm"
    for row in range(len(table.openings) - 1, -1, -1):
        cells = "".join(
            f"{math.degrees(angle):>7.1f}{'+' if bound else _MARKS[governs]}"
            for angle, governs, bound in zip(
                table.advance[row], table.governs[row], table.bounded[row], strict=True
            )
        )
        intake = table.pressures[row]
        known = intake[np.isfinite(intake)]
        told = f"{known.mean() / 1e3:.0f}" if len(known) else "–"
        yield f"  {round(100 * float(table.openings[row])):>3}{THIN}%{'':<5}{told:>6}{cells}"
    yield from wrapped(
        "Degrees before top to be asked for, warm: the latest that gives up 1 % of most torque. "
        "k: held back 3° from knock; b: 5° from kick-back; -: nothing burns there; +: torque "
        "still rose at the earliest spark tried, so no best is known. Intake pressure is the "
        "row's mean. An estimate: start later, go earlier while it gains, listen for knock.",
        2, width=width,
    )  # fmt: skip
