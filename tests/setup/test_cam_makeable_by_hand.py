"""Whether a cam can be made, and what is tried instead, by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.setup.cams import makeable
from firstfire.setup.cams.events import Wanted
from firstfire.setup.number import Number

DEG = math.pi / 180


def of(**valve):
    """An engine whose valves are worked so; its printer lays lines of 0.4 mm."""
    put = {
        "base_radius": 10e-3, "follower": "roller", "follower_radius": 5e-3,
        "throat_diameter": 30e-3, "rocker": "direct",
    } | valve  # fmt: skip
    one = SimpleNamespace(**put)
    return SimpleNamespace(
        cylinders=[SimpleNamespace(valves=SimpleNamespace(inlet=one, exhaust=one))],
        crank=SimpleNamespace(line_width=0.4e-3),
    )


def asked(which="inlet", opens=20.0, closes=40.0, lift=4e-3, **but):
    return Wanted(which, opens * DEG, closes * DEG, lift=lift,
                  **{"at_lift": 0.0, "law": "cycloidal"} | but)  # fmt: skip


@pytest.fixture
def halved(monkeypatch):
    """A rocker that lifts its valve twice as far as its cam."""
    monkeypatch.setattr(makeable, "ratio", lambda _: 2.0)


@pytest.mark.parametrize(("half", "wrong"), [(3.05, 0), (3.06, 1)])
def test_seven_hundred_degrees_of_crank_leave_no_base_circle(monkeypatch, half, wrong):
    """6.10 rad of cam are 12.20 of crank, 699.0°; 6.12 are 701.3°. They lie unevenly."""
    plain, made = of(), SimpleNamespace(angle=np.array([-half - 1.0, 0.0, half - 1.0]))
    monkeypatch.setattr(makeable, "profile", lambda *_: made)
    monkeypatch.setattr(makeable, "unmakeable", lambda of, one: () if one is made else of.none)
    monkeypatch.setattr(makeable, "piston_gap", lambda *_: None)
    assert len(makeable.faults(plain, "inlet")) == wrong


@pytest.mark.parametrize(
    ("gap", "says"),
    [(-1e-4, "meets the piston at top"), (0.5e-3, "clears the piston by 0.5 mm at top"),
     (1.01e-3, None)],
)  # fmt: skip
def test_a_valve_that_all_but_meets_the_piston_is_told(monkeypatch, gap, says):
    monkeypatch.setattr(makeable, "profile", lambda *_: SimpleNamespace(angle=np.zeros(2)))
    monkeypatch.setattr(makeable, "unmakeable", lambda *_: ())
    near = SimpleNamespace(gap=gap, where="at top")
    monkeypatch.setattr(makeable, "piston_gap", lambda *_: near)
    found = makeable.faults(of(), "inlet")
    assert len(found) == (says is not None)
    assert all(says in one for one in found)


def test_a_nose_may_be_as_round_as_a_printed_line_is_wide():
    told = [Number("nose_radius", "nose", r, "m", 0.4e-3, "at least") for r in (0.39e-3, 0.41e-3)]

    def shape(made, line):
        assert (made, line) == ("its profile", 0.4e-3)
        return told

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(makeable, "shape", shape)
        assert makeable.unmakeable(of(), "its profile") == (told[0],)


def test_under_a_flat_foot_the_first_base_circle_is_the_least_it_takes(monkeypatch, halved):
    """(20° + 180° + 40°)/4 are 60° of cam a flank, half of 4 mm the rise, 1.05 × 0.4 mm the nose.

    Then a tenth, a fifth, ... more than 10 mm.
    """
    given = []

    def least(law, rise, flank, nose):
        given.append((rise, flank, nose))
        return 17e-3 if law(0.5)[0] == pytest.approx(0.5) else 0.0

    monkeypatch.setattr(makeable.cam_curvature, "base_radius_for_flat_follower", least)
    found = list(makeable._bases(of(follower="flat"), asked()))
    assert given == [(pytest.approx(2e-3), pytest.approx(60 * DEG), pytest.approx(0.42e-3))]
    assert 1e3 * np.array(found) == pytest.approx([17, 11, 12, 13.5, 15, 17.5, 20, 25])
    assert len(list(makeable._bases(of(follower="flat", base_radius=18e-3), asked()))) == 7


@pytest.mark.parametrize(
    ("base", "lift", "last"),
    [(10e-3, 4e-3, 24.5e-3), (4e-3, 6e-3, 29.5e-3), (20e-3, 6e-3, 39.5e-3)],
)
def test_under_a_roller_base_circles_are_looked_through_by_half_a_millimetre(
    monkeypatch, halved, base, lift, last
):
    """Up to 2.5 times the file's or five times the lift, and 40 mm at most."""
    looked = []

    def roller(_law, rise, flank, radius, rides):
        assert (rise, flank, rides) == (lift / 2, pytest.approx(60 * DEG), 5e-3)
        looked.append(radius)
        return SimpleNamespace(smallest_cam_radius=0.39e-3, steepest=0.0)

    monkeypatch.setattr(makeable.cam_curvature, "roller_follower", roller)
    found = list(makeable._bases(of(base_radius=base), asked(lift=lift)))
    assert looked[:2] == pytest.approx([base + 0.5e-3, base + 1e-3])
    assert looked[-1] == pytest.approx(last)
    assert len(found) == 7


def test_under_a_roller_the_first_that_is_round_and_gentle_enough_is_taken(monkeypatch, halved):
    """From 11 mm its nose is 0.41 mm round; from 12 mm its push leans 29°."""

    def roller(_law, _rise, _flank, radius, _rides):
        return SimpleNamespace(
            smallest_cam_radius=0.41e-3 if radius > 10.9e-3 else 0.39e-3,
            steepest=(29.0 if radius > 11.9e-3 else 31.0) * DEG,
        )

    monkeypatch.setattr(makeable.cam_curvature, "roller_follower", roller)
    assert next(makeable._bases(of(), asked())) == pytest.approx(12e-3)


def tried(plain, wanted, begins):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(makeable, "_bases", lambda at, _: iter([12.34e-3] * (at is plain)))
        return [one for one in makeable._ways(plain, wanted) if one[0].startswith(begins)]


def test_rounder_and_smaller_riders_and_larger_base_circles_are_tried():
    plain, wanted = of(), asked()
    radii = [put["valves.inlet.follower_radius"] for _, _, put in tried(plain, wanted, "with ")[:5]]
    assert radii == ["4 mm", "3.2 mm", "2.5 mm", "2 mm", "1.5 mm"]
    ((_, same, put),) = tried(plain, wanted, "on a base")
    assert (same, put) == (wanted, {"valves.inlet.base_radius": "12.4 mm"})
    flat = tried(of(follower="flat"), wanted, "with ")
    assert not any("follower_radius" in str(put) for _, _, put in flat)


def test_an_inlet_opens_later_and_an_exhaust_closes_earlier_for_less_overlap():
    """By 5 to 50°: an inlet that opens at 20° opens at 15 to -30°; an exhaust as well closes."""
    by = [15, 10, 5, 0, -10, -20, -30]
    later = tried(of(), asked("inlet"), "opening")[:7]
    assert [one.opens / DEG for _, one, _ in later] == pytest.approx(by, abs=1e-9)
    assert {one.closes for _, one, _ in later} == {40 * DEG}
    assert later[0][0] == "opening 5° later"
    earlier = tried(of(), asked("exhaust", 40.0, 20.0), "closing")
    assert [one.closes / DEG for _, one, _ in earlier] == pytest.approx(by, abs=1e-9)
    assert {one.opens for _, one, _ in earlier} == {40 * DEG}


def test_less_lift_is_tried_in_tenths_of_a_millimetre():
    """Of 4 mm 95 % are 3.8, 85 % 3.4; 30 % are 1.2 mm. Of 4.05 mm 95 % are 3.84: 3.8 again."""
    found = [one.lift for _, one, _ in tried(of(follower="flat"), asked(lift=4.01e-3), "with ")
             if one.lift != 4.01e-3]  # fmt: skip
    assert 1e3 * np.array(found) == pytest.approx([3.8, 3.6, 3.4, 3.2, 2.8, 2.4, 2.0, 1.6, 1.2])
    high = asked(lift=4.01e-3, at_lift=2.5e-3)
    found = [one.lift for _, one, _ in tried(of(follower="flat"), high, "with ")
             if one.lift != 4.01e-3]  # fmt: skip
    assert 1e3 * np.array(found) == pytest.approx([3.8, 3.6, 3.4, 3.2, 2.8])


def test_a_longer_opening_is_as_much_longer_at_both_ends():
    """5 to 40° more than 20° and 40°."""
    found = tried(of(), asked(), "opening")[7:]
    more = np.array([5, 10, 15, 20, 30, 40])
    assert [one.opens / DEG for _, one, _ in found] == pytest.approx(20 + more)
    assert [one.closes / DEG for _, one, _ in found] == pytest.approx(40 + more)
    assert found[-1][0] == "opening 40° earlier and closing 40° later"


def test_milder_exhausts_go_towards_forty_five_and_ten_degrees():
    """From 65° and 50° with 6.0 mm towards 45°, 10° and a fifth of a throat of 20 mm, 4.0 mm.

    On 3 mm of base circle: half more is 4.5 mm, and three lifts, 16.5 to 12 mm, are more than
    2.5 times that, 7.5 mm; each is written to the next tenth. On 30 mm of it, 40 mm are the most.
    """
    wanted = asked("exhaust", 65.0, 50.0, 6.0e-3)
    steps = list(makeable._milder(of(base_radius=3e-3, throat_diameter=20e-3), wanted))
    mild = [one for _, one, _ in steps[::3]]
    assert [one.opens / DEG for one in mild] == pytest.approx([60, 55, 50, 45])
    assert [one.closes / DEG for one in mild] == pytest.approx([40, 30, 20, 10])
    assert [1e3 * one.lift for one in mild] == pytest.approx([5.5, 5.0, 4.5, 4.0])
    sizes = [put["valves.exhaust.base_radius"] for _, _, put in steps if put]
    assert sizes == [f"{size:g} mm" for size in (4.5, 16.5, 4.5, 15, 4.5, 13.5, 4.5, 12)]
    assert makeable._tenths(4.51e-3) == "4.6 mm"
    large = list(makeable._milder(of(base_radius=30e-3), wanted))
    assert {put["valves.exhaust.base_radius"] for _, _, put in large if put} == {"40 mm"}


def test_the_first_way_that_can_be_made_is_the_nearest(monkeypatch):
    """The first is no engine's, the second meets its piston, the third is taken."""
    engine, plain, wanted = SimpleNamespace(), of(), asked()
    steps = [("a", wanted, {"x": 1}), ("b", replace(wanted, opens=0.0), {"x": 2})]
    milder = [("c", replace(wanted, opens=0.1), {"x": 3}), ("d", wanted, {"x": 4})]

    def with_values(one, put):
        assert one is engine
        if put["x"] == 1:
            raise OutsideValidity("No.")
        return put

    def faults(one, which):
        assert which == "inlet"
        return ["meets"] if one == {"x": 2, "opens": 0.0} else []

    monkeypatch.setattr(makeable, "resolve", lambda one: plain if one is engine else one)
    monkeypatch.setattr(makeable, "_ways", lambda of, one: steps if of is plain else one.none)
    monkeypatch.setattr(makeable, "_milder", lambda of, one: milder if of is plain else one.none)
    monkeypatch.setattr(makeable, "values", lambda one: {"opens": one.opens})
    monkeypatch.setattr(makeable, "with_values", with_values)
    monkeypatch.setattr(makeable, "faults", faults)
    assert makeable.nearest(engine, wanted) == makeable.Nearest("c", {"x": 3, "opens": 0.1})
    del milder[:]
    assert makeable.nearest(engine, wanted) is None
