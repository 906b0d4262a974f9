"""All test pieces of an engine."""

from __future__ import annotations

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.proof.bar import bars
from firstfire.setup.proof.coupon import Coupon, NoCoupon
from firstfire.setup.proof.insert import insert_coupon
from firstfire.setup.proof.joint import joint_coupon
from firstfire.setup.proof.puck import puck_coupon


def coupons(engine: Engine, plain: PlainEngine) -> tuple[tuple[Coupon, ...], tuple[NoCoupon, ...]]:
    """Those that teach something of this engine, and those that don't, with why."""
    found = [*bars(engine, plain), insert_coupon(engine, plain), joint_coupon(engine, plain),
             puck_coupon(engine, plain)]  # fmt: skip
    return (
        tuple(one for one in found if isinstance(one, Coupon)),
        tuple(one for one in found if isinstance(one, NoCoupon)),
    )
