"""Crankpin: bending, splitting from layer to layer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from firstfire.engine.geometry import mechanism
from firstfire.engine.moment import Moment
from firstfire.engine.records import Array, Raise, Way
from firstfire.formulas import combined_stress, plain_bearing, shaft
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, rows, seats, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import pin_strength
from firstfire.parts.once import once
from firstfire.parts.softness import is_metal
from firstfire.parts.worked import crank as worked
from firstfire.parts.written import mm

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

BENDS = Failure(
    id="crank.pin.bend",
    part="crankpin",
    failure="bends or breaks",
    unit="Pa",
    formula=(
        "√(bending stress² + 3 torsion stress²), bending = 32 × force × (span/4 - big end/8)/(π "
        "diameter³), against yield, fatigue or print"
    ),
    source=f"beam on two supports; {_SHIGLEY}, Eq. 3-24, 3-37, 5-15",
    shared=True,
    during=TURNING,
    demand_is="the worse of both places, as one stress",
    capacity_is="its strength here and now",
    examples=(
        worked.PIN_BENDS,
        worked.SHORT_PIN_SHEARS,
        worked.PRINT_ROUND_A_ROD_BENDS,
        worked.ROD_INSIDE_BENDS,
    ),
)

SPLITS = Failure(
    id="crank.pin.split",
    part="crankpin",
    failure="splits along a layer",
    unit="Pa",
    formula=(
        "√(opening² + (sliding × strength/shear strength)²) between layers, opening by bending "
        "and sliding by twist, against strength across the layers"
    ),
    source="Z. Hashin, J. Appl. Mech. 47 (1980) 329, tensile matrix mode (from memory)",
    shared=True,
    during=TURNING,
    demand_is="the same as a stress",
    capacity_is="its strength here and now",
    examples=(
        worked.PRINT_OPENS,
        worked.PRINT_SLIDES,
        worked.PRINT_ROUND_A_ROD_SLIDES,
    ),
)


class PinLoad(NamedTuple):
    """Stresses in the crankpin and in a rod inside it, Pa; force on it, N, and twist, N·m.

    Attributes
    ----------
    bending, torsion
        At its rim in the plane of bending.
    shear
        At its rim across that plane, where torsion and direct shear meet.
    rod_bending
        In the rod.
    force, twist
        Largest of each over the cycle, taken together.
    """

    bending: float
    torsion: float
    shear: float
    rod_bending: float
    force: float
    twist: float


def has_printed_pin(moment: Moment) -> bool:
    """Whether the crankpin is a print whose layers a bend parts."""
    crank = moment.engine.crank
    return seats.layered(moment.engine, crank.crankpin_material, crank.crankpin)


@judges(BENDS)
def bends(moment: Moment) -> Way:
    """Bending and torsion of the pin, or of the rod inside it, whichever stands it worse.

    A printed pin here only along its beads.
    """
    load = pin_load(moment)
    pin = pin_strength(moment, seats.crankpin(moment), across=False)
    demand, capacity, governs = _pin_stress(load), pin.value, pin.governs
    inside = moment.given("rod_yield", _rod_strength())
    if load.rod_bending > 0 and inside / load.rod_bending < capacity / demand:
        demand, capacity, governs = load.rod_bending, inside, "rod inside"
    return BENDS.way(
        moment,
        demand=demand,
        capacity=capacity,
        governs=governs,
        temperature=warmth.crankpin(moment),
        raise_by=_stronger_pin(moment),
    )


@judges(SPLITS, where=has_printed_pin)
def splits(moment: Moment) -> Way:
    """The same stresses against the strength from layer to layer."""
    load = pin_load(moment)
    pin = pin_strength(moment, seats.crankpin(moment), across=True)
    material = moment.engine.materials[moment.engine.crank.crankpin_material]
    sideways = strength.shear(material, pin)
    if pin.value <= 0:
        return SPLITS.way(moment, demand=load.bending, capacity=0.0, governs="temperature",
                          capacity_is="nothing: heat has left no strength")  # fmt: skip
    used = math.most(
        combined_stress.layer_split_share(load.bending, load.torsion, pin.value, sideways),
        load.shear / sideways,
    )
    used = found("used", used, "", "share of its strength that is used")
    return SPLITS.way(
        moment,
        demand=used * pin.value,
        capacity=pin.value,
        governs=pin.governs,
        temperature=warmth.crankpin(moment),
        raise_by=_stronger_pin(moment),
    )


@once
def pin_load(moment: Moment) -> PinLoad:
    """Stresses at the worst place of the crankpin, in the pin's own material.

    A steel rod through a printed pin takes its share of moment and torque by stiffness, as if
    it stuck to the print.
    """
    crank = moment.engine.crank
    force = moment.given("crankpin_force", _largest_pin_force(moment))
    twist = moment.given("twist", _largest(moment.loads.joint_twists))
    span = found("span", crank.crankpin_length + crank.joint.length, "m",
                 "span between the middles of the joints")  # fmt: skip
    bending = plain_bearing.pin_bending_moment(
        force, span, math.least(moment.parts.rod.big_end_width, span)
    )
    bending = found("bending_moment", bending, "N*m", "bending moment in its middle")
    diameter, rod = crank.crankpin_diameter, crank.through_rod_diameter
    own = _own_share(moment)
    # Where bending is largest there is no direct shear; where that is (4/3 of the mean) no bending.
    direct = force / 2 * 4 / 3 / (math.pi / 4 * (diameter**2 - rod**2)) * own
    direct = found("direct_shear", direct, "Pa", "shear from the force itself")
    twisted = found("torsion_stress", shaft.torsion_stress(twist * own, diameter, rod), "Pa",
                    "twisting stress at its rim")  # fmt: skip
    in_rod = 0.0 if rod <= 0 else shaft.bending_stress(bending * (1 - own), rod)
    return PinLoad(
        bending=found("bending_stress", shaft.bending_stress(bending * own, diameter, rod), "Pa",
                      "bending stress at its rim"),
        torsion=twisted,
        shear=twisted + direct,
        rod_bending=found("rod_bending", in_rod, "Pa", "bending stress in the rod inside"),
        force=force,
        twist=twist,
    )  # fmt: skip


def _pin_stress(load: PinLoad) -> float:
    """The worse of both places, as one stress, Pa."""
    return math.most(
        combined_stress.von_mises(load.bending, load.torsion),
        combined_stress.von_mises(0.0, load.shear),
    )


def _rod_strength() -> float:
    """Yield strength of a rod inside the pin, Pa: mild steel, as the hardware store has it."""
    return rows.material_number("steel_mild", "yield_strength")


def _own_share(moment: Moment) -> float:
    """Share of the moment that the pin's own material takes beside a rod through it."""
    crank = moment.engine.crank
    rod = crank.through_rod_diameter
    if rod <= 0:
        return 1.0
    pin = moment.engine.materials[crank.crankpin_material]["modulus_in_plane"]
    modulus = moment.given("pin_modulus", pin)
    steel = moment.given("steel_modulus", assumed.STEEL_MODULUS)
    share = shaft.share_around_rod(crank.crankpin_diameter, rod, modulus, steel)
    return found("own_share", share, "", "share of the load that the pin takes beside its rod")


def _largest(torques: Mapping[str, Array]) -> float:
    """Largest size of any of these over the cycle, N·m."""
    return max((max(float(t.max()), -float(t.min())) for t in torques.values()), default=0.0)


def _largest_pin_force(moment: Moment) -> float:
    """Largest force of one rod on its crankpin, N."""
    return max((float(c.crankpin.max()) for c in moment.loads.cylinders), default=0.0)


_OF_ONE = ("crank.material", "crank.crankpin_material", "crank.journal.material")
"""Paths that name what a crank in one piece is made of."""


def _stronger_pin(moment: Moment) -> tuple[Raise, ...]:
    crank = moment.engine.crank
    larger = _thicker(moment)
    if crank.built == "one_piece":
        whole = dict.fromkeys(_OF_ONE, "silver_steel")
        drill_rod = Raise("Have the crank made of silver steel", whole, "metal_crank")
        return larger if crank.crankpin_material == "silver_steel" else (drill_rod, *larger)
    if is_metal(moment.engine.materials[crank.crankpin_material]):
        ground = Raise("Make the crankpin of ground silver steel",
                       {"crank.crankpin_material": "silver_steel"}, "steel_pin")  # fmt: skip
        return larger if crank.crankpin_material == "silver_steel" else (ground, *larger)
    inside = mm(0.5 * crank.crankpin_diameter)
    rod = Raise(f"Put a {inside} steel rod through the crankpin",
                {"crank.through_rod_diameter": inside}, "steel_pin")  # fmt: skip
    steel = Raise("Make the crankpin of ground steel bar",
                  {"crank.crankpin_material": "silver_steel"}, "steel_pin")  # fmt: skip
    return (rod, steel, *larger) if crank.through_rod_diameter == 0 else (steel, *larger)


def _thicker(moment: Moment) -> tuple[Raise, ...]:
    """A crankpin a fifth thicker, with its cheek where that would be left without a wall.

    None where its hole would run into the journal's.
    """
    crank, throw = moment.engine.crank, mechanism(moment.parts)[0]
    thick = mm(1.2 * crank.crankpin_diameter)
    size = 1.2 * crank.crankpin_diameter + 0.5e-3
    solid = "solid" in (crank.joint.kind, crank.journal.joint.kind)
    if not solid and throw - (size + crank.main_journal_diameter) / 2 < 1e-3:
        return ()
    change = {"crank.crankpin_diameter": thick}
    words = f"Make the crankpin {thick} thick"
    if crank.cheek_width < 1.8 * size:
        wide = mm(2.2 * size)
        change["crank.cheek_width"] = wide
        words += f" and the cheeks {wide} wide"
    return (Raise(words, change, "reprint_crank"),)


JUDGEMENTS = (bends, splits)
