"""Rules for cylinder, liner, gasket, head and what holds it."""

from __future__ import annotations

import math

from firstfire.engine.rules.rule import Asked, Rule
from firstfire.engine.rules.stock import to_step
from firstfire.formulas import thread

METAL_WORDS = ("aluminium", "steel", "iron", "brass", "bronze", "copper", "stainless")


def is_metal(ask: Asked, path: str) -> bool:
    """Whether the material named at `path` is a metal; no, where it can't be read."""
    try:
        return any(word in str(ask[path]) for word in METAL_WORDS)
    except LookupError:
        return False


def swept(ask: Asked) -> float:
    """Swept volume of one cylinder, m³: bore area times the piston's travel."""
    return math.pi / 4 * ask.number("cylinder.bore") ** 2 * ask.number("cylinder.stroke")


def _ratio(ask: Asked) -> float:
    if ask.said("cylinder.chamber_volume"):
        return 1 + swept(ask) / ask.number("cylinder.chamber_volume")
    return 6.5 if is_metal(ask, "head.material") else 6.0


def _liner_kind(ask: Asked) -> str:
    if ask.said("liner.material") and not ask.said("liner.tube"):
        made_printed = ask.said("liner.made") and ask["liner.made"] == "printed"
        return "bare_print" if made_printed else "tube"
    return "tube"


def _liner_material(ask: Asked) -> str:
    tube = ask.row("liner.tube")
    if tube is not None and tube.texts.get("material"):
        return str(tube.texts["material"])
    if ask["liner.kind"] == "bare_print":
        return str(ask["printing.material"])
    return "cast_iron_grey" if ask["liner.kind"] == "metal" else "aluminium_6061_t6"


def _liner_outside(ask: Asked) -> float:
    tube = ask.row("liner.tube")
    if tube is not None:
        return float(tube.si("outside"))
    wall = 5e-3 if ask["liner.kind"] == "bare_print" else 2e-3
    return ask.number("cylinder.bore") + 2 * wall


def _fillet(ask: Asked) -> float:
    return min(1e-3, 0.1 * ask.number("body.foot.thickness"))


def _gasket_material(ask: Asked) -> str:
    return {
        "sheet": "gasket_fibre",
        "cured_sealant": "silicone_sealant",
        "o_ring": "fkm",
        "metal": "copper",
        "none": "gasket_fibre",
    }[str(ask["gasket.kind"])]


def _gasket_thickness(ask: Asked) -> float:
    kinds = {"sheet": 0.8e-3, "cured_sealant": 0.3e-3, "o_ring": 0.0, "metal": 0.5e-3, "none": 0.0}
    return kinds[str(ask["gasket.kind"])]


def _thread(ask: Asked) -> str:
    bore = ask.number("cylinder.bore")
    for name, largest in (("M4", 32e-3), ("M5", 46e-3), ("M6", 56e-3)):
        if bore <= largest:
            return name
    return "M8"


def _thread_diameter(ask: Asked) -> float:
    return float(ask.row("head.fasteners.thread").si("diameter"))


def _engaged(ask: Asked) -> float:
    insert = ask.row("head.fasteners.insert")
    if insert is not None and "length" in insert.data:
        return float(insert.si("length"))
    turns = {"through_bolts": 0.8, "nutted_studs": 0.8, "studs": 2.0, "screws": 2.5, "inserts": 1.5}
    return turns[str(ask["head.fasteners.kind"])] * _thread_diameter(ask)


def _insert(ask: Asked) -> str | None:
    if ask["head.fasteners.kind"] != "inserts":
        return None
    wanted = str(ask["head.fasteners.thread"]).lower()
    for row in ask.catalog.rows("insert"):
        if str(row.texts.get("thread", "")).lower() == wanted:
            return str(row.key)
    return None


_LONG = ("through_bolts", "nutted_studs", "studs")


def _clamped(ask: Asked) -> float:
    through = ask.number("head.thickness") + ask.number("gasket.thickness")
    if ask["head.fasteners.kind"] in _LONG:
        return through + ask.number("liner.length")
    return through


def _torque(ask: Asked) -> float:
    """0.2·F·d for 2.5 times a quarter of a hard cycle's gas force, 35 bar, at most 40 % of proof.

    More only sinks the washers into the print. A quarter, however many there are: bolts added
    later add their own pull.
    """
    row = ask.row("head.fasteners.thread")
    diameter, pitch = float(row.si("diameter")), float(row.si("pitch"))
    area = thread.stress_area(diameter, pitch)
    name = str(ask["head.fasteners.property_class"])
    proof = 450e6 * area if name == "A2-70" else thread.proof_load(area, name)
    share = 0.4 if ask["head.fasteners.kind"] in _LONG else 0.15
    gas = 35e5 * math.pi / 4 * ask.number("cylinder.bore") ** 2
    pull = min(share * proof, 2.5 * gas / 4)
    return 0.2 * pull * diameter


def _bridge(ask: Asked) -> float:
    """What is left between the seats when both heads keep 1.5 mm from the wall."""
    heads = ask.number("valves.inlet.head_diameter") + ask.number("valves.exhaust.head_diameter")
    return min(6e-3, max(1e-3, (ask.number("cylinder.bore") - 3e-3 - heads) / 1.0))


def _plug_offset(ask: Asked) -> float:
    share = 0.4 if ask["valves.placed"] == "side" else 0.25
    return to_step(share * ask.number("cylinder.bore"), 0.5e-3)


def _fins(part: str) -> tuple[Rule, ...]:
    """None unless said; where only their number is, of a usual small engine."""
    where = "round the body" if part == "body" else "on the head"
    return (
        Rule(f"{part}.fins.count", 0, f"nothing was said of fins {where}"),
        Rule(f"{part}.fins.length", lambda ask: 0.3 * ask.number("cylinder.bore"), "0.3 × bore"),
        Rule(f"{part}.fins.thickness", "2 mm", "what can be cast or turned"),
        Rule(f"{part}.fins.gap", "5 mm", "closer, the air of a fan hardly gets in"),
    )


RULES = (
    Rule(
        "cylinder.compression_ratio",
        _ratio,
        "5.5 to 7.5 starts well and is mild on head and screws, 6 on a printed head; from the "
        "chamber where you said it",
    ),
    Rule(
        "cylinder.chamber_volume",
        lambda ask: swept(ask) / (ask.number("cylinder.compression_ratio") - 1),
        "swept volume over compression ratio less one",
        "definition of the compression ratio",
    ),
    Rule("cylinder.deck", "0.5 mm", "keeps the crown clear of a soft gasket"),
    Rule("cylinder.offset", "0 mm", "bore axis through the crank axis"),
    Rule("liner.kind", _liner_kind, "a tube seals and cools better than a print"),
    Rule("liner.material", _liner_material, "drawn tube is smooth and at hand"),
    Rule(
        "liner.made",
        lambda ask: "printed" if ask["liner.kind"] == "bare_print" else "tube",
        "as its kind says",
    ),
    Rule("liner.outside_diameter", _liner_outside, "the tube's, or a wall of 2 mm (print: 5 mm)"),
    Rule(
        "liner.length",
        lambda ask: ask.number("cylinder.stroke") + 0.9 * ask.number("piston.length"),
        "the skirt may leave it by a tenth at bottom centre",
    ),
    Rule("liner.fit_interference", "0.05 mm", "a tube pressed into a print by hand"),
    Rule(
        "liner.bore_finish",
        lambda ask: "as_printed" if ask["liner.kind"] == "bare_print" else "smooth",
        "drawn tube is smooth, a print is not",
    ),
    Rule("liner.coating", "none", "nothing was said of one"),
    Rule(
        "body.outside_diameter",
        lambda ask: ask.number("liner.outside_diameter") + 16e-3,
        "8 mm of body around the liner",
    ),
    Rule("body.foot.thickness", "8 mm", "as thick as the wall it carries"),
    Rule("body.foot.fillet", _fillet, "1 mm, a tenth of the flange at most: what is drawn without "
         "thinking of it"),
    Rule(
        "body.foot.circle_diameter",
        lambda ask: ask.number("body.outside_diameter") + 2.4 * _thread_diameter(ask),
        "room for the screw's head beside the wall",
    ),
    Rule("body.sealed", False, "nothing was said of sealing"),
    *_fins("body"),
    Rule("gasket.kind", "sheet", "cut from sheet with scissors"),
    Rule("gasket.material", _gasket_material, "as its kind says"),
    Rule("gasket.thickness", _gasket_thickness, "usual for its kind"),
    Rule("gasket.inside_diameter", lambda ask: ask.number("cylinder.bore") + 1e-3, "bore + 1 mm"),
    Rule("gasket.width", "4 mm", "wide enough to cut, narrow enough to press"),
    Rule("gasket.open_time", "5 min", "spread, set down and screwed up without haste"),
    Rule("gasket.cure_time", "24 h", "what sealants ask for"),
    Rule("gasket.cure_temperature", "20 °C", "room temperature"),
    Rule("head.thickness",
         lambda ask: to_step((0.35 if is_metal(ask, "head.material") else 0.45)
                             * ask.number("cylinder.bore"), 0.5e-3),
         "0.45 × bore in plastic, 0.35 in metal"),
    Rule("head.diameter", lambda ask: 1.8 * ask.number("cylinder.bore"), "room for the bolts"),
    Rule(
        "head.chamber_plate_thickness",
        lambda ask: 0.0 if ask["head.chamber_plate"] is None else 3e-3,
        "3 mm where there is a plate",
    ),
    Rule("head.valve_axis_angle", "0 deg", "valves beside each other, parallel to the bore"),
    Rule("head.valve_bridge", _bridge, "what is left when both valves keep 1.5 mm from the wall"),
    Rule("head.coating", "none", "nothing was said of one"),
    *_fins("head"),
    Rule(
        "head.fasteners.kind",
        lambda ask: "inserts" if ask.said("head.fasteners.insert") else "through_bolts",
        "long bolts through to the crankcase spare the plastic any pull",
    ),
    Rule("head.fasteners.count", 4, "four at the corners"),
    Rule("head.fasteners.thread", _thread, "M4, M5, M6 or M8 carry the gas of bores to about 32, "
         "46, 56 mm and above"),
    Rule("head.fasteners.property_class", "8.8", "the usual black or zinc-plated bolt"),
    Rule("head.fasteners.insert", _insert, "the insert for that thread"),
    Rule("head.fasteners.engaged_length", _engaged, "a nut, or 2 to 2.5 diameters in plastic",
         "B. Lincoln and others, Mechanical Fastening of Plastics (engagement 2 to 3 diameters)"),
    Rule("head.fasteners.clamped_length", _clamped, "what the bolt passes through"),
    Rule(
        "head.fasteners.circle_diameter",
        lambda ask: max(
            1.45 * ask.number("cylinder.bore"),
            ask.number("liner.outside_diameter") + 2.2 * _thread_diameter(ask),
        ),
        "outside the liner with room for the bolt",
    ),
    Rule("head.fasteners.torque", _torque,
         "2.5 × ¼ of the gas at 35 bar; at most 40 % of proof, 15 in plastic",
         "Shigley's Mechanical Engineering Design, 9th ed., Eq. 8-27; share common practice"),
    Rule(
        "head.fasteners.washer_diameter",
        lambda ask: to_step((2.0 if is_metal(ask, "head.material") else 3.0)
                            * _thread_diameter(ask), 0.5e-3),
        "a large washer (ISO 7093) is 3 diameters and sinks less into print; on metal a plain one "
        "(ISO 7089) does, 2",
        "ISO 7089 and ISO 7093, from memory",
    ),
    Rule("plug.thread", "M10x1", "the small plug of garden engines"),
    Rule("plug.gap", "0.6 mm", "0.5 to 0.7 mm for small coils"),
    Rule("plug.offset", _plug_offset,
         "a quarter of the bore out, beside two valves overhead; 0.4 towards side valves"),
    Rule("plug.return_lead", True, "a plastic engine has no earth"),
)  # fmt: skip
