"""What to buy for crank, case, flywheel and rod ends."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.catalog import Catalog, Row
from firstfire.engine.engine import Engine
from firstfire.engine.geometry import mechanism
from firstfire.engine.joint_room import is_across
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.fits import GROUND_BAR
from firstfire.loads.crank_layout import throws
from firstfire.parts.crank_joint import is_plated
from firstfire.setup.buy_cylinder import SAW, rod_check
from firstfire.setup.item import PRACTICE, Check, Item
from firstfire.setup.joints import (
    Place,
    joints,
    journal_ends,
    stub_length,
)
from firstfire.setup.words import by, material, mm, rod_note, sold_pin

_ISO_492_BORE = ((10e-3, 8e-6), (18e-3, 8e-6), (30e-3, 10e-6), (50e-3, 12e-6))
_ISO_492_OUTSIDE = ((18e-3, 8e-6), (30e-3, 9e-6), (50e-3, 11e-6), (80e-3, 13e-6))
_ISO_492_WIDTH = 120e-6


def bearing_below(size: float, *, outside: bool) -> float:
    """How far a bearing of the Normal class may be below its size, m.

    References
    ----------
    ISO 492, Normal class, deviations of mean bore and outside diameter, from memory.

    Examples
    --------
    >>> bearing_below(0.015, outside=False), bearing_below(0.035, outside=True)
    (8e-06, 1.1e-05)
    """
    table = _ISO_492_OUTSIDE if outside else _ISO_492_BORE
    return next((below for limit, below in table if size <= limit), table[-1][1])


def crank_items(engine: Engine, plain: PlainEngine) -> Iterator[Item]:
    """Everything to buy for crank, case and flywheel."""
    rows = engine.catalog
    yield _bearings(rows.row("bearing", plain.crank.main_bearing), plain.crank.main_bearings)
    yield from _rod_ends(rows, plain)
    yield from _seals(plain)
    yield from _pins(rows, plain)
    yield from _joints(rows, plain)
    yield from _flywheel(rows, plain)
    yield from _running(plain)


def _bearings(row: Row, count: int) -> Item:
    bore, outside, width = row["bore"], row["outside"], row["width"]
    once = "limits of ISO 492, Normal class, from memory"
    checks = (
        _bearing_check("bore", "caliper_inside", bore.si, bearing_below(bore.si, outside=False),
                       once),
        _bearing_check("outside", "caliper", outside.si, bearing_below(outside.si, outside=True),
                       once),
        _bearing_check("width", "caliper", width.si, _ISO_492_WIDTH, once),
    )  # fmt: skip
    return Item(
        "Bearings", f"ball bearing {row.key}, sealed (2RS)", by(bore.si, outside.si, width.si),
        count, "main bearings", row.texts.get("standard", "ISO 15"),
        f"{bore.source} ({bore.sure})", "crank.main_bearing", checks,
        "Spin each: it must run without a click and without side play you can feel.",
        ("bearing", row.key), mass=row.si("mass") if "mass" in row.data else None,
    )  # fmt: skip


def _bearing_check(of: str, tool: str, size: float, below: float, why: str) -> Check:
    return Check(of, tool, "one of each", size, size - below, size, "mm", why)


def _rod_ends(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    words = {"bush": "plain bush, bronze", "needle": "needle bearing", "ball": "ball bearing"}
    for parts in plain.cylinders:
        ends = (
            ("big_end", plain.crank.crankpin_diameter, parts.rod.big_end_width),
            ("small_end", parts.pin.diameter, parts.rod.small_end_width),
        )
        for end, inside, width in ends:
            kind = getattr(parts.rod, end)
            if kind not in words:
                continue
            near = [r for r in rows.rows("bearing") if abs(r.si("bore") - inside) < 1e-5]
            named = kind == "ball" and near
            note = (
                f"Of the catalog, {', '.join(r.key for r in near)} have this bore."
                if named
                else "Its outside is not in the file: buy first, then draw the eye to it."
            )
            yield Item(
                "Bearings", words[kind], f"for a pin of {mm(inside)}, {mm(width)} wide at most", 1,
                f"con rod's {end.replace('_', ' ')}", "", "engine file", f"rod.{end}", (), note,
            )  # fmt: skip


def _seals(plain: PlainEngine) -> Iterator[Item]:
    if plain.case.shaft_seals:
        yield Item(
            "Seals", "radial shaft seal", f"for a shaft of {mm(plain.crank.main_journal_diameter)}",
            plain.case.shaft_seals, "crankcase", "ISO 6194-1 (DIN 3760)",
            "shaft from the engine file; standard from memory", "case.shaft_seals",
        )  # fmt: skip


def pin_length(plain: PlainEngine) -> float:
    """A crankpin with what of it sits in both cheeks, m."""
    crank = plain.crank
    return crank.crankpin_length + (2 * crank.joint.length if crank.built == "built_up" else 0.0)


def has_loose_pin(plain: PlainEngine) -> bool:
    """Whether the crankpin is a rod of its own."""
    crank = plain.crank
    return crank.built == "built_up" and crank.crankpin_material != crank.material


def _pins(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    crank, number = plain.crank, len(throws(plain))
    if crank.made != "printed":
        yield _whole_crank(rows, plain)
    if has_loose_pin(plain):
        length, across = pin_length(plain), crank.crankpin_diameter
        volume = math.pi / 4 * across**2 * length
        yield Item(
            "Tube, rod and sheet", f"{material(rows, crank.crankpin_material)} rod, ground",
            f"{mm(across)} thick, {mm(length + SAW)} long", number, "crankpin",
            f"ISO 286 {GROUND_BAR} (ground bar)",
            "sizes from the engine file; grade common practice", "crank.crankpin_material",
            (rod_check(across),), rod_note(across, "crank.crankpin_diameter"),
            length=length + SAW,
            mass=plain.materials[crank.crankpin_material]["density"] * volume,
        )  # fmt: skip
    yield from _journals(rows, plain)
    if crank.through_rod_diameter > 0:
        length = pin_length(plain) + 2 * crank.cheek_thickness
        yield Item(
            "Tube, rod and sheet", "steel rod",
            f"{mm(crank.through_rod_diameter)} thick, {mm(length)} long", number,
            "inside the printed crankpin", "", "engine file", "crank.through_rod_diameter",
            (rod_check(crank.through_rod_diameter),), length=length,
        )  # fmt: skip


def _journals(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    """Stubs of bar, or rods in printed journals."""
    crank, own = plain.crank, plain.crank.journal
    across, length = crank.main_journal_diameter, stub_length(plain)
    if own.joint.kind != "solid":
        yield Item(
            "Tube, rod and sheet", f"{material(rows, own.material)} rod, ground",
            f"{mm(across)} thick, {mm(length + SAW)} long", 2, "main journals",
            f"ISO 286 {GROUND_BAR} (ground bar)",
            "diameter from the engine file, length for the longer end; grade common practice",
            "crank.journal.material", (rod_check(across),),
            rod_note(across, "crank.main_journal_diameter"), length=length + SAW,
            mass=plain.materials[own.material]["density"] * math.pi / 4 * across**2 * length,
        )  # fmt: skip
    if own.rod_diameter > 0:
        yield Item(
            "Tube, rod and sheet", "steel rod",
            f"{mm(own.rod_diameter)} thick, {mm(length + SAW)} long", 2,
            "inside the printed journals", "", "engine file", "crank.journal.rod_diameter",
            (rod_check(own.rod_diameter),), length=length + SAW,
        )  # fmt: skip


def _whole_crank(rows: Catalog, plain: PlainEngine) -> Item:
    """A crank that isn't printed: its stock, or itself."""
    crank = plain.crank
    thick = max(crank.crankpin_diameter, crank.main_journal_diameter)
    bent = crank.built == "one_piece" and crank.made == "rod"
    what = "rod" if crank.made == "rod" else f"crank ({crank.made})"
    note = (
        "Its developed length depends on the bends you make; add a hand's width to clamp."
        if bent
        else ""
    )
    return Item(
        "Tube, rod and sheet", f"{material(rows, crank.material)} {what}",
        f"pins {mm(crank.crankpin_diameter)}, journals {mm(crank.main_journal_diameter)}"
        + (f"; stock {mm(thick)} thick" if crank.made == "rod" else ""),
        1, "crank", "", "engine file", "crank", (rod_check(crank.main_journal_diameter),), note,
    )  # fmt: skip


def _joints(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    """What holds pins, journals and wheels."""
    yield from _plates(rows, plain)
    for place in joints(plain):
        joint = place.joint
        if place.pinned:
            yield _pins_of(place)
        if joint.is_bonded:
            yield Item(
                "Glue, grease and coatings", material(rows, joint.bond), "a small bottle or tube",
                1, f"{place.pin} in its {place.hub}", "", "engine file", f"{place.path}.bond",
                note="Mind its age and its gap: most fill no more than 0.1 mm.",
            )  # fmt: skip
        if joint.kind == "clamped":
            yield Item(
                "Screws", "clamping screw with nut",
                f"to pull {joint.clamp_screw_force:.0f} N in all", place.count, f"{place.hub}s",
                "", "engine file", f"{place.path}.clamp_screw_force",
            )  # fmt: skip


def _plates(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    """One on each cheek, for pin and journal together where both are in it."""
    crank = plain.crank
    long = mechanism(plain.cylinders[0])[0] + crank.cheek_width
    wide = crank.cheek_width
    on_pins, on_journals = is_plated(crank.joint), is_plated(crank.journal.joint)
    if not (on_pins or on_journals):
        return
    joint = crank.joint if on_pins else crank.journal.joint
    count = 2 * len(throws(plain)) if on_pins else journal_ends(plain)
    path = "crank.joint.plate" if on_pins else "crank.journal.joint.plate"
    yield Item(
        "Tube, rod and sheet", f"{material(rows, str(joint.plate))} flat bar",
        f"{mm(joint.plate_thickness)} thick, {by(long, wide)} each", count,
        "plates on the crank cheeks", "", "engine file", path,
    )  # fmt: skip


def _pins_of(place: Place) -> Item:
    """Pins or keys of one kind of joint."""
    joint = place.joint
    size, pinned = joint.cross_pin_diameter, joint.kind == "pinned"
    across = is_across(joint)
    words = "as long as the hub is wide" if across else "as long as the hub is thick there"
    sold = sold_pin(size, place.pin_length) if pinned else None
    cut = sold is not None and sold > place.pin_length + 1e-4
    note = f"Grind it to {mm(place.pin_length)}, cooled: no saw cuts it." if cut else ""
    return Item(
        "Screws", "parallel pin, hardened" if pinned else "square key steel",
        f"{mm(size)} {'thick' if pinned else 'square'}, {mm(sold or place.pin_length)} long",
        joint.cross_pins * place.count,
        f"{'across' if across else 'lengthwise between'} {place.pin} and {place.hub}",
        "ISO 8734 (m6)" if pinned else "DIN 6885",
        f"sizes from the engine file, {words}; standard from memory", place.path,
        (Check(
            "thickness", "micrometer", "once", size, size + (4e-6 if pinned else -25e-6),
            size + (12e-6 if pinned else 0.0), "mm",
            "it is a press in its reamed hole (m6 to 6 mm, ISO 286)" if pinned
            else "h9 (ISO 286, from memory)"),), note,
    )  # fmt: skip


def _flywheel(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    wheel = plain.flywheel
    if wheel.thickness <= 0:
        return
    volume = math.pi / 4 * (wheel.diameter**2 - wheel.bore**2) * wheel.thickness
    yield Item(
        "Tube, rod and sheet", f"{material(rows, wheel.material)} plate, cut to a disc",
        f"{mm(wheel.diameter)} across, {mm(wheel.thickness)} thick", 1, "flywheel", "",
        "engine file", "flywheel",
        (Check("thickness", "caliper", "at four places round", wheel.thickness,
               wheel.thickness - 0.3e-3, wheel.thickness + 0.3e-3, "mm",
               f"an uneven disc shakes (limits: {PRACTICE})"),),
        "Have it water-jet or laser cut if you can't turn it. No cast disc with pores.",
        mass=plain.materials[wheel.material]["density"] * volume,
    )  # fmt: skip


def _running(plain: PlainEngine) -> Iterator[Item]:
    words = {
        "grease": "grease for ball bearings",
        "oil_in_fuel": "two-stroke oil, for the fuel",
        "splash": "engine oil",
        "drip": "engine oil and a drip oiler",
    }
    word = words.get(plain.case.lubrication)
    if word:
        yield Item(
            "Glue, grease and coatings", word, "", 1, "running gear", "", PRACTICE,
            "case.lubrication",
        )  # fmt: skip
    if plain.case.breather in ("hose", "one_way_valve"):
        what = "hose" if plain.case.breather == "hose" else "one-way valve"
        yield Item(
            "Fuel and air", f"{what} for the breather",
            f"{mm(plain.case.breather_diameter)} bore", 1, "crankcase", "", "engine file",
            "case.breather",
        )  # fmt: skip
