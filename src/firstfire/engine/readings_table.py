"""The table of readings: one row for each pattern of uncertain inputs, the first that fits.

Minutes are for practised hands, parts printed and glue dry. All of it is common practice, no
source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Stage = Literal["now", "part", "together", "day", "running"]
"""When it can be had: before printing, part in hand, engine put together, on the day, running."""


@dataclass(frozen=True)
class Reading:
    """One way to measure an uncertain input.

    Attributes
    ----------
    pattern
        Of paths, cylinder left out; ``*`` stands for any piece.
    words
        What is measured, in plain words; ``{material}`` is the material's name.
    instrument
        Key of the catalog's instrument; "" where nothing can be measured at home.
    how
        As an order, one sentence.
    minutes
        For one reading, of one cylinder.
    stage
        When it can be had.
    left_as, left
        What the reading leaves open, 5-95 %: the instrument's error; a factor either way; a share
        of the value either way; half of what the catalog's row spans; or, either way, m² for each
        m³ that a cylinder sweeps (what leak tests of engines of 45 to 600 cm³ come to at 360 rpm).
    why_not
        Why nobody can measure it at home; "" where it can be.
    material
        Kind of material that the row is for; "" for all.
    needs
        A path, the words of it with which the reading can be had, and why not without.
    spins
        Whether the engine is turned or run for it.
    piece
        Kind of the test piece that tells it; "" where it is measured without one.
    """

    pattern: str
    words: str
    instrument: str = ""
    how: str = ""
    minutes: float = 0.0
    stage: Stage = "part"
    left_as: Literal["error", "factor", "share", "half", "of_volume"] = "error"
    left: float = 0.0
    why_not: str = ""
    material: str = ""
    needs: tuple[str, tuple[str, ...], str] | None = None
    spins: bool = False
    piece: str = ""


_NOT_YET = "firstfire has no test yet that reads it"
_PULLED = (
    "Pull five small bars with a neck of 2 × 1.5 mm until they break; force over area, their mean."
)
_LAB = "that takes a laboratory"

READINGS = (
    # Leak and sizes
    Reading(
        "leak.ring", "leak past the rings", "compression_gauge",
        "Crank it without fuel with the gauge in the plug's hole, dry and then with a few drops of "
        "oil on the rings; `firstfire leak` makes areas of the two readings.",
        10, "together", "of_volume", 6e-4, spins=True,
    ),
    Reading(
        "cylinder.bore", "bore of the cylinder", "caliper_inside",
        "At the top and half-way down, in two directions.", 3,
    ),
    Reading(
        "piston.skirt_clearance", "gap between piston and bore", "feeler_gauge",
        "Piston in the bore without its rings, pushed to one side: the thickest leaf that slides "
        "in beside the skirt on the other.", 5,
    ),
    Reading(
        "rings.groove_depth", "depth of the ring groove", "caliper",
        "Depth rod from the land to the groove's floor, at three places.", 3,
    ),
    Reading(
        "rings.section", "thickness of the O-ring", "caliper",
        "Close the jaws until they just touch, at three places.", 2,
    ),
    # Valves
    Reading(
        "valves.inlet.mass", "mass of the inlet valve", "kitchen_scale",
        "Valve, retainer and locks, and a third of the spring.", 1,
    ),
    Reading(
        "valves.exhaust.mass", "mass of the exhaust valve", "kitchen_scale",
        "Valve, retainer and locks, and a third of the spring.", 1,
    ),
    Reading(
        "valves.inlet.spring_preload", "force of the inlet spring with the valve shut",
        "luggage_scale", "Pull at the stem's end until the valve just lifts, three times.", 5,
    ),
    Reading(
        "valves.exhaust.spring_preload", "force of the exhaust spring with the valve shut",
        "luggage_scale", "Pull at the stem's end until the valve just lifts, three times.", 5,
    ),
    Reading(
        "valves.inlet.spring_rate", "stiffness of the inlet spring", "kitchen_scale",
        "Press it on the scale to two lengths taken with a caliper: difference of force over "
        "difference of length.", 10, "part", "share", 0.04,
    ),
    Reading(
        "valves.exhaust.spring_rate", "stiffness of the exhaust spring", "kitchen_scale",
        "Press it on the scale to two lengths taken with a caliper: difference of force over "
        "difference of length.", 10, "part", "share", 0.04,
    ),
    # Mixture and the day
    Reading(
        "intake.equivalence_ratio", "mixture it runs on", "lambda_probe",
        "Let it idle with the probe in the exhaust; the mixture here is one over what a lambda "
        "meter shows. It says nothing of the mixture at a first combustion.",
        20, "running", spins=True,
    ),
    Reading(
        "surroundings.air_temperature", "air temperature of the day", "thermometer",
        "In the shade, where it breathes, before the run.", 1, "day",
    ),
    Reading(
        "surroundings.air_pressure", "air pressure of the day", "barometer",
        "Where you stand, not reduced to sea level.", 1, "day",
    ),
    # Materials
    Reading(
        "materials.*.strength_in_plane", "strength of {material} along its layers",
        "luggage_scale", f"Print them lying. {_PULLED}", 60, "now", "half", material="printed",
    ),
    Reading(
        "materials.*.strength_across", "strength of {material} from layer to layer",
        "luggage_scale",
        "Print five bars standing and bend them by a hanging weight until a layer parts; "
        "`firstfire coupon` draws them and makes the value of what they bore.",
        60, "now", "half", material="printed", piece="bar",
    ),
    Reading(
        "materials.*.modulus_in_plane", "stiffness of {material}", "dial_indicator",
        "Lay a printed bar of 100 × 10 × 4 mm on two supports 80 mm apart and hang weights on its "
        "middle: force over sag.", 30, "now", "half", material="printed",
    ),
    Reading(
        "materials.*.density", "density of {material} as it comes out", "kitchen_scale",
        "Weigh a solid block of some 50 g and measure it: mass over volume.", 10, "now", "half",
        material="printed",
    ),
    Reading(
        "materials.*.strength_*", "strength of {material}", "luggage_scale",
        f"Saw them from the same sheet or bar. {_PULLED}", 60, "now", "half", material="sawn",
    ),
    Reading(
        "materials.*.modulus_in_plane", "stiffness of {material}", "dial_indicator",
        "Lay a strip on two supports and hang weights on its middle: force over sag.", 30, "now",
        "half", material="sawn",
    ),
    Reading(
        "materials.*.density", "density of {material}", "kitchen_scale",
        "Weigh a piece of some 50 g and measure it: mass over volume.", 10, "now", "half",
        material="sawn",
    ),
    Reading(
        "materials.*.density", "density of {material}", "kitchen_scale",
        "Weigh a bar and measure it: mass over volume.", 5, "now", "half", material="metal",
    ),
    Reading(
        "materials.*.strength_*", "strength of {material}", material="metal",
        why_not="buy it with its mill certificate",
    ),
    Reading(
        "materials.*.yield_strength", "load at which {material} stays bent",
        why_not="buy it with its mill certificate",
    ),
    Reading(
        "materials.*.modulus_in_plane", "stiffness of {material}", material="metal",
        why_not="and every bar of it is nearly alike",
    ),
    Reading(
        "materials.*.density", "density of {material}", why_not="its pieces are too small to weigh"
    ),
    Reading("materials.*.strength_*", "strength of {material}", why_not=_LAB),
    Reading("materials.*.modulus_in_plane", "stiffness of {material}", why_not=_LAB),
    Reading("materials.*.conductivity", "how well {material} conducts heat", why_not=_LAB),
    Reading(
        "materials.*.fracture_toughness_across",
        "how well {material} stands up to a crack between its layers", why_not=_LAB,
    ),
    Reading(
        "materials.*.fracture_toughness", "how well {material} stands up to a crack", why_not=_LAB
    ),
    Reading(
        "materials.*.shear_strength*", "how well {material} sticks", "luggage_scale",
        "Glue strips of what it joins over 10 × 10 mm, five pairs, and pull them along until they "
        "part; force over area, their mean.", 60, "now", "half",
    ),
    Reading(
        "materials.*.cure_depth_per_day", "how deep {material} cures in a day", "caliper",
        "Leave a thick bead open for a day, cut it across and measure its skin.", 10, "now", "half",
    ),
    Reading(
        "materials.*.skin_time", "how soon {material} sets", "stopwatch",
        "Touch a smear of the mix every few minutes until it no longer draws a thread.", 10, "now",
        "half",
    ),
    Reading("materials.*.cure_time", "how long {material} takes to its full strength",
            why_not=_LAB),
    # Joints
    *(
        Reading(
            pattern, words, "caliper_inside",
            "Hole in two directions and what goes into it, before they are pressed together: the "
            "difference.", 5,
        )
        for pattern, words in (
            ("liner.fit_interference", "how tight the liner sits in the body"),
            ("valves.exhaust.seat_interference", "how tight the exhaust seat's ring sits"),
            ("crank.joint.interference", "how tight the crankpin sits in its cheeks"),
            ("*interference", "how tight a wheel or journal sits"),
        )
    ),
    Reading(
        "head.fasteners.torque", "torque of the head's screws", "luggage_scale",
        "Pull the spanner with the scale at right angles: force times its distance from the "
        "screw.", 5, "together", "share", 0.05,
    ),
    Reading(
        "*.clamp_screw_force", "pull of a clamping screw", "luggage_scale",
        "Pull the spanner with the scale: force times its distance from the screw, over a fifth of "
        "the screw's diameter.", 5, "together", "share", 0.3,
    ),
    Reading(
        "cam_drive.tension", "tension of the cam belt", "luggage_scale",
        "Pull the loose wheel or tensioner with the scale until the belt is as tight as you want "
        "it: half of that pull.", 5, "together",
    ),
    Reading(
        "valves.exhaust.lash", "lash of the exhaust valve", "feeler_gauge",
        "Cold, at firing top centre: the leaf that just drags.", 3, "together",
    ),
    Reading(
        "gasket.cure_temperature", "warmth in which the sealant cured", "thermometer",
        "Beside the engine while it cures.", 1, "together",
    ),
    Reading(
        "starter.battery_resistance", "resistance of the starter's battery and leads", "multimeter",
        "Voltage at the starter at rest and with a load of some amperes across it, a car's head "
        "lamp: what it falls by over that current.", 10, "together", "share", 0.15,
    ),
    Reading(
        "starter.decompression_diameter", "bore of the hole that lets compression off", "caliper",
        "The shank of the thickest drill that goes into it.", 2,
    ),
    Reading(
        "starter.decompression_until", "speed at which compression comes back", "tachometer",
        "Crank it without fuel, ever faster, until its beat grows hard; the speed just before.",
        5, "together", spins=True,
    ),
    Reading(
        "doubt.nut_factor", "how much of a torque becomes preload", "micrometer",
        "Measure a head bolt end to end, slack and torqued. Its stretch gives its pull; the pull "
        "as tightened in `firstfire explain FILE gasket.open` over that is the value.",
        20, "together", "factor", 1.12,
        needs=("head.fasteners.kind", ("through_bolts", "nutted_studs", "studs"),
               "no head screw of it can be reached at both ends"),
    ),
    Reading(
        "doubt.press_friction", "friction in pressed and clamped joints", "luggage_scale",
        "Turn a spare joint with a lever and the scale until it slips; `firstfire coupon` draws it "
        "and makes the value of that torque.",
        45, "part", "factor", 1.2, piece="joint",
    ),
    # What published laws differ by
    Reading("doubt.wall_heat", "how much heat the gas gives the walls",
            why_not="that takes quick thermocouples in the walls"),
    Reading("doubt.burn_duration", "how long the charge burns",
            why_not="that takes a pressure pickup in the cylinder"),
    Reading("doubt.burn_phase", "when burning sets in",
            why_not="that takes a pressure pickup in the cylinder"),
    Reading("doubt.combustion_loss", "how much of the charge is left unburned",
            why_not="that takes an exhaust gas analyser"),
    Reading("doubt.flow", "how well valves and throttle flow", why_not="that takes a flow bench"),
    Reading("doubt.outside_cooling", "how well the outside is cooled", why_not=_NOT_YET),
    Reading("doubt.port_film", "how hot gas heats the ports",
            why_not="that takes quick thermocouples in the ports"),
    Reading("doubt.contact", "how well seats, plates and shields touch", why_not=_LAB),
    Reading("doubt.softening", "how warm plastics get before they soften", why_not=_LAB),
    Reading("doubt.friction.ring", "friction of the rings", why_not=_NOT_YET),
    Reading("doubt.friction.skirt", "friction of the piston's skirt", why_not=_NOT_YET),
    Reading("doubt.friction.bearings", "friction of the bearings", why_not=_NOT_YET),
    Reading("doubt.friction.valve_gear", "friction of the valve gear", why_not=_NOT_YET),
    Reading("doubt.friction.stuck", "how rings that have stood stick", why_not=_NOT_YET),
    Reading("doubt.friction.belt", "friction of the cam drive", why_not=_NOT_YET),
    # What is luck
    Reading("doubt.strength_scatter", "strength from one print to the next",
            why_not="it is luck: one print says nothing of the next"),
    Reading("which cylinder breathes", "which of two like cylinders fills better",
            why_not="it is luck: either may, each time anew"),
    Reading("speed before top", "speed left just before top centre at a first combustion",
            why_not="it differs from one try to the next"),
)  # fmt: skip
