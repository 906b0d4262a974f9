"""Engines at the edges of what a file may say, through every command: an answer or words."""

from __future__ import annotations

import json
import math
import os
import random
import re

import pytest
from tests.parts.moments import COLD, moment
from tests.whole.spoilt import (
    LAYOUTS,
    any_materials,
    changed,
    lift_table,
    one_edge_each,
    small,
)

from firstfire import check, compare
from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError, OutsideValidity
from firstfire.parts import ways
from firstfire.setup.contract import parts_json
from firstfire.setup.parts_list import parts_list
from firstfire.setup.text import parts_text
from firstfire.verdict.compare import compare as comparing
from firstfire.verdict.explain import contract as explain_contract
from firstfire.verdict.explain.find import elsewhere, listed
from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.explain.text import explain_text, list_text
from firstfire.verdict.result import Result

TIMES = int(os.environ.get("FIRSTFIRE_SPOILT", "1"))
"""How many times the tests' own number is tried; the bench asks for many."""
SEED = int(os.environ.get("FIRSTFIRE_SEED", "1"))
_NO_NUMBER = re.compile(r"(?<![\w.])[+-]?(nan|inf|infinity)(?![\w'])", re.IGNORECASE)


def is_told_in_numbers(text: str) -> None:
    """Neither inf nor NaN stands in what is shown."""
    found = _NO_NUMBER.search(text)
    assert found is None, text[max(0, found.start() - 60) : found.end() + 20]


def is_sound_json(text: str) -> None:
    """JSON as every reader takes it."""

    def refuse(word: str) -> None:
        raise AssertionError(f"{word} in JSON")

    json.loads(text, parse_constant=refuse)


def drawn_and_listed(engine: Engine) -> None:
    """Both drawings and the parts list: made, or refused in words."""
    plain = resolve(engine)
    for draw in (section, along_crank):
        try:
            is_told_in_numbers(to_svg(draw(plain, crank_angle=0.5)))
        except OutsideValidity as why:
            assert len(str(why)) > 20
    found = parts_list(engine)
    is_told_in_numbers(parts_text(found, ()))
    is_sound_json(parts_json(found, ()))


def has_a_number_or_a_reason(way: Way) -> None:
    if not way.judged:
        assert len(way.why_not) > 20, way.id
        return
    assert way.demand >= 0, way.id
    assert math.isfinite(way.demand), way.id
    assert math.isfinite(way.capacity), way.id
    assert all(math.isfinite(x) for x in way.inputs.values()), way.id


def judged(engine: Engine) -> list[Way]:
    """Every way at a cold first fire, warm full throttle and rest: none may crash or tell NaN."""
    found = []
    for event, rises in (("first_fire", COLD), ("full_throttle", None), ("night", COLD)):
        try:
            at: Moment = moment(engine, event=event, rises=rises)
        except OutsideValidity:
            continue
        found += list(ways(at))
    for way in found:
        has_a_number_or_a_reason(way)
    return found


def test_each_value_at_its_edges_is_drawn_listed_and_judged() -> None:
    chance, tried = random.Random(SEED), 0
    for number, change in enumerate(one_edge_each(chance)):
        engine = changed(small(LAYOUTS[number % len(LAYOUTS)]), change)
        if engine is None:
            continue
        tried += 1
        drawn_and_listed(engine)
        if tried % 3 == 0:
            judged(engine)
        if tried >= 40 * TIMES:
            break
    assert tried >= 40


def test_several_values_at_their_edges_at_once() -> None:
    chance, tried = random.Random(SEED + 1), 0
    loose = list(one_edge_each(chance))
    for number in range(30 * TIMES):
        change = {k: v for one in chance.sample(loose, 3) for k, v in one.items()}
        engine = changed(small(LAYOUTS[number % len(LAYOUTS)]), change)
        if engine is not None:
            tried += 1
            drawn_and_listed(engine)
    assert tried


def test_any_material_in_any_role_is_judged_or_told_why_not() -> None:
    chance = random.Random(SEED + 2)
    for _ in range(25 * TIMES):
        engine = changed(small("single"), any_materials(chance))
        if engine is not None:
            assert judged(engine)


def test_odd_lift_tables_are_refused_or_followed() -> None:
    chance, taken = random.Random(SEED + 3), 0
    for _ in range(150 * TIMES):
        which = chance.choice(("inlet", "exhaust"))
        change: dict[str, object] = {f"valves.{which}.lift_table": lift_table(chance)}
        engine = changed(small("single"), change)
        if engine is not None:
            taken += 1
            judged(engine)
    assert taken


def told_whole(result: Result, chance: random.Random) -> None:
    """Everything that a check, and an explanation of any of its judgements, shows."""
    is_told_in_numbers(str(result))
    is_sound_json(result.to_json())
    is_told_in_numbers(list_text(listed(result.margins), result.plain))
    margins = list(result.margins)
    for margin in chance.sample(margins, min(len(margins), 25)):
        one = explanation(result, margin)
        is_told_in_numbers(explain_text(one, elsewhere(result.margins, margin)))
        is_sound_json(explain_contract.as_json(explain_contract.told(one)))


CHECKED: tuple[dict[str, object], ...] = (
    {"piston.shield.thickness": "1 mm", "piston.shield.material": "abs",
     "head.chamber_plate": "pmma", "head.chamber_plate_thickness": "3 mm"},
    {"starter.stall_torque": "0.001 N*m", "gasket.material": "ptfe"},
)  # fmt: skip


@pytest.mark.slow
def test_spoilt_engines_are_checked_explained_and_compared(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    chance = random.Random(SEED + 4)
    tried = list(CHECKED)
    tried += [any_materials(chance) for _ in range(TIMES - 1)]
    loose = list(one_edge_each(chance))
    tried += [{**chance.choice(loose), **chance.choice(loose)} for _ in range(TIMES - 1)]
    engines = [e for change in tried if (e := changed(small("single"), change)) is not None]
    results: dict[int, Result] = {}
    for engine in engines:
        try:
            results[id(engine)] = check(engine, speeds=(314.0,), drawn=14)
            told_whole(results[id(engine)], chance)
        except FirstfireError as why:
            assert len(str(why)) > 20

    def checked(engine: Engine, **_: object) -> Result:
        """What it came to above: what is compared isn't run once more."""
        if id(engine) not in results:
            raise OutsideValidity("This engine was refused above, so it can't be compared.")
        return results[id(engine)]

    monkeypatch.setattr(comparing, "check", checked)
    for pair in zip(engines[::2], engines[1::2], strict=False):
        try:
            found = compare([(str(at), one) for at, one in enumerate(pair)], printed_masses=None)
            is_told_in_numbers(str(found))
        except FirstfireError as why:
            assert len(str(why)) > 20


@pytest.mark.parametrize("count", [400, 5000])
def test_whole_numbers_of_many_digits(count: int) -> None:
    """As text, as a typed count, from the Python door."""
    many = "9" * count
    for value in (many, f"{many}/{many} in", f"1 {many}/2 in", f"{many} mm", 10 ** min(count, 400)):
        for path in ("cylinder.bore", "head.fasteners.count", "intake.equivalence_ratio"):
            assert changed(small("single"), {path: value}) is None, path
