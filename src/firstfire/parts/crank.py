"""Crankpin: bending, splitting from layer to layer."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from firstfire.engine.geometry import mechanism
from firstfire.engine.moment import Moment
from firstfire.engine.records import Array, Line, Raise, Way
from firstfire.formulas import combined_stress, plain_bearing, shaft
from firstfire.parts import assumed, rows, seats, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import pin_strength
from firstfire.parts.lines import STRENGTH
from firstfire.parts.once import once
from firstfire.parts.softness import is_metal
from firstfire.parts.written import mm

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

_ROUND = "(pi * (crank.crankpin_diameter**4 - crank.through_rod_diameter**4))"
_OWN = "(crank.crankpin_diameter**4 - crank.through_rod_diameter**4) * pin_modulus"
_MOMENT = (
    Line("span", "crank.crankpin_length + crank.joint.length", "m",
         "span between the middles of the joints"),
    Line("bending_moment", "crankpin_force * (span / 4 - min(rod.big_end_width, span) / 8)", "N*m",
         "bending moment in its middle"),
)  # fmt: skip


def _pin_lines(own: str) -> tuple[Line, ...]:
    """Stresses in the pin, which takes a share of moment and twist where a rod is in it."""
    return (
        Line("bending_stress", f"32 * bending_moment{own} * crank.crankpin_diameter / {_ROUND}",
             "Pa", "bending stress at its rim"),
        Line("torsion_stress", f"16 * twist{own} * crank.crankpin_diameter / {_ROUND}", "Pa",
             "twisting stress at its rim"),
        Line("direct_shear",
             f"4 / 3 * crankpin_force / 2{own} / (pi / 4 * (crank.crankpin_diameter**2 - "
             "crank.through_rod_diameter**2))", "Pa", "shear from the force itself"),
    )  # fmt: skip


_PLAIN = (*_MOMENT, *_pin_lines(""))
_SHARED = (
    *_MOMENT,
    Line(
        "own_share",
        f"{_OWN} / ({_OWN} + crank.through_rod_diameter**4 * steel_modulus)",
        "",
        "share of the load that the pin takes beside its rod",
    ),
    *_pin_lines(" * own_share"),
)
_BENT = (
    Line("demand",
         "max(sqrt(bending_stress**2 + 3 * torsion_stress**2), sqrt(3) * (torsion_stress + "
         "direct_shear))", "Pa", "the worse of both places, as one stress"),
    STRENGTH,
)  # fmt: skip
_ROD_BENT = (
    Line("demand", "32 * bending_moment * (1 - own_share) / (pi * crank.through_rod_diameter**3)",
         "Pa", "bending stress in the rod inside"),
    Line("capacity", "rod_yield", "Pa", "yield strength of the rod"),
)  # fmt: skip
_SPLIT = (
    strength.SHEAR,
    Line("used",
         "max(sqrt((bending_stress / strength)**2 + (torsion_stress / shear_strength)**2), "
         "(torsion_stress + direct_shear) / shear_strength)", "",
         "share of its strength that is used"),
    Line("demand", "used * strength", "Pa", "the same as a stress"),
    STRENGTH,
)  # fmt: skip
_LOST = (
    Line("demand", "bending_stress", "Pa", "bending stress at its rim"),
    Line("capacity", "0 * bending_stress", "Pa", "nothing: heat has left no strength"),
)

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
    inputs, working
        Numbers put in, and lines from them to the stresses.
    """

    bending: float
    torsion: float
    shear: float
    rod_bending: float
    force: float
    twist: float
    inputs: dict[str, float]
    working: tuple[Line, ...]


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
    lines, told = (*pin.line, *_BENT), pin.inputs
    inside = _rod_strength()
    if load.rod_bending > 0 and inside / load.rod_bending < capacity / demand:
        demand, capacity, governs = load.rod_bending, inside, "rod inside"
        lines, told = _ROD_BENT, {"rod_yield": inside}
    return BENDS.way(
        moment,
        demand=demand,
        capacity=capacity,
        governs=governs,
        temperature=warmth.crankpin(moment),
        inputs={**load.inputs, "bending_stress": load.bending, "torsion_stress": load.torsion,
                **told},
        first=load.working,
        working=lines,
        raise_by=_stronger_pin(moment),
    )  # fmt: skip


@judges(SPLITS, where=has_printed_pin)
def splits(moment: Moment) -> Way:
    """The same stresses against the strength from layer to layer."""
    load = pin_load(moment)
    pin = pin_strength(moment, seats.crankpin(moment), across=True)
    material = moment.engine.materials[moment.engine.crank.crankpin_material]
    sideways = strength.shear(material, pin)
    if pin.value <= 0:
        return SPLITS.way(moment, demand=load.bending, capacity=0.0, governs="temperature",
                          inputs=load.inputs, first=load.working, working=_LOST)  # fmt: skip
    used = max(
        combined_stress.layer_split_share(load.bending, load.torsion, pin.value, sideways),
        load.shear / sideways,
    )
    return SPLITS.way(
        moment,
        demand=used * pin.value,
        capacity=pin.value,
        governs=pin.governs,
        temperature=warmth.crankpin(moment),
        inputs={**load.inputs, "bending_stress": load.bending, "torsion_stress": load.torsion,
                "shear_of_tensile": strength.shear_share(material), **pin.inputs},
        first=(*load.working, *pin.line),
        working=_SPLIT,
        raise_by=_stronger_pin(moment),
    )  # fmt: skip


@once
def pin_load(moment: Moment) -> PinLoad:
    """Stresses at the worst place of the crankpin, in the pin's own material.

    A steel rod through a printed pin takes its share of moment and torque by stiffness, as if
    it stuck to the print.
    """
    crank = moment.engine.crank
    force, twist = _largest_pin_force(moment), _largest(moment.loads.joint_twists)
    span = crank.crankpin_length + crank.joint.length
    moment_in_pin = plain_bearing.pin_bending_moment(
        force, span, min(moment.parts.rod.big_end_width, span)
    )
    diameter, rod = crank.crankpin_diameter, crank.through_rod_diameter
    own = _own_share(moment)
    # Where bending is largest there is no direct shear; where that is (4/3 of the mean) no bending.
    direct = force / 2 * 4 / 3 / (math.pi / 4 * (diameter**2 - rod**2)) * own
    twisted = shaft.torsion_stress(twist * own, diameter, rod)
    return PinLoad(
        bending=shaft.bending_stress(moment_in_pin * own, diameter, rod),
        torsion=twisted,
        shear=twisted + direct,
        rod_bending=0.0 if rod <= 0 else shaft.bending_stress(moment_in_pin * (1 - own), rod),
        force=force,
        twist=twist,
        inputs=_pin_inputs(moment, force, twist),
        working=_SHARED if rod > 0 else _PLAIN,
    )


def _pin_inputs(moment: Moment, force: float, twist: float) -> dict[str, float]:
    """Numbers put in for the stresses in the pin."""
    crank = moment.engine.crank
    told = {"crankpin_force": force, "twist": twist, "crank.crankpin_length": crank.crankpin_length,
            "crank.joint.length": crank.joint.length,
            "rod.big_end_width": moment.parts.rod.big_end_width,
            "crank.crankpin_diameter": crank.crankpin_diameter,
            "crank.through_rod_diameter": crank.through_rod_diameter}  # fmt: skip
    if crank.through_rod_diameter > 0:
        pin = moment.engine.materials[crank.crankpin_material]
        told |= {"pin_modulus": pin["modulus_in_plane"], "steel_modulus": assumed.STEEL_MODULUS}
    return told


def _pin_stress(load: PinLoad) -> float:
    """The worse of both places, as one stress, Pa."""
    return max(
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
    modulus = moment.engine.materials[crank.crankpin_material]["modulus_in_plane"]
    return shaft.share_around_rod(crank.crankpin_diameter, rod, modulus, assumed.STEEL_MODULUS)


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
