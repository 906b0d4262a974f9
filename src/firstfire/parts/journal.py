"""Main journals: bent and twisted off, or split along a layer."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import JournalLoad, Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import combined_stress, shaft, stress_concentration
from firstfire.parts import assumed, rows, seats, strength
from firstfire.parts.bearings import larger_bearing
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY, Seat, pin_strength
from firstfire.parts.joint_raising import proven
from firstfire.parts.lines import STRENGTH
from firstfire.parts.once import once
from firstfire.parts.softness import is_metal
from firstfire.parts.strength import Strength
from firstfire.parts.written import mm

_ROUND = "(pi * (crank.main_journal_diameter**4 - crank.journal.rod_diameter**4))"
_OWN = "(crank.main_journal_diameter**4 - crank.journal.rod_diameter**4) * journal_modulus"


def _stress_lines(own: str) -> tuple[Line, ...]:
    return (
        Line("bending_stress",
             f"32 * notch_in_bending * journal_moment{own} * crank.main_journal_diameter / "
             f"{_ROUND}",
             "Pa", "bending stress at its rim, beside the cheek"),
        Line("torsion_stress",
             f"16 * notch_in_torsion * journal_torque{own} * crank.main_journal_diameter / "
             f"{_ROUND}",
             "Pa", "twisting stress there"),
    )  # fmt: skip


_PLAIN = _stress_lines("")
SHARE = Line(
    "own_share",
    f"{_OWN} / ({_OWN} + crank.journal.rod_diameter**4 * steel_modulus)",
    "",
    "share of the load that the journal takes beside its rod",
)
"""What the journal takes of a load beside a rod through it."""

_SHARED = (
    SHARE,
    *_stress_lines(" * own_share"),
)  # fmt: skip
_BROKEN = (
    Line("demand", "sqrt(bending_stress**2 + 3 * torsion_stress**2)", "Pa", "both as one stress"),
    STRENGTH,
)
_ROD_BROKEN = (
    Line("rod_bending",
         "32 * journal_moment * (1 - own_share) / (pi * crank.journal.rod_diameter**3)", "Pa",
         "bending stress in the rod inside"),
    Line("rod_torsion",
         "16 * journal_torque * (1 - own_share) / (pi * crank.journal.rod_diameter**3)", "Pa",
         "twisting stress in it"),
    Line("demand", "sqrt(rod_bending**2 + 3 * rod_torsion**2)", "Pa", "both as one stress"),
    Line("capacity", "rod_yield", "Pa", "yield strength of the rod"),
)  # fmt: skip
_SPLIT = (
    strength.SHEAR,
    Line("used",
         "sqrt((bending_stress / strength)**2 + (torsion_stress / shear_strength)**2)", "",
         "share of its strength that is used"),
    Line("demand", "used * strength", "Pa", "the same as a stress"),
    STRENGTH,
)  # fmt: skip
_LOST = (
    Line("demand", "sqrt(bending_stress**2 + 3 * torsion_stress**2)", "Pa", "both as one stress"),
    Line("capacity", "0 * bending_stress", "Pa", "nothing: heat has left no strength"),
)

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
    lines, told = (*bears.line, *_BROKEN), bears.inputs
    rod = crank.journal.rod_diameter
    if rod > 0:
        inside = combined_stress.von_mises(
            shaft.bending_stress(felt.moment * (1 - own), rod),
            shaft.torsion_stress(felt.torque * (1 - own), rod),
        )
        most = rows.material_number("steel_mild", "yield_strength")
        if most / inside < capacity / demand:
            demand, capacity, governs = inside, most, "rod inside"
            lines, told = _ROD_BROKEN, {"rod_yield": most}
    return BREAKS.way(
        moment,
        demand=demand,
        capacity=capacity,
        governs=governs,
        temperature=seat.temperature,
        inputs={**_inputs(moment, felt), **told},
        first=_SHARED if rod > 0 else _PLAIN,
        working=lines,
        raise_by=stronger(moment, seat),
    )


@judges(SPLITS, where=has_layers)
def splits(moment: Moment) -> Way:
    """The same against the strength from layer to layer."""
    seat = seats.journal(moment)
    bears = pin_strength(moment, seat, across=True)
    felt = _felt(moment, _notch(moment, bears))
    bent, twisted = _stresses(moment, felt, own_share(moment))
    first = _SHARED if moment.engine.crank.journal.rod_diameter > 0 else _PLAIN
    inputs = _inputs(moment, felt)
    if bears.value <= 0:
        return SPLITS.way(moment, demand=combined_stress.von_mises(bent, twisted), capacity=0.0,
                          governs="temperature", inputs=inputs, first=first,
                          working=_LOST)  # fmt: skip
    sideways = strength.shear(seat.pin, bears)
    used = combined_stress.layer_split_share(bent, twisted, bears.value, sideways)
    return SPLITS.way(
        moment,
        demand=used * bears.value,
        capacity=bears.value,
        governs=bears.governs,
        temperature=seat.temperature,
        inputs={**inputs, "shear_of_tensile": strength.shear_share(seat.pin), **bears.inputs},
        first=(*first, *bears.line),
        working=_SPLIT,
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
    in_bending, in_torsion = notch
    worst, found = -1.0, (0.0, 0.0)
    for one in loads_of(moment):
        # σ² + 3 τ² goes with (2 M)² + 3 T², whatever the diameter
        size = 4 * (in_bending * one.bending) ** 2 + 3 * (in_torsion * one.torque) ** 2
        at = int(size.argmax())
        if size[at] > worst:
            worst, found = float(size[at]), (float(one.bending[at]), abs(float(one.torque[at])))
    return Felt(*found, in_bending, in_torsion)


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
    factors = (
        stress_concentration.fillet_in_bending(thin, min(crank.cheek_width, 6 * thin), radius),
        stress_concentration.fillet_in_torsion(thin, min(crank.cheek_width, 2 * thin), radius),
    )
    length = assumed.NOTCH_LENGTH_STEEL if metal else 0.0
    felt = [stress_concentration.fatigue_factor(max(k, 1.0), radius, length) for k in factors]
    return felt[0], felt[1]


def _stresses(moment: Moment, felt: Felt, own: float) -> tuple[float, float]:
    """Bending and torsion at the rim, Pa."""
    crank = moment.engine.crank
    diameter, rod = crank.main_journal_diameter, crank.journal.rod_diameter
    return (
        felt.in_bending * shaft.bending_stress(felt.moment * own, diameter, rod),
        felt.in_torsion * shaft.torsion_stress(felt.torque * own, diameter, rod),
    )


def own_share(moment: Moment) -> float:
    """Share of the load that the journal's own material takes beside a rod through it."""
    crank = moment.engine.crank
    rod = crank.journal.rod_diameter
    if rod <= 0:
        return 1.0
    modulus = moment.engine.materials[crank.journal.material]["modulus_in_plane"]
    return shaft.share_around_rod(crank.main_journal_diameter, rod, modulus, assumed.STEEL_MODULUS)


def _inputs(moment: Moment, felt: Felt) -> dict[str, float]:
    crank = moment.engine.crank
    told = {
        "journal_moment": felt.moment, "journal_torque": felt.torque,
        "notch_in_bending": felt.in_bending, "notch_in_torsion": felt.in_torsion,
        "crank.main_journal_diameter": crank.main_journal_diameter,
        "crank.journal.rod_diameter": crank.journal.rod_diameter,
    }  # fmt: skip
    return told | moduli(moment)


def moduli(moment: Moment) -> dict[str, float]:
    """What `SHARE` asks for; nothing without a rod."""
    crank = moment.engine.crank
    if crank.journal.rod_diameter <= 0:
        return {}
    own = moment.engine.materials[crank.journal.material]
    return {"journal_modulus": own["modulus_in_plane"], "steel_modulus": assumed.STEEL_MODULUS}


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
