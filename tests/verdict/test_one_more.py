"""One more way to fail, and one more event, each in the number of files that CONTRIBUTING says.

A way is one file of `parts` and a line of the list; an event that is run as another is one record.
"""

from __future__ import annotations

import pytest

import firstfire as ff
from firstfire.drawing.naming import slug_of
from firstfire.engine import events
from firstfire.engine.events import EVENTS, Event, Words, during
from firstfire.engine.records import Way
from firstfire.parts import all as all_parts
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.report.page import report
from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.explain.text import explain_text
from firstfire.verdict.words.text.show import check_text

FLATTENS = Failure(
    id="rod.stamp.flatten", part="con rod", failure="has its stamp flattened", unit="N",
    formula="largest thrust in the rod, against twice as much", source="made up for this test",
    during=GAS, demand_is="what it feels", capacity_is="what it bears",
)  # fmt: skip


@judges(FLATTENS)
def flattens(moment) -> Way:
    felt = float(abs(moment.loads.cylinders[moment.cylinder].rod).max())
    thrust = moment.given("thrust", felt)
    return FLATTENS.way(moment, demand=thrust, capacity=thrust / 2, governs="section")


@pytest.fixture
def one_more_way(monkeypatch):
    monkeypatch.setattr(all_parts, "JUDGEMENTS", (*all_parts.JUDGEMENTS, flattens))
    all_parts.judged_during.cache_clear()
    yield
    monkeypatch.undo()
    all_parts.judged_during.cache_clear()


@pytest.mark.slow
def test_one_more_way_shows_wherever_ways_are_told(one_more_way):
    result = ff.check(ff.read("engines/wren.toml"), only=["first_fire"], changes=False, drawn=14)
    margin = next(m for m in result.margins if m.way.id == "rod.stamp.flatten")
    assert (margin.factor, margin.word) == (0.5, "fails")
    told_as = "con rod has its stamp flattened"
    assert told_as in " ".join(result.sentence.split())
    assert told_as in " ".join(check_text(result).split())
    assert '"rod.stamp.flatten"' in result.to_json()
    opened = " ".join(explain_text(explanation(result, margin)).split())
    assert "made up for this test" in opened
    assert "what it bears" in opened
    assert told_as in report(result)
    assert slug_of("rod.stamp.flatten") == "rod-1"


@pytest.fixture
def one_more_event(monkeypatch):
    lugging = Event(
        "lugging", "throttle open at a crawl", EVENTS["full_throttle"].going_on, "held",
        Words("lugging", "within the first second of lugging", "its first second of lugging",
              "lug", "lug", "Lugging"),
        horizon=5.0,
    )  # fmt: skip
    monkeypatch.setattr(events, "_BY_ID", events._BY_ID)
    monkeypatch.setitem(events._BY_ID, "lugging", lugging)


@pytest.mark.slow
def test_one_more_event_is_run_and_judged(one_more_event):
    result = ff.run(ff.read("engines/wren.toml"), "lugging", drawn=2)
    assert result.points[0].event == "lugging"
    assert result.bouts[0].horizon == 5.0
    assert {margin.event for margin in ff.judge(result, 1.0)} == {"lugging"}
    assert during("lugging") == "lugging"
