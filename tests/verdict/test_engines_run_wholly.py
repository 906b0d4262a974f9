"""Where a cycle answers to what is uncertain in jumps, engines drawn are run and not reckoned."""

import math

import pytest

import firstfire as ff
from firstfire.runs.bout import held
from firstfire.runs.drawn import SEED, SPEED, SPEED_SPREAD, drawn, engine_at, unknowns_of
from firstfire.runs.ensemble import Response
from firstfire.runs.first_fired import first_fired
from firstfire.runs.moved import Trials
from firstfire.runs.run import run
from firstfire.runs.uneven import TURN, other_way, uneven
from firstfire.runs.wholly import drawn_are_run

RPM = math.pi / 30


@pytest.fixture(scope="module")
def trials():
    return Trials(ff.read("engines/plover.toml"))


@pytest.fixture(scope="module")
def one_breathes(trials):
    """plover at 2000 rpm: inlets that suction opens settle with one cylinder full."""
    event = "full_throttle"
    return run(trials.engine, event, speeds=[2000 * RPM], trials=trials, drawn=16).bouts[0]


def _peaks(bout):
    return [each.peak_pressure for each in bout.point.fired.cycle.cylinders]


def test_one_cylinder_breathes(trials, one_breathes):
    assert uneven(trials.centre, one_breathes.point.fired.cycle.cylinders)
    assert drawn_are_run(trials.centre, one_breathes)


def test_an_engine_drawn_has_a_cycle_of_its_own(trials, one_breathes):
    """That of the centre, changed by each unknown by itself, had peaks a half too high."""
    draw = next(d for d in drawn(trials, 16, SEED) if d.shared[TURN] <= 0)
    plain = engine_at(trials, unknowns_of(trials, one_breathes), draw)
    found = Response(trials, one_breathes, {}).bout_of(plain, draw)
    point = one_breathes.point
    own = held(plain, point.event, point.name, point.speed, point.spark, 600.0,
               start=point.fired.cycle.state)  # fmt: skip
    assert _peaks(found) == pytest.approx(_peaks(own), rel=0.02)
    assert _peaks(found) != pytest.approx(_peaks(one_breathes), rel=0.02)


def test_as_well_the_other_one(one_breathes):
    turned = other_way(one_breathes)
    assert _peaks(turned) == _peaks(one_breathes)[::-1]
    assert turned.point.peaks == one_breathes.point.peaks[::-1]
    assert turned.histories == one_breathes.histories[::-1]
    assert other_way(turned).gases == one_breathes.gases


def test_others_answer_smoothly():
    trials = Trials(ff.read("engines/wren.toml"))
    bouts = run(trials.engine, "full_throttle", trials=trials, drawn=16).bouts
    assert not any(drawn_are_run(trials.centre, bout) for bout in bouts)


def test_a_first_combustion_is_each_engine_s_own():
    """One cycle, run again by hand for the engine that burns fastest of some."""
    trials = Trials(ff.read("engines/wren.toml"))
    bout = run(trials.engine, "first_fire", trials=trials, drawn=16).bouts[0]
    assert drawn_are_run(trials.centre, bout)
    draw = min(drawn(trials, 16, SEED), key=lambda one: one.shared["doubt.burn_duration"])
    plain = engine_at(trials, unknowns_of(trials, bout), draw)
    found = Response(trials, bout, {}).bout_of(plain, draw)
    own = first_fired(plain, quicker=SPEED_SPREAD ** draw.shared[SPEED])
    assert _peaks(found) == pytest.approx(_peaks(own), rel=0.01)
    assert _peaks(found)[0] > 1.05 * _peaks(bout)[0]
