"""What holds the crown's shield: screws in plastic that gets as warm as they are."""

from __future__ import annotations

from firstfire.engine.geometry import reciprocating_mass
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.piston_crown import has_shield
from firstfire.parts.section import gripped_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE
from firstfire.parts.worked import shield_hold as worked

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
    demand_is="pull of the sheet on its screws",
    capacity_is="pull at which the threads strip",
    examples=(worked.THIN_CROWN_HOLDS, worked.THICK_CROWN_HOLDS),
)


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
    screw = moment.given("screw_diameter", assumed.SHIELD_SCREW)
    engaged = found("engaged", math.least(2.5 * screw, piston.crown_thickness), "m",
                    "length of thread in the crown")  # fmt: skip
    bears = strength.of(
        moment, piston, pull=ALONG_BORE, warm=strength_left(material, threads),
        section=gripped_share(piston, screw, engaged),
    )  # fmt: skip
    sheared = strength.shear(material, bears)
    screws = moment.given("piston.shield.screws", shield.screws)
    return LOOSENS.way(
        moment,
        demand=_sheet(moment) * _upwards(moment),
        capacity=screws * math.pi * screw * engaged * sheared / 2,
        governs=bears.governs,
        temperature=threads,
        raise_by=(
            Raise(f"Hold the crown shield with {shield.screws + 2} screws",
                  {"piston.shield.screws": str(shield.screws + 2)}, "crown_shield"),
            *raising.other_plastic("piston.material", material, "piston", "hdt_180",
                                   "reprint_piston"),
        ),
    )  # fmt: skip


def _sheet(moment: Moment) -> float:
    """Mass of the sheet, kg."""
    shield = moment.parts.piston.shield
    density = moment.given("density", moment.engine.materials[shield.material]["density"])
    sheet = math.pi / 4 * shield.diameter**2 * shield.thickness * density
    return found("sheet", sheet, "kg", "mass of the sheet")


def _upwards(moment: Moment) -> float:
    """Largest acceleration away from the crank, m/s²: that of all that goes up and down."""
    inertia = float(moment.loads.cylinders[moment.cylinder].inertia.max())
    moved = reciprocating_mass(moment.engine, moment.parts)
    largest = moment.given("largest_inertia", max(inertia, 0.0))
    return largest / moment.given("reciprocating_mass", moved)


JUDGEMENTS = (loosens,)
