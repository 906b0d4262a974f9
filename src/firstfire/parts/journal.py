"""Main journals: bent and twisted off, or split along a layer."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import JournalLoad, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import combined_stress, shaft, stress_concentration
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, rows, seats, strength
from firstfire.parts.bearings import larger_bearing
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY, Seat, pin_strength
from firstfire.parts.joint_raising import proven
from firstfire.parts.once import once
from firstfire.parts.softness import is_metal
from firstfire.parts.strength import Strength
from firstfire.parts.worked import journal as worked
from firstfire.parts.written import mm

BREAKS = Failure(
    id="crank.journal.break",
    part="main journal",
    failure="bends or twists off",
    unit="Pa",
    formula=(
        "√(bending stress² + 3 torsion stress²) beside the cheek at the worst angle, bending = 32 "
        "× moment/(π diameter³), torsion = 16 × torque/(π diameter³), times the fillet's factor "
        "where it counts, against yield, fatigue or print"
    ),
    source=f"{SHIGLEY}, Eq. 3-24, 3-37, 5-15, 6-33; fillet: Peterson (from memory)",
    shared=True,
    during=TURNING,
    demand_is="both as one stress",
    capacity_is="its strength here and now",
    examples=(
        worked.STUB_BREAKS,
        worked.TIRED_STEEL_BREAKS,
        worked.PRINT_BREAKS,
        worked.PRINT_ROUND_A_ROD_BREAKS,
        worked.ROD_INSIDE_BREAKS,
    ),
)

SPLITS = Failure(
    id="crank.journal.split",
    part="main journal",
    failure="splits along a layer",
    unit="Pa",
    formula=(
        "√(opening² + (sliding × strength/shear strength)²) between layers, opening by bending "
        "and sliding by torque, times the fillet's factor, against strength across the layers"
    ),
    source="Z. Hashin, J. Appl. Mech. 47 (1980) 329, tensile matrix mode (from memory)",
    shared=True,
    during=TURNING,
    demand_is="the same as a stress",
    capacity_is="its strength here and now",
    examples=(worked.PRINT_SPLITS, worked.PRINT_ROUND_A_ROD_SPLITS),
)


class Felt(NamedTuple):
    """A journal at its worst angle: moment and torque, N·m, and the factors of its fillet."""

    moment: float
    torque: float
    in_bending: float
    in_torsion: float


def is_held(moment: Moment) -> bool:
    """Whether the journals are pieces of their own."""
    return moment.engine.crank.journal.joint.kind != "solid"


def has_layers(moment: Moment) -> bool:
    """Whether a journal is a print whose layers a twist slides."""
    own = moment.engine.crank.journal
    return seats.layered(moment.engine, own.material, own)


@judges(BREAKS)
def breaks(moment: Moment) -> Way:
    """Bending and torsion together at the worst angle of the worst journal."""
    seat, crank = seats.journal(moment), moment.engine.crank
    bears = pin_strength(moment, seat, across=False)
    felt = _felt(moment, _notch(moment, bears))
    own = own_share(moment)
    bent, twisted = _stresses(moment, felt, own)
    demand, capacity, governs = combined_stress.von_mises(bent, twisted), bears.value, bears.governs
    rod = crank.journal.rod_diameter
    if rod > 0:
        inside = combined_stress.von_mises(
            found("rod_bending", shaft.bending_stress(felt.moment * (1 - own), rod), "Pa",
                  "bending stress in the rod inside"),
            found("rod_torsion", shaft.torsion_stress(felt.torque * (1 - own), rod), "Pa",
                  "twisting stress in it"),
        )  # fmt: skip
        most = moment.given("rod_yield", rows.material_number("steel_mild", "yield_strength"))
        if most / inside < capacity / demand:
            demand, capacity, governs = inside, most, "rod inside"
    return BREAKS.way(
        moment,
        demand=demand,
        capacity=capacity,
        governs=governs,
        temperature=seat.temperature,
        raise_by=stronger(moment, seat),
    )


@judges(SPLITS, where=has_layers)
def splits(moment: Moment) -> Way:
    """The same against the strength from layer to layer."""
    seat = seats.journal(moment)
    bears = pin_strength(moment, seat, across=True)
    felt = _felt(moment, _notch(moment, bears))
    bent, twisted = _stresses(moment, felt, own_share(moment))
    if bears.value <= 0:
        return SPLITS.way(moment, demand=combined_stress.von_mises(bent, twisted), capacity=0.0,
                          governs="temperature", demand_is="both as one stress",
                          capacity_is="nothing: heat has left no strength")  # fmt: skip
    sideways = strength.shear(seat.pin, bears)
    used = combined_stress.layer_split_share(bent, twisted, bears.value, sideways)
    used = found("used", used, "", "share of its strength that is used")
    return SPLITS.way(
        moment,
        demand=used * bears.value,
        capacity=bears.value,
        governs=bears.governs,
        temperature=seat.temperature,
        raise_by=stronger(moment, seat),
    )


@once
def loads_of(moment: Moment) -> tuple[JournalLoad, ...]:
    """Loads of the journals.

    Raises
    ------
    OutsideValidity
        With the reason, where they can't be told.
    """
    if not moment.loads.journals:
        raise OutsideValidity(
            "How long the main journals are can't be told: pins and cheeks are longer than "
            "crank.bearing_span. Say more span, or shorter pins, thinner cheeks or less "
            "layout.cylinder_spacing."
        )
    return moment.loads.journals


def _felt(moment: Moment, notch: tuple[float, float]) -> Felt:
    """The worst angle of the worst journal."""
    in_bending, in_torsion = float(notch[0]), float(notch[1])
    worst, there = -1.0, (0.0, 0.0)
    for one in loads_of(moment):
        # σ² + 3 τ² goes with (2 M)² + 3 T², whatever the diameter
        size = 4 * (in_bending * one.bending) ** 2 + 3 * (in_torsion * one.torque) ** 2
        at = int(size.argmax())
        if size[at] > worst:
            worst, there = float(size[at]), (float(one.bending[at]), abs(float(one.torque[at])))
    bending, torque = there
    return Felt(moment.given("journal_moment", bending), moment.given("journal_torque", torque),
                *notch)  # fmt: skip


def _notch(moment: Moment, bears: Strength) -> tuple[float, float]:
    """Factors of the fillet in bending and torsion.

    One where the journal is a straight bar, and of a metal that yields before it tires. For a
    print the whole factor counts: how much of it a print feels is not known.
    """
    crank = moment.engine.crank
    if is_held(moment):
        return 1.0, 1.0
    metal = is_metal(moment.engine.materials[crank.journal.material])
    if metal and bears.governs != "fatigue":
        return 1.0, 1.0
    thin, radius = crank.main_journal_diameter, crank.journal.fillet
    bends = stress_concentration.fillet_in_bending(thin, min(crank.cheek_width, 6 * thin), radius)
    twists = stress_concentration.fillet_in_torsion(thin, min(crank.cheek_width, 2 * thin), radius)
    in_bending = moment.given("notch_in_bending", max(bends, 1.0))
    in_torsion = moment.given("notch_in_torsion", max(twists, 1.0))
    if not metal:
        return in_bending, in_torsion
    length = moment.given("neuber_length", assumed.NOTCH_LENGTH_STEEL)
    return (
        found("felt_in_bending", stress_concentration.fatigue_factor(in_bending, radius, length),
              "", "what fatigue feels of the fillet's factor in bending"),
        found("felt_in_torsion", stress_concentration.fatigue_factor(in_torsion, radius, length),
              "", "what fatigue feels of that in torsion"),
    )  # fmt: skip


def _stresses(moment: Moment, felt: Felt, own: float) -> tuple[float, float]:
    """Bending and torsion at the rim, Pa."""
    crank = moment.engine.crank
    diameter, rod = crank.main_journal_diameter, crank.journal.rod_diameter
    bent = felt.in_bending * shaft.bending_stress(felt.moment * own, diameter, rod)
    twisted = felt.in_torsion * shaft.torsion_stress(felt.torque * own, diameter, rod)
    return (
        found("bending_stress", bent, "Pa", "bending stress at its rim, beside the cheek"),
        found("torsion_stress", twisted, "Pa", "twisting stress there"),
    )


def own_share(moment: Moment) -> float:
    """Share of the load that the journal's own material takes beside a rod through it."""
    crank = moment.engine.crank
    rod = crank.journal.rod_diameter
    if rod <= 0:
        return 1.0
    own = moment.engine.materials[crank.journal.material]["modulus_in_plane"]
    modulus = moment.given("journal_modulus", own)
    steel = moment.given("steel_modulus", assumed.STEEL_MODULUS)
    share = shaft.share_around_rod(crank.main_journal_diameter, rod, modulus, steel)
    return found("own_share", share, "",
                 "share of the load that the journal takes beside its rod")  # fmt: skip


def stronger(moment: Moment, seat: Seat) -> tuple[Raise, ...]:
    """Of ground bar; a rod inside; the next bearing up with its thicker journal."""
    crank = moment.engine.crank
    larger = larger_bearing(moment, thicker=True)
    if is_metal(seat.pin):
        if crank.journal.material == "silver_steel":
            return larger
        change = {"crank.journal.material": "silver_steel"}
        if not is_held(moment):
            change |= {"crank.material": "silver_steel", "crank.crankpin_material": "silver_steel"}
        words = "Make the journals of ground silver steel"
        return (Raise(words, change, "steel_pin"), *larger)
    inside = mm(0.6 * crank.main_journal_diameter)
    rod = Raise(f"Put a {inside} steel rod through each printed journal",
                {"crank.journal.rod_diameter": inside}, "steel_pin")  # fmt: skip
    stubs = proven(seat)
    return (*stubs, rod, *larger) if crank.journal.rod_diameter == 0 else (*stubs, *larger)


JUDGEMENTS = (breaks, splits)
