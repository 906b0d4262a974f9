"""Test pieces and proof of an engine, with what readings taught."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_layer_text
from firstfire.engine.resolve import resolve
from firstfire.errors import OutsideValidity
from firstfire.setup.proof.coupons import coupons
from firstfire.setup.proof.facts import BenchFacts
from firstfire.setup.proof.proof import proof
from firstfire.setup.proof.readings import layer_text, learned


@dataclass(frozen=True)
class BenchTests(BenchFacts):
    """What to break and what to prove before the first fire; prints well, and gives JSON."""

    def __str__(self) -> str:
        from firstfire.setup.proof.text import bench_text

        return bench_text(self)

    def to_json(self) -> str:
        """As ``firstfire.coupon/1``: SI, units in field names."""
        from firstfire.setup.proof.contract import bench_json

        return bench_json(self)


def bench_tests(engine: Engine, typed: Sequence[str] = ()) -> BenchTests:
    """Test pieces and proof of `engine`.

    Parameters
    ----------
    engine
        As written down.
    typed
        Readings: ``bar petg=3.4 kg``, ``joint=30 N*m``.

    Raises
    ------
    FirstfireError
        For readings that are none.
    """
    plain = resolve(engine)
    found, missing = coupons(engine, plain)
    told = learned(found, missing, typed)
    layer = layer_text(engine, told) if told else ""
    if layer:
        engine = with_layer_text(layer, "readings", engine)
        plain = resolve(engine)
        found, missing = coupons(engine, plain)
    try:
        proved, why = proof(plain), ""
    except OutsideValidity as not_run:
        proved, why = None, str(not_run)
    return BenchTests(engine, plain, found, missing, told, layer, proved, why)
