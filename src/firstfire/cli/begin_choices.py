"""What ``?`` shows at a question of ``firstfire new``: what there is, and what each is good for."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from firstfire.catalog import Catalog, Row
from firstfire.catalog.names import plain
from firstfire.engine.geometry import layout_of
from firstfire.engine.grammar import leaves
from firstfire.engine.quantity import read_quantity
from firstfire.formulas import firing
from firstfire.verdict.numbers import figures

Given = Mapping[str, object]
"""Written values by path, as far as they are said."""


@dataclass(frozen=True)
class Known:
    """What is said so far (`given`), and the catalog that names are looked up in (`rows`)."""

    given: Given
    rows: Catalog


@dataclass(frozen=True)
class Choice:
    """One thing to answer.

    Attributes
    ----------
    name
        What to type.
    good_for
        What it does, in a line.
    group
        Heading it stands below; "" for none.
    """

    name: str
    good_for: str
    group: str = ""


def print_materials(known: Known) -> Iterator[Choice]:
    """What a printer lays down or cures, by kind."""
    return _grouped(
        row for row in known.rows.rows("material") if row.texts.get("made") == "printed"
    )


_CUT = ("metal", "amorphous", "semi-crystalline", "composite")
_NO_PART = re.compile(r"bolt_.*|.*_across|gasket_.*|music_wire")
"""Rows for screws, springs and gaskets, and those that tell a stuff again across its grain."""


def part_materials(known: Known) -> Iterator[Choice]:
    """What a part may be bought or cut from, by kind."""
    return _grouped(
        row
        for row in known.rows.rows("material")
        if row.texts.get("made") == "bought"
        and row.texts.get("structure") in _CUT
        and not _NO_PART.fullmatch(row.key)
    )


def _grouped(found: Iterable[Row]) -> Iterator[Choice]:
    """Rows kind by kind, as the catalog has them within one."""
    told = [Choice(row.key, _named(row, _good_for(row)), _kind(row)) for row in found]
    for kind in dict.fromkeys(choice.group for choice in told):
        yield from (choice for choice in told if choice.group == kind)


def _named(row: Row, told: str) -> str:
    """What is told of a row, behind its name where what is typed doesn't say that already."""
    return told if plain(row.name) == plain(row.key) else f"{row.name}: {told}"


def _kind(row: Row) -> str:
    structure, printed = row.texts.get("structure", ""), row.texts.get("made") == "printed"
    if structure == "metal":
        return "Metals"
    if structure == "cross-linked":
        return "Resins"
    if structure == "composite":
        return "Laminates and wood"
    if "fibres" in row.texts:
        return "Filaments with short carbon fibre (their dust harms lungs: sand wet)"
    return "Filaments" if printed else "Plastics, cut from rod, sheet or pipe"


_COOL, _WARM = 70.0, 120.0
"""Below and above what a loaded part stands, °C, it is called one for cool or for hot parts: our
own words, for choosing."""


def _good_for(row: Row) -> str:
    """Where it may stand by its temperature of continuous use, and how strong it is."""
    parts, warm, strong = [], row.get("continuous_use"), row.get("strength_in_plane")
    if warm is not None:
        place = "cool" if warm.value < _COOL else "warm" if warm.value <= _WARM else "hot"
        parts.append(f"{place} parts, to {figures(warm.value)} °C")
    if strong is not None:
        across = row.get("strength_across")
        told = f"{figures(strong.value)} MPa"
        lying = f" along layers, {figures(across.value)} across" if across else ""
        parts.append(told + lying)
    return "; ".join(parts)


def fuels(known: Known) -> Iterator[Choice]:
    """Fuels, liquids before gases."""
    groups = {"gas": "Gases", "liquid": "Liquids"}
    listed = sorted(known.rows.rows("fuel"), key=lambda row: row.texts.get("state") == "gas")
    for row in listed:
        heat = row.get("heating_value")
        told = [] if heat is None else [f"{figures(heat.value)} {heat.unit}"]
        told += [note] if (note := row.texts.get("note")) else []
        group = groups.get(row.texts.get("state", ""), "Others")
        yield Choice(row.key, _named(row, "; ".join(told)), group)


def starters(known: Known) -> Iterator[Choice]:
    """Starters with their speed and torque."""
    for row in known.rows.rows("starter"):
        speed, torque = row.get("no_load_speed"), row.get("stall_torque")
        turns = "" if speed is None else f"{figures(speed.value)} rpm with nothing to turn"
        twists = "" if torque is None else f"{figures(torque.value)} N·m at a stand"
        told = ", ".join(filter(None, (turns, twists)))
        yield Choice(row.key, _named(row, told))


LAYOUTS = (
    Choice("single", "one cylinder: the fewest parts, one strong beat every two turns"),
    Choice("parallel_twin", "two side by side: fires evenly where both pins stand together"),
    Choice("v_twin", "two in a V on one crankpin: short crank, uneven beat"),
    Choice("opposed_twin", "two opposite each other: fires evenly, and shakes least"),
)
SURFACES = (
    Choice("tube", "a bought tube pressed into the print: smooth, round, stands the fire"),
    Choice("bare_print", "the print itself: no tube to find, but it leaks and softens soonest"),
    Choice("metal", "a cylinder of metal, which carries itself"),
)
ROTATIONS = (
    Choice("clockwise", "the way a drill turns"),
    Choice("anticlockwise", "if your starter or propeller turns left"),
)


def _beat(said: firing.Layout) -> str:
    first, second = firing.firing_intervals(firing.firing_angles(said))
    return f"fires {math.degrees(first):.0f}° and {math.degrees(second):.0f}° apart"


V_ANGLES = tuple(
    Choice(f"{angle} deg", f"on one crankpin it {_beat(firing.v_twin(math.radians(angle)))}")
    for angle in (45, 60, 72, 90, 120)
)


def pin_offsets(known: Known) -> Iterator[Choice]:
    """Angles between the two crankpins, with the beat each gives."""
    for angle in (0, 90, 180, 270):
        given = {**known.given, "layout.crank_offset": f"{angle} deg"}
        pins = "one common pin: " if angle == 0 else ""
        yield Choice(f"{angle} deg", pins + _beat(_layout(given)))


def firing_choices(known: Known) -> Iterator[Choice]:
    """The two turns on which cylinder 2 can fire."""
    yield Choice("even", "as evenly as it can")
    for after in second_fires(known.given):
        told = round(math.degrees(after))
        yield Choice(f"{told} deg", f"cylinder 2 fires {told}° after cylinder 1, then "
                     f"cylinder 1 after {720 - told}°")  # fmt: skip


def second_fires(given: Given) -> tuple[float, ...]:
    """When cylinder 2 can fire after cylinder 1, rad: on either of its two top centres."""
    said = _layout(given)
    return tuple(firing.firing_angles(said, (False, second))[1] for second in (False, True))


def _layout(given: Given) -> firing.Layout:
    """Directions of bores and pins, with a V and a common pin where nothing is said of them."""
    v_angle, offset = (_angle(given, f"layout.{name}") for name in ("v_angle", "crank_offset"))
    return layout_of(str(given["layout.kind"]), v_angle, offset)


def _angle(given: Given, path: str) -> float:
    written = given.get(path)
    return 0.0 if written is None else read_quantity(written, "angle", comma=True)


def words_of(path: str) -> tuple[Choice]:
    """What a path takes where there is no list: what it is, and from where to where."""
    leaf = leaves()[path]
    span = f", from {leaf.low} to {leaf.high}" if leaf.low and leaf.high else ""
    return (Choice(leaf.written_example, f"for instance: {leaf.description}{span}"),)
