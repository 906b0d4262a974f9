"""A number that a material's row doesn't tell is never the better case: not judged, and says so.

For each engine, each judgement and each number of a material that it asks for, the number is taken
out of the row.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import COLD, engine, moment

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.errors import OutsideValidity
from firstfire.parts.all import JUDGEMENTS, judged_during
from firstfire.parts.failure import Judgement
from firstfire.parts.head_joint import head_joint
from firstfire.parts.softness import strength_left, stress_left
from firstfire.runs.readers import readers

DEMOS = ("engines/wren.toml", "engines/plover.toml", "engines/heron.toml")
EVENTS = (("first_fire", COLD), ("full_throttle", None), ("night", COLD))
CURVES = ("strength", "modulus", "relaxation_warm")

#: What may be untold, because the worst that it can be is taken instead.
WORST_TAKEN = {
    "strength_per_decade": "no gain by speed of loading is counted",
    "hdt_180": "only chooses which other plastic to try",
}


def without(at: Moment, key: str, prop: str) -> Moment:
    """The same moment with a number, or a curve, of a material untold."""
    old = at.engine.materials[key]
    new = replace(
        old,
        properties={name: old.properties[name] for name in old.properties if name != prop},
        curves={name: points for name, points in old.curves.items() if name != prop},
    )
    materials = {**at.engine.materials, key: new}
    return replace(at, engine=at.engine.model_copy(update={"materials": materials}))


def told_apart(judge: Judgement, at: Moment) -> Way | None:
    return judge(at) if judge.applies(at) else None


def favoured(before: Way, after: Way | None, prop: str) -> str:
    """How a judgement took what it doesn't know for the better; "" where it didn't."""
    if after is None:
        return "is gone"
    if not after.judged:
        words = prop.replace("_", " ")
        return "" if words in after.why_not else f"doesn't name it: {after.why_not}"
    if after.factor > before.factor * (1 + 1e-9):
        return f"rose from {before.factor:.4g} to {after.factor:.4g}"
    if prop not in WORST_TAKEN:
        return f"is judged without it: {before.factor:.4g}, {after.factor:.4g}"
    return ""


@pytest.mark.parametrize("file", DEMOS)
@pytest.mark.parametrize(("event", "rises"), EVENTS)
def test_no_judgement_takes_a_missing_number_for_the_better(file, event, rises):
    at = moment(file, event=event, rises=rises)
    wrong, asked = [], 0
    for path, judges in readers(at).items():
        _, key, prop = path.split(".")
        if prop not in at.engine.materials[key].properties:
            continue
        missing = without(at, key, prop)
        for judge in judges:
            before = judge(at)
            asked += 1
            if before.judged:
                how = favoured(before, told_apart(judge, missing), prop)
                wrong += [f"{judge.failure.id} without {key}.{prop} {how}"] if how else []
    assert not wrong, "\n".join(wrong)
    assert asked


@pytest.mark.parametrize("file", DEMOS)
@pytest.mark.parametrize(("event", "rises"), EVENTS)
def test_no_judgement_takes_a_missing_curve_for_the_better(file, event, rises):
    at = moment(file, event=event, rises=rises)
    wrong = []
    for key, material in at.engine.materials.items():
        for curve in CURVES:
            if curve not in material.curves:
                continue
            missing = without(at, key, curve)
            for judge in judged_during(at.event):
                before = told_apart(judge, at)
                if before is None or not before.judged:
                    continue
                after = told_apart(judge, missing)
                if after is not None and after.judged and after.factor > before.factor * 1.000001:
                    wrong.append(f"{judge.failure.id} without {key}'s curve of {curve}: "
                                 f"{before.factor:.4g} to {after.factor:.4g}")  # fmt: skip
    assert not wrong, "\n".join(wrong)


def sealed(**changes: str) -> Moment:
    """Wren with another gasket, 12 hours after it was put together."""
    said = {f"gasket.{name}": value for name, value in changes.items()}
    return moment(with_values(engine("engines/wren.toml"), said), event="first_fire", rises=COLD)


def way(at: Moment, name: str) -> Way:
    return next(judge(at) for judge in JUDGEMENTS if judge.failure.id == name)


def test_a_gasket_without_its_factor_is_not_judged() -> None:
    """PTFE had m = 0, shown as the material's row: the best gasket there could be."""
    opens = way(sealed(kind="sheet", material="ptfe"), "gasket.open")
    assert not opens.judged
    assert "gasket m" in opens.why_not
    assert "PTFE" in opens.why_not
    assert way(sealed(kind="sheet"), "gasket.open").judged


def test_a_gasket_creeps() -> None:
    """Each piece clamped yields by its own creep; the whole by no more than its softest."""
    soft, firm = sealed(kind="sheet", material="ptfe"), sealed(kind="sheet", material="copper")
    left = [head_joint(at).stress_left for at in (soft, firm)]
    ptfe = soft.engine.materials["ptfe"]
    assert stress_left(ptfe, 12.0, 293.15) < left[0] < left[1] < 1.0


def test_strength_without_a_curve_is_known_at_room_only() -> None:
    plain = moment("engines/wren.toml").engine
    bare = replace(plain.materials["petg"], curves={})
    assert strength_left(bare, 296.15) == 1.0
    with pytest.raises(OutsideValidity, match="curve of strength"):
        strength_left(bare, 320.0)


def test_what_a_row_tells_not_is_named_with_its_cure() -> None:
    bare = Material("mine", "My mix", {}, {}, yours=True)
    with pytest.raises(OutsideValidity, match="My mix tells no melting") as why:
        _ = bare["melting"]
    assert "[material.mine]" in str(why.value)
