"""The first screen: whole, in its order, no more than 24 lines of 80 columns."""

from __future__ import annotations

import re
import shlex
from dataclasses import replace

import pytest

from firstfire.verdict.facts.margin import Raised
from firstfire.verdict.words.commands import Asked
from firstfire.verdict.words.ledger import ledger, two
from firstfire.verdict.words.sentences import sentence, stopped_sentence
from firstfire.verdict.words.text.ledger import LEGEND, move_lines
from firstfire.verdict.words.text.screen import LINES, _likeliest, screen_text
from firstfire.verdict.words.text.show import check_text

FILE = Asked("engines/wren.toml")
LONG = Raised(
    "Make the main journal of ground steel bar; pin the main journal lengthwise by three 5 mm pins "
    "into 6 mm steel plates screwed to the cheeks",
    {"crank.journal.joint.cross_pins": "3"}, 1.7, "con rod buckles at 1.2", 16.0, 4.0, "bar",
)  # fmt: skip


@pytest.fixture(scope="module")
def single(result):
    """wren, asking for something to be mended."""
    return replace(result, verdict=replace(result.verdict, word="marginal"))


@pytest.fixture(params=["wren", "heron"])
def each(request, single, twin):
    return single if request.param == "wren" else twin


def plain(text):
    return text.replace("\u202f", " ")


@pytest.mark.parametrize("width", [80, 100, 120])
def test_it_is_one_screen(each, width):
    lines = screen_text(each, FILE, width=width).splitlines()
    assert len(lines) <= LINES == 24
    assert max(map(len, lines)) <= width


def test_what_a_move_takes_is_told_where_its_line_has_room_for_it(each):
    """It makes no second line; where it just fits it stands."""
    whole = [line for line in _likeliest(each, 3, 200) if line.startswith("     ")]
    assert whole
    for line in whole:
        assert line.endswith(")")
        assert line in _likeliest(each, 3, len(line))
        narrower = "\n".join(_likeliest(each, 3, len(line) - 1))
        assert line.strip().rpartition(" (")[0] in " ".join(narrower.split())
        assert line.rpartition(" (")[2] not in narrower.split("\n")[-1]
        assert line.strip() not in " ".join(narrower.split())


def test_it_is_one_screen_whatever_leads_and_however_long_it_is(each):
    """Every way to fail in the lead, at the event with the longest name and with the longest
    change; nothing is cut.
    """
    longest = {}
    for margin in each.margins:
        known = longest.get(margin.way.id)
        if margin.factor is not None and (not known or len(margin.event) > len(known.event)):
            longest[margin.way.id] = margin
    assert len(longest) > 30
    led_by(each, longest.values())


@pytest.mark.long
def test_it_is_one_screen_whatever_leads_at_any_event(each):
    led_by(each, [m for m in each.margins if m.factor is not None])


def led_by(each, judged):
    for margin in judged:
        first = replace(margin, word="fails", raise_by=(LONG,), ends=1.0)
        others = [replace(m, raise_by=(LONG,)) for m in each.margins if m is not margin]
        led = replace(
            each, margins=(first, *others), verdict=replace(each.verdict, first=first, word="fails")
        )
        led = replace(led, sentence=sentence(led))
        lines = screen_text(led, FILE).splitlines()
        assert len(lines) <= 24, margin.way.id
        assert "…" not in "".join(lines)
        assert "cheeks" in " ".join(lines)


def test_order_and_what_each_part_says(each):
    text = screen_text(each, FILE)
    said = plain(" ".join(text.split()))
    places = [said.index(part) for part in (
        each.engine.name, "in 20 that it survives", "; rest: not judged", "gives way first",
        "gauge shows", "starter ", "start spark", "head bolts, cold", "power ",
        "what it holds over what it feels",
        "1. ", "Before a start, mind burst", "firstfire improve", "firstfire explain",
        "firstfire check",
    )]  # fmt: skip
    assert places == sorted(places)
    assert "an estimate" in said


def test_the_three_are_the_first_of_the_ledger_with_their_best_change(each):
    said = plain(" ".join(screen_text(each, FILE, width=120).split()))
    for number, line in enumerate(ledger(each.margins, each.plain)[:3], 1):
        factor = plain(line.span)
        event = line.margin.event.replace("_", " ")
        assert f"{number}. {line.name}, {event}: {line.margin.word}, {factor}" in said
        if line.margin.raise_by:
            best = line.margin.raise_by[0]
            after = two(best.factor_after)
            then = "that can't happen then" if best.factor_after > 1e5 else f"then {after}"
            assert f"{best.text}: {then}" in said


def test_the_card_has_a_line_each(each):
    lines = plain(screen_text(each, FILE)).splitlines()
    first = next(at for at, line in enumerate(lines) if line.startswith("  full throttle"))
    names = [line[2:20].strip() for line in lines[first : first + 10]]
    assert names == [
        "full throttle", "idle", "gives way first", "gauge shows", "starter", "start spark",
        "valve and piston", "keeps going", "head bolts, cold", "power",
    ]  # fmt: skip


def test_an_engine_that_holds_is_offered_no_mending(result):
    held = tuple(replace(m, word="holds", raise_by=()) for m in result.margins)
    fine = replace(result, margins=held, verdict=replace(result.verdict, word="holds"))
    text = screen_text(replace(fine, sentence=sentence(fine)), FILE)
    assert "firstfire improve" not in text
    assert "Nearest to giving way" in text


def test_what_comes_next_can_be_typed_and_is_of_the_same_engine(single):
    asked = Asked("my w.toml", ("cylinder.bore=42 mm",), ("pla.toml",), "cranking")
    lines = screen_text(single, asked, width=120, most=40).splitlines()[-3:]
    improve, explain, check = (shlex.split(line[9:]) for line in lines)
    given = ["my w.toml", "--layer", "pla.toml", "--set", "cylinder.bore=42 mm"]
    life = ["--for", "cranking"]
    assert improve == ["firstfire", "improve", *given, *life, "-o", "better.toml"]
    assert explain == ["firstfire", "explain", *given, single.verdict.first.way.id]
    assert check == ["firstfire", "check", *given, *life, "--full"]


def test_many_trial_values_are_named_and_not_broken(result):
    asked = Asked("wren.toml", tuple(f"cylinder.bore={40 + n} mm" for n in range(9)))
    lines = screen_text(result, asked).splitlines()
    assert len(lines) <= 24
    assert "each with the same --set and --layer as now" in lines[-1]
    assert all(line.count("'") % 2 == 0 for line in lines)


def test_a_check_that_was_stopped_says_so(result):
    done = replace(result, events=result.events[:2])
    text = screen_text(replace(done, sentence=stopped_sentence(done)), FILE)
    assert "stopped when only cranking and first fire" in " ".join(text.split())


def test_with_nothing_judged(result):
    bare = replace(
        result, margins=(), run_times=(),
        verdict=replace(result.verdict, first=None, ends_first=None, ends_idle=None,
                        word="not judged"),
    )  # fmt: skip
    text = screen_text(replace(bare, sentence=sentence(bare)), FILE)
    assert "improve" not in text
    assert "explain" not in text
    assert text.splitlines()[-1].endswith("firstfire check engines/wren.toml --full")


@pytest.mark.parametrize("width", [80, 120])
def test_the_whole_text_is_as_wide_as_the_terminal_and_cuts_nothing(each, width):
    text = check_text(each, width=width)
    assert "…" not in text
    assert max(map(len, text.splitlines())) <= width
    shown = " ".join(text.split())
    told = shown.partition("What gives way")[2].partition("How long full throttle")[0]
    bars = {80: 10, 120: 20}[width]
    assert len(re.findall(rf" [#=-]{{{bars}}} ", told)) == 16
    names = [line.name for line in ledger(each.margins, each.plain)[:16]]
    flat = re.sub(r"\s+", " ", told)
    if width == 120:
        assert all(name in flat for name in names)
    assert LEGEND in told


def test_bars_are_explained_in_one_line():
    assert len(LEGEND) <= 78


def test_changes_for_a_shell_stand_whole_on_their_lines(twin):
    from firstfire.verdict.words.ledger import next_moves

    found = next_moves(twin.margins, twin.plain)
    assert found
    for tried in found:
        lines = list(move_lines(tried))
        words = [w for line in lines if line.startswith("      --set") for w in shlex.split(line)]
        said = dict(word.split("=", 1) for word in words[1::2])
        wanted = {path: value for move in tried.moves for path, value in move.raised.set.items()}
        assert said == wanted
