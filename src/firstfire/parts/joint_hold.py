"""What torque a joint holds, by the law of its kind and by what it leaves of its pin."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from firstfire.engine.joint_room import is_across
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise
from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math
from firstfire.formulas import notched_shaft, shaft
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, joint_form, joint_friction, strength
from firstfire.parts.joint_parts import SHIGLEY, Bears, Hold, Seat, bears, each
from firstfire.parts.joint_raising import by_form, proven, with_change
from firstfire.parts.softness import is_metal
from firstfire.parts.strength import Strength

_AMPLE = 3.0
"""Factor beyond which no change is looked for."""
_WORTH = 1.02
"""What a change must bring at least."""


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
    look = _tried if moment.recorded else _helping  # a recorded number is like no other
    tried = look(seat, *values) if seat.joint.kind in _BY_FORM else ()
    done = seat.metal and seat.joint.kind == "pinned" and not is_across(seat.joint)
    usual = proven(seat) if not done and seat.joint.kind != "solid" else ()
    return replace(held, raise_by=(*tried, *held.raise_by, *usual))


@lru_cache(maxsize=512)
def _helping(seat: Seat, hub: float, pin: float, layered: float) -> tuple[Raise, ...]:
    """As `_tried`, of plain numbers, kept.

    A seat is known again by its sizes and the names of its materials, whose strengths stand beside.
    """
    return _tried(seat, hub, pin, layered)


def _tried(seat: Seat, hub: float, pin: float, layered: float) -> tuple[Raise, ...]:
    """Changes of form that let a joint hold more; another pin also leaves less of what it is in."""
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


def _glued_too(by_law: Hold, bond: Hold) -> Hold:
    """A key, pins or a fit with a bond besides: the larger of both, not their sum.

    A bond gives by microns, a key by hundredths of a millimetre of clearance: the bond takes the
    torque first and alone, and once it has let go the key takes it alone. A fit would help its bond
    from the start; that is not counted.
    """
    glue = found("bond_holds", bond.torque, "N*m", "torque that the bond holds")
    bare = found("without_bond_holds", by_law.torque, "N*m", "torque that it holds without")
    better = bond if glue > bare else by_law
    return replace(
        by_law,
        torque=math.most(glue, bare),
        governs=better.governs,
        formula=f"{by_law.formula}; or, where that is more, the bond's shear strength × π/2 × "
        "diameter² × length: it is the stiffer and takes the torque first, alone",
        source=f"{by_law.source}; order of stiffness: adhesive makers' guides to shaft joints, "
        "from memory",
        raise_by=(*by_law.raise_by, *bond.raise_by) if better is by_law else bond.raise_by,
    )


def _by_form(seat: Seat, sides: Bears) -> Hold:
    return _with_what_is_left(seat, sides, _BY_FORM[seat.joint.kind](seat, sides))


def _with_what_is_left(seat: Seat, sides: Bears, by_law: Hold) -> Hold:
    """The joint's law, and not above what it leaves of its pin."""
    holds = found("joint_holds", by_law.torque, "N*m", "torque that the joint holds")
    if seat.rod > 0:
        return replace(by_law, torque=holds)
    left = _left(seat, sides)
    if left.torque >= by_law.torque:
        governs, raised = by_law.governs, by_law.raise_by
    else:
        governs, raised = left.governs, _better_pin(seat)
    return replace(
        by_law,
        torque=found("holds", math.least(holds, left.torque), "N*m", "the lesser of both"),
        governs=governs,
        formula=f"{by_law.formula}; not above shear strength × π/16 × diameter³ × {left.words}",
        source=f"{by_law.source}; {left.source}",
        raise_by=raised,
    )


class _Left(NamedTuple):
    """What the joint leaves of its pin."""

    torque: float
    governs: str
    words: str
    source: str


def _left(seat: Seat, sides: Bears) -> _Left:
    """Torque that twists the pin off inside its joint."""
    share, words, source = _share_left(seat)
    bears = strength.shear(seat.pin, sides.layered, "layered_" if seat.layered else "pin_")
    stress = each("twist_each", shaft.torsion_stress(1.0, seat.joint.diameter),
                  "twisting stress in the whole pin")  # fmt: skip
    off = "what is left of the pin" if share < 1 else "the pin"
    torque = found("pin_twists_off", bears * share / stress, "N*m", f"torque that twists off {off}")
    return _Left(torque, "section" if share < 1 else sides.layered.governs, words, source)


def _share_left(seat: Seat) -> tuple[float, str, str]:
    """Share of the pin that is left inside the joint; what leaves it; the book."""
    joint = seat.joint
    size, across = joint.cross_pin_diameter, joint.diameter
    if is_across(joint):
        share = notched_shaft.share_beside_cross_holes(across, size)
        words, source = "what a hole across leaves", "net section: Peterson (from memory)"
    elif joint.kind in ("pinned", "keyed"):
        deep = found("key_depth", size / 2, "m", "how deep each stands in the pin")
        share = notched_shaft.share_beside_keyways(across, size, deep, seat.pins)
        words, source = "what grooves leave", "grooves: H. F. Moore, Illinois Bulletin 42, 1909"
    elif joint.kind == "splined":
        depth = seat.beside("spline_depth", assumed.SPLINE_DEPTH)
        share = (1 - 2 * depth * math.pi / seat.flats) ** 3
        words, source = "what its teeth leave", f"{SHIGLEY}, Eq. 3-37"
    else:
        share, words, source = 1.0, "all of it", f"{SHIGLEY}, Eq. 3-37"
    share = found("pin_left", share, "", "share of the pin that is left inside the joint")
    return share, words, source


def _solid(seat: Seat, sides: Bears) -> Hold:
    """Pin and hub in one piece: the pin twists off at its root."""
    left = _left(seat, sides)
    return Hold(
        left.torque,
        left.governs,
        "twist, against shear strength × π/16 × diameter³ of the pin",
        f"{SHIGLEY}, Eq. 3-37",
        _better_pin(seat),
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
