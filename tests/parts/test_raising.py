"""Every change that is offered is accepted by the engine file, and helps."""

from __future__ import annotations

import pytest
from tests.parts.moments import COLD, FILES, engine, moment

from firstfire.engine.read import with_values
from firstfire.parts import ways

#: Changes that act through gas, heat or speed: the parts' room sees no difference by itself, so
#: whether they help can only be found by running the engine again.
BY_RUNNING = {
    ("piston.shield.thickness",),
    ("piston.shield.material", "piston.shield.thickness"),
    ("piston.shield.air_gap",),
    ("head.chamber_plate", "head.chamber_plate_thickness"),
    ("surroundings.cooling",),
    ("spark.limit_speed", "spark.limited_by"),
}


@pytest.mark.parametrize("file", FILES)
@pytest.mark.parametrize("event", ["first_fire", "full_throttle", "overtighten", "night"])
def test_a_change_is_accepted_and_raises_the_factor(file: str, event: str) -> None:
    rises = COLD if event != "full_throttle" else None
    changed: dict[tuple[tuple[str, str], ...], dict[str, float]] = {}
    for way in ways(moment(file, event=event, rises=rises)):
        for change in way.raise_by:
            key = tuple(sorted(change.set.items()))
            if key not in changed:
                after = with_values(engine(file), dict(change.set), comma=True)
                found = ways(moment(after, event=event, rises=rises))
                changed[key] = {one.id: one.factor for one in found if one.judged}
            if tuple(path for path, _ in key) in BY_RUNNING:
                continue
            # A way that is gone afterwards can no longer fail: no sealant, no printed pin.
            factor = changed[key].get(way.id, float("inf"))
            assert factor > way.factor, (way.id, change.text, way.factor, factor)


@pytest.mark.parametrize("kind", ["plain_press", "bonded", "clamped", "keyed", "pinned", "polygon",
                                  "splined", "solid"])  # fmt: skip
@pytest.mark.parametrize("file", ["engines/wren.toml", "engines/heron.toml"])
def test_each_kind_of_crank_joint_can_be_raised(kind: str, file: str) -> None:
    plain = with_values(engine(file), {"crank.joint.kind": kind}, comma=True)
    ids = ("crank.joint.slip", "crank.pin.twist")  # what is one piece has no joint to slip
    slips = next(way for way in ways(moment(plain)) if way.id in ids)
    assert (slips.id == "crank.pin.twist") is (kind == "solid")
    if not slips.judged:
        assert kind == "polygon"  # twelve teeth of a spline are too many flats for a polygon
        return
    assert slips.raise_by or slips.factor > 3  # what is ample needs no change
    for change in slips.raise_by:
        after = with_values(plain, dict(change.set), comma=True)
        found = next(way for way in ways(moment(after)) if way.id in ids)
        assert found.factor > slips.factor, change.text


def test_a_shield_is_offered_only_where_there_is_none() -> None:
    bare = {way.id: way for way in ways(moment("engines/heron.toml"))}
    shielded = {way.id: way for way in ways(moment("engines/wren.toml"))}
    assert any("shield" in change.text for change in bare["piston.crown.break"].raise_by)
    assert "piston.crown.char" not in shielded
    assert not any("shield on" in c.text for c in shielded["ring.overheat"].raise_by)
