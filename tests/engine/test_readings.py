"""How each uncertain input is measured: every one has its row, and what is read is heard."""

import math
from pathlib import Path
from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.bench.leak_test import GaugeTest, leak_test
from firstfire.engine.grammar import leaves, split
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.read import read_layer, with_values
from firstfire.engine.readings import ends_left, kind_of_material, reading_of, span_left
from firstfire.engine.readings_table import READINGS
from firstfire.engine.spans_said import takes_span
from firstfire.engine.unknowns import unknowns
from firstfire.errors import EngineFileError
from firstfire.formulas.normal import NINETY
from firstfire.runs.drawn import SCATTER, SPEED
from firstfire.runs.moved import Trials, one_up
from firstfire.runs.uneven import TURN
from firstfire.units import same_dimension, scale

ROOT = Path(__file__).resolve().parents[2]
NO_ENGINES = ("catalog", "6_refused")
FILES = sorted(
    file
    for folder in ("engines", "tests/strangers", "tests/field")
    for file in (ROOT / folder).glob("*.toml")
    if file.stem not in NO_ENGINES
)


@pytest.fixture(scope="module")
def wren():
    return ff.read(ROOT / "engines" / "wren.toml")


@pytest.fixture(scope="module")
def all_unknowns():
    engines = [ff.read(file) for file in FILES]
    wren, heron = (ff.read(ROOT / "engines" / f"{name}.toml") for name in ("wren", "heron"))
    glued = {"crank.joint.kind": "clamped", "flywheel.joint.kind": "bonded"}
    pressed = {f"{joint}.kind": "plain_press" for joint in ("crank.joint", "flywheel.joint")}
    mixed = {"gasket.material": "epoxy", "gasket.cure_time": "24 h"}
    let_off = {"starter.decompression": True}
    engines += [with_values(wren, glued), with_values(wren, pressed), with_values(heron, mixed)]
    engines.append(with_values(wren, let_off))
    return [(engine, unknown) for engine in engines for unknown in Trials(engine).unknowns]


def test_every_unknown_of_every_engine_is_measured_or_says_why_not(all_unknowns):
    assert len(all_unknowns) > 1000
    for engine, unknown in all_unknowns:
        reading = reading_of(engine, unknown.path)
        assert "{" not in reading.words
        assert 0 < span_left(reading, unknown, engine) <= 1
        if reading.why_not:
            assert span_left(reading, unknown, engine) == 1
        else:
            assert reading.minutes > 0, unknown.path
            assert reading.how.endswith("."), unknown.path
            engine.catalog.row("instrument", reading.instrument)


def test_names_drawn_without_a_place_in_the_file_say_why_not(wren):
    for name in (SPEED, TURN, SCATTER):
        assert reading_of(wren, name).why_not


def test_every_row_is_of_use(all_unknowns):
    """A row that no engine comes to has been hidden by one above it."""
    used = {reading_of(engine, unknown.path).pattern for engine, unknown in all_unknowns}
    assert {row.pattern for row in READINGS} == used | {SPEED, TURN}


def test_what_has_no_row_is_no_silent_favour(wren):
    with pytest.raises(KeyError, match="no row"):
        reading_of(wren, "cylinder.stroke")


def test_bars_can_be_printed_or_sawn_but_no_metal_broken_by_hand(wren):
    row = wren.catalog.row
    kinds = {key: kind_of_material(row("material", key)) for key in ("pa12_cf", "pmma", "fkm")}
    assert kinds == {"pa12_cf": "printed", "pmma": "sawn", "fkm": "rubber"}
    assert reading_of(wren, "materials.steel_mild.yield_strength").why_not
    assert not reading_of(wren, "materials.pa12_cf.strength_across").why_not
    assert reading_of(wren, "materials.fkm.strength_in_plane").why_not


def test_a_bolt_that_ends_in_plastic_cannot_be_measured_at_both_ends(wren):
    assert not reading_of(wren, "doubt.nut_factor").why_not
    blind = ff.read(ROOT / "engines" / "heron.toml")
    kind = blind.values(1)["head.fasteners.kind"]
    assert bool(reading_of(blind, "doubt.nut_factor").why_not) == (
        kind not in ("through_bolts", "studs")
    )


def _written(engine, unknown, reading):
    """The reading as a person writes it into the file: its instrument, or its own span."""
    plain = unknown.path
    if plain.startswith("materials."):
        _, key, prop = plain.split(".")
        unit = engine.catalog.row("material", key)[prop].unit
    else:
        unit = DIMENSIONS[leaves()[plain].dimension].si
    si, offset = scale(unit) if unit else (1.0, 0.0)

    def said(value):
        return f'"{(value - offset) / si!r} {unit}"' if unit else f"{value!r}"

    if reading.left_as == "error":
        return f'{{ value = {said(unknown.centre)}, with = "{reading.instrument}" }}'
    if reading.left_as == "half":
        return f'{{ value = {said(unknown.centre)}, kind = "measured" }}'
    low, high = map(said, ends_left(reading, unknown, engine))
    return f'{{ value = {said(unknown.centre)}, kind = "measured", low = {low}, high = {high} }}'


def test_what_is_read_and_written_down_narrows_as_promised(wren, tmp_path):
    """Every reading of wren, written as a person would: the span is what was said to be left.

    An instrument's error relative to its reading isn't asked of the file, so it may be less.
    """
    tried = 0
    for unknown in Trials(wren).unknowns:
        reading = reading_of(wren, unknown.path)
        left = span_left(reading, unknown, wren)
        if left == 1:
            continue
        layer = tmp_path / f"{tried}.toml"
        layer.write_text(
            'schema = "firstfire.layer/1"\nlayer = "learned"\norigin = "a reading"\n'
            f"[set]\n{unknown.path} = {_written(wren, unknown, reading)}\n"
        )
        measured = read_layer(layer, wren)
        after = next(u for u in unknowns(measured) if u.path == unknown.path)
        narrowed = _width(after) / _width(unknown)
        assert narrowed <= left * 1.01, unknown.path
        assert narrowed > 0.3 * left, unknown.path
        tried += 1
    assert tried > 20


def _width(unknown):
    """A standard deviation as a share of the value, as one in logarithms is to first order."""
    size = one_up(unknown)[1]
    if unknown.distribution in ("lognormal", "loguniform"):
        return size
    return size / abs(unknown.centre)


def test_a_span_may_stand_beside_all_that_is_uncertain(all_unknowns):
    for _, unknown in all_unknowns:
        plain = split(unknown.path)[1]
        assert plain.startswith("materials.") or takes_span(plain), plain


def test_a_span_is_heard_of_a_doubt_and_of_an_angle(say):
    engine = say(
        "[doubt]\n"
        "wall_heat = { value = 1.2, low = 1.0, high = 1.44 }\n"
        "burn_phase = { value = '1 deg', low = '-1 deg', high = '3 deg' }\n"
        "burn_duration = { value = 1.1, low = 1.0, high = 1.21 }\n"
    )
    found = {u.path: u for u in unknowns(engine)}
    heat, phase = found["doubt.wall_heat"], found["doubt.burn_phase"]
    assert (heat.low, heat.high) == (1.0, 1.44)
    assert not heat.extrapolated
    degree = scale("deg")[0]
    assert phase.low == pytest.approx(-degree)
    assert one_up(phase)[1] == pytest.approx(2 * degree / NINETY)


def test_a_burn_that_was_measured_stays_as_narrow_at_speed(say):
    """At a bout the law of the burn is as sure as it was fitted, but a test is surer."""
    bout = SimpleNamespace(point=SimpleNamespace(speed=300.0, event="full_throttle"))
    engine = say("[doubt]\nburn_duration = { value = 1.1, low = 1.0, high = 1.21 }\n")
    found = next(u for u in Trials(engine).for_bout(bout) if u.path == "doubt.burn_duration")
    assert (found.low, found.high) == (1.0, 1.21)


def test_a_material_may_say_its_own_span(say):
    engine = say(
        "[materials.petg]\n"
        "strength_across = { value = '21 MPa', low = '19 MPa', high = '23 MPa' }\n"
    )
    found = next(u for u in unknowns(engine) if u.path == "materials.petg.strength_across")
    assert (found.low, found.high) == (pytest.approx(19e6), pytest.approx(23e6))


def test_no_span_beside_what_is_sure(say):
    with pytest.raises(EngineFileError, match="what is uncertain alone"):
        say("[rod]\nlength = { value = '70 mm', low = '69 mm', high = '71 mm' }\n")


def test_an_instrument_of_another_kind_is_no_false_sureness(say):
    """A scale's newtons were taken for newtons over a metre: a rate known to a ten-thousandth."""
    plain = say()
    weighed = say(
        "[valves.inlet]\nspring_rate = { value = '2 N/mm', with = 'luggage scale' }\n"
        "spring_preload = { value = '40 N', with = 'luggage scale' }\n"
    )

    def share(engine, path):
        found = next(u for u in unknowns(engine) if u.path == path)
        return (found.high - found.low) / found.centre

    assert share(weighed, "valves.inlet.spring_rate") == pytest.approx(
        share(plain, "valves.inlet.spring_rate")
    )
    assert share(weighed, "valves.inlet.spring_preload") == pytest.approx(2 * 0.5 / 40)


def test_instruments_that_are_written_down_fit_what_they_measure(all_unknowns):
    for engine, unknown in all_unknowns:
        reading, plain = reading_of(engine, unknown.path), split(unknown.path)[1]
        if reading.why_not or reading.left_as != "error":
            continue
        unit = engine.catalog.row("instrument", reading.instrument)["error"].unit
        assert same_dimension(unit, DIMENSIONS[leaves()[plain].dimension].si or "dimensionless")


@pytest.mark.parametrize(
    ("file", "dry", "oiled"),
    [
        ("engines/wren.toml", 9.0e5, 9.8e5),
        ("engines/heron.toml", 10.0e5, 11.0e5),
        ("tests/field/overhead_valve_163.toml", 6.0e5, 7.0e5),
        ("tests/field/nylon_pistons.toml", 7.0e5, 7.5e5),
    ],
)
def test_a_gauge_leaves_of_the_ring_leak_about_what_the_leak_test_says(file, dry, oiled):
    """Within half to twice, which is what the table's one number for all engines is good for."""
    engine = ff.read(ROOT / file)
    found = leak_test(engine, GaugeTest(shows=dry, speed=37.7, oiled=oiled, hose=0.5e-6))
    ring = found.areas["ring"]
    values = engine.values(1)
    swept = math.pi / 4 * values.number("cylinder.bore") ** 2 * values.number("cylinder.stroke")
    said = reading_of(engine, "leak.ring").left * swept
    assert 0.5 * said < (ring.high - ring.low) / 2 < 2.0 * said
