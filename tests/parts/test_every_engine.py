"""Every engine, every event: each part answers with numbers or says why it doesn't."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.parts.moments import COLD, FILES, moment

from firstfire.catalog import Catalog
from firstfire.engine.grammar import leaves
from firstfire.engine.records import Way
from firstfire.parts import REPORTED, failures, ways
from firstfire.parts.events import GOING_ON

EVENTS = tuple(GOING_ON)


def judged(file: str, event: str, cylinder: int = 0) -> tuple[Way, ...]:
    rises = COLD if event in ("first_fire", "cranking", "night", "overtighten") else None
    return ways(moment(file, event=event, cylinder=cylinder, rises=rises))


@pytest.mark.parametrize("file", FILES)
@pytest.mark.parametrize("event", EVENTS)
def test_each_way_has_finite_numbers_or_a_reason(file: str, event: str) -> None:
    for way in judged(file, event):
        if way.judged:
            assert math.isfinite(way.demand), way.id
            assert way.demand >= 0, way.id
            assert math.isfinite(way.capacity), way.id
            assert way.capacity >= 0, way.id
            assert way.governs, way.id
            assert not way.why_not
            for name, value in way.inputs.items():
                assert math.isfinite(value), (way.id, name)
        else:
            assert len(way.why_not) > 20, way.id


@pytest.mark.parametrize("file", FILES)
def test_each_way_says_what_it_is(file: str) -> None:
    for way in judged(file, "full_throttle"):
        assert way.formula, way.id
        assert way.source, way.id
        assert f"{way.part} {way.failure}" == f"{way.part} {way.failure}".strip()


@pytest.mark.parametrize("file", FILES)
def test_a_running_engine_is_not_passed_over(file: str) -> None:
    """Forty ways or so; of what an engine file can say, little stays unjudged.

    What is loaded and has no size in the file is named with that as its reason.
    """
    found = judged(file, "full_throttle")
    assert len(found) >= 35
    unsaid = [way for way in found if way.why_not.startswith("The file ")]
    assert {"case.flange.break", "case.joint.open", "case.mount.break"} <= {w.id for w in unsaid}
    assert sum(not way.judged for way in found) - len(unsaid) <= 8


def test_ids_are_told_apart_and_a_second_cylinder_is_numbered() -> None:
    first = [way.id for way in judged("engines/heron.toml", "full_throttle")]
    second = [way.id for way in judged("engines/heron.toml", "full_throttle", cylinder=1)]
    assert len(set(first)) == len(first)
    assert all(name.endswith("#2") for name in second)
    assert {name.removesuffix("#2") for name in second} < set(first)


def test_what_is_the_engines_own_is_listed_once() -> None:
    second = {way.id for way in judged("engines/heron.toml", "full_throttle", cylinder=1)}
    shared = {failure.id for failure in failures() if failure.shared}
    assert {"crank.joint.slip", "crank.bearing.dent", "cam_drive.belt.jump"} <= shared
    assert not second & {f"{name}#2" for name in shared}


def test_what_throws_bursts_or_burns_is_marked() -> None:
    """Head, plug, fasteners, gasket, liner and flywheel: the list of hazards of the design."""
    marked = {failure.id for failure in failures() if failure.hazard}
    assert marked >= {
        "head.break", "head.lift", "head.fasteners.strip", "head.bolt.tire", "plug.blow",
        "gasket.open", "gasket.sealant.blow", "liner.burst", "body.split", "flywheel.burst",
    }  # fmt: skip
    assert not marked & {"piston.crown.break", "crank.joint.slip", "ring.leak"}


def test_a_charred_skin_and_lost_breath_are_told_and_not_the_end() -> None:
    assert (
        frozenset(
            {
                "piston.crown.char",
                "head.char",
                "head.face.soften",
                "valves.inlet.late",
                "exhaust_port.char",
            }
        )
        == REPORTED
    )


def test_ids_of_failures_are_unique() -> None:
    names = [failure.id for failure in failures()]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("file", FILES)
def test_changes_name_known_paths_and_efforts(file: str) -> None:
    efforts = {row.key for row in Catalog().rows("effort")}
    known = leaves()
    for way in judged(file, "full_throttle"):
        assert len(way.raise_by) <= 4, way.id
        for change in way.raise_by:
            assert change.effort in efforts, (way.id, change.effort)
            assert change.set, way.id
            assert all(path in known for path in change.set), (way.id, change.set)
            assert change.text[0].isupper()


def test_nothing_is_remembered_between_moments() -> None:
    """Asked again after another engine, the answer is the same."""
    here, other = moment(FILES[0]), moment(FILES[1])
    before = ways(here)
    ways(other)
    assert ways(replace(here)) == before


def test_each_event_asks_what_it_can_break() -> None:
    assert {way.id for way in judged(FILES[0], "night")} == {
        "head.preload.fade", "head.washer.sink",
    }  # fmt: skip
    assert "piston.swell" not in {way.id for way in judged(FILES[0], "first_fire")}
    assert "piston.swell" in {way.id for way in judged(FILES[0], "idle")}
    assert [way.judged for way in judged(FILES[0], "case_fire")] == [False]
