"""Rules for layout, crank, joint, case, flywheel and load."""

from __future__ import annotations

import math

from firstfire.engine.rules.rule import Asked, Rule

_BEARINGS = ("608", "6000", "6001", "6202", "6203", "6204", "6205")


def _crank_offset(ask: Asked) -> float:
    if ask["layout.kind"] == "opposed_twin":
        return math.pi
    return 0.0


def two_pins(ask: Asked) -> bool:
    """Whether the crank has a pin for each of two cylinders."""
    kind = ask["layout.kind"]
    if kind == "single":
        return False
    return bool(kind == "parallel_twin" or ask.number("layout.crank_offset") > 0)


def _spacing(ask: Asked) -> float:
    """Room for the rod beside it, or for a cheek between two pins, and for both liners."""
    kind = ask["layout.kind"]
    if kind == "single":
        return 0.0
    beside = ask.number("rod.big_end_width") + 1e-3
    if two_pins(ask):
        beside = ask.number("crank.crankpin_length") + ask.number("crank.cheek_thickness")
    if kind == "parallel_twin":
        return max(beside, ask.number("liner.outside_diameter") + 12e-3)
    return beside


def _pin_length(ask: Asked) -> float:
    """Half a millimetre at each side of the big end; two big ends on a common pin."""
    ends = 2 if ask["layout.kind"] != "single" and not two_pins(ask) else 1
    return ends * (ask.number("rod.big_end_width") + 1e-3)


def _span(ask: Asked) -> float:
    """Cheeks, pins and half a bearing at each side."""
    length = ask.number("crank.crankpin_length") + 2 * ask.number("crank.cheek_thickness")
    if two_pins(ask):
        length += ask.number("layout.cylinder_spacing")
    return length + ask.number("crank.main_bearing_width") + 2e-3


def _balance(ask: Asked) -> float:
    kind = ask["layout.kind"]
    if kind == "v_twin":
        return 1.0 if abs(ask.number("layout.v_angle") - math.pi / 2) < 0.02 else 0.6
    return 0.0 if kind == "opposed_twin" and ask.number("layout.crank_offset") > 3 else 0.5


def _crankpin(ask: Asked) -> float:
    bore, usual = ask.number("cylinder.bore"), 0.28 * ask.number("cylinder.bore")
    if ask["crank.built"] == "one_piece":
        return usual
    room = ask.number("cylinder.stroke") - ask.number("crank.main_bearing_bore") - 3e-3
    return min(usual, max(room, 0.2 * bore))


def _bearing(ask: Asked) -> str:
    """The smallest of the usual ones whose bore is a third of the cylinder's."""
    wanted = 0.34 * ask.number("cylinder.bore")
    bores = ((key, ask.catalog.row("bearing", key).si("bore")) for key in _BEARINGS)
    return next((key for key, bore in bores if bore >= wanted), _BEARINGS[-1])


def _wheel_inertia(ask: Asked) -> float:
    outer, inner = ask.number("flywheel.diameter") / 2, ask.number("flywheel.bore") / 2
    density = ask.material("flywheel.material", "density")
    volume = math.pi * (outer**2 - inner**2) * ask.number("flywheel.thickness")
    return density * volume * (outer**2 + inner**2) / 2


def _load_inertia(ask: Asked) -> float:
    if ask["load.kind"] in ("propeller", "fan"):
        return ask.number("load.mass") * ask.number("load.diameter") ** 2 / 24
    return 0.0


def _load_mass(ask: Asked) -> float:
    """A wooden propeller of 300 mm weighs about 25 g; mass goes with about the cube."""
    if ask["load.kind"] in ("propeller", "fan"):
        return 0.025 * (ask.number("load.diameter") / 0.3) ** 3
    return 0.0


def _case_volume(ask: Asked) -> float:
    bore, stroke = ask.number("cylinder.bore"), ask.number("cylinder.stroke")
    cylinders = 1 if ask["layout.kind"] == "single" else 2
    return 3.0 * cylinders * math.pi / 4 * bore**2 * stroke


def _oiled(ask: Asked) -> bool:
    """Whether engine oil comes to the bearings."""
    return str(ask["case.lubrication"]) in ("splash", "drip")


RULES = (
    Rule("layout.v_angle", lambda ask: math.pi / 2 if ask["layout.kind"] == "v_twin" else 0.0,
         "90° balances best"),
    Rule("layout.crank_offset", _crank_offset,
         "one common pin; an opposed twin has two pins half a turn apart"),
    Rule("layout.cylinder_spacing", _spacing, "as close as liners or rods allow"),
    Rule("layout.rotation", "clockwise", "the way a drill turns"),
    Rule("crank.built", "built_up", "no lathe is needed"),
    Rule("crank.crankpin_diameter", _crankpin,
         "0.25 to 0.3 × bore, less where a short throw leaves no wall to the journal's hole"),
    Rule("crank.crankpin_length", _pin_length,
         "the big end, or two on a common pin, with half a millimetre at each side"),
    Rule("crank.crankpin_material", "silver_steel", "ground bar: mild steel yields at its pins"),
    Rule("crank.through_rod_diameter", "0 mm", "no rod inside the pin was said"),
    Rule("crank.cheek_thickness", lambda ask: max(8e-3, 0.25 * ask.number("cylinder.bore")),
         "0.25 × bore, 8 mm at least in plastic"),
    Rule("crank.cheek_width",
         lambda ask: max(2.2 * ask.number("crank.crankpin_diameter"),
                         1.8 * ask.number("crank.main_journal_diameter")),
         "as much wall around the pin as the pin is thick, nearly; somewhat less at the journal"),
    Rule("crank.main_journal_diameter", lambda ask: ask.number("crank.main_bearing_bore"),
         "fits the bearing"),
    Rule("crank.main_bearing", _bearing,
         "a journal of a third of the bore stands its torque; cheap and everywhere"),
    Rule("crank.main_bearings", 2, "one at each side"),
    Rule("crank.bearing_span", _span, "cheeks, pins and half a bearing at each side"),
    Rule("crank.balance_factor", _balance, "half of what goes up and down; a 90° V all of it"),
    Rule("case.wall", "6 mm", "stiff enough to hold bearings"),
    Rule("case.volume", _case_volume, "three swept volumes, crank included"),
    Rule("case.breather", "hole", "the crankcase must breathe"),
    Rule("case.breather_diameter", "6 mm", "a 6 mm hole or hose"),
    Rule("case.shaft_seals", lambda ask: 2 if ask["case.lubrication"] == "splash" else 0,
         "shielded bearings only; a case with oil in it needs a seal at each end"),
    Rule("case.lubrication", "grease", "what a first build has"),
    Rule("case.viscosity_40", lambda ask: 93e-6 if _oiled(ask) else 100e-6,
         "SAE 30, or base oil of a general bearing grease", "oil makers' sheets, from memory"),
    Rule("case.viscosity_100", lambda ask: 10.8e-6 if _oiled(ask) else 11e-6,
         "SAE 30, or base oil of a general bearing grease", "oil makers' sheets, from memory"),
    Rule("flywheel.material", "steel_mild", "heavy for its size"),
    Rule("flywheel.diameter", lambda ask: 2.6 * ask.number("cylinder.bore"), "2.5 to 3 × bore"),
    Rule("flywheel.thickness", "12 mm", "a disc cut from plate"),
    Rule("flywheel.bore", lambda ask: ask.number("crank.main_journal_diameter"), "on the journal"),
    Rule("flywheel.inertia", _wheel_inertia, "a plain disc with a hole",
         "Shigley's Mechanical Engineering Design, 9th ed., Table A-18", follows=True),
    Rule("load.kind", "none", "nothing was said to be driven"),
    Rule("load.diameter", "300 mm", "a usual propeller for such an engine"),
    Rule("load.pitch", "150 mm", "half the diameter"),
    Rule("load.torque", "0 N*m", "nothing was said to be driven"),
    Rule("load.torque_at", "3000 rpm", "where small generators run"),
    Rule("load.inertia", _load_inertia, "a slender bar: mass × diameter² / 24 for a propeller"),
    Rule("load.mass", _load_mass, "wood: 25 g at 300 mm, with the cube of the diameter"),
)  # fmt: skip
