"""The piston's crown: burst by the gas, charred by the fire; and the shield on it."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.formulas import free_circle, plate_collapse
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import GAS, WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.lines import AIR, rises
from firstfire.parts.section import bent_share, depth_beyond, folded_share
from firstfire.parts.softness import is_metal, softens_at
from firstfire.parts.strength import ROUND_THE_BORE
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
    working=(
        Line("radius", "cylinder.bore / 2 - piston.skirt_thickness", "m",
             "radius of the crown inside the skirt"),
        Line("half_gap", "(rod.small_end_width + support_play) / 2", "m",
             "half of the gap between the pin bosses"),
        Line("beside", "max(radius - boss_outside * pin.diameter / 2, half_gap)", "m",
             "room between bosses and skirt, or bosses"),
        Line("free", "min((beside**2 + half_gap**2) / (2 * beside), radius)", "m",
             "radius of the largest circle that neither supports"),
        strength.SHEAR,
        Line("folds", "6 * (strength * piston.crown_thickness**2 / 4) / free**2", "Pa",
             "pressure at which it folds"),
        Line("punched", "2 * shear_strength * piston.crown_thickness / free", "Pa",
             "pressure at which it is punched through"),
        Line("demand", "gas_pressure", "Pa", "gas pressure"),
        Line("capacity", "min(folds, punched)", "Pa", "the lesser of both"),
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
    working=rises("face_hottest_of_cycle", "decomposition", "the face at its hottest", "it chars"),
)

SHIELD_MELTS = Failure(
    id="piston.shield.melt",
    part="crown shield",
    failure="melts",
    unit="K",
    formula="shield's face in the cycle's mean, against melting; both as rises over the air",
    source="melting of the material (catalog row)",
    during=WARM,
    working=rises("shield_face", "melting", "the shield's face", "it melts"),
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
    piston, pin, eye = moment.parts.piston, moment.parts.pin, moment.parts.rod.small_end_width
    free = free_circle.free_radius(
        moment.parts.cylinder.bore / 2 - piston.skirt_thickness,
        (eye + assumed.SUPPORT_PLAY) / 2,
        assumed.BOSS_OUTSIDE * pin.diameter / 2,
    )
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
        inputs={"gas_pressure": moment.gas_pressure, "cylinder.bore": moment.parts.cylinder.bore,
                "piston.skirt_thickness": piston.skirt_thickness,
                "piston.crown_thickness": thickness, "pin.diameter": pin.diameter,
                "rod.small_end_width": eye, "boss_outside": assumed.BOSS_OUTSIDE,
                "support_play": assumed.SUPPORT_PLAY,
                "shear_of_tensile": strength.shear_share(material), **bears.inputs},
        first=bears.line,
        raise_by=(*(shielded(moment) if bears.governs == "temperature" else ()), *_thicker(moment)),
    )  # fmt: skip


@judges(CHARS, where=is_bare_plastic)
def chars(moment: Moment) -> Way:
    """Hottest of the cycle at the face against decomposition: told with depth and what is left."""
    piston = moment.parts.piston
    material, heat = moment.engine.materials[piston.material], warmth.part(moment, "crown")
    limit = material["decomposition"]
    air = warmth.ambient(moment)
    peak = air if heat is None else heat.peak
    return CHARS.way(
        moment,
        demand=warmth.rise(moment, peak),
        capacity=limit - air,
        governs="temperature",
        temperature=peak,
        inputs={
            "face_hottest_of_cycle": peak,
            "decomposition": limit,
            AIR: air,
            "depth_charred_in_the_mean": 0.0 if heat is None else depth_beyond(heat, limit),
            "depth_softened": 0.0 if heat is None
            else depth_beyond(heat, softens_at(material, assumed.SOFT)),
            "share_of_folding_strength_left":
                folded_share(material, heat, piston.crown_thickness),
        },
        raise_by=shielded(moment),
    )  # fmt: skip


@judges(SHIELD_MELTS, where=has_shield)
def shield_melts(moment: Moment) -> Way:
    """The shield's face against its melting."""
    shield = moment.parts.piston.shield
    limit = moment.engine.materials[shield.material]["melting"]
    air, face = warmth.ambient(moment), warmth.surface(moment, "shield")
    steel: tuple[Raise, ...] = ()
    if shield.material != "steel_mild":
        steel = (Raise("Cut the crown shield from steel sheet",
                       {"piston.shield.material": "steel_mild"}, "crown_shield"),)  # fmt: skip
    thicker = mm(1.5 * shield.thickness, 0.5)
    return SHIELD_MELTS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - air,
        governs="temperature",
        temperature=face,
        inputs={"shield_face": face, "melting": limit, AIR: air},
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
