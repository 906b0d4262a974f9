"""What to buy for valves and cam drive."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.catalog import Catalog, Row
from firstfire.engine.description import CylinderParts
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import CamDrive, Valve
from firstfire.errors import OutsideValidity
from firstfire.formulas import belt
from firstfire.setup.item import PRACTICE, Check, Item
from firstfire.setup.words import material, mm, rod_note, sold_diameter
from firstfire.verdict.numbers import THIN, figures, shown

_NEAR = 0.02


def valve_items(engine: Engine, plain: PlainEngine) -> Iterator[Item]:
    """Valves, seats, guides, springs of every cylinder, and the cam drive."""
    rows = engine.catalog
    for parts in plain.cylinders:
        for name in ("inlet", "exhaust"):
            yield from _valve(rows, parts, name)
    yield from _drive(rows, plain.cam_drive)


def _valve(rows: Catalog, parts: CylinderParts, name: str) -> Iterator[Item]:
    valve: Valve = getattr(parts.valves, name)
    path, head, stem = f"valves.{name}", valve.head_diameter, valve.stem_diameter
    stuff = material(rows, valve.material)
    angle = f"{shown(valve.seat_angle, 'deg')} seat"
    if valve.made == "bought":
        yield Item(
            "Valves", f"{name} valve, {stuff}", f"head {mm(head)}, stem {mm(stem)}, {angle}", 1,
            "head", "", "engine file", path, _valve_checks(valve),
            _whole_stem(stem, path),
        )  # fmt: skip
    else:
        yield Item(
            "Valves", f"{stuff} rod for the {name} valve's stem", f"{mm(stem)} thick", 1, "head",
            "", "engine file", path, (_stem(valve),),
            f"And {stuff} for its head, {mm(head)} across. "
            + rod_note(stem, f"{path}.stem_diameter"),
        )  # fmt: skip
    yield Item(
        "Tube, rod and sheet", f"{material(rows, valve.seat_material)} for the {name} seat",
        f"bored {mm(valve.throat_diameter)}, {mm(1.15 * head)} across at least", 1, "head", "",
        "bore from the engine file; outside 1.15 heads, common practice, no source",
        f"{path}.seat_material",
    )  # fmt: skip
    yield Item(
        "Tube, rod and sheet", f"{material(rows, valve.guide_material)} for the {name} guide",
        f"bored {mm(stem)}, {mm(2 * stem)} across", 1, "head", "",
        "bore from the engine file; outside two stems, common practice, no source",
        f"{path}.guide_material",
    )  # fmt: skip
    yield _spring(valve, name, path)


def _whole_stem(stem: float, path: str) -> str:
    near = sold_diameter(stem)
    told = "With its retainer and keepers, if it is sold with them."
    if near is None:
        return told
    return (
        f"{told} Stems come in half millimetres: take {mm(near)} and set {path}.stem_diameter "
        "(common practice, no source)."
    )


def _valve_checks(valve: Valve) -> tuple[Check, ...]:
    head = valve.head_diameter
    return (
        Check("head", "caliper", "two directions", head, head - 0.2e-3, head + 0.2e-3, "mm",
              f"two heads must pass each other and the bore (limits: {PRACTICE})"),
        _stem(valve),
    )  # fmt: skip


def _stem(valve: Valve) -> Check:
    stem = valve.stem_diameter
    return Check(
        "stem", "micrometer", "at three places along it", stem, stem - 0.03e-3, stem, "mm",
        f"ream the guide to it, 0.03 to 0.05 mm larger than what you read ({PRACTICE})",
    )  # fmt: skip


def _spring(valve: Valve, name: str, path: str) -> Item:
    shut, rate = valve.spring_preload, valve.spring_rate
    full = shut + rate * valve.lift
    check = Check(
        "force", "luggage_scale", f"pulled or pressed {mm(valve.lift)} further than shut", full,
        0.85 * full, 1.15 * full, "N",
        f"softer floats, stiffer digs into cam and seat (15 %: {PRACTICE})",
    )  # fmt: skip
    return Item(
        "Valves", f"compression spring for the {name} valve",
        f"rate {figures(rate / 1e3)}{THIN}N/mm; {figures(shut)}{THIN}N shut, "
        f"{figures(full)}{THIN}N at {mm(valve.lift)} of lift", 1, "head", "",
        "engine file", f"{path}.spring_rate", (check,),
        f"It goes over a stem of {mm(valve.stem_diameter)}; wire and coils are not in the file.",
    )  # fmt: skip


def belt_row(rows: Catalog, drive: CamDrive) -> Row | None:
    """The belt's row: as named, else of the same pitch; None where none is near."""
    if drive.belt is not None:
        return rows.row("belt", drive.belt)
    same = (r for r in rows.rows("belt") if abs(r.si("pitch") / drive.pitch - 1) < _NEAR)
    return next(same, None)


def belt_teeth(drive: CamDrive) -> tuple[int, float] | None:
    """Teeth of the belt nearest to the centre distance, and the distance it then wants, m.

    None where no belt goes round its pulleys.

    References
    ----------
    `firstfire.formulas.belt`, Shigley 9, Eq. 17-2.
    """
    small, large = (
        belt.pulley_pitch_diameter(teeth, drive.pitch)
        for teeth in sorted((drive.teeth_crank, drive.teeth_cam))
    )
    try:
        length = belt.belt_length(small, large, drive.centre_distance)
        teeth = round(length / drive.pitch)
        return teeth, belt.centre_distance_for(small, large, teeth * drive.pitch)
    except OutsideValidity:
        return None


def _belt_standard(row: Row | None) -> str:
    return "ISO 5296" if row is not None and row.key == "xl" else ""


def _drive(rows: Catalog, drive: CamDrive) -> Iterator[Item]:
    if drive.kind == "gear":
        return
    path, note = "cam_drive", ""
    if drive.kind == "chain":
        yield Item(
            "Cam drive", "roller chain", f"{mm(drive.pitch)} pitch", drive.count, "cam", "ISO 606",
            "engine file; standard from memory", path,
        )  # fmt: skip
        yield Item(
            "Cam drive", "pair of sprockets",
            f"{drive.teeth_crank} and {drive.teeth_cam} teeth, {mm(drive.pitch)} pitch",
            drive.count, "crank and cam", "ISO 606", "engine file", path,
        )  # fmt: skip
        return
    row, length = belt_row(rows, drive), belt_teeth(drive)
    size = f"{mm(drive.width)} wide"
    if length is not None:
        size = f"{length[0]} teeth ({mm(length[0] * drive.pitch)} round), {size}"
        note = f"A belt of {length[0]} teeth wants the shafts {mm(length[1])} apart. "
    fewest = f"Of its make, {row.texts.get('widths', '')} are sold." if row is not None else ""
    yield Item(
        "Cam drive", f"toothed belt, {row.name if row is not None else mm(drive.pitch) + ' pitch'}",
        size, drive.count, "crank to cam", _belt_standard(row),
        f"{row['pitch'].source} ({row['pitch'].sure})" if row is not None else "engine file", path,
        (Check("width", "caliper", "at two places", drive.width, drive.width - 0.5e-3,
               drive.width + 0.5e-3, "mm", f"pull goes with width (limits: {PRACTICE})"),
         Check("length of ten teeth", "caliper", "along the back, laid flat", 10 * drive.pitch,
               9.9 * drive.pitch, 10.1 * drive.pitch, "mm",
               "2 mm and 2.032 mm, 5 mm and 5.08 mm look alike and don't mesh")),
        (note + fewest).strip(), ("belt", row.key) if row is not None else ("", ""),
    )  # fmt: skip
