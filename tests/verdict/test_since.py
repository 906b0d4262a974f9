"""What a save changed: three lines at most, of what a person looks for."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfire.verdict.compare.since import since
from firstfire.verdict.facts.margin import named
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.sentences import lasting


def leading(result, margin, **more):
    """The result with another margin in front."""
    rest = [m for m in result.margins if m is not margin]
    led = replace(margin, **more)
    verdict = replace(result.verdict, first=led)
    return replace(result, margins=(led, *rest), verdict=verdict)


@pytest.fixture(scope="module")
def rod(result):
    return next(m for m in result.margins if m.way.id == "rod.buckle" and m.event == "first_fire")


def test_nothing_changed(result):
    assert since(result, result) == ["Nothing that is judged changed."]


def test_odds_and_run_time(result):
    ends = result.verdict.ends_first
    then = replace(result.verdict, odds=0.7, ends_first=replace(ends, seconds=2 * ends.seconds))
    told = " ".join(since(result, replace(result, verdict=then)))
    before, after = lasting(ends.seconds), lasting(2 * ends.seconds)
    assert f"{round(20 * result.verdict.odds)} in 20 → 14 in 20" in told
    assert f"full throttle held {before} → {after}" in told


def test_another_one_leads_and_a_word_is_crossed(result, rod):
    after = leading(result, rod, factor=0.8, factor_low=0.5, factor_high=1.2, word="fails")
    told = since(result, after)
    assert "Likeliest to end it is now: con rod buckles (0.8)." in told
    assert "Now otherwise: con rod buckles, holds → fails." in told


def test_the_same_one_leads_with_another_factor(result):
    first = result.verdict.first
    told = since(result, leading(result, first, factor=first.factor * 1.5))
    assert len(told) == 1
    name, before, after = (
        named(result.plain, first.way), two(first.factor), two(first.factor * 1.5)
    )  # fmt: skip
    assert told == [f"Still likeliest to end it: {name} ({before} → {after})."]


@pytest.mark.parametrize("width", [80, 120])
def test_three_lines_however_much_changed(result, width):
    worse = tuple(
        m if m.factor is None else
        replace(m, factor=m.factor / 5, factor_low=m.factor_low / 5, word="fails")
        for m in result.margins
    )  # fmt: skip
    verdict = replace(result.verdict, first=worse[5], odds=0.01, word="fails")
    told = since(result, replace(result, margins=worse, verdict=verdict), width)
    assert 2 <= len(told) <= 3
    assert max(map(len, told)) <= width
    assert "more" in told[-1]
