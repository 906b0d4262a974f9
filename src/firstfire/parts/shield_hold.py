"""What holds the crown's shield: screws in plastic that gets as warm as they are."""

from __future__ import annotations

from math import pi

from firstfire.engine.geometry import reciprocating_mass
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.piston_crown import has_shield
from firstfire.parts.section import gripped_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE

LOOSENS = Failure(
    id="piston.shield.loosen",
    part="crown shield",
    failure="works loose in the softened crown",
    unit="N",
    formula=(
        "mass of the sheet × largest acceleration upwards, against screws × half of π × diameter "
        "× length × shear strength of the plastic round their threads"
    ),
    source="equilibrium; half of the cylinder of threads shears in plastic: common practice, no "
           "source",
    during=WARM,
    working=(
        Line("demand", "sheet_pull", "N", "pull of the sheet on its screws"),
        strength.SHEAR,
        Line("engaged", "min(2.5 * screw_diameter, piston.crown_thickness)", "m",
             "length of thread in the crown"),
        Line("capacity",
             "piston.shield.screws * pi * screw_diameter * engaged * shear_strength / 2", "N",
             "pull at which the threads strip"),
    ),
)  # fmt: skip


@judges(LOOSENS, where=has_shield)
def loosens(moment: Moment) -> Way:
    """The sheet's own inertia against the threads of its screws, as warm as they are.

    A sheet that is held only pulls by its inertia at top centre, so threads hold it until they
    are nearly molten. A glued sheet is not judged: no strength of a glue is known so warm.
    """
    piston, shield = moment.parts.piston, moment.parts.piston.shield
    if not shield.screws:
        raise OutsideValidity("what the glue under the sheet still holds so warm is not known")
    material = moment.engine.materials[piston.material]
    threads = warmth.mean(moment, "shield_screws", "shield")
    engaged = min(2.5 * assumed.SHIELD_SCREW, piston.crown_thickness)
    bears = strength.of(
        moment, piston, pull=ALONG_BORE, warm=strength_left(material, threads),
        section=gripped_share(piston, assumed.SHIELD_SCREW, engaged),
    )  # fmt: skip
    sheared = strength.shear(material, bears)
    density = moment.engine.materials[shield.material]["density"]
    sheet = pi / 4 * shield.diameter**2 * shield.thickness * density
    own = moment.loads.cylinders[moment.cylinder]
    upwards = max(float(own.inertia.max()), 0.0) / reciprocating_mass(moment.engine, moment.parts)
    return LOOSENS.way(
        moment,
        demand=sheet * upwards,
        capacity=shield.screws * pi * assumed.SHIELD_SCREW * engaged * sheared / 2,
        governs=bears.governs,
        temperature=threads,
        inputs={"sheet_pull": sheet * upwards, "screw_diameter": assumed.SHIELD_SCREW,
                "piston.crown_thickness": piston.crown_thickness,
                "piston.shield.screws": float(shield.screws),
                "shear_of_tensile": strength.shear_share(material), **bears.inputs},
        first=bears.line,
        raise_by=(
            Raise(f"Hold the crown shield with {shield.screws + 2} screws",
                  {"piston.shield.screws": str(shield.screws + 2)}, "crown_shield"),
            *raising.other_plastic("piston.material", material, "piston", "hdt_180",
                                   "reprint_piston"),
        ),
    )  # fmt: skip


JUDGEMENTS = (loosens,)
