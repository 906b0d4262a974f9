"""Rules for piston, shield, rings, pin and con rod."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial

from firstfire.engine.rules.cylinder import is_metal
from firstfire.engine.rules.rule import Asked, Rule
from firstfire.engine.rules.stock import filled, next_rod, strong_force, to_step, up_to_step
from firstfire.engine.shapes import BOSS_OUTSIDE

_SEAL_HANDBOOK = "seal handbooks, dynamic glands (squeeze 10 to 18 % at 2.62 mm)"
_MODEL_PRACTICE = "Gas Engine Magazine, O-ring Ramblings, February/March 2004 (squeeze 5 to 16 %)"
_PISTON_MAKERS = (
    "piston makers' handbooks, light metal in petrol engines: 0.5 to 1.5 ‰ at the skirt, 2 to 3 ‰ "
    "at its top, 6 to 8 ‰ at the lands, oval by 1.5 to 6 ‰; from memory"
)

_BETWEEN_RINGS = 1.5e-3


def _crown(ask: Asked) -> float:
    bore = ask.number("cylinder.bore")
    return 0.08 * bore if is_metal(ask, "piston.material") else max(4e-3, 0.13 * bore)


def _clearance(ask: Asked) -> float:
    bore = ask.number("cylinder.bore")
    return (0.0012 if is_metal(ask, "piston.material") else 0.006) * bore


def _wider(of_bore: float) -> Callable[[Asked], float]:
    """The skirt's clearance and, of a metal piston, a share of the bore more: it is hotter there.

    A plastic piston is turned or printed straight unless told otherwise.
    """

    def clearance(ask: Asked) -> float:
        skirt = ask.number("piston.skirt_clearance")
        if not is_metal(ask, "piston.material"):
            return skirt
        return skirt + of_bore * ask.number("cylinder.bore")

    return clearance


def above_pin(ask: Asked) -> float:
    """What land, rings and half the pin take between crown and pin axis, m; 0 without rings."""
    count = int(ask.number("rings.count"))
    grooves = count * ask.number("rings.groove_width") + max(count - 1, 0) * _BETWEEN_RINGS
    taken = ask.number("piston.top_land") + grooves + ask.number("pin.diameter") / 2
    return taken if count else 0.0


def _compression_height(ask: Asked) -> float:
    return max(0.5 * ask.number("cylinder.bore"), up_to_step(above_pin(ask), 0.5e-3))


def _piston_mass(ask: Asked) -> float:
    """A disc, a tube and two bosses of the piston's material."""
    bore, crown = ask.number("cylinder.bore"), ask.number("piston.crown_thickness")
    skirt, length = ask.number("piston.skirt_thickness"), ask.number("piston.length")
    pin = ask.number("pin.diameter")
    disc = math.pi / 4 * bore**2 * crown
    tube = math.pi * (bore - skirt) * skirt * max(length - crown, 0.0)
    bosses = math.pi / 4 * ((BOSS_OUTSIDE * pin) ** 2 - pin**2) * ask.number("piston.boss_width")
    laid = (
        filled(ask, "piston", crown) * disc
        + filled(ask, "piston", skirt) * tube
        + filled(ask, "piston", 0.4 * pin, "piston.boss") * bosses
    )
    plastic = ask.material("piston.material", "density") * laid
    plate = math.pi / 4 * ask.number("piston.shield.diameter") ** 2
    plate *= ask.number("piston.shield.thickness")
    return plastic + plate * ask.material("piston.shield.material", "density")


def _oring(ask: Asked) -> str | None:
    """The ring of the wanted section that sits on its groove with 1 to 5 % of stretch."""
    if (
        ask["rings.kind"] != "o_ring"
        or ask.said("rings.section")
        or ask.said("rings.inside_diameter")
    ):
        return None
    bore = ask.number("cylinder.bore")
    wanted = 1.78e-3 if bore < 32e-3 else 2.62e-3
    groove = bore - 2 * wanted * 0.9
    fits = [
        (abs((groove - row.si("inside")) / row.si("inside") - 0.025), row.key)
        for row in ask.catalog.rows("oring")
        if abs(row.si("section") - wanted) < 5e-5
        and 0.0 <= (groove - row.si("inside")) / row.si("inside") <= 0.06
    ]
    return min(fits)[1] if fits else None


def _section(ask: Asked) -> float:
    bore = ask.number("cylinder.bore")
    if ask["rings.kind"] == "o_ring":
        return 1.78e-3 if bore < 32e-3 else 2.62e-3
    return bore / 23 if ask["rings.kind"] == "metal" else 2e-3


def _squeeze(ask: Asked) -> float:
    if ask["rings.kind"] != "o_ring":
        return 0.0
    if ask.said("rings.groove_depth"):
        gland = ask.number("rings.groove_depth") + ask.number("piston.skirt_clearance") / 2
        return 1 - gland / ask.number("rings.section")
    return 0.10


def _groove_depth(ask: Asked) -> float:
    section = ask.number("rings.section")
    if ask["rings.kind"] == "o_ring":
        return (
            section * (1 - ask.number("rings.squeeze")) - ask.number("piston.skirt_clearance") / 2
        )
    return section + 0.3e-3


def _groove_width(ask: Asked) -> float:
    if ask["rings.kind"] == "o_ring":
        return 1.4 * ask.number("rings.section")
    return ask.number("rings.axial_height") + 0.05e-3


_SHIGLEY = (
    "beam on two supports; R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, "
    "9th ed., Eq. 3-24"
)
_PIN_STRESS = 150e6


def _pin(ask: Asked) -> float:
    """Force times a quarter of the span between the bosses' middles, less an eighth of the eye."""
    bore = ask.number("cylinder.bore")
    eye, bosses = 0.3 * bore, ask.number("piston.boss_width")
    moment = strong_force(ask) * ((eye + bosses / 2) / 4 - eye / 8)
    bends = (32 * moment / (math.pi * _PIN_STRESS)) ** (1 / 3)
    return min(next_rod(max(bends, 0.22 * bore)), 0.36 * bore)


def _pin_length(ask: Asked) -> float:
    bore = ask.number("cylinder.bore")
    between = ask.number("piston.boss_width") + ask.number("rod.small_end_width") + 1e-3
    return to_step(min(max(0.85 * bore, between), bore - 2e-3), 0.5e-3)


def _bears(ask: Asked) -> float:
    """Short-time strength of the rod's material, Pa; a metal's yield where it has one."""
    try:
        return ask.material("rod.material", "strength_in_plane")
    except LookupError:
        return ask.material("rod.material", "yield_strength")


def _shank_thickness(ask: Asked) -> float:
    """As thick as its section asks at a strong first combustion, within the small end's width."""
    bore = ask.number("cylinder.bore")
    section = strong_force(ask) / (0.4 * _bears(ask))
    wanted = max(section / ask.number("rod.shank_width"), 0.25 * bore)
    return to_step(min(wanted, max(ask.number("rod.small_end_width"), 0.25 * bore)), 0.5e-3)


def _eye_width(ask: Asked, pin: str) -> float:
    bore = ask.number("cylinder.bore")
    wanted = strong_force(ask) / (ask.number(pin) * 0.55 * _bears(ask))
    return up_to_step(min(max(0.3 * bore, wanted), 0.42 * bore), 0.5e-3)


def _rod_mass(ask: Asked) -> float:
    """A bar between two eyes of the rod's material."""
    eyes = 0.0
    for hole, width in (("pin.diameter", "rod.small_end_width"),
                        ("crank.crankpin_diameter", "rod.big_end_width")):  # fmt: skip
        inner = ask.number(hole)
        outer = inner + 2 * ask.number("rod.eye_wall")
        eyes += math.pi / 4 * (outer**2 - inner**2) * ask.number(width)
    sides = ask.number("rod.shank_width"), ask.number("rod.shank_thickness")
    shank = math.prod(sides) * filled(ask, "rod", min(sides))
    eyes *= filled(ask, "rod", ask.number("rod.eye_wall"))
    free = ask.number("rod.length") - ask.number("pin.diameter") / 2
    free -= ask.number("crank.crankpin_diameter") / 2 + 2 * ask.number("rod.eye_wall")
    return ask.material("rod.material", "density") * (eyes + shank * max(free, 0.0))


RULES = (
    Rule("piston.crown_thickness", _crown, "0.13 × bore, 4 mm at least; metal 0.08"),
    Rule("piston.length", lambda ask: 0.9 * ask.number("cylinder.bore"), "0.8 to 1.0 × bore"),
    Rule("piston.compression_height", _compression_height,
         "half a bore; more where land, rings and half the pin need it"),
    Rule("piston.skirt_clearance", _clearance, "plastic swells: 0.6 % of the bore; metal 0.12 %"),
    Rule("piston.top_clearance", _wider(0.0015), "plastic: straight; metal: 0.15 % of the bore "
         "more than the skirt, which is cooler", _PISTON_MAKERS, follows=True),
    Rule("piston.land_clearance", _wider(0.005), "plastic: straight; metal: 0.5 % of the bore "
         "more than the skirt, which is cooler", _PISTON_MAKERS, follows=True),
    Rule("piston.ovality",
         lambda ask: 0.002 * ask.number("cylinder.bore") if is_metal(ask, "piston.material")
         else 0.0, "plastic: round; metal: 0.2 % of the bore, since bosses grow along the pin",
         _PISTON_MAKERS),
    Rule(
        "piston.skirt_thickness",
        lambda ask: max(2.5e-3, 0.07 * ask.number("cylinder.bore")),
        "0.07 × bore, 2.5 mm at least",
    ),
    Rule("piston.top_land", lambda ask: 0.12 * ask.number("cylinder.bore"),
         "a plastic land wants 0.1 × bore or more against the heat"),
    Rule("piston.boss_width", lambda ask: 0.45 * ask.number("cylinder.bore"), "0.4 to 0.5 × bore"),
    Rule("piston.mass", _piston_mass, "disc, tube and bosses of its material", follows=True),
    Rule("piston.coating", "none", "nothing was said of one"),
    Rule("piston.shield.material", "aluminium_6061_t6", "sheet that a hand saw cuts"),
    Rule("piston.shield.thickness", "0 mm", "no shield was said"),
    Rule(
        "piston.shield.diameter",
        lambda ask: ask.number("cylinder.bore") - 3e-3,
        "1.5 mm clear of the bore all round",
    ),
    Rule("piston.shield.screws", 3, "three keep it from tilting"),
    Rule("piston.shield.air_gap", "0 mm", "lies flat on the crown"),
    Rule("rings.kind", "o_ring", "an O-ring needs no machining", _MODEL_PRACTICE),
    Rule(
        "rings.count",
        lambda ask: 0 if ask["rings.kind"] == "none" else 1,
        "one is enough; two drag",
        _MODEL_PRACTICE,
    ),
    Rule(
        "rings.material",
        lambda ask: {"o_ring": "fkm", "metal": "cast_iron_grey", "ptfe": "ptfe", "none": "fkm"}[
            str(ask["rings.kind"])
        ],
        "FKM stands the heat longest of the usual O-rings",
    ),
    Rule("rings.oring", _oring, "sits on its groove with 1 to 5 % of stretch", _SEAL_HANDBOOK),
    Rule("rings.section", _section, "2.62 mm, below 32 mm of bore 1.78 mm", _MODEL_PRACTICE),
    Rule(
        "rings.inside_diameter",
        lambda ask: (ask.number("cylinder.bore") - 2 * ask.number("rings.groove_depth")
                     - ask.number("piston.skirt_clearance")) * 0.975,
        "2.5 % of stretch on its groove",
        _SEAL_HANDBOOK,
    ),
    Rule("rings.axial_height", "1.5 mm", "usual for small engines"),
    Rule("rings.squeeze", _squeeze, "10 % seals and doesn't drag too much; from the groove where "
         "you said it", _SEAL_HANDBOOK, follows=True),
    Rule(
        "rings.hardness",
        lambda ask: 75.0 if ask["rings.material"] == "fkm" else 70.0,
        "what is sold: FKM 75, NBR 70 Shore A",
    ),
    Rule("rings.groove_depth", _groove_depth, "leaves the squeeze asked for", _SEAL_HANDBOOK),
    Rule("rings.groove_width", _groove_width, "1.4 × section", _SEAL_HANDBOOK),
    Rule(
        "rings.gap",
        lambda ask: 0.0 if ask["rings.kind"] in ("o_ring", "none")
        else (0.004 if ask["rings.kind"] == "metal" else 0.04) * ask.number("cylinder.bore"),
        "0.4 % of the bore in iron, 4 % in PTFE, which grows by that for 100 K; an O-ring has none",
    ),
    Rule(
        "rings.wall_pressure",
        lambda ask: {"metal": 1.5e5, "ptfe": 0.5e5}.get(str(ask["rings.kind"]), 0.0),
        "1 to 2 bar for iron rings",
        "ring makers' handbooks, from memory",
    ),
    Rule("pin.material", "steel_mild", "ground rod from the hardware store"),
    Rule("pin.diameter", _pin, "the next rod that bends at no more than 0.6 of mild steel's "
         "strength at a strong first combustion; 0.22 × bore at least", _SHIGLEY),
    Rule("pin.inside_diameter", "0 mm", "solid rod"),
    Rule("pin.length", _pin_length, "eye, bosses and their play, clear of the bore"),
    Rule("pin.retention", "circlips", "a loose pin scores the bore"),
    Rule("rod.length", lambda ask: 1.8 * ask.number("cylinder.stroke"), "1.7 to 2 × stroke"),
    Rule("rod.shank_width", lambda ask: to_step(0.3 * ask.number("cylinder.bore"), 0.5e-3),
         "0.3 × bore: it swings clear of liner and skirt"),
    Rule("rod.shank_thickness", _shank_thickness, "0.25 × bore, or what keeps a strong first "
         "combustion to 0.4 of its strength; no more than the small end's width"),
    Rule("rod.big_end", "plain", "what a print has unless a bearing is pressed in"),
    Rule("rod.small_end", "plain", "what a print has unless a bush is pressed in"),
    Rule("rod.split", False, "a built-up crank takes a whole rod"),
    *(
        Rule(f"rod.{end}_width", partial(_eye_width, pin=pin), "0.3 × bore, or what keeps the "
             "pin's pressure at a strong first combustion to 0.55 of its strength; 0.42 at most")
        for end, pin in (("big_end", "crank.crankpin_diameter"), ("small_end", "pin.diameter"))
    ),
    Rule(
        "rod.eye_wall",
        lambda ask: max(3e-3, 0.1 * ask.number("cylinder.bore")),
        "0.1 × bore, 3 mm at least",
    ),
    Rule("rod.mass", _rod_mass, "a bar between two eyes of its material", follows=True),
    Rule(
        "rod.reciprocating_fraction",
        0.35,
        "about a third goes with the piston",
        "common practice, no source",
    ),
)  # fmt: skip
