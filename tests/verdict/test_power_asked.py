"""A wish for power stays in the file, and the card says how near the engine comes."""

from types import SimpleNamespace

import pytest

from firstfire.verdict.words import card as cards
from firstfire.verdict.words.made import MadeLine


def told(monkeypatch, asked, asked_at, made_at):
    """The card's line on a wish, of an engine that was run at one speed."""
    point = SimpleNamespace(event="full_throttle", speed=made_at)
    line = MadeLine(point, "", "260 W", "", "", "", "", "", "", power_span="(210–310)")
    monkeypatch.setattr(cards, "made", lambda _: (line,))
    use = SimpleNamespace(power_asked=asked, power_asked_at=asked_at)
    result = SimpleNamespace(plain=SimpleNamespace(use=use), events=())
    return [f"{one.name}: {one.value}" for one in cards._asked(result)]


RPM = 3.14159265 / 30


def test_it_says_what_was_asked_and_what_it_makes_there(monkeypatch):
    (line,) = told(monkeypatch, 300.0, 3000 * RPM, 3000 * RPM)
    assert line.replace("\u202f", " ") == "power asked: 300 W at 3000 rpm; makes 260 W (210–310)"


@pytest.mark.parametrize("elsewhere", [2000 * RPM, 4000 * RPM])
def test_a_speed_that_was_not_run_says_so(monkeypatch, elsewhere):
    (line,) = told(monkeypatch, 300.0, 3000 * RPM, elsewhere)
    assert line.endswith("it was not run there")


def test_nothing_is_said_where_nothing_was_asked(monkeypatch):
    assert told(monkeypatch, None, None, 3000 * RPM) == []
