"""Slopes of the spread: what is spared on the way changes none of them."""

import itertools
import math
import os
import threading
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import OutsideValidity, Stopped
from firstfire.loads import loads
from firstfire.parts.all import ways
from firstfire.runs import spread as spreading
from firstfire.runs.gas_change import gas_change
from firstfire.runs.hands import shared_out
from firstfire.runs.moments import judged_peak, loads_at, moment, temperatures
from firstfire.runs.moved import Trials, direction, one_step, one_up, with_one
from firstfire.runs.readers import readers
from firstfire.runs.spread import spread
from firstfire.runs.together import together

PATIENCE = 240.0

ROOT = Path(__file__).resolve().parents[2]
FILES = [*sorted((ROOT / "engines").glob("*.toml")),
         *sorted((ROOT / "tests" / "strangers").glob("[1-5]_*.toml"))]  # fmt: skip


@pytest.fixture(scope="module")
def wren():
    return ff.read(ROOT / "engines" / "wren.toml")


@pytest.fixture(scope="module")
def full(wren):
    return ff.run(wren, "full_throttle", speeds=[3000 * math.pi / 30], drawn=1)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_moving_one_value_cheaply_is_resolving_with_it(file):
    """For every doubt and every material's number of every engine."""
    engine = ff.read(file)
    trials = Trials(engine)
    moved = [u for u in trials.unknowns if u.path.startswith(("doubt.", "materials."))]
    assert len(moved) > 20
    digests = set()
    for unknown in moved:
        to = one_step(unknown)
        cheap = with_one(engine, trials.centre, unknown.path, to)
        whole = resolve(engine, {unknown.path: to}, as_built=True)
        digests.add(cheap.sha256)
        assert cheap.model_copy(update={"sha256": ""}) == whole.model_copy(update={"sha256": ""})
    # Each is another engine, and none is the centre.
    assert len(digests | {trials.centre.sha256}) == len(moved) + 1


def test_one_step_down_is_as_long_as_one_up(wren):
    for unknown in Trials(wren).unknowns:
        up, size = one_up(unknown)
        to = one_step(unknown)
        if direction(unknown.path) > 0:
            assert to == up
        elif unknown.distribution == "normal":
            assert to == pytest.approx(unknown.centre - size)
        else:
            assert to == pytest.approx(unknown.centre * math.exp(-size))


def at_centre(bout, plain, row=0):
    peaks = [judged_peak(bout, n, 1.0) for n in range(len(bout.gases))]
    felt = loads_at(bout, plain, peaks)
    return moment(bout, plain, row, 1.0, peaks, felt, temperatures(bout, row, 1.0))


def test_what_does_not_ask_for_a_number_does_not_feel_it(wren, full):
    """Every material's number moved, and every way judged anew, whether it asks or not."""
    here = at_centre(full.bouts[0], full.engine)
    before = {way.id: way.factor for way in ways(here)}
    asking = readers(here)
    felt, spared = 0, 0
    for unknown in Trials(wren).unknowns:
        if not unknown.path.startswith("materials.") or not spreading.same_mechanism(unknown.path):
            continue
        plain = with_one(wren, full.engine, unknown.path, one_up(unknown)[0])
        ids = {judge.failure.id for judge in asking.get(unknown.path, ())}
        for way in ways(replace(here, engine=plain)):
            if way.judged and way.factor != before[way.id]:
                assert way.id.partition("#")[0] in ids, (unknown.path, way.id)
                felt += 1
        spared += len(before) - len(ids)
    assert felt > 20
    assert spared > 1000


def test_doubts_and_materials_leave_the_mechanism_as_it_is(wren, full):
    before = loads(full.engine, full.bouts[0].gases)
    for unknown in Trials(wren).unknowns:
        if spreading.same_mechanism(unknown.path):
            plain = with_one(wren, full.engine, unknown.path, one_up(unknown)[0])
            after = loads(plain, full.bouts[0].gases)
            assert np.array_equal(after.torque, before.torque)
            assert np.array_equal(after.main_bearings[0], before.main_bearings[0])


def test_slopes_are_the_same_one_after_the_other(wren, full, monkeypatch):
    """However many processors there are and whichever ends first."""
    side_by_side = full.spreads[0]
    monkeypatch.setattr(spreading, "shared_out", partial(shared_out, hands=1))
    alone, _ = spread(Trials(wren), full.bouts[0], 1.0)
    assert alone == side_by_side


def test_slopes_point_the_way_physics_does(full):
    """Stronger plastic holds more; a slower burn presses less; hotter air leaves less."""
    spread = full.spreads[0]

    def slope(way, path):
        return spread.slopes[way][spread.names.index(path)]

    strengths = [n for n in spread.names if "strength" in n]
    assert all(s[spread.names.index(n)] > -1e-9 for s in spread.slopes.values() for n in strengths)
    assert slope("head.lift", "doubt.burn_duration") > 0
    assert slope("head.lift", "doubt.burn_phase") > 0
    for way in ("liner.bore.soften", "valves.exhaust.overheat", "piston.shield.melt"):
        assert slope(way, "doubt.wall_heat") < 0
    # Valves and shield stand so far above the air that it hardly matters to them: hotter air is
    # thinner and holds more steam, so that they are heated as much less as they are left.
    assert slope("liner.bore.soften", "surroundings.air_temperature") < 0
    assert slope("ring.overheat", "leak.ring") < 0


def test_a_cycle_that_does_not_change_changes_nothing(full):
    gas = full.bouts[0].gases[0]
    same = gas_change(gas, gas, 1.0)
    assert np.all(same.pressure == 1.0)
    again = same.changed(gas)
    assert np.array_equal(again.pressure, gas.pressure)
    assert np.array_equal(again.coefficient, gas.coefficient)


def test_a_change_makes_the_one_cycle_the_other(full):
    """Scaled by a smooth curve, so that straight lines between degrees show no more than 1e-4."""
    gas = full.bouts[0].gases[0]
    other = replace(gas, pressure=gas.pressure * (1.1 + 0.05 * np.cos(gas.angle)))
    found = gas_change(gas, other, 1.15).changed(gas)
    assert found.pressure == pytest.approx(other.pressure, rel=1e-3)


@pytest.fixture
def two_hands(monkeypatch):
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


def test_together_keeps_the_order(two_hands):
    second_done = threading.Event()

    def first(_):
        assert second_done.wait(PATIENCE)
        return 1

    def second(_):
        second_done.set()
        return 2

    assert together([first, second, lambda _: 3]) == [1, 2, 3]
    assert together([]) == []


def test_together_stops_when_asked(two_hands):
    ended = threading.Event()

    def endless(stop):
        while not stop():
            os.sched_yield()
        ended.set()

    asked = itertools.count()
    with pytest.raises(Stopped):
        together([endless, endless, endless], lambda: next(asked) >= 2)
    assert ended.is_set()
    assert next(asked) == 3


def test_together_asks_in_the_callers_thread(two_hands):
    asked, asked_once = set(), threading.Event()

    def never():
        asked.add(threading.get_ident())
        if next(count):  # the first time is before any work
            asked_once.set()
        return False

    count = itertools.count()
    together([lambda _: asked_once.wait(PATIENCE)] * 2, never)
    assert asked == {threading.get_ident()}


def test_together_raises_what_the_first_refused():
    def refuses(words):
        def work(stop):
            raise OutsideValidity(words)

        return work

    with pytest.raises(OutsideValidity, match="one"):
        together([lambda _: 0, refuses("one"), refuses("two")])
