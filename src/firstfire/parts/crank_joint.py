"""The joint of crankpin and cheek: whether a cycle turns the pin in its cheek."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.engine.sections.joint import Joint
from firstfire.parts import joint_hold, seats, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.softness import is_metal
from firstfire.parts.worked import (
    bonded_joints,
    clamped_joints,
    keyed_joints,
    pinned_joints,
    polygon_joints,
    pressed_joints,
    solid_joints,
    splined_joints,
)

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

SLIPS = Failure(
    id="crank.joint.slip",
    part="crank joint",
    failure="slips",
    unit="N*m",
    formula=(
        "largest twist about its own pin, of either sign, against the torque that this kind of "
        "joint holds"
    ),
    source=_SHIGLEY,
    shared=True,
    during=TURNING,
    examples=(
        pressed_joints.BY_FIT,
        bonded_joints.ON_PRINT,
        clamped_joints.PRINT,
        keyed_joints.KEYS_SHEAR,
        pinned_joints.ACROSS_PINS_SHEAR,
        pinned_joints.ALONG_PINS_SHEAR,
        pinned_joints.ALONG_EDGE_TEARS,
        polygon_joints.CRUSHED,
        splined_joints.FLANKS_CRUSH,
    ),
    demand_is="largest twist about the pin",
    capacity_is="torque that the joint holds",
)

TWISTS = Failure(
    id="crank.pin.twist",
    part="crankpin",
    failure="is twisted off at its cheek",
    unit="N*m",
    formula="largest twist about its own pin, of either sign, against the torque it bears",
    source=_SHIGLEY,
    shared=True,
    during=TURNING,
    examples=(
        solid_joints.STEEL,
        solid_joints.PRINT,
    ),
    demand_is="largest twist about the pin",
    capacity_is="torque that the joint holds",
)

FRETS = Failure(
    id="crank.joint.fret",
    part="crank joint",
    failure="frets loose under torque of both signs",
    unit="N*m",
    formula="torque that comes back the other way",
    source="none; common practice keeps a joint that sees reversal at twice its slip torque",
    shared=True,
    during=TURNING,
)

PLATE_SCREWS = Failure(
    id="crank.plate.slip",
    part="plate on the crank cheek",
    failure="works loose",
    unit="N",
    formula="pull of its screws in the cheek",
    source="none",
    shared=True,
    during=TURNING,
)


def is_joined(moment: Moment) -> bool:
    """Whether the crankpin is a piece of its own, put into its cheeks."""
    return moment.engine.crank.joint.kind != "solid"


def is_grown_on(moment: Moment) -> bool:
    """Whether crankpin and cheeks are one piece."""
    return not is_joined(moment)


@judges(SLIPS, where=is_joined)
def slips(moment: Moment) -> Way:
    """Largest twist, of either sign, about the pin of any joint against what such a joint holds."""
    return _twisted(moment, SLIPS)


@judges(TWISTS, where=is_grown_on)
def twists(moment: Moment) -> Way:
    """The same twist, where there is no joint to slip: against what twists the pin off."""
    return _twisted(moment, TWISTS)


def _twisted(moment: Moment, failure: Failure) -> Way:
    twist = moment.given("twist", largest_twist(moment))
    held = joint_hold.hold(moment, seats.crankpin(moment), twist)
    ample = held.torque > _AMPLE * twist
    return failure.way(
        moment,
        demand=twist,
        capacity=held.torque,
        governs=held.governs,
        temperature=warmth.crankpin(moment),
        raise_by=held.raise_by if ample else (*held.raise_by, *in_one_piece(moment)),
        formula=held.formula,
        source=held.source,
    )


_AMPLE = 3.0
"""Factor beyond which no other crank is looked for."""


def in_one_piece(moment: Moment) -> tuple[Raise, ...]:
    """A crank of steel in one piece, as a shop bends or turns it; none where it is one."""
    crank = moment.engine.crank
    if crank.built == "one_piece" and is_metal(moment.engine.materials[crank.material]):
        return ()
    steel = "steel_mild"
    change = {
        "crank.built": "one_piece", "crank.made": "bought", "crank.joint.kind": "solid",
        "crank.journal.joint.kind": "solid", "crank.material": steel,
        "crank.crankpin_material": steel, "crank.journal.material": steel,
    }  # fmt: skip
    return (Raise("Have the crank made of steel in one piece", change, "metal_crank"),)


def is_reversed(moment: Moment) -> bool:
    """Whether a joint of pin and cheek sees twist of both signs."""
    if is_grown_on(moment):
        return False
    return any(t.max() > 0 > t.min() for t in moment.loads.joint_twists.values())


frets = not_judged(FRETS, "how many reversals work a joint loose is not modelled", is_reversed)


def has_plate(moment: Moment) -> bool:
    """Whether the torque goes through screws: a plate that holds the pin and not the journal."""
    crank = moment.engine.crank
    return is_plated(crank.joint) != is_plated(crank.journal.joint)


def is_plated(joint: Joint) -> bool:
    """Whether a plate on the cheek holds this joint."""
    return joint.plate is not None and joint.plate_thickness > 0 and joint.kind != "solid"


plate_works_loose = not_judged(
    PLATE_SCREWS, "the engine file does not say which screws hold the plate to the cheek", has_plate
)


def largest_twist(moment: Moment) -> float:
    """Largest size of twist of any joint, N·m."""
    twists = moment.loads.joint_twists.values()
    return max((max(float(one.max()), -float(one.min())) for one in twists), default=0.0)


JUDGEMENTS = (slips, twists, frets, plate_works_loose)
