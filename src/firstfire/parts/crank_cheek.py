"""Cheeks of the crank, or the plates on them that carry the torque in their place."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.joint_room import is_across
from firstfire.engine.moment import Moment
from firstfire.engine.records import Array, CylinderLoads, Line, Raise, Way
from firstfire.formulas.validity import require_ordered
from firstfire.parts import raising, seats, strength, warmth
from firstfire.parts.crank_joint import is_plated
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY
from firstfire.parts.joint_raising import thicker_plate
from firstfire.parts.lines import STRENGTH
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import IN_THE_CHEEK, Strength

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
)  # fmt: skip

_HOLE = "crank.main_journal_diameter"
_PLATE_HOLE = "(crank.main_journal_diameter + beside_journal)"


def _lines(thickness: str, hole: str) -> tuple[Line, ...]:
    return (
        Line("bending_stress",
             f"6 * torque_there * crank.cheek_width / ({thickness} * (crank.cheek_width**3 - "
             f"{hole}**3))", "Pa", "bending stress beside the journal"),
        Line("pulling_stress",
             f"crankpin_force_there / (2 * {thickness} * (crank.cheek_width - {hole}))", "Pa",
             "pull beside it, by half of the pin's force"),
        Line("demand", "bending_stress + pulling_stress", "Pa", "both together"),
        STRENGTH,
    )  # fmt: skip


_CHEEK = _lines("crank.cheek_thickness", _HOLE)
_PLATE = _lines("crank.joint.plate_thickness", _PLATE_HOLE)


class _Web(NamedTuple):
    """What carries the torque from pin to journal: thickness and hole, m, strength, the rest."""

    thickness: float
    hole: float
    strength: Strength
    inputs: dict[str, float]
    working: tuple[Line, ...]
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
    stress, torque, force = max(
        _worst_angle(bending * abs(one.torque) + pulling * one.crankpin, one)
        for one in moment.loads.cylinders
    )
    return CHEEK_BREAKS.way(
        moment,
        demand=stress,
        capacity=web.strength.value,
        governs=web.strength.governs,
        temperature=warmth.web(moment),
        inputs={"torque_there": torque, "crankpin_force_there": force, "crank.cheek_width": width,
                "crank.main_journal_diameter": crank.main_journal_diameter, **web.inputs,
                **web.strength.inputs},
        first=web.strength.line,
        working=web.working,
        raise_by=(
            raising.thicker("crank.cheek_width", width, "the cheeks {} wide", "reprint_crank"),
            *web.raise_by,
        ),
    )  # fmt: skip


def _cheek(moment: Moment) -> _Web:
    crank = moment.engine.crank
    thickness, material = crank.cheek_thickness, moment.engine.materials[crank.material]
    cheek = strength.of(
        moment, crank, pull=IN_THE_CHEEK, section=pulled_share(crank, thickness),
        warm=strength_left(material, warmth.web(moment)),
    )  # fmt: skip
    return _Web(
        thickness, crank.main_journal_diameter, cheek, {"crank.cheek_thickness": thickness},
        _CHEEK,
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
    thickness = min(crank.joint.plate_thickness, joint.plate_thickness)
    pins = joint.kind in ("pinned", "keyed") and not is_across(joint)
    beside = joint.cross_pin_diameter if pins else 0.0
    return _Web(
        thickness, crank.main_journal_diameter + beside,
        strength.of_material(moment, material, warm=warm),
        {"crank.joint.plate_thickness": thickness, "beside_journal": beside},
        _PLATE,
        thicker_plate(seats.crankpin(moment)),
    )  # fmt: skip


def _worst_angle(stress: Array, one: CylinderLoads) -> tuple[float, float, float]:
    """Largest stress over the cycle, Pa, with torque, N·m, and pin force, N, at that angle."""
    at = int(stress.argmax())
    return float(stress[at]), abs(float(one.torque[at])), float(one.crankpin[at])


JUDGEMENTS = (cheek_breaks,)
