"""Changes on the page are lines of an engine file: pasted there, they make what was tried."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
import tomlkit
from tests.report.reading import elements, strict, with_class, words

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.typed import typed
from firstfire.verdict.words.ledger import next_moves

HERON = Path(__file__).resolve().parents[2] / "engines" / "heron.toml"


def merged(old, new):
    """A file's data with a block's lines in the place of its own."""
    for key, value in new.items():
        if isinstance(value, dict) and isinstance(old.get(key), dict):
            merged(old[key], value)
        else:
            old[key] = value
    return old


@pytest.fixture(scope="module")
def blocks(heron_page):
    """Every block of lines that is to be pasted."""
    changes = with_class(strict(heron_page), "set")
    return ["".join(e.itertext()) for e in changes if e.tag.endswith("}pre")]


@pytest.fixture(scope="module")
def tried(heron):
    """Changes of the next moves, by what a file has of them."""
    moves = [m.raised for one in next_moves(heron.margins, heron.plain) for m in one.moves]
    assert len(moves) > 5
    return {key({p: typed(p, v) for p, v in m.set.items()}): m.set for m in moves}


def key(values):
    return tuple(sorted(values.items()))


def flat(data, path=""):
    """A file's data by dotted path."""
    found = {}
    for name, value in data.items():
        here = f"{path}.{name}" if path else name
        found |= flat(value, here) if isinstance(value, dict) else {here: value}
    return found


def test_every_change_stands_there_below_the_heading_of_its_section(tried, blocks):
    found = {key(flat(tomllib.loads(block))) for block in blocks}
    assert set(tried) <= found
    for block in blocks:
        assert block.startswith("[")


def test_pasted_they_make_the_engine_that_was_tried(heron, tried, blocks, tmp_path):
    file, seen = tmp_path / "pasted.toml", set()
    for block in dict.fromkeys(blocks):
        said = tomllib.loads(block)
        changes = tried.get(key(flat(said)))
        if changes is None:
            continue  # of a judgement that is opened, and is no next move
        file.write_text(tomlkit.dumps(merged(tomllib.loads(HERON.read_text()), said)))
        pasted, asked = (
            ff.resolve(engine) for engine in (ff.read(file), with_values(heron.engine, changes))
        )
        nothing = {"sha256": ""}
        assert pasted.model_copy(update=nothing) == asked.model_copy(update=nothing), block
        seen.add(key(changes))
    assert len(seen) == len(tried)


def test_it_can_be_selected(heron_page):
    styles = words(next(elements(strict(heron_page), "style")))
    assert "user-select:none" not in styles
