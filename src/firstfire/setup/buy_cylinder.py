"""What to buy for one cylinder: liner, rings, pin, shield, gasket, head screws, plug."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.catalog import Catalog, Row
from firstfire.engine.description import CylinderParts
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import fits
from firstfire.formulas.fits import GROUND_BAR
from firstfire.setup.item import PRACTICE, Check, Item
from firstfire.setup.orings import groove_diameter, nearest_rings
from firstfire.setup.screws import screws
from firstfire.setup.tubes import bore_limits, tube_for
from firstfire.setup.words import by, material, mm, percent, rod_note, small
from firstfire.verdict.numbers import shown

SAW = 3e-3
"""Length lost to sawing and squaring a piece of stock (common practice, no source)."""


def cylinder_items(engine: Engine, plain: PlainEngine, number: int) -> Iterator[Item]:
    """Everything to buy for one cylinder, counted from 1."""
    parts, rows = plain.cylinders[number - 1], engine.catalog
    yield from _liner(rows, parts)
    yield from _rings(rows, parts)
    yield from _pin(rows, plain, parts)
    yield from _sheet(rows, parts)
    yield from _gasket(rows, parts)
    yield from screws(rows, parts)
    yield from _whole(rows, parts)


def _liner(rows: Catalog, parts: CylinderParts) -> Iterator[Item]:
    """Tube or sleeve; a bare print has neither."""
    liner, bore = parts.liner, parts.cylinder.bore
    if liner.kind == "bare_print":
        return
    tube, stuff = tube_for(rows, parts), material(rows, liner.material)
    low, high, why = bore_limits(parts)
    inside = Check(
        "bore", "caliper_inside", "at both ends and the middle, each at three angles",
        bore, low, high, "mm", why,
    )  # fmt: skip
    name, standard, source, row = f"{stuff} tube", "", PRACTICE, ("", "")
    checks: tuple[Check, ...] = (inside,)
    note = (
        "No tube of the catalog is near these sizes; look before you count on one."
        if liner.made == "tube"
        else ""
    )
    if tube is not None:
        name, standard, row = small(tube.name), tube.texts.get("standard", ""), ("tube", tube.key)
        source, note = f"{tube['bore'].source} ({tube['bore'].sure})", _stock(tube, low, high)
        checks = (inside, _outside(tube, parts))
    elif liner.made != "tube":
        name = f"{stuff} sleeve"
    size = "" if tube is not None else f"{by(bore, liner.outside_diameter)}, "
    yield Item(
        "Tube, rod and sheet", name, f"{size}{mm(liner.length + SAW)} long", 1, "liner",
        standard, source, "liner", checks, note, row, liner.length + SAW,
    )  # fmt: skip


def _stock(tube: Row, low: float, high: float) -> str:
    """Whether the tube's own tolerance is wider than the engine can take."""
    bore = tube["bore"]
    allowed = f"The standard allows a bore of {mm(bore.si_low)} to {mm(bore.si_high)}"
    if bore.si_low < low or bore.si_high > high:
        return f"{allowed}: choose a piece that measures right, or hone it."
    return f"{allowed}, all of which will do."


def _outside(tube: Row, parts: CylinderParts) -> Check:
    outside = tube["outside"]
    fit = parts.liner.fit_interference
    return Check(
        "outside", "caliper", "at both ends, three angles each", outside.si, outside.si_low,
        outside.si_high, "mm",
        f"the body's hole is made {mm(fit)} smaller than what you measure here",
    )  # fmt: skip


def _rings(rows: Catalog, parts: CylinderParts) -> Iterator[Item]:
    rings = parts.rings
    if not rings.count or rings.kind == "none":
        return
    stuff = material(rows, rings.material)
    if rings.kind == "o_ring":
        yield _oring(rows, parts, stuff)
        return
    size = by(parts.cylinder.bore, rings.section, rings.axial_height)
    gap = Check(
        "gap at the ends", "feeler_gauge", "the ring pushed square into the bore by the piston",
        rings.gap, rings.gap, 1.5 * rings.gap, "mm",
        "less jams when warm; half as much again only leaks (common practice, no source)",
    )  # fmt: skip
    yield Item(
        "Seals", f"piston ring, {stuff}", f"{size} (bore × width × height)", rings.count, "piston",
        "", "engine file", "rings", (gap,), "Buy one more than you fit: the first one breaks.",
    )  # fmt: skip


def _oring(rows: Catalog, parts: CylinderParts, stuff: str) -> Item:
    """The ring the file names, or else its size with the nearest ring that is sold."""
    rings = parts.rings
    row = rows.row("oring", rings.oring) if rings.oring else None
    groove, drawn = groove_diameter(parts), by(rings.inside_diameter, rings.section)
    name, note, standard = f"O-ring, {stuff}", "", ""
    near = nearest_rings(rows, parts)
    if row is None and near:
        row = near[0].row
        others = f"; so does {near[1].row.name}" if len(near) > 1 else ""
        note = f"Your file draws {drawn}; this is sold and fits the groove{others}."
    if row is not None:
        name, standard = f"O-ring {row.name}, {stuff}", _oring_standard(row.key)
        note += f" It sits with {percent(groove / row.si('inside') - 1, 1)} of stretch."
        drawn = by(row.si("inside"), row.si("section"))
    else:
        note = "No ring of the catalog fits this groove with 0 to 5 % of stretch."
    section = row["section"] if row is not None else None
    slack = section.si_high - section.si if section is not None else 0.09e-3
    check = Check(
        "section", "micrometer", "at four places round, without squeezing it", rings.section,
        rings.section - slack, rings.section + slack, "mm",
        "it sets squeeze and drag; limits " + ("of the standard" if section else PRACTICE),
    )  # fmt: skip
    return Item(
        "Seals", name, f"{drawn} (inside × section), {rings.hardness:.0f} Shore A",
        rings.count, "piston", standard,
        section.source if section else "engine file", "rings", (check,),
        f"{note.strip()} Buy as many again: one is cut at the first assembly.",
        ("oring", row.key) if row is not None else ("", ""),
    )  # fmt: skip


def _oring_standard(key: str) -> str:
    return "SAE AS568" if key.startswith("as568") else "ISO 3601-1 tolerances"


def _pin(rows: Catalog, plain: PlainEngine, parts: CylinderParts) -> Iterator[Item]:
    pin = parts.pin
    hole = f" with a hole of {mm(pin.inside_diameter)}" if pin.inside_diameter else ""
    volume = math.pi / 4 * (pin.diameter**2 - pin.inside_diameter**2) * pin.length
    yield Item(
        "Tube, rod and sheet", f"{material(rows, pin.material)} rod, ground",
        f"{mm(pin.diameter)} thick{hole}, {mm(pin.length + SAW)} long", 1, "piston pin",
        f"ISO 286 {GROUND_BAR} (ground bar)", "sizes from the engine file; grade common practice",
        "pin", (rod_check(pin.diameter),), rod_note(pin.diameter, "pin.diameter"),
        length=pin.length + SAW,
        mass=plain.materials[pin.material]["density"] * volume,
    )  # fmt: skip
    if pin.retention == "circlips":
        yield Item(
            "Screws", "circlip (or wire ring) for a bore",
            f"for a hole of {mm(pin.diameter)}", 2, "both ends of the piston pin", "DIN 472",
            "size from the engine file; standard from memory", "pin.retention",
        )  # fmt: skip
    if pin.retention == "buttons":
        yield Item(
            "Tube, rod and sheet", "PTFE rod", f"{mm(pin.diameter)} thick, a few centimetres", 1,
            "buttons at the ends of the piston pin", "", PRACTICE, "pin.retention",
        )  # fmt: skip


def rod_check(diameter: float) -> Check:
    """What to measure on ground rod, by ISO 286."""
    least = diameter + fits.shaft_limits(diameter, GROUND_BAR).lower
    return Check(
        "diameter", "micrometer", "at three places, two directions each", diameter, least,
        diameter, "mm",
        f"limits of {GROUND_BAR} (ISO 286); a caliper is too coarse for a press or a running fit",
    )  # fmt: skip


def _sheet(rows: Catalog, parts: CylinderParts) -> Iterator[Item]:
    """Crown shield and chamber plate."""
    shield, head = parts.piston.shield, parts.head
    if shield.thickness > 0:
        yield Item(
            "Tube, rod and sheet", f"{material(rows, shield.material)} sheet",
            f"{mm(shield.thickness)} thick, a disc of {mm(shield.diameter)}", 1, "crown shield",
            "", "engine file", "piston.shield",
            (_thickness(shield.thickness, "compression ratio and shield's heat follow it"),),
        )  # fmt: skip
    if head.chamber_plate is not None and head.chamber_plate_thickness > 0:
        across = parts.gasket.inside_diameter + 2 * parts.gasket.width
        yield Item(
            "Tube, rod and sheet", f"{material(rows, head.chamber_plate)} sheet",
            f"{mm(head.chamber_plate_thickness)} thick, a disc of {mm(across)} at least", 1,
            "plate that faces the fire", "", "engine file; as wide as the gasket (assumed)",
            "head.chamber_plate",
            (_thickness(head.chamber_plate_thickness, "it spreads heat and lies in the joint"),),
        )  # fmt: skip


def _cured(seconds: float) -> str:
    return shown(seconds, "min") if seconds < 5400 else shown(seconds, "hour")


def _thickness(wanted: float, why: str) -> Check:
    return Check(
        "thickness", "caliper", "at two edges", wanted, wanted - 0.1e-3, wanted + 0.1e-3, "mm",
        f"{why} (limits: {PRACTICE})",
    )  # fmt: skip


def _closed(row: Row) -> str:
    """How soon the joint must be closed, by the earliest that its skin may form."""
    if "skin_time" not in row.data:
        return ""
    return f"Close the joint within {row['skin_time'].si_low / 60:.0f} min, before it has a skin. "


def _gasket(rows: Catalog, parts: CylinderParts) -> Iterator[Item]:
    gasket = parts.gasket
    if gasket.kind == "none":
        return
    outside = gasket.inside_diameter + 2 * gasket.width
    ring, stuff = by(gasket.inside_diameter, outside), material(rows, gasket.material)
    if gasket.kind == "cured_sealant":
        yield Item(
            "Glue, grease and coatings", stuff, "a tube; a bead for each head", 1,
            f"head gasket, {mm(gasket.thickness)} thick when cured", "", "engine file", "gasket",
            note=_closed(rows.row("material", gasket.material))
            + f"Cure it {_cured(gasket.cure_time)} at {gasket.cure_temperature - 273.15:.0f} °C, "
            "as your file has it.",
        )  # fmt: skip
        return
    if gasket.kind == "o_ring":
        yield Item(
            "Seals", f"O-ring, {stuff}", f"about {mm(gasket.inside_diameter)} inside", 1,
            "head joint", "", "engine file", "gasket",
        )  # fmt: skip
        return
    yield Item(
        "Seals", stuff if gasket.kind == "sheet" else f"{stuff} ring",
        f"{mm(gasket.thickness)} thick, {ring} (inside × outside)", 1, "head gasket", "",
        "engine file", "gasket", (_thickness(gasket.thickness, "compression follows it"),),
        "Enough for three: a gasket is used once." if gasket.kind == "sheet" else "",
    )  # fmt: skip


def _whole(rows: Catalog, parts: CylinderParts) -> Iterator[Item]:
    """Parts that are bought finished, or cut from a block rather than printed."""
    names = {"liner": "", "body": "cylinder", "piston": "piston", "rod": "con rod", "head": "head"}
    sizes = {
        "body": f"{mm(parts.body.outside_diameter)} across, {mm(parts.liner.length)} long",
        "piston": f"for a bore of {mm(parts.cylinder.bore)}, {mm(parts.piston.length)} long, pin "
        f"{mm(parts.pin.diameter)}",
        "rod": f"{mm(parts.rod.length)} between centres",
        "head": f"{mm(parts.head.diameter)} across, {mm(parts.head.thickness)} over the chamber",
    }
    for section, name in names.items():
        made = getattr(parts, section)
        if not name or made.made == "printed":
            continue
        stuff = material(rows, made.material)
        what = (
            f"{name}, {stuff}" if made.made == "bought" else f"{stuff}, {made.made} for the {name}"
        )
        yield Item(
            "Tube, rod and sheet", what, sizes[section], 1, name, "", "engine file", section,
        )  # fmt: skip
