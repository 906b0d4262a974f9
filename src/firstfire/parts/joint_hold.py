"""What torque a joint holds, by the law of its kind and by what it leaves of its pin."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from firstfire.engine.joint_room import is_across
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise
from firstfire.errors import OutsideValidity
from firstfire.formulas import notched_shaft, shaft
from firstfire.parts import assumed, joint_form, joint_friction, strength
from firstfire.parts.joint_parts import SHIGLEY, Bears, Hold, Seat, bears
from firstfire.parts.joint_raising import by_form, proven, with_change
from firstfire.parts.softness import is_metal
from firstfire.parts.strength import Strength

_AMPLE = 3.0
"""Factor beyond which no change is looked for."""
_WORTH = 1.02
"""What a change must bring at least."""

_TWISTED = (
    Line("pin_twists_off",
         "pin_shear_share * layered_strength * pi / 16 * crank.joint.diameter**3 * pin_left",
         "N*m", "torque that twists off what is left of the pin"),
    Line("capacity", "min(joint_holds, pin_twists_off)", "N*m", "the lesser of both"),
)  # fmt: skip
_SOLID = (_TWISTED[0], Line("capacity", "pin_twists_off", "N*m", "torque that the joint holds"))
_BY_LAW = (Line("capacity", "joint_holds", "N*m", "torque that the joint holds"),)


def hold(moment: Moment, seat: Seat, demand: float) -> Hold:
    """What a joint holds; with changes where that isn't amply what is asked of it.

    A pin with a rod inside is judged where it is bent, and not twisted off here.

    Raises
    ------
    OutsideValidity
        Where the law of its kind does not hold.
    """
    sides = bears(moment, seat)
    held = _held(moment, seat, sides)
    if held.torque > _AMPLE * demand:
        return replace(held, raise_by=())
    values = (sides.hub.value, sides.pin.value, sides.layered.value)
    tried = _helping(seat, *values) if seat.joint.kind in _BY_FORM else ()
    done = seat.metal and seat.joint.kind == "pinned" and not is_across(seat.joint)
    usual = proven(seat) if not done and seat.joint.kind != "solid" else ()
    return replace(held, raise_by=(*tried, *held.raise_by, *usual))


@lru_cache(maxsize=512)
def _helping(seat: Seat, hub: float, pin: float, layered: float) -> tuple[Raise, ...]:
    """Changes of form that let a joint hold more; another pin also leaves less of what it is in.

    A seat is known again by its sizes and the names of its materials, whose strengths stand beside.
    """
    sides = Bears(*(Strength(value, "", value, {}, {}) for value in (hub, pin, layered)))
    now = _by_form(seat, sides).torque
    return tuple(change for change in by_form(seat) if _helps(seat, sides, change, now))


def _helps(seat: Seat, sides: Bears, change: Raise, now: float) -> bool:
    try:
        return _by_form(with_change(seat, change.set), sides).torque > _WORTH * now
    except OutsideValidity:
        return False


def _held(moment: Moment, seat: Seat, sides: Bears) -> Hold:
    if seat.joint.kind == "solid":
        return _solid(seat, sides)
    form = seat.joint.kind in _BY_FORM
    by_law = (
        _BY_FORM[seat.joint.kind](seat, sides)
        if form
        else _BY_FRICTION[seat.joint.kind](moment, seat)
    )
    if seat.joint.is_bonded and seat.joint.kind != "bonded":
        by_law = _glued_too(by_law, joint_friction.bonded(moment, seat))
    return _with_what_is_left(seat, sides, by_law)


_EITHER = Line("joint_holds", "max(bond_holds, without_bond_holds)", "N*m",
               "torque that the joint holds: the larger of both")  # fmt: skip


def _glued_too(by_law: Hold, bond: Hold) -> Hold:
    """A key, pins or a fit with a bond besides: the larger of both, not their sum.

    A bond gives by microns, a key by hundredths of a millimetre of clearance: the bond takes the
    torque first and alone, and once it has let go the key takes it alone. A fit would help its bond
    from the start; that is not counted.
    """
    first, then = (
        (*hold.working[:-1], replace(hold.working[-1], name=name))
        for hold, name in ((bond, "bond_holds"), (by_law, "without_bond_holds"))
    )
    better = bond if bond.torque > by_law.torque else by_law
    return replace(
        by_law,
        torque=better.torque,
        governs=better.governs,
        formula=f"{by_law.formula}; or, where that is more, the bond's shear strength × π/2 × "
        "diameter² × length: it is the stiffer and takes the torque first, alone",
        source=f"{by_law.source}; order of stiffness: adhesive makers' guides to shaft joints, "
        "from memory",
        inputs={**bond.inputs, **by_law.inputs},
        raise_by=(*by_law.raise_by, *bond.raise_by) if better is by_law else bond.raise_by,
        working=(*first, *then, _EITHER),
    )


def _by_form(seat: Seat, sides: Bears) -> Hold:
    return _with_what_is_left(seat, sides, _BY_FORM[seat.joint.kind](seat, sides))


def _with_what_is_left(seat: Seat, sides: Bears, by_law: Hold) -> Hold:
    """The joint's law, and not above what it leaves of its pin."""
    if seat.rod > 0:
        return replace(by_law, working=by_law.working + _BY_LAW)
    left = _left(seat, sides)
    if left.torque >= by_law.torque:
        governs, raised = by_law.governs, by_law.raise_by
    else:
        governs, raised = left.governs, _better_pin(seat)
    return replace(
        by_law,
        torque=min(left.torque, by_law.torque),
        governs=governs,
        formula=f"{by_law.formula}; not above shear strength × π/16 × diameter³ × {left.words}",
        source=f"{by_law.source}; {left.source}",
        inputs={**by_law.inputs, **left.inputs},
        raise_by=raised,
        working=by_law.working + left.lines + seat.lines(*_TWISTED),
    )


class _Left(NamedTuple):
    """What the joint leaves of its pin."""

    torque: float
    governs: str
    words: str
    source: str
    inputs: dict[str, float]
    lines: tuple[Line, ...]


def _left(seat: Seat, sides: Bears) -> _Left:
    """Torque that twists the pin off inside its joint."""
    joint = seat.joint
    size, across = joint.cross_pin_diameter, joint.diameter
    told: dict[str, float] = seat.told(diameter=across)
    if is_across(joint):
        share = notched_shaft.share_beside_cross_holes(across, size)
        formula = "1 - 8 * crank.joint.cross_pin_diameter / (3 * pi * crank.joint.diameter)"
        words = "what a hole across leaves"
        source = "net section: Peterson (from memory)"
    elif joint.kind in ("pinned", "keyed"):
        share = notched_shaft.share_beside_keyways(across, size, size / 2, joint.cross_pins)
        formula = ("(1 - 0.75 * crank.joint.cross_pin_diameter / crank.joint.diameter)**"
                   "crank.joint.cross_pins")  # fmt: skip
        words, source = "what grooves leave", "grooves: H. F. Moore, Illinois Bulletin 42, 1909"
    elif joint.kind == "splined":
        share = (1 - 2 * assumed.SPLINE_DEPTH * math.pi / joint.flats) ** 3
        formula, words = "(root_diameter / crank.joint.diameter)**3", "what its teeth leave"
        source = f"{SHIGLEY}, Eq. 3-37"
    else:
        share, formula, words, source = 1.0, "1", "all of it", f"{SHIGLEY}, Eq. 3-37"
    sheared = sides.layered
    torque = strength.shear(seat.pin, sheared) * share / shaft.torsion_stress(1.0, across)
    line = Line("pin_left", formula, "", "share of the pin that is left inside the joint")
    return _Left(
        torque, "section" if share < 1 else sheared.governs, words, source,
        {**told, "pin_shear_share": strength.shear_share(seat.pin),
         **sheared.inputs_as("layered_")},
        (*sheared.line_as("layered_", "layered_strength"), *seat.lines(line)),
    )  # fmt: skip


def _solid(seat: Seat, sides: Bears) -> Hold:
    """Pin and hub in one piece: the pin twists off at its root."""
    left = _left(seat, sides)
    return Hold(
        left.torque,
        left.governs,
        "twist, against shear strength × π/16 × diameter³ of the pin",
        f"{SHIGLEY}, Eq. 3-37",
        left.inputs,
        _better_pin(seat),
        left.lines + seat.lines(*_SOLID),
    )


def _better_pin(seat: Seat) -> tuple[Raise, ...]:
    """The pin of ground steel bar, where it isn't."""
    if seat.pin.key == "silver_steel" or (is_metal(seat.pin) and seat.joint.kind == "solid"):
        return ()
    change = {seat.pin_path: "silver_steel"}
    if not is_metal(seat.pin):
        if seat.most_plate > 0:
            return proven(seat) if seat.joint.kind == "solid" else ()
        if seat.pin_path == "crank.journal.material":
            change["crank.journal.joint.kind"] = "pinned"
    return (Raise(f"Make the {seat.words[0]} of ground steel bar", change, "steel_pin"),)


_BY_FORM: Mapping[str, Callable[[Seat, Bears], Hold]] = {
    "keyed": joint_form.keyed,
    "pinned": joint_form.pinned,
    "polygon": joint_form.polygon,
    "splined": joint_form.splined,
}
_BY_FRICTION: Mapping[str, Callable[[Moment, Seat], Hold]] = {
    "plain_press": joint_friction.press,
    "bonded": joint_friction.bonded,
    "clamped": joint_friction.clamped,
}
