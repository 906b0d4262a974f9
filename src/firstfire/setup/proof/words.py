"""Test pieces and proof in words."""

from __future__ import annotations

from firstfire.setup.fits.words import force
from firstfire.setup.proof.coupon import Coupon
from firstfire.setup.proof.proof import BAR, HOLD, OVER, CylinderProof, JointProof
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.words import mm
from firstfire.verdict.numbers import figures, shown

CAUTION = (
    "Test pieces leave as splinters when they break: eyes covered, feet and hands out of the way, "
    "nobody in line with a lever. Everything here is an estimate and no permission; local codes "
    "and licensed practice decide."
)
LIQUID = (
    "Liquid only, never air: trapped air bursts a part like a charge. Fill it without a bubble, "
    "plug hole up; oil or water by a hand pump with a gauge; behind a shield, nobody in line with "
    "head and plug. Fuel off and drained, plug lead off and earthed, starter unplugged, the crank "
    "held by a bar at firing top before pressure comes on and until it is let off."
)
PROVES = (
    "A pass proves this: cold, dry and slowly, these very parts stood it once. It does not prove "
    "what heat does (a warm print has half of its strength), what a thousand pulses do, what a "
    "night's creep takes later, nor a knock. It is no leave to stand beside it.",
    "After a pass look at every seat and thread again: what has moved or turned white has begun to "
    "break. Drain, dry and oil it: liquid left above the piston locks it on the first turn.",
)


def expected(coupon: Coupon) -> str:
    """What a piece is expected to read, also on the scale."""
    one = coupon.expected
    if coupon.kind == "force":
        said = f"{force(one.value)} ({force(one.low)} to {force(one.high)})"
    else:
        said = f"{shown(one.value, 'N*m', 2)} ({figures(one.low, 2)} to {figures(one.high, 2)})"
    kilograms = one.value / GRAVITY / coupon.lever
    return f"{said}, {figures(kilograms, 2)} kg on the scale"


def cylinder_words(one: CylinderProof, *, many: bool) -> str:
    """What to prove a cylinder with."""
    whose = f"Cylinder {one.number}: " if many else "Cylinder: "
    said = (
        f"{whose}pump to {shown(one.pressure, 'bar')} on the gauge, {OVER:g} × the "
        f"{shown(one.strong, 'bar')} of a strong first combustion, in five steps, and hold it "
        f"for {HOLD:.0f} s. The liquid pushes the piston with {force(one.push)}."
    )
    if one.opens_at is None:
        return f"{said} Whether it holds is not judged."
    at = shown(one.opens_at, "bar")
    if one.passes:
        return f"{said} By this file {one.what} at {at}."
    return f"{said} IT WILL NOT HOLD: by this file {one.what} at {at}. Change that first."


def joint_words(one: JointProof) -> str:
    """What to prove the crank's joint with."""
    said = (
        f"The {one.what}: {figures(one.torque, 2)} N·m, {OVER:g} × the {figures(one.twist, 2)} of "
        f"a strong first combustion: a bar of {mm(BAR)} and {figures(one.kilograms, 2)} kg on a "
        "luggage scale, square to it, ten seconds each way, flywheel's end held. Mark pin and "
        "cheek with one scratch: a mark that has moved has slipped."
    )
    if one.holds is None:
        return f"{said} What it holds is not judged."
    if one.passes:
        return f"{said} By this file it holds {figures(one.holds, 2)} N·m."
    return (
        f"{said} IT WILL NOT HOLD: by this file it gives at {figures(one.holds, 2)} N·m. Change "
        "that first."
    )
