"""The first screen, the ledger's bars and commands: where each word stands, counted by hand."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from firstfire.engine.records import Way
from firstfire.verdict.facts.margin import Margin, RunTime
from firstfire.verdict.words import sentences
from firstfire.verdict.words.commands import Asked, in_lines
from firstfire.verdict.words.text import ledger, screen

ONE = SimpleNamespace(cylinders=(None,))


def way(ident="rod.tear", **more):
    return Way(
        ident, "con rod", "is torn apart", 50.0, 100.0, "N", False, "section", None, "", "", **more
    )


def margin(factor=2.0, word="holds", ident="rod.tear", **more):
    parts = {"event": "full_throttle", "raise_by": (), **more}
    return Margin(
        way(ident), parts["event"], "full", 1.0, factor, factor / 2, factor * 2, word, 0.9, (),
        raise_by=parts["raise_by"],
    )  # fmt: skip


# Bars and the ledger.
@pytest.mark.parametrize(
    ("factor", "length", "told"),
    [
        (5.0, 10, "##--------"), (2.5, 20, "########------------"), (0.25, 20, "#####" + 15 * "="),
        (-1.0, 10, 10 * "="), (1.0, 10, 10 * "#"),
    ],
)  # fmt: skip
def test_a_bar_has_a_fifth_of_its_letters_for_a_factor_of_five(factor, length, told):
    """10 / 5 = 2 and 20 / 2.5 = 8 of what it holds; 20 · 0.25 = 5 of what it feels."""
    assert ledger.bar(factor, length) == told


def test_names_begin_behind_word_bar_span_and_event():
    """2 and 9, 10 of a bar, a space, 17 and a space, 6 of the event: from the 47th letter on."""
    margins = [margin(), margin(0.5, "fails", "pin.bend"), margin(3.0, ident="head.lift")]
    lines = list(ledger.ledger_lines(margins, ONE, most=2))
    assert [line.index("con rod") for line in lines[:2]] == [46, 46]
    assert lines[0].startswith("  holds    #####-----")
    assert lines[2].strip() == ledger.LEGEND
    assert lines[3] == "  and 1 more, less likely to end it; --json has them all"
    wide = list(ledger.ledger_lines(margins, ONE, most=3, width=100))
    assert [line.index("con rod") for line in wide[:3]] == [56, 56, 56]
    assert len(wide) == 4


def test_limits_stand_behind_their_times():
    """2 and 8, 2, 22 and 10: names from the 45th letter on."""
    limit = RunTime("full_throttle", "full", way(), 45.0, 30.0, 60.0, None, None, False)
    (line,) = ledger.run_time_lines([limit], ONE)
    assert line.index("con rod") == 44


# Commands in lines.
def test_pieces_fill_a_line_and_none_is_broken():
    """aaaa bb and an end of two are nine; with eight, bb stands two further in."""
    assert in_lines(["aaaa", "bb"], 9, end=" \\") == ["aaaa bb"]
    assert in_lines(["aaaa", "bb"], 8, end=" \\") == ["aaaa \\", "  bb"]
    assert in_lines(["aaaa", "bb", "cc"], 8, 1, end=" \\") == [" aaaa \\", "   bb \\", "   cc"]
    assert in_lines(["aaaa", "bb"], 6, 1) == [" aaaa", " bb"]


def test_a_command_keeps_its_file_and_its_options():
    asked = Asked("my.toml", tried=("rod.length=80 mm",), layers=("own.toml",), life="show")
    typed = asked.command("improve", "-o", "better.toml", life=True)
    assert typed == (
        "firstfire improve my.toml --layer own.toml --set 'rod.length=80 mm' --for show "
        "-o better.toml"
    )
    assert asked.command("start", options=False) == "firstfire start my.toml"


# The screen.
def test_a_line_too_long_for_the_terminal_takes_as_many_as_it_needs():
    """20 letters are two lines of ten, 21 three, an empty one is one."""
    assert screen._rows(["x" * 20, "x" * 21, "", "x"], 10) == 2 + 3 + 1 + 1


def test_first_ones_are_set_apart_by_empty_lines():
    blocks = [["a"], ["b", "c"], ["d"]]
    assert screen._apart(blocks, 1) == ["a", "", "b", "c", "d"]
    assert screen._apart(blocks, 2) == ["a", "", "b", "c", "", "d"]


@pytest.fixture
def drawn(monkeypatch):
    """Two lines of card, three of what is likeliest to end it, and one of each other part."""
    result = SimpleNamespace(name="result")
    asked = SimpleNamespace(name="asked")

    def of(*right, gives):
        def told(*got):
            assert got == right
            return gives

        return told

    def card(found, *, width, whole):
        assert (found, width, whole) == (result, 10, False)
        return ["card", "  keeps going"]

    monkeypatch.setattr(screen, "card_lines", card)
    monkeypatch.setattr(screen, "_caution", of(result, 10, gives="mind"))
    monkeypatch.setattr(screen, "_next", of(result, asked, 10, gives=["next"]))
    monkeypatch.setattr(screen, "_said", of(result, gives=["one two three", "one two", "one"]))

    def likeliest(found, told, width):
        assert (found, width) == (result, 10)
        return [f"no. {n}" for n in range(told)]

    monkeypatch.setattr(screen, "_likeliest", likeliest)
    return lambda most: screen.screen_text(result, asked, width=10, most=most).split("\n")


def test_what_is_too_much_goes_in_its_order(drawn):
    """Two lines said, the card's one and one of 13 letters on two, three, two: 10, 3 empty ones.

    With them one more is left for the prompt: 14. With 13 the sentence is shorter first.
    """
    assert len(drawn(14)) == 12
    assert drawn(14)[:3] == ["one two", "three", ""]
    assert drawn(13)[:2] == ["one two", ""]
    assert drawn(13).count("") == 3


def test_no_change_is_said_to_be_offered_where_a_line_has_room_for_it():
    """Two of margin, 43 of what is told and 19 more are 64."""
    line = SimpleNamespace(margin=margin(0.5, "fails"), name="con rod tears", span="0.5")
    told = "1. con rod tears, full throttle: fails, 0.5"
    assert len(told) == 43
    assert list(screen._ender(1, line, 65)) == [f"  {told}; no change offered"]
    assert list(screen._ender(1, line, 64)) == [f"  {told}; no change offered"]
    assert list(screen._ender(1, line, 63)) == [f"  {told}"]


def test_work_is_told_where_a_line_has_room_for_it(monkeypatch):
    """Five of margin, and "Do it: then 2 (1 h)" of 19: 24."""
    best = SimpleNamespace(raised=SimpleNamespace(text="Do it"), after="2", effort="1 h")
    monkeypatch.setattr(screen, "move", lambda _: best)
    one = margin(0.5, "fails", raise_by=("first", "second"))
    line = SimpleNamespace(margin=one, name="tears", span="0.5")
    assert list(screen._ender(1, line, 24))[-1] == "     Do it: then 2 (1 h)"
    assert list(screen._ender(1, line, 23))[-1] == "     Do it: then 2"


def test_likeliest_are_numbered_in_the_order_of_the_ledger(monkeypatch):
    result = SimpleNamespace(
        margins="margins", plain="plain", verdict=SimpleNamespace(word="fails")
    )  # fmt: skip
    found = {("margins", "plain"): ["a", "b", "c"]}
    monkeypatch.setattr(screen, "ledger", lambda *of: found[of])
    monkeypatch.setattr(screen, "_ender", lambda number, one, width: [f"{number} {one} {width}"])
    head, *lines = screen._likeliest(result, 2, 80)
    assert head.startswith("Likeliest to end it: ")
    assert lines == ["1 a 80", "2 b 80"]


def test_what_is_next_leaves_its_options_out_where_it_would_be_too_wide(monkeypatch):
    def commands(result, asked, *, whole):
        assert (result, asked.options) == ("result", ("--set",))
        yield "12345678" if whole else "1234"

    monkeypatch.setattr(screen, "commands", commands)
    asked = SimpleNamespace(options=("--set",))
    assert screen._next("result", asked, 8) == ["12345678"]
    short, same = screen._next("result", asked, 7)
    assert (short, same) == ("1234", "         each with the same --set and --layer as now")


def test_a_stopped_check_tells_the_worst_of_what_was_finished(monkeypatch):
    first = margin(0.5, "fails")
    events = [SimpleNamespace(event="cranking"), SimpleNamespace(event="full_throttle")]
    result = SimpleNamespace(
        engine=SimpleNamespace(name="Wren"), plain=ONE, events=events,
        verdict=SimpleNamespace(first=first),
    )  # fmt: skip
    monkeypatch.setattr(sentences, "described", lambda _: "a single")
    monkeypatch.setattr(sentences, "_factor", lambda one: f"factor {one.factor}")
    when = sentences.at_its_time("con rod is torn apart", "full_throttle")
    assert when.startswith("con rod is torn apart ")
    assert sentences.stopped_sentence(result) == (
        "Wren, a single: stopped when only cranking and full throttle had been finished. Of what "
        f"was, the lowest: {when} (factor 0.5). An estimate, and of no more than that."
    )
