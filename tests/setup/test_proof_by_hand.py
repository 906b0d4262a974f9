"""Test pieces, proof before the first fire and what a print takes, by hand with stand-ins."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import SimpleNamespace

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, OutsideValidity
from firstfire.setup import laid, standing
from firstfire.setup.proof import (
    bar,
    bench_tests,
    coupons,
    insert,
    joint,
    known,
    proof,
    puck,
    readings,
    text,
    values,
    which,
    words,
)
from firstfire.setup.proof.coupon import Coupon, Expected, NoCoupon, named, proportional
from firstfire.verdict.numbers import THIN

G = 9.80665


def coupon(ident="bar petg", kind="force", path="materials.petg.strength_across", **put):
    told = {
        "id": ident, "title": "Standing bar of PETG", "kind": kind, "path": path, "now": 28e6,
        "expected": Expected(40.0, 30.0, 60.0), "piece": None, "steps": ("one", "two"),
        "reads": "Say each.", "bears_on": ("body",), "learned": lambda read: 1e6 * read, **put,
    }  # fmt: skip
    return Coupon(**told)


# -- what a piece is expected to read, and teaches -------------------------------------------


def test_a_reading_teaches_in_proportion():
    """40 N where 50 are expected of 28 MPa: 22.4."""
    assert proportional(28e6, 50.0)(40.0) == pytest.approx(22.4e6)


def test_how_far_a_number_is_known_is_over_its_centre(monkeypatch):
    """20 to 35 about 28; where nobody lists it 0.7 to 1.4."""
    one = SimpleNamespace(path="a", centre=28.0, low=20.0, high=35.0)
    nil = SimpleNamespace(path="b", centre=0.0, low=-1.0, high=1.0)
    monkeypatch.setattr(known, "unknowns", lambda _: [one, nil])
    assert known.span_of(None, "a") == pytest.approx((20 / 28, 1.25))
    assert known.span_of(None, "b") == known.span_of(None, "c") == (0.7, 1.4)
    assert known.is_uncertain(None, "a")
    assert not known.is_uncertain(None, "c")


@pytest.mark.parametrize(("row", "scatter"), [({"scatter_across": 0.12}, 0.12), ({}, 0.16)])
def test_a_bar_breaks_at_its_bent_strength(monkeypatch, row, scatter):
    """10 by 6 mm at 60 mm: 6 · 0.06/(0.01 · 36e-6) is 1 MPa a newton; shape 10 bends 242^0.1."""
    asked = []

    def shape(variation):
        asked.append(variation)
        return 10.0

    monkeypatch.setattr(bar, "weibull_shape", shape)
    monkeypatch.setattr(
        bar.strength, "of_material",
        lambda _, material, **__: SimpleNamespace(value=28e6 if material is row else 0.0),
    )  # fmt: skip
    moment = SimpleNamespace(
        engine=SimpleNamespace(materials={"petg": row}), given=lambda _, value: value
    )
    assert bar.bent_when(moment, "petg") == pytest.approx(28.0 * 242.0**0.1)
    assert asked == [scatter]


def test_bars_of_a_plastic(monkeypatch):
    """30 N, 0.8 to 1.3 of it; 5 % and 95 % are 1.645 times what bars differ by; 15 and 5 %."""
    asked = []
    monkeypatch.setattr(bar, "bent_at", lambda *given: asked.append(given) or 30.0)
    monkeypatch.setattr(bar, "span_of", lambda *given: asked.append(given) or (0.8, 1.3))
    monkeypatch.setattr(bar, "named", lambda *given: asked.append(given) or "PETG")
    monkeypatch.setattr(bar, "value_at", lambda *given: asked.append(given) or 28e6)
    monkeypatch.setattr(bar, "printed_materials", lambda _: ("petg",))
    plain = SimpleNamespace(materials={"petg": {"scatter_across": 0.2}})
    (one,) = bar.bars("engine", plain)
    path = "materials.petg.strength_across"
    assert asked == [(plain, "petg"), ("engine", path), ("engine", "petg"), ("engine", path)]
    assert vars(one.expected) == pytest.approx({"value": 30.0, "low": 24.0, "high": 39.0})
    assert one.learned(15.0) == pytest.approx(14e6)
    assert one.scatter == pytest.approx(1.645 * 0.2)
    assert one.tells == pytest.approx(math.sqrt(0.0225 + 0.0025))
    assert (one.piece.slug, one.piece.title) == ("coupon-bar-petg", "Standing bars of PETG")
    corners = [sorted(block.outline) for block in one.piece.blocks]
    for n, four in enumerate(corners):
        left = 18e-3 * n
        wanted = [(left, 0.0), (left, 6e-3), (left + 10e-3, 0.0), (left + 10e-3, 6e-3)]
        assert np.allclose(four, wanted, rtol=0, atol=1e-12)
    assert len(corners) == 5
    assert {block.height for block in one.piece.blocks} == {90e-3}
    assert "Clamp 25 mm of each" in one.piece.notes[0]
    assert '"bar petg=3.1 kg"' in one.reads


def test_a_plastic_that_parts_are_printed_in_is_named_once(monkeypatch):
    """The body's, then the head's; not metal, what is bought, or what has no strength across."""

    def part(material, made="printed"):
        return SimpleNamespace(material=material, made=made)

    monkeypatch.setattr(bar, "is_metal", lambda row: "metal" in row)
    kept = {
        "petg": {"strength_across": 28e6}, "pla_tough": {"strength_across": 30e6},
        "aluminium": {"strength_across": 2e8, "metal": True}, "unknown": {},
    }  # fmt: skip
    made = SimpleNamespace(
        cylinders=(
            SimpleNamespace(
                body=part("petg"), head=part("pla_tough"), piston=part("aluminium"),
                rod=part("unknown"), liner=part("pla_tough", "bought"),
            ),
        ),
        crank=part("unheard of"), case=part("petg"), printing=part("petg"), materials=kept,
    )  # fmt: skip
    assert bar.printed_materials(made) == ("petg", "pla_tough")


@pytest.fixture
def printer(monkeypatch):
    """Holes are drawn 0.1 mm wide, shafts 0.2 mm narrow; nothing is run."""
    for place in (insert, joint, puck):
        monkeypatch.setattr(place, "standing", lambda plain, **_: plain)
        monkeypatch.setattr(
            place, "span_of", lambda engine, _: {"engine": (0.8, 1.3)}[engine], raising=False
        )
        monkeypatch.setattr(place, "value_at", lambda engine, _: {"engine": 20e6}[engine])
        monkeypatch.setattr(place, "is_metal", lambda material: material == "metal")
        monkeypatch.setattr(
            place, "named", lambda engine, key: f"{engine}'s {key}", raising=False
        )  # fmt: skip
        monkeypatch.setattr(
            place, "hole_for", lambda plain, wanted: plain and wanted + 0.1e-3, raising=False
        )  # fmt: skip
    monkeypatch.setattr(joint, "shaft_for", lambda plain, wanted: plain and wanted - 0.2e-3)


def bodied(kind="inserts", torque=4.6):
    held = SimpleNamespace(
        through=False, thread="M5", kind=kind, torque=torque, washer_diameter=10e-3,
        property_class="8.8",
    )  # fmt: skip
    body = SimpleNamespace(material="petg", made="printed", layers_stacked="along_bore")
    head = SimpleNamespace(fasteners=held, material="petg")
    return SimpleNamespace(
        cylinders=(SimpleNamespace(head=head, body=body),), materials={"petg": "plastic"},
        surroundings=SimpleNamespace(air_temperature=293.15),
    )  # fmt: skip


@pytest.mark.usefixtures("printer")
@pytest.mark.parametrize(("kind", "hole"), [("inserts", 5.4e-3), ("screws", 5.2e-3)])
def test_an_inserts_block(monkeypatch, kind, hole):
    """Of 6 mm a tenth is melted; a thread of 0.8 mm pitch is tapped into 5.2. 8 mm and 3 below.

    500 N are 5.1 kg by ten to one.
    """
    monkeypatch.setattr(insert, "pulled_at", lambda _: 500.0)
    monkeypatch.setattr(insert, "hole_in_body", lambda _: (6e-3, 8e-3))
    monkeypatch.setattr(insert, "sizes", lambda _: SimpleNamespace(pitch=0.8e-3))
    one = insert.insert_coupon("engine", bodied(kind))
    assert vars(one.expected) == pytest.approx({"value": 500.0, "low": 400.0, "high": 650.0})
    assert one.path == "materials.petg.strength_across"
    assert one.learned(250.0) == pytest.approx(10e6)
    assert one.title.endswith("in engine's petg")
    assert '"insert=5.1 kg"' in one.reads
    (block,) = one.piece.blocks
    assert sorted(block.outline) == [
        (-15e-3, -15e-3), (-15e-3, 15e-3), (15e-3, -15e-3), (15e-3, 15e-3)
    ]  # fmt: skip
    assert block.height == pytest.approx(11e-3)
    assert block.holes[0].diameter == pytest.approx(hole + 0.1e-3)
    assert block.holes[0].text == f"{1e3 * hole:.1f}"


def jointed(kind="plain_press"):
    of = SimpleNamespace(kind=kind, diameter=12e-3)
    hub = SimpleNamespace(outside=40e-3, length=14e-3, printed=True)
    return SimpleNamespace(joint=of, hub=hub, pin="plastic")


@pytest.mark.usefixtures("printer")
def test_a_scrap_joints_hub_and_pin(monkeypatch):
    """0.15 mm tight: a hole of 11.85 drawn 11.95; the pin lies 5 mm beside, 20 + 12 + 5 mm off."""
    place = SimpleNamespace(path="crank.joint")
    monkeypatch.setattr(joint, "joints", lambda _: [place])
    monkeypatch.setattr(joint, "tight_of", lambda at: 0.15e-3 if at is place else None)
    plain = SimpleNamespace(
        crank=SimpleNamespace(made="printed", joint=SimpleNamespace(kind="plain_press"))
    )
    monkeypatch.setattr(joint, "twisted_at", lambda _: 30.0)
    monkeypatch.setattr(joint.seats, "crankpin", lambda _: jointed())
    asked = []
    monkeypatch.setattr(
        joint, "_teaches", lambda *given: asked.append((given[0], *given[1:])) or "path"
    )
    one = joint.joint_coupon("engine", plain)
    assert asked == [("engine", plain, jointed(), 30.0)]
    assert vars(one.expected) == pytest.approx({"value": 30.0, "low": 24.0, "high": 39.0})
    assert one.learned(15.0) == pytest.approx(10e6)
    assert one.lever == 0.5
    assert '"joint=6.1 kg"' in one.reads
    hub, pin = one.piece.blocks
    assert sorted(hub.outline) == [
        (-20e-3, -20e-3), (-20e-3, 20e-3), (20e-3, -20e-3), (20e-3, 20e-3)
    ]  # fmt: skip
    assert hub.height == 14e-3
    assert hub.holes[0].diameter == pytest.approx(11.95e-3)
    assert hub.holes[0].text == "11.85"
    across = [x for x, _ in pin.outline]
    assert (min(across), max(across)) == pytest.approx((37e-3 - 5.9e-3, 37e-3 + 5.9e-3))
    assert pin.height == pytest.approx(54e-3)
    assert f"A square of 40{THIN}mm" in one.piece.notes[0]


@pytest.mark.parametrize(("follows", "path"), [(1.0121, "b"), (1.0119, None)])
def test_a_joint_teaches_the_first_number_that_its_torque_follows(monkeypatch, follows, path):
    """Raised by 2 %, the torque must rise by six tenths of that, 1.2 %."""
    asked = []

    def with_value(engine, at, value):
        asked.append((engine, at, value))
        return at

    monkeypatch.setattr(joint, "_candidates", lambda seat: ("a", "b", "c")[: 2 if seat else 3])
    monkeypatch.setattr(joint, "with_value", with_value)
    monkeypatch.setattr(joint, "value_at", lambda _, at: {"a": 10.0, "b": 20.0}[at])
    monkeypatch.setattr(joint, "resolve", lambda engine: engine)
    torques = {"a": 5.0 * 1.0119, "b": 5.0 * follows}
    monkeypatch.setattr(joint, "twisted_at", torques.__getitem__)
    assert joint._teaches("engine", None, "seat", 5.0) == path
    assert asked == [
        ("engine", "a", pytest.approx(10.2)), ("engine", "b", pytest.approx(20.4))
    ]  # fmt: skip


SIZES = SimpleNamespace(stress_area=14.4e-6, clearance_hole=5.5e-3)


@pytest.mark.usefixtures("printer")
def test_a_puck_and_its_bolt_are_springs(monkeypatch):
    """14.4 mm² over 20 mm of puck and 4 of washers; π/4 of 100 less 30.25 mm² over 20 mm."""
    asked = []
    monkeypatch.setattr(puck, "sizes", lambda _: SIZES)
    monkeypatch.setattr(
        puck.strength, "stiffness", lambda *given: asked.append(given) or 2e9
    )  # fmt: skip
    plain = bodied()
    bolt, plastic = puck.stiff(plain)
    assert bolt == pytest.approx(puck.assumed.STEEL_MODULUS * 14.4e-6 / 24e-3)
    assert plastic == pytest.approx(2e9 * math.pi / 4 * 69.75e-6 / 20e-3)
    assert asked == [(plain.cylinders[0].head, "plastic", 293.15, puck.ALONG_BORE)]
    plain.cylinders[0].head.fasteners.washer_diameter = 8e-3
    assert puck._across(plain) == pytest.approx(8.25e-3)  # 1.5 · 5.5 at least


@pytest.mark.usefixtures("printer")
def test_a_puck_overnight(monkeypatch):
    """Springs of 60 and 15 MN/m in a row are 12; at 0.6 of the second 540/69, 15/23 of that.

    So of 4.6 N·m 3.0 are left and 1.6 lost, 0.7 to 1.3 times of it; 1.53 kg at 0.2 m.
    """
    asked = []
    monkeypatch.setattr(puck, "sizes", lambda _: SIZES)
    monkeypatch.setattr(puck, "stiff", lambda _: (60e6, 15e6))
    monkeypatch.setattr(puck, "stress_left", lambda *given: asked.append(given) or 0.6)
    one = puck.puck_coupon("engine", bodied())
    assert asked == [("plastic", 12.0, 293.15)]
    assert vars(one.expected) == pytest.approx({"value": 3.0, "low": 2.52, "high": 3.48})
    assert '"puck=1.5 kg"' in one.reads
    assert one.title == "Puck of engine's petg under an M5 overnight"
    assert one.path == "materials.petg.creep_factor_1000h"
    # read so, 0.6 is kept after 12 h; 1000 h are log10 360000 decades of 10 s, 12 log10 4320
    wanted = 0.6 ** (math.log10(360000) / math.log10(4320))
    assert one.learned(3.0) == pytest.approx(wanted)
    (block,) = one.piece.blocks
    assert max(x for x, _ in block.outline) == pytest.approx(5e-3)
    assert block.height == 20e-3
    assert block.holes[0].diameter == pytest.approx(5.7e-3)
    for none in (4.6, 0.22):  # nothing lost, or no more than a twentieth left
        with pytest.raises(OutsideValidity):
            one.learned(none)
    assert one.learned(0.24) > 0.0
    assert isinstance(puck.puck_coupon("engine", bodied(torque=0.0)), NoCoupon)


# -- readings --------------------------------------------------------------------------------


def test_kilograms_are_the_scales_before_its_lever():
    assert readings._value(coupon(lever=10.0), "2 kg") == pytest.approx(20 * G)
    assert readings._value(coupon(kind="torque", lever=0.5), "500 g") == pytest.approx(0.25 * G)
    assert readings._value(coupon(lever=10.0), "40 N") == pytest.approx(40.0)


@pytest.mark.parametrize(("newtons", "taken"), [(7.6, 1), (7.4, 0), (239, 1), (241, 0)])
def test_a_reading_may_be_four_times_beyond_what_is_expected(newtons, taken):
    """30 to 60 N: from 7.5 to 240."""
    typed = [f"bar petg={newtons} N"]
    if taken:
        (one,) = readings.learned([coupon()], [], typed)
        assert one.readings == pytest.approx((newtons,))
    else:
        with pytest.raises(EngineFileError, match="30 to 60 is expected"):
            readings.learned([coupon()], [], typed)


def test_luck_thins_out_with_the_number_of_pieces_and_the_method_does_not():
    """Four of 0.6 are 0.3, and 0.4 of the method: 0.5. A mean of 40 N, 1/1.5 to 1.5 of it."""
    one = readings._taught(coupon(scatter=0.6, tells=0.4), [20.0, 40.0, 40.0, 60.0])
    assert (one.value, one.low, one.high) == pytest.approx((40e6, 40e6 / 1.5, 60e6))

    def less(read):
        if read > 45.0:
            raise OutsideValidity("too much")
        return -read

    one = readings._taught(coupon(scatter=0.6, tells=0.4, learned=less), [40.0] * 4)
    assert (one.value, one.low, one.high) == pytest.approx((-40.0, -40.0, -40.0 / 1.5))


@pytest.fixture(scope="module")
def engine():
    return ff.read("engines/heron.toml")


def test_a_layer_says_value_low_and_high(engine):
    told = readings.Learned(coupon(), (40.0, 41.0), 28.5e6, 24e6, 33e6)
    said = readings.layer_text(engine, [told]).split("\n")
    assert 'origin = "test pieces: bar petg × 2"' in said
    assert said[-2] == (
        'materials.petg.strength_across = { value = "28.5 MPa", low = "24.0 MPa", '
        'high = "33.0 MPa" }'
    )


def test_a_value_is_read_and_written_in_its_own_unit(engine):
    path = "materials.petg.strength_across"
    assert values.value_at(engine, path) == pytest.approx(28e6)
    assert values.written(engine, path, 28.123456e6) == '"28.123 MPa"'
    assert values.written(engine, path, 28.16e6, 3) == '"28.2 MPa"'
    assert values.written(engine, "doubt.press_friction", 1.2345678) == "1.2346"
    assert values.value_at(values.with_value(engine, path, 30e6), path) == pytest.approx(30e6)
    assert named(engine, "petg") == "PETG"


def test_what_readings_say_is_told_in_three_figures(engine):
    told = readings.Learned(coupon(), (40.0, 41.0), 28.56e6, 24e6, 33e6)
    said = text.learned_words(SimpleNamespace(engine=engine), told)
    assert said == (
        "bar petg, 2 read: materials.petg.strength_across = 28.6 MPa (24.0 MPa to 33.0 MPa, "
        "5-95 %); it was taken as 28.0 MPa."
    )


def test_a_piece_is_expected_in_newtons_and_on_the_scale():
    """98.0665 N are 10 kg, by ten to one 1; 9.80665 N·m at half a metre 2."""
    pulled = coupon(expected=Expected(10 * G, 5 * G, 20 * G), lever=10.0)
    assert words.expected(pulled).endswith(", 1 kg on the scale")
    twisted = coupon(kind="torque", expected=Expected(G, 5.0, 20.0), lever=0.5)
    assert words.expected(twisted) == f"9.8{THIN}N·m (5 to 20), 2 kg on the scale"


def test_pieces_stand_by_what_they_decide(monkeypatch):
    """The second of two readings that are worth it is a bar's; what is worth none stands last."""
    asked = []
    worth = [
        SimpleNamespace(spans=[SimpleNamespace(path=path)], told=path)
        for path in ("cylinder.bore", "materials.petg.strength_across")
    ]
    found = SimpleNamespace(worth_it=worth)
    monkeypatch.setattr(which, "doubts", lambda *given: asked.append(given) or found)
    monkeypatch.setattr(which, "decided", lambda told: f"decides by {told}")
    monkeypatch.setattr(which, "sentence", lambda of: "first" if of is found else "")
    none, some = coupon("puck", path="other.path"), coupon()
    first = coupon("joint", path="cylinder.bore")
    told = which.which_first("result", [none, some, first], "stop")
    assert asked == [("result", "stop")]
    assert told.first == "first"
    assert [(one.coupon, one.place) for one in told.pieces] == [(first, 1), (some, 2), (none, None)]
    assert told.pieces[1].words == "decides by materials.petg.strength_across"
    found.worth_it = [SimpleNamespace(spans=[SimpleNamespace(path="a.b")], told="")] * 3 + worth
    told = which.which_first("result", [none, some], None)
    assert [one.place for one in told.pieces] == [5, None]


def test_all_pieces_are_asked_with_engine_and_plain(monkeypatch):
    made, none = coupon(), NoCoupon("insert", "why")
    both = lambda gives: lambda *given: gives if given == ("engine", "plain") else None  # noqa: E731
    monkeypatch.setattr(coupons, "bars", both((made,)))
    monkeypatch.setattr(coupons, "insert_coupon", both(none))
    monkeypatch.setattr(coupons, "joint_coupon", both(none))
    monkeypatch.setattr(coupons, "puck_coupon", both(made))
    assert coupons.coupons("engine", "plain") == ((made, made), (none, none))


def test_what_was_read_is_laid_on_the_engine_before_it_is_proved(monkeypatch):
    monkeypatch.setattr(bench_tests, "resolve", lambda engine: f"plain {engine}")
    monkeypatch.setattr(bench_tests, "coupons", lambda *given: (("found", *given), "missing"))
    monkeypatch.setattr(bench_tests, "learned", lambda *given: given)
    monkeypatch.setattr(bench_tests, "layer_text", lambda engine, told: f"{told[1]} of {engine}")
    monkeypatch.setattr(bench_tests, "with_layer_text", lambda *given: " on ".join(given))
    monkeypatch.setattr(bench_tests, "proof", lambda plain: f"proof of {plain}")
    found = bench_tests.bench_tests("engine", ("typed",))
    after = "missing of engine on readings on engine"
    assert found.learned == (("found", "engine", "plain engine"), "missing", ("typed",))
    assert found.coupons == ("found", after, f"plain {after}")
    assert (found.layer, found.proof) == ("missing of engine", f"proof of plain {after}")


# -- proof -----------------------------------------------------------------------------------


@dataclass(frozen=True)
class Stands:
    cylinder: int
    hours: float
    peak_pressure: float = 0.0


def test_a_cylinder_is_proved_at_three_tenths_over_its_strong_peak(monkeypatch):
    """41 bar less 1 of the air: 52 bar; on 40 mm, π/4 · 1600 mm², 6.53 kN."""
    plain = SimpleNamespace(
        surroundings=SimpleNamespace(air_pressure=1e5),
        cylinders=(None, SimpleNamespace(cylinder=SimpleNamespace(bore=40e-3))),
    )
    peaks = [SimpleNamespace(strong=30e5), SimpleNamespace(strong=41e5)]
    asked = []
    monkeypatch.setattr(proof, "_opens", lambda *given: asked.append(given) or (60e5, "it lifts"))
    bout = SimpleNamespace(point=SimpleNamespace(peaks=peaks))
    one = proof._cylinder(plain, bout, 1)
    assert (one.number, one.strong, one.pressure) == (2, pytest.approx(40e5), pytest.approx(52e5))
    assert asked == [(plain, 1, one.pressure)]
    assert one.push == pytest.approx(52e5 * math.pi / 4 * 1.6e-3)
    assert one.passes
    assert not one._replace(opens_at=51e5).passes


def test_head_or_gasket_gives_where_its_demand_would_be_its_capacity(monkeypatch):
    """Of 52 bar the head's share of 3000 over 2000 N is 78 bar, the gasket's 1.25 65."""
    met = []

    def way(capacity, demand, judged=True):
        def judge(there):
            met.append(there)
            return SimpleNamespace(judged=judged, capacity=capacity, demand=demand)

        return judge

    monkeypatch.setattr(
        proof, "standing", lambda plain, place, hours: Stands(place, hours) if plain else None
    )  # fmt: skip
    plain = SimpleNamespace(surroundings=SimpleNamespace(air_pressure=1e5))
    monkeypatch.setattr(proof, "lifts", way(3000.0, 2000.0))
    monkeypatch.setattr(proof, "opens", way(5.0, 4.0))
    assert proof._opens(plain, 1, 52e5) == (pytest.approx(65e5), "the gasket opens")
    assert met == [Stands(1, 12.0, pytest.approx(53e5))] * 2
    monkeypatch.setattr(proof, "opens", way(5.0, 4.0, judged=False))
    assert proof._opens(plain, 1, 52e5) == (pytest.approx(78e5), "the head lifts")
    monkeypatch.setattr(proof, "lifts", way(1.0, 0.0))
    assert proof._opens(plain, 1, 52e5) == (None, "")


@pytest.mark.parametrize(("kind", "what"), [("solid", "crankpin"), ("pinned", "crank joint")])
def test_a_joint_is_proved_by_a_bar_and_a_scale(monkeypatch, kind, what):
    """1.3 times 20 N·m; 26 by half a metre of 9.80665 N."""
    asked = []
    plain = SimpleNamespace(crank=SimpleNamespace(joint=SimpleNamespace(kind=kind)))
    peaks = [SimpleNamespace(strong=30e5), SimpleNamespace(strong=41e5)]
    bout = SimpleNamespace(point=SimpleNamespace(peaks=peaks))
    monkeypatch.setattr(proof, "loads_at", lambda *given: asked.append(given) or "felt")
    monkeypatch.setattr(proof, "moment", lambda *given: asked.append(given) or "there")
    way = SimpleNamespace(judged=True, capacity=33.0)
    other = SimpleNamespace(judged=False, capacity=1.0)
    solid = kind == "solid"
    monkeypatch.setattr(proof.crank_joint, "twists", lambda _: way if solid else other)
    monkeypatch.setattr(proof.crank_joint, "slips", lambda _: other if solid else way)
    monkeypatch.setattr(proof.crank_joint, "largest_twist", lambda _: 20.0)
    one = proof._joint(plain, bout)
    strong = [30e5, 41e5]
    assert asked == [(bout, plain, strong), (bout, plain, 0, 0.0, strong, "felt")]
    assert (one.what, one.twist, one.torque) == (what, 20.0, pytest.approx(26.0))
    assert one.kilograms == pytest.approx(26.0 / (0.5 * G))
    assert one.holds == 33.0
    assert one.passes
    assert not one._replace(holds=25.0).passes


def test_every_cylinder_is_proved_by_one_first_fire(monkeypatch):
    plain = SimpleNamespace(use=SimpleNamespace(cranking_speed=30.0), cylinders=(None, None))
    monkeypatch.setattr(proof, "bout_at", lambda *given: given)
    monkeypatch.setattr(proof, "_cylinder", lambda *given: given)
    monkeypatch.setattr(proof, "_joint", lambda *given: given)
    bout = (plain, "first_fire", 30.0)
    found = proof.proof(plain)
    assert found == (((plain, bout, 0), (plain, bout, 1)), (plain, bout))


# -- what a print takes, and an engine that stands -------------------------------------------


def test_a_nozzle_lays_down_five_cubic_millimetres_a_second():
    """18 cm³ take an hour, half of it or five thirds; 30 mm of resin at 20, 40 or 10 mm/h."""
    hour = 3600.0
    assert laid.seconds(18e-6, 1.0, resin=False) == pytest.approx((hour, hour / 2, hour * 5 / 3))
    assert laid.seconds(1.0, 30e-3, resin=True) == pytest.approx(
        (1.5 * hour, 0.75 * hour, 3.0 * hour)
    )


def test_filament_is_a_cylinder_of_a_millimetre_and_three_quarters():
    assert laid.filament_length(math.pi / 4 * 1.75e-3**2 * 12.0) == pytest.approx(12.0)


def test_plastic_in_a_part_is_its_share(monkeypatch):
    monkeypatch.setattr(laid, "pulled_share", lambda made, thick: 0.4 if thick == 5e-3 else made)
    assert laid.laid_volume(None, 10e-6, 5e-3) == pytest.approx(4e-6)
    assert laid.laid_volume(None, 10e-6, 5e-3, resin=True) == 10e-6


def test_what_stands_is_evenly_warm_and_a_minute_or_a_night_old():
    plain = resolve(ff.read("engines/wren.toml"))
    air = plain.surroundings.air_temperature
    found = standing.standing(plain, hours=standing.FRESH, rise=40.0)
    assert 60.0 * found.resting_hours == pytest.approx(1.0)
    assert found.peak_pressure == found.crankcase_pressure == plain.surroundings.air_pressure
    assert standing.standing(plain).resting_hours == 12.0
    even = found.temperatures.parts["crown"]
    assert (even.surface, even.peak, even.at(0.5e-3)) == pytest.approx((air + 40.0,) * 3)
