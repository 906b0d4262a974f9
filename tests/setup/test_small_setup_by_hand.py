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
from firstfire.setup.cams import suction_inlet
from firstfire.setup.fuel.injector import pulse_at
from firstfire.setup.proof import bar
from firstfire.setup.spark.faults import _charging
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
