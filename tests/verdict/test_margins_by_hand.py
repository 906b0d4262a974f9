"""Margins, odds, clocks and changes from round numbers.

1.6449 deviations hold nine tenths, 3.0902 leave out one in a thousand, and one in 6.303 lies
beyond 1 (0.15866; tables of the normal law).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from types import SimpleNamespace

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.records import Raise, Way
from firstfire.parts.all import REPORTED
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.facts import judge, odds, over_life, raising, run_time
from firstfire.verdict.facts.found import Found
from firstfire.verdict.facts.judge import Doubt, Opened, judge_bout, word
from firstfire.verdict.facts.margin import Margin, Raised
from firstfire.verdict.facts.odds import Bells, joint_odds
from firstfire.verdict.facts.over_life import judged_over_life
from firstfire.verdict.facts.run_time import run_times, share_past
from firstfire.verdict.facts.spans import Bend

BEYOND_ONE = 0.15866


def way(factor, ident="rod.tear", *, hazard=False, unit="N", **more):
    return Way(
        ident, "rod", "tears", 100.0, 100.0 * factor, unit, hazard, "section", None, "", "", **more
    )


def margin(factor, ident="rod.tear", point="full", event="full_throttle", **changes):
    parts = {"at_seconds": 1.0, "factor_low": None, "factor_high": None, "word": "holds",
             "survival": 0.9, "depends_on": ()}  # fmt: skip
    one = way(factor if factor is not None else math.nan, ident)
    return Margin(one, event, point, factor=factor, **{**parts, **changes})


SPREAD = Spread(
    ("a", "doubt.strength_scatter", "c"),
    {"rod.tear": (0.06, 0.08, 0.005), "pin.bend": (0.0, 0.0, 0.0)},
    (1,),
)
"""0.06 and 0.08, and with 0.005 besides: a deviation of 0.10012, of which 0.08 is of strength."""


def test_a_deviation_is_the_root_of_the_squares():
    assert SPREAD.deviation("rod.tear") == pytest.approx(math.sqrt(0.010025))
    assert SPREAD.strength_deviation("rod.tear") == pytest.approx(0.08)
    assert SPREAD.telling["rod.tear"] == (("doubt.strength_scatter", 0.08), ("a", 0.06))
    assert SPREAD.deviation("no.such") == SPREAD.strength_deviation("no.such") == 0.0


@pytest.fixture
def bout(monkeypatch):
    """One bout of two cylinders: each moment is its cylinder's number and peak."""
    seen = SimpleNamespace(ways=lambda _: (), judges=())
    monkeypatch.setattr(judge, "judged_peak", lambda _, row, seconds: 30.0 + row + seconds)
    monkeypatch.setattr(judge, "temperatures", lambda *of: of)
    monkeypatch.setattr(judge, "loads_at", lambda *of: of)
    monkeypatch.setattr(judge, "recorded", lambda at: at)

    def moment(of, plain, row, seconds, peaks, felt, warm):
        assert (plain, warm, felt) == ("plain", (of, row, seconds), (of, "plain", peaks))
        return SimpleNamespace(event=of.point.event, row=row, seconds=seconds, peak=peaks[row])

    monkeypatch.setattr(judge, "moment", moment)
    monkeypatch.setattr(judge, "ways", lambda at: [*seen.ways(at)])
    monkeypatch.setattr(judge, "judged_during", lambda _: seen.judges)
    peaks = (SimpleNamespace(rare=50.0), SimpleNamespace(rare=20.0))
    point = SimpleNamespace(event="full_throttle", name="full", peaks=peaks)
    seen.bout = SimpleNamespace(point=point, gases=(1, 2), horizon=600.0)
    seen.result = EventResult("full_throttle", "plain", (seen.bout,), (SPREAD,))
    return seen


def judged(bout, factor, rare, *, hazard):
    """The margin of a way with its factor at the usual peak, and at the rare cycle's."""

    def one(at):
        found = factor if at.peak in (31.0, 32.0) else rare
        return way(found, "rod.tear" if at.row == 0 else "rod.tear#2", hazard=hazard)

    class Judged:
        failure = SimpleNamespace(
            hazard=hazard, numbered=lambda at: "rod.tear" if at.row == 0 else "rod.tear#2"
        )

        @staticmethod
        def applies(_):
            return True

        def __call__(self, at):
            return one(at)

    bout.ways = lambda at: (one(at),)
    bout.judges = (Judged(),)
    return judge_bout(bout.result, bout.bout, Doubt(SPREAD), 1.0)


def test_a_span_is_of_what_moves_it_each_way(bout):
    """exp(±1.6449 · 0.10012) = 0.848 and 1.179."""
    first, second = judged(bout, 1.5, math.nan, hazard=False)
    assert first.factor_low == pytest.approx(1.5 * 0.848, rel=2e-3)
    assert first.factor_high == pytest.approx(1.5 * 1.179, rel=2e-3)
    assert (first.word, second.way.id, second.point) == ("holds", "rod.tear#2", "full")
    assert [one.path for one in first.depends_on] == ["doubt.strength_scatter", "a"]
    assert judged(bout, 1.1, math.nan, hazard=False)[0].word == "marginal"
    at_one = judged(bout, math.exp(0.10012), math.nan, hazard=False)[0]
    assert at_one.survival == pytest.approx(1 - BEYOND_ONE, abs=2e-3)


def test_what_bursts_must_hold_the_rare_cycle_at_its_weakest(bout):
    """exp(-3.0902 · 0.08) = 0.781: the rare cycle's own factor must be 1.2805.

    The rare peak of the first cylinder is 50; the second's is no less than what is judged, 32.
    """
    assert [one.word for one in judged(bout, 1.5, 1.27, hazard=True)] == ["marginal", "holds"]
    assert [one.word for one in judged(bout, 1.5, 1.29, hazard=True)] == ["holds", "holds"]


def test_an_event_is_judged_worst_first_and_its_centre_at_its_own_second(bout, monkeypatch):
    """Full throttle at its first second, cranking at its tenth: at peaks of 31 and 40."""
    bout.ways = lambda at: (way(1.5 if at.row == 0 else 1.2),)
    found = judge.judge(bout.result, 3.0)
    assert [one.factor for one in found] == [1.2, 1.5]
    assert found[1].factor_low == pytest.approx(1.5 * 0.848, rel=2e-3)
    assert [at.peak for at in judge.first_moments(bout.result, bout.bout)] == [31.0, 32.0]
    bout.bout.point.event = "cranking"
    assert [at.peak for at in judge.first_moments(bout.result, bout.bout)] == [40.0, 41.0]
    asked = []
    monkeypatch.setattr(judge, "span", lambda *of: asked.append(of))
    monkeypatch.setattr(judge, "bend", lambda *of: asked.append(of))
    drawn = Ensemble((), ())
    doubt = judge.doubt_of(replace(bout.result, ensembles=(drawn,)), 0)
    doubt.span("rod.tear")
    doubt.bend("rod.tear")
    assert asked == [(SPREAD, drawn, "rod.tear", 1.2)] * 2


def test_a_cranking_cycle_has_no_rare_one(bout):
    bout.bout.point.event = "cranking"
    assert judged(bout, 1.5, 0.1, hazard=True)[0].word == "holds"


def test_words_of_a_factor():
    for factor, low, least, hazard, says in (
        (0.99, 0.5, 0.4, False, "fails"), (1.0, 0.99, 0.9, False, "marginal"),
        (1.5, 1.0, 0.9, False, "holds"), (1.5, 1.0, 0.9, True, "marginal"),
        (1.5, 1.1, 1.0, True, "holds"), (1.5, 1.1, math.nan, True, "marginal"),
    ):  # fmt: skip
        assert word(way(factor, hazard=hazard), low, least) == says


def test_the_second_cylinders_way_is_opened_in_its_own_moment(bout):
    class Judged:
        failure = SimpleNamespace(id="rod.tear")

        def __call__(self, at):
            return (at.row, at.seconds, at.peak)

    bout.judges = (Judged(),)
    opened = Opened([bout.result])
    assert opened.way(margin(1.2, "rod.tear#2", at_seconds=3.0)) == (1, 3.0, 34.0)
    assert opened.way(margin(1.2, "rod.tear", at_seconds=9e9)) == (0, 600.0, 630.0)


# Odds: engines drawn from the slopes alone.
@pytest.fixture
def drawing(monkeypatch):
    """Ways of a slope each to inputs of its own or shared."""

    def of(slopes, bends=None):
        names = tuple(sorted({name for one in slopes.values() for name in one}))
        rows = {w: tuple(one.get(n, 0.0) for n in names) for w, one in slopes.items()}
        doubt = Doubt(Spread(names, rows, ()))
        if bends:
            doubt = SimpleNamespace(spread=doubt.spread, bend=bends.get)
        monkeypatch.setattr(
            odds, "doubt_of", lambda of, number: doubt if of.bouts[number] else None
        )
        return [SimpleNamespace(bouts=(SimpleNamespace(point=SimpleNamespace(name="full")),))]

    return of


SLIPS = math.exp(0.1)
"""One deviation of 0.1 below nothing left."""


def test_an_input_that_two_ways_share_ends_both_or_either(drawing):
    """Alike 0.841 hold; opposed 0.683; each by its own 0.708. Of 20,000, three errors are 0.01."""
    both = [margin(SLIPS, "rod.tear"), margin(SLIPS, "pin.bend")]
    alike = drawing({"rod.tear": {"a": 0.1}, "pin.bend": {"a": 0.1}})
    assert joint_odds(alike, both) == pytest.approx(1 - BEYOND_ONE, abs=0.01)
    opposed = drawing({"rod.tear": {"a": 0.1}, "pin.bend": {"a": -0.1}})
    assert joint_odds(opposed, both) == pytest.approx(1 - 2 * BEYOND_ONE, abs=0.01)
    own = drawing({"rod.tear": {"a": 0.1}, "pin.bend": {"b": 0.1}})
    assert joint_odds(own, both) == pytest.approx((1 - BEYOND_ONE) ** 2, abs=0.01)


def test_scatter_is_each_pieces_own(drawing):
    scatter = {"doubt.strength_scatter": 0.1}
    ways = ("rod.tear", "rod.buckle", "pin.bend")
    results = drawing(dict.fromkeys(ways, scatter))
    same = [margin(SLIPS, one) for one in ways[:2]]
    apart = [margin(SLIPS, one) for one in ways[::2]]
    assert joint_odds(results, same) == pytest.approx(1 - BEYOND_ONE, abs=0.01)
    assert joint_odds(results, apart) == pytest.approx((1 - BEYOND_ONE) ** 2, abs=0.01)


def test_two_inputs_add_as_variances_do(drawing):
    """0.06 and 0.08 are 0.1."""
    results = drawing({"rod.tear": {"a": 0.06, "b": 0.08}})
    assert joint_odds(results, [margin(SLIPS)]) == pytest.approx(1 - BEYOND_ONE, abs=0.01)


def test_nothing_asked_holds_and_nothing_left_goes(drawing):
    results = drawing({"rod.tear": {}})
    assert joint_odds(results, [margin(math.inf)]) == 1.0
    assert joint_odds(results, [margin(0.0)]) == 0.0
    assert joint_odds(results, [margin(None), margin(0.5, reported=True)]) == 1.0


def test_what_scatters_about_a_bend_is_that_of_engines(drawing):
    """Four engines off by 0.3, 0.25, 0.1 and -0.3: with 0.2 left, one in four goes."""
    bend = Bend(0.0, 1.0, 0.0, 0.0, 0.2, left=(0.3, 0.25, 0.1, -0.3))
    results = drawing({"rod.tear": {}}, {"rod.tear": bend})
    assert joint_odds(results, [margin(math.exp(0.2))]) == pytest.approx(0.75, abs=0.01)
    assert Bells().rest(replace(bend, rest=0.1)).max() == pytest.approx(3.0)
    assert Bells().rest(replace(bend, left=())).tolist() == [0.0]


# Over a whole life.
def test_a_score_is_of_the_chance_and_of_what_is_lacking(monkeypatch):
    """ln 0.5 + 0; ln 0.001 + ln 0.2: what can't hold counts as one in a thousand."""
    monkeypatch.setattr(over_life, "life", lambda _: ("full_throttle",))
    monkeypatch.setattr(over_life, "joint_odds", lambda _, margins: 0.1 * len(margins))
    margins = [
        margin(1.2, survival=0.5), margin(0.2, survival=0.0), margin(0.1, event="idle"),
        margin(0.1, reported=True), margin(None, survival=None),
    ]  # fmt: skip
    found = judged_over_life([], margins)
    assert found.score == pytest.approx(math.log(0.5) + math.log(0.001) + math.log(0.2))
    assert found.odds == pytest.approx(0.2)


def test_a_way_that_is_new_is_unsure_by_a_quarter_of_its_logarithm(monkeypatch):
    """exp(0.25): one deviation."""
    known = margin(math.exp(0.25), survival=0.5)
    new = replace(known, way=way(1.2, "no.such"))
    monkeypatch.setattr(over_life, "resolve", lambda of: of)
    monkeypatch.setattr(over_life, "with_values", lambda *of, **__: of)
    monkeypatch.setattr(over_life, "life", lambda _: ("full_throttle",))
    monkeypatch.setattr(over_life, "doubt_of", lambda of, _: doubts[of.event])
    monkeypatch.setattr(over_life, "felt_by_gas", lambda of: of == {"rod.length": "80 mm"})
    monkeypatch.setattr(over_life, "again", lambda of, *_: replace(before, point=Named(of)))
    monkeypatch.setattr(over_life, "ranked", lambda _, found: found)
    monkeypatch.setattr(over_life, "joint_odds", lambda *_: 1.0)
    seconds = []

    def judged_then(changed, bout, doubt, at):
        seconds.append(at)
        assert doubt is doubts["full_throttle"]
        assert (changed.bouts, changed.engine) == ((bout,), ("engine", changes))
        assert bout.point.name == "full"  # run anew, by the name it had
        return [new, known]

    @dataclass(frozen=True)
    class Named:
        name: str

    @dataclass(frozen=True)
    class Held:
        point: Named

    before, changes = Held(Named("full")), {"rod.length": "80 mm"}
    doubts = {"full_throttle": Doubt(SPREAD)}
    monkeypatch.setattr(over_life, "judge_bout", judged_then)
    full, idle = (EventResult(event, None, (before,)) for event in ("full_throttle", "idle"))
    unsure, sure = over_life.over_life("engine", [full, idle], changes).margins
    assert unsure.survival == pytest.approx(1 - BEYOND_ONE, abs=1e-5)
    assert sure.survival == 0.5
    assert seconds == [1.0]


# The clock.
@pytest.mark.parametrize(
    ("share", "seconds"), [(0.05, 10.0), (0.25, 10.0), (0.5, 20.0), (0.625, 25.0), (0.95, 30.0)]
)
def test_the_kth_of_n_stands_for_k_of_n_and_one(share, seconds):
    assert share_past(np.array([10.0, 20.0, 30.0]), share) == pytest.approx(seconds)


def test_beyond_the_horizon_the_nearer_of_two_decides():
    """0.4 · 3 - 1 = 0.2 of the way to what never comes; 0.6 · 3 - 1 = 0.8."""
    half = np.array([10.0, math.inf])
    assert (share_past(half, 0.4), share_past(half, 0.6)) == (10.0, None)
    assert share_past(np.array([math.inf]), 0.05) is None


IDENT = "piston.crown.break"


@pytest.fixture
def clocked(monkeypatch):
    """A bout on a clock of 12 seconds whose one way has a logarithm at the first and the last."""

    class Following:
        seconds = tuple(float(2**n) for n in range(12))

        def __init__(self, bout, _):
            self.bout = bout

        def log_factor(self, name, _judge, _row, at):
            assert (name, at <= 11) == (IDENT, True)
            return self.bout.logs[0 if at < 11 else 1]

        def moment(self, _row, at, _piece):
            return at

        def at(self, seconds):
            return int(math.log2(seconds))

    class Judged:
        failure = SimpleNamespace(id=IDENT)

        def __call__(self, at):
            return way(10.0 - at, IDENT, unit=self.unit)

    monkeypatch.setattr(run_time, "Following", Following)
    monkeypatch.setattr(
        run_time,
        "gives_way",
        lambda of, name, *_: 16.0 if (type(of), name) == (Following, IDENT) else 0,
    )
    monkeypatch.setattr(
        run_time, "time_span", lambda *of: (8.0, 16.0, 32.0) if of[2:] == (IDENT, 600.0) else None
    )
    monkeypatch.setattr(run_time, "char_depths", lambda _, then: {"crown": then / 1e4, "head": 9.0})

    def of(first, last, unit="N", drawn=()):
        told = Judged()
        told.unit = unit
        monkeypatch.setattr(run_time, "ways_of", lambda _: [(IDENT, told, 0)])
        bout = SimpleNamespace(
            logs=(first, last), histories=(None,), horizon=600.0,
            point=SimpleNamespace(event="full_throttle", name="full"),
        )  # fmt: skip
        result = SimpleNamespace(ensembles=drawn, spreads=(SPREAD,), engine=None, bouts=(bout,))
        return run_times(result)

    return of


def test_a_limit_that_heat_brings_is_told_as_it_stands_then(clocked):
    """At 16 s, the fourth: a factor of 6 of the 10 at first."""
    (limit,) = clocked(0.5, 0.5 + math.log(0.96))
    assert (limit.seconds, limit.seconds_low, limit.seconds_high) == (16.0, 16.0, 16.0)
    assert limit.strength_left == pytest.approx(0.6)
    assert limit.depth == pytest.approx(16e-4)
    assert limit.chance_not_reached == 0.0
    assert clocked(0.5, 0.3, unit="K")[0].strength_left is None


def test_of_engines_drawn_the_times_are_spanned(clocked):
    """One of four never comes to it."""
    drawn = SimpleNamespace(
        seconds=lambda name: np.array([9.0, math.inf, 20.0, 30.0]) * (name == IDENT or 0)
    )
    (limit,) = clocked(0.5, 0.3, drawn=(drawn,))
    assert (limit.seconds_low, limit.seconds, limit.seconds_high) == (8.0, 16.0, 32.0)
    assert limit.chance_not_reached == 0.25


def test_what_loses_less_than_a_thirty_third_does_not_belong_to_the_clock(clocked):
    assert clocked(0.5, 0.5 + math.log(0.98)) == []
    assert len(clocked(-0.5, -0.5 + math.log(0.96))) == 1
    assert clocked(0.5, math.nan) == []


# Changes.
def raised(factor=1.2, prints=0.0, hands=0.0):
    return Raised("Do", {"a": "b"}, factor, "", prints, hands, "")


def test_a_printer_runs_by_itself_for_three_quarters_of_its_time():
    """2 h by hand, 8 h of print, and a quarter to get up."""
    assert raising.work(raised(prints=8.0, hands=2.0)) == pytest.approx(4.25)


def test_what_gains_most_for_its_work_is_in_front():
    """0.9 over 1.25 h, 0.3 over 0.5 h, 1.1 over 4.25 h: 0.72, 0.6, 0.26."""
    offered = [
        (1.3, raised(hands=0.25)), (1.9, raised(hands=1.0)), (2.1, raised(prints=8.0, hands=2.0))
    ]  # fmt: skip
    first, second, third = raising._best_first(offered, 1.0)
    assert (first, second, third) == (offered[1][1], offered[0][1], offered[2][1])


def test_what_does_it_comes_before_what_does_not_then_the_least_work():
    """An hour and a quarter of two are less than half an hour and a quarter of eight."""
    short, cheap = raised(0.9, hands=0.1), raised(1.1, prints=2.0, hands=1.0)
    dear = raised(1.3, prints=8.0, hands=0.5)
    assert raising._cheapest_first([short, dear, cheap]) == [cheap, dear, short]


@pytest.fixture(scope="module")
def wren():
    return ff.read("engines/wren.toml")


def test_what_a_change_takes_is_that_of_its_row(wren):
    """A wider belt: two hours of print and one by hand, as the table has it."""
    change = Raise("Fit a belt of 9 mm", {"cam_drive.width": "9 mm"}, "wider_belt")
    found = raising.raised_by(wren, change, 1e9, "next")
    assert (found.hand_hours, found.print_hours) == pytest.approx((1.0, 2.0))
    assert (found.factor_after, found.next_to_fail) == (1e6, "next")
    pin = Raise("", {"pin.material": "steel"}, "wider_belt")
    assert raising.raised_by(wren, pin, 2.0, "").hand_hours == pytest.approx(0.5)


def test_a_change_is_offered_where_it_helps_by_a_two_hundredth(monkeypatch, wren):
    told = min(REPORTED)
    weak = [way(0.5, "rod.tear"), way(1.234, "pin.bend"), way(0.7, told), way(3.0, "head.lift")]
    after = list(weak)
    monkeypatch.setattr(raising, "_after", lambda *_: after)
    plain = ff.resolve(wren)
    change = Raise("", {"rod.eye_wall": "6 mm"}, "wider_belt")

    def tried(before):
        return raising._judged(wren, margin(before), change, (None, plain))

    assert tried(0.499) is None
    found = tried(0.497)
    assert found.factor_after == 0.5
    assert found.next_to_fail.endswith("at 1.2")
    after[:] = [way(1.0, "rod.tear"), way(2.0, "pin.bend")]
    assert tried(0.5).next_to_fail == ""
    after[:] = [way(2.5, "pin.bend")]
    assert tried(0.5).factor_after == 1e6


def test_a_change_to_what_ends_it_is_offered_where_the_whole_life_gains(monkeypatch, wren):
    """A score of -1 must rise by 0.004; what then ends most engines is told with its factor."""
    changes = [Raise(f"to {at}", {"cam_drive.width": at}, "wider_belt") for at in ("8 mm", "9 mm")]
    weak = replace(margin(0.8, word="fails", ends=0.3), way=way(0.8, raise_by=tuple(changes)))
    then = replace(margin(1.234, "pin.bend"), way=way(1.234, "pin.bend"), ends=0.1)
    scores = {"8 mm": -0.997, "9 mm": -0.995}

    def tried(engine, results, changed):
        assert (engine, results) == (wren, ["result"])
        return over_life.Tried(
            (then, replace(weak, factor=1.5), replace(then, ends=0.05, factor=0.1)), 0.5,
            scores[changed["cam_drive.width"]],
        )  # fmt: skip

    monkeypatch.setattr(raising, "over_life", tried)
    now = SimpleNamespace(score=-1.0)
    monkeypatch.setattr(
        raising, "judged_over_life", lambda *of: now if of == (["result"], [weak]) else None
    )
    monkeypatch.setattr(raising, "at_their_event", lambda *of: {} if of[0] is wren else None)
    monkeypatch.setattr(raising, "shared_out", lambda work, count, **_: [*map(work, range(count))])
    (found,) = raising.with_changes(wren, {"full_throttle": "result"}, [weak])
    (one,) = found.raise_by
    assert one.text == "to 9 mm"
    assert one.factor_after == 1.5
    assert one.next_to_fail.endswith("at 1.2")


def test_a_change_is_tried_at_the_margins_own_second(monkeypatch, wren):
    """Beyond its horizon, at its end: each cylinder under its own peak."""
    bout = SimpleNamespace(gases=(1, 2), horizon=50.0, point=SimpleNamespace(name="full"))
    result = SimpleNamespace(
        engine="engine", events=(SimpleNamespace(event="full_throttle", bouts=(bout,)),)
    )
    monkeypatch.setattr(raising, "with_values", lambda of, changed, **_: (of, changed))
    monkeypatch.setattr(raising, "resolve", lambda of: of)
    monkeypatch.setattr(raising, "felt_by_gas", lambda _: True)
    monkeypatch.setattr(raising, "again", lambda plain, of, _: of if plain[0] == "engine" else None)
    monkeypatch.setattr(raising, "judged_peak", lambda of, row, seconds: (of is bout, row, seconds))
    monkeypatch.setattr(raising, "loads_at", lambda of, plain, peaks: (of is bout, plain, peaks))
    monkeypatch.setattr(
        raising, "moment", lambda of, plain, row, *more: (of is bout, plain, row, *more)
    )

    def judged(at):
        plain, peaks = ("engine", {"a": "b"}), [(True, 0, 50.0), (True, 1, 50.0)]
        assert at == (True, plain, at[2], 50.0, peaks, (True, plain, peaks))
        return (way(1.7, "rod.tear" if at[2] == 0 else "rod.tear#2"),)

    monkeypatch.setattr(raising, "ways", judged)
    asked = margin(1.0, "rod.tear#2", at_seconds=60.0)
    assert raising.factor_with(result, asked, {"a": "b"}) == 1.7


def test_likeliest_to_end_it_is_first_then_likeliest_to_give_way():
    """Chances are told apart by a two hundredth."""
    ends = [margin(1.5, ends=0.3), margin(0.9, ends=0.301), margin(0.5, ends=0.1)]
    assert sorted(ends, key=lambda one: one.rank) == [ends[1], ends[0], ends[2]]
    weak = [margin(1.4, survival=0.90), margin(1.2, survival=0.901), margin(1.1, survival=0.95)]
    assert sorted(weak, key=lambda one: one.rank) == [weak[1], weak[0], weak[2]]
    apart = [margin(1.4, survival=0.90), margin(1.2, survival=0.906)]
    assert sorted(apart, key=lambda one: one.rank) == apart
    assert margin(1.0, ends=0.001).rank[0] == 0
    assert margin(1.0, ends=None).rank[0] == 1
    early = margin(1.4, event="cranking", survival=0.9)
    assert sorted([weak[1], early], key=lambda one: one.rank) == [early, weak[1]]


def test_a_margin_reads_what_its_way_reads_in_its_own_event(monkeypatch):
    """At every point of it, each path once, as they come; nothing of what another event reads."""
    asked = {
        ("cold", "slow"): {"rod.tear": ("rod.width",), "pin.bend": ("pin.bore",)},
        ("warm", "slow"): {"rod.tear": ("rod.width", "rod.length")},
        ("warm", "fast"): {"rod.tear": ("rod.material", "rod.length")},
    }
    events = [
        SimpleNamespace(event="cold", bouts=("slow",)),
        SimpleNamespace(event="warm", bouts=("slow", "fast")),
    ]
    monkeypatch.setattr(judge, "first_moments", lambda event, bout: [(event.event, bout)])
    monkeypatch.setattr(judge, "reads", asked.__getitem__)
    assert judge.read_in(events) == {
        ("cold", "rod.tear"): ("rod.width",),
        ("cold", "pin.bend"): ("pin.bore",),
        ("warm", "rod.tear"): ("rod.width", "rod.length", "rod.material"),
    }
    found = Found(**{**dict.fromkeys(Found.__dataclass_fields__), "events": tuple(events)})
    assert found.read(margin(2.0, "pin.bend", event="cold")) == ("pin.bore",)
    assert found.read(margin(2.0, "pin.bend", event="warm")) == ()
