"""Small facts behind a verdict: changes at their event, ranks, tails, clocks, what is run anew."""

from __future__ import annotations

import math
from dataclasses import replace
from statistics import NormalDist
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.engine.readings_table import Reading
from firstfire.engine.records import Raise, Way
from firstfire.engine.sections.make import Made
from firstfire.errors import OutsideValidity
from firstfire.runs.fate import Fate
from firstfire.runs.one_by_one import OneByOne
from firstfire.runs.spread import Spread
from firstfire.verdict.doubt.enders_fitted import _curve
from firstfire.verdict.explain import prints
from firstfire.verdict.facts import (
    anew,
    fading,
    judge,
    narrows,
    over_life,
    raising,
    run_time,
)
from firstfire.verdict.facts.lasting import lasting_of
from firstfire.verdict.facts.margin import Margin, Raised
from firstfire.verdict.facts.spans import Bend, _bell, _of_all

STOP = object()


def way(factor, ident="rod.tear", **more):
    return Way(
        ident, "rod", "tears", 100.0, 100.0 * factor, "N", False, "section", None, "", "", **more
    )


def margin(factor=1.5, ident="rod.tear", **more):
    parts = {"word": "holds", "survival": 0.9, "ends": None, **more}
    of = way(factor, ident, raise_by=parts.pop("raise_by", ()))
    return Margin(of, "idle", "slow", 1.0, factor, None, None, depends_on=(), **parts)


# Spans.
def test_a_bell_is_cut_into_equal_shares():
    """Of two engines 96 shares: below the middle of each lie half a share and those before it."""
    bell = _bell(2)
    assert bell.size == 96
    below = [96 * NormalDist().cdf(at) for at in bell]
    assert below == pytest.approx([at + 0.5 for at in range(96)])


def test_what_is_used_is_told_to_twenty_either_way():
    """More than e^20 of it is as much as that, less than e^-20 as little."""
    used = Bend(0.0, 1.0, 0.0, 0.0, 0.0, used=True)
    found = used.over(np.array([1e12, 1e-12, math.e]), np.zeros(3))
    assert found == pytest.approx([-20.0, 20.0, -1.0])


def test_of_what_is_beyond_doubt_all_is_left_over_and_of_what_is_not_judged_nothing():
    """One known, one gone at -20, one not loaded at 20, one not judged."""
    known, judged = np.array([True, False, False, False]), np.array([True, True, True, False])
    logs = np.array([0.3, -20.0, 20.0, math.nan])
    left = np.array([0.1])
    assert _of_all(left, known, judged, logs, used=False) == (0.1, -20.0, 20.0, 0.0)
    assert _of_all(left, known, judged, logs, used=True) == (0.1, 1e9, -1e3, 0.0)


def test_a_curve_that_loses_nothing_still_rises_by_a_hair():
    logs = {"rod.tear": np.array([0.5, 0.5, math.nan, 0.5])}
    centre = Fate({"rod.tear": 0.5}, {})
    found = _curve(OneByOne(8.0, (1.0, 2.0, 4.0, 8.0), logs, centre, {}, {}), "rod.tear")
    assert found.lost == pytest.approx([0.0, 1e-9, 2e-9], abs=1e-12)
    assert found.log_seconds == pytest.approx([0.0, math.log(2), math.log(8)])


# Ranks and tails.
def test_chances_are_ranked_in_steps_of_a_two_hundredth():
    """0.3 are 60 of them; of a chance of 0.9 the rest, 0.1, is 20."""
    ends, gives_way, _, least = margin(1.5, ends=0.3).rank
    assert (ends, gives_way, least) == (-60, -20, 1.5)


def test_the_low_end_is_the_factor_times_its_spans():
    """3 · e^(-ln 2) = 1.5."""
    spans = {"rod.tear": SimpleNamespace(low=-math.log(2))}
    doubt = SimpleNamespace(span=spans.__getitem__)
    assert judge._low(way(3.0), doubt) == pytest.approx(1.5)
    assert math.isnan(judge._low(way(3.0, judged=False), doubt))


# Changes at their own event.
def test_the_least_work_is_in_front_a_print_being_a_quarter_of_its_time():
    """1 h and a quarter of 2 are 1.5, less than 1.6."""
    printed = Raised("print", {}, 1.2, "", 2.0, 1.0, "")
    by_hand = Raised("file", {}, 1.2, "", 0.0, 1.6, "")
    assert raising._cheapest_first([by_hand, printed]) == [printed, by_hand]


def test_changes_are_run_at_the_margins_point_and_told_where_they_help(monkeypatch):
    """From 0.5: the first makes 0.8, the second nothing; the third can't be run."""
    changes = [Raise(f"do {n}", {f"rod.{n}": "1"}, "effort") for n in "abc"]
    asked = margin(0.5, raise_by=tuple(changes))
    bout = SimpleNamespace(point=SimpleNamespace(name="slow"))
    result = SimpleNamespace(bouts=[SimpleNamespace(point=SimpleNamespace(name="else")), bout])

    def run_again(engine, at, change, stop):
        assert (engine, at, stop) == ("engine", bout, STOP)
        return None if change is changes[2] else (bout, change.text)

    def after(of, changed):
        assert (of, changed[0]) == (asked, bout)
        return [way(0.8 if changed[1] == "do a" else 0.5)]

    def raised_by(engine, change, factor, then):
        assert (engine, then) == ("engine", "")
        return Raised(change.text, change.set, factor, then, 0.0, 1.0, "")

    monkeypatch.setattr(raising, "together", lambda works, stop: [work(stop) for work in works])
    monkeypatch.setattr(raising, "_run_again", run_again)
    monkeypatch.setattr(raising, "_after", after)
    monkeypatch.setattr(raising, "raised_by", raised_by)
    (told,) = raising.at_their_event("engine", {"idle": result}, [asked], STOP)[id(asked)]
    assert (told.text, told.factor_after) == ("do a", 0.8)


# The clock, and what is run anew.
def test_times_are_spanned_by_the_spread_and_the_engines_of_the_bout(monkeypatch):
    told = SimpleNamespace(failure=SimpleNamespace(id="rod.tear"))
    drawn = SimpleNamespace(seconds=lambda _: np.array([2.0, 1.0]))
    spread = Spread((), {}, ())

    class Following:
        seconds = (1.0, 2.0)

        def __init__(self, bout, engines):
            assert (bout, engines) == (held, {"": "engine"})

        def log_factor(self, name, of, row, at):
            assert (name, of, row) == ("rod.tear", told, 0)
            return 1.0 - at

    def limit(following, of, row, seconds, ends):
        assert (of, row, seconds.tolist()) == (told, 0, [1.0, 2.0])
        return SimpleNamespace(seconds=ends[1])

    def time_span(*of):
        assert of == (spread, drawn, "rod.tear", 600.0)
        return 1.0, 1.5, 2.0

    monkeypatch.setattr(run_time, "Following", Following)
    monkeypatch.setattr(run_time, "ways_of", lambda _: [("rod.tear", told, 0)])
    monkeypatch.setattr(run_time, "time_span", time_span)
    monkeypatch.setattr(run_time, "_limit", limit)
    held = SimpleNamespace(horizon=600.0)
    result = SimpleNamespace(
        engine="engine", bouts=[held], ensembles=[drawn], spreads=[spread]
    )  # fmt: skip
    assert [one.seconds for one in run_time.run_times(result)] == [1.5]


@pytest.mark.parametrize("spark", [None, 0.2])
def test_a_point_is_held_anew_from_where_its_gas_was(monkeypatch, spark):
    """A turned one, and one whose network became another, from nothing."""
    cycle = SimpleNamespace(cycle=SimpleNamespace(state="state"))
    point = SimpleNamespace(event="idle", name="slow", spark=spark, fired=cycle)
    bout = SimpleNamespace(point=point, horizon=60.0)
    fits = [True]

    def speed_again(plain, of, *, stop):
        assert (plain, of, stop) == ("plain", point, STOP)
        return 90.0

    def bout_at(plain, event, speed, name, *, horizon, stop, start=None):
        if start is not None and not fits[0]:
            raise OutsideValidity("no")
        return plain, event, speed, name, horizon, stop, start

    monkeypatch.setattr(anew, "speed_again", speed_again)
    monkeypatch.setattr(anew, "bout_at", bout_at)
    monkeypatch.setattr(anew, "followed_up", lambda plain, of, *, stop: (plain, of, stop))
    held = ("plain", "idle", 90.0, "slow", 60.0, STOP)
    assert anew.again("plain", bout, STOP) == (*held, "state" if spark else None)
    fits[0] = False
    assert anew.again("plain", bout, STOP) == (*held, None)
    point.event = "kick_back"
    assert anew.again("plain", bout, STOP) == ("plain", bout, STOP)


def test_a_changed_life_runs_each_bout_anew_on_the_changed_engine(monkeypatch):
    def again(plain, bout, stop):
        assert (plain, bout, stop) == ("plain", "bout", STOP)
        return "anew"

    def judge_bout(changed, bout, doubt, seconds):
        assert (changed, bout, seconds) == (("plain", ("named",)), "named", 1.0)
        return [margin(2.0)]

    result = SimpleNamespace(event="full_throttle", bouts=("bout",))
    doubt = SimpleNamespace(spread=SimpleNamespace(slopes={"rod.tear": ()}))
    monkeypatch.setattr(over_life, "felt_by_gas", lambda _: True)
    monkeypatch.setattr(over_life, "again", again)
    monkeypatch.setattr(
        over_life, "_named_as", lambda *of: "named" if of == ("anew", "bout") else None
    )
    monkeypatch.setattr(over_life, "replace", lambda _, *, engine, bouts: (engine, bouts))
    monkeypatch.setattr(over_life, "doubt_of", lambda *of: doubt if of == (result, 0) else None)
    monkeypatch.setattr(over_life, "judge_bout", judge_bout)
    assert over_life._of_event(result, "plain", {}, STOP) == [margin(2.0)]


def test_how_factors_fade_is_told_by_what_goes_first(monkeypatch):
    """At 0.25, 0.5 and 1 s: one falls below 1 at 1 s, one at 0.5; what only is told is left out."""
    bout = SimpleNamespace(horizon=1.9)
    event = SimpleNamespace(bouts=["other", bout], spreads=["spread"])
    factors = {"rod.tear": 1.2, "rod.buckle": 1.4, "head.lift": 9.0}

    def judge_bout(of, at, doubt, second):
        assert (of, at, doubt) == (event, bout, "doubt")
        found = [margin(factor - second / 2, ident) for ident, factor in factors.items()]
        return [*found, replace(margin(0.1, "pin.bend"), reported=True)]

    monkeypatch.setattr(
        fading, "doubt_of", lambda *of: "doubt" if of == (event, 1) else None
    )  # fmt: skip
    monkeypatch.setattr(fading, "judge_bout", judge_bout)
    first, second = fading.fading(event, 1, 2)
    assert (first.way.id, first.seconds) == ("rod.tear", (0.25, 0.5, 1.0))
    assert first.factors == pytest.approx((1.075, 0.95, 0.7))
    assert (first.crossing, second.crossing, second.way.id) == (0.5, 1.0, "rod.buckle")
    assert second.lowest == pytest.approx(0.9)


def test_of_two_that_go_at_once_the_weaker_takes_it_and_shares_are_of_all_engines():
    """Three of four go: two by the rod, of 2 and 4 s, 3 in the middle; one at 1 s by its pin."""
    fates = (
        Fate({"rod.tear": -0.1, "rod.buckle": -0.3}, {"rod.tear": 1.0, "rod.buckle": 1.0}),
        Fate({"rod.tear": 0.1}, {"rod.tear": 2.0, "rod.buckle": 9.0}),
        Fate({}, {"rod.tear": 4.0}),
        Fate({}, {"rod.tear": math.inf}),
    )
    event = SimpleNamespace(
        event="idle",
        ensembles=[SimpleNamespace(fates=fates)],
        bouts=[SimpleNamespace(horizon=60.0)],
    )
    (found,) = lasting_of([event])
    assert [(one.id, one.share, one.seconds) for one in found.takes] == [
        ("rod.tear", 0.5, 3.0), ("rod.buckle", 0.25, 1.0)
    ]  # fmt: skip
    assert found.engines == 4
    assert found.chance[0] == 1.0
    assert found.chance[-1] == 0.25


# What narrows it.
def test_the_reading_worth_most_has_the_minutes_of_all_cylinders(monkeypatch):
    """Known, either cylinder's tells 0.1 of the odds, read 0.06 of it: 0.12 for twice 4 min."""
    reading = Reading("rod.length", "rod's length", "caliper", "Measure it.", minutes=4.0)
    alike = [SimpleNamespace(path=f"{at}rod.length") for at in ("", "cylinders.2.")]
    holds = np.array([True, False])
    bells = SimpleNamespace(of=lambda name: name)

    def reading_of(engine, path):
        assert (engine, path) == ("engine", "rod.length")
        return reading

    def span_left(of, one, engine):
        assert (of, one in alike, engine) == (reading, True, "engine")
        return 0.5

    def shares_told(asked, read):
        assert asked.tolist() == [[1.0, 0.0]]
        return [0.1 if isinstance(read, str) else 0.06]

    def of_any_odds(_, read):
        return [0.1 if isinstance(read, str) else 0.06]

    def read_with_error(true, left, luck):
        assert (left, luck) == (0.5, f"error of the reading of {true}")
        return (true,)

    def outcomes(*of):
        assert of == ("results", "margins")
        return SimpleNamespace(holds=holds, bells=bells)

    for name, gives in {
        "reading_of": reading_of, "span_left": span_left, "shares_told": shares_told,
        "read_with_error": read_with_error, "outcomes": outcomes, "in_the_odds": lambda of: of,
        "Trials": lambda _: SimpleNamespace(of_a_check=alike),
    }.items():  # fmt: skip
        monkeypatch.setattr(narrows, name, gives)
    found = narrows.narrows("engine", "results", "margins")
    assert (found.reading, found.minutes) == (reading, 8.0)
    assert found.paths == ("rod.length", "cylinders.2.rod.length")
    assert found.decides == pytest.approx(0.12)
    monkeypatch.setattr(narrows, "shares_told", of_any_odds)
    for share, doubtful in ((0.004, False), (0.006, True), (0.994, True), (0.996, False)):
        holds = np.arange(1000) < 1000 * share
        assert (narrows.narrows("engine", "results", "margins") is not None) is doubtful


# What a print of more or less would do.
def test_a_sparse_print_is_told_with_its_factor_if_it_were_solid(monkeypatch):
    """Three lines and 15 % between them: solid, 2.5 in place of 1.5; six and solid, the reverse."""
    seen = []
    asked = margin(1.5, "rod.tear#2")

    def factor_with(result, of, changes, stop):
        assert (result, of, stop) == (told, asked, STOP)
        seen.append(changes)
        return 2.5

    def rod(walls, infill):
        return Made.model_construct(made="printed", walls=walls, infill=infill)

    def of(second):
        cylinders = [SimpleNamespace(rod=rod(9, 1.0)), SimpleNamespace(rod=second)]
        return SimpleNamespace(
            plain=SimpleNamespace(cylinders=cylinders), read=lambda _: ("cylinders.2.rod.infill",)
        )

    monkeypatch.setattr(prints, "factor_with", factor_with)
    told = of(rod(3, 0.15))
    assert prints.print_words(told, asked, STOP) == (
        "That is of a con rod printed with 3 wall lines, 15 % filled between them; solid the "
        "factor would be 2.5, not 1.5."
    )
    told = of(rod(6, 1.0))
    assert "printed with 6 wall lines, solid between them; with three lines and 20 % infill" in (
        prints.print_words(told, asked, STOP)
    )
    assert seen == [{"rod.infill": "1"}, {"rod.infill": "0.2", "rod.walls": "3"}]
