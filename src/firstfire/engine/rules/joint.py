"""Rules for joints: pin in cheek, journal in cheek, flywheel and cam wheel on the shaft."""

from __future__ import annotations

import math
from collections.abc import Callable

from firstfire.engine.rules.cylinder import is_metal
from firstfire.engine.rules.rule import Asked, Rule

# Shafts to this diameter, m, take a key of this width, m: DIN 6885-1, from memory.
_KEYS = (
    (8e-3, 2e-3), (10e-3, 3e-3), (12e-3, 4e-3), (17e-3, 5e-3), (22e-3, 6e-3), (30e-3, 8e-3),
    (38e-3, 10e-3), (44e-3, 12e-3),
)  # fmt: skip

Answer = Callable[[Asked], float]


def key_width(diameter: float) -> float:
    """Width of the key for a shaft, m.

    References
    ----------
    DIN 6885-1, form A, from memory.

    Examples
    --------
    >>> key_width(15e-3)
    0.005
    """
    return next((width for most, width in _KEYS if diameter <= most), _KEYS[-1][1])


def is_screwed_on(ask: Asked, prefix: str) -> bool:
    """Whether a printed crank holds a metal pin or journal, pinned or keyed: it wants a plate."""
    pin = "crank.crankpin_material" if prefix == "crank.joint" else "crank.journal.material"
    held = ask[f"{prefix}.kind"] in ("pinned", "keyed")
    return held and is_metal(ask, pin) and not is_metal(ask, "crank.material")


def plate_of(ask: Asked) -> str | None:
    """Steel on the cheeks where a steel pin's own joint would crush the print."""
    return "steel_mild" if is_screwed_on(ask, "crank.joint") else None


def plate_of_journal(ask: Asked) -> str | None:
    """The crankpin's plates hold it too, drilled in one stack; else its own."""
    if not is_screwed_on(ask, "crank.journal.joint"):
        return None
    return ask["crank.joint.plate"] or "steel_mild"


def _plate_thickness(ask: Asked) -> float:
    wanted = max(5e-3, math.ceil(1e3 * ask.number("cylinder.bore") / 7 - 1e-6) * 1e-3)
    return min(wanted, 0.75 * ask.number("crank.cheek_thickness"))


def plate_thickness(ask: Asked) -> float:
    """Whole millimetres, a seventh of the bore, let into the cheek."""
    return 0.0 if ask["crank.joint.plate"] is None else _plate_thickness(ask)


def journal_plate_thickness(ask: Asked) -> float:
    """The same plate's, where there is one."""
    if ask["crank.journal.joint.plate"] is None:
        return 0.0
    return ask.number("crank.joint.plate_thickness") or _plate_thickness(ask)


def _in_cheek(prefix: str) -> Answer:
    def length(ask: Asked) -> float:
        plate = ask.number(f"{prefix}.plate_thickness")
        return plate if plate > 0 else ask.number("crank.cheek_thickness")

    return length


def _pins(prefix: str) -> Callable[[Asked], int]:
    def pins(ask: Asked) -> int:
        if ask[f"{prefix}.kind"] == "keyed":
            # half a turn apart where the hub is thin
            thin = ask.number(f"{prefix}.length") < 1.2 * ask.number(f"{prefix}.diameter")
            return 2 if thin else 1
        if ask[f"{prefix}.kind"] != "pinned":
            return 0
        return 3 if ask[f"{prefix}.pins_run"] == "lengthwise" else 1

    return pins


def _size(prefix: str) -> Answer:
    """A key as the standard has it; a pin across to a quarter of the joint; lengthwise a third."""

    def size(ask: Asked) -> float:
        across = ask.number(f"{prefix}.diameter")
        if ask[f"{prefix}.kind"] == "keyed":
            return key_width(across)
        if ask[f"{prefix}.pins_run"] == "lengthwise":
            return max(2e-3, math.floor(1e3 * across / 3 + 1e-6) * 1e-3)
        room = min(0.3 * across, 0.5 * ask.number(f"{prefix}.length"))
        return min(3e-3, max(1e-3, math.floor(2e3 * room + 1e-6) * 0.5e-3))

    return size


def _runs(prefix: str, plated: bool) -> Callable[[Asked], str]:
    def runs(ask: Asked) -> str:
        return "lengthwise" if plated and ask[f"{prefix}.plate"] is not None else "across"

    return runs


def seat_rules(prefix: str, plated: bool) -> tuple[Rule, ...]:
    """What any joint has besides its kind, diameter and length.

    Parameters
    ----------
    prefix
        Path of the joint.
    plated
        Whether a plate may stand on its hub.
    """
    return (
        Rule(f"{prefix}.interference", "0.02 mm", "tapped in by hand"),
        Rule(f"{prefix}.flats", lambda ask: 12 if ask[f"{prefix}.kind"] == "splined" else 6,
             "hexagon; twelve teeth where splined"),
        Rule(f"{prefix}.cross_pins", _pins(prefix),
             "one across; one key, two in a thin hub; three lengthwise"),
        Rule(f"{prefix}.pins_run", _runs(prefix, plated),
             "across in a thick hub; lengthwise in a plate, too thin for a hole across it"),
        Rule(f"{prefix}.cross_pin_diameter", _size(prefix),
             "a key by the shaft; a pin across 3 mm at most, lengthwise a third of the joint",
             "keys: DIN 6885-1, from memory; pins: common practice"),
        Rule(f"{prefix}.bond", "retaining_compound", "made for round joints"),
        Rule(f"{prefix}.glued", False, "its shape or its fit is to hold it"),
        Rule(f"{prefix}.clamp_screw_force", "2000 N", "one M4 done up by hand"),
    )  # fmt: skip


def _solid_or_pinned(ask: Asked) -> str:
    return "solid" if ask["crank.built"] == "one_piece" else "pinned"


def _journal_kind(ask: Asked) -> str:
    same = ask["crank.journal.material"] == ask["crank.material"]
    return "solid" if ask["crank.built"] == "one_piece" or same else "pinned"


def _journal_material(ask: Asked) -> str:
    """A stub of ground steel in a printed crank; otherwise the crank's own."""
    if ask["crank.built"] == "one_piece" or is_metal(ask, "crank.material"):
        return str(ask["crank.material"])
    return "silver_steel"


RULES = (
    Rule("crank.joint.kind", _solid_or_pinned, "pins can be drilled and driven in at home"),
    Rule("crank.joint.diameter", lambda ask: ask.number("crank.crankpin_diameter"), "the pin's"),
    Rule("crank.joint.length", _in_cheek("crank.joint"), "the plate's thickness, or the cheek's"),
    *seat_rules("crank.joint", True),
    Rule("crank.joint.plate", plate_of, "a pin's own joint would crush a printed cheek"),
    Rule("crank.joint.plate_thickness", plate_thickness,
         "a seventh of the bore, 5 mm at least, where there is a plate"),
    Rule("crank.journal.material", _journal_material,
         "a printed journal of this size twists off: a stub of ground bar"),
    Rule("crank.journal.rod_diameter", "0 mm", "no rod inside the journal was said"),
    Rule("crank.journal.fillet", lambda ask: 0.04 * ask.number("crank.main_journal_diameter"),
         "0.03 to 0.05 of the journal, as the bearing's own corner leaves room for"),
    Rule("crank.journal.joint.kind", _journal_kind, "as the crankpin's; one piece where it is"),
    Rule("crank.journal.joint.diameter", lambda ask: ask.number("crank.main_journal_diameter"),
         "the journal's"),
    Rule("crank.journal.joint.length", _in_cheek("crank.journal.joint"),
         "the plate's thickness, or the cheek's"),
    *seat_rules("crank.journal.joint", True),
    Rule("crank.journal.joint.plate", plate_of_journal, "the crankpin's plate holds it too"),
    Rule("crank.journal.joint.plate_thickness", journal_plate_thickness, "the same plate"),
    Rule("flywheel.joint.kind", "keyed", "a key and a nut hold a wheel and let it off again"),
    Rule("flywheel.joint.diameter",
         lambda ask: ask.number("flywheel.bore") or ask.number("crank.main_journal_diameter"),
         "its bore"),
    Rule("flywheel.joint.length", lambda ask: max(1e-3, ask.number("flywheel.thickness")),
         "its thickness"),
    *seat_rules("flywheel.joint", False),
)  # fmt: skip
