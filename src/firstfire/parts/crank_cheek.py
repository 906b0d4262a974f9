"""Cheeks of the crank, or the plates on them that carry the torque in their place."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.joint_room import is_across
from firstfire.engine.moment import Moment
from firstfire.engine.records import Array, CylinderLoads, Raise, Way
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_ordered
from firstfire.parts import raising, seats, strength, warmth
from firstfire.parts.crank_joint import is_plated
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY
from firstfire.parts.joint_raising import thicker_plate
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import IN_THE_CHEEK, Strength
from firstfire.parts.worked import crank_cheek as worked

CHEEK_BREAKS = Failure(
    id="crank.cheek.break",
    part="crank cheek",
    failure="breaks",
    unit="Pa",
    formula=(
        "6 × torque × width/(thickness × (width³ - hole³)) + force/(2 × thickness × (width - "
        "hole)), beside the journal at the worst angle, against strength; of the plate where it "
        "holds both pin and journal"
    ),
    source=f"{SHIGLEY}, Eq. 3-24; net section beside the hole",
    shared=True,
    during=TURNING,
    demand_is="both together",
    capacity_is="its strength here and now",
    examples=(worked.CHEEK_BREAKS, worked.PLATE_WITH_PINS, worked.PLATE_PINNED_ACROSS),
)


class _Web(NamedTuple):
    """What carries the torque from pin to journal: thickness and hole, m, strength, changes."""

    thickness: float
    hole: float
    strength: Strength
    raise_by: tuple[Raise, ...]


@judges(CHEEK_BREAKS)
def cheek_breaks(moment: Moment) -> Way:
    """The cheek beside the journal, where a cylinder's whole torque bends it in its plane.

    Half of the pin's force pulls it besides, at the same crank angle. A plate that holds both pin
    and journal is some thirty times as stiff as the print and is taken to carry it all.
    """
    crank = moment.engine.crank
    plated = is_plated(crank.joint) and is_plated(crank.journal.joint)
    web = _plate(moment) if plated else _cheek(moment)
    width = crank.cheek_width
    require_ordered(hole_beside_journal=web.hole, cheek_width=width)
    bending = 6 * width / (web.thickness * (width**3 - web.hole**3))
    pulling = 1 / (2 * web.thickness * (width - web.hole))
    _, torque, force = max(
        _worst_angle(float(bending) * abs(one.torque) + float(pulling) * one.crankpin, one)
        for one in moment.loads.cylinders
    )
    bent = found("bending_stress", bending * moment.given("torque_there", torque), "Pa",
                 "bending stress beside the journal")  # fmt: skip
    pulled = found("pulling_stress", pulling * moment.given("crankpin_force_there", force), "Pa",
                   "pull beside it, by half of the pin's force")  # fmt: skip
    return CHEEK_BREAKS.way(
        moment,
        demand=bent + pulled,
        capacity=web.strength.value,
        governs=web.strength.governs,
        temperature=warmth.web(moment),
        raise_by=(
            raising.thicker("crank.cheek_width", width, "the cheeks {} wide", "reprint_crank"),
            *web.raise_by,
        ),
    )


def _cheek(moment: Moment) -> _Web:
    crank = moment.engine.crank
    thickness, material = crank.cheek_thickness, moment.engine.materials[crank.material]
    cheek = strength.of(
        moment, crank, pull=IN_THE_CHEEK, section=pulled_share(crank, thickness),
        warm=strength_left(material, warmth.web(moment)),
    )  # fmt: skip
    return _Web(
        thickness, crank.main_journal_diameter, cheek,
        (
            raising.thicker("crank.cheek_thickness", thickness, "the cheeks {} thick",
                            "reprint_crank"),
            *raising.other_plastic("crank.material", material, "cheeks", "strength_in_plane"),
        ),
    )  # fmt: skip


def _plate(moment: Moment) -> _Web:
    """Pins that stand half in the plate are taken to widen its hole."""
    crank = moment.engine.crank
    material, joint = moment.engine.materials[str(crank.joint.plate)], crank.journal.joint
    warm = strength_left(material, warmth.web(moment))
    thickness, other = crank.joint.plate_thickness, joint.plate_thickness
    if other != thickness:  # else the one follows the other, as a rule
        thickness = math.least(thickness, other)
    pins = joint.kind in ("pinned", "keyed") and not is_across(joint)
    beside = joint.cross_pin_diameter if pins else 0.0
    return _Web(
        found("plate", thickness, "m", "the thinner plate of both joints"),
        found("hole", crank.main_journal_diameter + beside, "m",
              "hole in it, with the pins that stand half in it"),
        strength.of_material(moment, material, warm=warm),
        thicker_plate(seats.crankpin(moment)),
    )  # fmt: skip


def _worst_angle(stress: Array, one: CylinderLoads) -> tuple[float, float, float]:
    """Largest stress over the cycle, Pa, with torque, N·m, and pin force, N, at that angle."""
    at = int(stress.argmax())
    return float(stress[at]), abs(float(one.torque[at])), float(one.crankpin[at])


JUDGEMENTS = (cheek_breaks,)
