"""When a way gives way, from factors that go as a pocket calculator follows."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.runs import fate
from firstfire.runs.fate import (
    FIRST,
    NEVER,
    STEP,
    Course,
    Fate,
    Following,
    clock,
    course,
    gives_way,
    moment_between,
    seen,
    ways_of,
)


class Goes:
    """A bout whose one way's logarithm at a place on the clock is as a function says."""

    seconds = clock(600.0)

    def __init__(self, log, holds=None):
        self.log, self.holds = log, holds

    def log_factor(self, _way, _judge, _row, at):
        return self.log(at)

    def holds_at(self, _way, _judge, _row, seconds):
        return self.holds(seconds)


COURSES = (None, Course("either", 3, 0.03), Course("falls", 3, 0.03), Course("falls", 50, 0.3))


@pytest.mark.parametrize("course", COURSES)
def test_on_a_straight_line_it_goes_where_the_line_does(course):
    """1 - 0.037 a step of the clock: after 27.027 steps of a tenth of fourfold, 10.597 s."""
    found = gives_way(Goes(lambda at: 1 - 0.037 * at), "", None, 0, course)
    assert found == pytest.approx(0.25 * 4 ** (27.027027 / 10), rel=1e-6)
    assert found == pytest.approx(10.597, rel=1e-3)


@pytest.mark.parametrize("course", COURSES)
def test_at_once_and_never(course):
    assert gives_way(Goes(lambda _: -0.1), "", None, 0, course) == 0.0
    assert gives_way(Goes(lambda _: 0.1), "", None, 0, course) == NEVER


def test_what_rises_has_gone_at_once_or_never_does():
    rises = Course("rises", 0, 0.01)
    assert gives_way(Goes(lambda _: -0.1), "", None, 0, rises) == 0.0
    assert gives_way(Goes(lambda at: 0.1 - at), "", None, 0, rises) == NEVER


def test_between_two_seconds_the_logarithms_are_straight():
    """Three quarters of the way from 4 to 16 s: 4 · 4^0.75 = 11.314 s."""
    seconds = (1.0, 4.0, 16.0)
    assert moment_between(seconds, (1, 0.3), (2, -0.1)) == pytest.approx(11.3137, rel=1e-5)
    assert moment_between(seconds, (1, math.inf), (2, -0.1)) == pytest.approx(4.0)
    assert moment_between(seconds, (0, -0.1), (0, -0.1)) == 0.0


def test_a_clock_is_even_in_its_logarithm():
    assert clock(0.1) == (0.1,)
    assert clock(FIRST) == (FIRST,)
    usual, finer = clock(16.0), clock(16.0, 4)
    assert (len(usual), len(finer)) == (31, 121)
    assert [usual[at] for at in (0, 10, 20, 30)] == pytest.approx([0.25, 1, 4, 16])
    assert finer[4] / finer[3] == pytest.approx(4 ** (1 / 40))
    assert pytest.approx(4**0.1) == STEP


def test_a_course_is_the_middle_one_of_those_seen():
    """Passing 0 at 10 + 0.1/0.06, 20 - 0.2/0.05 and 5 + 0.1/0.04; slopes 0.06, 0.05, 0.04."""
    engines = [
        [(0, 0.7), (10, 0.1), (20, -0.5), (30, -0.9)],
        [(0, 0.8), (10, 0.3), (20, -0.2), (30, -0.4)],
        [(0, 0.3), (5, 0.1), (15, -0.3), (25, -0.4)],
    ]
    assert course(engines) == Course("falls", 12, 0.05)
    assert course(engines[:2]) == Course("falls", 16, 0.06)
    assert course([[(0, 0.9), (10, 0.8), (25, 0.2)]]) == Course("falls", 25, 0.04)
    assert course([[(0, -0.1), (10, -0.4)]]) == Course("falls", 0, 0.03)
    assert course([[(4, -0.1)]]) == Course("falls", 4, 0.005)


def test_what_barely_rises_still_falls():
    """By less than a hundredth."""
    assert course([[(0, 0.5), (10, 0.509), (20, 0.1)]]).going == "falls"
    assert course([[(0, 0.5), (10, 0.511), (20, 0.1)]]).going == "either"


@pytest.fixture
def followed(monkeypatch):
    """Of a bout of 600 s with two cylinders whose peak is the second it is asked for."""
    judged = SimpleNamespace(factor=2.0, judged=True)
    monkeypatch.setattr(fate, "temperatures_through", lambda *_: lambda at: at)
    monkeypatch.setattr(fate, "judged_peak", lambda _, row, seconds: seconds * (1 + row))
    monkeypatch.setattr(fate, "stronger", lambda gas, peak: (gas, peak))
    monkeypatch.setattr(fate, "loads", lambda _, scaled: scaled)

    def moment(bout, engine, row, seconds, peaks, felt, warmth=None):
        return SimpleNamespace(
            engine=engine, row=row, seconds=seconds, peaks=peaks, felt=felt, warmth=warmth
        )  # fmt: skip

    monkeypatch.setattr(fate, "moment", moment)

    def judge(at):
        judge.asked = at
        return judged

    judge.applies = lambda _: True
    judge.found = judged
    bout = SimpleNamespace(
        horizon=600.0, histories=(0, 1), gases=("one", "other"),
        point=SimpleNamespace(event="full_throttle", brake_torque=1.5, brake_power=300.0),
    )  # fmt: skip

    def at(finer=1):
        return Following(bout, {"": "usual", "rod": "weak"}, finer), judge

    return at


@pytest.mark.parametrize(
    ("finer", "at", "other"),
    [(1, 4, 0), (1, 5, 10), (1, 14, 10), (1, 56, 57), (4, 19, 0), (4, 20, 40), (4, 99, 80)],
)
def test_loads_are_those_of_the_nearest_fourfold_second(followed, finer, at, other):
    """Ten steps of the usual clock are four times the time, and forty of one four times finer."""
    following, _ = followed(finer)
    found = following.moment(1, at, "")
    second = following.seconds[other]
    assert found.seconds == following.seconds[at]
    assert found.peaks == [second, 2 * second]
    assert found.felt == [("one", second), ("other", 2 * second)]
    assert found.warmth == at


def test_a_factor_is_that_of_its_piece_and_its_logarithm_is_bounded(followed):
    following, judge = followed()
    assert following.log_factor("rod.tear", judge, 0, 10) == pytest.approx(math.log(2.0))
    assert (judge.asked.engine, judge.asked.row) == ("weak", 0)
    assert following.log_factor("pin.bend", judge, 1, 10) == pytest.approx(math.log(2.0))
    assert (judge.asked.engine, judge.asked.row) == ("usual", 1)
    judge.found.factor = 0.0
    assert following.log_factor("pin.bend", judge, 0, 10) == pytest.approx(-20.7233, rel=1e-5)
    judge.found.factor = math.inf
    assert following.log_factor("pin.bend", judge, 0, 10) == pytest.approx(20.7233, rel=1e-5)
    judge.found.judged = False
    assert math.isnan(following.log_factor("pin.bend", judge, 0, 10))


def test_between_the_clocks_seconds_it_holds_from_a_factor_of_one(followed):
    following, judge = followed()
    for factor, holds in ((1.0, True), (0.999, False), (2.0, True)):
        judge.found.factor = factor
        assert following.holds_at("rod.tear", judge, 1, 3.9) is holds
    assert (judge.asked.engine, judge.asked.row, judge.asked.seconds) == ("weak", 1, 3.9)
    assert judge.asked.peaks == pytest.approx([4.0, 8.0])
    assert following.at(3.9) == 20


def test_the_second_cylinders_ways_are_numbered_and_what_is_shared_is_asked_once(
    monkeypatch, followed
):
    own, shared = (
        SimpleNamespace(failure=SimpleNamespace(id=name, shared=both))
        for name, both in (("rod.tear", False), ("crank.bend", True))
    )
    monkeypatch.setattr(fate, "judged_during", lambda _: (own, shared))
    following, _ = followed()
    assert ways_of(following.bout) == (
        ("rod.tear", own, 0), ("crank.bend", shared, 0), ("rod.tear#2", own, 1)
    )  # fmt: skip


def test_what_is_seen_ahead_is_every_tenth_second_and_the_last(monkeypatch, followed):
    following, judge = followed()
    judge.failure = SimpleNamespace(id="rod.tear", shared=True)
    monkeypatch.setattr(fate, "judged_during", lambda _: (judge,))
    (way,) = seen(following.bout, following.engines).items()
    assert way[0] == "rod.tear"
    assert [at for at, _ in way[1]] == [0, 10, 20, 30, 40, 50, 57]
    assert [log for _, log in way[1]] == pytest.approx([math.log(2.0)] * 7)


def test_a_fate_is_judged_at_its_second_and_timed_where_followed(monkeypatch, followed):
    following, judge = followed()
    judge.failure = SimpleNamespace(id="rod.tear", shared=False)
    monkeypatch.setattr(fate, "judged_during", lambda _: (judge,))
    judge.found.factor = 0.5
    bout, engines = following.bout, following.engines
    found = fate.fate(bout, engines, {"rod.tear": Course("falls", 0, 0.1)})
    half = pytest.approx(-math.log(2.0))
    assert found.factors == {"rod.tear": half, "rod.tear#2": half}
    assert found.seconds == {"rod.tear": 0.0, "rod.tear#2": NEVER}
    assert (found.brake_torque, found.brake_power) == (1.5, 300.0)
    bout.point.event = "first_fire"
    assert fate.fate(bout, engines) == Fate(found.factors, {}, 1.5, 300.0)
