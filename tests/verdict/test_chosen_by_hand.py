"""What is chosen and what makes a span, from numbers small enough to be worked out by hand."""

from __future__ import annotations

import math
from pathlib import Path
from types import SimpleNamespace as Some

import pytest

import firstfire as ff
from firstfire.engine.records import Raise
from firstfire.verdict.explain.opening import _makers, movers
from firstfire.verdict.facts import raising
from firstfire.verdict.facts.margin import Dependence
from firstfire.verdict.facts.raising import raised_by, work
from firstfire.verdict.improve.improve import _best
from firstfire.verdict.told import starting

WREN = ff.read(Path(__file__).resolve().parents[2] / "engines" / "wren.toml")
NINETY = 1.6449


def margin(low: float, high: float, *slopes: tuple[str, float]):
    return Some(
        factor_low=low, factor_high=high, depends_on=[Dependence(path, e) for path, e in slopes]
    )


def test_shares_of_a_span_are_squares_of_slopes_over_its_variance():
    """A span of e^(2 · 1.6449 · 0.5) has a deviation of 0.5: slopes of 0.4 and 0.2 make 64 and 16
    of 100 parts of its variance, all else 20."""
    high = math.exp(2 * NINETY * 0.5)
    made = list(
        _makers(WREN, margin(1.0, high, ("doubt.wall_heat", 0.4), ("doubt.burn_duration", -0.2)))
    )
    assert [maker.share for maker in made] == pytest.approx([0.64, 0.16, 0.20], abs=1e-3)
    assert made[-1].words == "all else together"


def test_where_makers_alone_come_to_more_than_the_span_they_share_it():
    """Slopes of 0.6 and 0.8 alone make a variance of 1, more than the span's 0.25."""
    high = math.exp(2 * NINETY * 0.5)
    made = list(_makers(WREN, margin(1.0, high, ("doubt.wall_heat", 0.6), ("doubt.flow", 0.8))))
    assert [maker.share for maker in made] == pytest.approx([0.36, 0.64], abs=1e-6)


def test_a_change_is_chosen_by_what_it_gains_an_hour():
    """Of two that gain alike, the one of less work; of like work, the one that gains more."""
    little = Raise("Turn the screws less", {"head.fasteners.torque": "2 N*m"}, "retighten")
    much = Raise("Print the body anew", {"body.outside_diameter": "70 mm"}, "reprint_body")
    now = Some(score=0.30)
    hours = [work(raised_by(WREN, change, math.nan, "")) for change in (little, much)]
    assert hours[0] < hours[1]
    asked = [(None, much), (None, little)]
    alike = [Some(score=0.50), Some(score=0.50)]
    assert _best(WREN, now, asked, alike)[0] == 1
    dearer = 0.30 + 0.20 * hours[1] / hours[0]
    assert _best(WREN, now, asked, [Some(score=1.05 * dearer), alike[1]])[0] == 0
    assert _best(WREN, now, asked, [Some(score=0.95 * dearer), alike[1]])[0] == 1
    assert _best(WREN, now, asked, [None, Some(score=0.30)]) is None


def test_a_start_is_told_in_turns_a_minute(monkeypatch):
    """π/30 rad/s is a turn a minute: 31.4, 26.2 and 28.3 rad/s are 300, 250 and 270 rpm."""
    monkeypatch.setattr(starting, "helps", lambda *_: ())
    over = Some(
        over=True, from_rest=False, peak_torque=9.0, mean_torque=1.2, stall_torque=50.0,
        lacking_torque=0.0, inertia=2e-3, compression_energy=6.0, stored_energy=1.0,
        speed=10 * math.pi, crank_speed=12 * math.pi, gauge=(8e5,),
        slowest=25 * math.pi / 3, at_top=9 * math.pi, pulls=3,
    )  # fmt: skip
    told = starting.told_starting(Some(starting=over))
    assert (told.speed_reached_rpm, told.slowest_rpm, told.at_top_rpm) == pytest.approx(
        (300.0, 250.0, 270.0)
    )
    over.over = False
    told = starting.told_starting(Some(starting=over))
    assert told.speed_reached_rpm is told.slowest_rpm is told.at_top_rpm is None


def test_a_start_in_brief_is_told_in_degrees_and_turns_a_minute():
    begins, kick = Some(safe=math.pi / 6, least=20 * math.pi), Some(factor=2.5)
    told = starting.told_begins(Some(begins=begins, kick=kick))
    assert told.earliest_safe_spark_deg == pytest.approx(30.0)
    assert told.kick_factor == 2.5
    assert told.keeps_going_from_rpm == pytest.approx(600.0)
    never = Some(safe=math.inf, least=math.inf)
    for unjudged in (None, Some(factor=None)):
        told = starting.told_begins(Some(begins=never, kick=unjudged))
        assert told.kick_factor is None
    assert told.earliest_safe_spark_deg is told.kick_factor is told.keeps_going_from_rpm is None
    assert starting.told_begins(Some(begins=None, kick=None)) is None


def test_only_what_moves_a_factor_by_half_a_hundredth_is_told():
    """Of a/(b + c) with c a twentieth of b, a tenth more of a makes 1.1, of b 1/1.095; of c
    1/1.0048, which is told; with c a twenty-fifth it is 1/1.0038, which is not."""

    def way(c: float):
        lines = (
            Some(name="demand", expression="rod.length + liner.outside_diameter"),
            Some(name="capacity", expression="cylinder.bore"),
        )
        inputs = {"cylinder.bore": 1050.0, "rod.length": 100.0, "liner.outside_diameter": c}
        return Some(inputs=inputs, working=lines, factor=1050.0 / (100.0 + c))

    said = [len(movers(way(c))) for c in (6.0, 4.0)]
    assert said[0] == said[1] + 1


def test_a_change_helps_that_raises_a_factor_by_more_than_half_a_hundredth(monkeypatch):
    """From 2: 2.02 does, 2.009 doesn't, nor what can't be judged any more; what is gone does."""
    margin_ = Some(way=Some(id="pin.bend"), factor=2.0)
    change = Raise("Take a thicker pin", {"pin.diameter": "9 mm"}, "steel_piston_pin")

    def tried(factor: float, *, judged: bool = True, ident: str = "pin.bend"):
        after = [Some(id=ident, judged=judged, factor=factor)]
        monkeypatch.setattr(raising, "_after", lambda *_: after)
        monkeypatch.setattr(raising, "_next", lambda *_: "")
        return raising._judged(WREN, margin_, change, (None, None))

    assert tried(2.02).factor_after == pytest.approx(2.02)
    assert tried(2.009) is None
    assert tried(9.0, judged=False) is None
    assert tried(1.0, ident="rod.bend").factor_after == 1e6
