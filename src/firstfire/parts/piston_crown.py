"""The piston's crown: burst by the gas, charred by the fire; and the shield on it."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.engine.shapes import BOSS_OUTSIDE
from firstfire.formulas import free_circle, plate_collapse
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import GAS, WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.lines import rises_are
from firstfire.parts.section import bent_share, folded_share
from firstfire.parts.softness import is_metal
from firstfire.parts.strength import ROUND_THE_BORE
from firstfire.parts.worked import piston_crown as worked
from firstfire.parts.written import mm

BREAKS = Failure(
    id="piston.crown.break",
    part="piston crown",
    failure="is pushed in",
    unit="Pa",
    formula=(
        "gas pressure over the crankcase, against the lesser of 6 × folding moment of the warm "
        "crown/radius² and 2 × shear strength × thickness/radius, radius of the largest circle "
        "free of skirt and pin bosses"
    ),
    source="H. G. Hopkins, W. Prager, J. Mech. Phys. Solids 2 (1953) 1, simply supported (from "
           "memory); plastic bending: Timoshenko, Strength of Materials, part II; shear: plug in "
           "equilibrium",
    during=GAS,
    demand_is="gas pressure",
    capacity_is="the lesser of both",
    examples=(
        worked.PRINT_FOLDS,
        worked.PRINT_IS_PUNCHED,
        worked.FOLDS_BETWEEN_ITS_BOSSES,
        worked.FOLDS_INSIDE_ITS_SKIRT,
        worked.METAL_FOLDS,
        worked.METAL_IS_PUNCHED,
    ),
)  # fmt: skip

CHARS = Failure(
    id="piston.crown.char",
    part="piston crown",
    failure="chars at its skin",
    unit="K",
    formula="hottest of the cycle at the face, against decomposition; both as rises over the air",
    source="thermogravimetry of the material (catalog row)",
    reported=True,
    during=GAS,
    **rises_are("the face at its hottest", "it chars"),
    examples=(worked.CHARS,),
)

SHIELD_MELTS = Failure(
    id="piston.shield.melt",
    part="crown shield",
    failure="melts",
    unit="K",
    formula="shield's face in the cycle's mean, against melting; both as rises over the air",
    source="melting of the material (catalog row)",
    during=WARM,
    **rises_are("the shield's face", "it melts"),
    examples=(worked.SHIELD_MELTS,),
)


def has_shield(moment: Moment) -> bool:
    """Whether a sheet of metal lies on the crown."""
    return moment.parts.piston.shield.thickness > 0


def is_bare_plastic(moment: Moment) -> bool:
    """Whether fire touches plastic."""
    material = moment.engine.materials[moment.parts.piston.material]
    foiled = moment.parts.piston.coating == "metal_foil"
    return not has_shield(moment) and not is_metal(material) and not foiled


@judges(BREAKS)
def breaks(moment: Moment) -> Way:
    """Pressure at which the crown folds, its strength taken through its temperature profile.

    The bosses stand under it, so it folds between them and the skirt: none of the nylon pistons of
    the press reports of 2021 burst. A crown that is thick over what is free is punched through
    rather than folded.
    """
    piston, free = moment.parts.piston, _free_radius(moment)
    thickness = piston.crown_thickness
    heat, material = warmth.part(moment, "crown"), moment.engine.materials[piston.material]
    warm = folded_share(material, heat, thickness)
    bears = strength.of(
        moment, piston, pull=ROUND_THE_BORE, warm=warm, section=bent_share(piston, thickness)
    )
    sheared = strength.shear(material, bears)
    holds = plate_collapse.pushed_in_pressure(free, thickness, bears.value, sheared)
    return BREAKS.way(
        moment,
        demand=moment.gas_pressure,
        capacity=holds,
        governs=bears.governs,
        temperature=warmth.mean(moment, "crown"),
        raise_by=(*(shielded(moment) if bears.governs == "temperature" else ()), *_thicker(moment)),
    )


def _free_radius(moment: Moment) -> float:
    """Radius of the largest circle of the crown that neither skirt nor bosses support, m."""
    parts = moment.parts
    radius = found("radius", parts.cylinder.bore / 2 - parts.piston.skirt_thickness, "m",
                   "radius of the crown inside the skirt")  # fmt: skip
    play = moment.given("support_play", assumed.SUPPORT_PLAY)
    half_gap = found("half_gap", (parts.rod.small_end_width + play) / 2, "m",
                     "half of the gap between the pin bosses")  # fmt: skip
    boss = moment.given("boss_outside", BOSS_OUTSIDE)
    free = free_circle.free_radius(radius, half_gap, boss * parts.pin.diameter / 2)
    return found("free", free, "m", "radius of the largest circle that neither supports")


@judges(CHARS, where=is_bare_plastic)
def chars(moment: Moment) -> Way:
    """Hottest of the cycle at the face against decomposition: told, not the end."""
    material = moment.engine.materials[moment.parts.piston.material]
    limit = moment.given("decomposition", material["decomposition"])
    heat, air = warmth.part(moment, "crown"), warmth.ambient(moment)
    peak = moment.given("face_hottest_of_cycle", air if heat is None else heat.peak)
    return CHARS.way(
        moment,
        demand=warmth.rise(moment, peak),
        capacity=limit - air,
        governs="temperature",
        temperature=peak,
        raise_by=shielded(moment),
    )


@judges(SHIELD_MELTS, where=has_shield)
def shield_melts(moment: Moment) -> Way:
    """The shield's face against its melting."""
    shield = moment.parts.piston.shield
    limit = moment.given("melting", moment.engine.materials[shield.material]["melting"])
    face = moment.given("shield_face", warmth.surface(moment, "shield"))
    steel: tuple[Raise, ...] = ()
    if shield.material != "steel_mild":
        steel = (Raise("Cut the crown shield from steel sheet",
                       {"piston.shield.material": "steel_mild"}, "crown_shield"),)  # fmt: skip
    thicker = mm(1.5 * shield.thickness, 0.5)
    return SHIELD_MELTS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=face,
        raise_by=(
            Raise(f"Cut the crown shield from {thicker} sheet",
                  {"piston.shield.thickness": thicker}, "crown_shield"),
            *steel,
        ),
    )  # fmt: skip


def shielded(moment: Moment) -> tuple[Raise, ...]:
    """A shield on the crown, where there is none and it would help."""
    material = moment.engine.materials[moment.parts.piston.material]
    if has_shield(moment) or is_metal(material):
        return ()
    return (Raise("Screw a 1 mm aluminium shield on the crown",
                  {"piston.shield.thickness": "1 mm",
                   "piston.shield.material": "aluminium_6061_t6"}, "crown_shield"),)  # fmt: skip


def _thicker(moment: Moment) -> tuple[Raise, ...]:
    piston = moment.parts.piston
    material = moment.engine.materials[piston.material]
    return (
        raising.thicker("piston.crown_thickness", piston.crown_thickness, "the crown {} thick",
                        "reprint_piston"),
        *raising.other_plastic("piston.material", material, "piston", "strength_in_plane",
                               "reprint_piston"),
    )  # fmt: skip


JUDGEMENTS = (breaks, chars, shield_melts)
