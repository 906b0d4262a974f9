"""The joint of head and cylinder in numbers: screws, what they clamp, what preload is left."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.formulas import bolt, gasket, insert, preload, thread, tightening
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, rows, strength, warmth
from firstfire.parts.clamped import clamped, how_many
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
    """

    number: float
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


@once
def head_joint(moment: Moment) -> HeadJoint:
    """The joint as it is at this moment.

    Heat that tightens the joint is not counted, as the plastic gives way under it; heat that
    loosens it is.
    """
    size, stiff, tightened = sizes(moment), _fastener_stiffness(moment), tightened_preload(moment)
    soft, kept = clamped(moment, size)
    settled = preload.preload_after_settling(tightened, _settling(moment), stiff, soft)
    settled = found("after_settling", settled, "N", "pull left once the faces have settled")
    crept = preload.preload_after_creep(settled, kept, stiff, soft)
    crept = found("after_creep", crept, "N", "pull left by creep")
    return HeadJoint(
        number=how_many(moment),
        thread=size,
        bolt_stiffness=stiff,
        parts_stiffness=soft,
        share=found("load_share", bolt.load_share(stiff, soft), "",
                    "share of the gas load that a fastener feels"),
        tightened=tightened,
        settled=settled,
        left=_warmed(moment, crept, stiff, soft),
        stress_left=kept,
        seal_diameter=_seal_diameter(moment),
        gas_force=gas_force(moment),
    )  # fmt: skip


def sizes(moment: Moment) -> rows.Thread:
    """Sizes of the thread of the head's fasteners."""
    names = "thread_diameter", "thread_pitch", "thread_area", "clearance_hole"
    size = rows.thread(moment.parts.head.fasteners.thread)
    return rows.Thread(*(moment.given(*one) for one in zip(names, size, strict=True)))


def gas_over_air(moment: Moment) -> float:
    """Peak gas pressure over the air's, Pa; none below it."""
    over = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    return moment.given("gas_pressure", over)


def gas_force(moment: Moment) -> float:
    """Force of the gas on the head within the seal, over the air, N."""
    force = gasket.end_force(gas_over_air(moment), _seal_diameter(moment))
    return found("gas_force", force, "N", "gas force on the head")


def tightened_preload(moment: Moment) -> float:
    """Preload of one fastener as tightened, N; half as much again in the event ``overtighten``."""
    torque, how = moment.parts.head.fasteners.torque, "tightened"
    if moment.event == "overtighten":
        torque *= moment.given("overtightened", assumed.OVERTIGHTENED)
        how = "overtightened"
    rubs = moment.given("nut_factor", assumed.NUT_FACTOR * moment.engine.doubt.nut_factor)
    pull = tightening.preload_from_torque(torque, sizes(moment).diameter, rubs)
    return found("preload", pull, "N", f"pull as {how}, of one fastener")


class Grip(NamedTuple):
    """What pull one fastener stands, N: what it holds on to, the screw itself, what governs."""

    anchored: float
    screw: float
    governs: str
    temperature: float

    @property
    def holds(self) -> float:
        """The lesser of the two, N."""
        if self.anchored in (0.0, math.inf):
            return min(self.anchored, self.screw)
        least = math.least(self.anchored, self.screw)
        return found("each_holds", least, "N", "what one fastener holds")


@once
def grip(moment: Moment) -> Grip:
    """Pull at which a fastener leaves what holds it, or yields, as gas pulls it each cycle."""
    return _grip(moment, "pulse")


@once
def grip_once(moment: Moment) -> Grip:
    """Pull that a fastener stands once, as when it is tightened."""
    return _grip(moment, "once")


def _grip(moment: Moment, load: Load) -> Grip:
    """Pull at which a fastener leaves what holds it, or yields.

    Inserts, studs and screws end in the body under the head; the others have nuts below.

    Raises
    ------
    OutsideValidity
        Where its engagement is outside the range of the law.
    """
    fasteners = moment.parts.head.fasteners
    warm_at = warmth.mean(moment, "body")
    screw = thread.proof_load(sizes(moment).stress_area, fasteners.property_class)
    screw = found("screw_proof_load", screw, "N", "proof load of the screw itself")
    if fasteners.through:
        return Grip(math.inf, screw, "screw", warm_at)
    body = moment.parts.body
    material = moment.engine.materials[body.material]
    bears = strength.of(
        moment, body, pull=ALONG_BORE, warm=strength_left(material, warm_at), load=load,
        section=gripped_share(body, *hole_in_body(moment)),
    )  # fmt: skip
    anchored = _anchored(moment, strength.shear(material, bears))
    if anchored <= 0:
        return Grip(0.0, screw, "temperature", warm_at)
    return Grip(anchored, screw, bears.governs if anchored < screw else "screw", warm_at)


def _anchored(moment: Moment, sheared: float) -> float:
    """Pull at which an insert or a thread comes out of the body, N."""
    if sheared <= 0:
        return 0.0
    fasteners, size = moment.parts.head.fasteners, sizes(moment)
    if fasteners.kind == "inserts":
        pull = insert.pull_out_load(*hole_in_body(moment), sheared)
        return found("anchored", pull, "N", "pull at which the insert comes out")
    area = thread.shear_area_on_pitch_cylinder(size.diameter, size.pitch, fasteners.engaged_length)
    area = found("sheared_area", area, "m^2", "cylinder in which the thread is sheared")
    pull = thread.pull_out_load(area, sheared)
    return found("anchored", pull, "N", "pull at which the thread is sheared out")


def hole_in_body(moment: Moment) -> tuple[float, float]:
    """Diameter and length of what a screw ends in, m: the insert's, or the thread's."""
    fasteners = moment.parts.head.fasteners
    if fasteners.kind != "inserts":
        return sizes(moment).diameter, fasteners.engaged_length
    outside = 1.5 * rows.thread(fasteners.thread).diameter
    size = rows.Insert(outside, fasteners.engaged_length)
    if fasteners.insert is not None:
        size = rows.insert(fasteners.insert)
    return moment.given("insert_outside", size.outside), moment.given("insert_length", size.length)


def _seal_diameter(moment: Moment) -> float:
    """Diameter at which it seals, m: the middle of the gasket's ring."""
    seal = moment.parts.gasket
    return found("seal_diameter", seal.inside_diameter + seal.width, "m",
                 "diameter at which the gasket seals")  # fmt: skip


def _fastener_stiffness(moment: Moment) -> float:
    """Stiffness of one fastener, N/m, as if it were threaded all along."""
    area = sizes(moment).stress_area
    modulus = moment.given("steel_modulus", assumed.STEEL_MODULUS)
    length = moment.parts.head.fasteners.clamped_length
    stiff = bolt.fastener_stiffness(area, 0.0, area, length, modulus)
    return found("bolt_stiffness", stiff, "N/m", "stiffness of one fastener")


def _settling(moment: Moment) -> float:
    """Settling of the faces under one fastener, m: below the washer, and at the joint."""
    material = moment.engine.materials[moment.parts.head.material]
    each = assumed.ROUGHNESS_METAL if is_metal(material) else material["embedding"]
    settles = 2 * moment.given("face_settles", each)
    return found("settling", settles, "m", "settling below the washer and at the joint")


def _warmed(moment: Moment, pull: float, stiff: float, soft: float) -> float:
    """What heat leaves of a fastener's pull, N; what it would tighten is not counted."""
    head, rise = moment.parts.head, warmth.rise(moment, warmth.mean(moment, "head"))
    if rise <= _WARMED:
        return found("preload_left", pull, "N", "pull that is left")
    material = moment.engine.materials[head.material]
    upright = head.made == "printed" and head.layers_stacked == "along_bore"
    rise = moment.given("head_rise", rise)
    change = preload.preload_change_by_heat(
        head.thickness,
        parts_rise=rise,
        bolt_rise=moment.given("bolt_warmth", assumed.BOLT_WARMTH) * rise,
        parts_expansion=moment.given(
            "head_expansion", material.along_or_across("expansion", across=upright)
        ),
        bolt_expansion=moment.given("steel_expansion", assumed.STEEL_EXPANSION),
        bolt_stiffness=stiff,
        parts_stiffness=soft,
    )
    left = math.most(pull + math.least(change, 0.0), 0.0)
    words = "pull that is left; what heat would tighten is not counted"
    return found("preload_left", left, "N", words)
