"""How far a kick-back's margin moves with each input, from climbs whose energies are round."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace as Some

import pytest

from firstfire.engine.climb import Climb
from firstfire.runs import climb_spread, followed_up, moments
from firstfire.runs.drawn import MIXTURE_AT_START, SPEED, SPEED_SPREAD

MIXTURE = "intake.equivalence_ratio"


def unknown(path):
    return Some(path=path)


class Trials:
    """An engine whose factor is 4: what is moved is told by its path."""

    centre = "centre"

    def __init__(self):
        self.halves = {}

    def for_bout(self, _):
        paths = ("doubt.burn_duration", "rod.length", MIXTURE, "cylinder.bore", "leak.ring")
        return [unknown(path) for path in paths]

    def moved(self, one, half=None):
        self.halves[one.path] = half
        return one.path


AFTER = {"doubt.burn_duration": 8.0, MIXTURE: 2.0, "cylinder.bore": math.inf, "leak.ring": None}


@pytest.fixture
def spread(monkeypatch):
    asked = []

    def follow(plain, bout, *, quicker=1.0, rare=True, stop=None):
        asked.append((plain, quicker, rare))
        return ("quicker" if quicker != 1.0 else plain,)

    def factors(trials, bout):
        if bout == "bout":
            return {"crank.kick_back": 4.0}
        found = {**AFTER, "quicker": 4.0 * math.e}[bout[0]]
        return {} if found is None else {"crank.kick_back": found}

    monkeypatch.setattr(climb_spread, "followed_up", follow)
    monkeypatch.setattr(climb_spread, "_factors", factors)
    monkeypatch.setattr(
        climb_spread, "shared_out", lambda work, count, **_: [work(n) for n in range(count)]
    )
    monkeypatch.setattr(climb_spread, "direction", lambda path: -1 if path == MIXTURE else 1)
    trials = Trials()
    return climb_spread.climb_spread(trials, "bout"), trials, asked


def test_a_slope_is_the_logarithm_of_what_a_deviation_does(spread):
    """8 of 4 is ln 2; 2 of 4 downwards is ln 2 too; without a factor nothing is known, 0."""
    found, _, _ = spread
    names = ("doubt.burn_duration", MIXTURE, "cylinder.bore", "leak.ring", SPEED)
    assert tuple(found.names) == names
    two = math.log(2.0)
    assert found.slopes["crank.kick_back"] == pytest.approx((two, two, 0.0, 0.0, 1.0))


def test_only_the_strong_one_is_followed_and_the_starter_turns_a_deviation_quicker(spread):
    _, trials, asked = spread
    assert asked == [
        *((path, 1.0, False) for path in AFTER), ("centre", SPEED_SPREAD, False),
    ]  # fmt: skip
    assert trials.halves == {**dict.fromkeys(AFTER), MIXTURE: MIXTURE_AT_START}


def test_a_followed_bout_has_a_climb_a_cylinder_strong_and_rare(monkeypatch):
    seen = []

    def climbs(plain, row, turned, strong, stop):
        seen.append((row, turned, strong))
        return Climb(gas=10.0 * row + strong)

    turns = Some(quicker=lambda times: f"turned {times}")
    monkeypatch.setattr(followed_up, "climb", climbs)
    monkeypatch.setattr(followed_up, "steadily", lambda *_: turns)
    monkeypatch.setattr(followed_up, "replace", lambda _, **found: found)
    twin = Some(cylinders=("one", "other"), starter=Some(decompression=False))
    found = followed_up.followed_up(twin, "bout", quicker=1.1)
    # 1 in 20 and 1 in 1000 of a normal spread: 1.645 and 3.090 deviations
    assert [one.gas for one in found["climbs"]] == pytest.approx([1.645, 11.645], abs=1e-3)
    assert [one.gas for one in found["rare_climbs"]] == pytest.approx([3.090, 13.090], abs=1e-3)
    assert {turned for _, turned, _ in seen} == {"turned 1.1"}
    found = followed_up.followed_up(twin, "bout", rare=False)
    assert found["rare_climbs"] == found["climbs"]
    monkeypatch.setattr(followed_up, "steadily", lambda *_: None)
    found = followed_up.followed_up(twin, "bout")
    assert {one.why_not for one in found["climbs"] + found["rare_climbs"]} == {
        followed_up.NOT_TURNED
    }


def test_a_rarer_peak_than_the_strong_one_has_the_rarer_climb():
    strong, rare = Climb(gas=1.0), Climb(gas=2.0)
    bout = Some(
        climbs=(strong, strong), rare_climbs=(rare, rare),
        point=Some(peaks=(Some(strong=30e5), Some(strong=20e5))),
    )  # fmt: skip
    assert moments._climb(bout, 0, 30e5) is strong
    assert moments._climb(bout, 1, 21e5) is rare
    assert moments._climb(Some(climbs=()), 0, 30e5) is None
    assert replace(strong, gas=2.0) == rare
