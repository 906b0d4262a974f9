"""Odds from step to step: each of what is made by then, and no step that seems to do harm."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from firstfire.verdict.improve import odds_on_the_way as way
from firstfire.verdict.improve.odds_on_the_way import on_the_way

FASTER, WIDER, HARDER = {"a": "1"}, {"b": "2"}, {"c": "3", "d": "4"}


def checked(odds):
    return SimpleNamespace(verdict=SimpleNamespace(odds=odds), events=())


@pytest.fixture
def odds_of(monkeypatch):
    """Odds by what is set."""

    def given(known):
        def over_life(_, __, changes, ___):
            odds = known["".join(sorted(changes))]
            return None if odds is None else SimpleNamespace(odds=odds)

        monkeypatch.setattr(way, "over_life", over_life)

    return given


def test_each_has_the_odds_of_all_that_is_made_by_then(odds_of):
    odds_of({"a": 0.3, "ab": 0.6})
    found = on_the_way(None, checked(0.1), checked(0.95), [FASTER, WIDER, HARDER])
    assert found == [(0, 0.3), (1, 0.6), (2, 0.95)]


def test_what_lowers_the_odds_by_itself_goes_behind_the_next(odds_of):
    odds_of({"a": 0.3, "ab": 0.2, "acd": 0.7})
    found = on_the_way(None, checked(0.1), checked(0.95), [FASTER, WIDER, HARDER])
    assert found == [(0, 0.3), (2, 0.7), (1, 0.95)]


def test_two_that_change_the_same_keep_their_order(odds_of):
    odds_of({"a": 0.3, "ab": 0.2})
    again = {"b": "9"}
    found = on_the_way(None, checked(0.1), checked(0.95), [FASTER, WIDER, again])
    assert found == [(0, 0.3), (1, 0.2), (2, 0.95)]


def test_one_step_and_one_that_can_not_be_tried(odds_of):
    odds_of({"a": None})
    assert on_the_way(None, checked(0.1), checked(0.95), [FASTER]) == [(0, 0.95)]
    found = on_the_way(None, checked(0.1), checked(0.95), [FASTER, WIDER])
    assert found == [(0, 0.1), (1, 0.95)]
