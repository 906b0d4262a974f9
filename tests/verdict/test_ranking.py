"""One ranking: by the chance to end the engine, in the order of its life."""

import math
from dataclasses import replace

import pytest

from firstfire.verdict.explain.find import listed
from firstfire.verdict.facts.decide import verdict
from firstfire.verdict.facts.judge import judge
from firstfire.verdict.facts.odds import joint_odds
from firstfire.verdict.facts.ranking import counts, life, ranked
from firstfire.verdict.words.ledger import base, ledger
from firstfire.verdict.words.sentences import sentence


@pytest.fixture(scope="module")
def margins(events):
    found = [m for event, one in events.items() for m in judge(one, {"idle": 1.0}.get(event, 1.0))]
    return ranked(list(events.values()), found)


def _with_factor(margin, factor):
    """A margin whose way has another factor."""
    way = replace(margin.way, demand=1.0, capacity=factor)
    return replace(margin, way=way, factor=factor, word="fails" if factor < 1 else "holds")


def test_what_ends_engines_and_what_leaves_them_is_all_of_them(events, margins):
    """Each engine drawn ends by one thing or survives: no share is lost or counted twice."""
    results = list(events.values())
    assert "free_rev" not in life(results)  # wren has a limiter
    counted = [m for m in margins if counts(m) and m.event in life(results)]
    ended = math.fsum(m.ends for m in counted)
    assert ended + joint_odds(results, counted) == pytest.approx(1.0, abs=1e-9)


def test_an_early_killer_stands_before_a_later_one(events, margins):
    """Both break every engine: the earlier ends them all, though the later has the lower factor.

    One in a hundred hardly burns at first and feels a fifth of the pressure; so a tenth of that.
    """
    early = next(m for m in margins if m.event == "first_fire" and counts(m))
    late = next(m for m in margins if m.event == "full_throttle" and counts(m))
    bad, worse = _with_factor(early, 0.02), _with_factor(late, 0.01)
    found = ranked(list(events.values()), [worse, bad])
    assert [m.event for m in found] == ["first_fire", "full_throttle"]
    assert found[0].ends > 0.99
    assert found[1].ends < 0.01


def test_a_likely_killer_stands_before_an_unlikely_earlier_one(events, margins):
    early = next(m for m in margins if m.event == "first_fire" and counts(m))
    late = next(m for m in margins if m.event == "full_throttle" and counts(m))
    found = ranked(list(events.values()), [_with_factor(early, 2.5), _with_factor(late, 0.3)])
    assert [m.event for m in found] == ["full_throttle", "first_fire"]


def test_of_several_at_once_the_weakest_ends_it(events, margins):
    one, other = [m for m in margins if m.event == "first_fire" and counts(m)][:2]
    found = ranked(list(events.values()), [_with_factor(one, 0.2), _with_factor(other, 0.02)])
    assert found[0].way.id == other.way.id
    assert found[0].ends > 0.9


def test_what_is_only_told_or_comes_with_the_clock_ends_nothing(margins):
    for margin in margins:
        if margin.reported or margin.way.unit == "K" or margin.factor is None:
            assert margin.ends is None
    first_without = next(at for at, m in enumerate(margins) if m.ends is None)
    assert all(m.ends is None for m in margins[first_without:])


def test_sentence_ledger_list_and_verdict_begin_with_the_same(result):
    first = result.verdict.first
    assert result.margins[0] is first
    assert ledger(result.margins, result.plain)[0].margin is first
    assert listed(result.margins)[0].worst is first
    assert first.way.part in result.sentence
    assert result.as_dict()["verdict"]["first_to_fail"] == first.way.id
    lines = [base(line.margin.way) for line in ledger(result.margins, result.plain)]
    assert len(lines) == len(set(lines))


def test_all_holds_is_said_only_where_every_word_says_so(result, events):
    results = list(events.values())
    marginal = [replace(m, word="marginal") if m.word == "holds" and counts(m) else m
                for m in result.margins]  # fmt: skip
    said = sentence(replace(result, verdict=verdict(results, marginal, ()), margins=marginal))
    assert "all that is judged holds" not in said
    holding = [replace(m, word="holds") if m.factor is not None else m for m in result.margins]
    said = sentence(replace(result, verdict=verdict(results, holding, ()), margins=holding))
    assert "all that is judged holds" in said


def test_the_headline_hides_no_worse_joint(result, events):
    """A little short of holding leads, for it is earlier: what breaks surely later is named too."""
    early = next(m for m in result.margins if m.event == "first_fire" and counts(m))
    late = next(m for m in result.margins if m.event == "full_throttle" and counts(m)
                and base(m.way) != base(early.way))  # fmt: skip
    bad, worse = _with_factor(early, 0.97), _with_factor(late, 0.37)
    found = ranked(list(events.values()), [bad, worse])
    said = sentence(
        replace(result, margins=tuple(found), verdict=verdict(list(events.values()), found, ()))
    )
    assert "0.97" in said
    assert "0.37" in said
    assert late.way.part in said
