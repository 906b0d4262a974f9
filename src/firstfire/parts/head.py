"""The head as a plate under gas, and the plug's thread in it."""

from __future__ import annotations

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.engine.sections.cylinder import Head
from firstfire.formulas import annular_plate, gasket, plate, thread
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, rows, strength, warmth
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head_joint import gas_over_air
from firstfire.parts.section import bent_share, folded_share, gripped_share
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import ALONG_BORE, ROUND_THE_BORE
from firstfire.parts.worked import head as worked

BREAKS = Failure(
    id="head.break",
    part="head",
    failure="breaks",
    unit="Pa",
    formula=(
        "6/thickness² × gas pressure × loaded radius²/4 × ((1+ν) ln(support radius/loaded radius)"
        " + 1 - (1-ν) loaded radius²/(4 support radius²)) ÷ share left by holes, against 4 × "
        "folding moment/thickness² of the warm head and its chamber plate"
    ),
    source="Timoshenko, Theory of Plates and Shells, 2nd ed., section 19; ligament: ASME BPVC "
    "VIII-1, UG-53 (form, from memory); plastic bending: Timoshenko, Strength of Materials",
    hazard=True,
    during=GAS,
    demand_is="bending stress between the holes",
    capacity_is="what both bear",
    examples=worked.BREAKS,
)
PLUG_BLOWS = Failure(
    id="plug.blow",
    part="spark plug",
    failure="is blown out",
    unit="N",
    formula=(
        "gas pressure × π/4 × thread diameter², against shear strength × π × pitch diameter × "
        "engaged length"
    ),
    source="shear on the pitch cylinder (plastics makers' screw guides, from memory)",
    hazard=True,
    during=GAS,
    demand_is="gas force on the plug",
    capacity_is="force that shears its thread out",
    examples=worked.PLUG_BLOWS,
)


def has_plate(moment: Moment) -> bool:
    """Whether a plate faces the fire in place of the head itself."""
    head = moment.parts.head
    return head.chamber_plate is not None and head.chamber_plate_thickness > 0


def is_plastic(moment: Moment) -> bool:
    """Whether the head is of plastic."""
    return not is_metal(material_of(moment))


@judges(BREAKS)
def breaks(moment: Moment) -> Way:
    """Bending of the head on its bolt circle, its holes left out, its warm section counted.

    A head thicker than half its bolt circle's radius is no plate: it is counted as thick as that,
    by its section, its plate and its gas alike.
    """
    thickness, bears = counted_thickness(moment), _head_strength(moment)
    stress = found("stress", _plate_stress(moment, thickness), "Pa",
                   "bending stress in the middle of a plate without holes")  # fmt: skip
    return BREAKS.way(
        moment,
        demand=stress / left_by_valves(moment),
        capacity=bears.value + _plate_adds(moment, thickness),
        governs=bears.governs,
        temperature=warmth.mean(moment, "head"),
        raise_by=(
            *thicker(moment),
            *metal_plate(moment),
            *raising.other_plastic("head.material", material_of(moment), "head",
                                   "strength_in_plane", "reprint_head"),
        ),
    )  # fmt: skip


@judges(PLUG_BLOWS)
def plug_blows(moment: Moment) -> Way:
    """Gas on the plug against its thread in the head."""
    head, material = moment.parts.head, material_of(moment)
    size = rows.thread(moment.parts.plug.thread)
    diameter = moment.given("thread_diameter", size.diameter)
    length = _engaged(moment, diameter)
    heat = warmth.part(moment, "head")
    warm_at = warmth.ambient(moment) if heat is None else heat.at(float(heat.depth[0]) + length / 2)
    bears = strength.of(
        moment, head, pull=ALONG_BORE, warm=strength_left(material, warm_at),
        section=gripped_share(head, diameter, length),
    )  # fmt: skip
    pitch = moment.given("thread_pitch", size.pitch)
    area = found("shear_area", thread.shear_area_on_pitch_cylinder(diameter, pitch, length), "m^2",
                 "area that would shear")  # fmt: skip
    return PLUG_BLOWS.way(
        moment,
        demand=gasket.end_force(gas_over_air(moment), diameter),
        capacity=thread.pull_out_load(area, strength.shear(material, bears)),
        governs=bears.governs,
        temperature=warm_at,
        raise_by=raising.other_plastic("head.material", material, "head", "strength_across",
                                       "reprint_head"),
    )  # fmt: skip


def support_radius(moment: Moment) -> float:
    """Radius of the circle its fasteners stand on, m."""
    radius = moment.parts.head.fasteners.circle_diameter / 2
    return found("support_radius", radius, "m", "radius of the circle its fasteners stand on")


def left_by_valves(moment: Moment) -> float:
    """Share of the head's section that the valve holes leave."""
    valves = moment.parts.valves
    throats = valves.inlet.throat_diameter + valves.exhaust.throat_diameter
    left = annular_plate.ligament_efficiency(support_radius(moment), throats / 2)
    return found("share_left_by_holes", left, "", "share of the section that the valve holes leave")


def poisson_of(moment: Moment) -> float:
    """Poisson's ratio of the head."""
    return moment.given("poisson", material_of(moment)["poisson"])


def material_of(moment: Moment) -> Material:
    """Material of the head."""
    return moment.engine.materials[moment.parts.head.material]


def counted_thickness(moment: Moment) -> float:
    """Thickness of the head that counts, m: half its bolt circle's radius at the most."""
    counted = counted_thickness_of(moment.parts.head)
    return found("thickness", counted, "m", "thickness that counts")


def counted_thickness_of(head: Head) -> float:
    """As `counted_thickness`, of a head by itself."""
    return math.least(head.thickness, head.fasteners.circle_diameter / 4)


def thicker(moment: Moment) -> tuple[Raise, ...]:
    """A thicker head, where more of it would count."""
    head = moment.parts.head
    if head.thickness >= head.fasteners.circle_diameter / 4:
        return ()
    return (raising.thicker("head.thickness", head.thickness, "the head {} thick", "reprint_head"),)


def _head_strength(moment: Moment) -> strength.Strength:
    head = moment.parts.head
    warm = folded_share(material_of(moment), warmth.part(moment, "head"), head.thickness)
    section = bent_share(head, counted_thickness(moment))
    return strength.of(moment, head, pull=ROUND_THE_BORE, warm=warm, section=section)


def _plate_stress(moment: Moment, thickness: float) -> float:
    """Of the head as a plate without holes, that gas presses on within its gasket, Pa."""
    seal, radius = moment.parts.gasket, support_radius(moment)
    loaded = math.least((seal.inside_diameter + seal.width) / 2, radius)
    loaded = found("loaded_radius", loaded, "m", "radius that the gas presses on")
    return plate.supported_centre_stress(
        gas_over_air(moment), radius, thickness, poisson_of(moment), loaded_radius=loaded
    )


def _plate_adds(moment: Moment, thickness: float) -> float:
    """What a chamber plate lying loose in the head bears, as a stress of the head, Pa."""
    head = moment.parts.head
    if not has_plate(moment):
        return 0.0
    material = moment.engine.materials[head.chamber_plate or ""]
    warm = strength_left(material, warmth.mean(moment, "chamber_plate", "head"))
    bears = strength.of_material(moment, material, warm=warm, place="plate_", name="plate_strength")
    adds = bears.value * (head.chamber_plate_thickness / thickness) ** 2
    return found("chamber_plate_adds", adds, "Pa", "what the chamber plate adds")


def _engaged(moment: Moment, diameter: float) -> float:
    """Length of the plug's thread that holds in the head, m."""
    reach = moment.given("plug_reach", assumed.PLUG_REACH)
    length = math.most(math.least(reach * diameter, moment.parts.head.thickness), diameter)
    return found("engaged_length", length, "m", "length of thread that holds")


def metal_plate(moment: Moment) -> tuple[Raise, ...]:
    """A plate in the chamber, where there is none and it would help."""
    if has_plate(moment) or not is_plastic(moment):
        return ()
    return (Raise("Put a 3 mm aluminium plate into the chamber",
                  {"head.chamber_plate": "aluminium_6061_t6",
                   "head.chamber_plate_thickness": "3 mm"}, "chamber_plate"),)  # fmt: skip


JUDGEMENTS = (breaks, plug_blows)
