"""Cams of engine files: forces, springs, gaps, wanted events and what is refused."""

import math
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

import firstfire as ff
from firstfire.drawing.templates.cam_outline import cam_shape
from firstfire.engine import cam_lift
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, OutsideValidity
from firstfire.loads import cam_drive, cam_forces, cam_profile
from firstfire.loads.cam_profile import profile
from firstfire.runs import valve_gaps
from firstfire.runs.tooth_off import tooth_gaps
from firstfire.setup.cams import choose as choosing
from firstfire.setup.cams import makeable
from firstfire.setup.cams.cam import cams
from firstfire.setup.cams.choose_words import opening_words
from firstfire.setup.cams.chosen import Breath
from firstfire.setup.cams.events import Wanted
from firstfire.setup.cams.numbers import numbers
from firstfire.setup.cams.spring import needed_line, winding
from firstfire.setup.cams.wanted import values
from firstfire.setup.timing.tooth import shifted

ENGINES = Path(__file__).resolve().parents[2] / "engines"
WREN = ff.read(ENGINES / "wren.toml")
HERE = "valves.inlet."
RPM = math.pi / 30
EVENTS = {HERE + "opens_before_top": "30 deg", HERE + "closes_after_bottom": "30 deg"}


def plain(**changed):
    return resolve(with_values(WREN, {k.replace("__", "."): v for k, v in changed.items()}))


def norton():
    """Norton's 3-4-5 rise of 5 mm in 60° of cam, 20 g, 20 N and 2.5 N/mm: 240° of crank."""
    return resolve(with_values(WREN, EVENTS | {
        HERE + "cam_law": "polynomial_345", HERE + "lift": "5 mm", HERE + "mass": "20 g",
        HERE + "spring_preload": "20 N", HERE + "spring_rate": "2.5 N/mm", HERE + "lash": "0 mm",
    }))  # fmt: skip


def test_float_and_spare_force_of_nortons_example():
    """3000 rpm: least margin 18.53 N; float at 4680 rpm; a = 5.7735 × 5 mm/(π/3)² × (50π)².

    R. L. Norton, Cam Design and Manufacturing Handbook, 2nd ed., force-closed followers.
    """
    made = profile(norton().cylinders[0], "inlet", 4001)
    speed = 3000 * RPM
    away = cam_forces.acceleration(made, speed)
    assert away.max() == pytest.approx(649.5, rel=1e-4)
    assert away.min() == pytest.approx(-649.5, rel=1e-4)
    spare, at = cam_forces.least_spare(made, speed)
    assert spare == pytest.approx(18.53, rel=1e-3)
    # 0.761 of the rise: 3-4-5 stands at 0.9192 of its lift there.
    assert at == pytest.approx(5e-3 * (10 * 0.761**3 - 15 * 0.761**4 + 6 * 0.761**5), rel=2e-3)
    assert cam_forces.floats_at(made) / RPM == pytest.approx(4680, rel=1e-3)
    # Looked at 1/1500 of the flank inside its end, where 60 (1 - 6 x (1 - x)) is 0.4 % less.
    jerk = np.abs(made.third[made.valve_lift > 0]).max() * (speed / 2) ** 3
    assert jerk == pytest.approx(60 * 5e-3 / (math.pi / 3) ** 3 * (50 * math.pi) ** 3, rel=5e-3)


def test_lift_of_a_profile_is_the_one_that_the_cycle_and_the_drive_take():
    for file in ("wren", "heron"):
        found = resolve(ff.read(ENGINES / f"{file}.toml"))
        for index, which in enumerate(("inlet", "exhaust")):
            made = profile(found.cylinders[0], which)
            valve, opens, shuts = cam_drive.timed(found.cylinders[0])[index]
            crank = np.linspace(0.0, 4 * math.pi, 500)
            want = cam_drive.valve_lift(valve, crank, opens, shuts).lift
            assert valve_gaps.lift_over(made, crank) == pytest.approx(want, abs=5e-6)


def test_contact_by_hand():
    """Steel on PA12-CF, at the nose, turned slowly: Shigley 9th ed., Eq. 3-73, 3-74."""
    found = norton()
    made = profile(found.cylinders[0], "inlet", 4001)
    worst = cam_forces.worst_contact(found, made, 0.0)
    valve, materials = made.valve, found.materials
    place = int(np.argmin(np.abs(made.valve_lift - worst.lift)))
    edge = 1 / (1 / cam_profile.radii(made)[place] + 1 / valve.follower_radius)
    cam, rider = materials[valve.cam_material], materials[valve.tappet_material]
    soft = (1 - cam["poisson"] ** 2) / cam["modulus_in_plane"]
    soft += (1 - rider["poisson"] ** 2) / rider["modulus_in_plane"]
    half = math.sqrt(4 * worst.force * edge * soft / (math.pi * valve.cam_width))
    assert worst.pressure == pytest.approx(2 * worst.force / (math.pi * half * valve.cam_width))
    spring = 20.0 + 2500.0 * worst.lift
    push = cam_forces.push_angles(made)[place]
    assert worst.force == pytest.approx(spring / math.cos(push), rel=1e-9)
    assert worst.shear == pytest.approx(0.300 * worst.pressure, rel=5e-3)
    assert worst.depth == pytest.approx(0.786 * half, rel=1e-9)
    # Yields where 0.300 of the peak is half its 65 MPa.
    assert worst.capacity == pytest.approx(65e6 / 2 / 0.3003, rel=1e-3)
    assert worst.softer == "pa12_cf"
    # At speed the nose is eased; what is turned slowly at first still counts.
    assert cam_forces.worst_contact(found, made, 4000 * RPM).pressure >= worst.pressure


def test_a_rocker_multiplies_force_and_divides_lift():
    straight, geared = norton(), None
    geared = resolve(with_values(WREN, EVENTS | {
        HERE + "cam_law": "polynomial_345", HERE + "lift": "5 mm", HERE + "mass": "20 g",
        HERE + "spring_preload": "20 N", HERE + "spring_rate": "2.5 N/mm", HERE + "lash": "0 mm",
        HERE + "rocker": "rocker", HERE + "rocker_ratio": 1.25, HERE + "rocker_arm": "30 mm",
    }))  # fmt: skip
    one, other = (profile(p.cylinders[0], "inlet") for p in (straight, geared))
    assert other.rise == pytest.approx(one.rise / 1.25, rel=1e-12)
    assert other.valve_lift == pytest.approx(one.valve_lift, rel=1e-12)
    force = cam_forces.cam_force(other, 3000 * RPM) * np.cos(cam_forces.push_angles(other))
    assert force == pytest.approx(1.25 * cam_forces.valve_force(one, 3000 * RPM), rel=1e-9)


def test_a_rocker_takes_up_lash_by_its_ratio():
    """2 mm/mm on the valve's side: half the lash at the cam, and the valve opens as written."""
    found = plain(valves__inlet__rocker="rocker", valves__inlet__rocker_ratio="2",
                  valves__inlet__lash="0.4 mm")  # fmt: skip
    made = profile(found.cylinders[0], "inlet")
    assert made.rise.max() == pytest.approx((4.5e-3 + 0.4e-3) / 2, rel=1e-9)
    valve, opens, shuts = cam_drive.timed(found.cylinders[0])[0]
    crank = np.linspace(0.0, 4 * math.pi, 500)
    want = cam_drive.valve_lift(valve, crank, opens, shuts).lift
    assert valve_gaps.lift_over(made, crank) == pytest.approx(want, abs=5e-6)


def test_a_finger_too_round_for_its_nose_undercuts():
    """Where its centre's path bends sharper than its own radius no edge is left to ride on."""
    found = plain(valves__inlet__follower_radius="40 mm")
    made = profile(found.cylinders[0], "inlet")
    path = [1 / one for one in map(bend_of, cam_profile.paths(made)) if one > 0]
    told = {n.id: n for n in numbers(found, made, 0.45e-3)}
    assert told["nose_radius"].value == pytest.approx(min(path) - 40e-3, rel=1e-6)
    assert told["nose_radius"].value < 0.0
    assert math.isnan(told["contact"].value)


def bend_of(path):
    """Curvature of the path of the centre, from its two derivatives on the turning cam."""
    first = path.slope + 1j * path.at
    second = path.second + 2j * path.slope - path.at
    return (first.real * second.imag - first.imag * second.real) / abs(first) ** 3


def test_springs_keep_what_they_promise():
    """Rate, stress, lengths and surge by Shigley 9th ed., Eq. 10-4, 10-7, 10-9, 10-25."""
    for file, which in (("wren", "inlet"), ("wren", "exhaust"), ("heron", "inlet")):
        found = resolve(ff.read(ENGINES / f"{file}.toml"))
        made = profile(found.cylinders[0], which)
        line = needed_line(made, 4000 * RPM)
        wound = winding(made, line, 4000 * RPM)
        d, mean, n = wound.wire, wound.mean, wound.active
        assert wound.rate == pytest.approx(d**4 * 81e9 / (8 * mean**3 * n), rel=1e-9)
        assert wound.rate == pytest.approx(line.rate, rel=1e-9)
        full = line.preload + line.rate * made.valve.lift
        c = mean / d
        wahl = (4 * c - 1) / (4 * c - 4) + 0.615 / c
        assert wound.stress == pytest.approx(wahl * 8 * full * mean / (math.pi * d**3), rel=1e-9)
        assert wound.stress <= 0.85 * 0.45 * 2211e6 / (1e3 * d) ** 0.145
        assert wound.solid == pytest.approx((n + 2) * d)
        assert wound.fitted - made.valve.lift >= wound.solid + 0.1 * made.valve.lift
        assert wound.free - wound.fitted == pytest.approx(line.preload / line.rate)
        mass = 7850 * math.pi**2 * d**2 * mean * n / 4
        assert wound.surge == pytest.approx(0.5 * math.sqrt(wound.rate / mass), rel=1e-9)
        assert wound.times == pytest.approx(wound.surge / (4000 / 120), rel=1e-9)
        # At 1.2 times the speed it just holds: the valve's own motion, lived on that spring.
        left = line.preload + line.rate * made.valve_lift
        left += made.valve.mass * cam_forces.acceleration(made, 1.2 * 4000 * RPM)
        assert left[made.valve_lift > 0].min() >= -1e-6


def test_a_spring_that_can_not_be_wound_is_refused():
    found = plain(valves__inlet__mass="400 g", valves__inlet__stem_diameter="8 mm")
    made = profile(found.cylinders[0], "inlet")
    with pytest.raises(OutsideValidity, match="No spring of music wire"):
        winding(made, needed_line(made, 900.0), 900.0)


def test_a_floating_valve_as_integrated():
    """Off its cam a valve is a mass on its spring; SciPy's integrator, from where it leaves."""
    found = norton()
    made = profile(found.cylinders[0], "inlet", 4001)
    speed = 1.3 * cam_forces.floats_at(made)
    angle = np.linspace(made.opens, made.opens + 2 * math.pi, 40001)
    thrown = valve_gaps.thrown_lift(made, angle, speed)
    held = valve_gaps.lift_over(made, angle)
    off = int(np.argmax(thrown > held + 1e-6))
    rate = np.gradient(thrown, angle)[off] * speed
    lived = solve_ivp(
        lambda _t, y: (y[1], -(20.0 + 2500.0 * y[0]) / 20e-3),
        (0.0, (angle[off + 4000] - angle[off]) / speed), (thrown[off], rate),
        t_eval=(angle[off : off + 4000 : 500] - angle[off]) / speed, rtol=1e-9, atol=1e-12,
    )  # fmt: skip
    assert thrown[off : off + 4000 : 500] == pytest.approx(lived.y[0], abs=1e-5)
    assert thrown.max() > held.max() + 5e-5
    slow = valve_gaps.thrown_lift(made, angle, 0.9 * cam_forces.floats_at(made))
    assert slow == pytest.approx(held, abs=2e-6)


def test_gap_to_the_piston_by_hand():
    """Height of a flat chamber, and the piston down: slider-crank written out here."""
    found = plain()
    parts = found.cylinders[0]
    stroke, rod = parts.cylinder.stroke, parts.rod.length
    for which, later in (("inlet", 0.0), ("inlet", 0.7), ("exhaust", -0.5)):
        made = profile(parts, which)
        crank = np.linspace(-math.pi / 2, 3.5 * math.pi, 40001)
        down = stroke / 2 * (1 - np.cos(crank)) + rod
        down -= np.sqrt(rod**2 - (stroke / 2 * np.sin(crank)) ** 2)
        valve, opens, shuts = cam_drive.timed(parts)[which == "exhaust"]
        lift = cam_drive.valve_lift(valve, crank - later, opens, shuts).lift
        high = stroke / (parts.cylinder.compression_ratio - 1) + down
        want = (high - lift)[lift > 1e-15].min()
        assert valve_gaps.piston_gap(found, 0, made, later).gap == pytest.approx(want, abs=5e-6)
    hung = valve_gaps.hung_gap(found, 0, profile(parts, "inlet"))
    assert hung.gap == pytest.approx(stroke / (parts.cylinder.compression_ratio - 1) - 4.5e-3)


def test_a_leaning_valve_hangs_lower_by_half_its_head():
    """20°: its lift counts by the cosine, and its lower edge hangs by half the head's sine."""
    found = plain(head__valve_axis_angle="20 deg")
    parts = found.cylinders[0]
    made = profile(parts, "inlet")
    high = parts.cylinder.stroke / (parts.cylinder.compression_ratio - 1)
    down = made.valve.lift * math.cos(math.radians(20))
    down += made.valve.head_diameter / 2 * math.sin(math.radians(20))
    assert valve_gaps.hung_gap(found, 0, made).gap == pytest.approx(high - down)


def test_lash_opens_room_and_none_closes_it():
    found = plain()
    made = profile(found.cylinders[0], "inlet")
    gaps = [valve_gaps.piston_gap(found, 0, made, 0.0, lash).gap for lash in (0.0, 1e-4, 3e-4)]
    assert gaps[0] < gaps[1] < gaps[2]
    assert gaps[1] - gaps[0] == pytest.approx(1e-4, rel=0.3)


def test_leaning_valves_near_each_other_as_they_open():
    """Both lean 20°: at full lift each inner edge is nearer the axis by lift × sin 20°."""
    changed = {"head__valve_axis_angle": "20 deg", "head__valve_bridge": "2 mm"}
    changed |= {"valves__inlet__opens_before_top": "60 deg",
                "valves__exhaust__closes_after_top": "60 deg",
                "valves__inlet__head_diameter": "14 mm", "valves__exhaust__head_diameter": "14 mm",
                "valves__inlet__throat_diameter": "12 mm",
                "valves__exhaust__throat_diameter": "12 mm"}  # fmt: skip
    found = plain(**changed)
    near = valve_gaps.between_gap(found, 0)
    inlet, exhaust = valve_gaps.worked(found.cylinders[0])
    both = [float(valve_gaps.lift_over(m, np.array([near.angle]))[0]) for m in (inlet, exhaust)]
    lean = math.radians(20)
    along = 2e-3 - sum(both) * math.sin(lean)
    apart = math.hypot(along, (both[0] - both[1]) * math.cos(lean))
    assert near.gap <= apart + 1e-9
    assert near.gap == pytest.approx(apart, rel=0.2)
    assert near.gap < 2e-3
    upright = valve_gaps.between_gap(plain(), 0)
    assert upright.gap == pytest.approx(plain().cylinders[0].head.valve_bridge, rel=1e-9)


def test_valves_that_reach_past_each_other_touch():
    changed = {"head__valve_axis_angle": "35 deg", "head__valve_bridge": "0.5 mm",
               "valves__inlet__opens_before_top": "80 deg",
               "valves__exhaust__closes_after_top": "80 deg"}  # fmt: skip
    assert valve_gaps.between_gap(plain(**changed), 0).gap < 0.0


def test_a_tooth_out_by_hand():
    """A tooth of 36 on the cam is 20° of crank: the same as events written 20° away."""
    gaps = tooth_gaps(plain())
    assert sorted(gaps) == [-2, -1, 0, 1, 2]
    late = plain(valves__inlet__opens_before_top="-10 deg",
                 valves__inlet__closes_after_bottom="60 deg",
                 valves__exhaust__opens_before_bottom="25 deg",
                 valves__exhaust__closes_after_top="30 deg")  # fmt: skip
    assert gaps[1].gap == pytest.approx(tooth_gaps(late)[0].gap, abs=2e-6)
    assert gaps[-1].gap == pytest.approx(tooth_gaps(late)[-2].gap, abs=2e-6)
    low = plain(cylinder__compression_ratio="15", valves__exhaust__lift="7 mm")
    touching = tooth_gaps(low)
    assert touching[2].gap < 0.0 < touching[0].gap
    assert tooth_gaps(plain(valves__placed="side")) == {}


@settings(max_examples=60)
@given(
    st.sampled_from(["inlet", "exhaust"]),
    st.sampled_from(["polynomial_345", "polynomial_4567", "cycloidal", "modified_sine"]),
    st.floats(-5, 35), st.floats(20, 45), st.sampled_from([0.0, 0.3e-3, 0.5e-3]),
    st.floats(4e-3, 6e-3), st.floats(-8, 8),
)  # fmt: skip
def test_a_wanted_cam_is_at_its_stated_lift_when_it_was_asked_to_be(
    which, law, opens, closes, at, lift, aside
):
    """Read back from the engine file as the cam drive takes it, tables too."""
    early, late = (opens, closes) if which == "inlet" else (closes, opens)
    middle = (180 + early + late) / 2 - (early if which == "inlet" else late) + aside
    asked = Wanted(which, math.radians(early), math.radians(late), at, lift, law,
                   math.radians(middle))  # fmt: skip
    put = values(asked)
    found = resolve(with_values(WREN, put)).cylinders[0]
    valve, first, last = cam_drive.timed(found)[which == "exhaust"]
    bottom, top = math.pi, 2 * math.pi
    opening = top - asked.opens if which == "inlet" else bottom - asked.opens
    closing = top + bottom + asked.closes if which == "inlet" else top + asked.closes
    nose = top + asked.centre if which == "inlet" else top - asked.centre
    crank = np.array([opening, closing, nose])
    told = cam_drive.valve_lift(valve, crank, first, last).lift
    # A table is straight between its rows: 5 µm; angles are written to 0.01°: 2 µm.
    assert told[:2] == pytest.approx([at, at], abs=2e-5)
    assert told[2] == pytest.approx(lift, abs=1e-5)


def test_events_that_can_not_be_met_are_refused_with_what_can():
    good = Wanted("inlet", 0.2, 0.7, 1e-3, 5e-3, "cycloidal")
    values(good)
    for changed, says in (
        ({"at_lift": 5e-3}, "never lifts higher than 5 mm"),
        ({"at_lift": -1e-4}, "0 mm, as it leaves its seat, or higher"),
        ({"lift": -3e-3}, "lift is -3 mm.*The nearest is 0.3 mm"),
        ({"lift": 30e-3}, "The nearest is 20 mm"),
        ({"opens": 8.7}, "opens is 498°.*The nearest is 120°"),
        ({"closes": -1.3}, "closes is -74°.*The nearest is -60°"),
        ({"centre": 0.1}, "Midway is 104°; the nearest is"),
        ({"closes": 1.6, "at_lift": 2e-3}, "off its seat until 207. past .* 120. is the most"),
    ):
        with pytest.raises(OutsideValidity, match=f"(?s){says}"):
            values(replace(good, **changed))


@pytest.mark.parametrize("which", ["inlet", "exhaust"])
@pytest.mark.parametrize("far", [0.1, 3.1])
def test_the_nearest_centre_is_one_and_a_degree_beyond_it_is_not(which, far):
    asked = Wanted(which, 0.2, 0.7, 0.0, 5e-3, "cycloidal", far)
    with pytest.raises(OutsideValidity) as refused:
        values(asked)
    near = int(re.search(r"the nearest is (\d+)°", str(refused.value))[1])
    values(replace(asked, centre=math.radians(near)))
    with pytest.raises(OutsideValidity):
        values(replace(asked, centre=math.radians(near + (1 if far > 1.0 else -1))))


def test_the_highest_lift_to_state_events_at_is_one_and_a_little_more_is_not():
    asked = Wanted("inlet", math.radians(8), math.radians(42), 4.5e-3, 5e-3, "polynomial_345")
    with pytest.raises(OutsideValidity, match="State them at") as refused:
        values(asked)
    most = float(re.search(r"State them at ([\d.]+) mm at most", str(refused.value))[1])
    values(replace(asked, at_lift=1e-3 * most))
    with pytest.raises(OutsideValidity):
        values(replace(asked, at_lift=1e-3 * (most + 0.02)))


@pytest.mark.parametrize(
    "asked",
    [Wanted("inlet", -0.87, -0.87, 0.0, 4.5e-3, "polynomial_345"),
     Wanted("inlet", -1.04, -1.04, 0.0, 19e-3, "polynomial_345"),
     Wanted("exhaust", -1.0, 1.9, 0.0, 10e-3, "polynomial_4567")],
)  # fmt: skip
def test_however_far_off_a_nearest_is_found(asked):
    low = with_values(WREN, {"cylinder.compression_ratio": 12})
    found = cams(with_values(low, values(asked)), wanted=asked)
    (cam,) = [one for one in found.cams if one.which == asked.which]
    assert cam.faults
    assert cam.nearest is not None
    better = resolve(with_values(low, cam.nearest.values))
    assert makeable.faults(better, asked.which) == []


@pytest.mark.parametrize(
    ("put", "says"),
    [({HERE + "follower": "roller", HERE + "follower_radius": "0 mm"},
      ["valves.inlet.follower_radius", "roller", "0.1 mm is the least"]),
     ({"cam_drive.centre_distance": "20 mm"}, ["cam_drive.centre_distance", "overlap", "30.8 mm"]),
     ({HERE + "lift_table": [["0 deg", "0 mm"], ["60 deg", "1 mm"], ["115 deg", "4 mm"],
                             ["190 deg", "1 mm"], ["230 deg", "0 mm"]], HERE + "lift": "6 mm"},
      ["valves.inlet.lift", "lift_table goes to 4 mm"])],
)  # fmt: skip
def test_what_a_file_can_not_have_is_told_by_its_place(put, says):
    with pytest.raises(EngineFileError) as refused:
        with_values(WREN, put)
    for word in says:
        assert word in str(refused.value)


def test_a_lift_table_says_how_high_it_lifts():
    table = [["0 deg", "0 mm"], ["60 deg", "1 mm"], ["115 deg", "4 mm"], ["190 deg", "1 mm"],
             ["230 deg", "0 mm"]]  # fmt: skip
    found = resolve(with_values(WREN, {HERE + "lift_table": table}))
    assert found.cylinders[0].valves.inlet.lift == pytest.approx(4e-3)


def test_side_valves_have_what_a_flat_roof_leaves_them():
    """45.24 cm³/4 over π/4 (40² + 1.4 (18² + 16²)) mm² is 5.98 mm; 1.48 mm over 4.5 mm of lift."""
    found = cams(with_values(WREN, {"valves.placed": "side", "cylinder.compression_ratio": 5,
                                    "head.valve_bridge": "3 mm"}), lash=0.3e-3)  # fmt: skip
    gaps = {case.id: case.gap.gap for case in found.gaps}
    plan = math.pi / 4 * (40**2 + 1.4 * (18**2 + 16**2))
    roof = math.pi / 4 * 40**2 * 36 / 4 / plan
    assert 1e3 * gaps["drawn_inlet"] == pytest.approx(roof - 4.5, abs=1e-3)
    assert gaps["lash_inlet"] == pytest.approx(gaps["drawn_inlet"] + 0.2e-3, abs=1e-6)
    assert gaps["floating_inlet"] < gaps["drawn_inlet"]
    assert gaps["drawn_between"] == pytest.approx(3e-3)
    assert not [one for one in gaps if one.startswith(("tooth", "hung"))]
    assert len(found.unjudged) == 1
    assert "bore's edge is not judged" in found.unjudged[0]
    tight = cams(with_values(WREN, {"valves.placed": "side", "cylinder.compression_ratio": 8}))
    assert tight.gaps == ()
    said = " ".join(tight.unjudged)
    assert "it has to be 5.5 mm" in said
    assert "head.valve_bridge" in said
    assert tight.cams[0].faults == ()


def test_when_the_exhaust_opens_is_chosen_by_the_work_of_a_cycle(monkeypatch):
    """A made-up engine whose work is most with the exhaust at 61°, and whose filling stays."""

    def made_up(plain, _speeds, _stop):
        opens = math.degrees(plain.cylinders[0].valves.exhaust.opens_before_bottom)
        return Breath(0.8, 5e5 * (1.0 - 1e-3 * (opens - 61.0) ** 2 / 4.0))

    monkeypatch.setattr(choosing, "breathing", made_up)
    found = choosing.choose(WREN, (4000 * RPM,))
    assert math.degrees(found.opening.before) == pytest.approx(45.0)
    assert math.degrees(found.opening.after) == pytest.approx(61.0)
    assert found.values["valves.exhaust.opens_before_bottom"] == "61.0 deg"
    words = opening_words(found.opening)
    assert "opens 61° before bottom, 16° earlier" in words
    assert "6.8 % more work" in words


def test_an_opening_that_costs_filling_is_left(monkeypatch):
    def made_up(plain, _speeds, _stop):
        opens = math.degrees(plain.cylinders[0].valves.exhaust.opens_before_bottom)
        return Breath(0.8 - 2e-3 * abs(opens - 45.0), 5e5 * (1.0 + 0.01 * (opens - 45.0)))

    monkeypatch.setattr(choosing, "breathing", made_up)
    found = choosing.choose(WREN, (4000 * RPM,))
    assert found.opening.after == found.opening.before
    assert found.values == {}
    assert "as in the file" in opening_words(found.opening)


UNDERCUT = {HERE + "follower": "flat", HERE + "cam_law": "polynomial_345"}
HITS = {"cylinder.compression_ratio": 15, HERE + "opens_before_top": "60 deg"}
STEEP = {HERE + "base_radius": "4 mm", HERE + "follower_radius": "2 mm"}


@pytest.mark.parametrize(
    ("changed", "says"),
    [(UNDERCUT, "undercuts itself"), (HITS, "The valve (meets|clears) the piston"),
     (STEEP, "Steepest push on what rides on it is")],
)  # fmt: skip
def test_what_can_not_be_made_is_refused_with_the_nearest_that_can(changed, says):
    found = cams(with_values(WREN, changed))
    cam = found.cams[0]
    assert any(__import__("re").search(says, fault) for fault in cam.faults)
    assert cam.nearest is not None
    better = resolve(with_values(with_values(WREN, changed), cam.nearest.values))
    assert makeable.faults(better, "inlet") == []


def test_a_hollow_too_tight_for_the_nozzle_and_the_roller():
    """A small roller on a steep flank hollows it; the hollow is told with what rides in it."""
    found = plain(valves__inlet__follower="roller", valves__inlet__follower_radius="3 mm",
                  valves__inlet__cam_law="polynomial_4567")  # fmt: skip
    told = {n.id: n for n in numbers(found, profile(found.cylinders[0], "inlet"), 0.45e-3)}
    assert told["hollow_radius"].limit == pytest.approx(3e-3)
    assert told["hollow_radius"].holds
    edge = cam_profile.outline(profile(found.cylinders[0], "inlet"))
    x, y = edge.T
    turn = (np.roll(x, -1) - x) * (np.roll(y, -2) - np.roll(y, -1))
    turn -= (np.roll(y, -1) - y) * (np.roll(x, -2) - np.roll(x, -1))
    assert (turn < -1e-12).any()  # somewhere it bends inwards
    flat = plain(valves__inlet__follower="roller", valves__inlet__follower_radius="0.2 mm",
                 valves__inlet__base_radius="3 mm")  # fmt: skip
    short = {n.id: n for n in numbers(flat, profile(flat.cylinders[0], "inlet"), 0.45e-3)}
    assert not short["pressure_angle"].holds


@pytest.mark.parametrize("follower", ["flat", "roller", "curved"])
def test_outline_reaches_base_and_lift(follower):
    found = plain(valves__inlet__follower=follower, valves__inlet__base_radius="25 mm")
    made = profile(found.cylinders[0], "inlet")
    far = np.hypot(*cam_profile.outline(made).T)
    lift = 4.5e-3 + 0.1e-3
    assert far.max() == pytest.approx(25e-3 + lift, abs=1e-5)
    assert far.min() == pytest.approx(25e-3, abs=1e-5)


def test_the_cycle_breathes_through_a_wanted_cam():
    asked = Wanted("inlet", math.radians(-20), math.radians(-20), 0.0, 2e-3, "polynomial_4567")
    poor = resolve(with_values(WREN, values(asked)))
    at = (4000 * RPM,)
    full = choosing.filling(resolve(WREN), at, lambda: False)
    assert choosing.filling(poor, at, lambda: False) < 0.9 * full


def test_a_search_finds_better_and_what_it_finds_can_be_made(monkeypatch):
    monkeypatch.setattr(choosing, "_MOST", 14)
    shares = []
    found = choosing.choose(WREN, (4000 * RPM,), on_progress=lambda _w, s: shares.append(s))
    assert found.finished
    assert found.after >= found.before
    assert shares == sorted(shares)
    assert 0 <= shares[0] <= shares[-1] <= 1
    chosen = cams(with_values(WREN, found.values)) if found.values else cams(WREN)
    for cam in chosen.cams:
        assert cam.faults == ()
        assert all(one.holds for one in cam.numbers), [n.id for n in cam.numbers if not n.holds]


def test_a_stopped_search_keeps_its_best(monkeypatch):
    asked = []

    def stop():
        return len(asked) > 3

    found = choosing.choose(
        WREN, (4000 * RPM,), stop=stop, on_progress=lambda _w, s: asked.append(s)
    )
    assert not found.finished
    assert found.tried + found.refused <= 5


def test_every_number_tells_why_and_from_where():
    for cam in cams(WREN).cams:
        assert len({n.id for n in cam.numbers}) == len(cam.numbers)
        for number in cam.numbers:
            assert number.why, number.id
            assert number.source, number.id
            assert (number.limit is None) == (number.side == "")


def test_what_timing_and_sheets_take_is_the_same_cam():
    """Without arrays, for a quick table, and as an outline to file to: one profile and one room."""
    found = plain(valves__inlet__lash="0.3 mm", valves__inlet__cam_ramp="60 deg")
    parts = found.cylinders[0]
    for which, span in cam_lift.spans(parts).items():
        made = profile(parts, which)
        valve = cam_lift.valve_of(parts, which)
        told = [
            cam_lift.cam_rise(valve, span, made.centre / 2 + float(angle)) for angle in made.angle
        ]
        assert made.rise == pytest.approx([one[0] for one in told], abs=1e-9)
        assert made.slope == pytest.approx([one[1] for one in told], abs=1e-7)
        shape = cam_shape(valve, span)
        far = 1e3 * np.hypot(*cam_profile.outline(made).T)
        assert (shape.base, shape.tip) == pytest.approx((far.min(), far.max()), abs=0.01)
        radius = cam_profile.radii(made)
        assert shape.least_radius == pytest.approx(1e3 * radius[radius > 0].min(), rel=1e-2)
    for teeth, gap in tooth_gaps(found).items():
        quick = shifted(found, 0, teeth)
        least = min(quick.inlet_room, quick.exhaust_room)
        assert gap.gap == pytest.approx(least, abs=2e-5)
