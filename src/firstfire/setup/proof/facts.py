"""What is found of an engine's test pieces and proof, for whatever tells it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.proof.coupon import Coupon, NoCoupon
from firstfire.setup.proof.proof import Proof
from firstfire.setup.proof.readings import Learned


@dataclass(frozen=True)
class BenchFacts:
    """What to break and what to prove before the first fire.

    Attributes
    ----------
    engine, plain
        As written down, with what was learned on top.
    coupons, missing
        Test pieces, and those that this engine has no use for.
    learned
        What readings taught.
    layer
        Text of the learned layer; "" where nothing was read.
    proof, no_proof
        What to prove with, or why that can't be said.
    """

    engine: Engine
    plain: PlainEngine
    coupons: tuple[Coupon, ...]
    missing: tuple[NoCoupon, ...]
    learned: tuple[Learned, ...]
    layer: str
    proof: Proof | None
    no_proof: str
