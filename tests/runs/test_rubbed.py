"""What rubs in an engine like another, and the throttle and speed at which it turns itself."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.runs.drawn import drawn, engine_at
from firstfire.runs.falling_short import slower
from firstfire.runs.gas_change import BothWays, all_at_once
from firstfire.runs.moved import Trials
from firstfire.runs.rubbed import rubbed, throttle

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


@pytest.fixture(scope="module")
def trials():
    return Trials(ff.read(WREN))


@pytest.fixture(scope="module")
def full(trials):
    return ff.run(trials.engine, "full_throttle", trials=trials, drawn=0)


@pytest.fixture(scope="module")
def free(trials, full):
    return ff.run(trials.engine, "free_rev", full, trials=trials, drawn=0)


def _unchanged(bout):
    return [all_at_once([]) for _ in bout.gases]


def test_the_same_engine_rubs_as_it_did(trials, full):
    for bout in full.bouts:
        found = rubbed(trials.centre, bout.point, _unchanged(bout))
        assert found.mean_torque == pytest.approx(bout.point.friction.mean_torque, rel=1e-9)
        assert found.rod_ends == bout.point.friction.rod_ends


def test_a_doubled_doubt_rubs_twice_as_hard(trials, full):
    bout = full.bouts[-1]
    twice = resolve(trials.engine, {"doubt.friction.ring": 2 * trials.centre.doubt.friction.ring})
    found = rubbed(twice, bout.point, _unchanged(bout)).by_contact
    before = bout.point.friction.by_contact
    assert found["rings"] == pytest.approx(2 * before["rings"], rel=1e-6)
    assert found["skirts"] == before["skirts"]


def test_a_throttle_is_opened_as_far_as_it_is_asked_for():
    one = all_at_once([])
    breath = BothWays((replace(one, work=1.5),), (replace(one, work=0.6),))
    assert throttle(breath, 1.0) == 0.0
    assert throttle(breath, 1.5) == pytest.approx(1.0)
    assert throttle(breath, 1.25) == pytest.approx(0.5)
    assert throttle(breath, 2.25) == pytest.approx(2.0)
    assert throttle(breath, 0.6) == pytest.approx(-1.0)
    assert throttle(breath, 0.8) == pytest.approx(-0.5)
    # where more air gives no more work it is left alone
    assert throttle(BothWays((replace(one, work=0.9),), None), 1.5) == 0.0


def test_what_gives_less_stays_at_a_slower_speed(trials, full, free):
    known = slower(trials.centre, free.bouts[0], full.bouts)
    at = free.points[0]
    assert known.place(at, 1.0, 1.0) == 0.0  # its limiter holds the centre
    given = at.brake_torque + at.friction.mean_torque
    just = at.friction.mean_torque / given
    assert known.place(at, just, 1.0) == pytest.approx(0.0, abs=1e-9)
    assert 0.0 < known.place(at, 0.98 * just, 1.0) < known.place(at, 0.9 * just, 1.0)
    cycles = known.changed(_unchanged(free.bouts[0]), at, 0.9 * just, 1.0)
    assert all(cycle.speed < 1.0 for cycle in cycles)
    # and at the slower point itself where nothing is left over there
    there = known.point
    even = there.friction.mean_torque / (there.brake_torque + there.friction.mean_torque)
    assert known.place(at, even, 1.0) == pytest.approx(1.0)


def test_an_engine_is_drawn_as_it_was_built(trials):
    """A weak plastic made a thicker rod, and so none was weak."""
    for draw in drawn(trials, 4, 7):
        parts = engine_at(trials, trials.unknowns, draw).cylinders[0]
        before = trials.centre.cylinders[0]
        assert parts.rod.shank_thickness == before.rod.shank_thickness
        assert parts.piston.crown_thickness == before.piston.crown_thickness
        assert parts.piston.mass != before.piston.mass  # it weighs what its plastic weighs
