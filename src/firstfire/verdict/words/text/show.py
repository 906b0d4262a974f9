"""A whole check on the terminal: the answer first, words before colour."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from firstfire.engine.geometry import CylinderGeometry, SpeedGeometry
from firstfire.runs.tooth_off import why_none
from firstfire.verdict.facts.found import Found
from firstfire.verdict.numbers import shown
from firstfire.verdict.words.lasting_words import curve_words
from firstfire.verdict.words.ledger import next_moves, without_a_move
from firstfire.verdict.words.made import breathing_words, friction_words, spark_words
from firstfire.verdict.words.sentences import brake_words, firing, strongest, which_cylinder
from firstfire.verdict.words.text.card import card_lines
from firstfire.verdict.words.text.ledger import ledger_lines, move_lines, run_time_lines
from firstfire.verdict.words.text.lines import WIDTH, beside, heading, pairs, wrapped
from firstfire.verdict.words.text.points import filling_lines, made_lines, pressure_curve
from firstfire.verdict.words.tooth import TITLE, tooth_lines


def check_text(result: Found, *, width: int = WIDTH) -> str:
    """The whole check as text of so many columns."""
    lines = [*wrapped(result.sentence, width=width)]
    if result.engine.story:
        lines += ["", *wrapped(" ".join(result.engine.story.split()), width=width)]
    lines += [*heading("The card"), *card_lines(result, width=width)]
    lines += _verdict(result, width)
    lines += _points(result, width)
    lines += [*heading("By arithmetic"), *pairs(_engine_rows(result))]
    lines += _cylinder_lines(result)
    lines += [*heading("Piston speed"), *_speed_lines(result.geometry.speeds)]
    lines += heading("Not judged yet")
    for unjudged in result.unjudged:
        lines += wrapped(f"{unjudged.subject}: {unjudged.why}.", 2, width=width)
    lines += heading("Cautions")
    for caution in result.cautions:
        lines += wrapped(f"{caution.hazard}: {caution.text}", 2, width=width)
    return "\n".join(lines)


_MOST_RAISED = 5
_MOST_IDLE = 6


def _verdict(result: Found, width: int) -> list[str]:
    """Ledger, run times and next moves."""
    plain, limits = result.plain, result.run_times
    lines = [*heading("What gives way, likeliest to end it first: capacity over demand (5-95 %)")]
    lines += ledger_lines(result.margins, plain, width=width)
    lines += [*heading(TITLE), *_teeth(result, width)]
    ending = list(run_time_lines(limits, plain, width=width))
    if ending:
        lines += [*heading("How long full throttle may be held from cold"), *ending]
        lines += _curve(result, "full_throttle", width)
        lines += _each(brake_words(result), width)
    idling = list(run_time_lines(limits, plain, "idle", most=_MOST_IDLE, width=width))
    if idling:
        lines += [*heading("How long it may idle from cold"), *idling]
        lines += _curve(result, "idle", width)
    return lines + _moves(result, width)


def _teeth(result: Found, width: int) -> Iterator[str]:
    """Room of valve and piston, a line a tooth that the cam drive is out."""
    for line in tooth_lines(result.plain):
        told = f"  {line.word:<9}{line.when:<16}{line.told:<17}"
        yield from beside(told, line.which, len(told), width=width)
    if reason := why_none(result.plain):
        yield from wrapped(f"{reason[0].upper()}{reason[1:]}.", 2, width=width)


def _moves(result: Found, width: int) -> list[str]:
    """Changes that were tried, and what none is offered for."""
    worst = next_moves(result.margins, result.plain)[:_MOST_RAISED]
    bare = without_a_move(result.margins, result.plain)
    lines: list[str] = []
    if worst:
        lines += heading("The next move: changes that were tried, with the factor then")
    elif bare:
        lines += heading("The next move")
    for tried in worst:
        lines += move_lines(tried, width=width)
    return lines + (wrapped(bare, 2, width=width) if bare else [])


def _curve(result: Found, event: str, width: int) -> list[str]:
    """How long an event lasts as three times, and what ends it."""
    return _each([curve_words(one) for one in result.lasting if one.event == event], width)


def _each(sentences: Iterable[str], width: int) -> list[str]:
    return [line for said in sentences for line in wrapped(said, 2, width=width)]


def _points(result: Found, width: int) -> list[str]:
    """What it makes, if anything was run."""
    if not result.points:
        return []
    lines = [*heading("What it makes, an estimate"), *made_lines(result.events)]
    lines += ["", *filling_lines(result.points)]
    lines += _each(breathing_words(result.points), width)
    best = strongest(result)
    if best is not None:
        lines += ["", *wrapped(friction_words(best), 2, width=width)]
        speed = shown(best.speed, "rpm", 4)
        which = which_cylinder(1, len(best.walls))
        lines += heading(f"Pressure in {which} at {speed}, about firing top centre")
        lines += pressure_curve(best, result.plain)
        lines += wrapped(f"{spark_words(best)} Every figure is an estimate.", 2, width=width)
    return lines


def _engine_rows(result: Found) -> list[tuple[str, str]]:
    shape = result.geometry
    rows = [
        ("displacement", shown(shape.displacement, "cm^3")),
        ("fires", firing(shape)),
        ("flywheel and load", shown(shape.flywheel_inertia, "kg*m^2")),
    ]
    if len(shape.firing_angles) > 1:
        angles = ", ".join(f"{math.degrees(a):.4g}°" for a in shape.firing_angles)
        rows.insert(2, ("firing angles", angles))
    return rows


def _cylinder_lines(result: Found) -> list[str]:
    """One column a cylinder, or one for both where they are alike."""
    each = result.geometry.cylinders
    alike = all(c == each[0] for c in each)
    columns = [_cylinder_rows(c) for c in (each[:1] if alike else each)]
    title = "Each cylinder" if len(each) > 1 and alike else "Cylinder"
    lines = heading(title if len(columns) == 1 else "Cylinders 1 and 2")
    for rows in zip(*columns, strict=True):
        values = "".join(f"{value:<20}" for _, value in rows).rstrip()
        lines.append(f"  {rows[0][0]:<34}{values}")
    return lines


def _cylinder_rows(c: CylinderGeometry) -> list[tuple[str, str]]:
    ring = (
        "–" if c.ring_squeeze is None else f"{c.ring_squeeze:.1%}, {c.ring_fill:.0%}, "
        f"{c.ring_stretch:.1%}"
    )  # fmt: skip
    return [
        ("swept volume", shown(c.displacement, "cm^3")),
        ("volume at top centre", shown(c.clearance_volume, "cm^3")),
        ("compression ratio", f"{c.compression_ratio:.3g}"),
        ("inlet: curtain, throat", _areas(c.inlet_curtain, c.inlet_throat)),
        ("exhaust: curtain, throat", _areas(c.exhaust_curtain, c.exhaust_throat)),
        ("valve to wall, valve to valve", _gaps(c.valve_to_wall, c.valve_to_valve)),
        ("rod to liner", shown(c.rod_to_skirt, "mm")),
        ("O-ring squeeze, fill, stretch", ring),
        ("goes up and down", shown(c.reciprocating_mass, "g")),
    ]


def _areas(first: float, second: float) -> str:
    return f"{shown(first, 'mm^2')}, {shown(second, 'mm^2')}"


def _gaps(first: float, second: float) -> str:
    return f"{shown(first, 'mm')}, {shown(second, 'mm')}"


def _speed_lines(speeds: Iterable[SpeedGeometry]) -> Iterator[str]:
    yield f"  {'speed':<14}{'mean':<14}{'largest':<14}largest acceleration"
    for s in speeds:
        yield (
            f"  {shown(s.speed, 'rpm'):<14}{shown(s.mean_piston_speed, 'm/s'):<14}"
            f"{shown(s.largest_piston_speed, 'm/s'):<14}"
            f"{shown(s.largest_piston_acceleration, 'm/s^2')}"
        )
