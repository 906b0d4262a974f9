"""Files that firstfire writes read back as the engine they were written from."""

import tomllib
from pathlib import Path

import pytest

from firstfire.engine.fields import Section
from firstfire.engine.grammar import leaves
from firstfire.engine.read import read, understand
from firstfire.engine.resolve import resolve
from firstfire.engine.write import full_file, set_in_text, small_file

DEMOS = Path(__file__).resolve().parents[2] / "engines"


def numbers(section):
    """Every value of a section and of the sections in it, by name."""
    if isinstance(section, Section):
        return {name: numbers(getattr(section, name)) for name in section.model_fields}
    if isinstance(section, tuple):
        return [numbers(one) for one in section]
    return section


def close(a, b, where=""):
    """The same to the eight digits a full file writes."""
    if isinstance(a, dict):
        assert a.keys() == b.keys()
        for key in a:
            close(a[key], b[key], f"{where}.{key}")
    elif isinstance(a, (list, tuple)):
        assert len(a) == len(b)
        for x, y in zip(a, b, strict=True):
            close(x, y, where)
    elif isinstance(a, float):
        assert a == pytest.approx(b, rel=1e-6, abs=1e-15), where
    else:
        assert a == b, where


@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_a_full_file_is_the_same_engine(name, rows):
    engine = read(DEMOS / f"{name}.toml")
    text = full_file(engine)
    again = understand(text, "full.toml", rows)
    for one, other in zip(resolve(engine).cylinders, resolve(again).cylinders, strict=True):
        close(numbers(one), numbers(other))
    assert again.name == engine.name


def test_a_full_file_gives_every_default_its_reason_and_source(say):
    text = full_file(say())
    said = tomllib.loads(text)
    for path, leaf in leaves().items():
        here = said
        for name in path.split("."):
            here = here.get(name, {}) if isinstance(here, dict) else {}
        if here == {}:
            assert leaf.optional, path
            assert f"# {path.rsplit('.', 1)[-1]} = " in text
    assert "default: 1.7 to 2 × stroke, common practice, no source" in " ".join(
        text.replace("\n# ", " ").split()
    )
    assert "catalog" in text


def test_a_small_file_is_small_commented_and_understood(rows):
    answers = {
        "layout.kind": "single",
        "cylinder.bore": "44 mm",
        "cylinder.stroke": "40 mm",
        "printing.material": "petg",
    }
    text = small_file("finch", answers, ["A first try."])
    assert text.startswith("# A first try.")
    assert len(text.splitlines()) < 40
    assert understand(text, "finch.toml", rows).name == "finch"


def test_comments_survive_a_change():
    text = "# mine\n[cylinder]   # the hole\nbore = '44 mm' # tube\n\n[rod]\nlength = '72 mm'\n"
    changed = set_in_text(text, {"cylinder.bore": "45 mm", "piston.mass": "30 g"})
    assert "# mine" in changed
    assert "# the hole" in changed
    assert 'bore = "45 mm" # tube' in changed
    assert tomllib.loads(changed) == {
        "cylinder": {"bore": "45 mm"}, "rod": {"length": "72 mm"}, "piston": {"mass": "30 g"},
    }  # fmt: skip
