"""Timing by hand: where events lie, what a tooth does, which way it turns, and what is refused."""

from __future__ import annotations

import json
import math
from pathlib import Path

import numpy as np
import pytest
from tests.drawing.conftest import FILES, plain_engine

import firstfire as ff
from firstfire.engine.cam_lift import cam_rise, nose_at, spans, valve_of, valve_rise
from firstfire.engine.happenings import happenings
from firstfire.errors import EngineFileError
from firstfire.loads.cam_drive import valve_lift
from firstfire.runs.tooth_off import gaps_to_piston
from firstfire.setup.timing.contract import TimingTold
from firstfire.setup.timing.places import where
from firstfire.setup.timing.tooth import shifted

DEG = math.pi / 180
NAMES = sorted(FILES)


def engine(name: str, **tried: str) -> ff.Engine:
    read = ff.read(FILES[name])
    values = {path.replace("__", "."): value for path, value in tried.items()}
    return ff.with_values(read, values) if values else read


def place(found, ident: str, cylinder: int = 1):
    return next(p for p in found.places if (p.event.id, p.event.cylinder) == (ident, cylinder))


def test_wren_by_hand() -> None:
    # Bore 40, stroke 36, rod 66 mm, deck 0.5; flywheel 110 mm; 36 teeth of 3 mm on the cam.
    found = ff.timing(engine("wren"))
    shuts = place(found, "inlet-closes")
    # 40° after bottom is 580° of the cycle, 220° of the turn.
    assert shuts.event.crank / DEG == pytest.approx(580.0)
    assert shuts.words == "40° after bottom"
    # On the rim 220 - 360 = -140°: pi * 110 * 140 / 360 = 134.39 mm before the mark.
    assert 1e3 * shuts.rim == pytest.approx(-134.39, abs=0.005)
    # The cam has turned 290°, or -70° of 36 teeth: 7 of them, 21 mm.
    assert 1e3 * shuts.pulley == pytest.approx(-21.0, abs=1e-6)
    # s = 18 cos 220 + sqrt(66² - (18 sin 220)²) = -13.789 + 64.978 = 51.189; 84 - 51.189 = 32.811.
    assert 1e3 * shuts.depth == pytest.approx(32.811 + 0.5, abs=0.001)
    assert found.overlaps[0] / DEG == pytest.approx(20.0)
    # 36 teeth: 20° of the crank, 19.2 mm of the rim.
    assert found.tooth / DEG == pytest.approx(20.0)
    assert 1e3 * found.tooth_on_rim == pytest.approx(19.199, abs=1e-3)


@pytest.mark.parametrize(
    ("name", "order", "gaps"),
    [
        ("wren", (1,), [720]),
        ("heron", (1, 2), [360, 360]),
        ("plover", (1, 2), [360, 360]),
        ("2_v_twin", (1, 2), [450, 270]),  # 90° V, common pin
        ("4_even_v", (1, 2), [360, 360]),
    ],
)
def test_firing_order_and_intervals(name: str, order, gaps) -> None:
    found = ff.timing(engine(name))
    assert found.order == order
    assert [round(gap / DEG) for gap in found.intervals] == gaps
    assert sum(found.intervals) == pytest.approx(4 * math.pi)


@pytest.mark.parametrize("name", NAMES)
def test_each_cylinder_has_all_of_its_events_in_order(name: str) -> None:
    plain = plain_engine(name)
    found = happenings(plain)
    assert list(found) == sorted(found, key=lambda one: round(one.crank, 9))
    for number, parts in enumerate(plain.cylinders, 1):
        own = {one.id: one for one in found if one.cylinder == number}
        assert {"firing-top", "overlap-top", "exhaust-opens", "start-spark"} <= set(own)
        assert ("inlet-opens" in own) == (parts.valves.inlet.worked == "cam")
        assert 0 <= own["exhaust-closes"].crank < 4 * math.pi
        # A firing top and its cylinder's own angle agree all round.
        for one in own.values():
            gone = own["firing-top"].crank + one.own - one.crank
            assert math.cos(gone / 2) == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(
    ("ends", "at"),
    [("before_inlet_opens", "inlet-opens"), ("while_inlet_open", "bottom-after-intake")],
)
def test_an_injectors_fuel_is_there_when_the_file_says(ends: str, at: str) -> None:
    put = ff.with_values(engine("2_v_twin"), {"injector.ends": ends})
    own = {p.event.id: p for p in ff.timing(put).places if p.event.cylinder == 1}
    assert own["injection-ends"].event.crank == own[at].event.crank
    assert "injector.ends" in own["injection-ends"].event.assumed


@pytest.mark.parametrize("name", NAMES)
def test_lift_is_the_runs_own(name: str) -> None:
    for parts in plain_engine(name).cylinders:
        for which, span in spans(parts).items():
            valve, angles = valve_of(parts, which), np.linspace(-6.0, 12.0, 500)
            there = valve_lift(valve, angles, span.opens, span.shuts).lift
            here = [valve_rise(valve, span, float(angle)) for angle in angles]
            # The run's law is a table of 181 steps.
            assert here == pytest.approx(there, abs=2e-4 * valve.lift)


def test_a_cam_takes_up_the_lash_before_the_valve_leaves_its_seat() -> None:
    parts = plain_engine("wren").cylinders[0]
    valve, span = parts.valves.inlet, spans(parts)["inlet"]
    assert cam_rise(valve, span, span.opens / 2)[0] == pytest.approx(valve.lash)
    assert cam_rise(valve, span, (span.opens - valve.cam_ramp) / 2)[0] == pytest.approx(
        0.0, abs=1e-12
    )
    assert cam_rise(valve, span, nose_at(valve, span) / 2)[0] == pytest.approx(
        valve.lift + valve.lash
    )
    # The slope is the rise's own, by small differences, on ramps and flanks.
    for degrees in range(0, 360, 3):
        angle, step = degrees * DEG, 1e-6
        ends = [cam_rise(valve, span, angle + side * step)[0] for side in (-1, 1)]
        slope = (ends[1] - ends[0]) / (2 * step)
        assert cam_rise(valve, span, angle)[1] == pytest.approx(slope, abs=1e-7)


def test_a_tooth_late_keeps_less_and_reads_less() -> None:
    # Ratio 6.5, 60° after bottom: travel 84 - (18 cos 240 + sqrt(66² - (18 sin 240)²)) = 28.868;
    # (1 + 5.5 * 28.868 / 36) / 6.5 = 0.8324; ratio 5.410: 1.01325 bar * (5.410^1.3 - 1) = 8.08.
    row = shifted(plain_engine("wren"), 0, 1)
    assert row.inlet_closes / DEG == pytest.approx(600.0)
    assert row.filling == pytest.approx(0.8324, abs=5e-4)
    assert row.gauge / 1e5 == pytest.approx(8.08, abs=0.02)
    both = shifted(plain_engine("wren"), 0, 0)
    assert row.exhaust_lift > both.exhaust_lift > 0
    assert row.exhaust_room < both.exhaust_room
    # Late as much as early is the same for valves that mirror each other about top.
    early = shifted(plain_engine("wren"), 0, -1)
    assert early.inlet_lift > both.inlet_lift
    assert early.exhaust_lift == 0.0


def test_room_is_what_a_start_says_of_a_slipped_cam() -> None:
    from firstfire.runs.start.valve_room import valve_room

    for name, teeth in (("wren", 0), ("wren", 2), ("heron", -2)):
        plain = plain_engine(name)
        row = shifted(plain, 0, teeth)
        there = valve_room(plain, teeth * math.radians(20))
        assert min(row.inlet_room, row.exhaust_room) == pytest.approx(there, abs=5e-5)


def test_words_of_places() -> None:
    assert where(math.radians(-20)) == "20° before firing top"
    assert where(math.radians(720)) == "at firing top"
    assert where(math.radians(540 + 40)) == "40° after bottom"
    assert where(math.radians(182), math.radians(182)) == "at bottom"


def test_either_way_of_turning_is_said_from_both_ends() -> None:
    one = str(ff.timing(engine("wren"))).replace("\n", " ")
    assert "turns clockwise seen at the flywheel, anticlockwise seen at the cam drive" in one
    other = str(ff.timing(engine("wren", layout__rotation="anticlockwise"))).replace("\n", " ")
    assert "turns anticlockwise seen at the flywheel, clockwise seen at the cam drive" in other
    geared = str(ff.timing(engine("wren", cam_drive__kind="gear"))).replace("\n", " ")
    assert "against it" in geared


@pytest.mark.parametrize("name", NAMES)
def test_it_fits_a_terminal_and_its_json_the_contract(name: str) -> None:
    found = ff.timing(engine(name))
    assert max(map(len, str(found).splitlines())) <= 80
    told = TimingTold.model_validate(json.loads(found.to_json()), by_alias=True)
    assert len(told.events) == len(found.places)
    assert "estimate" in told.caution


def test_a_belt_without_whole_teeth_is_refused_where_it_was_said(tmp_path: Path) -> None:
    with pytest.raises(EngineFileError) as refused:
        ff.timing(engine("wren", cam_drive__centre_distance="170 mm"))
    text = str(refused.value)
    assert "140.48 teeth" in text
    assert 'cam_drive.centre_distance = "169.28 mm"' in text
    # What it offers works.
    found = ff.timing(engine("wren", cam_drive__centre_distance="169.28 mm"))
    assert found.belt.fits
    assert found.belt.teeth == 140


def test_a_distance_by_rule_is_moved_and_said() -> None:
    found = ff.timing(engine("plover"))
    assert not found.belt.fits
    assert 'cam_drive.centre_distance = "152.76 mm"' in str(found)


def test_a_second_cylinder_fires_where_its_v_puts_it() -> None:
    # 90° V on a common pin: its top is 90° after cylinder 1's, on the second turn 450°.
    found = ff.timing(engine("2_v_twin"))
    assert place(found, "firing-top", 2).event.crank / DEG == pytest.approx(450.0)
    # Its spark 5° before that is 445°; on the rim 85° after the mark of cylinder 1.
    spark = place(found, "start-spark", 2)
    assert spark.event.crank / DEG == pytest.approx(445.0)
    wheel = 1e3 * found.plain.flywheel.diameter
    assert 1e3 * spark.rim == pytest.approx(math.pi * wheel * 85 / 360)


@pytest.mark.parametrize("name", ["wren", "plover", "heron"])
def test_rooms_a_tooth_out_are_those_of_the_gaps(name) -> None:
    """Two ways to one number, with valves that lean by 20°: every 2° of crank, and every 0.5°."""
    plain = ff.resolve(engine(name, head__valve_axis_angle="20 deg"))
    for teeth in (-2, -1, 0, 1, 2):
        row = shifted(plain, 0, teeth)
        for gap in gaps_to_piston(plain, 0, teeth * 4 * math.pi / plain.cam_drive.teeth_cam):
            room = row.inlet_room if gap.what.startswith("inlet") else row.exhaust_room
            assert room == pytest.approx(gap.gap, abs=0.05e-3)
