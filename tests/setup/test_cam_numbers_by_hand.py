"""Numbers of a cam and its gaps by hand: stand-ins for forces and for what is measured."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import EngineFileError, OutsideValidity
from firstfire.setup.cams import cam, cams, gaps, makeable, met, numbers
from firstfire.setup.cams.events import Wanted
from firstfire.setup.cams.gaps import Case

MM = 1e-3
DEG = math.pi / 180


def made_of(rise=(0.1, 4.0, 0.1), which="inlet", **but):
    """A cam of these rises, mm, under a roller of 5 mm; its valve lifts half as far again."""
    valve = {"follower": "roller", "follower_radius": 5e-3, "rocker": "direct", "lash": 0.3e-3,
             "lift": 5.7e-3, "cam_width": 8e-3}  # fmt: skip
    lifted = np.array(rise) * MM
    known = {one: but.pop(one) for one in list(but) if one not in valve}
    return SimpleNamespace(
        which=which, valve=SimpleNamespace(**valve | but), rise=lifted, ratio=1.5,
        valve_lift=np.maximum(1.5 * lifted - 0.3e-3, 0.0), **known,
    )  # fmt: skip


def shaped(monkeypatch, made, bends=(20.0, 3.0), line=0.4, push=(0.1, 0.5, 0.2)):
    """Its numbers by their ids; bends, mm, and lean, rad, at each place."""
    monkeypatch.setattr(numbers, "radii", lambda _: np.array(bends) * MM)
    monkeypatch.setattr(numbers, "sharpest", lambda _: min(bends) * MM)
    monkeypatch.setattr(numbers.cam_forces, "push_angles", lambda _: np.array(push))
    return {one.id: one for one in numbers.shape(made, line * MM)}


def test_the_shape_of_a_cam_under_a_roller(monkeypatch):
    """Its largest rise, its least radius, its steepest push; 30° where it slides, 35° on an arm."""
    found = shaped(monkeypatch, made_of())
    assert set(found) == {"lift_at_cam", "nose_radius", "pressure_angle"}
    assert found["lift_at_cam"].value == pytest.approx(4.0 * MM)
    assert (found["nose_radius"].value, found["nose_radius"].limit) == pytest.approx((3e-3, 4e-4))
    assert found["pressure_angle"].value == pytest.approx(0.5)
    assert found["pressure_angle"].limit == pytest.approx(30.0 * DEG)
    arm = shaped(monkeypatch, made_of(rocker="rocker"))
    assert arm["pressure_angle"].limit == pytest.approx(35.0 * DEG)


@pytest.mark.parametrize(("rides", "least"), [(5.0, 5.0), (0.1, 0.2)])
def test_what_rides_and_half_a_printed_line_have_to_reach_into_a_hollow(monkeypatch, rides, least):
    """Deeper than what rides on it, 6 mm of hollow is sharper than 8 mm; 0.4 mm lines turn 0.2."""
    made = made_of(follower_radius=rides * MM)
    found = shaped(monkeypatch, made, bends=(20.0, -8.0, -6.0))["hollow_radius"]
    assert found.value == pytest.approx(6e-3)
    assert found.limit == pytest.approx(least * MM)


def test_an_edge_all_but_straight_is_no_hollow(monkeypatch):
    """1.5 m of radius; nor is what the roller would undercut, 4 mm under one of 5 mm."""
    assert "hollow_radius" not in shaped(monkeypatch, made_of(), bends=(20.0, -1500.0))
    assert "hollow_radius" not in shaped(monkeypatch, made_of(), bends=(20.0, -4.0))


def test_a_flat_foot_is_twice_as_wide_as_the_cam_goes_aside(monkeypatch):
    monkeypatch.setattr(numbers, "foot", lambda _: np.array([-3e-3, 0.0, 2.5e-3]))
    found = shaped(monkeypatch, made_of(follower="flat"), bends=(20.0, -6.0))
    assert found["foot_width"].value == pytest.approx(6e-3)
    assert set(found) == {"lift_at_cam", "nose_radius", "foot_width"}


def test_how_a_valve_moves_at_a_speed(monkeypatch):
    """At 200 rad/s the cam turns 100: 2 mm/rad³ of the cam are 2 × 1.5 × 100³ = 3000 m/s³.

    More than that counts only while it is open. Lash of 0.3 mm is 0.2 mm at the cam: below it the
    cam is no steeper than 2 mm/rad, and 1.5 × 2 × 100 = 0.3 m/s. 200 rad/s are 1910 rpm.
    """
    made = made_of(
        rise=(0.1, 0.19, 0.21, 0.35, 4.0), slope=np.array([1.0, -2.0, 3.0, 4.0, 0.0]) * MM,
        third=np.array([9.0, 9.0, 1.0, -2.0, 1.5]) * MM,
    )  # fmt: skip

    def acceleration(of, speed):
        assert of is made
        return np.array([0.0, 0.0, 3.0, 2.0, -2.5]) * speed

    monkeypatch.setattr(numbers.cam_forces, "acceleration", acceleration)
    found = {one.id: one for one in numbers._moves(made, 200.0)}
    assert found["acceleration"].value == pytest.approx(600.0)
    assert found["deceleration"].value == pytest.approx(500.0)
    assert found["jerk"].value == pytest.approx(3000.0)
    assert (found["ramp_speed"].value, found["ramp_speed"].limit) == pytest.approx((0.3, 0.5))
    assert found["jerk"].words.endswith("at 1910 rpm")


def test_the_largest_force_is_slow_or_at_speed(monkeypatch):
    """Slow it is 40, 60 and 50 N, at 200 rad/s 70, 30 and 20: 70. Undercut, no stress is told."""
    made, plain = made_of(), SimpleNamespace(materials={"pa12": SimpleNamespace(name="PA12")})

    def force(of, speed):
        assert of is made
        return np.array([40.0 + 0.15 * speed, 60.0 - 0.15 * speed, 50.0 - 0.15 * speed])

    worst = SimpleNamespace(softer="pa12", pressure=80e6, capacity=100e6, depth=0.1e-3, shear=24e6)
    monkeypatch.setattr(numbers.cam_forces, "cam_force", force)
    monkeypatch.setattr(
        numbers.cam_forces, "worst_contact",
        lambda of, one, speed: worst if (of, one, speed) == (plain, made, 200.0) else None,
    )  # fmt: skip
    largest, contact = numbers._contact(plain, made, 200.0)
    assert largest.value == pytest.approx(70.0)
    assert (contact.value, contact.limit) == (80e6, 100e6)
    assert "over 8 mm" in contact.why
    assert "yield 0.1 mm below its surface at 24 MPa" in contact.why

    def undercut(*_):
        raise OutsideValidity("It undercuts itself.")

    monkeypatch.setattr(numbers.cam_forces, "worst_contact", undercut)
    _, contact = numbers._contact(plain, made, 200.0)
    assert math.isnan(contact.value)
    assert contact.why == "It undercuts itself."


def test_a_spring_holds_at_a_fifth_more_than_top_speed(monkeypatch):
    """200 rad/s: at 240 it has so much left, and only from 240 on may it float."""
    made = made_of()

    def spare(of, speed):
        assert of is made
        return 10.0 * speed / 240.0, 3e-3

    monkeypatch.setattr(numbers.cam_forces, "least_spare", spare)
    monkeypatch.setattr(numbers.cam_forces, "floats_at", lambda _: 300.0)
    left, floats = numbers._spring(made, 200.0)
    assert left.value == pytest.approx(10.0)
    assert "least at 3 mm of lift" in left.why
    assert (floats.value, floats.limit) == (300.0, pytest.approx(240.0))


def test_top_speed_is_its_limiters_or_the_fastest_asked_for():
    use = SimpleNamespace(full_throttle_speeds=(200.0, 400.0, 300.0))
    for limit, top in ((350.0, 350.0), (None, 400.0)):
        plain = SimpleNamespace(spark=SimpleNamespace(limit_speed=limit), use=use)
        assert numbers.top_speed(plain) == top


def test_all_numbers_of_a_cam_are_of_it_at_its_top_speed(monkeypatch):
    plain, made = SimpleNamespace(name="plain"), made_of()
    monkeypatch.setattr(numbers, "top_speed", lambda of: 350.0 if of is plain else None)
    monkeypatch.setattr(numbers, "shape", lambda *of: [("shape", of)])
    monkeypatch.setattr(numbers, "_moves", lambda *of: [("moves", of)])
    monkeypatch.setattr(numbers, "_contact", lambda *of: [("contact", of)])
    monkeypatch.setattr(numbers, "_spring", lambda *of: [("spring", of)])
    assert numbers.numbers(plain, made, 4e-4) == (
        ("shape", (made, 4e-4)), ("moves", (made, 350.0)), ("contact", (plain, made, 350.0)),
        ("spring", (made, 350.0)),
    )  # fmt: skip


def engine(placed="head", count=1):
    valves = SimpleNamespace(placed=placed)
    return SimpleNamespace(
        name="plain", cylinders=[SimpleNamespace(valves=valves) for _ in range(count)],
        cam_drive=SimpleNamespace(teeth_cam=40), plain=True,
    )  # fmt: skip


def gap(what, room):
    return SimpleNamespace(what=what, gap=room, where="20° before top", angle=6.0)


def test_every_gap_of_valves_in_the_head(monkeypatch):
    """Drawn, with its lash, one and two of 40 teeth off (18° of crank each), floating and hung.

    A tooth off takes 1.5 mm from what was drawn; valves that meet each other then are told
    instead where they are nearer. 400 rad/s are 3820 rpm.
    """
    plain, made = engine(), SimpleNamespace(which="inlet")

    def to_piston(of, cylinder, later=0.0, lash=None):
        assert (of.plain, cylinder) == (True, 0)
        room = 3e-3 - 1.5e-3 * abs(later) / (18 * DEG) + (lash or 0.0)
        return [gap("inlet to piston", room), gap("exhaust to piston", room + 1e-4)]

    def between(of, cylinder, later=0.0):
        assert (of.plain, cylinder) == (True, 0)
        return gap("valve to valve", -2e-3 if later > 0.5 else 2e-3)

    def one(room):
        def found(of, cylinder, *more, thrown_at=None):
            assert (of.plain, cylinder) == (True, 0)
            assert more in ((), (made,))
            assert thrown_at in (None, 400.0)
            return gap("one", room)

        return found

    monkeypatch.setattr(gaps, "gaps_to_piston", to_piston)
    monkeypatch.setattr(gaps.valve_gaps, "between_gap", between)
    monkeypatch.setattr(gaps.valve_gaps, "wall_gap", one(4e-3))
    monkeypatch.setattr(gaps.valve_gaps, "piston_gap", one(5e-3))
    monkeypatch.setattr(gaps.valve_gaps, "hung_gap", one(6e-3))
    monkeypatch.setattr(gaps.valve_gaps, "worked", lambda _: [made])
    monkeypatch.setattr(gaps.valve_gaps, "float_speed_shown", lambda *_: 400.0)
    monkeypatch.setattr(gaps, "top_speed", lambda _: 300.0)
    found = {case.id: case for case in gaps.cases(plain, 0, 0.2e-3)}
    assert {ident: 1e3 * case.gap.gap for ident, case in found.items()} == pytest.approx({
        "drawn_inlet": 3.0, "drawn_exhaust": 3.1, "drawn_between": 2.0, "drawn_wall": 4.0,
        "lash_inlet": 3.2, "lash_exhaust": 3.3, "tooth_early_2": 0.0, "tooth_early_1": 1.5,
        "tooth_late_1": 1.5, "tooth_late_2": -2.0, "floating_inlet": 5.0, "hung_inlet": 6.0,
    })  # fmt: skip
    turned = [
        found[f"tooth_{one}"].later / DEG for one in ("early_2", "early_1", "late_1", "late_2")
    ]
    assert turned == pytest.approx([-36.0, -18.0, 18.0, 36.0])
    assert found["tooth_late_2"].words == "two teeth late: valve to valve"
    assert found["tooth_early_1"].words == "one tooth early: inlet to piston"
    assert found["lash_inlet"].words == "inlet to piston, lash 0.2 mm"
    assert found["floating_inlet"].words == "inlet floating at 3820 rpm"
    assert found["floating_inlet"].thrown_at == 400.0


def test_gaps_of_valves_beside_the_bore(monkeypatch):
    """1 mm as drawn, 0.3 mm more with its lash; floating it meets the roof, and isn't judged."""
    plain, made = engine("side"), SimpleNamespace(which="exhaust")

    def roof(of, cylinder, one, lash=None, speed=None):
        assert (of, cylinder, one) == (plain, 0, made)
        assert speed in (None, 400.0)
        return gap("roof", 1e-3 + (lash or 0.0) - (1e-3 if speed else 0.0))

    monkeypatch.setattr(gaps, "roof_gap", roof)
    monkeypatch.setattr(
        gaps, "beside_gap", lambda of, at: gap("beside", 3e-3) if (of, at) == (plain, 0) else None
    )
    monkeypatch.setattr(gaps.valve_gaps, "worked", lambda _: [made])
    monkeypatch.setattr(gaps.valve_gaps, "float_speed_shown", lambda *_: 400.0)
    monkeypatch.setattr(gaps, "top_speed", lambda _: 300.0)
    found = gaps.cases(plain, 0, 0.3e-3, bridge_said=True)
    assert [(case.id, round(1e6 * case.gap.gap)) for case in found] == [
        ("drawn_exhaust", 1000), ("lash_exhaust", 1300), ("drawn_between", 3000),
    ]  # fmt: skip
    monkeypatch.setattr(gaps, "roof_gap", lambda *_: gap("roof", 2e-3))
    (_, floats) = gaps.cases(plain, 0)
    assert (floats.words, floats.thrown_at) == ("exhaust floating at 3820 rpm", 400.0)


@pytest.mark.parametrize(("lift", "judged"), [(5.9e-3, True), (6.1e-3, False)])
def test_a_valve_that_lifts_as_high_as_the_roof_is_not_judged(monkeypatch, lift, judged):
    """A flat roof would be 6 mm high; 6.1 mm of lift and the 1 mm that is left are 7.1 mm."""
    made = SimpleNamespace(which="inlet", valve=SimpleNamespace(lift=lift))
    monkeypatch.setattr(gaps, "side_roof", lambda _: 6e-3)
    monkeypatch.setattr(gaps.valve_gaps, "worked", lambda _: [made])
    told = gaps.unjudged(engine("side"), 0, bridge_said=True)
    assert len(told) == (1 if judged else 2)
    assert judged or "it would be 6 mm high; over this valve it has to be 7.1 mm" in told[1]
    assert len(gaps.unjudged(engine("side"), 0, bridge_said=False)) == len(told) + 1
    assert gaps.unjudged(engine(), 0, bridge_said=False) == ()


def test_an_engine_that_would_bend_a_valve_is_refused(monkeypatch):
    """The second cylinder's inlet of 5 mm meets its piston; to touch is to meet."""
    made = SimpleNamespace(which="inlet", valve=SimpleNamespace(lift=5e-3))
    plain = engine(count=2)

    def piston(of, cylinder, one):
        assert (of, one) == (plain, made)
        return gap("inlet to piston", 1e-3 if cylinder == 0 else 0.0)

    monkeypatch.setattr(met, "worked", lambda _: [made])
    monkeypatch.setattr(met, "piston_gap", piston)
    monkeypatch.setattr(
        met, "as_it_is", lambda of, which: "asked" if (of, which) == (plain, "inlet") else None
    )
    monkeypatch.setattr(
        met, "nearest",
        lambda _, one: SimpleNamespace(words="opening 5° later") if one == "asked" else None,
    )  # fmt: skip
    written = SimpleNamespace(where="wren.toml")
    with pytest.raises(EngineFileError) as refused:
        met.refuse_met_piston(written, plain)
    assert "is 5 mm: as drawn the inlet valve of cylinder 2 meets the piston" in str(refused.value)
    assert "The nearest that clears it: opening 5° later" in str(refused.value)
    monkeypatch.setattr(met, "piston_gap", lambda *_: gap("inlet to piston", 1e-6))
    met.refuse_met_piston(written, plain)


@pytest.mark.parametrize("wanted", [None, Wanted("inlet", 0.2, 0.7, 0.0, 5e-3, "cycloidal")])
def test_a_cam_is_told_with_its_spring_faults_and_the_nearest(monkeypatch, wanted):
    written, plain, made = SimpleNamespace(name="written"), engine(), made_of()
    own = (plain, "inlet")
    monkeypatch.setattr(
        cam, "profile", lambda *of: made if of == (plain.cylinders[0], "inlet") else 0
    )
    monkeypatch.setattr(cam, "top_speed", lambda _: 300.0)
    monkeypatch.setattr(cam, "needed_line", lambda *of: "line" if of == (made, 300.0) else 0)
    monkeypatch.setattr(cam, "winding", lambda *of: "wound" if of == (made, "line", 300.0) else 0)
    monkeypatch.setattr(makeable, "faults", lambda *of: ["meets the piston"] if of == own else [])
    monkeypatch.setattr(cam, "as_it_is", lambda *of: "as it is" if of == own else 0)
    monkeypatch.setattr(makeable, "nearest", lambda of, one: (of, one))
    monkeypatch.setattr(makeable, "line_width", lambda _: 4e-4)
    monkeypatch.setattr(cam, "numbers", lambda *of: "told" if of == (plain, made, 4e-4) else 0)
    found = cam._cam(written, plain, "inlet", wanted)
    assert (found.which, found.made, found.numbers, found.line) == ("inlet", made, "told", "line")
    assert (found.winding, found.no_winding, found.faults) == ("wound", "", ("meets the piston",))
    assert found.nearest == (written, wanted or "as it is")

    def none(*_):
        raise OutsideValidity("No spring fits.")

    monkeypatch.setattr(cam, "winding", none)
    assert cam._cam(written, plain, "inlet", wanted).no_winding == "No spring fits."


def test_each_valve_that_a_cam_works_is_told(monkeypatch):
    """Suction opens the inlet; the exhaust's cam is told with what was asked of it."""
    wanted = Wanted("exhaust", 0.7, 0.2, 0.0, 5e-3, "cycloidal")
    plain = engine()
    plain.cylinders[0].valves = SimpleNamespace(
        inlet=SimpleNamespace(worked="suction"), exhaust=SimpleNamespace(worked="cam")
    )
    written = SimpleNamespace(values=lambda _: SimpleNamespace(said=lambda _: True))
    case = Case("drawn_between", "valve to valve", gap("valve to valve", 2e-3))
    monkeypatch.setattr(cam, "resolve", lambda _: plain)
    monkeypatch.setattr(cam, "_cam", lambda *of: of)
    monkeypatch.setattr(cam, "suction_inlet", lambda of: "suction" if of is plain else None)
    monkeypatch.setattr(cam, "cases", lambda *of, bridge_said: (case, of, bridge_said))
    monkeypatch.setattr(cam, "unjudged", lambda *of, bridge_said: (of, bridge_said))
    found = cam.cams(written, lash=1e-4, wanted=wanted)
    assert found.cams == ((written, plain, "exhaust", wanted),)
    assert found.suction == "suction"
    assert found.gaps == (case, (plain, 0, 1e-4), True)
    assert found.unjudged == ((plain, 0), True)


def test_cams_are_chosen_at_the_speeds_that_are_asked_for(monkeypatch):
    monkeypatch.setattr(cams, "choose", lambda engine, speeds, **_: (engine, speeds))
    assert cams.choose_cams("written", (300.0,)) == ("written", (300.0,))
