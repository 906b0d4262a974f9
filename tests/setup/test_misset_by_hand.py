"""A cam drive put together wrongly, by hand: a wheel of 36 teeth, 20° of the crank each."""

from __future__ import annotations

import json
import math
from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.engine.cam_lift import spans
from firstfire.engine.quantity import NotAQuantity
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError
from firstfire.setup.misset import misset, readings, text, words
from firstfire.setup.misset.facts import SURE, Explained
from firstfire.setup.misset.faults import Drive, Fault, period, seen, wrapped
from firstfire.setup.misset.readings import Known, Reading

DEG = math.pi / 180.0
TWIN = Drive((0.0, 270.0 * DEG), 36)


def fault(teeth=0, late=0.0, lash=0.0, **how):
    return Fault(teeth=teeth, degrees_late=late * DEG, lash=lash * DEG, **how)


def reading(ident="inlet-opens", own=0.0, drawn=0.0, sense=0, cylinder=1, cam=True, whole=360.0):
    return Reading(
        ident, cylinder, ident.replace("-", " "), own * DEG, whole * DEG, drawn * DEG, cam, sense,
        f"{ident}={own}",
    )  # fmt: skip


def explained(one, *off):
    return Explained(one, tuple(each * DEG for each in off))


@pytest.fixture(scope="module")
def plain():
    return resolve(ff.read("engines/wren.toml"))


def test_a_tooth_is_a_tenth_of_a_turn_of_the_wheel_it_is_on():
    """10° of its own wheel: 20° of the crank where that is the cam's, after 18 of 36 exchanged."""
    assert TWIN.tooth(swapped=False) == pytest.approx(20.0 * DEG)
    assert TWIN.tooth(swapped=True) == pytest.approx(10.0 * DEG)
    assert (TWIN.positions(swapped=False), TWIN.positions(swapped=True)) == (36, 18)
    assert period(fault(), 360 * DEG) == pytest.approx(360 * DEG)
    assert period(fault(swapped=True), 720 * DEG) == pytest.approx(180 * DEG)
    assert period(fault(swapped=True), 1.0) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("one", "cylinder", "sense", "degrees"),
    [
        (fault(), 1, 0, 350),
        (fault(teeth=2, late=3), 1, 0, 393),
        (fault(teeth=2, late=3), 2, 0, 393),
        (fault(lash=10), 1, 1, 360),
        (fault(lash=10), 1, -1, 340),
        (fault(teeth=2, mirrored=True), 1, 0, 720 - 390),
        # a quarter of 350, two teeth of 10; of the second a quarter of 620, less its own 270
        (fault(teeth=2, swapped=True), 1, 0, 87.5 + 20),
        (fault(teeth=2, swapped=True), 2, 0, 155 + 20 - 270 + 720),
        (fault(teeth=2, swapped=True, lash=8), 2, 1, 157 + 20 - 270 + 720),
        (fault(teeth=2, swapped=True, mirrored=True), 2, 0, 270 - 155 - 20),
    ],
)
def test_where_an_event_drawn_at_350_is_read(one, cylinder, sense, degrees):
    found = seen(TWIN, one, cylinder, 350 * DEG, sense)
    assert found / DEG == pytest.approx(degrees)


@pytest.mark.parametrize(
    ("angle", "whole", "found"),
    [(350, 360, -10), (190, 360, -170), (170, 360, 170), (100, 180, -80)],
)
def test_an_angle_lies_within_half_a_period_of_nothing(angle, whole, found):
    assert wrapped(angle * DEG, whole * DEG) / DEG == pytest.approx(found)


def test_an_edge_on_a_late_cam_is_not_late_itself():
    """Drawn at 355, a tooth late at 15: read at 25 it is 10° late. Lash moves no edge."""
    found = explained(fault(teeth=1, lash=5), 0.0)
    edge = reading("start-edge", own=25, drawn=355, sense=1)
    assert misset._late(TWIN, edge, found) == pytest.approx(10 * DEG)
    on_crank = reading("start-edge", own=25, drawn=355, cam=False)
    assert misset._late(TWIN, on_crank, found) == pytest.approx(30 * DEG)
    assert misset._late(TWIN, edge, None) == pytest.approx(30 * DEG)


def test_what_is_left_over_counts_by_its_square():
    """3 and 6° are one and two of what a hand reads, 5/2; a tooth costs 1.1 besides."""
    assert pytest.approx(3 * DEG) == SURE
    assert misset._unlikely(explained(fault(teeth=1), 3, 6)) == pytest.approx(2.5 + 1.1)
    assert misset._unlikely(explained(fault(), -3)) == pytest.approx(0.5)


def test_a_finer_fault_is_left_out_where_a_plainer_one_of_its_kind_explains_as_much():
    """Other teeth are left out where they explain it 1.5° worse."""
    plainer, near = explained(fault(), 2), explained(fault(teeth=1), 3.4)
    far, slipped = explained(fault(teeth=2), 3.6), explained(fault(late=4), 0)
    loose, turned = explained(fault(lash=4), 0), explained(fault(mirrored=True, late=3), 0)
    found = misset._distinct([plainer, near, far, slipped, loose, turned])
    assert found == [plainer, near, turned]
    # 3.6 is within 1.5 of 3.4, but not of 2
    assert misset._distinct([near, far]) == [near, far]


def test_what_is_held_lies_off_by_what_was_read_over_what_is_seen():
    """A tooth late an inlet drawn at 350 is seen at 10: read at 13 it is 3 off, read at 5, -5."""
    read = [reading(own=13, drawn=350), reading(own=365, drawn=350)]
    found = misset._held(TWIN, read, fault(teeth=1))
    assert [one / DEG for one in found.off] == pytest.approx([3, -5])
    opens, shuts = reading(own=13, drawn=350, sense=1), reading(own=13, drawn=350, sense=-1)
    found = misset._held(TWIN, [opens, shuts], fault(teeth=1, lash=4))
    assert [one / DEG for one in found.off] == pytest.approx([-1, 7])
    # exchanged, 350 is seen at 87.5, and again each 180
    found = misset._held(TWIN, [reading(own=270, drawn=350)], fault(swapped=True))
    assert found.off[0] / DEG == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("one", "off", "late"),
    [
        (fault(), (4, 6), 5),
        (fault(mirrored=True), (4, 6), -5),
        (fault(), (2.3,), None),  # 0.8 of 3° at least
        (fault(), (2.5,), 2.5),
        (fault(), (-10,), -10),  # half a tooth at most
        (fault(), (10.1,), None),
        (fault(swapped=True), (4.9,), 4.9),
        (fault(swapped=True), (5.1,), None),
    ],
)
def test_degrees_between_teeth_are_the_mean_of_what_is_left(one, off, late):
    read = [reading()] * len(off)
    found = [
        each.fault.degrees_late / DEG for each in misset._between(TWIN, read, explained(one, *off))
    ]
    assert found == ([] if late is None else [pytest.approx(late)])


@pytest.mark.parametrize(
    ("off", "lash"),
    [((10, -12), 11), ((-10, 12), -11), ((3.2, -2.6), None), ((3.2, -3.0), 3.1), ((25, -25), 25),
     ((26, -25), None)],
)  # fmt: skip
def test_lash_is_how_late_a_valve_opens_and_how_early_it_shuts(off, lash):
    read = [reading(sense=1), reading("inlet-closes", sense=-1)]
    found = [each.fault.lash / DEG for each in misset._lashed(TWIN, read, explained(fault(), *off))]
    assert found == ([] if lash is None else [pytest.approx(lash)])
    # where a valve was read once only, nothing is said of it
    assert not list(misset._lashed(TWIN, read[:1], explained(fault(), off[0])))


@pytest.mark.parametrize(
    ("teeth", "whole", "straight", "swapped"),
    [
        (4, 720, (-2, -1, 0, 1), (-1, 0)),
        (4, 360, (-1, 0), (-1, 0)),  # which top isn't known: half of them
        (10, 720, (-5, -4, -3, -2, -1, 0, 1, 2, 3, 4), (-2, -1, 0, 1, 2)),
        (10, 360, (-2, -1, 0, 1, 2), (-2, -1, 0, 1, 2)),
    ],
)
def test_every_tooth_is_tried_both_ways_round(monkeypatch, teeth, whole, straight, swapped):
    monkeypatch.setattr(misset, "_between", lambda *_: ())
    monkeypatch.setattr(misset, "_lashed", lambda *_: ("lash",))
    read = (reading(whole=float(whole)),)
    tried = list(misset._tried(Drive((0.0,), teeth), read))
    assert tried.count("lash") == len(straight)
    faults = [one.fault for one in tried if one != "lash"]
    assert faults == [
        Fault(teeth=tooth, mirrored=mirrored, swapped=exchanged)
        for exchanged, each in ((False, straight), (True, swapped))
        for mirrored in (False, True)
        for tooth in each
    ]


def test_what_to_read_next_lies_farthest_apart(monkeypatch):
    """Mirrored, what is drawn at 10° lies 20 apart, at 100 it lies 160 apart: that is read."""
    events = [
        Known(ident, 1, ident, drawn * DEG, True, 0)
        for ident, drawn in (
            ("exhaust-opens", 10), ("inlet-opens", 100), ("exhaust-closes", 5), ("start-edge", 90),
            ("inlet-closes", 110),
        )
    ]  # fmt: skip
    monkeypatch.setattr(misset, "known_events", lambda _: events)

    def nexts(*others, read=()):
        told = [explained(one, 0.0) for one in others]
        return misset._next(None, TWIN, read, explained(fault(), 0.0), told)

    event, at = nexts(fault(mirrored=True))
    assert event.id == "inlet-opens"
    assert [one / DEG for one in at] == pytest.approx([100, 620])
    assert nexts(fault(mirrored=True), read=(reading(),))[0].id == "inlet-closes"
    # of several the nearest counts: half a tooth is 5 and 7° everywhere
    assert nexts(fault(mirrored=True), fault(late=5)) is None
    assert nexts(fault(mirrored=True), fault(late=7))[0].id == "exhaust-opens"
    assert nexts() is None
    # exchanged it is seen at a quarter, each 180°: 100 is 75 apart, 110 is 82.5, 10 is 7.5
    assert nexts(fault(swapped=True))[0].id == "inlet-closes"


def test_the_simplest_that_fits_is_told_and_what_fits_not_is_refused(plain):
    """Both a tooth late: inlet drawn at 350 read at 10, exhaust at 370 read at 390."""
    read = ["inlet opens=10 deg after top", "exhaust closes=30 deg after top"]
    found = ff.misset(ff.read("engines/wren.toml"), read)
    assert found.found.fault == Fault(teeth=1)
    assert [one / DEG for one in found.found.off] == pytest.approx([0, 0], abs=1e-9)
    said = " ".join(str(found).split())
    (cure,) = words.cures(found.plain, found.found)
    assert f"What to do ---------- 1. {cure} {words.risks(found.plain, Fault(teeth=1))}" in said
    told = json.loads(found.to_json())
    assert told["found"]["teeth_late"] == 1
    assert told["found"]["cures"] == list(words.cures(found.plain, found.found))
    assert "1 tooth" in told["found"]["words"]


def test_a_spark_is_held_against_the_cam_that_was_found():
    """A tooth late, its magnet brings a spark of 5° before top to 15° after: 25° is 10° late.

    By the inlet alone it may as well be mirrored, and another event is asked for.
    """
    read = ["inlet opens=10 deg after top", "exhaust closes=30 deg after top",
            "start spark=25 deg after top"]  # fmt: skip
    ((edge, late),) = ff.misset(ff.read("engines/wren.toml"), read).edges
    assert edge.cam
    assert late / DEG == pytest.approx(10)
    found = ff.misset(ff.read("engines/wren.toml"), read[:1])
    assert found.found.fault == Fault(teeth=1)
    assert Fault(mirrored=True) in [one.fault for one in found.others]
    event, at = found.next_event
    assert event.id != "inlet-opens"
    assert len(at) == 1 + len(found.others)
    others = json.loads(found.to_json())["others"]
    assert [one["mirrored"] for one in others] == [one.fault.mirrored for one in found.others]
    assert [one["cures"] for one in others] == [
        list(words.cures(found.plain, one)) for one in found.others
    ]


# -- what is typed --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "degrees", "whole"),
    [
        ("10 deg after overlap top", 370, 720),
        ("10 deg before firing top", -10, 720),
        ("10° before top", -10, 360),
        ("12.5 after bottom", 192.5, 360),
        ("40 deg before bottom", 140, 360),
        ("at top", 0, 360),
    ],
)
def test_angles_count_from_their_own_centre(plain, said, degrees, whole):
    angle, sure = readings._angle(plain, 1, said)
    assert (angle / DEG, sure / DEG) == pytest.approx((degrees, whole), abs=1e-9)


def test_millimetres_on_the_rim_are_twice_over_its_diameter(plain):
    """11 mm on 110: a fifth of a radian."""
    assert readings._much(plain, "11 mm") == pytest.approx(0.2)
    assert readings._much(plain, "20") == pytest.approx(20 * DEG)
    assert readings._much(plain, "360 deg") == pytest.approx(360 * DEG)


def test_the_same_event_may_be_read_six_degrees_apart():
    """Also a whole turn apart, where it is the same place."""
    one = reading(own=10)
    assert not readings._twice([one, reading(own=15.9), reading(own=365)])
    (problem,) = readings._twice([one, reading(own=376.1 - 360)])
    assert "6° apart" in problem.fault
    (problem,) = readings._twice([one, reading(own=190)])
    assert "180° apart" in problem.fault
    (problem,) = readings._twice([one, reading(own=30)])
    assert "20° apart" in problem.fault


def test_a_reading_is_held_against_where_the_file_has_it(plain):
    """wren's inlet opens 10° before the overlap top."""
    one = readings._reading(plain, "inlet opens=12 deg after top")
    opens = spans(plain.cylinders[0])["inlet"].opens
    assert (one.id, one.cylinder, one.sense, one.cam) == ("inlet-opens", 1, 1, True)
    assert one.own == pytest.approx(12 * DEG)
    assert one.period == pytest.approx(360 * DEG)
    assert one.drawn == pytest.approx(opens)
    assert opens == pytest.approx(350 * DEG)


def test_a_valve_is_read_at_a_lift_on_its_own_flank(plain, monkeypatch):
    """Of a lift that rises as the way from either end, 2 mm in a quarter of the way: found to a
    halving of fifty."""
    valve, span = plain.cylinders[0].valves.inlet, spans(plain.cylinders[0])["inlet"]
    half = span.duration / 2.0

    def rises(of, within, angle):
        assert (of, within) == (valve, span)
        return valve.lift * min(angle - span.opens, span.shuts - angle) / half

    monkeypatch.setattr(readings, "valve_rise", rises)
    events = {one.id: one for one in readings.known_events(plain)}
    quarter = f"{1e3 * valve.lift / 4} mm"
    opens = readings._at_lift(plain, events["inlet-opens"], quarter)
    shuts = readings._at_lift(plain, events["inlet-closes"], quarter)
    assert opens.drawn == pytest.approx(span.opens + half / 4)
    assert shuts.drawn == pytest.approx(span.shuts - half / 4)
    assert opens.name.endswith(f"at {quarter}")
    asked = readings._event(plain, f"Inlet opens at {quarter}")
    assert (asked.name, asked.drawn) == (opens.name, pytest.approx(opens.drawn))


def test_an_event_is_found_by_its_name_and_cylinder(plain):
    """A name that is none is told with the nearest."""
    heron = resolve(ff.read("engines/heron.toml"))
    for said in ("cylinder 2 inlet opens", "2 intake opening", "inlet opens no. 2"):
        event = readings._event(heron, said)
        assert (event.id, event.cylinder) == ("inlet-opens", 2)
    with pytest.raises(NotAQuantity) as refused:
        readings._event(plain, "inlt opens")
    assert refused.value.cure.startswith('Did you mean "inlet opens"? Events are: ')


# -- what is told ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "whole"),
    [
        (fault(teeth=1), [1, 1]),
        (fault(teeth=1, late=5), [1, 2]),  # a quarter of 20° more
        (fault(teeth=1, late=-5), [0, 1]),
        (fault(teeth=1, late=-25), [-1, 0]),
    ],
)
def test_room_is_asked_for_the_whole_teeth_on_either_side(plain, monkeypatch, one, whole):
    asked = []

    def shifted(made, index, teeth):
        asked.append((made, index, teeth))
        return SimpleNamespace(inlet_room=2e-3, exhaust_room=None)

    monkeypatch.setattr(words, "shifted", shifted)
    assert words.risks(plain, one) == "As it stands valves clear the piston by 2.0 mm (estimate)."
    assert asked == [(plain, 0, teeth) for teeth in whole]


def test_a_slipped_wheel_goes_half_as_far_on_the_cam(plain):
    """8° of the crank are 4 of the cam: on 36 teeth of 3 mm, 108 mm round, 1.2 mm."""
    (said,) = words.cures(plain, explained(fault(late=8), 0.0))
    assert "by 4° clockwise seen at the flywheel (1.2 mm on the wheel's pitch line)" in said
    (said,) = words.cures(plain, explained(fault(teeth=-2), 0.0))
    assert "2 teeth back" in said
    assert "20° of the cam" in said


def test_an_edge_a_degree_off_is_as_drawn(plain):
    """1.1° of 110 mm are 1.1 mm on the rim."""

    def said(degrees, cam):
        edge = SimpleNamespace(name="edge", cam=cam)
        (told,) = words.edge_words(SimpleNamespace(plain=plain, edges=((edge, degrees * DEG),)))
        return told

    assert said(0.9, cam=False) == "edge: as drawn."
    assert said(1.1, cam=False).startswith("edge: 1.1° late, 1.1 mm on the rim. Move")
    assert said(-10.0, cam=True).startswith("edge: 10° early, 9.6 mm on the rim.")
    assert "by 5°: it is on the cam" in said(-10.0, cam=True)


def test_rows_of_readings_stand_in_columns(plain):
    """Read at 10 where 350 is drawn, and 3° off what is found."""
    one = reading(own=10, drawn=350)
    found = SimpleNamespace(
        plain=plain, readings=(one,), found=explained(fault(teeth=1), 3.0)
    )  # fmt: skip
    head, row = text._readings(found)
    assert row == f"  {'inlet opens':<26}{'10° after top':<19}{'10° before top':<19}{'3°':>12}"
    assert (head.index("read"), head.index("drawn")) == (28, 47)
    assert len(head) == len(row) == 78
    named = SimpleNamespace(
        plain=plain, readings=(reading(own=10, drawn=350, whole=720.0),),
        found=explained(fault(teeth=1), 3.0),
    )  # fmt: skip
    assert "10° after firing top" in text._readings(named)[1]


def test_readings_that_nothing_explains_name_the_one_farthest_off():
    read = (reading(own=10), reading("exhaust-opens", own=40))
    with pytest.raises(EngineFileError, match=r"exhaust-opens=40. is 7° off"):
        misset._refuse(read, explained(fault(teeth=1), 5.0, -7.0))
