"""The head as a plate under gas, and the plug's thread in it."""

from __future__ import annotations

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.engine.sections.cylinder import Head
from firstfire.formulas import annular_plate, gasket, plate, thread
from firstfire.parts import assumed, raising, rows, strength, warmth
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.lines import STRENGTH
from firstfire.parts.section import bent_share, folded_share, gripped_share
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import ALONG_BORE, ROUND_THE_BORE

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
    working=(
        Line("support_radius", "head.fasteners.circle_diameter / 2", "m",
             "radius of the circle its fasteners stand on"),
        Line("loaded_radius", "min((gasket.inside_diameter + gasket.width) / 2, support_radius)",
             "m", "radius that the gas presses on"),
        Line("thickness", "min(head.thickness, support_radius / 2)", "m", "thickness that counts"),
        Line("share", "loaded_radius / support_radius", "", "pressed radius over supported radius"),
        Line("bracket",
             "(1 + poisson) * log(support_radius / loaded_radius) + 1 - (1 - poisson) * share**2 / "
             "4", "", "what the plate's law makes of it (natural logarithm)"),
        Line("stress", "6 * gas_pressure * loaded_radius**2 / 4 * bracket / thickness**2", "Pa",
             "bending stress in the middle of a plate without holes"),
        Line("share_left_by_holes",
             "(support_radius - (valves.inlet.throat_diameter + valves.exhaust.throat_diameter) / "
             "2) / support_radius", "", "share of the section that the valve holes leave"),
        Line("demand", "stress / share_left_by_holes", "Pa", "bending stress between the holes"),
    ),
)  # fmt: skip
_ALONE = (STRENGTH,)
_BACKED = (
    Line("chamber_plate_adds",
         "plate_strength * (head.chamber_plate_thickness / thickness)**2", "Pa",
         "what the chamber plate adds"),
    Line("capacity", "strength + chamber_plate_adds", "Pa", "what both bear"),
)  # fmt: skip
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
    working=(
        strength.SHEAR,
        Line("engaged_length",
             "max(min(plug_reach * thread_diameter, head.thickness), thread_diameter)", "m",
             "length of thread that holds"),
        Line("shear_area", "pi * (thread_diameter - 0.649519 * thread_pitch) * engaged_length",
             "m^2", "area that would shear"),
        Line("demand", "pi / 4 * thread_diameter**2 * gas_pressure", "N", "gas force on the plug"),
        Line("capacity", "shear_strength * shear_area", "N", "force that shears its thread out"),
    ),
)  # fmt: skip


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
    parts, head = moment.parts, moment.parts.head
    radius = head.fasteners.circle_diameter / 2
    loaded = (parts.gasket.inside_diameter + parts.gasket.width) / 2
    thickness = counted_thickness(moment)
    gas = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    throats = parts.valves.inlet.throat_diameter, parts.valves.exhaust.throat_diameter
    left = annular_plate.ligament_efficiency(radius, sum(throats) / 2)
    stress = plate.supported_centre_stress(
        gas, radius, thickness, material_of(moment)["poisson"], loaded_radius=min(loaded, radius)
    )
    bears, plated = _head_strength(moment), _plate_strength(moment)
    backing: tuple[Line, ...] = ()
    told: dict[str, float] = {}
    backed = 0.0
    if plated is not None:
        backed = plated.value * (head.chamber_plate_thickness / thickness) ** 2
        backing = plated.line_as("plate_", "plate_strength")
        told = plated.inputs_as("plate_")
        told["head.chamber_plate_thickness"] = head.chamber_plate_thickness
    return BREAKS.way(
        moment,
        demand=stress / left,
        capacity=bears.value + backed,
        governs=bears.governs,
        temperature=warmth.mean(moment, "head"),
        inputs={"gas_pressure": gas, "head.fasteners.circle_diameter": 2 * radius,
                "gasket.inside_diameter": parts.gasket.inside_diameter,
                "gasket.width": parts.gasket.width, "head.thickness": head.thickness,
                "poisson": material_of(moment)["poisson"],
                "valves.inlet.throat_diameter": throats[0],
                "valves.exhaust.throat_diameter": throats[1], "share_left_by_holes": left,
                **bears.inputs, **told},
        first=bears.line + backing,
        working=BREAKS.working + (_BACKED if backing else _ALONE),
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
    length = max(min(assumed.PLUG_REACH * size.diameter, head.thickness), size.diameter)
    heat = warmth.part(moment, "head")
    warm_at = warmth.ambient(moment) if heat is None else heat.at(float(heat.depth[0]) + length / 2)
    bears = strength.of(
        moment, head, pull=ALONG_BORE, warm=strength_left(material, warm_at),
        section=gripped_share(head, size.diameter, length),
    )  # fmt: skip
    area = thread.shear_area_on_pitch_cylinder(size.diameter, size.pitch, length)
    gas = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    return PLUG_BLOWS.way(
        moment,
        demand=gasket.end_force(gas, size.diameter),
        capacity=thread.pull_out_load(area, strength.shear(material, bears)),
        governs=bears.governs,
        temperature=warm_at,
        inputs={"gas_pressure": gas, "thread_diameter": size.diameter, "thread_pitch": size.pitch,
                "plug_reach": assumed.PLUG_REACH, "head.thickness": head.thickness,
                "engaged_length": length, "shear_of_tensile": strength.shear_share(material),
                **bears.inputs},
        first=bears.line,
        raise_by=raising.other_plastic("head.material", material, "head", "strength_across",
                                       "reprint_head"),
    )  # fmt: skip


def material_of(moment: Moment) -> Material:
    """Material of the head."""
    return moment.engine.materials[moment.parts.head.material]


def counted_thickness(moment: Moment) -> float:
    """Thickness of the head that counts, m: half its bolt circle's radius at the most."""
    return counted_thickness_of(moment.parts.head)


def counted_thickness_of(head: Head) -> float:
    """As `counted_thickness`, of a head by itself."""
    return min(head.thickness, head.fasteners.circle_diameter / 4)


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


def _plate_strength(moment: Moment) -> strength.Strength | None:
    """Of a chamber plate lying loose in the head; None where there is none."""
    head = moment.parts.head
    if not has_plate(moment):
        return None
    material = moment.engine.materials[head.chamber_plate or ""]
    warm = strength_left(material, warmth.mean(moment, "chamber_plate", "head"))
    return strength.of_material(moment, material, warm=warm)


def metal_plate(moment: Moment) -> tuple[Raise, ...]:
    """A plate in the chamber, where there is none and it would help."""
    if has_plate(moment) or not is_plastic(moment):
        return ()
    return (Raise("Put a 3 mm aluminium plate into the chamber",
                  {"head.chamber_plate": "aluminium_6061_t6",
                   "head.chamber_plate_thickness": "3 mm"}, "chamber_plate"),)  # fmt: skip


JUDGEMENTS = (breaks, plug_blows)
