"""Faults that befall a start on its way: false edges, a starved controller, a slipping joint."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas import slider_crank
from firstfire.formulas.spark_clock import Timing
from firstfire.runs.cranking import driven
from firstfire.runs.start import mishaps
from firstfire.runs.start.asked import Asked, Wrong
from firstfire.runs.start.faults.all import with_faults
from firstfire.runs.start.life import Life
from firstfire.runs.start.lit import _without_return
from firstfire.runs.start.marks import TOOTH_BEGINS, TOOTH_ENDS, marks_before
from firstfire.runs.start.mishaps import Mishaps
from firstfire.runs.start.slip import Joint, Slip, slipped
from firstfire.runs.start.turned_by import turned_by
from firstfire.runs.start.valve_room import valve_room

ENGINES = Path(__file__).resolve().parents[3] / "engines"
ASKED = Asked(seconds=1.2, after=0.3, let_go_at=80.0, seed=3)


@cache
def lived(name: str, *faults: str):
    engine, asked = with_faults(ff.read(ENGINES / f"{name}.toml"), ASKED, faults)
    plain = resolve(engine)
    life = Life(plain, asked, driven(plain, shaft=turned_by(plain, asked.wrong)))
    return life, life.lived()


def test_false_edges_spark_anywhere_as_often_as_said_and_alike_for_a_seed():
    """Forty a second for a second and a half: sixty, give or take three times its root. Nothing
    burns and no limiter cuts, so that each pulse has one side that fires."""
    unlimited = {"spark.limited_by": "nothing"}
    engine = with_values(ff.read(ENGINES / "wren.toml"), unlimited, layer="file")
    engine, asked = with_faults(engine, ASKED, ["sensor_noise=40", "no_fuel"])
    plain = resolve(engine)
    noisy = Life(plain, asked).lived()
    place = [math.degrees(spark.angle) for spark in noisy.sparks]
    stray = [angle for angle in place if not -21.0 < angle < -4.0]
    most = 40 * float(noisy.spun.time[-1])
    assert len(stray) == pytest.approx(most, abs=3 * math.sqrt(most))
    # As many in each quarter of a cycle, as they know no angle: fifteen, give or take as much.
    for quarter in range(-2, 2):
        count = sum(180 * quarter <= angle < 180 * quarter + 180 for angle in stray)
        assert count == pytest.approx(most / 4, abs=3 * math.sqrt(most / 4))
    assert Life(plain, asked).lived().sparks == noisy.sparks


def test_of_a_wasted_spark_only_the_half_about_its_exhaust_top_is_left_out():
    """plover sparks each turn: what comes 90° to 270° from a firing top is false, and told."""
    _, noisy = lived("plover", "sensor_noise=40")
    off = [abs(math.degrees(spark.angle)) for spark in noisy.sparks]
    assert max(off) < 270.0
    assert any(angle > 90.0 for angle in off)
    _, sound = lived("plover")
    assert all(abs(math.degrees(spark.angle)) < 15.0 for spark in sound.sparks)


def test_a_false_edge_makes_a_limiter_cut():
    """Two edges close together are a fast turn to a controller: above its limit it gives no spark,
    so that a noisy wren has fewer sparks than one without its limit."""
    engine = ff.read(ENGINES / "wren.toml")
    counts = []
    for cut in ("spark", "nothing"):
        said = with_values(engine, {"spark.limited_by": cut}, layer="file")
        noisy, asked = with_faults(said, ASKED, ["sensor_noise=100", "no_fuel"])
        counts.append(len(Life(resolve(noisy), asked).lived().sparks))
    assert counts[0] < 0.5 * counts[1]


def test_no_false_edges_change_nothing_to_the_last_bit():
    _, sound = lived("wren")
    _, silent = lived("wren", "sensor_noise=0")
    assert silent.sparks == sound.sparks


def test_false_edges_kick_a_weak_light_starter():
    """Some come early in a compression, where it has no wheel to go on with."""
    weak = {"starter.no_load_speed": "300 rpm", "starter.stall_torque": "12 N*m",
            "starter.inertia": "1e-4 kg*m^2"}  # fmt: skip
    engine = with_values(ff.read(ENGINES / "wren.toml"), weak, layer="file")
    for faults, least, most in ((["sensor_noise=20"], 3, 4), ([], 0, 0)):
        noisy, asked = with_faults(engine, replace(ASKED, charged=True), faults)
        plain = resolve(noisy)
        tries = [Life(plain, replace(asked, seed=seed)).lived().kicked for seed in range(4)]
        assert least <= sum(tries) <= most


def test_a_controller_that_starves_at_each_dip_never_sparks_while_it_is_cranked():
    """wren's drill gives 15 % of its stall torque at its slowest before a top, and is let go at
    none: after 0.1 s the controller is back, and the turning wheel gives it an edge or none."""
    _, starved = lived("wren", "controller_resets=0.1")
    assert starved.let_go == pytest.approx(ASKED.seconds, abs=0.05)
    assert not [spark for spark in starved.sparks if spark.seconds < starved.let_go]


def test_a_controller_that_stands_all_dips_sparks_as_if_there_were_none():
    """From a stand a motor draws its stall torque; 0.1 s after that all is as it was."""
    _, stands = lived("wren", "controller_resets=0.5")
    _, sound = lived("wren")
    assert stands.sparks == sound.sparks


def test_a_controller_wakes_a_tenth_of_a_second_after_its_last_dip():
    plain = resolve(ff.read(ENGINES / "heron.toml"))
    shaft = ShaftSpec(inertia=1e-3, starter_stall=10.0, starter_free=100.0)
    life = Life(plain, Asked())
    felt = Mishaps(plain, Asked(wrong=Wrong(resets_at=0.4)), life.engines, shaft)
    # 0.4 of stall torque is drawn at 60 rad/s.
    speeds = ((0.1, 50.0), (0.2, 59.0), (0.3, 61.0))
    felt.feel_starter(np.array([[time, 0.0, speed, 0.0] for time, speed in speeds]))
    assert felt.lost_at == 0.2
    assert not felt.awake(0.29)
    assert felt.awake(0.31)


def test_a_joint_slips_by_what_a_square_blow_says():
    """10 N·m for 2 ms on one that holds 4, 1e-4 and 4e-4 kg·m² at its sides: they part with
    6/1e-4 - 4/4e-4 = 5e4 rad/s² to 100 rad/s, and come together with 4/1e-4 + 4/4e-4 = 5e4: 0.1 rad
    each."""
    joint = Joint(holds=4.0, throws=1e-4, beyond=4e-4)
    time = np.linspace(0.0, 6e-3, 6001)
    torque = np.where(time <= 2e-3, 10.0, 0.0)
    after = slipped(joint, Slip(), time, torque)
    assert after.speed == 0.0
    assert after.angle == pytest.approx(0.2, rel=2e-3)
    back = slipped(joint, Slip(), time, -torque)
    assert back.angle == pytest.approx(-after.angle)


def test_a_joint_holds_until_what_goes_through_it_is_more():
    """Of 10 N·m on the throws 8 go through: the throws take up their share of the inertia."""
    time = np.linspace(0.0, 1e-3, 101)
    blow = np.full(101, 10.0)
    assert slipped(Joint(8.01, 1e-4, 4e-4), Slip(), time, blow).angle == 0.0
    joint = Joint(7.99, 1e-4, 4e-4)
    slips = slipped(joint, Slip(), time, blow).angle
    assert slips > 0.0
    # A millisecond of 9 N·m before, of which 7.2 go through, is nothing to it.
    before = np.linspace(-1e-3, 1e-3, 201)
    after = slipped(joint, Slip(), before, np.where(before <= 0.0, 9.0, 10.0)).angle
    assert after == pytest.approx(slips, rel=1e-9)


def test_a_joint_that_holds_more_than_a_combustion_changes_nothing():
    _, sound = lived("wren")
    _, holds = lived("wren", "slipping_joint=100 N*m")
    assert holds.slipped == 0.0
    assert holds.sparks == sound.sparks


def test_a_slipping_joint_brings_spark_and_cams_later_together():
    """A combustion throws the pin ahead; what is beyond the joint lags. A spark comes where it was
    asked but for that and its latency."""
    life, slips = lived("wren", "slipping_joint=25 N*m")
    _, sound = lived("wren")
    first = slips.sparks[0]
    assert first == sound.sparks[0]
    assert math.degrees(slips.slipped) > 5.0
    last = slips.sparks[-1]
    late = math.degrees(life.plain.spark.latency * last.speed)
    off = math.degrees(last.angle - last.asked) - math.degrees(slips.slipped) - late
    assert (off + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=1.0)
    cams = Life(life.plain, Asked()).engines[0]["valves"]["opens"][:2]
    now = life.engines[0]["valves"]["opens"][:2]
    assert (now - cams) % (4 * math.pi) == pytest.approx(slips.slipped % (4 * math.pi))
    events = life.engines[0]["events"][: life.engines[0]["event_count"]]
    assert len(events) == 4
    assert all(np.diff(events) > 0.0)
    assert np.isclose(events[:, None], now).any(axis=0).all()


def test_a_look_ahead_from_a_slipping_engine_changes_nothing_in_it():
    engine, asked = with_faults(
        ff.read(ENGINES / "wren.toml"), ASKED, ["slipping_joint=25 N*m", "sensor_noise=20"]
    )
    plain = resolve(engine)
    life, alone = (Life(plain, asked) for _ in range(2))
    while life.now < 0.5:
        life.step()
        if life.lights and life.now < 0.4:
            other = life.again()
            for _ in range(3):
                other.step()
    while alone.now < 0.5:
        alone.step()
    assert alone.told().sparks == life.told().sparks
    assert alone.mishaps.slipped == life.mishaps.slipped


def test_a_spark_without_a_return_lead_has_what_two_capacities_in_series_leave_it():
    """30 mJ in 100 pF are 24.5 kV, of which 3 pF beside 10 leave 3/13: 5.65 kV. It gives what
    breaks down, 0.94 × 13 pF × V²/2, and nothing glows on."""
    assert _without_return(30e-3, 5.7e3) == 0.0
    given = _without_return(30e-3, 5.6e3)
    assert given == pytest.approx(0.94 * 0.5 * 13e-12 * 5.6e3**2)
    assert given < 0.25e-3


def test_without_a_return_lead_a_plastic_engine_sparks_too_weakly_and_by_the_file_alone_too():
    _, faulty = lived("wren", "no_return_lead")
    assert {spark.missed for spark in faulty.sparks} == {"weak"}
    engine = with_values(ff.read(ENGINES / "wren.toml"), {"plug.return_lead": "false"})
    plain = resolve(engine)
    by_file = Life(plain, ASKED, driven(plain)).lived()
    assert by_file.sparks == faulty.sparks


def test_backwards_a_tooth_is_met_where_it_ends():
    timing = Timing("edge", math.radians(20), math.radians(5), 0.1, ((0.0, 0.1),))
    angle, met = 0.0, []
    for _ in range(6):
        marks = marks_before(angle, [0.0], [0.0], timing)
        met += [(mark.kind, round(math.degrees(mark.angle))) for mark in marks]
        angle = marks[0].angle
    assert met[:2] == [(TOOTH_BEGINS, -5), (TOOTH_ENDS, -20)]
    # The next turn's exhaust stroke, from its top down to its bottom, then is what draws gas in.
    assert met[2:] == [("top", -360), (TOOTH_BEGINS, -365), (TOOTH_ENDS, -380), ("bottom", -540)]


def room_by_hand(plain, later: float = 0.0) -> float:
    """Of a flat chamber: what is left at top, and the piston's way down, less the valve's lift."""
    parts = plain.cylinders[0]
    stroke, ratio = parts.cylinder.stroke, parts.cylinder.compression_ratio
    throw = slider_crank.throw_for_stroke(stroke, parts.rod.length, 0.0)
    exhaust, inlet = parts.valves.exhaust, parts.valves.inlet
    shuts = 2 * math.pi + exhaust.closes_after_top
    rooms = []
    for valve, opens, closes in (
        (exhaust, math.pi - exhaust.opens_before_bottom, shuts),
        (inlet, 2 * math.pi - inlet.opens_before_top, 3 * math.pi + inlet.closes_after_bottom),
    ):
        for share in np.linspace(0.0, 1.0, 2001):
            x = min(share, 1.0 - share) / 0.5
            lift = valve.lift * x**3 * (10.0 - x * (15.0 - 6.0 * x))
            angle = opens + later + share * (closes - opens)
            travel = slider_crank.piston_travel(angle, throw, parts.rod.length, 0.0)
            rooms.append(stroke / (ratio - 1.0) + travel - lift)
    return min(rooms)


@pytest.mark.parametrize(
    ("ratio", "faults", "meets"),
    [(6.5, [], False), (6.5, ["cam_tooth=3"], False), (12.0, [], False),
     (12.0, ["cam_tooth=3"], False), (14.0, ["cam_tooth=3"], True), (12.0, ["cam_tooth=-3"], True)],
)  # fmt: skip
def test_a_piston_meets_a_valve_where_a_chamber_is_low_and_the_cam_far_off(ratio, faults, meets):
    """3.3 and 2.8 mm of height at top of ratios of 12 and 14 against valves lifted 4 and 4.5 mm."""
    values = {"cylinder.compression_ratio": str(ratio)}
    for valve in ("inlet", "exhaust"):
        values[f"valves.{valve}.cam_law"] = "polynomial_345"
    engine = with_values(ff.read(ENGINES / "wren.toml"), values, layer="file")
    plain = resolve(with_faults(engine, ASKED, faults)[0])
    room = valve_room(plain)
    assert room == pytest.approx(room_by_hand(plain), abs=0.03e-3)
    assert (room < 0.0) == meets
    assert valve_room(plain, 1.0) == pytest.approx(room_by_hand(plain, 1.0), abs=0.03e-3)


def test_valves_beside_the_bore_meet_no_piston():
    plain = resolve(with_values(ff.read(ENGINES / "wren.toml"), {"valves.placed": "side"}))
    assert valve_room(plain) is None


def test_beyond_a_joint_is_what_turns_with_the_crank_less_its_throws(monkeypatch):
    """1.0e-3 kg·m² in all, 0.2e-3 of throws: 0.8e-3 beyond. Never less than what they have."""
    plain = resolve(ff.read(ENGINES / "wren.toml"))
    life = Life(plain, Asked())
    monkeypatch.setattr(mishaps, "rotating_inertia", lambda *_: 0.2e-3)

    def beyond(inertia):
        shaft = ShaftSpec(inertia=inertia, starter_stall=1.0, starter_free=100.0)
        joint = Mishaps(plain, Asked(), life.engines, shaft).joint
        assert joint.throws == pytest.approx(0.2e-3)
        return joint.beyond

    assert beyond(1.0e-3) == pytest.approx(0.8e-3)
    assert beyond(0.3e-3) == pytest.approx(0.2e-3)
