"""What holds the head down: pulled out, stripped, sunk in, slackened by a night, tired."""

from __future__ import annotations

import math

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.formulas import bolt, bolt_fatigue
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import GAS, REST, TIGHTENING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head_joint import (
    GAS_FORCE,
    OVERTIGHTENED,
    PRELOAD,
    SHARE,
    gas_inputs,
    grip,
    grip_once,
    head_joint,
    preload_inputs,
    tightened_preload,
)
from firstfire.parts.lines import STRENGTH
from firstfire.parts.section import under_washer_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import PRESSED
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
    working=(
        GAS_FORCE,
        Line("demand", "gas_force", "N", "gas force on the head"),
        Line("capacity", "head.fasteners.count * each_holds", "N", "what all fasteners hold"),
    ),
)  # fmt: skip
_TIGHTENED = (
    Line("demand", "preload", "N", "pull as tightened, of one fastener"),
    Line("capacity", "each_holds", "N", "what one fastener stands once"),
)
_EACH = Line("gas_force_each", "gas_force / head.fasteners.count", "N", "gas force for each")
_LOADED = (
    GAS_FORCE,
    _EACH,
    SHARE,
    Line("load_each", "max(preload_left + load_share * gas_force_each, gas_force_each)", "N",
         "pull at the peak of the gas, of one fastener"),
)  # fmt: skip
_FACE = (
    Line("washer_face",
         "pi / 4 * (head.fasteners.washer_diameter**2 - min(clearance_hole, 0.9 * "
         "head.fasteners.washer_diameter)**2)", "m^2", "face of one washer"),
    Line("demand", "load_each / washer_face", "Pa", "pressure under it"),
    STRENGTH,
)  # fmt: skip
_AS_TIGHTENED = (Line("load_each", "preload", "N", "pull as tightened, of one fastener"),)

STRIPS = Failure(
    id="head.fasteners.strip",
    part="head fasteners",
    failure="strip or yield while tightened",
    unit="N",
    formula="torque/(nut factor × thread diameter), against the lesser of proof load and pull-out",
    source=f"{_SHIGLEY}, Eq. 8-27; ISO 898-1, Table 3; pull-out as for the head's lift",
    hazard=True,
    during=TIGHTENING | GAS,
)  # fmt: skip
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
)  # fmt: skip
SLACKENS = Failure(
    id="head.preload.fade",
    part="head fasteners",
    failure="go slack over the night",
    unit="N",
    formula="half of the preload as tightened, against what settling and creep leave of it",
    source="VDI 2230-1, embedding; quasi-elastic creep (S. Turner), both from memory",
    during=REST,
    working=(
        Line("demand", "least_preload * preload", "N", "pull that should still be there"),
        Line("capacity", "preload_left", "N", "pull that is left"),
    ),
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
    working=(
        *_LOADED,
        Line("demand", "(load_each - preload_left) / 2 / thread_area", "Pa",
             "half of the swing of stress in its thread"),
        Line("cycles_counted", "min(max(cycles, 10000), 2000000)", "",
             "cycles, counted from ten thousand to two million"),
        Line("capacity",
             "thread_fatigue * (thread_fatigue_length / thread_diameter + 45) * (2000000 / "
             "cycles_counted)**(1 / 3)", "Pa", "half swing that so many cycles allow"),
    ),
)  # fmt: skip


@judges(LIFTS)
def lifts(moment: Moment) -> Way:
    """Gas force on the head against the pull its fasteners stand, all together."""
    joint, each = head_joint(moment), grip(moment)
    return LIFTS.way(
        moment,
        demand=joint.gas_force,
        capacity=joint.number * each.holds,
        governs=each.governs,
        temperature=each.temperature,
        inputs={**gas_inputs(moment), "head.fasteners.count": joint.number,
                "each_holds": each.holds, "screw_proof_load": each.screw, **each.inputs},
        first=each.working,
        raise_by=_held_better(moment),
    )  # fmt: skip


@judges(STRIPS)
def strips(moment: Moment) -> Way:
    """Preload as tightened against what the thread, the insert or the screw stands."""
    tightened, each = tightened_preload(moment), grip_once(moment)
    fasteners = moment.parts.head.fasteners
    gentler = newton_metre(0.7 * fasteners.torque)
    return STRIPS.way(
        moment,
        demand=tightened,
        capacity=each.holds,
        governs=each.governs,
        temperature=each.temperature,
        inputs={**preload_inputs(moment), "preload": tightened, "each_holds": each.holds,
                **each.inputs},
        first=(OVERTIGHTENED if moment.event == "overtighten" else PRELOAD, *each.working),
        working=_TIGHTENED,
        raise_by=(Raise(f"Tighten to {gentler}", {"head.fasteners.torque": gentler}, "retighten"),),
    )  # fmt: skip


@judges(SINKS)
def sinks(moment: Moment) -> Way:
    """Pressure under a washer, from what preload is left and what gas adds."""
    head = moment.parts.head
    fasteners, joint = head.fasteners, head_joint(moment)
    load = bolt.bolt_load(joint.left, joint.gas_force / joint.number, joint.share)
    lines, told = (*joint.working, *_LOADED), joint.inputs
    if moment.event == "overtighten":
        load, lines, told = (
            joint.tightened, (OVERTIGHTENED, *_AS_TIGHTENED), preload_inputs(moment)
        )  # fmt: skip
    washer, hole = (
        fasteners.washer_diameter,
        min(joint.thread.clearance_hole, 0.9 * fasteners.washer_diameter),
    )
    face = math.pi / 4 * (washer**2 - hole**2)
    warm_at = warmth.outer_face(moment, "head")
    material = moment.engine.materials[head.material]
    bears = strength.of(
        moment, head, pull=PRESSED, warm=strength_left(material, warm_at), load="lasting",
        section=under_washer_share(head, hole, washer),
    )  # fmt: skip
    wider = mm(1.4 * washer)
    gentler = newton_metre(0.7 * fasteners.torque)
    return SINKS.way(
        moment,
        demand=load / face,
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        inputs={**told, "head.fasteners.count": joint.number, "load_each": load,
                "head.fasteners.washer_diameter": washer,
                "clearance_hole": joint.thread.clearance_hole, **bears.inputs},
        first=(*lines, *bears.line),
        working=_FACE,
        raise_by=(
            Raise(f"Put washers of {wider} under the heads",
                  {"head.fasteners.washer_diameter": wider}, "bigger_washers"),
            Raise(f"Tighten to {gentler}", {"head.fasteners.torque": gentler}, "retighten"),
        ),
    )  # fmt: skip


@judges(SLACKENS)
def slackens(moment: Moment) -> Way:
    """Preload left after rest against half of what it was."""
    joint, fasteners = head_joint(moment), moment.parts.head.fasteners
    wanted = assumed.LEAST_PRELOAD * joint.tightened
    raised: tuple[Raise, ...] = ()
    if not fasteners.through:
        raised = (Raise("Hold the head by long through-bolts to the crankcase",
                        {"head.fasteners.kind": "through_bolts"}, "through_bolts"),)  # fmt: skip
    material = moment.engine.materials[moment.parts.head.material]
    return SLACKENS.way(
        moment,
        demand=wanted,
        capacity=joint.left,
        governs="creep" if joint.settled - joint.left > joint.tightened - joint.settled
        else "settling",
        temperature=warmth.mean(moment, "head"),
        inputs={**joint.inputs, "preload": joint.tightened, "after_settling": joint.settled,
                "preload_left": joint.left, "resting_hours": moment.resting_hours,
                "least_preload": assumed.LEAST_PRELOAD},
        first=joint.working,
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
    each = joint.gas_force / joint.number
    swing = bolt.bolt_load(joint.left, each, joint.share) - joint.left
    stress = swing / 2 / joint.thread.stress_area
    bears = bolt_fatigue.thread_amplitude(joint.thread.diameter, max(moment.cycles, 1.0))
    return TIRES.way(
        moment,
        demand=stress,
        capacity=bears,
        governs="fatigue",
        inputs={**joint.inputs, "load_share": joint.share, "gas_force_each": each,
                "head.fasteners.count": joint.number, "preload_left": joint.left,
                "bolt_stiffness": joint.bolt_stiffness, "cycles": moment.cycles,
                "thread_fatigue": 0.85e6, "thread_fatigue_length": 0.15},
        first=joint.working,
        raise_by=(_more_fasteners(moment), *_thicker_screw(moment)),
    )  # fmt: skip


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
