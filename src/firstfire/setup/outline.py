"""Outlines of the printed parts: simple bodies of the engine's own dimensions, to weigh them by.

An outline has no fillets, lugs, ribs or fins, and no hole but those said here: what a part is
drawn like in the end nobody knows before it is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import geometry, mechanism
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.make import Made
from firstfire.formulas import belt
from firstfire.loads.crank_layout import throws


@dataclass(frozen=True)
class Outline:
    """A part as a simple body.

    Attributes
    ----------
    part, section
        In the trade's words, and the section of the engine file that says how it is made.
    cylinder
        Whose it is, counted from 1; 0 where it belongs to the engine.
    count
        How many alike.
    volume
        Of one, if it were solid, m³.
    thickness
        Of its thickest wall, m: what the printer fills between its lines.
    sizes
        m along the bore, across it and along the crank.
    how
        What body it was taken as.
    """

    part: str
    section: str
    cylinder: int
    count: int
    volume: float
    thickness: float
    sizes: tuple[float, float, float]
    how: str


def hollow_cylinder(outside: float, inside: float, length: float) -> float:
    """Volume of a tube, m³: π/4 (D² - d²) L.

    Examples
    --------
    >>> round(hollow_cylinder(60e-3, 44e-3, 68.4e-3) * 1e6, 2)
    89.39
    """
    return math.pi / 4 * (outside**2 - inside**2) * length


def outlines(plain: PlainEngine) -> tuple[Outline, ...]:
    """Every part that may be printed, whether it is or not, in the order of building."""
    found: list[Outline] = []
    for number, parts in enumerate(plain.cylinders, start=1):
        found += [_liner(parts, number), _body(parts, number), _piston(parts, number)]
        found += [_rod(plain, parts, number), _head(plain, parts, number)]
    return (*found, *_crank(plain), _case(plain), *_pulleys(plain), *_cams(plain))


def made(plain: PlainEngine, outline: Outline) -> Made | None:
    """How the engine file says a part is made; None where it has no say of its own."""
    owner = plain.cylinders[max(outline.cylinder, 1) - 1] if outline.cylinder else plain
    section = getattr(owner, outline.section, None)
    if not isinstance(section, Made):
        return None
    own = {"crankpin": plain.crank.crankpin, "main journal": plain.crank.journal}.get(outline.part)
    return section.filled_as(own) if own is not None else section


def _liner(parts: CylinderParts, number: int) -> Outline:
    outside, bore, length = parts.liner.outside_diameter, parts.cylinder.bore, parts.liner.length
    return Outline(
        "liner", "liner", number, 1, hollow_cylinder(outside, bore, length), (outside - bore) / 2,
        (length, outside, outside), "a tube from bore to outside",
    )  # fmt: skip


def _body(parts: CylinderParts, number: int) -> Outline:
    outside, hole = parts.body.outside_diameter, parts.liner.outside_diameter
    length = parts.liner.length
    return Outline(
        "body", "body", number, 1, hollow_cylinder(outside, hole, length), (outside - hole) / 2,
        (length, outside, outside), "a tube round the liner and as long; no flange, lug or fin",
    )  # fmt: skip


def _piston(parts: CylinderParts, number: int) -> Outline:
    """Crown, skirt and two bosses, as the file's own rule weighs them."""
    bore, piston, pin = parts.cylinder.bore, parts.piston, parts.pin.diameter
    crown = math.pi / 4 * bore**2 * piston.crown_thickness
    skirt = math.pi * (bore - piston.skirt_thickness) * piston.skirt_thickness
    skirt *= max(piston.length - piston.crown_thickness, 0.0)
    bosses = hollow_cylinder(1.8 * pin, pin, piston.boss_width)
    return Outline(
        "piston", "piston", number, 1, crown + skirt + bosses,
        max(piston.crown_thickness, piston.skirt_thickness), (piston.length, bore, bore),
        "a disc, a tube and two bosses of 1.8 pins; grooves not taken off",
    )  # fmt: skip


def _rod(plain: PlainEngine, parts: CylinderParts, number: int) -> Outline:
    """A bar between two eyes, as the file's own rule weighs it."""
    rod, ends = parts.rod, (parts.pin.diameter, plain.crank.crankpin_diameter)
    widths = (rod.small_end_width, rod.big_end_width)
    eyes = sum(
        hollow_cylinder(hole + 2 * rod.eye_wall, hole, width)
        for hole, width in zip(ends, widths, strict=True)
    )
    free = max(rod.length - sum(ends) / 2 - 2 * rod.eye_wall, 0.0)
    return Outline(
        "con rod", "rod", number, 1, eyes + rod.shank_width * rod.shank_thickness * free,
        max(rod.shank_thickness, *widths),
        (rod.length + sum(ends) / 2 + 2 * rod.eye_wall, max(ends) + 2 * rod.eye_wall, max(widths)),
        "a bar between two eyes",
    )  # fmt: skip


def _head(plain: PlainEngine, parts: CylinderParts, number: int) -> Outline:
    """A disc with the chamber's recess taken out, and the throats and plug hole through it."""
    bore, head = parts.cylinder.bore, parts.head
    area = math.pi / 4 * bore**2
    above = geometry(plain).cylinders[number - 1].clearance_volume
    recess = max(above - area * (parts.gasket.thickness + parts.cylinder.deck), 0.0)
    height = head.thickness + recess / area
    throats = (parts.valves.inlet.throat_diameter, parts.valves.exhaust.throat_diameter)
    holes = math.pi / 4 * sum(d**2 for d in throats) * head.thickness
    return Outline(
        "head", "head", number, 1, math.pi / 4 * head.diameter**2 * height - recess - holes,
        head.thickness, (height, head.diameter, head.diameter),
        "a disc less chamber and throats; no rocker or cam carrier",
    )  # fmt: skip


def _crank(plain: PlainEngine) -> Iterator[Outline]:
    """Cheeks as bars, journals in the bearings, and pins where they are of the same stuff."""
    crank, number = plain.crank, len(throws(plain))
    radius, _, _ = mechanism(plain.cylinders[0])
    long = radius + crank.cheek_width
    yield Outline(
        "crank cheek", "crank", 0, 2 * number, long * crank.cheek_width * crank.cheek_thickness,
        crank.cheek_thickness, (long, crank.cheek_width, crank.cheek_thickness),
        "a bar from half a width beyond the shaft to half a width beyond the pin; "
        "no counterweight",
    )  # fmt: skip
    journal = crank.main_bearing_width * crank.main_bearings / 2
    wheel = plain.flywheel.thickness + plain.cam_drive.width * plain.cam_drive.count
    across, inside = crank.main_journal_diameter, crank.journal.rod_diameter
    if crank.journal.joint.kind == "solid":
        yield Outline(
            "main journal", "crank", 0, 2, hollow_cylinder(across, inside, journal + wheel / 2),
            across - inside, (across, across, journal + wheel / 2),
            "a rod through its bearing, half of flywheel and cam drive added to each",
        )  # fmt: skip
    if crank.crankpin_material != crank.material:
        return
    length = crank.crankpin_length + (2 * crank.joint.length if crank.built == "built_up" else 0)
    yield Outline(
        "crankpin", "crank", 0, number,
        hollow_cylinder(crank.crankpin_diameter, crank.through_rod_diameter, length),
        crank.crankpin_diameter - crank.through_rod_diameter,
        (crank.crankpin_diameter, crank.crankpin_diameter, length), "a rod into both cheeks",
    )  # fmt: skip


def _case(plain: PlainEngine) -> Outline:
    """A closed drum that holds the case's volume and clears the crank, with bearing seats."""
    crank, case = plain.crank, plain.case
    inside = max(crank.bearing_span - crank.main_bearing_width, crank.crankpin_length)
    stroke = plain.cylinders[0].cylinder.stroke
    sweep = stroke + crank.cheek_width + 2e-3
    across = max(math.sqrt(4 * case.volume / (math.pi * inside)), sweep)
    outer, long = across + 2 * case.wall, inside + 2 * case.wall
    shell = math.pi / 4 * (outer**2 * long - across**2 * inside)
    seats = crank.main_bearings * hollow_cylinder(
        crank.main_bearing_outside + 2 * case.wall, crank.main_bearing_outside,
        crank.main_bearing_width,
    )  # fmt: skip
    return Outline(
        "crankcase (both halves)", "case", 0, 1, shell + seats, case.wall, (outer, outer, long),
        "a drum round the case's volume that clears the crank, with bearing seats; no feet",
    )  # fmt: skip


def _pulleys(plain: PlainEngine) -> Iterator[Outline]:
    drive = plain.cam_drive
    if drive.kind == "chain":
        return
    for name, teeth in (("crank", drive.teeth_crank), ("cam", drive.teeth_cam)):
        across = belt.pulley_pitch_diameter(teeth, drive.pitch)
        wide = drive.width + (2e-3 if drive.kind == "belt" else 0.0)
        word = "pulley" if drive.kind == "belt" else "gear"
        yield Outline(
            f"{word} on the {name}, {teeth} teeth", "", 0, drive.count,
            math.pi / 4 * across**2 * wide, wide, (across, across, wide),
            "a disc of its pitch diameter, a millimetre of flange each side; hole not taken off",
        )  # fmt: skip


def _cams(plain: PlainEngine) -> Iterator[Outline]:
    for number, parts in enumerate(plain.cylinders, start=1):
        for name in ("inlet", "exhaust"):
            valve = getattr(parts.valves, name)
            if valve.worked != "cam":
                continue
            lift = valve.lift / valve.rocker_ratio
            across, wide = 2 * valve.base_radius + lift, valve.cam_width
            yield Outline(
                f"{name} cam", "", number, 1, math.pi / 4 * across**2 * wide, wide,
                (across, across, wide),
                "a disc as large as base circle and lift",
            )  # fmt: skip
