"""Every sentence on what is rare: grammar, one cylinder or two, none failing, none judged."""

from __future__ import annotations

import itertools
import re
import shlex
from dataclasses import replace

import pytest

from firstfire.parts.all import failures
from firstfire.verdict.facts.margin import Raised, RunTime, Verdict
from firstfire.verdict.result import Result
from firstfire.verdict.words.commands import Asked
from firstfire.verdict.words.sentences import lasting, listed, sentence, stopped_sentence
from firstfire.verdict.words.sentences import sentences as parts_of
from firstfire.verdict.words.text.show import check_text

BROKEN = {
    "two spaces": r"\S  \S",
    "space before a mark": r"\s[,.;:)]",
    "two stops": r"\.\.|,,|;;|::|\.;|,\.",
    "no number": r"\b(?:None|nan|inf|True|False)\b",
    "a before a vowel": r"\ba (?!one|uni|use)[aeiou]",
    "an before a consonant": r"\ban [^aeiouhFHLMNRSX0-9]",
    "a word twice": r"\b([a-z]+) \1\b",
    "a shout": "!",
    "a name of code": r"[a-z]_[a-z]",
    "one of many": r"\b1 (?:cylinders|seconds|events|changes)\b",
    "many and one": r"\b(?:fasteners|pin bosses) (?:is|was|has|holds|sinks|strips|opens)\b",
}


def sound(text: str) -> None:
    """Assert that a text is made of whole sentences."""
    plain = text.replace("\u2009", " ").replace("\u202f", " ").replace("\n", " ")
    for what, pattern in BROKEN.items():
        found = re.search(pattern, plain)
        assert found is None, f"{what}: {plain[max(found.start() - 40, 0) : found.end() + 40]!r}"
    assert plain.count("(") == plain.count(")")
    assert plain.endswith(".")
    for before, after in re.findall(r"([.?]) (\S)", plain):
        assert after.isupper() or after.isdigit(), (before, after, plain)


def deciding(result: Result, **changes: object) -> Result:
    """The result with another margin, or none, that decides."""
    return replace(result, verdict=replace(result.verdict, **changes))  # type: ignore[arg-type]


def test_as_they_come(result: Result, twin: Result) -> None:
    for one in (result, twin):
        sound(one.sentence)
        sound(stopped_sentence(one))
        assert one.sentence == " ".join(parts_of(one))


def test_one_cylinder_is_never_numbered_and_two_are(result: Result, twin: Result) -> None:
    assert "cylinder 1" not in check_text(result).split("Not judged")[0]
    second = next(m for m in twin.margins if m.way.id.endswith("#2") and m.factor is not None)
    said = sentence(deciding(twin, first=replace(second, word="fails")))
    assert "of cylinder 2" in said
    sound(said)


def test_every_margin_deciding_with_every_word(result: Result, twin: Result) -> None:
    """Whatever gives way, at whatever event, with and without help, in one sentence."""
    for one in (result, twin):
        judged = [m for m in one.margins if m.factor is not None]
        assert len(judged) > 30
        for margin, word in itertools.product(judged, ("fails", "marginal", "holds")):
            said = sentence(deciding(one, first=replace(margin, word=word), word=word))
            sound(said)
            assert margin.way.part in said


def test_several_things_hold_and_one_holds(result: Result) -> None:
    by_part = {m.way.part: m for m in result.margins if m.factor is not None}
    washers = by_part["washers under the head's fasteners"]
    said = sentence(deciding(result, first=replace(washers, word="fails"), word="fails"))
    assert ": they hold " in said
    assert " they will feel " in said
    crankpin = by_part["crankpin"]
    said = sentence(deciding(result, first=replace(crankpin, word="fails"), word="fails"))
    assert ": it holds " in said


@pytest.mark.parametrize("after", [1e6, 1.0, 0.0, 37.2])
@pytest.mark.parametrize("following", ["", "con rod buckles at 1.2"])
def test_help_with_and_without_what_follows(result: Result, after: float, following: str) -> None:
    first = next(m for m in result.margins if m.factor is not None)
    help_ = Raised("Make it of steel", {"a.b": "1 mm"}, after, following, 1.0, 0.0, "")
    sound(sentence(deciding(result, first=replace(first, word="fails", raise_by=(help_,)))))
    sound(sentence(deciding(result, first=replace(first, word="fails", raise_by=()))))


@pytest.mark.parametrize("seconds", [None, 0.0, 0.04, 1.0, 59.6, 119.0, 599.0])
def test_what_ends_a_run_at_once_late_or_never(result: Result, seconds: float | None) -> None:
    limit: RunTime = replace(
        result.run_times[0], seconds=seconds, seconds_low=0.0, seconds_high=None
    )
    said = sentence(deciding(result, ends_first=limit, first=None))
    sound(said)
    assert lasting(None) in said


@pytest.mark.parametrize("odds", [0.0, 0.05, 0.5, 0.95, 0.96, 1.0])
def test_odds_are_never_finer_than_19_in_20(result: Result, odds: float) -> None:
    said = sentence(deciding(result, odds=odds))
    sound(said)
    assert re.search(r"(?:Better than 19|Less than 1|About \d+) in 20", said)
    assert "20 in 20" not in said
    assert " 0 in 20" not in said


def test_nothing_fails_and_nothing_is_judged(result: Result) -> None:
    nothing = deciding(result, first=None, ends_first=None, odds=1.0)
    sound(sentence(nothing))
    assert "nothing judged gives way" in sentence(nothing)
    unjudged = tuple(replace(m, factor=None, word="not judged") for m in result.margins)
    bare = replace(nothing, margins=unjudged, verdict=Verdict("not judged", None, None, 1.0))
    said = sentence(bare)
    sound(said)
    assert "not one of its ways to fail could be judged" in said
    # What isn't judged gives no odds, and is no comfort.
    assert "in 20" not in said
    assert "says nothing of whether it holds" in said


def test_no_sentence_says_that_it_will_start_or_is_safe(result: Result, twin: Result) -> None:
    for one in (result, twin):
        text = check_text(one)
        assert not re.search(r"\bwill (?:start|run|fire)\b", text)
        assert not re.search(r"\b(?:is|be) safe\b", text)


def test_every_way_to_fail_makes_a_sentence() -> None:
    """Part and failure are said one after the other: the verb must fit the part."""
    for failure in failures():
        sound(f"The {failure.part} {failure.failure}.")


def test_words_joined() -> None:
    assert [listed(list("abc")[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_the_next_command_asks_the_same_engine_in_an_order_that_a_shell_takes():
    """Verb, file, layers, trial values, life, then what is said behind."""
    asked = Asked(
        "my engine.toml", tried=("rod.length=70 mm",), layers=("pla.toml",), life="10 min"
    )
    told = asked.command("explain", "head.lift", life=True)
    assert shlex.split(told) == [
        "firstfire", "explain", "my engine.toml", "--layer", "pla.toml", "--set",
        "rod.length=70 mm", "--for", "10 min", "head.lift",
    ]  # fmt: skip
    again = shlex.split(asked.command("check"))
    assert again == ["firstfire", "check", *shlex.split(told)[2:7]]
    assert asked.command("start", options=False) == "firstfire start 'my engine.toml'"
    assert asked.command("start", life=True, options=False).endswith("--for '10 min'")
    forever = Asked("a.toml")
    assert forever.command("check", life=True) == "firstfire check a.toml"
