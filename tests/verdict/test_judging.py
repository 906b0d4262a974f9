"""Margins, words, odds, run times and changes: what they promise."""

import math
from dataclasses import replace

import numpy as np
import pytest

from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.engine.resolve import resolve
from firstfire.parts.all import ways
from firstfire.runs.moments import judged_peak, loads_at, moment, strongest_of
from firstfire.runs.spread import Trials
from firstfire.verdict.facts import anew, raising
from firstfire.verdict.facts.decide import verdict
from firstfire.verdict.facts.judge import judge, word
from firstfire.verdict.facts.odds import joint_odds
from firstfire.verdict.facts.ranking import ranked
from firstfire.verdict.facts.run_time import run_times


def way(factor, *, hazard=False):
    return Way("x.y", "x", "y", 1.0, factor, "N", hazard, "section", None, "a / b", "a book")


@pytest.mark.parametrize(
    ("factor", "low", "least", "hazard", "says"),
    [
        (0.99, 0.5, 0.4, False, "fails"),
        (1.0, 0.99, 0.9, False, "marginal"),
        (1.5, 1.0, 0.9, False, "holds"),
        (1.5, 1.0, 0.9, True, "marginal"),  # what bursts must hold the 1-in-1000 cycle too
        (1.5, 1.1, 1.0, True, "holds"),
        (1.5, 1.1, math.nan, True, "marginal"),
    ],
)
def test_words(factor, low, least, hazard, says):
    assert word(way(factor, hazard=hazard), low, least) == says


def test_the_same_result_can_be_judged_at_any_second(events):
    full = events["full_throttle"]
    early, late = judge(full, 1.0), judge(full, 30.0)
    assert {m.way.id for m in early} == {m.way.id for m in late}
    crown = {m.way.id: m.factor for m in early}["piston.crown.break"]
    later = {m.way.id: m.factor for m in late}["piston.crown.break"]
    assert later < crown


def test_low_and_high_are_five_and_ninety_five_per_cent_of_the_sampled_factors(wren, events):
    """The first-order span against a response surface sampled 100,000 times.

    The surface is quadratic in each unknown that moves the way, fitted through the factor at one
    deviation below, at, and above the centre; without gas, whose unknowns stay at their centre.
    """
    cranked = events["cranking"]
    bout, plain = cranked.bouts[0], cranked.engine
    margin = next(m for m in judge(cranked, 10.0) if m.way.id == "head.washer.sink")
    trials = Trials(wren)
    rng = np.random.default_rng(3)
    logs = np.zeros(100_000)
    centre = math.log(margin.factor)
    for unknown in trials.unknowns:
        if unknown.path.startswith(("doubt.flow", "leak", "surroundings", "intake")):
            continue
        size = math.log(unknown.high / unknown.low) / 3.2897 if unknown.low > 0 else 0.0
        if unknown.distribution == "normal" or size == 0.0:
            continue
        at = {}
        for z in (-1, 1):
            moved = resolve(wren, {unknown.path: unknown.centre * math.exp(z * size)})
            peaks = [judged_peak(bout, 0, 10.0)]
            found = ways(moment(bout, moved, 0, 10.0, peaks, loads_at(bout, moved, peaks)))
            at[z] = math.log(next(w for w in found if w.id == "head.washer.sink").factor) - centre
        slope, bend = (at[1] - at[-1]) / 2, (at[1] + at[-1]) / 2
        z = rng.standard_normal(logs.size)
        logs += slope * z + bend * z**2
    low, high = np.exp(centre + np.quantile(logs, [0.05, 0.95]))
    # 5 %: the gas's unknowns move this way by less, and the first order leaves out the bend.
    assert margin.factor_low == pytest.approx(low, rel=0.05)
    assert margin.factor_high == pytest.approx(high, rel=0.05)
    assert plain.name == "wren"


def test_joint_odds_are_no_better_than_the_worst_and_no_worse_than_independent(events):
    margins = [m for m in judge(events["first_fire"], 0.0) if m.factor is not None]
    counted = [m for m in margins if not m.reported and m.way.unit != "K"]
    odds = joint_odds(list(events.values()), counted)
    survivals = [m.survival for m in counted]
    # 20,000 draws: three standard errors of a probability near a half are 0.011.
    assert odds <= min(survivals) + 0.011
    assert odds >= math.prod(survivals) - 0.011


def test_the_first_event_of_a_life_that_fails_decides(events):
    cranked = judge(events["cranking"], 10.0)
    full = judge(events["full_throttle"], 1.0)
    bad = replace(full[0], word="fails", factor=0.1, way=way(0.1))
    worse = replace(cranked[0], word="fails", factor=0.9, way=way(0.9))
    found = verdict(list(events.values()), ranked(list(events.values()), [bad, worse]), ())
    assert found.first.way is worse.way
    assert found.word == "fails"


@pytest.mark.parametrize(
    ("free", "leads"),
    [
        ({"load.kind": "none", "spark.limit_speed": None}, True),
        ({"load.kind": "propeller", "spark.limit_speed": None}, False),
        ({"load.kind": "none", "spark.limit_speed": 400.0, "spark.limited_by": "spark"}, False),
    ],
)
def test_a_free_rev_leads_only_of_an_engine_that_nothing_keeps(wren, events, free, leads):
    """What a free rev breaks of an engine with a limiter or a load is not how its life ends."""
    run_away = events["free_rev"]
    kept = replace(run_away, engine=resolve(wren, free))
    (margin,) = [replace(judge(run_away, 3.0)[0], word="fails", factor=0.1, way=way(0.1))]
    found = verdict([kept], ranked([kept], [margin]), ())
    assert (found.first is not None) is leads
    assert found.word == ("fails" if leads else "not judged")


def test_the_strongest_of_more_cycles_is_stronger(events):
    peaks = events["full_throttle"].points[0].peaks[0]
    grown = [strongest_of(peaks, n) for n in (1, 20, 1000, 100_000)]
    assert grown == sorted(grown)
    # By definition the largest expected of 1000 is about the 1-in-1000 cycle.
    assert grown[2] == pytest.approx(peaks.rare, rel=0.01)


def test_run_times_bracket_their_centre(events):
    limits = run_times(events["full_throttle"])
    assert limits
    for limit in limits:
        if limit.seconds is not None:
            assert limit.seconds_low is not None
            assert limit.seconds_low <= limit.seconds
            assert limit.seconds_high is None or limit.seconds <= limit.seconds_high
    ids = {limit.way.id for limit in limits if limit.seconds is not None}
    assert {"piston.shield.loosen", "piston.land.break"} <= ids


def test_every_change_offered_does_what_it_says(wren, result, events):
    """Each is made anew with the file's own path=value and judged at its own event and second.

    Besides what is offered of wren, of which little is left to raise, the changes that would be
    were all that holds marginal.
    """
    doubted = [replace(m, word="marginal") if m.word == "holds" else m for m in result.margins]
    tried = 0
    for margin in (*result.margins, *raising.with_changes(wren, events, doubted)):
        for raised in margin.raise_by:
            changed = resolve(with_values(wren, raised.set))
            bout = next(b for b in events[margin.event].bouts if b.point.name == margin.point)
            if anew.felt_by_gas(raised.set):
                bout = anew.again(changed, bout, None)  # gas or walls feel it
            peaks = [judged_peak(bout, 0, margin.at_seconds)]
            felt = loads_at(bout, changed, peaks)
            after = ways(moment(bout, changed, 0, margin.at_seconds, peaks, felt))
            same = next((w for w in after if w.id == margin.way.id), None)
            if same is not None:
                assert same.factor == pytest.approx(raised.factor_after, rel=0.01)
                assert same.factor > margin.factor
            tried += 1
    assert tried >= 8


def test_the_sentence_tells_what_decides_and_promises_nothing(result):
    text = result.sentence
    assert text.startswith("wren, single of 40")
    assert "an estimate." in text
    assert "safe" not in text
    assert "will start" not in text
