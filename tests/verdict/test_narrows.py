"""What to measure first as the card has it: the same that the doubt's own list begins with."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfire.engine.readings_table import READINGS
from firstfire.verdict.doubt.doubt import doubts
from firstfire.verdict.facts.narrows import TELLING, narrows
from firstfire.verdict.words.card import card


def test_it_is_what_the_whole_list_has_for_the_odds(result):
    """Of all that is read before it runs, the one that takes most of the doubt of the odds."""
    told = {worth.reading.words: worth.told["odds"] for worth in doubts(result).readings}
    best = max(told, key=lambda words: told[words])
    assert result.narrows is not None
    assert result.narrows.reading.words == best
    assert result.narrows.decides == pytest.approx(told[best])
    assert result.narrows.decides >= TELLING
    assert result.narrows.paths == ("doubt.nut_factor",)


def test_nothing_is_named_where_the_verdict_is_sure(twin):
    """Hardly one heron gets through its first second, whatever its numbers are."""
    assert twin.verdict.odds < 0.005
    assert twin.narrows is None
    assert twin.as_dict()["narrows_most"] is None
    assert not [line for line in card(twin) if line.name == "measure first"]


def test_its_line_and_json_name_a_test_piece_where_one_tells_it(result):
    line = next(line for line in card(result) if line.name == "measure first")
    assert line.value == result.narrows.reading.words
    assert "decides 3 in 100" in line.more
    bar = next(row for row in READINGS if row.piece == "bar")
    named = replace(bar, words="strength of PETG from layer to layer")
    found = replace(result, narrows=replace(result.narrows, reading=named))
    line = next(line for line in card(found) if line.name == "measure first")
    assert line.value == "test piece (bar): strength of PETG from layer to layer"
    told = found.as_dict()["narrows_most"]
    assert told["test_piece"] == "bar"
    assert "firstfire coupon" in told["how"]


def test_only_what_is_drawn_is_asked(result):
    """Without margins nothing is in doubt, so that nothing narrows it."""
    assert narrows(result.engine, result.events, []) is None


def test_pieces_are_those_that_coupon_has():
    assert {row.piece for row in READINGS} == {"", "bar", "joint"}
    assert all("firstfire coupon" in row.how for row in READINGS if row.piece)
