"""Odds of a start: their interval, what a gauge tells, why a try comes to nothing."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.stats import binomtest
from tests.runs.start.books import engine, read

from firstfire.errors import Stopped
from firstfire.runs.moved import Trials
from firstfire.runs.spun import Spun
from firstfire.runs.start import changes as changes_tried
from firstfire.runs.start.asked import Asked, Lived, Sparked
from firstfire.runs.start.life import Life
from firstfire.runs.start.odds import (
    Odds,
    Tried,
    odds,
    runs_by_itself,
    threshold,
    tried,
    why_not,
    wilson,
)


@pytest.mark.parametrize(("hits", "count"), [(0, 8), (1, 8), (5, 8), (8, 8), (38, 40), (20, 40)])
def test_the_interval_is_wilsons(hits, count):
    """SciPy's, 5 to 95 %; the normal's 1.64485 rounded to 1.6449."""
    low, high = binomtest(hits, count).proportion_ci(confidence_level=0.9, method="wilson")
    assert wilson(hits, count) == pytest.approx((low, high), abs=2e-5)


F, T = False, True


@pytest.mark.parametrize(
    ("starts", "tells"),
    [
        ([F, F, T, T], 2.5),
        ([F, T, T, T, T, T], 1.5),
        ([F, F, F, F, T, T, T], 4.5),
        ([F, F, F, F, T, F, T, T, T], 4.5),  # one is on the wrong side here as at 6.5
        ([T, T, F, F], None),  # the wrong way round
        ([F, T, F, T], None),  # half of the rarer kind on its wrong side
        ([T, T, T], None),
        ([F, F], None),
    ],
)
def test_what_a_gauge_tells(starts, tells):
    """Readings of 1, 2, 3 ... and whether each starts, in any order."""
    readings = [(float(place), start) for place, start in enumerate(starts, start=1)]
    assert threshold(readings) == tells
    assert threshold(readings[::-1]) == tells


def lived(
    *, let_go=2.0, speeds=(100.0, 100.0, 100.0), sparks=(), ends=5.0, reversed_at=None
):  # fmt: skip
    """A start of three stretches: long before it is let go, then 0.2 s, then after."""
    time = np.linspace(0.0, ends, 5001)
    let = let_go if let_go is not None else math.inf
    speed = np.where(time < let - 0.2, speeds[0], np.where(time < let, speeds[1], speeds[2]))
    angle = np.concatenate([[0.0], np.cumsum(speed[1:] * np.diff(time))])
    spun = Spun(time, angle, speed, np.zeros(5001), np.full((5001, 1), 1e5))
    each = tuple(
        Sparked(0, seconds, -0.1, 50.0, -0.1, 0.03, 1.0, 0.05, missed) for seconds, missed in sparks
    )
    return Lived(Asked(), spun, each, let_go, reversed_at, None)


LIT = tuple((0.5 + 0.1 * n, None) for n in range(45))
EARLY = tuple((0.5 + 0.1 * n, None) for n in range(20))


@pytest.mark.parametrize(
    ("story", "why"),
    [
        ({"sparks": LIT}, None),
        ({"sparks": LIT, "speeds": (40.0, 100.0, 55.0)}, None),
        ({"sparks": (), "speeds": (1.0, 1.0, 0.0)}, "torque"),
        ({"sparks": ()}, "spark"),
        ({"sparks": LIT, "reversed_at": 1.0}, "kick"),
        ({"sparks": LIT, "reversed_at": 1.0, "let_go": None}, "kick"),
        ({"sparks": ((0.5, "lean"), (0.6, "open"))}, "mixture"),
        ({"sparks": ((0.5, "thinned"),)}, "mixture"),
        ({"sparks": ((0.5, "weak"), (0.6, "quenched"))}, "spark"),
        # Slower than half of what it was let go at, or no longer burning:
        ({"sparks": LIT, "speeds": (40.0, 100.0, 45.0)}, "flywheel"),
        ({"sparks": EARLY}, "flywheel"),
        ({"sparks": LIT, "speeds": (40.0, 45.0, 20.0)}, "dies"),
        # Thrown back only after it was let go: no kick, it ran and stopped.
        ({"sparks": EARLY, "reversed_at": 2.5}, "flywheel"),
    ],
)
def test_why_it_does_not_run(story, why):
    """Its starter alone turns it at 50 rad/s."""
    assert why_not(lived(**story), 50.0) == why
    assert runs_by_itself(lived(**story)) == (why is None)


def test_one_that_its_starter_does_not_turn_wants_torque():
    weak = engine("wren", starter__stall_torque="0.6 N*m")
    found = tried(weak, Asked(seconds=1.0, after=0.5), seed=1, tries=2)
    assert found.why == "torque"
    assert found.started_at is None
    assert found.lit == found.sparked == 0
    assert not found.over
    assert not found.kicked


def test_one_that_is_too_lean_says_mixture():
    found = tried(engine("plover"), Asked(seconds=0.5, after=0.3, mixture=0.4), seed=1, tries=1)
    assert (found.why, found.lit) == ("mixture", 0)
    assert found.over
    assert found.sparked > 0


def test_one_that_starts_says_so_at_once():
    found = tried(engine("plover"), Asked(seconds=3.0, after=1.0), seed=1, tries=3)
    assert (found.started_at, found.why) == (1, None)
    assert found.gauge > 5e5


def test_odds_are_alike_on_one_process_and_on_two():
    """To the last bit; and another seed's cycles are others, of the same engines."""
    trials = Trials(read("plover"))
    asked = Asked(seconds=0.6, after=0.4, seed=3)
    one, two = (odds(trials, asked, 3, tries=1, hands=hands) for hands in (1, 2))
    assert one == two
    assert len(one.each) == 3
    assert len({each.gauge for each in one.each}) == 3
    other = odds(trials, replace(asked, seed=4), 3, tries=1, hands=1)
    assert [each.gauge for each in other.each] == [each.gauge for each in one.each]


def test_every_try_of_every_engine_has_cycles_of_its_own(monkeypatch):
    """And another seed gives all of them others. Only the first has no charge from a try before."""
    seen = []

    class Noted(Life):
        def __init__(self, plain, asked, shaft, wet):
            seen.append((asked.seed, asked.charged))
            super().__init__(plain, replace(asked, mixture=0.3), shaft, wet)

    monkeypatch.setattr("firstfire.runs.start.odds.Life", Noted)
    for seed in (1, 2):
        asked = Asked(seconds=0.2, after=0.0, seed=seed)
        odds(Trials(read("plover")), asked, 3, tries=2, hands=1)
    assert [charged for _, charged in seen] == [False, True] * 6
    assert len({seed for seed, _ in seen}) == 12


def test_shares_and_readings_come_of_each():
    start = tried(engine("plover"), Asked(seconds=0.6, after=0.4), seed=1, tries=1)
    each = tuple(
        replace(start, gauge=1e5 * place, started_at=1 if place > 3 else None,
                why=None if place > 3 else "dies")
        for place in range(1, 9)
    )  # fmt: skip
    found = Odds(1, 3.0, each)
    assert found.share == 5 / 8
    assert found.span == pytest.approx(wilson(5, 8))
    assert found.needs_gauge == pytest.approx(3.5e5)


def test_stopped_by_hand_it_gives_those_that_were_tried():
    done = []
    asked = Asked(seconds=0.3, after=0.1, seed=3)
    trials = Trials(read("plover"))
    found = odds(
        trials, asked, 16, tries=1, hands=2, on_progress=done.append,
        stop=lambda: bool(done) and done[-1] >= 9 / 16,
    )  # fmt: skip
    assert found.stopped
    assert 9 <= len(found.each) < 16
    first = odds(trials, asked, 16, tries=1, numbers=[0, 1])
    assert not first.stopped
    assert first.each == found.each[:2]
    with pytest.raises(Stopped):
        odds(trials, asked, 16, tries=1, stop=lambda: True)


def test_some_of_those_drawn_come_to_what_they_do_among_all():
    asked = Asked(seconds=0.3, after=0.1, seed=3)
    trials = Trials(read("plover"))
    whole = odds(trials, asked, 8, tries=1).each
    some = odds(trials, asked, 8, tries=1, numbers=[6, 1, 3]).each
    assert some == (whole[6], whole[1], whole[3])


def test_changes_are_counted_on_the_engines_that_fail_first(monkeypatch):
    """Starts in 16: 10 now; a change that mends four of six and spoils one leaves 13."""
    asked_of = []

    def fake(trials, asked, count, *, tries, stop, numbers):
        asked_of.append(list(numbers))
        moved = trials.moved
        starts = [
            {"now": n < 10, "mends": n < 14 and n != 2, "spoils": n < 5}[moved] for n in numbers
        ]
        each = tuple(SimpleNamespace(started_at=1 if one else None, why=None) for one in starts)
        return SimpleNamespace(each=each, stopped=False)

    monkeypatch.setattr(changes_tried, "odds", fake)
    monkeypatch.setattr(changes_tried, "Trials", lambda name: SimpleNamespace(moved=name))
    monkeypatch.setattr(changes_tried, "with_values", lambda _, values: values["to"])
    listed = [("mend", {"to": "mends"}), ("spoil", {"to": "spoils"})]
    monkeypatch.setattr(changes_tried, "_candidates", lambda *_: iter(listed))
    found = changes_tried.changes("now", Asked(), 0.1)
    assert [(one.text, one.starts, one.before) for one in found] == [("mend", 13 / 16, 10 / 16)]
    assert asked_of == [
        list(range(16)), list(range(10, 16)), list(range(10)), list(range(10, 16)),
    ]  # fmt: skip


def test_stopped_while_changes_are_tried_the_odds_stand(monkeypatch):
    from firstfire.runs.start import account as of_account

    def stopped(*_, **__):
        raise Stopped("by hand")

    monkeypatch.setattr(of_account, "changes", stopped)
    half = Odds(1, 3.0, tuple(Tried(at, 9e5, 1, 1, True, False, None) for at in (1, None)))
    found, better = of_account._helped(None, None, 0.0, half, None, None)
    assert (found.share, found.stopped, better) == (0.5, True, ())
    sure = replace(half, each=half.each[:1])
    assert of_account._helped(None, None, 0.0, sure, None, None) == (sure, ())
