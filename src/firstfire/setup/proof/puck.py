"""A puck of the head's plastic under a bolt overnight: what creep leaves of a preload."""

from __future__ import annotations

import math

from firstfire.engine.engine import Engine
from firstfire.engine.pieces import Block, Hole, Piece, circle
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas.bolt import fastener_stiffness
from firstfire.formulas.creep import creep_factor_by_stress_left
from firstfire.formulas.preload import preload_after_creep, stress_left_by_preload
from firstfire.parts import assumed, strength
from firstfire.parts.head_joint import sizes
from firstfire.parts.softness import is_metal, stress_left
from firstfire.parts.strength import ALONG_BORE
from firstfire.setup.proof.coupon import Coupon, Expected, NoCoupon, named
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.proof.values import value_at
from firstfire.setup.standing import NIGHT, standing
from firstfire.setup.words import mm
from firstfire.verdict.numbers import figures

HIGH = 20e-3
"""Of the puck, m."""
_WASHERS = 4e-3
_SCATTER, _TOOLS = 0.06, 0.04
_LEVER = 0.2
_HOUR = 3600.0
_LOW, _HIGH = 0.7, 1.3


def stiff(plain: PlainEngine) -> tuple[float, float]:
    """Stiffness of the bolt and of the puck, N/m."""
    moment = standing(plain, hours=NIGHT)
    size, head = sizes(moment), plain.cylinders[0].head
    air = plain.surroundings.air_temperature
    bolt = fastener_stiffness(
        size.stress_area, 0.0, size.stress_area, HIGH + _WASHERS, assumed.STEEL_MODULUS
    )
    face = math.pi / 4 * (_across(plain) ** 2 - size.clearance_hole**2)
    modulus = strength.stiffness(head, plain.materials[head.material], air, ALONG_BORE)
    return bolt, modulus * face / HIGH


def _across(plain: PlainEngine) -> float:
    """As wide as the washer: all of it is pressed alike."""
    return max(
        plain.cylinders[0].head.fasteners.washer_diameter,
        1.5 * sizes(standing(plain)).clearance_hole,
    )


def torque_next_morning(plain: PlainEngine) -> float:
    """Torque at which the nut just moves on after a night, N·m, by the law that judges the head."""
    head = plain.cylinders[0].head
    material, air = plain.materials[head.material], plain.surroundings.air_temperature
    kept = stress_left(material, NIGHT, air)
    return preload_after_creep(head.fasteners.torque, kept, *stiff(plain))


def puck_coupon(engine: Engine, plain: PlainEngine) -> Coupon | NoCoupon:
    """The puck, or why there is none."""
    head = plain.cylinders[0].head
    if is_metal(plain.materials[head.material]):
        return NoCoupon("puck", "the head is of metal, which does not creep under its screws")
    if head.fasteners.torque <= 0:
        return NoCoupon("puck", "the file has no torque for the head's screws")
    try:
        after = torque_next_morning(plain)
    except OutsideValidity as why:
        return NoCoupon("puck", str(why))
    torque, name = head.fasteners.torque, named(engine, head.material)
    path = f"materials.{head.material}.creep_factor_1000h"
    said = figures(torque, 2)
    lost = torque - after
    return Coupon(
        id="puck",
        title=f"Puck of {name} under an {head.fasteners.thread} overnight",
        kind="torque",
        path=path,
        now=value_at(engine, path),
        expected=Expected(after, torque - _HIGH * lost, torque - _LOW * lost),
        piece=_piece(plain, name),
        steps=(
            f"Print one lying, solid. Bolt it between two flat steel washers with an "
            f"{head.fasteners.thread} {head.fasteners.property_class} and a nut, thread oiled, to "
            f"{said} N·m; after ten minutes to {said} N·m again: its faces have then settled.",
            f"Leave it for {NIGHT:.0f} hours at the room's temperature.",
            f"Pull the spanner on with a luggage scale, square, {mm(_LEVER)} from the bolt, in the "
            "way of tightening, and read where the nut just moves on.",
        ),
        reads=(
            f'Say what the scale read: --reading "puck={after / GRAVITY / _LEVER:.2g} kg" '
            f"({mm(_LEVER)} of spanner is reckoned in), or the torque: "
            f'--reading "puck={after:.2g} N*m". Only the ratio to the evening '
            "counts, so friction in the thread cancels; read both with the same scale."
        ),
        bears_on=("head.preload.fade", "gasket.open"),
        learned=lambda read: _creep_factor(plain, read),
        scatter=_SCATTER,
        tells=_TOOLS,
        lever=_LEVER,
    )


def _creep_factor(plain: PlainEngine, read: float) -> float:
    """What makes that reading."""
    torque = plain.cylinders[0].head.fasteners.torque
    if not 0.05 * torque < read < torque:
        raise OutsideValidity(
            f"A puck that moves on at {read:.2f} N·m after {torque:.2f} in the evening: creep "
            "leaves some and takes some. Read it again, and in the way of tightening."
        )
    kept = stress_left_by_preload(read / torque, *stiff(plain))
    return creep_factor_by_stress_left(kept, NIGHT * _HOUR)


def _piece(plain: PlainEngine, name: str) -> Piece:
    size = sizes(standing(plain))
    return Piece(
        "coupon-puck", f"Puck of {name}",
        (
            Block(
                circle((0.0, 0.0), _across(plain)), HIGH,
                (Hole((0.0, 0.0), size.clearance_hole + 0.2e-3),), name,
            ),
        ),
        (
            f"{mm(_across(plain))} across, as wide as the washer, {mm(HIGH)} high, solid, layers "
            "across the bolt as the head's are.",
        ),
    )  # fmt: skip
