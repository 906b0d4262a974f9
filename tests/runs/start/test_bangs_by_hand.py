"""What burns in a pipe, what a start's rows hold, and how long an end gas waits, by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import layout
from firstfire.formulas import pipe_burn
from firstfire.runs.start import bangs, knocking
from firstfire.runs.start import seen as watched
from firstfire.runs.start.seen import Gas, Seen

ENGINE = {"gas": {"stoichiometric_air_fuel_ratio": 15.0, "lower_heating_value": 40e6}}


def gas(air=10e-6, fuel=1e-6, burned=5e-6, *, pressure=1e5, temperature=300.0, volume=1e-5):
    return Gas(pressure, temperature, air, fuel, burned, volume)


def test_a_charge_lets_itself_down_into_the_pipe_and_fills_it():
    """2^(13/3) times the pipe's pressure: half as warm after, as (1/2^(13/3))^(3/13) = ½, and
    2^(13/3)/2 times as large. A pipe of a quarter of that takes a quarter of it."""
    higher = 2.0 ** (13.0 / 3.0)
    charge = gas(8e-6, 4e-6, 2e-6, pressure=higher * 1e5, temperature=1000.0, volume=2e-5)
    pipe = gas(volume=2e-5 * higher / 8.0)
    found = bangs._filling(charge, pipe)
    assert (found.pressure, found.volume) == (1e5, pipe.volume)
    assert found.temperature == pytest.approx(500.0, rel=1e-12)
    assert (found.air, found.fuel, found.burned) == pytest.approx((2e-6, 1e-6, 0.5e-6), rel=1e-12)
    whole = bangs._filling(charge, gas(volume=2e-5 * higher))
    assert (whole.air, whole.fuel, whole.burned) == pytest.approx((8e-6, 4e-6, 2e-6), rel=1e-12)


def test_hot_is_what_is_warm_enough_and_more_than_half_burned():
    warm = pipe_burn.LIGHTS
    assert bangs._hot(gas(3e-6, 1e-6, 6e-6, temperature=warm))
    assert not bangs._hot(gas(5e-6, 1e-6, 4e-6, temperature=warm))
    assert not bangs._hot(gas(3e-6, 1e-6, 6e-6, temperature=0.99 * warm))


def test_whether_it_burns_is_asked_by_mixture_and_burned_share(monkeypatch):
    """1 to 12 where 1 to 15 is just enough: 1.25; 7 of 20 burned: 0.35."""
    seen = SimpleNamespace(life=SimpleNamespace(engines=[ENGINE]))
    monkeypatch.setattr(pipe_burn, "can_burn", lambda mixture, burned: (mixture, burned))
    found = bangs._burns(seen, gas(12e-6, 1e-6, 7e-6))
    assert found == pytest.approx((1.25, 0.35), rel=1e-12)


def test_heat_and_rise_are_asked_of_charge_and_pipe(monkeypatch):
    monkeypatch.setattr(pipe_burn, "heat_in", lambda *given: given)
    monkeypatch.setattr(pipe_burn, "shut_in_rise", lambda heat, volume: (heat, volume))
    seen = SimpleNamespace(
        life=SimpleNamespace(engines=[ENGINE]), time=[0.1, 0.2], speed=lambda step: 30.0 + step
    )
    found = bangs._bang(seen, "after_fire", "sparked_open", 3, 1, gas(), gas(volume=7e-5))
    assert found.heat == (10e-6, 1e-6, 15.0, 40e6)
    assert found.rise == (found.heat, 7e-5)
    assert (found.cylinder, found.seconds, found.speed) == (3, 0.2, 31.0)


@pytest.mark.parametrize(("worked", "seconds"), [("cam", 0.3783185307), ("suction", 0.4283185307)])
def test_until_the_inlet_opens(worked, seconds):
    """2π less the 2 rad that it stands at, less 0.5 that a cam is early: at 10 rad/s."""
    inlet = SimpleNamespace(worked=worked, opens_before_top=0.5)
    parts = SimpleNamespace(valves=SimpleNamespace(inlet=inlet))
    seen = SimpleNamespace(
        life=SimpleNamespace(plain=SimpleNamespace(cylinders=[parts])),
        place=lambda row, step: {(0, 7): 2.0}[row, step], speed=lambda step: {7: 10.0}[step],
    )  # fmt: skip
    assert bangs._until_inlet(seen, 0, 7) == pytest.approx(seconds, rel=1e-9)


def alive(monkeypatch, *, left, zones, until=1.0, fresh=True):
    """What is told of a flame that is alive at step 2: mass beside it, kg, and that in it."""
    monkeypatch.setattr(bangs, "_bang", lambda _seen, kind, _why, *rest: (kind, *rest))
    monkeypatch.setattr(bangs, "_filling", lambda charge, pipe: ("fills", charge, pipe))
    monkeypatch.setattr(bangs, "_until_inlet", lambda _seen, row, step: {(0, 2): until}[row, step])
    monkeypatch.setattr(bangs, "_burns", lambda _seen, one: fresh and one == "runner 1")
    own = SimpleNamespace(mass=left)
    seen = SimpleNamespace(
        gas=lambda name, step: {2: own if name == "cylinder 1" else name}[step],
        zone=lambda row, step: {0: zones}[row][step],
        events={"amount": np.full((3, 1), 0.9)}, time=[0.0, 0.010, 0.011],
    )  # fmt: skip
    return list(bangs._alive(seen, 0, 2)), own


def test_a_flame_that_is_not_done_by_the_next_inlet_spits_back(monkeypatch):
    """600 mg beside 400, of which a tenth keeps: 500 to burn; 100 in a millisecond: 5 ms more."""
    zones = [0.0, 3e-4, 4e-4]
    found, own = alive(monkeypatch, left=6e-4, zones=zones, until=4.9e-3)
    assert found == [
        ("after_fire", 0, 2, ("fills", own, "stub 1"), "stub 1"),
        ("spit_back", 0, 2, "runner 1", "runner 1"),
    ]
    for other in ({"until": 5.1e-3}, {"until": 4.9e-3, "fresh": False}):
        found, _ = alive(monkeypatch, left=6e-4, zones=zones, **other)
        assert [one[0] for one in found] == ["after_fire"]


@pytest.mark.parametrize(("left", "count"), [(1.4e-4, 0), (1.6e-4, 1)])
def test_a_twentieth_of_a_charge_is_heard_by_none(monkeypatch, left, count):
    """Of a gram a tenth keeps: 140 mg have 40 to burn, 160 have 60; 50 are too few."""
    found, _ = alive(monkeypatch, left=left, zones=[0.0, 1e-3 - left, 1e-3 - left], until=math.inf)
    assert len(found) == count


def test_only_an_exhaust_that_opens_is_looked_at(monkeypatch):
    """Within the turn after its firing: not before its top, nor beyond the next."""
    places = {(0, 3): -1.0, (0, 5): 1.0, (1, 3): 6.2, (1, 5): 6.4}
    seen = SimpleNamespace(
        life=SimpleNamespace(phases=[0.0, 1.0]), openings=lambda _row: [3, 5],
        place=lambda row, step: places[row, step],
    )  # fmt: skip
    monkeypatch.setattr(bangs, "_at_exhaust", lambda one, row, step: [(one is seen, row, step)])
    assert list(bangs._at_openings(seen)) == [(True, 0, 5), (True, 1, 3)]


@pytest.mark.parametrize("case", ["burning", "pipe", "charge", "neither"])
def test_what_an_exhaust_brings_together(monkeypatch, case):
    monkeypatch.setattr(bangs, "_alive", lambda one, row, step: [("alive", one is seen, row, step)])
    monkeypatch.setattr(bangs, "_burns", lambda one, name: one is seen and name == lights)
    monkeypatch.setattr(bangs, "_hot", lambda name: name != lights)
    monkeypatch.setattr(bangs, "_filling", lambda charge, pipe: ("fills", charge, pipe))
    monkeypatch.setattr(bangs, "_bang", lambda _one, *rest: rest)
    lights = {"pipe": "stub 2", "charge": "cylinder 2"}.get(case)
    burning = np.array([[0, int(case == "burning")]])
    seen = SimpleNamespace(events={"burning": burning}, gas=lambda name, _step: name)
    filled = ("fills", "cylinder 2", "stub 2")
    assert (
        list(bangs._at_exhaust(seen, 1, 0))
        == {
            "burning": [("alive", True, 1, 0)],
            "pipe": [("after_fire", "hot_gas_meets_it", 1, 0, "stub 2", "stub 2")],
            "charge": [("after_fire", "meets_hot_gas", 1, 0, filled, "stub 2")],
            "neither": [],
        }[case]
    )


@pytest.mark.parametrize(
    ("angle", "fresh", "told"),
    [(-2.0, True, ("spit_back", "runner 1", "runner 1")),
     (2.0, False, ("after_fire", ("fills", "cylinder 1", "stub 1"), "stub 1"))],
)  # fmt: skip
def test_a_spark_into_an_open_cylinder_is_told_of_the_step_before_it(
    monkeypatch, angle, fresh, told
):
    """At 0.25 s of steps of 0.1 s: the third step. Before its top the inlet stands open."""
    spark = SimpleNamespace(missed="open", mixture=1.2, burned=0.3, seconds=0.25, angle=angle,
                            cylinder=0)  # fmt: skip
    seen = SimpleNamespace(
        time=np.array([0.0, 0.1, 0.2, 0.3, 0.4]), gas=lambda name, _step: name,
        lived=SimpleNamespace(sparks=[spark]),
    )  # fmt: skip
    asked = []
    monkeypatch.setattr(pipe_burn, "can_burn", lambda *given: asked.append(given) or True)
    monkeypatch.setattr(bangs, "_burns", lambda one, _gas: one is seen and fresh)
    monkeypatch.setattr(bangs, "_filling", lambda charge, pipe: ("fills", charge, pipe))
    monkeypatch.setattr(bangs, "_bang", lambda one, *rest: (one is seen, *rest))
    kind, charge, pipe = told
    assert list(bangs._at_sparks(seen)) == [(True, kind, "sparked_open", 0, 2, charge, pipe)]
    assert asked == [(1.2, 0.3)]


# What a start's rows hold


def test_all_of_a_gas_and_its_mixture():
    """12, 1 and 7 mg are 20; 1 to 12 where 1 to 15 is just enough is 1.25."""
    assert gas(12e-6, 1e-6, 7e-6).mass == pytest.approx(20e-6, rel=1e-12)
    assert gas(12e-6, 1e-6, 7e-6).mixture(15.0) == pytest.approx(1.25, rel=1e-12)
    assert gas(0.0).mixture(15.0) == 0.0


def rows_of(columns=210):
    """Two steps; each value is its column, and a thousand more at the second."""
    rows = np.arange(columns, dtype=float) + np.array([[0.0], [1000.0]])
    named = {name: [SimpleNamespace(name=one) for one in given] for name, given in {
        "cylinders": ("cylinder 1", "cylinder 2"), "volumes": ("runner 1", "stub 1"),
        "valves": ("inlet 1", "exhaust 1"), "passages": ("tail 1",)}.items()}  # fmt: skip
    engine = {"passage_sums_at": 100, "cylinders_at": 120}
    life = SimpleNamespace(spec=SimpleNamespace(**named), engines=[engine], phases=[0.0, 5.0])
    return Seen(life, None, rows, np.zeros((2, 2)))


def test_a_thing_of_a_volume_is_found_in_its_column(monkeypatch):
    """After time and 3 of the shaft, 6 for each volume: runner 1 is the third of them."""
    one = rows_of()
    at = 1 + 3 + 2 * 6
    assert (layout.SHAFT_SIZE, layout.VOLUME_SIZE) == (3, 6)
    assert one.of("runner 1", 1, layout.TEMPERATURE) == 1000 + at + layout.TEMPERATURE
    assert one.of("stub 1", slice(None), layout.BURNED) == pytest.approx(
        np.array([0, 1000]) + at + 6 + layout.BURNED
    )
    monkeypatch.setattr(watched, "volumes_at", lambda _record, angle: [0, 0, angle, 1])
    told = one.gas("runner 1", 1)
    whats = layout.PRESSURE, layout.TEMPERATURE, layout.AIR, layout.FUEL, layout.BURNED
    assert [told.pressure, told.temperature, told.air, told.fuel, told.burned] == [
        1000 + at + what for what in whats
    ]
    assert told.volume == 1000 + 1 + layout.ANGLE


def test_what_has_passed_a_passage_is_found_behind_all_valves():
    one = rows_of()
    at = 1 + 100 + 2 * layout.PASSAGE_SUMS + layout.PASSED_MASS
    assert one.passed("tail 1").tolist() == [at, 1000 + at]


def test_a_burned_zone_is_the_sum_of_its_three_masses():
    """Of the second cylinder: 3 · column + 1 + 2 + 3."""
    at = 1 + 120 + layout.CYLINDER_SIZE
    assert rows_of().zone(1, 0) == 3 * at + 6
    assert rows_of().zone(0, 1) == 3 * (1000 + 121) + 6


def test_where_a_cylinder_is_and_how_fast():
    """At 30 rad one whose firing is at 5 is 25 - 8π past it; one at 0 is 30 - 8π."""
    one = rows_of()
    one.rows[0, 1 + layout.ANGLE] = 30.0
    assert one.place(1, 0) == pytest.approx(25.0 - 8 * math.pi, rel=1e-12)
    assert one.place(0, 0) == pytest.approx(30.0 - 8 * math.pi, rel=1e-12)
    assert one.speed(1) == 1000 + 1 + layout.SPEED
    one.rows[0, 1 + layout.ANGLE] = 10.0
    assert one.place(0, 0) == pytest.approx(10.0 - 4 * math.pi, rel=1e-12)


def test_every_step_is_kept_whole_beside_what_a_life_keeps(monkeypatch):
    kept = []

    def begins(_self, *given):
        assert given == ("plain", "asked", "shaft")

    def lives(self, stop):
        for n in (1.0, 2.0):
            self._keep(np.full((1, 3), n), np.full((1, 2), -n))
        return ("lived", stop)

    monkeypatch.setattr(watched.Life, "__init__", begins)
    monkeypatch.setattr(watched.Life, "lived", lives)
    monkeypatch.setattr(
        watched.Life, "_keep", lambda _self, rows, events: kept.append((rows, events))
    )
    found = watched.seen("plain", "asked", "shaft", "stop")
    assert found.rows.tolist() == [[1.0] * 3, [2.0] * 3]
    assert found.events.tolist() == [[-1.0] * 2, [-2.0] * 2]
    assert found.lived == ("lived", "stop")
    assert [(rows.shape, events.shape) for rows, events in kept] == [((1, 3), (1, 2))] * 2


# Knock


def test_what_a_flame_has_not_reached():
    """Of 10 mg 0.8 are to burn: 6 in the flame are 0.75 of them."""
    held = {layout.AIR: 2e-6, layout.FUEL: 1e-6, layout.BURNED: 1e-6}
    seen = SimpleNamespace(
        of=lambda _name, _step, what: held[what], zone=lambda row, step: {(1, 0): 6e-6}[row, step],
        events={"amount": np.array([[0.1, 0.8]])},
    )  # fmt: skip
    assert knocking._left(seen, 1, 0) == pytest.approx(0.25, rel=1e-9)


def test_an_end_gas_waits_from_the_shutting_of_its_valves(monkeypatch):
    """0.4 of its delay each step: after three steps 1.2, where it lights; 0.8 after two."""
    asked = []

    def delay(octane, pressure, warm):
        asked.append((octane, pressure, warm))
        return 0.01

    monkeypatch.setattr(knocking.knock, "douaud_eyzat", delay)
    monkeypatch.setattr(knocking, "_left", lambda _seen, row, step: (row, step))
    held = {layout.PRESSURE: 7.0, layout.TEMPERATURE: 8.0}
    seen = SimpleNamespace(
        events={"closed": np.array([[1, 0, 1, 1, 1, 1, 1]]).T}, time=0.004 * np.arange(7),
        of=lambda _name, steps, what: np.full(7, held[what])[steps], speed=lambda step: 10.0 * step,
    )  # fmt: skip
    found = knocking._end_gas(seen, 0, 3, 6, 90.0)
    assert found.waited == pytest.approx(1.2, rel=1e-12)
    assert (found.seconds, found.speed, found.left) == (pytest.approx(0.020), 50.0, (0, 5))
    assert set(asked) == {(90.0, 7.0, 8.0)}
    short = knocking._end_gas(seen, 0, 3, 4, 90.0)
    assert short.waited == pytest.approx(0.8, rel=1e-12)
    assert short.left == (0, 4)


def test_each_burn_goes_from_the_step_it_burns_at_to_the_last(monkeypatch):
    burning = np.array([[0, 0, 1, 1, 0, 0, 1, 1]]).T
    monkeypatch.setattr(knocking, "_end_gas", lambda _seen, *rest: rest)
    seen = SimpleNamespace(life=SimpleNamespace(phases=[0.0]), events={"burning": burning})
    assert list(knocking._burns(seen, 95.0)) == [(0, 2, 3, 95.0), (0, 6, 7, 95.0)]
