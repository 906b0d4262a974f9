"""Cams' places, coils' pairs, when fuel is wanted, and how far numbers may be off, by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest
from tests.engine.by_hand import value

from firstfire.engine import cam_lift, coils, fields, grammar, happenings, injection, unknowns
from firstfire.engine.cam_lift import Flanks, Span
from firstfire.engine.coils import Pair
from firstfire.engine.description import ORDER, SharedParts
from firstfire.engine.fields import Section, said
from firstfire.engine.rules import leaks, supply
from firstfire.engine.start_set import STUCK, of_the_start
from firstfire.engine.valve_room import roof, room_over
from firstfire.formulas.cam_lobe import Motion

TURN = 2.0 * math.pi
RPM = math.pi / 30
STILL = Motion(0.0, 0.0, 0.0, 0.0)


# Cams


@pytest.mark.parametrize(("follower", "place"), [("flat", 10j), ("curved", 10j)])
def test_a_cam_that_lifts_nothing_is_touched_at_its_base_a_quarter_turn_on(follower, place):
    """A follower of 4 mm on a base of 10: a quarter turn on it touches 10 mm away, aside."""
    valve = SimpleNamespace(
        follower=follower, rocker="direct", base_radius=10.0, follower_radius=4.0
    )
    assert cam_lift.edge_place(valve, STILL, 0.5 * math.pi) == pytest.approx(place)


def test_a_flat_follower_touches_as_far_aside_as_its_lift_is_steep():
    """10 + 2 out and 3 aside; a quarter turn on 3 back and 12 aside."""
    valve = SimpleNamespace(follower="flat", rocker="direct", base_radius=10.0)
    motion = Motion(2.0, 3.0, 0.0, 0.0)
    assert cam_lift.edge_place(valve, motion, 0.0) == pytest.approx(12 + 3j)
    assert cam_lift.edge_place(valve, motion, 0.5 * math.pi) == pytest.approx(-3 + 12j)


def test_a_rockers_touch_is_turned_with_the_cam(monkeypatch):
    """3 + 4i a quarter turn on is -4 + 3i; an eighth on, ½√2 (1 + i) of it, ½√2 (-1 + 7i)."""
    monkeypatch.setattr(cam_lift, "flat_touch", lambda *_: SimpleNamespace(at=3.0 + 4.0j))
    valve = SimpleNamespace(follower="flat", rocker="rocker")
    half = 0.5 * math.sqrt(2.0)
    assert cam_lift.edge_place(valve, STILL, 0.5 * math.pi) == pytest.approx(-4 + 3j)
    assert cam_lift.edge_place(valve, STILL, 0.25 * math.pi) == pytest.approx(half * (-1 + 7j))


def test_a_round_followers_centre_stands_a_base_and_its_own_radius_away():
    """10 + 4 and 2 of rise, 3 steep and 5 bent, led straight."""
    valve = SimpleNamespace(rocker="direct", base_radius=10.0, follower_radius=4.0)
    path = cam_lift.rider_path(valve, Motion(2.0, 3.0, 5.0, 7.0))
    assert (path.at, path.slope, path.second, path.way) == (16, 3, 5, 1)


def test_what_rockers_are_asked_with(monkeypatch):
    """10 + 4 away on an arm of 25; a flat foot at the base's 10; each with rise, slope and bend."""
    laws = SimpleNamespace(swinging_path=lambda *put: put, swinging_flat=lambda *put: put)
    monkeypatch.setattr(cam_lift, "cam_path", laws)
    valve = SimpleNamespace(rocker="rocker", base_radius=10.0, follower_radius=4.0, rocker_arm=25.0)
    motion = Motion(2.0, 3.0, 5.0, 7.0)
    assert cam_lift.rider_path(valve, motion) == (14.0, 25.0, 2.0, 3.0, 5.0)
    assert cam_lift.flat_touch(valve, motion) == (10.0, 25.0, 2.0, 3.0, 5.0)


def test_when_valves_leave_their_seats_and_are_back(monkeypatch):
    """A bottom 190° after top: 190 - 40 and 360 + 10 of one, 360 - 20 and 550 + 50 of the other."""
    deg = math.pi / 180
    monkeypatch.setattr(cam_lift, "bottom_after_top", lambda _: 190 * deg)
    inlet = SimpleNamespace(worked="cam", opens_before_top=20 * deg, closes_after_bottom=50 * deg)
    exhaust = SimpleNamespace(opens_before_bottom=40 * deg, closes_after_top=10 * deg)
    parts = SimpleNamespace(valves=SimpleNamespace(inlet=inlet, exhaust=exhaust))
    found = cam_lift.spans(parts)
    assert found["exhaust"] == pytest.approx((150 * deg, 370 * deg))
    assert found["inlet"] == pytest.approx((340 * deg, 600 * deg))
    assert found["inlet"].duration == pytest.approx(260 * deg)
    inlet.worked = "suction"
    assert list(cam_lift.spans(parts)) == ["exhaust"]


def test_the_bottom_is_so_far_from_the_top(monkeypatch):
    """Tops 4° and bottoms 187° past the line: 183° between, each asked with throw, rod, offset."""
    laws = SimpleNamespace(
        top_centre_angle=lambda *put: 4.0 if put == (1.0, 2.0, 3.0) else math.nan,
        bottom_centre_angle=lambda *put: 187.0 if put == (1.0, 2.0, 3.0) else math.nan,
    )
    monkeypatch.setattr(cam_lift, "slider_crank", laws)
    monkeypatch.setattr(cam_lift, "mechanism", lambda _: (1.0, 2.0, 3.0))
    assert cam_lift.bottom_after_top(None) == 183.0


def harmonic(lift):
    """A cam of a harmonic rise whose ramp is of 0.4 rad of the crank, and whose lash is 0.1."""
    return SimpleNamespace(
        cam_law="harmonic", lift_table=None, lift=lift, cam_ramp=0.4, lash=0.1, rocker="direct",
        rocker_ratio=2.0,
    )  # fmt: skip


def test_a_harmonic_lift_is_half_done_midway():
    """Open for 6 rad of the crank from 2: 3 rad of the cam from 1, its nose at 2.5; midway at 1.75
    and 3.25, with the same one turn before. Its flanks are 1.5 rad: it rises by 6 · π/3 a radian.
    """
    valve, span = harmonic(6.0), Span(2.0, 8.0)
    assert cam_lift.nose_at(valve, span) == pytest.approx(5.0)
    for angle, way in ((1.75, 1.0), (3.25, -1.0), (1.75 - TURN, 1.0), (3.25 + TURN, -1.0)):
        motion = cam_lift.valve_motion(valve, span, angle)
        slope = way * 2.0 * math.pi
        assert motion.rise == pytest.approx(3.0)
        assert motion.slope == pytest.approx(slope)
        assert cam_lift.valve_rise(valve, span, 2.0 * angle) == pytest.approx(3.0)
        # the lash's 0.1 on top, of a cam whose valve is off its seat
        assert cam_lift.cam_rise(valve, span, angle) == pytest.approx((3.1, slope))
    assert cam_lift.valve_motion(valve, span, 2.5).rise == pytest.approx(6.0)
    assert cam_lift.valve_motion(valve, span, 4.1) == STILL
    assert cam_lift.valve_motion(valve, span, 0.9) == STILL


def test_flanks_and_ramps_may_differ_before_and_behind():
    """Begun at 0.5, highest at 2, done at 3: half done 0.75 before and 0.5 behind its nose. Ramps
    of 0.4 rad of the crank are 0.2 of the cam: half of the lash is taken up 0.1 before each."""
    valve, at = harmonic(6.0), Flanks(0.5, 2.0, 3.0)
    for about in (-0.75, 0.5):
        assert cam_lift._lifted(valve, at, about).rise == pytest.approx(3.0)
        assert cam_lift.about_nose(valve, at, about).rise == pytest.approx(3.1)
    for about in (-1.6, 1.1):
        assert cam_lift._lifted(valve, at, about) == STILL
        assert cam_lift.about_nose(valve, at, about).rise == pytest.approx(0.05)


def test_a_tables_rows_are_places_and_lifts(monkeypatch):
    monkeypatch.setattr(cam_lift, "lift_curve", lambda *put: put)
    assert cam_lift._curve.__wrapped__(((0.0, 1.0), (2.0, 3.0))) == ((0.0, 2.0), (1.0, 3.0))


def test_a_rocker_of_two_lifts_its_valve_by_twice_its_cam():
    """6 and 0.1 of lash at the nose, and half of them at the cam."""
    valve, at = harmonic(6.0), Flanks(0.0, 1.0, 2.0)
    assert cam_lift.about_nose(valve, at, 0.0).rise == pytest.approx(6.1)
    valve.rocker = "rocker"
    assert cam_lift.ratio(valve) == 2.0
    assert cam_lift.about_nose(valve, at, 0.0).rise == pytest.approx(3.05)


def test_a_lift_table_is_steeper_by_the_cam_than_by_the_crank(monkeypatch):
    """Twice by slope, four times by bend, eight times by what bends it; asked at twice the cam's
    angle after it opens: 2 (0.3 + 1)."""
    asked = []
    monkeypatch.setattr(cam_lift, "_curve", lambda _: "curve")
    monkeypatch.setattr(
        cam_lift, "curve_motion", lambda *put: asked.append(put) or (1.0, 3.0, 5.0, 7.0)
    )
    valve = SimpleNamespace(cam_law="table", lift_table=((0.0, 0.0), (2.0, 1.0), (4.0, 0.0)))
    found = cam_lift._lifted(valve, Flanks(0.0, 1.0, 2.0), 0.3)
    assert found == Motion(1.0, 6.0, 20.0, 56.0)
    assert asked == [("curve", pytest.approx(2.6))]


def test_a_valve_meets_the_crown_below_its_lower_edge():
    """40 mm by 36 at 7 : 1 leave 6 mm of roof; a head of 20 that leans by 30° hangs 5 lower."""
    parts = SimpleNamespace(
        cylinder=SimpleNamespace(bore=40.0, stroke=36.0, compression_ratio=7.0),
        head=SimpleNamespace(valve_axis_angle=math.pi / 6),
    )
    assert roof(parts) == pytest.approx(6.0)
    assert room_over(parts, SimpleNamespace(head_diameter=20.0)) == pytest.approx(
        (1.0, 0.5 * math.sqrt(3.0))
    )


# Coils, and when things happen


@pytest.mark.parametrize(
    ("tops", "wasted", "one"),
    [
        ((0.0, TURN), True, True),
        ((0.0, TURN), False, False),
        ((0.5 * TURN, 1.5 * TURN), True, True),
        ((1.5 * TURN, 0.5 * TURN), True, True),
        ((0.0, 0.5 * TURN), True, False),
        ((0.0, TURN + 1e-3), True, False),
        ((0.0, 2.0), True, False),
        ((0.0,), True, False),
    ],
)
def test_one_coil_feeds_two_plugs_that_fire_a_turn_apart(monkeypatch, tops, wasted, one):
    monkeypatch.setattr(coils, "firing_angles", lambda _: tops)
    plain = SimpleNamespace(spark=SimpleNamespace(wasted=wasted), cylinders=tops)
    assert coils.paired(plain) is one
    each = tuple(Pair((cylinder,)) for cylinder in range(1, len(tops) + 1))
    assert coils.coils_of(plain) == ((Pair((1, 2)),) if one else each)


def fuelled(ends):
    return SimpleNamespace(injector=SimpleNamespace(ends=ends, distance=0.05))


def test_the_last_fuel_is_at_its_valve_as_it_opens_or_by_the_bottom(monkeypatch):
    """Into an open inlet by 2π + 3; else as it opens at 5.5, or at the top where suction opens it.

    50 mm at 20 m/s take 2.5 ms: at 200 rad/s it is shut half a radian before.
    """
    monkeypatch.setattr(injection, "bottom_after_top", lambda _: 3.0)
    monkeypatch.setattr(injection, "spans", lambda _: {"inlet": Span(5.5, 9.0)})
    assert pytest.approx(6.283185307) == injection.OVERLAP
    assert injection.arrives(fuelled("while_inlet_open"), None) == pytest.approx(9.283185307)
    assert injection.arrives(fuelled("before_inlet_opens"), None) == 5.5
    shut = injection.end_angle(fuelled("before_inlet_opens"), None, 200.0, 20.0)
    assert shut == pytest.approx(5.0)
    monkeypatch.setattr(injection, "spans", lambda _: {})
    assert injection.arrives(fuelled("before_inlet_opens"), None) == pytest.approx(6.283185307)


@pytest.mark.parametrize(
    ("own", "fires", "kept", "crank"),
    [
        # from a quarter turn before its top to three quarters and a turn after
        (-0.2 * TURN, 0.0, -0.2 * TURN, 1.8 * TURN),
        (-0.3 * TURN, 0.0, 1.7 * TURN, 1.7 * TURN),
        (1.8 * TURN, 0.0, -0.2 * TURN, 1.8 * TURN),
        (0.5 * TURN, 1.25 * TURN, 0.5 * TURN, 1.75 * TURN),
        (1.5 * TURN, 1.25 * TURN, 1.5 * TURN, 0.75 * TURN),
        (-1e-12, 0.0, -1e-12, 0.0),
    ],
)
def test_a_happening_has_its_own_angle_and_the_cranks(own, fires, kept, crank):
    found = happenings._placed(1, fires, "it", "it", "centre", own)
    assert found.cylinder == 2
    assert (found.own, found.crank) == pytest.approx((kept, crank), abs=1e-12)


@pytest.mark.parametrize(
    ("crank", "turn"), [(0.0, 0.0), (0.75, -0.25), (1.25, 0.25), (0.5, -0.5), (1.4, 0.4)]
)
def test_a_flywheel_has_one_place_for_both_turns(crank, turn):
    """Within half a turn of the mark: three quarters of a turn after it are a quarter before."""
    found = happenings.Happening("it", 1, "it", "centre", 0.0, crank * TURN)
    assert found.turn == pytest.approx(turn * TURN)


# How far numbers may be off


def test_a_decade_lies_evenly_about_its_middle_by_its_logarithm():
    """√10 each way: a tenth of its square, ten of its square."""
    for span in (leaks.RING_SPANS["ptfe"], leaks.OTHER_SPAN):
        assert span.low**2 == pytest.approx(0.1)
        assert span.high**2 == pytest.approx(10.0)


def test_a_tables_span_is_two_deviations_and_ninety_of_a_hundred_are_1_645():
    """1.644854/1.959964 = 0.839227 of it."""
    assert pytest.approx(0.839227, rel=1e-5) == unknowns.TABLE_TO_5_95


def had(numbers, **other):
    class Had(dict):
        def number(self, path):
            return self[path]

    return Had(numbers | other)


def test_where_laws_of_burning_and_rubbing_leave_their_ground():
    """Below 800 rpm, 83.78 rad/s; above 0.5 m/s: 10 mm · π at 50 rad/s, twice of it a turn."""
    narrow = unknowns._Spread(0.7, 1.4, "fits")
    for speed, beyond in ((83.7, True), (83.8, False)):
        values = had({"use.cranking_speed": speed})
        spread, found = unknowns._widened("doubt.burn_duration", narrow, values)
        assert found is beyond
        assert (spread.low, spread.high) == ((0.5, 2.0) if beyond else (0.7, 1.4))
    for fastest, beyond in ((49.9, False), (50.1, True)):
        values = had(
            {"rings.kind": "o_ring", "use.full_throttle_speeds": [9.0, fastest],
             "cylinder.stroke": 0.01 * math.pi}
        )  # fmt: skip
        spread, found = unknowns._widened("doubt.friction.ring", narrow, values)
        assert found is beyond
        assert (spread.low, spread.high) == ((0.3, 3.0) if beyond else (0.7, 1.4))
    for bore, beyond in ((59e-3, True), (61e-3, False)):
        found = unknowns._widened("doubt.wall_heat", narrow, had({"cylinder.bore": bore}))
        assert found == (narrow, beyond)


class Started(dict):
    """Values of a start, each said by nobody in particular."""

    def number(self, path):
        return self[path]

    def spoken(self, path):
        return SimpleNamespace(value=self[path], error=None, layer="file", kind="said", note="")


def test_what_is_uncertain_of_a_start_alone():
    """Twice and half of stuck rings' 2 and a battery's 0.04; a tenth of a drilled 1.1; a quarter
    of 50 by ear: each as much below as above, by its logarithm."""
    values = Started({
        "rings.kind": "o_ring", "use.stood": 1.0, STUCK: 2.0, "starter.battery_voltage": 12.0,
        "starter.battery_resistance": 0.04, "starter.decompression": True,
        "starter.decompression_diameter": 1.1, "starter.decompression_until": 50.0,
    })  # fmt: skip
    found = {one.path: (one.low, one.centre, one.high) for one in of_the_start(values)}
    assert found == {
        STUCK: pytest.approx((1.0, 2.0, 4.0)),
        "starter.battery_resistance": pytest.approx((0.02, 0.04, 0.08)),
        "starter.decompression_diameter": pytest.approx((1.0, 1.1, 1.21)),
        "starter.decompression_until": pytest.approx((40.0, 50.0, 62.5)),
    }


def test_a_measured_number_of_a_start_may_be_off_by_its_error():
    """0.04 by 0.01 either way."""
    values = Started({
        "rings.kind": "metal", "starter.battery_voltage": 12.0,
        "starter.battery_resistance": 0.04, "starter.decompression": False,
    })  # fmt: skip
    values.spoken = lambda _: SimpleNamespace(
        value=0.04, error=0.01, layer="file", kind="measured", note="by a meter"
    )
    (found,) = of_the_start(values)
    assert (found.low, found.high) == pytest.approx((0.03, 0.05))
    assert (found.distribution, found.source) == ("normal", "by a meter")


def entry(value, error=None, kind="said"):
    return SimpleNamespace(value=value, error=error, layer="file", kind=kind, note="by a gauge")


@pytest.mark.parametrize(
    ("found", "low", "high"),
    [
        # a decade about 2; by 0.5; by 0.3 of it; no less than a twentieth of it
        (entry(2.0), 2.0 / 10**0.5, 2.0 * 10**0.5),
        (entry(2.0, 0.5, "measured"), 1.5, 2.5),
        (entry(2.0, None, "learned"), 1.4, 2.6),
        (entry(2.0, 3.0, "measured"), 0.1, 5.0),
    ],
)
def test_how_far_a_leak_may_be_off(found, low, high):
    values = SimpleNamespace(spoken=lambda _: found)
    (one,) = unknowns._leak(values, "leak.plug", "")
    assert (one.low, one.high) == pytest.approx((low, high))


@pytest.mark.parametrize(
    ("low", "high", "said_as"),
    [
        # 2/1 is less than (4/2)²; 2/0.5 is as much: evenly in itself, 2 · 2 - 4 is nothing
        (1.0, 4.0, ("lognormal", 1.0, 4.0)),
        (0.51, 4.0, ("lognormal", 0.51, 4.0)),
        (0.5, 3.5, ("normal", 0.5, 3.5)),
        (0.4, 4.0, ("normal", 0.1, 4.0)),
        (0.0, 3.0, ("normal", 1.0, 3.0)),
    ],
)
def test_the_shape_of_a_span_that_was_said(low, high, said_as):
    shape, least, most = unknowns._said_span(2.0, low, high)
    assert shape == said_as[0]
    assert (least, most) == pytest.approx(said_as[1:])


def test_a_bought_part_may_be_off_by_a_share_or_by_what_its_gauge_says():
    """A tenth of 20 is 2; a gauge says 0.5."""
    for found, half in ((entry(20.0), 2.0), (entry(20.0, 0.5), 0.5)):
        values = SimpleNamespace(spoken=lambda _, found=found: found)
        one = unknowns._by_share(values, "valves.inlet.mass", 0.1, "books", "")
        assert (one.low, one.centre, one.high) == pytest.approx((20.0 - half, 20.0, 20.0 + half))


def test_half_of_a_bought_parts_tolerance(monkeypatch):
    """12 µm of IT6 twice over in squares: 12/√2; IT7 and IT9 by their own sizes, 400 mm at most."""
    asked = []
    monkeypatch.setattr(unknowns, "tolerance", lambda *put: asked.append(put) or 12e-6)
    sizes = had(
        {"cylinder.bore": 40e-3, "rings.groove_depth": 3e-3, "piston.skirt_clearance": 1e-4}
    )
    clear, why = unknowns._machined(sizes, "piston.skirt_clearance")
    assert clear == pytest.approx(12e-6 / math.sqrt(2.0))
    assert "IT6" in why
    assert unknowns._machined(sizes, "cylinder.bore")[0] == pytest.approx(6e-6)
    assert unknowns._machined(sizes, "rings.groove_depth")[0] == pytest.approx(6e-6)
    assert asked == [(40e-3, 6), (40e-3, 7), (3e-3, 9)]


# Holes, rings, and what a description is made of


def test_a_hole_that_lets_compression_off():
    """2 mm² halve what a gauge shows of 88.36 cm³ at 400 rpm: drilled they are 2/0.7 mm², 1.9 mm;
    of four times that at once 3.8."""
    assert pytest.approx(2e-6) == supply._HALVES * 88.36e-6 * 400 * RPM
    bore, stroke = 50e-3, 88.36e-6 / (math.pi / 4 * 50e-3**2)
    for times, hole in ((1.0, 1.9e-3), (4.0, 3.8e-3)):
        ask = had({
            "cylinder.bore": bore, "cylinder.stroke": stroke,
            "use.cranking_speed": 400 * RPM * times,
        })  # fmt: skip
        assert supply._hole(ask) == pytest.approx(hole)


def test_a_ring_stretched_by_four_of_a_hundred_is_nearer_than_one_hardly_stretched():
    """40.9 - 1.8 · 2.62 = 36.184: 4.6 % on 34.59, 2.1 off 2.5; 0.04 % on 36.17, 2.46 off it."""
    sizes = {"cylinder.bore": "40.9 mm", "cylinder.stroke": "36.81 mm"}
    assert value(sizes, "rings.oring") == "as568_126"


class Drawn(Section):
    """A section with one number."""

    size: float = said("How large it is.")


def test_a_section_knows_what_it_holds():
    class Made(Section):
        width: float = said("How wide it is.")
        inner: Drawn

    assert not hasattr(Made, "width")
    assert fields._section(Drawn) is Drawn
    assert fields._section(float) is None
    assert Made.model_fields["inner"].section is Drawn
    assert Made.model_fields["width"].section is None


def test_paths_begin_with_their_section_in_the_order_of_building():
    crank = SharedParts.model_fields["crank"]
    paths = [leaf.path for leaf in grammar._walk("crank", crank, False)]
    assert "crank.main_journal_diameter" in paths
    assert all(path.startswith("crank.") for path in paths)
    all_paths = list(grammar.leaves.__wrapped__())
    places = [ORDER.index(path.split(".")[0]) for path in all_paths]
    assert places == sorted(places)
    assert len(set(places)) > 1
