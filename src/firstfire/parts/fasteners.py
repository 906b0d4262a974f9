"""What holds the head down: pulled out, stripped, sunk in, slackened by a night, tired."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import bolt, bolt_fatigue
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.clamped import how_many, washer_hole
from firstfire.parts.events import GAS, REST, TIGHTENING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head_joint import (
    HeadJoint,
    gas_force,
    grip,
    grip_once,
    head_joint,
    tightened_preload,
)
from firstfire.parts.section import under_washer_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import PRESSED
from firstfire.parts.worked import fasteners as worked
from firstfire.parts.written import mm, newton_metre

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

LIFTS = Failure(
    id="head.lift",
    part="head",
    failure="lifts",
    unit="N",
    formula=(
        "gas pressure × π/4 × seal diameter², against fasteners × the lesser of proof load and "
        "pull-out (insert: 0.4 × shear strength × π × outside × length; thread: shear strength × "
        "π × pitch diameter × engaged length)"
    ),
    source="shear of the enclosing cylinder (makers' pull tests, from memory); ISO 898-1, Table 3",
    hazard=True,
    during=GAS,
    capacity_is="what all fasteners hold",
    examples=worked.LIFTS,
)
STRIPS = Failure(
    id="head.fasteners.strip",
    part="head fasteners",
    failure="strip or yield while tightened",
    unit="N",
    formula="torque/(nut factor × thread diameter), against the lesser of proof load and pull-out",
    source=f"{_SHIGLEY}, Eq. 8-27; ISO 898-1, Table 3; pull-out as for the head's lift",
    hazard=True,
    during=TIGHTENING | GAS,
    capacity_is="what one fastener stands once",
    examples=worked.STRIPS,
)
SINKS = Failure(
    id="head.washer.sink",
    part="washers under the head's fasteners",
    failure="sink into the print",
    unit="Pa",
    formula=(
        "(preload left + load share × gas force each)/(π/4 × (washer² - hole²)), against strength"
        " when pressed for so long"
    ),
    source=f"equilibrium; strength under lasting load: ASTM D2837 form; {_SHIGLEY}, Eq. 8-27",
    during=REST | TIGHTENING | GAS,
    demand_is="pressure under a washer",
    capacity_is="its strength here and now",
    examples=worked.SINKS,
)
SLACKENS = Failure(
    id="head.preload.fade",
    part="head fasteners",
    failure="go slack over the night",
    unit="N",
    formula="half of the preload as tightened, against what settling and creep leave of it",
    source="VDI 2230-1, embedding; quasi-elastic creep (S. Turner), both from memory",
    during=REST,
    demand_is="pull that should still be there",
    capacity_is="pull that is left",
    examples=worked.SLACKENS,
)
TIRES = Failure(
    id="head.bolt.tire",
    part="head fasteners",
    failure="tire and break",
    unit="Pa",
    formula=(
        "load share × gas force each/(2 × stress area), against 0.85 (150 mm/diameter + 45) MPa ×"
        " (2·10⁶/cycles)^(1/3)"
    ),
    source=f"VDI 2230-1 (from memory); {_SHIGLEY}, Eq. 8-24",
    hazard=True,
    during=GAS,
    demand_is="half of the swing of stress in its thread",
    capacity_is="half swing that so many cycles allow",
    examples=worked.TIRES,
)


@judges(LIFTS)
def lifts(moment: Moment) -> Way:
    """Gas force on the head against the pull its fasteners stand, all together."""
    each = grip(moment)
    return LIFTS.way(
        moment,
        demand=gas_force(moment),
        capacity=how_many(moment) * each.holds,
        governs=each.governs,
        temperature=each.temperature,
        raise_by=_held_better(moment),
    )


@judges(STRIPS)
def strips(moment: Moment) -> Way:
    """Preload as tightened against what the thread, the insert or the screw stands."""
    each = grip_once(moment)
    return STRIPS.way(
        moment,
        demand=tightened_preload(moment),
        capacity=each.holds,
        governs=each.governs,
        temperature=each.temperature,
        raise_by=(_gentler(moment),),
    )


@judges(SINKS)
def sinks(moment: Moment) -> Way:
    """Pressure under a washer, from what preload is left and what gas adds."""
    head, joint = moment.parts.head, head_joint(moment)
    load = tightened_preload(moment) if moment.event == "overtighten" else _peak_load(joint)
    washer, hole = head.fasteners.washer_diameter, washer_hole(moment, joint.thread)
    face = math.pi / 4 * (washer**2 - hole**2)
    warm_at = warmth.outer_face(moment, "head")
    material = moment.engine.materials[head.material]
    bears = strength.of(
        moment, head, pull=PRESSED, warm=strength_left(material, warm_at), load="lasting",
        section=under_washer_share(head, hole, washer),
    )  # fmt: skip
    wider = mm(1.4 * washer)
    return SINKS.way(
        moment,
        demand=load / found("washer_face", face, "m^2", "face of one washer"),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(
            Raise(f"Put washers of {wider} under the heads",
                  {"head.fasteners.washer_diameter": wider}, "bigger_washers"),
            _gentler(moment),
        ),
    )  # fmt: skip


@judges(SLACKENS)
def slackens(moment: Moment) -> Way:
    """Preload left after rest against half of what it was."""
    joint, fasteners = head_joint(moment), moment.parts.head.fasteners
    raised: tuple[Raise, ...] = ()
    if not fasteners.through:
        raised = (Raise("Hold the head by long through-bolts to the crankcase",
                        {"head.fasteners.kind": "through_bolts"}, "through_bolts"),)  # fmt: skip
    material = moment.engine.materials[moment.parts.head.material]
    return SLACKENS.way(
        moment,
        demand=moment.given("least_preload", assumed.LEAST_PRELOAD) * joint.tightened,
        capacity=found("capacity", joint.left, "N", SLACKENS.capacity_is),
        governs="creep" if joint.settled - joint.left > joint.tightened - joint.settled
        else "settling",
        temperature=warmth.mean(moment, "head"),
        raise_by=(
            *raised,
            *raising.other_plastic("head.material", material, "head", "creep_factor_1000h",
                                   "reprint_head", among=("pc", "pps_cf", "peek")),
        ),
    )  # fmt: skip


@judges(TIRES)
def tires(moment: Moment) -> Way:
    """Swing of stress in a fastener: over soft plastic it feels nearly all of the gas."""
    joint = head_joint(moment)
    swing = _peak_load(joint) - joint.left
    return TIRES.way(
        moment,
        demand=swing / 2 / joint.thread.stress_area,
        capacity=bolt_fatigue.thread_amplitude(joint.thread.diameter, max(moment.cycles, 1.0)),
        governs="fatigue",
        raise_by=(_more_fasteners(moment), *_thicker_screw(moment)),
    )


def _peak_load(joint: HeadJoint) -> float:
    """Pull of one fastener at the peak of the gas, N."""
    gas = found("gas_force_each", joint.gas_force / joint.number, "N", "gas force for each")
    load = bolt.bolt_load(joint.left, gas, joint.share)
    return found("load_each", load, "N", "pull at the peak of the gas, of one fastener")


def _gentler(moment: Moment) -> Raise:
    gentler = newton_metre(0.7 * moment.parts.head.fasteners.torque)
    return Raise(f"Tighten to {gentler}", {"head.fasteners.torque": gentler}, "retighten")


def _held_better(moment: Moment) -> tuple[Raise, ...]:
    fasteners = moment.parts.head.fasteners
    material = moment.engine.materials[moment.parts.body.material]
    if fasteners.through:
        return (_more_fasteners(moment), *_thicker_screw(moment))
    count = fasteners.count + 2
    through = Raise(
        f"Hold the head with {count} long {fasteners.thread} through-bolts down to the crankcase",
        {"head.fasteners.kind": "through_bolts", "head.fasteners.count": str(count)},
        "through_bolts",
    )
    return (
        _more_fasteners(moment),
        *_thicker_screw(moment),
        through,
        *raising.other_plastic("body.material", material, "body", "strength_across",
                               "reprint_body"),
    )[:4]  # fmt: skip


def _more_fasteners(moment: Moment) -> Raise:
    fasteners = moment.parts.head.fasteners
    count = fasteners.count + 2
    return Raise(f"Hold the head with {count} {fasteners.thread}",
                 {"head.fasteners.count": str(count)}, "add_screws")  # fmt: skip


def _thicker_screw(moment: Moment) -> tuple[Raise, ...]:
    steps = {"M3": "M4", "M4": "M5", "M5": "M6", "M6": "M8", "M8": "M10"}
    following = steps.get(moment.parts.head.fasteners.thread)
    if following is None:
        return ()
    return (Raise(f"Hold the head with {following}", {"head.fasteners.thread": following},
                  "thicker_screws"),)  # fmt: skip


JUDGEMENTS = (lifts, strips, sinks, slackens, tires)
