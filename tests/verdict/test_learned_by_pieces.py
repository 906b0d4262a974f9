"""Readings of test pieces through the door: the layer they make moves the margins that hang on it.

A heron of a weaker spool is made, its pieces are read, and the heron of the file learns that.
"""

from __future__ import annotations

import pytest

import firstfire as ff
from firstfire.engine.read import with_layer_text
from firstfire.setup.proof.bench_tests import bench_tests
from firstfire.setup.proof.values import value_at, with_value

PLASTIC, GLUE = "materials.pla_tough.strength_across", "materials.pa12_cf.strength_across"


@pytest.fixture(scope="module")
def learned(twin) -> tuple[ff.Engine, dict[str, float]]:
    """The engine with what its pieces taught, and how many times each number is what it was."""
    heron = twin.engine
    weak = with_value(heron, PLASTIC, 0.6 * value_at(heron, PLASTIC))
    weak = with_value(weak, GLUE, 1.5 * value_at(heron, GLUE))
    read = {one.id: one.expected.value for one in bench_tests(weak).coupons}
    said = [f"bar pla_tough={read['bar pla_tough']:.5g} N", f"joint={read['joint']:.5g} N*m"]
    layer = bench_tests(heron, said).layer
    taught = with_layer_text(layer, "learned.toml", heron)
    times = {path: value_at(taught, path) / value_at(heron, path) for path in (PLASTIC, GLUE)}
    return taught, times


def test_pieces_tell_the_strength_that_made_them(learned) -> None:
    _, times = learned
    assert times == pytest.approx({PLASTIC: 0.6, GLUE: 1.5}, rel=1e-3)


def test_just_the_margins_that_hang_on_it_move(twin, learned) -> None:
    """What body's plastic holds falls by as much, the crank's joint gains, metal stays as it is."""
    taught, times = learned
    after = ff.check(taught, only=["first_fire"], changes=False, drawn=2)
    before = {m.way.id: m for m in twin.margins if m.event == "first_fire"}
    moved = {
        m.way.id: m.factor / before[m.way.id].factor for m in after.margins
        if m.factor and m.event == "first_fire" and before[m.way.id].factor
    }  # fmt: skip
    for way in ("head.lift", "head.fasteners.strip", "body.part"):
        assert moved[way] == pytest.approx(times[PLASTIC], rel=5e-3), way
    for way in ("crank.joint.slip", "crank.pin.split"):
        assert moved[way] == pytest.approx(times[GLUE], rel=5e-3), way
    told = [way for way, by in moved.items() if by != pytest.approx(1.0, abs=3e-3)]
    assert len(told) < len(moved) / 3
    for way in ("piston.land.break", "plug.blow"):  # of PETG, which was not read
        assert moved[way] == pytest.approx(1.0, abs=3e-3), way
