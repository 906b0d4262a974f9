"""A kept answer is the answer: nothing that it depends on can change without it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from firstfire.catalog import shipped
from firstfire.cli.answers import answered

ENGINES = Path(__file__).resolve().parents[2] / "engines"


@pytest.fixture
def engine(tmp_path, monkeypatch):
    monkeypatch.setenv("FIRSTFIRE_CACHE", str(tmp_path / "cache"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    file = tmp_path / "wren.toml"
    file.write_text((ENGINES / "wren.toml").read_text("utf-8"), encoding="utf-8")
    return file


class Finds:
    """Counts how often it was asked."""

    def __init__(self, answer="one"):
        self.times, self.answer = 0, answer

    def __call__(self):
        self.times += 1
        return self.answer


def test_the_same_question_is_reckoned_once(engine) -> None:
    finds = Finds()
    for _ in range(3):
        assert answered("timing", engine, [], ["a"], finds) == "one"
    assert finds.times == 1


def test_whatever_changes_asks_anew(engine, tmp_path, monkeypatch) -> None:
    finds, layer = Finds(), tmp_path / "layer.toml"
    layer.write_text("# one", encoding="utf-8")

    def ask(*asked, layers=()):
        before = finds.times
        answered("timing", engine, layers, asked, finds)
        return finds.times - before

    assert ask("a") == 1
    assert ask("b") == 1  # another value tried
    assert ask("b", layers=[layer]) == 1
    layer.write_text("# two", encoding="utf-8")
    assert ask("b", layers=[layer]) == 1
    assert ask("b", layers=[layer]) == 0
    engine.write_text(engine.read_text("utf-8") + "\n# more", encoding="utf-8")
    assert ask("b", layers=[layer]) == 1
    (tmp_path / "catalog.toml").write_text("# own rows", encoding="utf-8")
    assert ask("b", layers=[layer]) == 1
    (tmp_path / "config" / "firstfire").mkdir(parents=True)
    (tmp_path / "config" / "firstfire" / "catalog.toml").write_text("# mine", encoding="utf-8")
    assert ask("b", layers=[layer]) == 1
    monkeypatch.setattr("firstfire.cli.answers.VERSION", "another")
    assert ask("b", layers=[layer]) == 1


def test_what_is_broken_or_can_not_be_kept_is_reckoned(engine, tmp_path, monkeypatch) -> None:
    finds = Finds()
    answered("timing", engine, [], [], finds)
    (kept,) = (tmp_path / "cache").glob("timing-*.json")
    for broken in ("", "{", "[]", '{"key": 1}'):
        kept.write_text(broken, encoding="utf-8")
        assert answered("timing", engine, [], [], finds) == "one"
    assert finds.times == 5
    file = tmp_path / "file"
    file.write_text("", encoding="utf-8")
    monkeypatch.setenv("FIRSTFIRE_CACHE", str(file))
    assert answered("timing", engine, [], [], finds) == "one"
    assert answered("timing", tmp_path / "nowhere.toml", [], [], finds) == "one"


def test_a_refusal_is_not_kept(engine, tmp_path) -> None:
    def refuses():
        raise ValueError

    with pytest.raises(ValueError):  # noqa: PT011
        answered("timing", engine, [], [], refuses)
    assert not list((tmp_path / "cache").glob("timing-*.json"))


def test_a_kept_table_is_the_table(engine, tmp_path) -> None:
    file = shipped.TABLES / "bearings.toml"
    first, again = shipped._document(file), shipped._document(file)
    assert first == again
    (kept,) = (tmp_path / "cache").glob("catalog-bearings-*.json")
    # A copy of another file, or one cut short, is not read.
    told = json.loads(kept.read_text("utf-8"))
    told["of"][1] += 1
    told["document"] = {}
    kept.write_text(json.dumps(told), encoding="utf-8")
    assert shipped._document(file) == first
    kept.write_text(kept.read_text("utf-8")[:40], encoding="utf-8")
    assert shipped._document(file) == first
