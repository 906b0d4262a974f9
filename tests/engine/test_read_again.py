"""An engine read again after a change is the one that is read anew, whatever was changed."""

from dataclasses import replace
from itertools import islice
from pathlib import Path

import pytest

from firstfire import catalog
from firstfire.engine.grammar import leaves
from firstfire.engine.impossible.whole import impossible
from firstfire.engine.layers import Entry, Layer
from firstfire.engine.read import read, understand, with_layer_text, with_values
from firstfire.engine.resolve import resolve
from firstfire.engine.values import Unsaid, Values
from firstfire.errors import EngineFileError, OutsideValidity

ENGINES = Path(__file__).resolve().parents[2] / "engines"
CHOICES = {
    "printing.material": "abs", "crank.joint.kind": "clamped", "valves.inlet.worked": "suction",
    "crank.main_bearing": "6202", "intake.fuel": "e85", "rings.kind": "metal",
    "cam_drive.kind": "chain", "spark.source": "points", "starter.kind": "rope",
    "head.fasteners.thread": "m6", "crank.made": "rod", "liner.kind": "none",
}  # fmt: skip
"""Words that much else hangs on."""
OWN = """
[material.{0}]
like = "{0}"
name = "{0}"
density = {{ value = 900, low = 890, high = 910, unit = "kg/m^3", source = "a scale of my own", \
sure = "measured" }}
"""


@pytest.fixture(scope="module", params=["wren", "heron"])
def engine(request):
    return read(ENGINES / f"{request.param}.toml")


def found_anew(engine, number):
    values = Values(engine.stack, engine.catalog, number)
    return {path: _spoken(values, path) for path in leaves()}


def _spoken(values, path):
    try:
        return values.spoken(path)
    except (Unsaid, OutsideValidity) as why:
        return repr(why)


def same(engine):
    """Whether every value, with its origin, is what it is without anything of before."""
    for number, values in enumerate(engine.built, start=1):
        assert {path: _spoken(values, path) for path in leaves()} == found_anew(engine, number)
    alone = replace(engine, before=())
    again, anew = resolve(engine), resolve(alone)
    assert again == anew
    assert again.sha256 == anew.sha256
    return True


def said(engine, path, value, written):
    entry = Entry(path, value, written, "trial", "given")
    return engine.with_layer(Layer("trial", "a walk", {path: entry}))


def steps(engine):
    """Changes one after another: every fifth quantity a little larger, a word between two."""
    sizes = [path for path, leaf in leaves().items() if leaf.form == "quantity" and leaf.low]
    words = iter(CHOICES.items())
    for path in sizes[::5]:
        value = engine.values(1)[path]
        if isinstance(value, float) and value:
            yield path, 1.013 * value, f"{1.013 * value} SI"
        yield from ((place, word, word) for place, word in islice(words, 1))


def test_a_walk_through_many_values_always_stands_where_reading_anew_would(engine):
    """Each step begins from what the step before has found."""
    before, changed = engine.built, 0
    for path, value, written in steps(engine):
        one = said(replace(engine, before=before), path, value, written)
        assert one.before is before
        assert same(one)
        before, changed = one.built, changed + 1
    assert changed > 30


def test_a_change_that_can_not_be_is_refused_in_the_same_words(engine):
    for path, value in (("crank.crankpin_diameter", 0.06), ("liner.outside_diameter", 0.02)):
        again = said(engine, path, value, f"{value} m")
        anew = replace(again, before=())
        told = [impossible(x, [x.values(n + 1) for n in range(x.cylinders)]) for x in (again, anew)]
        assert told[0] == told[1]
        assert told[0]


def test_lines_that_have_moved_are_told_where_they_are_now(engine):
    file = ENGINES / engine.where.rpartition("/")[2]
    text = "# one line more\n" + file.read_text().replace('stroke = "', 'stroke = "1', 1)
    with pytest.raises(EngineFileError) as again:
        understand(text, "moved.toml", engine.catalog, engine.built)
    with pytest.raises(EngineFileError) as anew:
        understand(text, "moved.toml", engine.catalog)
    assert again.value.problems == anew.value.problems
    moved = understand("\n\n" + file.read_text(), "moved.toml", engine.catalog, engine.built)
    bore = moved.built[0].spoken("cylinder.bore")
    assert bore.line == engine.built[0].spoken("cylinder.bore").line + 2
    assert same(moved)


def test_a_material_made_stiffer_is_felt_wherever_a_rule_asked_for_it(engine):
    key = engine.values(1)["piston.material"]
    dense = f'layer = "learned"\n[set.materials.{key}]\ndensity = "1900 kg/m^3"\n'
    on = with_layer_text(dense, "dense.toml", replace(engine, before=engine.built))
    assert same(on)
    assert resolve(on).materials[key]["density"] == 1900.0
    assert on.built[0]["piston.mass"] > engine.built[0]["piston.mass"]


def test_what_is_no_longer_said_follows_its_rule_again(engine):
    off = with_values(engine, {"pin.diameter": "9 mm"})
    assert off.built[0]["pin.diameter"] == pytest.approx(9e-3)
    back = replace(off, stack=engine.stack, before=off.built)
    assert same(back)
    assert back.built[0]["pin.diameter"] == engine.built[0]["pin.diameter"]


def test_rows_of_another_catalog_are_not_taken_for_the_same(engine, tmp_path):
    own = tmp_path / "catalog.toml"
    own.write_text(OWN.format(engine.values(1)["piston.material"]))
    other = replace(engine, catalog=catalog.load([own]), before=engine.built)
    assert same(other)
    assert other.built[0]["piston.mass"] < engine.built[0]["piston.mass"]
