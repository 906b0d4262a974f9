"""Would metal help: the one sentence of a comparison, from results whose factors are made up."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from tests.verdict.test_compare import scaled

import firstfire as ff
from firstfire.catalog import Catalog
from firstfire.verdict.compare import compare as comparing
from firstfire.verdict.compare.compare import Column, side_by_side
from firstfire.verdict.compare.contract import CompareTold, comparison_json
from firstfire.verdict.compare.metal import metal
from firstfire.verdict.compare.metal_words import would_metal_help
from firstfire.verdict.facts.margin import named
from firstfire.verdict.numbers import THIN

CRANK = {"crank.made": "rod", "crank.material": "steel", "crank.joint.plate_thickness": "0 mm"}


def of(result, values):
    """The result as if it were another engine's."""
    engine = ff.with_values(result.engine, values)
    return replace(result, engine=engine, plain=ff.resolve(engine))


def pair_of(*results):
    columns = [
        Column(comparing.letter(place), f"engine {place}", r.engine, r)
        for place, r in enumerate(results)
    ]
    return side_by_side(columns).pairs[0]


def sentence(*results):
    return would_metal_help(pair_of(*results)).replace(THIN, " ")


def test_nothing_is_said_without_metal_for_plastic(result):
    assert sentence(result, of(result, {"rings.count": "1"})) == ""
    # one metal for another, one plastic for another
    assert sentence(result, of(result, {"liner.material": "brass"})) == ""
    assert sentence(result, of(result, {"body.material": "PA12-CF"})) == ""


def test_better_at_what_and_what_still_ends_it(result):
    joint = next(m.way.id for m in result.margins if m.way.id.startswith("crank.cheek"))
    better = scaled(of(result, CRANK), 3.0, only=joint)
    said = sentence(result, better)
    assert said.startswith("Would metal help? With a metal crank where A's is printed, B is better")
    assert "one way to fail (crank cheek breaks" in said
    assert "worse at nothing" in said
    assert "what ends it is still that the crown shield" in said
    assert "no price known" in said
    before = min(m.factor for m in result.margins if m.way.id == joint and m.factor)
    assert f"{before:.2g} → {3 * before:.2g}" in said


def test_the_metal_engine_may_stand_first(result):
    cheek = next(m.way.id for m in result.margins if m.way.id.startswith("crank.cheek"))
    better = scaled(of(result, CRANK), 3.0, only=cheek)
    forward, backward = sentence(result, better), sentence(better, result)
    swapped = backward.replace("B's", "#").replace("A is", "B is").replace("#", "A's")
    assert swapped == forward


def test_what_fails_at_once_ends_it(result):
    worse = scaled(of(result, CRANK), 0.01)
    first = min((m for m in worse.margins if m.factor), key=lambda m: m.factor)
    worse = replace(worse, verdict=replace(worse.verdict, word="fails", first=first))
    said = sentence(result, worse)
    assert "is better at nothing that is judged, worse at" in said
    assert f"what then ends it is that the {named(worse.plain, first.way)}" in said


def test_nothing_may_end_it(result):
    lasting = of(result, CRANK)
    lasting = replace(lasting, verdict=replace(lasting.verdict, ends_first=None))
    assert "nothing that is judged then ends a run within 10 min" in sentence(result, lasting)


def test_hands_are_the_catalogs_and_count_every_piece(result):
    (one,) = metal(pair_of(result, of(result, {**CRANK, "rod.material": "aluminium"})))
    assert [cost.part for cost in one.costs] == ["crank", "con rod"]
    rows = Catalog()
    for cost, key in zip(one.costs, ("turned_crank", "machined_rod"), strict=True):
        hours = rows.row("effort", key)["hand_hours"]
        assert cost.seconds == hours.si
        assert (cost.seconds_low, cost.seconds_high) == (hours.si_low, hours.si_high)
    said = sentence(result, of(result, {**CRANK, "rod.material": "aluminium"}))
    # 8 + 4 h, 4 + 2 to 16 + 8: the table's values, by hand
    assert "about 12 h of hands (6 to 24, common practice)" in said
    assert "With metal crank and con rod where A's are printed" in said


def test_two_cylinders_take_two_of_each(result):
    twin = of(result, {"layout.kind": "parallel_twin"})
    heads = of(result, {"layout.kind": "parallel_twin", "head.material": "aluminium",
                        "head.made": "bought"})  # fmt: skip
    (one,) = metal(pair_of(twin, heads))
    single = Catalog().row("effort", "machined_head")["hand_hours"].si
    assert [(c.part, c.pieces, c.seconds) for c in one.costs] == [("head", 2, 2 * single)]
    assert "for 2 of head" in sentence(twin, heads)


def test_pins_of_one_piece_cost_nothing_beside_their_crank(result):
    printed = of(result, {"crank.crankpin_material": "PA12-CF", "crank.joint.kind": "splined"})
    whole = of(result, {**CRANK, "crank.built": "one_piece", "crank.crankpin_material": "steel"})
    (one,) = metal(pair_of(printed, whole))
    assert [cost.part for cost in one.costs] == ["crank"]


def test_other_values_that_differ_are_counted(result):
    both = of(result, {**CRANK, "rings.count": "1", "rod.split": "true"})
    assert "(2 other values differ too, and did their share)" in sentence(result, both)
    one = of(result, {**CRANK, "rings.count": "1"})
    assert "(one other value differs too, and did its share)" in sentence(result, one)


def test_metal_on_both_sides_tells_nothing(result):
    said = sentence(of(result, CRANK), of(result, {"rod.material": "aluminium"}))
    assert "Each has some" in said
    assert "B's con rod and A's crank" in said


@pytest.mark.parametrize("values", [CRANK, {"rings.count": "1"}])
def test_json_has_it_too(result, values):
    columns = [
        Column(comparing.letter(place), f"engine {place}", r.engine, r)
        for place, r in enumerate((result, of(result, values)))
    ]
    told = json.loads(comparison_json(side_by_side(columns)))
    CompareTold.model_validate(told)
    (pair,) = told["pairs"]
    has = "crank.material" in values
    assert (pair["would_metal_help"] or "").startswith("Would metal help?") is has
    assert [m["metal"] for m in pair["metal"]] == ["B"] * has
