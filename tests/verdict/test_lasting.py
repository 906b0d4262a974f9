"""One curve an event, joint over the engines drawn; limits' times as a distribution."""

from __future__ import annotations

import json
import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import Fate, clock
from firstfire.verdict.facts.lasting import lasting_of
from firstfire.verdict.facts.run_time import share_past
from firstfire.verdict.words.lasting_words import curve_words


def event(*points):
    """An event in which engines come to what is said: for each point, one table an engine."""
    ensembles = tuple(
        Ensemble((), tuple(Fate({}, seconds) for seconds in engines)) for engines in points
    )
    bouts = [SimpleNamespace(horizon=600.0)] * len(points)
    return SimpleNamespace(event="full_throttle", ensembles=ensembles, bouts=bouts)


def test_an_engine_goes_with_its_first_part_and_never_as_a_product():
    """Two parts that always go together take no more engines than one of them."""
    both = [{"rod.tear": t, "rod.buckle": t} for t in (10.0, 20.0, math.inf, math.inf)]
    one = lasting_of([event(both)])[0]
    assert one.chance[0] == 1.0
    assert one.chance[-1] == 0.5
    assert sum(ender.share for ender in one.takes) == pytest.approx(0.5)


def test_the_speed_at_which_it_goes_soonest_counts():
    slow = [{"rod.tear": 40.0}, {"rod.tear": math.inf}]
    fast = [{"rod.buckle": math.inf}, {"rod.buckle": 5.0}]
    one = lasting_of([event(slow, fast)])[0]
    assert {ender.id: ender.seconds for ender in one.takes} == {"rod.tear": 40.0, "rod.buckle": 5.0}
    assert one.chance[-1] == 0.0


def test_of_parts_that_go_at_once_the_weakest_is_told():
    """Else the first of the alphabet was: a head, where a crank joint had slipped long before."""
    gone = event([{"crank.joint.slip": 0.0, "head.lift": 0.0}])
    logs = {"head.lift": -0.5, "crank.joint.slip": -2.0}
    fates = tuple(Fate(logs, fate.seconds) for fate in gone.ensembles[0].fates)
    gone.ensembles = (Ensemble((), fates),)
    assert [ender.id for ender in lasting_of([gone])[0].takes] == ["crank.joint.slip"]


def test_a_charred_skin_ends_no_engine():
    one = lasting_of([event([{"piston.crown.char": 0.5, "rod.tear": math.inf}])])[0]
    assert one.chance[-1] == 1.0
    assert not one.takes


def test_the_curve_never_rises_and_has_its_three_times():
    times = np.geomspace(1.0, 500.0, 64)
    one = lasting_of([event([{"rod.tear": t} for t in times])])[0]
    assert all(a >= b for a, b in zip(one.chance, one.chance[1:], strict=False))
    assert one.nineteen == pytest.approx(np.quantile(times, 0.05, method="weibull"))
    assert one.even == pytest.approx(np.quantile(times, 0.5, method="weibull"))
    assert one.one == pytest.approx(np.quantile(times, 0.95, method="weibull"))


def test_what_is_beyond_the_horizon_is_no_number():
    one = lasting_of([event([{"rod.tear": 3.0}, *[{"rod.tear": math.inf}] * 9])])[0]
    assert one.even is None
    assert one.one is None
    assert "1 in 20 hold for over 10 min" in curve_words(one)


def test_what_goes_at_once_is_said_so():
    one = lasting_of([event([{"rod.tear": 0.0}, *[{"rod.tear": 8.0}] * 9])])[0]
    assert "fewer than 19 in 20 engines like it hold at all" in curve_words(one)


def test_a_share_between_two_engines_is_between_their_times():
    assert share_past(np.array([1.0, 3.0]), 0.5) == 2.0
    assert share_past(np.array([1.0, math.inf]), 0.95) is None


def test_the_clock_has_the_second_that_margins_are_judged_at():
    assert any(second == pytest.approx(1.0) for second in clock(600.0))
    assert clock(3600.0)[-1] == 3600.0


def test_numbers_are_numbers_in_json():
    told = lasting_of([event([{"rod.tear": 3.0}, {"rod.tear": math.inf}])])[0]
    from firstfire.verdict.told.margins_contract import RunCurveTold

    json.dumps(RunCurveTold.made_of(told).model_dump(), allow_nan=False)
