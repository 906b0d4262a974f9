"""What a way to fail reads is what moves it: every value of an engine file is moved, one by one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import engine, moment

from firstfire.engine.grammar import leaves
from firstfire.parts import ways
from firstfire.runs.reads import reads

FILES = ("engines/wren.toml", "engines/heron.toml", "tests/strangers/5_metal_wren.toml")
MORE = 1.02


def _factors(at):
    return {way.id: way.factor for way in ways(at) if way.judged}


def alone(plain, names, value):
    """One value changed, and not what rules would make of it: that is another value's."""
    first, *others = plain.cylinders
    if names[0] in type(first).model_fields:
        return plain.model_copy(update={"cylinders": (alone_in(first, names, value), *others)})
    return alone_in(plain, names, value)


def alone_in(part, names, value):
    if len(names) == 1:
        return part.model_copy(update={names[0]: value})
    return part.model_copy(update={names[0]: alone_in(getattr(part, names[0]), names[1:], value)})


@pytest.mark.parametrize("file", FILES)
def test_what_moves_a_way_is_among_what_it_reads(file):
    """With its loads and its walls' warmth held: those have read for themselves.

    By declaration, 45 of wren's 66 ways answered to paths that they did not name.
    """
    described, at = engine(file), moment(file)
    values, before, read = described.values(1), _factors(at), reads(at)
    moved = 0
    for path in leaves():
        now = values[path]
        if isinstance(now, bool) or not isinstance(now, float) or now == 0:
            continue
        if path == "doubt.softening":  # already in the materials' curves
            continue
        plain = alone(at.engine, path.split("."), MORE * now)
        for way, factor in _factors(replace(at, engine=plain)).items():
            if way in before and factor != pytest.approx(before[way], rel=1e-9):
                assert path in read[way], (way, path)
                moved += 1
    assert moved > 100


@pytest.mark.parametrize("file", FILES)
def test_what_is_read_of_materials_is_named_by_their_property(file):
    """A strength that a way stands on is among its paths, with its material's own name."""
    read = reads(moment(file))
    head = moment(file).parts.head.material
    assert any(
        path.startswith(f"materials.{head}.strength") or path.startswith(f"materials.{head}.yield")
        for path in read["head.break"]
    )
