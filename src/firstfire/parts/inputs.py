"""What each number put into a judgement is called, of which dimension, and where it is from.

Names that are paths of the engine file stand under `SAID` with short words; where they come from is
asked of the engine itself. All others stand under `FOUND`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Known = Literal["computed", "assumed", "catalog"]

_CURVE = "the material's strength curve"
OUTCOME = "the lines of the working"
"""Where a number comes out of the working and does not go in."""
_GAS = "the gas of the cycle judged"
_FORCES = "forces of gas and moving masses over the cycle"
_HEAT = "heat in the walls at this second"
_CURVES = "the row's stiffness, walls and infill, warmth"
_ACROSS = "the row's strength across over along its layers"
_WET = "the row's strength when wet, and printing.moisture"
_FASTER = "the row's gain for each tenfold speed"
_TIRED = "the row's fatigue strength at a million cycles"
_LONGER = "the row's fall for each tenfold time"
_CREPT = "the row's creep in 1000 h"
_BOUT = "the event judged"
_SHAPE = "sizes of the part"


@dataclass(frozen=True)
class Input:
    """One number put in.

    Attributes
    ----------
    words
        What it is called in a line of working: short.
    dimension
        One of `firstfire.engine.quantity.DIMENSIONS`.
    kind
        How it is known.
    by
        What it was computed by, or what it stands on.
    props
        Properties of a catalog row that it may be.
    """

    words: str
    dimension: str
    kind: Known = "computed"
    by: str = ""
    props: tuple[str, ...] = ()


def _looked_up(words: str, dimension: str, *props: str) -> Input:
    return Input(words, dimension, "catalog", "the material's row", props)


def _standard(words: str, dimension: str, by: str) -> Input:
    return Input(words, dimension, "catalog", by)


def _assumed(words: str, dimension: str, by: str) -> Input:
    return Input(words, dimension, "assumed", by)


_STRENGTHS = {
    "strength_at_room": _looked_up(
        "strength at 23 °C", "stress", "strength_in_plane", "yield_strength",
        "shear_strength_on_plastic", "shear_strength",
    ),
    "section_leaves": Input("section that bears", "ratio", by=_SHAPE),
    "layers_leaves": Input("share left across the layers", "ratio", by=_ACROSS),
    "temperature_leaves": Input("share left by warmth", "ratio", by=_CURVE),
    "moisture_leaves": Input("share left by moisture", "ratio", by=_WET),
    "rate_leaves": Input("gain by speed of loading", "ratio", by=_FASTER),
    "fatigue_leaves": Input("share left by so many cycles", "ratio", by=_TIRED),
    "creep_leaves": Input("share left by so long a load", "ratio", by=_LONGER),
    "doubt_leaves": _assumed("doubt of this printer and part", "ratio", "doubt.strength_*"),
    "poisson": _looked_up("Poisson's ratio", "ratio", "poisson"),
}  # fmt: skip

_PLACES = {
    "hub_": "hub's",
    "pin_": "pin's",
    "layered_": "layered pin's",
    "glue_": "glue's",
    "plate_": "plate's",
}

FOUND: dict[str, Input] = {
    **_STRENGTHS,
    **{
        f"{place}{name}": Input(f"{whose} {one.words}", one.dimension, one.kind, one.by, one.props)
        for place, whose in _PLACES.items()
        for name, one in _STRENGTHS.items()
    },
    # gas, forces, the event
    "gas_pressure": Input("peak gas pressure", "pressure", by=_GAS),
    "force": Input("largest force", "force", by=_FORCES),
    "largest_inertia": Input("inertia of what goes up and down", "force", by=_FORCES),
    "reciprocating_mass": Input("mass that goes up and down", "mass", by=_FORCES),
    "screw_diameter": Input("diameter of the shield's screws", "length", "assumed",
                            "common practice"),
    "port_wall": Input("wall round the port", "length", "assumed", "common practice"),
    "pull": Input("largest pull in the rod", "force", by=_FORCES),
    "thrust": Input("largest thrust in the rod", "force", by=_FORCES),
    "crankpin_force": Input("largest force on the crankpin", "force", by=_FORCES),
    "crankpin_force_there": Input("crankpin force at the worst angle", "force", by=_FORCES),
    "torque_there": Input("torque at the worst angle", "torque", by=_FORCES),
    "twist": Input("largest twist about the pin", "torque", by=_FORCES),
    "journal_moment": Input("bending moment there", "torque", by=_FORCES),
    "journal_torque": Input("torque there", "torque", by=_FORCES),
    "largest_torque": Input("largest torque through it", "torque", by=_FORCES),
    "largest_moment": Input("largest bending moment", "torque", by=_FORCES),
    "bearing_force": Input("largest force on a main bearing", "force", by=_FORCES),
    "cubic_mean_force": Input("cubic mean force on a main bearing", "force", by=_FORCES),
    "cam_torque_at_crank": Input("cams' torque at the crank", "torque", by=_FORCES),
    "speed": Input("crank speed", "speed", by=_BOUT),
    "cycles": Input("cycles so far", "ratio", by=_BOUT),
    "seconds": Input("time so far", "time", by=_BOUT),
    "resting_hours": Input("hours since it was put together", "ratio", by=_BOUT),
    "life_hours": Input("life at this speed in hours", "ratio", by="turns over speed"),
    # heat
    "face": Input("face, cycle mean", "temperature", by=_HEAT),
    "face_hottest_of_cycle": Input("face at its hottest", "temperature", by=_HEAT),
    "plate_face": Input("plate's face", "temperature", by=_HEAT),
    "shield_face": Input("shield's face", "temperature", by=_HEAT),
    "port_face": Input("port's face", "temperature", by=_HEAT),
    "sliding_face": Input("face that slides on the pin", "temperature", by=_HEAT),
    "round_the_bush": Input("print round the bush", "temperature", by=_HEAT),
    "melts_at": Input("nothing of its strength is left", "temperature", "catalog", _CURVE),
    "below_the_face": Input("wall a little below the face", "temperature", by=_HEAT),
    "round_the_seats": Input("print round the seats", "temperature", by=_HEAT),
    "ring": Input("ring's temperature", "temperature", by=_HEAT),
    "valves": Input("valves' heads", "temperature", by=_HEAT),
    "skirt_rise": Input("skirt's rise", "temperature_difference", by=_HEAT),
    "crown_rise": Input("crown's rise, by its stiffness", "temperature_difference", by=_HEAT),
    "boss_rise": Input("bosses' rise", "temperature_difference", by=_HEAT),
    "valve_lengths": _assumed("valve's length over its head", "ratio", "common practice"),
    "stem_warmth": _assumed("stem's share of the valve's warmth", "ratio", "an estimate"),
    "valve_rise": Input("rise of the valve's head", "temperature_difference", by=_HEAT),
    "valve_expansion": _looked_up("valve's expansion", "expansion", "expansion"),
    "holder_expansion": _looked_up("expansion of what holds the seat", "expansion", "expansion"),
    "seat_expansion": _looked_up("seat's expansion", "expansion", "expansion"),
    "holder_rise": Input("rise of what holds the seat", "temperature_difference", by=_HEAT),
    "seat_rise": Input("seat's rise", "temperature_difference", by=_HEAT),
    "bay": Input("air round the intake", "temperature", by="intake.bay_temperature, or the air's"),
    "intake_modulus": Input("warm stiffness of the intake", "stress", by=_CURVES),
    "retainer_height": _assumed("retainer's height over its stem", "ratio", "common practice"),
    "bore_rise": Input("bore's rise", "temperature_difference", by=_HEAT),
    "body_rise": Input("body's rise", "temperature_difference", by=_HEAT),
    "head_rise": Input("head's rise", "temperature_difference", by=_HEAT),
    "ring_rise": Input("ring's rise", "temperature_difference", by=_HEAT),
    "depth_charred_in_the_mean": Input("depth that chars", "length", by=_HEAT),
    # materials
    "softens_at": _standard("temperature of half strength", "temperature", "the strength curve"),
    "decomposition": _looked_up("decomposition", "temperature", "decomposition"),
    "melting": _looked_up("melting", "temperature", "melting"),
    "continuous_use": _looked_up("continuous use", "temperature", "continuous_use"),
    "density": _looked_up("density", "density", "density"),
    "tested_set": _looked_up("compression set as tested", "ratio", "compression_set"),
    "gasket_m": _looked_up("gasket factor m", "ratio", "gasket_m"),
    "piston_expansion": _looked_up("piston's expansion", "expansion", "expansion",
                                   "expansion_across"),
    "bore_expansion": _looked_up("bore's expansion", "expansion", "expansion", "expansion_across"),
    "liner_expansion": _looked_up("liner's expansion", "expansion", "expansion",
                                  "expansion_across"),
    "body_expansion": _looked_up("body's expansion", "expansion", "expansion", "expansion_across"),
    "head_expansion": _looked_up("head's expansion", "expansion", "expansion", "expansion_across"),
    "ring_expansion": _looked_up("ring's expansion", "expansion", "expansion"),
    "liner_poisson": _looked_up("liner's Poisson's ratio", "ratio", "poisson"),
    "body_poisson": _looked_up("body's Poisson's ratio", "ratio", "poisson"),
    "pin_modulus": _looked_up("pin's stiffness", "stress", "modulus_in_plane"),
    "journal_modulus": _looked_up("journal's stiffness", "stress", "modulus_in_plane"),
    "rod_yield": _standard("yield strength of the rod inside", "stress", "row of mild steel"),
    "liner_modulus": Input("liner's stiffness, warm", "stress", by=_CURVES),
    "body_modulus": Input("body's stiffness, warm", "stress", by=_CURVES),
    "head_modulus": Input("head's stiffness along the bore, warm", "stress", by=_CURVES),
    "gasket_modulus": Input("gasket's stiffness, warm", "stress", by=_CURVES),
    "hub_modulus": Input("hub's stiffness", "stress", by=_CURVES),
    "modulus": Input("stiffness of the shank, warm", "stress", by="the row's stiffness, warmth"),
    "swelling": Input("swelling by water", "ratio", by="water uptake of the material's row"),
    "body_filled": Input("share of the body's wall that is plastic", "ratio", by=_SHAPE),
    "water_uptake": _looked_up("water taken up when soaked", "ratio", "water_uptake"),
    "swelling_per_uptake": _assumed("swelling for that water", "ratio", "handbooks, from memory"),
    "liner_creep_leaves": Input("liner's stiffness that creep leaves", "ratio", by=_CREPT),
    "pressed_over_pulled": Input("strength pressed over pulled", "ratio", "catalog",
                                 "the material's row; 1 where it has no test of pressing"),
    "out_of_round": Input("liner or hole out of round", "length", "assumed",
                          "half of printing.repeatability; 0.025 mm where both are machined"),
    "fit_left_by_creep": Input("fit that creep leaves", "ratio", by=_CREPT),
    "stress_left_by_creep": Input("stress that creep leaves", "ratio", by=_CREPT),
    "head_creep_leaves": Input("head's stiffness that creep leaves", "ratio", by=_CREPT),
    "gasket_creep_leaves": Input("gasket's stiffness that creep leaves", "ratio", by=_CREPT),
    "body_creep_leaves": Input("body's stiffness that creep leaves", "ratio", by=_CREPT),
    "faces_stuck": Input("faces it sticks to", "ratio", by="gasket.open_time and the skin time"),
    "cured_in_a_day": _looked_up("depth cured in a day", "length", "cure_depth_per_day"),
    "sets_after": _looked_up("time after which it sets", "time", "skin_time"),
    "cured_after": _looked_up("time after which it has cured", "time", "cure_time"),
    "glue_shear_at_room": _looked_up("sealant's shear strength, 23 °C", "stress",
                                     "shear_strength_on_plastic", "shear_strength"),
    "room_temperature": _standard("temperature of the tests", "temperature", "ISO 291, 23 °C"),
    "curing_step": _assumed("step that doubles curing", "temperature_difference",
                            "rule of thumb of glue makers"),
    "day": _standard("a day", "time", "86400 s"),
    "toughness": _looked_up("fracture toughness", "toughness", "fracture_toughness",
                            "fracture_toughness_across"),
    "notch_strength": _looked_up("strength beside it, 23 °C", "stress", "strength_in_plane",
                                 "strength_across", "yield_strength"),
    "steady_counts": Input("what a steady stress counts", "ratio",
                           by="the share left by so many cycles (Goodman)"),
    # what the parts share
    "flank_tangent": _standard("slope of the flanks", "ratio", "tan 30°: ISO 68-1"),
    "groove_root": _assumed("root radius of a knurl's groove", "length", "estimate"),
    "groove_depth": _assumed("depth of a knurl's groove", "length", "estimate"),
    "case_room": _assumed("room round what turns in the case", "length", "common practice"),
    "share_left_at_bolts": Input("share of the section left by a bolt hole", "ratio", by=_SHAPE),
    "edge_raises": Input("what the edge beside a bolt hole adds", "ratio",
                         by="hole in a strip (Peterson) over hole in a wide plate"),
    "body_section_leaves": Input("body's section that bears", "ratio", by=_SHAPE),
    "face_settles": Input("settling of a face", "length", "catalog",
                          "the material's row; metal: 3 µm"),
    "hub_outside": Input("hub's outside, or its width", "length", by=_SHAPE),
    "hub_edge": Input("hub's edge outside the pins", "length", by=OUTCOME),
    "notch_in_bending": Input("fillet's factor in bending", "ratio", by="Peterson's charts"),
    "neuber_length": _assumed("Neuber's length of steel", "length", "Shigley 9, from memory"),
    "notch_in_torsion": Input("fillet's factor in torsion", "ratio", by="Peterson's charts"),
    "engaged": Input("length engaged", "length", by=_SHAPE),
    "small_eye": Input("what the small eye holds", "force", by="the same lines for that eye"),
    "big_eye": Input("what the big eye holds", "force", by="the same lines for that eye"),
    "shank": Input("what the shank holds", "force", by="its strength times its section"),
    "bead_thickness": Input("bead's thickness", "length", by="gasket.thickness, 0.05 mm at least"),
    "thinnest_bead": _assumed("thinnest that a bead is pressed", "length", "estimate"),
    "lift_there": Input("lift there", "length", by="the cam's law, where it first floats"),
    "deceleration_by_angle": Input("slowing by crank angle there", "length", by="the cam's law"),
    # standards and tables
    "thread_diameter": _standard("thread's diameter", "length", "thread table (ISO 724)"),
    "thread_pitch": _standard("thread's pitch", "length", "thread table (ISO 724)"),
    "thread_area": _standard("thread's stress area", "area", "thread table (ISO 898-1)"),
    "clearance_hole": _standard("clearance hole", "length", "thread table (ISO 273)"),
    "screw_proof_strength": _standard("screw's proof strength", "stress",
                                      "ISO 898-1, by its class"),
    "insert_outside": _standard("insert's outside", "length", "insert table, or 1.5 × thread"),
    "insert_length": _standard("insert's length", "length", "insert table, or as engaged"),
    "belt_pull_a_width": _standard("pull for each width of belt", "spring_rate", "belt table"),
    "test_seconds": _standard("time of the test", "time", "ISO 815-1, 22 h"),
    # assumptions
    "shear_of_tensile": _assumed("shear over tensile strength", "ratio",
                                 "plastic 0.5, metal 0.577"),
    "hub_shear_share": _assumed("hub's shear over tensile", "ratio", "plastic 0.5, metal 0.577"),
    "pin_shear_share": _assumed("pin's shear over tensile", "ratio", "plastic 0.5, metal 0.577"),
    "layered_shear_share": _assumed("layered pin's shear over tensile", "ratio", "plastic 0.5"),
    "nut_factor": _assumed("nut factor", "ratio", "Shigley 9, Table 8-15, as received"),
    "overtightened": _assumed("overtightened by", "ratio", "what this event is"),
    "plug_reach": _assumed("plug's thread over its diameter", "ratio", "common practice"),
    "boss_outside": _assumed("outside of a pin boss over the pin", "ratio", "common practice"),
    "support_play": _assumed("play beside the rod's eye", "length", "common practice"),
    "steel_modulus": _assumed("stiffness of steel", "stress", "handbooks"),
    "steel_expansion": _assumed("expansion of steel", "expansion", "handbooks"),
    "bolt_warmth": _assumed("fastener's share of that rise", "ratio", "estimate"),
    "least_preload": _assumed("share that should be left", "ratio", "common practice"),
    "least_squeeze": _assumed("least squeeze", "ratio", "model engineers' reports"),
    "most_squeeze": _assumed("most squeeze", "ratio", "seal handbooks, somewhat beyond"),
    "ten_kelvin": _assumed("step that doubles ageing", "temperature_difference",
                           "rule of thumb of rubber makers"),
    "friction_said": _assumed("friction", "ratio", "handbooks; DIN 7190-1 for steel on steel"),
    "pin_roughness": _assumed("pin's roughness", "length", "DIN 7190-1 examples"),
    "hole_roughness": _assumed("hole's roughness", "length", "common practice"),
    "closeness": _assumed("how closely it embraces", "ratio", "1 to π/2, by its stiffness"),
    "pin_shear": _assumed("shear strength of pin or key", "stress",
                          "0.6 of silver steel's tensile strength"),
    "bearing_share": _assumed("share of the teeth that bears", "ratio",
                              "common practice; machined: handbooks"),
    "spline_depth": _assumed("tooth depth over its pitch", "ratio", "common practice"),
    "end_condition": _assumed("end condition along the pins", "ratio", "Shigley 9; across them 1"),
    "thread_fatigue": _assumed("0.85 MPa of the formula", "stress", "VDI 2230-1, from memory"),
    "thread_fatigue_length": _assumed("150 mm of the formula", "length",
                                      "VDI 2230-1, from memory"),
}  # fmt: skip

_JOINT = {
    "clamp_screw_force": "clamp screw's pull",
    "cross_pin_diameter": "pin's or key's size",
    "cross_pins": "pins or keys",
    "diameter": "joint's diameter",
    "flats": "flats or teeth",
    "interference": "interference",
    "length": "joint's length",
}

SAID: dict[str, str] = {
    **{
        f"{joint}.joint.{name}": words
        for joint in ("crank", "crank.journal", "flywheel", "cam_drive")
        for name, words in _JOINT.items()
    },
    "body.foot.circle_diameter": "circle of the foot's screws",
    "body.foot.fillet": "radius in the foot's corner",
    "body.foot.thickness": "foot's thickness",
    "body.outside_diameter": "body's outside",
    "case.wall": "case's wall",
    "cam_drive.centre_distance": "distance of the pulleys",
    "cam_drive.count": "belts",
    "cam_drive.pitch": "belt's pitch",
    "cam_drive.teeth_cam": "teeth on the cam",
    "cam_drive.teeth_crank": "teeth on the crank",
    "cam_drive.tension": "belt's tension",
    "cam_drive.width": "belt's width",
    "crank.cheek_thickness": "cheek's thickness",
    "crank.cheek_width": "cheek's width",
    "crank.crankpin_diameter": "crankpin's diameter",
    "crank.crankpin_length": "crankpin's free length",
    "crank.joint.plate_thickness": "plate's thickness",
    "crank.journal.fillet": "fillet beside the cheek",
    "crank.journal.joint.plate_thickness": "thickness of the journal's plate",
    "crank.journal.rod_diameter": "rod inside the journal",
    "crank.main_bearing_dynamic_load": "dynamic rating",
    "crank.main_bearing_outside": "bearing's outside",
    "crank.main_bearing_static_load": "static rating",
    "crank.main_bearing_width": "bearing's width",
    "crank.main_journal_diameter": "journal's diameter",
    "crank.through_rod_diameter": "rod inside the pin",
    "cylinder.bore": "bore",
    "cylinder.stroke": "stroke",
    "doubt.press_friction": "doubt of friction",
    "flywheel.bore": "flywheel's hole",
    "flywheel.diameter": "flywheel's diameter",
    "flywheel.thickness": "flywheel's thickness",
    "gasket.cure_temperature": "temperature it cured at",
    "gasket.cure_time": "time it cured",
    "gasket.inside_diameter": "gasket's inside",
    "gasket.thickness": "gasket's thickness",
    "gasket.width": "gasket's width",
    "head.chamber_plate_thickness": "chamber plate's thickness",
    "head.diameter": "head's outside",
    "head.fasteners.circle_diameter": "circle of the fasteners",
    "head.fasteners.clamped_length": "clamped length",
    "head.fasteners.count": "fasteners",
    "head.fasteners.engaged_length": "engaged length",
    "head.fasteners.torque": "tightening torque",
    "head.fasteners.washer_diameter": "washer's outside",
    "head.thickness": "head's thickness",
    "liner.fit_interference": "liner's fit in the body",
    "liner.length": "liner's length",
    "liner.outside_diameter": "liner's outside",
    "pin.diameter": "piston pin's diameter",
    "pin.inside_diameter": "hole in the piston pin",
    "piston.boss_width": "bosses' width",
    "piston.shield.diameter": "shield's diameter",
    "piston.shield.screws": "screws of the shield",
    "piston.shield.thickness": "shield's thickness",
    "piston.crown_thickness": "crown's thickness",
    "piston.land_clearance": "lands' cold clearance",
    "piston.ovality": "ovality, smaller along the pin",
    "piston.skirt_clearance": "cold clearance",
    "piston.top_clearance": "cold clearance at the skirt's top",
    "piston.skirt_thickness": "skirt's thickness",
    "piston.top_land": "land's height",
    "rings.gap": "cold gap",
    "rings.groove_depth": "groove's depth",
    "rings.groove_width": "groove's width",
    "rings.inside_diameter": "ring's inside as bought",
    "rings.section": "ring's section",
    "rod.big_end_width": "big end's width",
    "rod.eye_wall": "wall round the eye",
    "rod.length": "rod's length",
    "rod.shank_thickness": "shank's thickness",
    "rod.shank_width": "shank's width",
    "rod.small_end_width": "small end's width",
    "starter.ratio": "starter's gearing",
    "starter.stall_torque": "starter's torque at a stand",
    "surroundings.air_temperature": "air temperature",
    "intake.suction": "suction",
    "intake.throttle_diameter": "throttle",
    "intake.wall": "intake's wall",
    "valves.exhaust.lift": "exhaust's lift",
    "valves.exhaust.stem_diameter": "exhaust stem",
    "valves.inlet.stem_diameter": "inlet stem",
    "valves.exhaust.mass": "exhaust valve's moving mass",
    "valves.exhaust.spring_preload": "exhaust spring's preload",
    "valves.exhaust.spring_rate": "exhaust spring's rate",
    "valves.exhaust.throat_diameter": "exhaust throat",
    "valves.exhaust.head_diameter": "exhaust valve's head",
    "valves.exhaust.lash": "exhaust valve's lash",
    "valves.exhaust.seat_interference": "seat ring's fit",
    "valves.inlet.lift": "inlet's lift",
    "valves.inlet.mass": "inlet valve's moving mass",
    "valves.inlet.spring_preload": "inlet spring's preload",
    "valves.inlet.spring_rate": "inlet spring's rate",
    "valves.inlet.throat_diameter": "inlet throat",
}
