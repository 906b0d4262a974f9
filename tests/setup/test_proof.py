"""Test pieces: readings invert to what made them; proof: what is asked of cylinders and crank."""

from __future__ import annotations

import json
import math

import pytest
from tests.drawing.conftest import FILES
from tests.drawing.test_solid import open_edges, volume

import firstfire as ff
from firstfire.engine.read import with_layer_text
from firstfire.errors import EngineFileError
from firstfire.formulas.insert import pull_out_load
from firstfire.parts import crank_joint
from firstfire.setup.proof.bar import bent_at
from firstfire.setup.proof.bench_tests import BenchTests, bench_tests
from firstfire.setup.proof.contract import BenchTold
from firstfire.setup.proof.coupon import Coupon
from firstfire.setup.proof.coupons import coupons
from firstfire.setup.proof.insert import pulled_at
from firstfire.setup.proof.joint import twisted_at
from firstfire.setup.proof.proof import proof
from firstfire.setup.proof.puck import torque_next_morning
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.proof.values import with_value

NAMES = sorted(FILES)
PRESSED = {
    "crank.joint.kind": "plain_press", "crank.joint.plate_thickness": "0 mm",
    "crank.joint.length": "14 mm", "crank.joint.interference": "0.1 mm",
}  # fmt: skip
BONDED = {**PRESSED, "crank.joint.kind": "bonded", "crank.joint.bond": "epoxy"}
CASES = [
    *((name, {}) for name in NAMES),
    ("wren", PRESSED),
    ("wren", BONDED),
    ("heron", {"head.fasteners.kind": "screws"}),
]


def engine(name: str, tried: dict[str, str] | None = None) -> ff.Engine:
    read = ff.read(FILES[name])
    return ff.with_values(read, tried) if tried else read


def pieces(made: ff.Engine) -> dict[str, Coupon]:
    return {one.id: one for one in coupons(made, ff.resolve(made))[0]}


@pytest.mark.parametrize("times", [0.8, 1.15])
@pytest.mark.parametrize(("name", "tried"), CASES)
def test_a_piece_of_another_strength_reads_so_that_it_is_found_again(
    name: str, tried: dict[str, str], times: float
) -> None:
    """Make the material another, see what its piece reads, and learn the material from that."""
    made = engine(name, tried)
    taken = pieces(made)
    for ident, coupon in taken.items():
        truth = times * coupon.now
        if coupon.path.endswith("creep_factor_1000h"):
            truth = min(truth, 0.95)
        other = pieces(with_value(made, coupon.path, truth))[ident]
        found = coupon.learned(other.expected.value)
        # a layer's five figures, and what else of a joint gives a little with it
        assert found == pytest.approx(truth, rel=1e-3), ident


def test_which_pieces_an_engine_has() -> None:
    made = engine("heron")
    found, missing = coupons(made, ff.resolve(made))
    assert [one.id for one in found] == [
        "bar petg", "bar pla_tough", "bar pa12_cf", "insert", "joint", "puck",
    ]  # fmt: skip
    assert not missing
    wren = engine("wren")
    found, missing = coupons(wren, ff.resolve(wren))
    assert {one.id for one in missing} == {"insert", "joint"}
    metal = engine("wren", {"head.material": "aluminium", "head.made": "bought"})
    assert "puck" in {one.id for one in coupons(metal, ff.resolve(metal))[1]}


def test_a_bar_by_hand() -> None:
    # PETG 28 MPa across, 0.97 wet and a third of that in the room: 0.991; 16 % scatter is a shape
    # of 7.37, bent over pulled (2 × 8.37²)^(1/7.37) = 1.955; F = σ b h²/(6 L), 10 × 6 at 60 mm.
    plain = ff.resolve(engine("heron"))
    strength = 28e6 * (1 - 0.3 * 0.03) * 1.955
    assert bent_at(plain, "petg") == pytest.approx(strength * 10e-3 * 36e-6 / 0.36, rel=2e-3)


def test_the_insert_is_the_law_of_inserts() -> None:
    made = engine("heron")
    plain = ff.resolve(made)
    material = plain.materials["pla_tough"]
    row = made.catalog.row("insert", plain.cylinders[0].head.fasteners.insert)
    shear = 0.5 * material["strength_across"]
    wet = 1 - 0.3 * (1 - material["wet_strength_factor"])
    law = pull_out_load(row.si("outside"), row.si("length"), shear * wet)
    assert pulled_at(plain) <= law * (1 + 1e-9)
    assert pulled_at(plain) == pytest.approx(law, rel=0.25)  # walls round it leave some out


def test_the_joint_teaches_what_its_torque_follows() -> None:
    assert pieces(engine("wren", PRESSED))["joint"].path == "doubt.press_friction"
    assert pieces(engine("wren", BONDED))["joint"].path.endswith("shear_strength_on_plastic")
    heron = engine("heron")
    path = pieces(heron)["joint"].path
    before = twisted_at(ff.resolve(heron))
    stronger = with_value(heron, path, 1.1 * pieces(heron)["joint"].now)
    assert twisted_at(ff.resolve(stronger)) == pytest.approx(1.1 * before, rel=1e-3)


def test_a_puck_loses_more_where_it_creeps_more() -> None:
    made = engine("wren")
    path = "materials.pa6_cf.creep_factor_1000h"
    torques = [
        torque_next_morning(ff.resolve(with_value(made, path, kept))) for kept in (0.4, 0.6, 0.8)
    ]
    assert torques == sorted(torques)
    assert torques[-1] < ff.resolve(made).cylinders[0].head.fasteners.torque


def test_readings_make_a_layer_that_the_engine_then_has() -> None:
    made = engine("heron")
    found = bench_tests(made, ["bar petg=4 kg", "bar petg=5 kg", "joint=3.2 N*m"])
    bar = next(one for one in found.learned if one.coupon.id == "bar petg")
    assert bar.readings == pytest.approx((4 * GRAVITY, 5 * GRAVITY))
    expected = pieces(made)["bar petg"].expected.value
    assert bar.value == pytest.approx(28e6 * 4.5 * GRAVITY / expected)
    assert bar.low < bar.value < bar.high
    # 16 % of scatter over two bars, and 15 % of the law with 5 % of the tools
    off = math.hypot(1.645 * 0.16 / math.sqrt(2), math.hypot(0.15, 0.05))
    assert bar.high / bar.value == pytest.approx(1 + off)
    again = with_layer_text(found.layer, "learned.toml", made)
    path = "materials.petg.strength_across"
    assert again.stack.top(path).layer == "learned"
    assert again.stack.top(path).value == pytest.approx(bar.value, rel=1e-4)
    unknown = next(one for one in ff.unknowns(again) if one.path == path)
    assert (unknown.low, unknown.high) == pytest.approx((bar.low, bar.high), rel=1e-3)
    # ... and what was twisted is now what the joint is reckoned to hold
    assert twisted_at(ff.resolve(again)) == pytest.approx(3.2, rel=1e-3)


def test_more_bars_are_surer_but_never_surer_than_the_method() -> None:
    made = engine("heron")

    def wide(count: int) -> float:
        (one,) = bench_tests(made, ["bar petg=4 kg"] * count).learned
        return one.high / one.low

    assert wide(1) > wide(5) > wide(50) > (1.15**2) ** 0.9


@pytest.mark.parametrize(
    ("name", "texts", "says"),
    [
        ("heron", ["bar=4 kg"], "names no test piece"),  # of which plastic?
        ("heron", ["zebra=4 kg"], "names no test piece"),
        ("heron", ["bar petg"], "is no reading"),
        ("heron", ["bar petg=400 kg"], "3920 N where 30 to 76 is expected"),
        ("heron", ["bar petg=4"], "bare number"),
        ("heron", ["joint=4 N"], "not a torque"),
        ("heron", ["puck=0.62 N*m"], "creep leaves some"),
        ("heron", ["insert=9 kg", "bar pla_tough=5 kg"], "teaches already"),
        ("wren", ["insert=9 kg"], "nuts below"),
        ("wren", ["joint=9 kg"], "certificate"),
    ],
)
def test_readings_that_are_none_are_refused(name: str, texts: list[str], says: str) -> None:
    with pytest.raises(EngineFileError) as refused:
        bench_tests(engine(name), texts)
    assert says in str(refused.value)


def test_all_that_is_wrong_with_readings_is_told_at_once() -> None:
    with pytest.raises(EngineFileError) as refused:
        bench_tests(engine("heron"), ["zebra=1 kg", "bar petg=4", "joint=0.7 kg"])
    assert len(refused.value.problems) == 2


@pytest.fixture(scope="module")
def wren() -> BenchTests:
    return bench_tests(engine("wren"))


def test_proof_is_over_the_strong_peak(wren: BenchTests) -> None:
    one, joint = wren.proof.cylinders[0], wren.proof.joint
    assert one.pressure == pytest.approx(1.3 * one.strong)
    assert 20e5 < one.strong < 60e5
    # 40 mm bore
    assert one.push == pytest.approx(one.pressure * math.pi / 4 * 0.040**2)
    assert joint.torque == pytest.approx(1.3 * joint.twist)
    # half a metre of bar: 8 kg would be 39 N·m
    assert joint.kilograms == pytest.approx(joint.torque / (0.5 * 9.80665))
    assert joint.kilograms * 39.23 / joint.torque == pytest.approx(8.0, rel=1e-3)
    assert one.passes
    assert joint.passes


def test_what_will_not_hold_is_told_before_it_is_pumped() -> None:
    found = bench_tests(engine("heron"))
    assert not found.proof.joint.passes
    assert not any(one.passes for one in found.proof.cylinders)
    assert str(found).count("IT WILL NOT HOLD") == 3


def test_the_proof_asks_what_the_crank_is_judged_by(wren: BenchTests) -> None:
    result = ff.run(wren.engine, "first_fire", drawn=1)
    ways = [m.way for m in ff.judge(result, 0.0) if m.way.id == "crank.joint.slip"]
    assert wren.proof.joint.twist == pytest.approx(ways[0].demand, rel=1e-3)
    assert wren.proof.joint.holds == pytest.approx(ways[0].capacity, rel=1e-3)
    assert crank_joint.SLIPS.id == ways[0].id


def test_a_one_piece_crank_is_proved_by_its_pin() -> None:
    found = proof(ff.resolve(engine("plover")))
    assert found.joint.what == "crankpin"
    assert found.joint.torque > 0


def test_cautions_stand_at_the_proof(wren: BenchTests) -> None:
    text = " ".join(str(wren).split())
    for words in ("Liquid only, never air", "trapped air bursts", "starter unplugged",
                  "does not prove what heat does", "local codes"):  # fmt: skip
        assert words in text


@pytest.mark.parametrize("name", NAMES)
def test_every_engine_by_its_contract_and_in_80_columns(name: str) -> None:
    found = bench_tests(engine(name))
    assert max(map(len, str(found).splitlines())) <= 80
    told = BenchTold.model_validate(json.loads(found.to_json()))
    assert told.schema_ == "firstfire.coupon/1"
    assert [one.id for one in told.coupons] == [one.id for one in found.coupons]


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_is_closed_and_to_size(name: str) -> None:
    for coupon in pieces(engine(name)).values():
        assert open_edges(coupon.piece) == 0
        assert volume(coupon.piece) > 0
    bar = next(one for ident, one in pieces(engine(name)).items() if ident.startswith("bar"))
    assert volume(bar.piece) == pytest.approx(5 * 10 * 6 * 90)
