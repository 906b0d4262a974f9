"""Readings of a cam that is put together wrongly lead back to what was done to it.

What is read is not had from the solver's own law: an engine is turned degree by degree, and a cam
that its wheels drive is watched for its marks.
"""

from __future__ import annotations

import json
import math
import random

import numpy as np
import pytest
from tests.setup.test_timing import engine

import firstfire as ff
from firstfire.errors import EngineFileError
from firstfire.setup.misset.contract import MissetTold, misset_told
from firstfire.setup.misset.faults import Fault
from firstfire.setup.misset.words import cures

EVENTS = {"inlet opens": 350, "inlet closes": 580, "exhaust opens": 135, "exhaust closes": 370}
"""Of wren, crank degrees after the firing top."""


def watched(teeth_crank, teeth_cam, cam_late, event, turned=1):
    """Crank degrees, after a firing top, at which a cam that is late shows an event's mark.

    `event` is in crank degrees as drawn, so that its mark stands at half of that on the cam;
    `cam_late` in degrees of the cam. `turned` is the way the crank is turned and counted.
    """
    crank = turned * 0.05 * np.arange(round(720 / 0.05))
    cam = crank * teeth_crank / teeth_cam - cam_late
    away = (cam - event / 2 + 180) % 360 - 180
    met = (away[:-1] * away[1:] <= 0) & (np.abs(away[1:]) < 90)
    return [float(turned * one) for one in crank[1:][met]]


def said(name, angle):
    """An angle after top, 0 to 360, as one would write it at the bench."""
    angle %= 360
    if angle <= 90:
        return f"{name}={angle:.1f} deg after top"
    if angle <= 180:
        return f"{name}={180 - angle:.1f} deg before bottom"
    if angle <= 270:
        return f"{name}={angle - 180:.1f} deg after bottom"
    return f"{name}={360 - angle:.1f} deg before top"


def test_two_hundred_ways_to_put_it_together() -> None:
    chance = random.Random(14)
    lost = []
    for _ in range(200):
        teeth = chance.choice((15, 16, 18, 20, 24))
        wheel = {"cam_drive__teeth_crank": teeth, "cam_drive__teeth_cam": 2 * teeth}
        drawn = dict(EVENTS)
        for name in drawn:
            drawn[name] += chance.choice((-15, -10, 0, 5, 10, 20))
        one = engine(
            "wren", **wheel,
            valves__inlet__opens_before_top=f"{360 - drawn['inlet opens']} deg",
            valves__inlet__closes_after_bottom=f"{drawn['inlet closes'] - 540} deg",
            valves__exhaust__opens_before_bottom=f"{180 - drawn['exhaust opens']} deg",
            valves__exhaust__closes_after_top=f"{drawn['exhaust closes'] - 360} deg",
        )  # fmt: skip
        swapped = chance.random() < 0.25
        turned = -1 if chance.random() < 0.25 else 1
        out = chance.randint(-4, 4)
        # a tooth is always one of the cam's own wheel: with wheels exchanged that is the small one
        crank_wheel, cam_wheel = (2 * teeth, teeth) if swapped else (teeth, 2 * teeth)
        read = [
            said(name, watched(crank_wheel, cam_wheel, out * 360 / cam_wheel, at, turned)[0]
                 + chance.uniform(-2, 2))
            for name, at in drawn.items()
        ]  # fmt: skip
        found = ff.misset(one, read)
        true = Fault(teeth=out, mirrored=turned < 0, swapped=swapped)
        all_told = [found.found.fault, *(other.fault for other in found.others)]
        if found.found.fault != true and not (found.others and true in all_told):
            lost.append((true, found.found.fault, read))
        if true == found.found.fault and not found.others:
            continue
        # Where more than one is told, that is said, and what to read next or that nothing helps.
        assert found.others
    assert not lost, lost[:3]


def test_nearly_all_are_told_alone() -> None:
    # With four events read to a degree nothing else is left but what truly reads the same.
    alone = 0
    for teeth in range(-4, 5):
        for turned in (1, -1):
            for wheels in ((18, 36), (36, 18)):
                late = teeth * 360 / wheels[1]
                read = [said(n, watched(*wheels, late, at, turned)[0]) for n, at in EVENTS.items()]
                found = ff.misset(engine("wren"), read)
                assert found.found.fault == Fault(
                    teeth=teeth, mirrored=turned < 0, swapped=wheels[0] == 36
                )
                alone += not found.others
    assert alone == 36


def test_half_a_turn_of_the_cam_is_told_where_the_top_is_named() -> None:
    one = engine("wren")
    named = ff.misset(one, ["inlet opens=10 deg before firing top",
                            "exhaust closes=10 deg after firing top"])  # fmt: skip
    assert abs(named.found.fault.teeth) == 18
    assert named.which_top_known
    bare = ff.misset(one, ["inlet opens=10 deg before top", "exhaust closes=10 deg after top"])
    assert bare.found.fault.none
    assert not bare.which_top_known
    assert "half a turn out reads the same" in " ".join(str(bare).split())


def test_one_reading_leaves_more_than_one_fault_and_says_what_to_read_next() -> None:
    found = ff.misset(engine("wren"), ["inlet opens=12 deg after top"])
    assert found.found.fault == Fault(teeth=1)
    assert Fault(mirrored=True) in [one.fault for one in found.others]
    assert found.next_event is not None
    assert "Read next" in str(found)
    others = misset_told(found).others
    assert [(one.teeth_late, one.mirrored) for one in others] == [
        (one.fault.teeth, one.fault.mirrored) for one in found.others
    ]
    # Done, it is told.
    more = ff.misset(engine("wren"), ["inlet opens=12 deg after top",
                                      "exhaust at full lift=87.5 deg before top"])  # fmt: skip
    assert more.found.fault == Fault(teeth=1)
    assert Fault(mirrored=True) not in [one.fault for one in more.others]


def test_degrees_that_are_no_tooth_are_a_slipped_wheel() -> None:
    read = [said(name, at + 8) for name, at in EVENTS.items()]
    found = ff.misset(engine("wren"), read)
    assert found.found.fault.teeth == 0
    assert math.degrees(found.found.fault.degrees_late) == pytest.approx(8.0, abs=0.1)
    # Late: the cam goes on in its wheel, by 4° of it: 36 teeth of 3 mm, 108 mm round, 1.2 mm.
    text = " ".join(str(found).split())
    assert "Turn the cam in its wheel by 4° clockwise seen at the flywheel (1.2 mm" in text


def test_lash_is_told_from_a_tooth() -> None:
    read = [said(name, at + (12 if "opens" in name else -12)) for name, at in EVENTS.items()]
    found = ff.misset(engine("wren"), read)
    assert math.degrees(found.found.fault.lash) == pytest.approx(12.0, abs=0.1)
    assert "too much" in str(found)


def test_which_way_to_turn_which_wheel() -> None:
    for rotation, kind, words in (
        ("clockwise", "belt", "back (anticlockwise seen at the flywheel, clockwise seen at"),
        ("anticlockwise", "belt", "back (clockwise seen at the flywheel, anticlockwise seen at"),
        ("clockwise", "gear", "back (clockwise seen at the flywheel, anticlockwise seen at"),
    ):
        one = engine("wren", layout__rotation=rotation, cam_drive__kind=kind)
        # Early, so the cam goes back: against the way it runs.
        found = ff.misset(one, [said(name, at - 40) for name, at in EVENTS.items()])
        assert found.found.fault == Fault(teeth=-2)
        assert f"2 teeth {words}" in " ".join(cures(found.plain, found.found))
        # Late, so it goes on; the same where everything was read the wrong way round.
        for way in (1, -1):
            read = [said(name, way * (at + 20)) for name, at in EVENTS.items()]
            late = ff.misset(one, read)
            assert late.found.fault == Fault(teeth=1, mirrored=way < 0)
            assert "1 tooth on (" in " ".join(cures(late.plain, late.found))


def test_readings_at_a_lift_and_on_the_rim() -> None:
    from firstfire.engine.cam_lift import spans, valve_rise
    from firstfire.setup.misset.readings import readings

    plain = ff.resolve(engine("wren"))
    (at_lift,) = readings(plain, ["inlet opens at 0.5 mm=1 deg after top"])
    parts = plain.cylinders[0]
    lift = valve_rise(parts.valves.inlet, spans(parts)["inlet"], at_lift.drawn)
    assert 1e3 * lift == pytest.approx(0.5, abs=1e-6)
    # 110 mm across: 9.6 mm is 10.0°.
    (rim,) = readings(plain, ["exhaust closes=9.6 mm after overlap top"])
    assert math.degrees(rim.own) == pytest.approx(370.0, abs=0.01)


def test_what_is_no_reading_is_told_all_at_once() -> None:
    with pytest.raises(EngineFileError) as refused:
        ff.misset(engine("wren"), ["inlt opens=1 deg before top", "inlet opens=soon",
                                   "inlet closes=400 deg after bottom", "nothing",
                                   "cylinder 2 inlet opens=1 deg before top"])  # fmt: skip
    text = str(refused.value)
    assert len(refused.value.problems) == 5
    assert 'Did you mean "inlet opens"?' in text
    assert "Write it like" in text
    assert "count them from 1" in text
    with pytest.raises(EngineFileError, match="suction opens"):
        ff.misset(engine("plover"), ["inlet opens=1 deg before top"])
    with pytest.raises(EngineFileError, match="same event"):
        ff.misset(engine("wren"), ["inlet opens=1 deg before top", "inlet opens=30 deg after top"])
    with pytest.raises(EngineFileError, match="no flywheel"):
        ff.misset(engine("heron"), ["inlet opens=3 mm before top"])


def test_readings_that_nothing_explains_are_refused_with_the_nearest() -> None:
    with pytest.raises(EngineFileError, match="Nearest is"):
        ff.misset(engine("wren"), ["inlet opens=12 deg after top", "inlet closes=4 deg after top",
                                   "exhaust closes=30 deg before bottom",
                                   "exhaust opens=10 deg after bottom"])  # fmt: skip


def test_twins_are_read_by_cylinder_and_told_as_json() -> None:
    # Both of heron's own: inlet of 2 opens as far from its own overlap top as that of 1.
    found = ff.misset(engine("heron"), ["1 inlet opens=30 deg before top",
                                        "2 inlet opens=30 deg before top",
                                        "2 inlet closes=20 deg after bottom"])  # fmt: skip
    assert found.found.fault == Fault(teeth=-1)
    told = MissetTold.model_validate(json.loads(found.to_json()), by_alias=True)
    assert told.found.teeth_late == -1
    assert max(map(len, str(found).splitlines())) <= 80


def test_a_sensor_on_the_cam_is_told_apart_from_the_cam() -> None:
    # The cam a tooth late brings its magnet with it: 20° after, 5° before is 15° after top.
    read = [said(name, at + 20) for name, at in EVENTS.items()]
    (edge,) = ff.misset(engine("wren"), [*read, "start spark=15 deg after top"]).edges
    assert edge[1] == pytest.approx(0.0, abs=1e-9)
    (edge,) = ff.misset(engine("wren"), [*read, "start spark=25 deg after top"]).edges
    assert math.degrees(edge[1]) == pytest.approx(10.0)
