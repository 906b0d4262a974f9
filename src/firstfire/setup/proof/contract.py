"""Test pieces and proof as JSON, ``firstfire.coupon/1``: SI, units in names.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.setup.proof.coupon import Coupon
from firstfire.setup.proof.facts import BenchFacts
from firstfire.setup.proof.proof import BAR, Proof
from firstfire.setup.proof.words import CAUTION, LIQUID, PROVES
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class CouponTold(Told):
    """One test piece."""

    id: str
    title: str
    kind: Literal["force", "torque"] = Field(description="readings in N, or N m")
    path: str = Field(description="what it teaches, as a layer says it")
    taken_as: float = Field(description="SI")
    expected: float
    expected_low: float = Field(description="5 %")
    expected_high: float = Field(description="95 %")
    lever: float = Field(description="from the scale's force to the reading: a ratio, or m")
    drawing: str = Field(description="slug of its files")
    steps: list[str]
    reads: str
    bears_on: list[str]


class NoCouponTold(Told):
    """A test piece that this engine has no use for."""

    id: str
    why: str


class LearnedTold(Told):
    """What readings taught."""

    id: str
    path: str
    readings: list[float]
    value: float = Field(description="SI, as low and high")
    low: float
    high: float


class CylinderProofTold(Told):
    """Of one cylinder, by liquid."""

    cylinder: int
    strong_peak_over_air_pa: float
    proof_pressure_pa: float = Field(description="on a gauge")
    opens_at_pa: float | None
    opens_how: str
    push_n: float


class JointProofTold(Told):
    """Of the crank, by a bar."""

    what: str
    twist_nm: float
    proof_torque_nm: float
    bar_m: float
    scale_kg: float
    holds_nm: float | None


class BenchTold(Told):
    """What to break and what to prove."""

    schema_: Literal["firstfire.coupon/1"] = Field(
        default="firstfire.coupon/1", alias="schema", serialization_alias="schema"
    )
    name: str
    coupons: list[CouponTold]
    no_use_for: list[NoCouponTold]
    learned: list[LearnedTold]
    proof_cylinders: list[CylinderProofTold]
    proof_joint: JointProofTold | None
    no_proof: str
    proves: list[str]
    cautions: list[str]
    provenance: ProvenanceTold


def bench_told(found: BenchFacts) -> BenchTold:
    """Test pieces and proof as the contract has them."""
    proved = found.proof
    return BenchTold(
        name=found.engine.name,
        coupons=[_coupon(one) for one in found.coupons],
        no_use_for=[NoCouponTold(id=one.id, why=one.why) for one in found.missing],
        learned=[
            LearnedTold(id=one.coupon.id, path=one.coupon.path, readings=list(one.readings),
                        value=one.value, low=one.low, high=one.high)
            for one in found.learned
        ],
        proof_cylinders=[] if proved is None else _cylinders(proved),
        proof_joint=None if proved is None else _joint(proved),
        no_proof=found.no_proof,
        proves=list(PROVES),
        cautions=[LIQUID, CAUTION],
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )  # fmt: skip


def bench_json(found: BenchFacts) -> str:
    """The same as JSON text."""
    data = bench_told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _coupon(one: Coupon) -> CouponTold:
    return CouponTold(
        id=one.id, title=one.title, kind=one.kind, path=one.path, taken_as=one.now,
        expected=one.expected.value, expected_low=one.expected.low,
        expected_high=one.expected.high, lever=one.lever, drawing=one.piece.slug,
        steps=list(one.steps), reads=one.reads, bears_on=list(one.bears_on),
    )  # fmt: skip


def _cylinders(proved: Proof) -> list[CylinderProofTold]:
    return [
        CylinderProofTold(
            cylinder=one.number, strong_peak_over_air_pa=one.strong,
            proof_pressure_pa=one.pressure, opens_at_pa=one.opens_at, opens_how=one.what,
            push_n=one.push,
        )
        for one in proved.cylinders
    ]  # fmt: skip


def _joint(proved: Proof) -> JointProofTold:
    one = proved.joint
    return JointProofTold(
        what=one.what, twist_nm=one.twist, proof_torque_nm=one.torque, bar_m=BAR,
        scale_kg=one.kilograms, holds_nm=one.holds,
    )  # fmt: skip
