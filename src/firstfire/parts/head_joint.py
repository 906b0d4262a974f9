"""The joint of head and cylinder in numbers: screws, what they clamp, what preload is left."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.formulas import bolt, gasket, insert, preload, thread, tightening
from firstfire.formulas.stiffness import in_series
from firstfire.parts import assumed, rows, strength, warmth
from firstfire.parts.once import once
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import is_metal, modulus_left, strength_left, stress_left
from firstfire.parts.strength import ALONG_BORE, Load

_SEALED_ON_METAL = ("cured_sealant", "o_ring", "none")

PATHS = (
    "head.fasteners.kind",
    "head.fasteners.count",
    "head.fasteners.thread",
    "head.fasteners.property_class",
)


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
        Share of stress that creep leaves in the head.
    seal_diameter, gas_force
        Diameter at which it seals, m, and force of the gas within it, over the air, N, for all
        fasteners together.
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
    soft = _parts_stiffness(moment, size)
    tightened = tightened_preload(moment)
    settled = preload.preload_after_settling(tightened, _settling(moment), stiff, soft)
    kept = _stress_left(moment)
    left = preload.preload_after_creep(settled, kept, stiff, soft) + min(
        _heat_change(moment, stiff, soft), 0.0
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
    )


def tightened_preload(moment: Moment) -> float:
    """Preload of one fastener as tightened, N; half as much again in the event ``overtighten``."""
    fasteners = moment.parts.head.fasteners
    torque = fasteners.torque
    if moment.event == "overtighten":
        torque *= assumed.OVERTIGHTENED
    return tightening.preload_from_torque(
        torque, rows.thread(fasteners.thread).diameter, assumed.NUT_FACTOR
    )


class Grip(NamedTuple):
    """What pull one fastener stands, N: what it holds on to, the screw itself, what governs."""

    anchored: float
    screw: float
    governs: str
    temperature: float

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


def _grip(moment: Moment, load: Load) -> Grip:
    """Pull at which a fastener leaves what holds it, or yields.

    Inserts, studs and screws end in the body under the head; through-bolts have nuts.

    Raises
    ------
    OutsideValidity
        Where its engagement is outside the range of the law.
    """
    fasteners = moment.parts.head.fasteners
    size = rows.thread(fasteners.thread)
    warm_at = warmth.mean(moment, "body")
    screw = thread.proof_load(size.stress_area, fasteners.property_class)
    if fasteners.kind == "through_bolts":
        return Grip(math.inf, screw, "screw", warm_at)
    body = moment.parts.body
    material = moment.engine.materials[body.material]
    bears = strength.of(
        moment, body, pull=ALONG_BORE, warm=strength_left(material, warm_at), load=load
    )
    sheared = strength.shear(material, bears)
    if sheared <= 0:
        return Grip(0.0, screw, "temperature", warm_at)
    if fasteners.kind == "inserts":
        if fasteners.insert is None:
            anchored = insert.pull_out_load(1.5 * size.diameter, fasteners.engaged_length, sheared)
        else:
            sizes = rows.insert(fasteners.insert)
            anchored = insert.pull_out_load(sizes.outside, sizes.length, sheared)
    else:
        area = thread.shear_area_on_pitch_cylinder(
            size.diameter, size.pitch, fasteners.engaged_length
        )
        anchored = thread.pull_out_load(area, sheared)
    return Grip(anchored, screw, bears.governs if anchored < screw else "screw", warm_at)


def _parts_stiffness(moment: Moment, size: rows.Thread) -> float:
    """Stiffness of what one fastener clamps, N/m: head, gasket, below a long one the cylinder."""
    parts, engine = moment.parts, moment.engine
    head, fasteners = parts.head, parts.head.fasteners
    material = engine.materials[head.material]
    modulus = strength.stiffness(head, material, warmth.mean(moment, "head"), ALONG_BORE)
    # Lines run round a hole, so that the print is as good as solid there.
    cone = bolt.cone_stiffness(
        modulus, min(size.clearance_hole, 0.9 * fasteners.washer_diameter),
        fasteners.washer_diameter, head.thickness / 2,
    )  # fmt: skip
    stack = [cone, cone]
    seal = parts.gasket
    if seal.kind not in _SEALED_ON_METAL and seal.thickness > 0:
        soft = engine.materials[seal.material]
        ring = math.pi * (seal.inside_diameter + seal.width) * seal.width / fasteners.count
        left = modulus_left(soft, warmth.joint_face(moment))
        stack.append(soft["modulus_in_plane"] * left * ring / seal.thickness)
    if fasteners.kind in ("through_bolts", "studs"):
        stack.append(_column_stiffness(moment) / fasteners.count)
    return in_series(*stack)


def _column_stiffness(moment: Moment) -> float:
    """Stiffness of liner and body side by side along the bore, N/m."""
    parts, engine = moment.parts, moment.engine
    liner, body = parts.liner, parts.body
    tube, shell = engine.materials[liner.material], engine.materials[body.material]
    inner = math.pi / 4 * (liner.outside_diameter**2 - parts.cylinder.bore**2)
    outer = math.pi / 4 * (body.outside_diameter**2 - liner.outside_diameter**2)
    outer *= pulled_share(body, (body.outside_diameter - liner.outside_diameter) / 2)
    pull = inner * strength.stiffness(liner, tube, warmth.mean(moment, "liner"), ALONG_BORE)
    pull += outer * strength.stiffness(body, shell, warmth.mean(moment, "body"), ALONG_BORE)
    return pull / liner.length


def _settling(moment: Moment) -> float:
    """Settling of the faces under one fastener, m: below the washer, and at the joint."""
    material = moment.engine.materials[moment.parts.head.material]
    printed = material.get("embedding")
    return 2 * (printed if printed is not None else assumed.ROUGHNESS_METAL)


def _stress_left(moment: Moment) -> float:
    """Share of stress that creep leaves in what is clamped: the head is its softest part."""
    material = moment.engine.materials[moment.parts.head.material]
    if is_metal(material):
        return 1.0
    return stress_left(material, moment.resting_hours, warmth.mean(moment, "head"))


def _heat_change(moment: Moment, stiff: float, soft: float) -> float:
    head = moment.parts.head
    material = moment.engine.materials[head.material]
    along = material["expansion"]
    if head.made == "printed" and head.layers_stacked == "along_bore":
        along = material.get("expansion_across") or along
    rise = warmth.rise(moment, warmth.mean(moment, "head"))
    return preload.preload_change_by_heat(
        head.thickness,
        parts_rise=rise,
        bolt_rise=assumed.BOLT_WARMTH * rise,
        parts_expansion=along,
        bolt_expansion=assumed.STEEL_EXPANSION,
        bolt_stiffness=stiff,
        parts_stiffness=soft,
    )
