"""Small pieces of Setting up by hand: stand-ins take the place of gas that is run."""

from __future__ import annotations

import math
from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.happenings import happenings
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.setup.belt_teeth import belt_teeth
from firstfire.setup.cams import makeable, suction_inlet
from firstfire.setup.cams.events import Wanted
from firstfire.setup.fuel import mixer
from firstfire.setup.fuel.injector import pulse_at
from firstfire.setup.misset import misset
from firstfire.setup.misset.faults import Fault
from firstfire.setup.number import Number
from firstfire.setup.proof import bar
from firstfire.setup.spark import plug
from firstfire.setup.spark.circuit import circuit
from firstfire.setup.spark.faults import GIVES_LEAST, _charging, _shut_longer
from firstfire.setup.spark.triggers import points_set
from firstfire.setup.tables.grid import Grid, between
from firstfire.setup.timing.picture import picture


def test_bars_stand_eight_millimetres_apart():
    blocks = bar._piece("pla", "PLA").blocks
    edges = [(min(x for x, _ in one.outline), max(x for x, _ in one.outline)) for one in blocks]
    for (_, ends), (begins, _) in pairwise(edges):
        assert begins - ends == pytest.approx(8e-3)


def test_a_coil_that_is_let_in_half_a_current_has_a_quarter_of_its_energy():
    """Of 3 ms time constant, after 3 ln 2 = 2.08 ms; 80 % want √0.8 of the current, 6.75 ms."""
    feeds = SimpleNamespace(
        driving=lambda volts: volts, voltage=12.0, constant=3e-3, shut=0.0, drop=0.0,
        full_current=4.0, resistance=3.0, inductance=9e-3,
    )  # fmt: skip
    half = SimpleNamespace(supply=12.0, charging=3e-3 * math.log(2.0))
    (found,) = _charging(feeds, [half])
    assert "2.1\u202fms let in 25\u202f% of its energy" in found.says
    ((path, dwell),) = found.values
    wanted = -3.0 * math.log(1.0 - math.sqrt(0.8))
    assert path == "spark.coil.dwell"
    assert float(dwell.removesuffix(" ms")) == pytest.approx(wanted, abs=0.1)
    enough = SimpleNamespace(supply=12.0, charging=-3e-3 * math.log(1.0 - math.sqrt(0.81)))
    assert not list(_charging(feeds, [enough]))


def test_points_are_shut_as_long_as_the_slowest_to_charge_wants():
    """A coil that gives 40 kV a radian of shut points at 100 rad/s, 20 at 200: 20 kV want a quarter
    more than that by the weakest such coil, found to 0.1°."""
    feeds = SimpleNamespace(shut=0.0, gives=lambda seconds, _: 4e6 * seconds)
    jumps = [
        SimpleNamespace(why_not="", speed=speed, supply=12.0, wants_most=20e3)
        for speed in (100.0, 200.0)
    ]
    wanted = 20e3 / GIVES_LEAST / 4e6 * 200.0
    found = _shut_longer(feeds, jumps, SimpleNamespace(room=4.0 * math.pi))
    assert wanted <= found <= wanted + math.radians(0.1)
    assert _shut_longer(feeds, jumps, SimpleNamespace(room=wanted / 2)) is None


def test_of_two_cylinders_the_denser_gas_is_asked(monkeypatch):
    """8 bar at 400 K is denser than 10 bar at 700 K; and 10 bar at 480 K than 8 at 400."""
    monkeypatch.setattr(plug, "firing_angles", lambda _: (0.0, 2.0 * math.pi))
    angle = np.linspace(0.0, 4.0 * math.pi, 9)[:-1]

    def densest(*of):
        curves = SimpleNamespace(
            angle=angle,
            pressure=np.array([[one[0] for one in of]] * 8),
            unburned_temperature=np.array([[one[1] for one in of]] * 8),
        )
        fired = SimpleNamespace(cycle=SimpleNamespace(curves=curves))
        return plug.running_gas(None, SimpleNamespace(fired=fired), 0.3)

    assert densest((10e5, 700.0), (8e5, 400.0)).pressure == pytest.approx(8e5)
    assert densest((10e5, 480.0), (8e5, 400.0)).pressure == pytest.approx(10e5)


def test_a_belt_is_no_shorter_than_one_round_both_wheels_side_by_side():
    """20 and 40 teeth of 5 mm: wheels of 31.8 and 63.7 mm touch at axes 47.7 mm apart.

    There an open belt is 2 √(47.7² - 15.9²) + π (31.8 + 63.7)/2 + 31.8 asin 1/3 = 90.0 + 150.0 +
    10.8 = 250.8 mm long: 51 teeth, where 50 would be the nearest.
    """
    drive = SimpleNamespace(
        kind="belt", teeth_crank=20, teeth_cam=40, pitch=5e-3, centre_distance=48e-3
    )
    found = belt_teeth(SimpleNamespace(cam_drive=drive))
    assert found.teeth == 51
    assert found.centre_distance > 47.7e-3


@pytest.mark.parametrize(("kind", "share"), [("heron", 0.5), ("plover", 1.0)])
def test_a_lobe_is_as_wide_as_its_points_are_shut_on_what_it_turns_with(kind, share):
    """On a cam that is half of the crank's angle; of wasted sparks, on the crank, all of it."""
    put = {"spark.source": "points", "spark.points.shut_angle": "60 deg"}
    plain = resolve(with_values(ff.read(f"engines/{kind}.toml"), put))
    feeds = circuit(plain)
    made = points_set(plain, feeds)
    assert math.degrees(made.shut_angle) == pytest.approx(60.0)
    assert math.degrees(made.lobe_angle) == pytest.approx(60.0 * share)


@pytest.mark.parametrize(
    ("value", "limit", "unit", "said"),
    [
        (1.2e-3, 2.5e-3, "m", "Nose is 1.2 mm: at least 2.5 mm can be made."),
        (math.radians(31.0), math.radians(30.0), "rad", "Nose is 31°: at least 30° can be made."),
    ],
)
def test_what_cannot_be_made_is_said_in_mm_and_degrees(value, limit, unit, said):
    one = Number("nose", "nose", value, unit, limit, "at least", "", "")
    assert makeable._said(one) == said


def test_between_four_places_that_burn_lies_their_middle():
    lit, dark = SimpleNamespace(light=True), SimpleNamespace(light=False)
    found = Grid(
        np.array([100.0, 200.0, 400.0]), np.array([0.1, 0.3]), ((lit, lit, dark), (lit, lit, lit))
    )
    assert list(between(found)) == [(0, 0, 150.0, pytest.approx(0.2))]


def test_a_shared_injector_feels_the_mean_of_both_intakes():
    """3 bar over the air around, of 1.013 bar, with 0.8 and 0.9 bar in the intakes."""
    plain = resolve(with_values(ff.read("engines/heron.toml"), {
        "injector.pressure": "3 bar", "injector.regulator": "open_air",
        "injector.feeds": "all", "surroundings.air_pressure": "1.013 bar",
    }))  # fmt: skip
    at = SimpleNamespace(intake=(0.8e5, 0.9e5), fuel=(3e-6, 4e-6), seconds=0.04, speed=300.0)
    found = pulse_at(plain, SimpleNamespace(density=745.0), SimpleNamespace(kind="full", at=at))
    assert found.over == pytest.approx(3e5 + 1.013e5 - 0.85e5)
    assert found.duty == pytest.approx(math.fsum(found.times) / 0.04)
    gives = [(one - found.dead_time) * found.flow for one in found.times]
    assert gives == pytest.approx([3e-6, 4e-6])


@pytest.mark.parametrize(
    ("lift", "times"), [([0.0, 0.7, 0.0], 0), ([0.0, 0.9, 0.0], 1), ([0.0, 2.0, 0.2, 2.0, 0.0], 1)]
)
def test_a_valve_has_opened_at_a_fifth_of_its_lift_and_shuts_at_three_hundredths(lift, times):
    assert suction_inlet.openings(np.array(lift), 4.0) == times


def test_a_suction_inlets_score_is_how_far_up_it_is_well_less_its_dance(monkeypatch):
    """Two of four speeds; least filled 0.6; three openings too many over four are 0.75."""
    each = iter([
        SimpleNamespace(well=True, filling=0.8, openings=1),
        SimpleNamespace(well=True, filling=0.7, openings=2),
        SimpleNamespace(well=False, filling=0.6, openings=3),
        SimpleNamespace(well=True, filling=0.9, openings=1),
    ])  # fmt: skip
    asked = []

    def at_speed(_plain, speed, _stop):
        asked.append(speed)
        return next(each)

    monkeypatch.setattr(suction_inlet, "at_speed", at_speed)
    plain = SimpleNamespace(
        use=SimpleNamespace(cranking_speed=40.0, full_throttle_speeds=(200.0, 400.0))
    )
    score, well = suction_inlet._score(plain, None)
    assert asked == pytest.approx([40.0, 160.0, 280.0, 400.0])
    assert score == pytest.approx(2 + 0.6 - 0.05 * 0.75)
    assert not well


@pytest.mark.parametrize("file", ["engines/heron.toml", "tests/strangers/2_v_twin.toml"])
def test_bars_of_the_picture_begin_where_valves_open(file):
    """Of every cylinder, also of one that fires 270 or 450° after the first."""
    plain = resolve(ff.read(file))
    lines = {line[:10].strip(): line[10:] for line in picture(plain, 100)[1:]}
    opened = {
        f"{one.cylinder} {one.id.partition('-')[0]}": math.degrees(one.crank)
        for one in happenings(plain)
        if one.id in ("inlet-opens", "exhaust-opens")
    }
    assert len(opened) == 4
    for name, degrees in opened.items():
        at = int(degrees / 10.0) % 72
        shown = lines[name]
        assert {shown[(at + one) % 72] for one in (3, 4)} <= {"=", "#"}, name
        assert {shown[(at - one) % 72] for one in (4, 5)} == {"."}, name


def test_an_idle_jet_feels_what_the_middle_of_the_intakes_lacks(monkeypatch):
    """0.9 and 0.7 bar are 0.8: 0.2 bar under 1 bar, less what the carburettor's own bleed takes."""
    plain = SimpleNamespace(surroundings=SimpleNamespace(air_pressure=1e5))
    point = SimpleNamespace(at=SimpleNamespace(intake=(0.9e5, 0.7e5)))
    monkeypatch.setattr(mixer.law, "bled", lambda drawn, *_: drawn)
    assert mixer.behind_idle(plain, point) == pytest.approx(0.2e5)


@pytest.mark.parametrize(
    ("fault", "costs"),
    [(Fault(), 0.0), (Fault(teeth=1), 1.1), (Fault(teeth=-3), 1.3), (Fault(teeth=15), 2.2),
     (Fault(degrees_late=0.1), 2.5), (Fault(lash=-0.05), 3.0), (Fault(mirrored=True), 2.0),
     (Fault(swapped=True), 4.0), (Fault(teeth=2, mirrored=True, swapped=True), 7.2)],
)  # fmt: skip
def test_what_takes_more_to_have_gone_wrong_is_told_later(fault, costs):
    """Our own weights: a tooth is likelier than a slip between teeth, that than lash."""
    assert misset._cost(fault) == pytest.approx(costs)


def test_milder_cams_go_by_quarters_to_mild_events_and_onto_larger_circles():
    """From 30° and 60° with 4.0 mm towards 10°, 40° and a fifth of the throat of 14 mm, 2.8 mm."""
    plain = resolve(with_values(ff.read("engines/wren.toml"), {
        "valves.inlet.base_radius": "10 mm", "valves.inlet.throat_diameter": "14 mm",
    }))  # fmt: skip
    deg = math.pi / 180
    asked = Wanted("inlet", 30 * deg, 60 * deg, 0.0, 4e-3, "polynomial")
    tried = list(makeable._milder(plain, asked))
    events = [(mild.opens / deg, mild.closes / deg, 1e3 * mild.lift) for _, mild, _ in tried[::3]]
    assert np.allclose(events, [(25, 55, 3.7), (20, 50, 3.4), (15, 45, 3.1), (10, 40, 2.8)])
    sizes = [other.get("valves.inlet.base_radius") for _, _, other in tried]
    assert sizes == [None, "15 mm", "25 mm"] * 4
    assert tried[3][0] == "with opens 20°, closes 50° and 3.4 mm of lift"
