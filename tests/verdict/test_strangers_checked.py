"""Engines nobody here drew get through the whole check: each question a verdict or a reason."""

import json
import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.verdict.told.contract import ResultTold

STRANGERS = sorted((Path(__file__).resolve().parents[1] / "strangers").glob("[1-5]_*.toml"))

pytestmark = pytest.mark.slow


def _by_stem(file):
    """The twins, the slowest and much like heron, only with what takes minutes."""
    marks = [pytest.mark.long] if file.stem.startswith(("2_", "4_")) else []
    return pytest.param(file, id=file.stem, marks=marks)


@pytest.mark.parametrize("file", [_by_stem(file) for file in STRANGERS])
def test_a_stranger_gets_verdicts_or_reasons(file):
    engine = ff.read(file)
    fastest = max(ff.resolve(engine).use.full_throttle_speeds)
    result = ff.check(engine, speeds=[fastest], drawn=14)
    run = {event.event for event in result.events}
    reasons = {u.subject: u.why for u in result.unjudged}
    assert all(len(why.split()) > 3 for why in reasons.values())
    for event in ff.events(engine):
        assert event in run or event.replace("_", " ") in reasons, event
    for margin in result.margins:
        if margin.word == "not judged":
            assert margin.factor is None
            assert len(margin.way.why_not.split()) > 3, margin.way.id
            assert f"{margin.way.part} {margin.way.failure}" in reasons
        else:
            assert not math.isnan(margin.factor), margin.way.id
            assert margin.factor_low <= margin.factor <= margin.factor_high, margin.way.id
            assert 0 <= margin.survival <= 1
    assert {m.event for m in result.margins} == run
    assert result.verdict.word in ("fails", "marginal", "holds")
    assert 0 <= result.verdict.odds <= 1
    assert engine.name in result.sentence
    assert "an estimate" in result.sentence
    ResultTold.model_validate(json.loads(result.to_json()))


def test_there_are_five_strangers():
    assert len(STRANGERS) == 5
