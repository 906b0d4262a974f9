"""Made to hold: every step is needed, nothing kept is touched, and the file says the same."""

import itertools
import json
import shlex
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

import firstfire as ff
from firstfire.cli.asking import set_values
from firstfire.engine.read import with_values
from firstfire.engine.write import set_in_text
from firstfire.errors import FirstfireError
from firstfire.verdict.check import check
from firstfire.verdict.facts.over_life import judged_over_life, over_life
from firstfire.verdict.improve.contract import ImprovementTold, as_json
from firstfire.verdict.improve.improve import improve
from firstfire.verdict.improve.limits import Allowed, allowed
from firstfire.verdict.improve.text import improve_text
from firstfire.verdict.improve.words import cost, reasons, sentence
from firstfire.verdict.words.commands import Asked

CRANKED = ("cranking",)
TARGET = 0.9


@pytest.fixture(scope="module")
def heron():
    return ff.read("engines/heron.toml")


@pytest.fixture(scope="module")
def found(heron):
    """heron's life as far as cranking: its printed crank, its head and its sealant give way."""
    return improve(heron, target=TARGET, only=CRANKED)


def test_it_then_holds(found):
    assert found.before.verdict.odds < 0.05
    assert len(found.steps) >= 3
    assert found.after.verdict.odds >= TARGET
    assert found.left == ()


def test_no_step_can_be_left_out(found, heron):
    """Checked in full without each of them: the least work has nothing to spare."""
    for step in found.steps:
        rest = {path: value for other in found.steps if other is not step
                for path, value in other.change.set.items()}  # fmt: skip
        without = check(with_values(heron, rest), only=CRANKED, changes=False)
        assert without.verdict.odds < TARGET, step.change.text


def test_odds_go_from_one_step_to_the_next(found):
    """Also where steps between were taken back: from the first check's odds to the last's."""
    assert found.steps[0].odds_before == pytest.approx(found.before.verdict.odds, abs=0.02)
    for step, following in itertools.pairwise(found.steps):
        assert step.odds_after == following.odds_before
    assert found.steps[-1].odds_after == pytest.approx(found.after.verdict.odds, abs=0.05)


def test_each_step_is_against_what_was_likeliest_to_end_it(found):
    for step in found.steps:
        assert step.against.word in ("fails", "marginal") or step.against.ends > 0
        assert step.change.factor_after > step.against.factor
        assert step.change.set


def test_a_trial_over_life_agrees_with_a_full_check(found, heron):
    """What is tried quickly has the factors that a check of the changed engine has."""
    results = found.before.events
    tried = over_life(heron, results, found.changes)
    now = judged_over_life(results, found.before.margins)
    assert tried.score > now.score
    full = {m.way.id: m.factor for m in found.after.margins if m.factor is not None}
    for margin in tried.margins:
        if margin.factor is not None and 0 < margin.factor < 1e6:
            assert margin.factor == pytest.approx(full[margin.way.id], rel=0.02), margin.way.id


@pytest.mark.long
def test_what_is_kept_is_not_touched(heron):
    found = improve(heron, target=TARGET, only=CRANKED, allowed=Allowed(keep=("crank",)))
    assert not any(path.startswith("crank.") for path in found.changes)
    assert found.after.verdict.odds < TARGET
    left = {one.margin.way.id for one in found.left}
    assert "crank.joint.slip" in left
    why = next(one.why for one in found.left if one.margin.way.id == "crank.joint.slip")
    assert "keep" in why


def test_only_what_one_has_is_put_in(heron):
    may = allowed([], ["petg", "pa12_cf"], heron.catalog)
    assert may.allows({"head.material": "petg"})
    assert not may.allows({"crank.material": "silver_steel"})
    assert may.allows({"crank.main_bearing": "6203"})  # no bearing was named: any will do
    found = improve(heron, target=TARGET, only=CRANKED, allowed=may)
    assert "silver_steel" not in found.changes.values()


def test_words_that_name_nothing_are_refused_all_at_once(heron):
    with pytest.raises(FirstfireError) as refused:
        allowed(["boar", "crank"], ["petg,unobtainium"], heron.catalog)
    assert '--keep "boar"' in str(refused.value)
    assert "unobtainium" in str(refused.value)
    assert "bore" in str(refused.value)


def test_the_better_file_keeps_its_comments_and_says_why(found, tmp_path):
    text = Path("engines/heron.toml").read_text()
    changes = set_values([f"{path}={value}" for path, value in found.changes.items()])
    better = set_in_text(text, changes, reasons(found))
    for line in text.splitlines():
        if "#" in line:
            comment = line.split("#", 1)[1].strip()
            assert comment in better
    for step in found.steps:
        assert step.against.way.failure in better
    file = tmp_path / "better.toml"
    file.write_text(better)
    assert ff.resolve(ff.read(file)).crank == ff.resolve(found.engine).crank
    assert tomllib.loads(better)["name"] == "heron"


def test_it_is_told_in_80_columns_with_its_cost(found):
    text = improve_text(found, Asked("heron.toml"), "better.toml")
    assert max(map(len, text.splitlines())) <= 80
    assert "survives being cranked" in sentence(found)
    assert "estimate" in sentence(found)
    spent = cost(found.steps)
    assert spent.hand_hours > 0
    assert spent.hand_hours <= sum(s.change.hand_hours for s in found.steps)


def test_it_can_be_tried_as_it_is_told(found):
    """Read by a shell, the words are the changes; no line is broken within a quoted value."""
    text = improve_text(found, Asked("my heron.toml", tried=("use.idle_speed=1600 rpm",)), None)
    typed = text.partition("or try it:")[2].partition("\n\n")[0]
    assert all(len(line) <= 80 for line in typed.splitlines())
    words = shlex.split(typed.replace("\\\n", " "))
    assert words[:3] == ["firstfire", "check", "my heron.toml"]
    tried = dict(word.split("=", 1) for word in words[4::2])
    assert words[3::2] == ["--set"] * len(tried)
    assert tried == {"use.idle_speed": "1600 rpm", **found.changes}


def test_json_keeps_its_contract(found):
    data = json.loads(as_json(found))
    assert data["schema"] == "firstfire.improvement/1"
    schema = ImprovementTold.model_json_schema(by_alias=True, mode="serialization")
    Draft202012Validator(schema).validate(data)
    assert data["changes"] == found.changes


def test_stopped_it_keeps_the_best_so_far(heron):
    pressed = []
    found = improve(
        heron, target=0.99, only=CRANKED,
        stop=lambda: bool(pressed),
        on_progress=lambda what, _: pressed.append(1) if what.startswith("step 3, try") else None,
    )  # fmt: skip
    assert found.stopped
    assert len(found.steps) == 2
    assert found.after is None
    assert "Stopped" in sentence(found)


def test_an_engine_that_holds_is_left_alone():
    wren = ff.read("engines/wren.toml")
    found = improve(wren, target=0.5, only=CRANKED)
    assert found.steps == ()
    assert "needs no change" in sentence(found)
