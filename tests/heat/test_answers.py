"""Answers a history gives: temperatures, walls, times and char, at any moment."""

import numpy as np
import pytest

from firstfire.engine.records import Temperatures, Walls
from firstfire.errors import OutsideValidity
from firstfire.heat.advance import advance
from firstfire.heat.answers import (
    char_depths,
    part_series,
    swelling_temperature,
    temperatures_at,
    time_to,
    walls,
)
from firstfire.heat.history import cold
from firstfire.heat.running import resting

START = 293.15


@pytest.fixture(scope="module")
def histories(demo):
    return {
        name: advance(cold(demo(name).network, START), demo(name).exposure, 60.0)
        for name in ("wren", "heron", "plover")
    }


def test_every_part_that_the_engine_has_is_there(histories):
    wren = temperatures_at(histories["wren"], 10.0)
    assert isinstance(wren, Temperatures)
    named = {"crown", "shield", "head", "chamber_plate", "liner", "body", "ring", "skirt", "boss"}
    named |= {"exhaust_port", "land", "valves", "seats", "case", "crankcase", "joint", "foot"}
    named |= {"groove", "shield_screws", "big_end", "small_end", "crankpin", "webs"}
    assert named == set(wren.parts)
    heron = temperatures_at(histories["heron"], 10.0).parts
    assert "shield" not in heron
    assert "chamber_plate" not in heron
    assert heron["liner"].surface > heron["liner_low"].surface


@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_profiles_hang_together(histories, demo, name):
    for seconds in (0.0, 0.013, 1.0, 30.0, 60.0):
        found = temperatures_at(histories[name], seconds)
        assert found.seconds == seconds
        for one in found.parts.values():
            assert one.depth[0] == 0.0
            assert (np.diff(one.depth) >= 0).all()
            assert one.surface == one.profile[0]
            assert one.peak >= one.surface
            assert one.profile.min() - 1e-9 <= one.mean <= one.profile.max() + 1e-9
    crown = temperatures_at(histories[name], 30.0).parts["crown"]
    assert crown.depth[-1] == pytest.approx(demo(name).parts.piston.crown_thickness)
    assert (np.diff(crown.profile) < 1e-6).all()


def test_contact_drops_what_flows_through_it(histories):
    found = temperatures_at(histories["wren"], 3.0).parts  # not charred yet
    shield, crown = found["shield"], found["crown"]
    flux = 0.3 * (crown.profile[0] - crown.profile[1]) / crown.depth[1]
    assert shield.profile[-1] - crown.profile[0] == pytest.approx(5e-4 * flux, rel=0.05)


def test_walls_are_the_surfaces_gas_sees(histories):
    history = histories["heron"]
    found, parts = walls(history, 5.0), temperatures_at(history, 5.0).parts
    assert isinstance(found, Walls)
    assert (found.crown, found.head) == (parts["crown"].surface, parts["head"].surface)
    assert parts["liner_low"].surface < found.liner < parts["liner"].surface
    shielded = walls(histories["wren"], 5.0)
    assert shielded.crown == temperatures_at(histories["wren"], 5.0).parts["shield"].surface


def test_moments_outside_the_history_are_refused(histories):
    for seconds in (-1.0, 61.0):
        with pytest.raises(OutsideValidity, match="seconds"):
            temperatures_at(histories["wren"], seconds)


@pytest.mark.parametrize("place", ["surface", "peak", "mean", "back", 1e-3])
def test_time_to_is_when_it_is_so_warm(histories, place):
    history = histories["plover"]
    reached = time_to(history, "crown", place, 360.0)
    assert reached is not None
    one = temperatures_at(history, reached).parts["crown"]
    by_name = {"surface": one.surface, "peak": one.peak, "mean": one.mean, "back": one.profile[-1]}
    assert by_name.get(place, one.at(1e-3)) == pytest.approx(360.0, abs=0.6)


def test_deeper_is_later_and_never_is_none(histories):
    history = histories["heron"]
    times = [time_to(history, "crown", depth, 400.0) for depth in (0.0, 0.2e-3, 0.5e-3, 1e-3)]
    assert times == sorted(times)
    assert time_to(history, "crown", "surface", 3000.0) is None
    assert time_to(history, "crown", "surface", 250.0) == 0.0


def test_a_part_that_is_not_there_is_named(histories):
    with pytest.raises(KeyError, match=r"sprocket.*crown"):
        time_to(histories["wren"], "sprocket", "surface", 400.0)


def test_series_go_on_over_a_stop(demo, histories):
    one = demo("plover")
    history = advance(histories["plover"], resting(one.engine, 0, one.network), 300.0)
    series = part_series(history, "crown", "surface")
    assert series.size == history.seconds.size
    fired = history.seconds <= 60.0
    # where char is eaten away its face cools a little now and then: it ends at its hottest or
    # within a hundredth of that
    assert series[fired][-1] - series[0] > 0.99 * (series[fired].max() - series[0])
    assert series[-1] < series[fired].max()
    peaks = part_series(history, "crown", "peak")
    assert (peaks[~fired] == series[~fired]).all()


def test_char_is_a_depth_of_the_part(histories, demo):
    deep = char_depths(histories["heron"], 60.0)
    assert 0 < char_depths(histories["heron"], 5.0)["crown"] < deep["crown"] < 6e-3
    assert "shield" not in char_depths(histories["wren"], 60.0)
    crown = temperatures_at(histories["heron"], 60.0).parts["crown"]
    # PETG decomposes at 653 K and stays there till it has: all char a cell behind the front (the
    # next one may only be on its way there), none a cell on
    cell = demo("heron").network.stack("crown").size.max()
    assert crown.at(deep["crown"] - cell) >= 653.0
    assert crown.at(deep["crown"] + cell) <= 656.0


def test_swelling_follows_crown_and_skirt(histories):
    cool, warm = (temperatures_at(histories["wren"], s) for s in (2.0, 40.0))
    assert START < swelling_temperature(cool) < swelling_temperature(warm)
    crown, skirt = warm.parts["crown"], warm.parts["skirt"]
    assert skirt.mean < swelling_temperature(warm) < crown.mean or (
        crown.mean < swelling_temperature(warm) < skirt.mean
    )
