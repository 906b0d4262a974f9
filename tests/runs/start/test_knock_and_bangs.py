"""Knock along a start by a quadrature of its own; after-fire and spit-back by books of pipes."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.integrate import cumulative_trapezoid
from tests.runs.start.books import DEG, RPM, engine, read

from firstfire.cycle import layout
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.bangs import bangs
from firstfire.runs.start.knocking import knocking
from firstfire.runs.start.life import Life
from firstfire.runs.start.seen import seen

HOT = {"cylinder__compression_ratio": "11", "surroundings__air_temperature": "40 °C"}
HEATING_VALUE = 43.0e6


@cache
def whole(advance=5.0, mixture=None, seconds=0.7, after=0.5, **changes):
    asked = Asked(seconds=seconds, after=after, seed=1, advance=advance * DEG, mixture=mixture)
    return seen(engine("wren", **changes), asked)


def column(one, volume, what):
    names = [c.name for c in one.life.spec.cylinders] + [v.name for v in one.life.spec.volumes]
    return one.rows[:, 1 + 3 + 6 * names.index(volume) + what]


def test_watching_a_start_changes_nothing_in_it():
    asked = Asked(seconds=0.5, after=0.2, seed=4)
    watched, alone = seen(engine("wren"), asked), Life(engine("wren"), asked).lived()
    assert np.array_equal(watched.lived.spun.speed, alone.spun.speed)
    assert len(watched.rows) == len(watched.events) == len(alone.spun.time) - 1
    assert np.array_equal(
        column(watched, "cylinder 1", layout.PRESSURE), alone.spun.pressure[1:, 0]
    )


def test_the_wait_of_each_burn_by_a_quadrature_of_its_own():
    """Douaud and Eyzat's law written anew, summed by SciPy from the shutting of the valves on."""
    one = whole(advance=25.0, **HOT)
    found = knocking(read("wren", **HOT), one)
    pressure = column(one, "cylinder 1", layout.PRESSURE) / 101_325.0
    kelvin = column(one, "cylinder 1", layout.TEMPERATURE)
    delay = 0.01768 * 0.95**3.402 * pressure**-1.7 * np.exp(3800.0 / kelvin)
    closed, burning = one.events["closed"][:, 0], one.events["burning"][:, 0]
    assert len(found.burns) > 10
    assert found.heard
    for burn in found.burns:
        ends = int(np.searchsorted(one.time, burn.seconds))
        begins = ends - int(np.argmin(closed[ends::-1])) + 1
        waited = cumulative_trapezoid(1.0 / delay[begins : ends + 1], one.time[begins : ends + 1])
        assert burn.waited == pytest.approx(waited[-1], rel=1e-9)
        assert burning[ends] == 1
        if burn.waited >= 1.0:
            assert waited[-2] < 1.0
        assert burn.speed == pytest.approx(one.rows[ends, 2])


def test_what_is_left_when_it_knocks_is_what_the_flame_has_not_reached():
    one = whole(advance=25.0, **HOT)
    first = knocking(read("wren", **HOT), one).heard[0]
    step = int(np.searchsorted(one.time, first.seconds))
    unburned = sum(column(one, "cylinder 1", what)[step] for what in (2, 3, 4))
    at = 1 + int(one.life.engines[0]["cylinders_at"])
    burned = one.rows[step, at + 1 : at + 4].sum()
    amount = one.events["amount"][step, 0]
    assert first.left == pytest.approx(1.0 - burned / (amount * (unburned + burned)))
    assert 0.05 < first.left < 0.6


def test_wren_does_not_knock_and_a_better_fuel_waits_longer():
    low = knocking(read("wren"), whole())
    assert not low.heard
    assert 0.05 < low.most < 0.6
    better = {"intake__fuel": "iso_octane"}
    assert knocking(read("wren", **better), whole(**better)).most < low.most


def test_fuels_beyond_the_law_are_bounded_or_not_judged():
    def of(octane, one):
        row = SimpleNamespace(get=lambda _: None if octane is None else SimpleNamespace(si=octane))
        return knocking(SimpleNamespace(catalog=SimpleNamespace(row=lambda *_: row)), one)

    mild, hot = whole(), whole(advance=25.0, **HOT)
    assert "no octane number" in of(None, mild).why_not
    assert "80 octane" in of(70.0, mild).why_not
    assert not of(70.0, mild).burns
    # At 100 it does not knock here, and at more it cannot either.
    bounded, hundred = of(110.0, mild), of(100.0, mild)
    assert not bounded.why_not
    assert bounded.burns == hundred.burns
    # There it does at 100; at more nobody knows.
    assert of(100.0, hot).heard
    assert "ends there" in of(110.0, hot).why_not
    assert not of(110.0, hot).burns


def test_a_limiter_that_cuts_sparks_fires_in_the_exhaust():
    """Let run to its limit: a charge that was not lit stands in the pipe as the next one opens."""
    one = whole(advance=20.0, seconds=0.7, after=1.6)
    found = [bang for bang in bangs(one) if bang.why == "hot_gas_meets_it"]
    assert found
    for bang in found:
        assert bang.kind == "after_fire"
        assert bang.speed > 0.9 * one.life.plain.spark.limit_speed
        step = int(np.searchsorted(one.time, bang.seconds))
        air, fuel, burned = (column(one, "stub 1", what)[step] for what in (2, 3, 4))
        gas = one.life.engines[0]["gas"]
        ratio, value = (
            float(gas["stoichiometric_air_fuel_ratio"]),
            float(gas["lower_heating_value"]),
        )
        assert value == pytest.approx(HEATING_VALUE, rel=0.03)
        assert 0.55 < fuel / air * ratio < 3.5
        assert burned < 0.42 * (air + fuel + burned)
        assert bang.heat == pytest.approx(min(fuel, air / ratio) * value)
        stub = one.life.spec.volumes[[v.name for v in one.life.spec.volumes].index("stub 1")]
        assert bang.rise == pytest.approx(0.3 * bang.heat / stub.volume)
        # What comes out to it is burned and hot.
        assert column(one, "cylinder 1", layout.TEMPERATURE)[step] >= 1100.0
        assert one.events["closed"][step, 0] == 1
        assert one.events["closed"][step + 1, 0] == 0
        missed = [s for s in one.lived.sparks if bang.seconds - 0.06 < s.seconds < bang.seconds]
        assert len(missed) < 3


def test_a_spark_half_a_cycle_off_fires_in_the_exhaust():
    wrong = Asked(seconds=1.0, after=0.0, seed=1)
    wrong = replace(wrong, wrong=replace(wrong.wrong, spark_shift=2 * math.pi))
    found = bangs(seen(engine("wren"), wrong))
    assert found
    assert {bang.why for bang in found} == {"sparked_open"}
    assert all(0.5e5 < bang.rise < 12e5 for bang in found)


def test_a_spark_while_it_draws_in_spits_back():
    asked = Asked(seconds=1.0, after=0.0, seed=1)
    asked = replace(asked, wrong=replace(asked.wrong, spark_shift=-1.5 * math.pi))
    found = [bang for bang in bangs(seen(engine("wren"), asked)) if bang.kind == "spit_back"]
    assert found
    assert all(bang.why == "sparked_open" for bang in found)


def test_a_late_flame_in_a_lean_charge_is_alive_as_exhaust_and_inlet_open():
    """By hand: what is left to burn over how fast it burned in the last step, and the time that the
    shaft takes from there to the inlet's opening."""
    one = whole(advance=-30.0, mixture=0.7)
    found = bangs(one)
    alive = [bang for bang in found if bang.why == "still_burning"]
    back = [bang for bang in alive if bang.kind == "spit_back"]
    assert back
    at = 1 + int(one.life.engines[0]["cylinders_at"])
    burned = one.rows[:, at + 1 : at + 4].sum(axis=1)
    early = one.life.plain.cylinders[0].valves.inlet.opens_before_top
    for bang in alive:
        step = int(np.searchsorted(one.time, bang.seconds))
        assert one.events["burning"][step, 0] == 1
        left = sum(column(one, "cylinder 1", what)[step] for what in (2, 3, 4))
        total = left + burned[step]
        to_burn = left - (1.0 - one.events["amount"][step, 0]) * total
        assert to_burn > 0.05 * total
        rate = (burned[step] - burned[step - 1]) / (one.time[step] - one.time[step - 1])
        angle = one.rows[step, 1] % (4 * math.pi)
        ahead = (2 * math.pi - early - angle) / one.rows[step, 2]
        spits = any(b.seconds == bang.seconds for b in back)
        if spits:
            assert to_burn / rate > ahead
    firsts = [bang for bang in alive if bang.kind == "after_fire"]
    assert len(firsts) > len(back)


def test_a_sound_start_below_its_limiter_is_quiet():
    quiet = whole(advance=20.0, seconds=0.45, after=0.0)
    assert quiet.lived.burns
    assert not [bang for bang in bangs(quiet) if bang.kind == "spit_back"]
    fast = max(quiet.lived.spun.speed)
    assert fast < 6000 * RPM
