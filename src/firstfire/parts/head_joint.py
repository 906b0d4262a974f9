"""The joint of head and cylinder in numbers: screws, what they clamp, what preload is left."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line
from firstfire.formulas import bolt, gasket, insert, preload, thread, tightening
from firstfire.parts import assumed, rows, strength, warmth
from firstfire.parts.clamped import clamped
from firstfire.parts.once import once
from firstfire.parts.section import gripped_share
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import ALONG_BORE, Load

_WARMED = 1e-6  # K: what a cold network rounds to


class HeadJoint(NamedTuple):
    """What holds a head down, for one fastener where not said otherwise.

    Attributes
    ----------
    number
        Of fasteners.
    thread
        Its sizes.
    bolt_stiffness, parts_stiffness, share
        N/m of each, and the share of the gas load that the fastener feels.
    tightened, settled, left
        Preload as tightened, after faces have settled, and after creep and heat, N.
    stress_left
        Share of stress that creep leaves in what is clamped.
    seal_diameter, gas_force
        Diameter at which it seals, m, and force of the gas within it, over the air, N, for all
        fasteners together.
    inputs, working
        Numbers put in, and lines from them to ``preload_left``.
    """

    number: int
    thread: rows.Thread
    bolt_stiffness: float
    parts_stiffness: float
    share: float
    tightened: float
    settled: float
    left: float
    stress_left: float
    seal_diameter: float
    gas_force: float
    inputs: dict[str, float]
    working: tuple[Line, ...]


PRELOAD = Line("preload", "head.fasteners.torque / (nut_factor * thread_diameter)", "N",
               "pull as tightened, of one fastener")  # fmt: skip
OVERTIGHTENED = Line(
    "preload", "head.fasteners.torque * overtightened / (nut_factor * thread_diameter)", "N",
    "pull as overtightened, of one fastener",
)  # fmt: skip
GAS_FORCE = Line(
    "gas_force", "pi / 4 * (gasket.inside_diameter + gasket.width)**2 * gas_pressure", "N",
    "gas force on the head",
)  # fmt: skip
_SETTLED = (
    Line("bolt_stiffness", "steel_modulus * thread_area / head.fasteners.clamped_length", "N/m",
         "stiffness of one fastener"),
    Line("joint_stiffness", "1 / (1 / bolt_stiffness + 1 / parts_stiffness)", "N/m",
         "stiffness of fastener and parts in a row"),
    Line("after_settling", "max(preload - settling * joint_stiffness, 0)", "N",
         "pull left once the faces have settled"),
    Line("crept_stiffness", "1 / (1 / bolt_stiffness + 1 / (parts_stiffness * "
         "stress_left_by_creep))", "N/m", "that stiffness once the parts have crept"),
    Line("after_creep", "after_settling * crept_stiffness / joint_stiffness", "N",
         "pull left by creep"),
)  # fmt: skip
_COLD = (Line("preload_left", "max(after_creep, 0)", "N", "pull that is left"),)
_WARM = (
    Line("head_grows",
         "head.thickness * head_rise * (head_expansion - steel_expansion * bolt_warmth)", "m",
         "what warmth lengthens the head beyond its fasteners"),
    Line("preload_left", "max(after_creep + min(head_grows * joint_stiffness, 0), 0)", "N",
         "pull that is left; what heat would tighten is not counted"),
)  # fmt: skip
SHARE = Line("load_share", "bolt_stiffness / (bolt_stiffness + parts_stiffness)", "",
             "share of the gas load that a fastener feels")  # fmt: skip
_LINES = {
    (event, warm): ((OVERTIGHTENED if event else PRELOAD), *_SETTLED, *(_WARM if warm else _COLD))
    for event in (False, True)
    for warm in (False, True)
}


@once
def head_joint(moment: Moment) -> HeadJoint:
    """The joint as it is at this moment.

    Heat that tightens the joint is not counted, as the plastic gives way under it; heat that
    loosens it is.
    """
    fasteners = moment.parts.head.fasteners
    size = rows.thread(fasteners.thread)
    stiff = bolt.fastener_stiffness(
        size.stress_area, 0.0, size.stress_area, fasteners.clamped_length, assumed.STEEL_MODULUS
    )
    soft, kept = clamped(moment, size)
    tightened = tightened_preload(moment)
    settled = preload.preload_after_settling(tightened, _settling(moment), stiff, soft)
    warming = _Warming.of(moment)
    left = preload.preload_after_creep(settled, kept, stiff, soft) + min(
        warming.change(moment, stiff, soft), 0.0
    )
    seal = moment.parts.gasket.inside_diameter + moment.parts.gasket.width
    over_air = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    return HeadJoint(
        number=fasteners.count,
        thread=size,
        bolt_stiffness=stiff,
        parts_stiffness=soft,
        share=bolt.load_share(stiff, soft),
        tightened=tightened,
        settled=settled,
        left=max(left, 0.0),
        stress_left=kept,
        seal_diameter=seal,
        gas_force=gasket.end_force(over_air, seal),
        inputs={
            **preload_inputs(moment), **gas_inputs(moment), "steel_modulus": assumed.STEEL_MODULUS,
            "thread_area": size.stress_area,
            "head.fasteners.clamped_length": fasteners.clamped_length, "parts_stiffness": soft,
            "settling": _settling(moment), "stress_left_by_creep": kept, **warming.inputs(moment),
        },
        working=_LINES[moment.event == "overtighten", warming.rise > _WARMED],
    )  # fmt: skip


def preload_inputs(moment: Moment) -> dict[str, float]:
    """Numbers put in for the preload as tightened."""
    fasteners = moment.parts.head.fasteners
    told = {"head.fasteners.torque": fasteners.torque, "nut_factor": nut_factor(moment),
            "thread_diameter": rows.thread(fasteners.thread).diameter}  # fmt: skip
    if moment.event == "overtighten":
        told["overtightened"] = assumed.OVERTIGHTENED
    return told


def nut_factor(moment: Moment) -> float:
    """Torque over preload and diameter of the head's fasteners."""
    return assumed.NUT_FACTOR * moment.engine.doubt.nut_factor


def gas_inputs(moment: Moment) -> dict[str, float]:
    """Numbers put in for the gas force on the head."""
    seal, air = moment.parts.gasket, moment.engine.surroundings.air_pressure
    return {"gas_pressure": max(moment.peak_pressure - air, 0.0),
            "gasket.inside_diameter": seal.inside_diameter, "gasket.width": seal.width}  # fmt: skip


def tightened_preload(moment: Moment) -> float:
    """Preload of one fastener as tightened, N; half as much again in the event ``overtighten``."""
    fasteners = moment.parts.head.fasteners
    torque = fasteners.torque
    if moment.event == "overtighten":
        torque *= assumed.OVERTIGHTENED
    return tightening.preload_from_torque(
        torque,
        rows.thread(fasteners.thread).diameter,
        nut_factor(moment),
    )


class Grip(NamedTuple):
    """What pull one fastener stands, N: what it holds on to, the screw itself, what governs.

    Attributes
    ----------
    inputs, working
        Numbers put in, and lines from them to ``each_holds``.
    """

    anchored: float
    screw: float
    governs: str
    temperature: float
    inputs: dict[str, float]
    working: tuple[Line, ...]

    @property
    def holds(self) -> float:
        """The lesser of the two, N."""
        return min(self.anchored, self.screw)


@once
def grip(moment: Moment) -> Grip:
    """Pull at which a fastener leaves what holds it, or yields, as gas pulls it each cycle."""
    return _grip(moment, "pulse")


@once
def grip_once(moment: Moment) -> Grip:
    """Pull that a fastener stands once, as when it is tightened."""
    return _grip(moment, "once")


_SCREW = Line("screw_proof_load", "thread_area * screw_proof_strength", "N",
              "proof load of the screw itself")  # fmt: skip
_BOLTED = (_SCREW, Line("each_holds", "screw_proof_load", "N", "what one fastener holds"))
_EACH = Line("each_holds", "min(anchored, screw_proof_load)", "N", "what one fastener holds")
_INSERTED = (
    strength.SHEAR,
    Line("anchored", "0.4 * shear_strength * pi * insert_outside * insert_length", "N",
         "pull at which the insert comes out"),
    _SCREW,
    _EACH,
)  # fmt: skip
_THREADED = (
    strength.SHEAR,
    Line("anchored",
         "shear_strength * pi * (thread_diameter - 0.649519 * thread_pitch) * "
         "head.fasteners.engaged_length", "N", "pull at which the thread is sheared out"),
    _SCREW,
    _EACH,
)  # fmt: skip


_LOST = (Line("each_holds", "0 * screw_proof_strength * thread_area", "N",
              "what one fastener holds in a print that heat has left nothing of"),)  # fmt: skip


def _grip(moment: Moment, load: Load) -> Grip:
    """Pull at which a fastener leaves what holds it, or yields.

    Inserts, studs and screws end in the body under the head; the others have nuts below.

    Raises
    ------
    OutsideValidity
        Where its engagement is outside the range of the law.
    """
    fasteners = moment.parts.head.fasteners
    size = rows.thread(fasteners.thread)
    warm_at = warmth.mean(moment, "body")
    screw = thread.proof_load(size.stress_area, fasteners.property_class)
    told = {"thread_area": size.stress_area, "screw_proof_strength": screw / size.stress_area}
    if fasteners.through:
        return Grip(math.inf, screw, "screw", warm_at, told, _BOLTED)
    body = moment.parts.body
    material = moment.engine.materials[body.material]
    hole, length = hole_in_body(moment)
    bears = strength.of(
        moment, body, pull=ALONG_BORE, warm=strength_left(material, warm_at), load=load,
        section=gripped_share(body, hole, length),
    )  # fmt: skip
    sheared = strength.shear(material, bears)
    told |= bears.inputs
    told["shear_of_tensile"] = strength.shear_share(material)
    if sheared <= 0:
        return Grip(0.0, screw, "temperature", warm_at, told, _LOST)
    if fasteners.kind == "inserts":
        lines = bears.line + _INSERTED
        anchored = insert.pull_out_load(hole, length, sheared)
        told |= {"insert_outside": hole, "insert_length": length}
    else:
        lines = bears.line + _THREADED
        told |= {"thread_diameter": size.diameter, "thread_pitch": size.pitch,
                 "head.fasteners.engaged_length": fasteners.engaged_length}  # fmt: skip
        area = thread.shear_area_on_pitch_cylinder(
            size.diameter, size.pitch, fasteners.engaged_length
        )
        anchored = thread.pull_out_load(area, sheared)
    governs = bears.governs if anchored < screw else "screw"
    return Grip(anchored, screw, governs, warm_at, told, lines)


def hole_in_body(moment: Moment) -> tuple[float, float]:
    """Diameter and length of what a screw ends in, m: the insert's, or the thread's."""
    fasteners = moment.parts.head.fasteners
    if fasteners.kind != "inserts":
        return rows.thread(fasteners.thread).diameter, fasteners.engaged_length
    if fasteners.insert is not None:
        size = rows.insert(fasteners.insert)
        return size.outside, size.length
    return 1.5 * rows.thread(fasteners.thread).diameter, fasteners.engaged_length


def _settling(moment: Moment) -> float:
    """Settling of the faces under one fastener, m: below the washer, and at the joint."""
    material = moment.engine.materials[moment.parts.head.material]
    return 2 * (assumed.ROUGHNESS_METAL if is_metal(material) else material["embedding"])


class _Warming(NamedTuple):
    """Rise of the head over the air, K, and its expansion along the bore, 1/K."""

    rise: float
    along: float

    @classmethod
    def of(cls, moment: Moment) -> _Warming:
        """At a moment."""
        head = moment.parts.head
        material = moment.engine.materials[head.material]
        upright = head.made == "printed" and head.layers_stacked == "along_bore"
        along = material.along_or_across("expansion", across=upright)
        return cls(warmth.rise(moment, warmth.mean(moment, "head")), along)

    def change(self, moment: Moment, stiff: float, soft: float) -> float:
        """What it adds to a fastener's preload, N."""
        return preload.preload_change_by_heat(
            moment.parts.head.thickness,
            parts_rise=self.rise,
            bolt_rise=assumed.BOLT_WARMTH * self.rise,
            parts_expansion=self.along,
            bolt_expansion=assumed.STEEL_EXPANSION,
            bolt_stiffness=stiff,
            parts_stiffness=soft,
        )

    def inputs(self, moment: Moment) -> dict[str, float]:
        """Numbers put in; none of a cold head."""
        if self.rise <= _WARMED:
            return {}
        return {"head.thickness": moment.parts.head.thickness, "head_rise": self.rise,
                "head_expansion": self.along, "steel_expansion": assumed.STEEL_EXPANSION,
                "bolt_warmth": assumed.BOLT_WARMTH}  # fmt: skip
