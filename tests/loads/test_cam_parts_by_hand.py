"""What a cam asks of the crank, what it feels and how it is shaped, with a calculator."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.stand_ins import always, of

from firstfire.errors import OutsideValidity
from firstfire.formulas.cam_lobe import Motion
from firstfire.formulas.contact import Contact
from firstfire.loads import cam_drive, cam_forces, cam_profile
from firstfire.loads.cam_profile import Profile

PI, MM = math.pi, 1e-3
AREA_OF_ONE = 2.0 / math.sqrt(PI)
"""Diameter of a disc of one square metre, m."""


def row(*values: float) -> np.ndarray:
    return np.array(values)


# What the crank is asked for


def cam_valve(**values: object) -> SimpleNamespace:
    return SimpleNamespace(
        **{"worked": "cam", "cam_law": "harmonic", "lift": 4 * MM, "lift_table": None,
           "spring_preload": 10.0, "spring_rate": 1000.0, "mass": 2.0,
           "head_diameter": AREA_OF_ONE} | values
    )  # fmt: skip


def test_spring_mass_and_gas_of_both_valves_turn_back_the_crank(monkeypatch):
    """Lifted by 3 mm a spring presses with 10 + 3 N; 2 kg are thrown by 0.5 · 4² + 0.25 · 8 =
    10 m/s², and 7 Pa lie on a square metre: 40 N, times 0.25 m/rad, on two valves of three."""
    lift = cam_drive.Lift(row(3 * MM), row(0.25), row(0.5))
    valves = (cam_valve(), cam_valve(), cam_valve(worked="suction"))
    monkeypatch.setattr(cam_drive, "timed", always([(one, 1.0, 2.0) for one in valves]))
    monkeypatch.setattr(cam_drive, "_lift", always(lift))
    engine = SimpleNamespace(cylinders=[None], surroundings=SimpleNamespace(air_pressure=1e5))
    run = SimpleNamespace(angle=row(0.0), speed=row(4.0), gain=row(8.0), pressure=row(1e5 + 7.0))
    assert cam_drive.cam_drive_torque(engine, 0, run) == pytest.approx([20.0])


@pytest.mark.parametrize(
    ("into", "rise", "slope", "curvature"),
    [
        (PI / 6, 1.0, math.sqrt(12.0), 4.0),
        (PI / 4, 2.0, 4.0, 0.0),
        (3 * PI / 4, 2.0, -4.0, 0.0),
        (5 * PI / 6, 1.0, -math.sqrt(12.0), 4.0),
        (PI + 0.1, 0.0, 0.0, 0.0),
        (-0.1, 0.0, 0.0, 0.0),
    ],
)
def test_a_harmonic_lift_of_4_mm_over_half_a_turn(into, rise, slope, curvature):
    """2 (1 - cos 2φ) mm after φ: 1 mm at 30°, where its slope is 4 sin 60° and its bend 8 cos 60°;
    2 mm at 45°, 4 mm/rad steep. The same way down. Whatever whole cycles lie between."""
    opens = 1.5 * PI
    for angle in (opens + into, opens + into - 4 * PI):
        found = cam_drive.valve_lift(cam_valve(), row(angle), opens, opens + PI)
        wanted = [(rise * MM,), (slope * MM,), (curvature * MM,)]
        for one, other in zip(found, wanted, strict=True):
            assert one == pytest.approx(other, abs=1e-12)


def test_a_lift_over_the_shaft_s_own_cycle():
    """A cylinder that fires at 90° has its 210° at the shaft's 300°: 30° after 180°, so 1 mm and
    4 sin 60° mm/rad, 4 mm/rad²."""
    found = cam_drive._lift(cam_valve(), row(0.0), PI, 2 * PI, PI / 2)
    assert found.lift[600] == pytest.approx(1 * MM)
    assert found.slope[600] == pytest.approx(math.sqrt(12.0) * MM)
    assert found.curvature[600] == pytest.approx(4 * MM)
    assert found.lift[[530, 910]] == pytest.approx([0.0, 0.0])


@pytest.mark.parametrize("phase", [None, 0.3])
def test_a_lift_by_its_law_or_by_its_table(monkeypatch, phase):
    """A table is read wherever its rows are; a law over the shaft's own cycle is reckoned once."""
    tabled, lawful = cam_valve(cam_law="table", lift_table=((0.0, 0.0),)), cam_valve()
    monkeypatch.setattr(cam_drive, "_from_table", of(tabled, "by its table"))
    monkeypatch.setattr(cam_drive, "_by_law", of("harmonic", "by its law"))
    monkeypatch.setattr(cam_drive, "_lift_over_cycle", of("harmonic", "over the cycle"))
    assert cam_drive._lift(tabled, row(0.5), 0.0, 1.0, phase) == "by its table"
    wanted = "by its law" if phase is None else "over the cycle"
    assert cam_drive._lift(lawful, row(0.5), 0.0, 1.0, phase) == wanted


def test_each_valve_is_asked_for_its_own_lift(monkeypatch):
    """The inlet's 0.5 m/rad against 10 N and the exhaust's 0.25 m/rad: 7.5 N·m."""
    first, second = (cam_valve(mass=0.0, spring_rate=0.0, head_diameter=0.0) for _ in range(2))
    slopes = {id(first): 0.5, id(second): 0.25}

    def lift(valve, angle, opens, shuts, phase):
        assert (angle[0], opens, shuts, phase) == (0.1, 1.0, 2.0, 0.7)
        return cam_drive.Lift(row(0.0), row(slopes[id(valve)]), row(0.0))

    monkeypatch.setattr(cam_drive, "timed", always([(first, 1.0, 2.0), (second, 1.0, 2.0)]))
    monkeypatch.setattr(cam_drive, "_lift", lift)
    engine = SimpleNamespace(cylinders=[None], surroundings=SimpleNamespace(air_pressure=1e5))
    run = SimpleNamespace(angle=row(0.1), speed=row(0.0), gain=row(0.0), pressure=row(1e5))
    assert cam_drive.cam_drive_torque(engine, 0, run, 0.7) == pytest.approx([7.5])


def test_when_valves_open_and_shut(monkeypatch):
    """With the bottom 3 rad after the top: 0.3 before the next top to 0.5 after the bottom that
    follows; 0.7 before the bottom to 0.2 after the next top."""
    monkeypatch.setattr(cam_drive, "bottom_after_top", always(3.0))
    inlet = SimpleNamespace(opens_before_top=0.3, closes_after_bottom=0.5)
    exhaust = SimpleNamespace(opens_before_bottom=0.7, closes_after_top=0.2)
    parts = SimpleNamespace(valves=SimpleNamespace(inlet=inlet, exhaust=exhaust))
    (_, *first), (_, *second) = cam_drive.timed(parts)
    assert first == pytest.approx([2 * PI - 0.3, 2 * PI + 3.5])
    assert second == pytest.approx([2.3, 2 * PI + 0.2])


def test_a_table_by_the_cam_is_read_by_the_crank(monkeypatch):
    """From 0.1 to 0.5 rad of the cam: 0.2 to 1 of the crank; 8 mm/rad and 16 mm/rad² of the cam
    are 4 of the crank, both."""
    flanks = SimpleNamespace(begins=0.1, nose=0.3, ends=0.5)
    monkeypatch.setattr(cam_drive, "flanks", always(flanks))
    monkeypatch.setattr(cam_drive, "valve_motion", always(Motion(1 * MM, 8 * MM, 16 * MM, 0.0)))
    valve = object()
    place, *found = cam_drive._curve(valve)
    assert place[[0, -1]] == pytest.approx([0.2, 1.0])
    assert [one[7] for one in found] == pytest.approx([1 * MM, 4 * MM, 4 * MM])
    inside, beyond = cam_drive._from_table(valve, row(0.6)), cam_drive._from_table(valve, row(1.1))
    assert [one[0] for one in inside] == pytest.approx([1 * MM, 4 * MM, 4 * MM])
    assert [one[0] for one in beyond] == [0.0, 0.0, 0.0]


# What a cam feels


SPRUNG = SimpleNamespace(
    spring_preload=20.0, spring_rate=1000.0, mass=0.1, lash=0.2 * MM, lift=5 * MM,
    head_diameter=1e-2 * AREA_OF_ONE, follower="roller", follower_radius=15 * MM, cam_width=8 * MM,
    cam_material="cam", tappet_material="foot",
)  # fmt: skip


def made_up(**values: object) -> SimpleNamespace:
    """A cam with a rocker of 2: what rides on it, its valve's lift, and how it is thrown."""
    return SimpleNamespace(
        **{"which": "exhaust", "ratio": 2.0, "valve": SPRUNG,
           "angle": row(-0.6, -0.5, -0.4, 0.0, 0.5),
           "rise": row(0.09, 0.15, 0.4, 2.6, 0.15) * MM,
           "valve_lift": row(0.0, 0.1, 0.6, 5.0, 0.1) * MM,
           "second": np.full(5, 4 * MM)} | values
    )  # fmt: skip


def test_force_of_a_valve_over_its_lift():
    """At 100 rad/s of the crank 2 · 4 mm · 50² = 20 m/s² throw 0.1 kg with 2 N. 3 bar on a square
    centimetre are 30 N more while an exhaust valve opens its first tenth, 0.5 mm."""
    assert cam_forces.acceleration(made_up(), 100.0) == pytest.approx([0.0, 20.0, 20.0, 20.0, 20.0])
    with_gas = cam_forces.valve_force(made_up(), 100.0)
    assert with_gas == pytest.approx([0.0, 52.1, 22.6, 27.0, 22.1])
    without = cam_forces.valve_force(made_up(which="inlet"), 100.0)
    assert without == pytest.approx([0.0, 22.1, 22.6, 27.0, 22.1])


def test_a_rocker_of_one_and_a_half_pushed_at_60_degrees_triples_a_force(monkeypatch):
    """1.5 · 40 N/cos 60° = 120 N."""
    made = made_up(ratio=1.5)
    monkeypatch.setattr(cam_forces, "valve_force", of(made, row(40.0)))
    monkeypatch.setattr(cam_forces, "push_angles", of(made, row(PI / 3)))
    assert cam_forces.cam_force(made, 100.0) == pytest.approx([120.0])


def test_least_force_that_a_spring_has_left():
    """Thrown back by 2 · 8 mm · 50² = 40 m/s² and by 10: 20 + 5 - 4 = 21 N at 5 mm, 20 + 4 - 1 = 23
    at 4 mm."""
    made = made_up(
        which="inlet", rise=row(2.6, 2.1, 0.6) * MM, valve_lift=row(5.0, 4.0, 1.0) * MM,
        second=row(-8.0, -2.0, 3.0) * MM, angle=row(0.0, 0.1, 0.2),
    )  # fmt: skip
    assert cam_forces.least_spare(made, 100.0) == pytest.approx((21.0, 5 * MM))
    rising = made_up(second=np.full(5, 1 * MM))
    assert cam_forces.least_spare(rising, 100.0) == (20.0, 0.0)


def test_speed_at_which_a_valve_first_leaves_its_cam():
    """At 1 rad/s of the crank 2 · 8 mm/4 = 4 mm/s²: √(25 N/(0.1 kg · 4 mm/s²)) = 250 rad/s; where
    it is thrown by a quarter of that it stays longer, and what speeds it up throws it nowhere."""
    made = made_up(
        rise=row(2.6, 2.1, 0.6) * MM, valve_lift=row(5.0, 4.0, 1.0) * MM,
        second=row(-8.0, -2.0, 30.0) * MM,
    )  # fmt: skip
    assert cam_forces.floats_at(made) == pytest.approx(250.0)


class Row(dict):
    """A catalog's row."""

    @property
    def properties(self) -> dict:
        return self


def test_the_worst_contact_is_of_crawling_or_of_speed(monkeypatch):
    """5, 0 and 2 N at a crawl, 1, -1 and 4 N at speed: 5, 0 and 4 N. With pressures of force times
    bend 5 · 1 and 4 · 3: the third is worst, 0.4 m half wide: sheared most 0.786 · 0.4 m down. The
    foot yields first, at 1.5 times 8 Pa."""
    forces = {0.0: row(5.0, 0.0, 2.0), 100.0: row(1.0, -1.0, 4.0)}
    monkeypatch.setattr(cam_forces, "cam_force", lambda _, speed: forces[speed])
    monkeypatch.setattr(cam_forces, "radii", always(row(1.0, 2.0, 3.0)))
    monkeypatch.setattr(
        cam_forces, "_patch", lambda _, force, bend, modulus: Contact(force / modulus, force * bend)
    )
    monkeypatch.setattr(cam_forces.contact, "contact_modulus", always(10.0))
    monkeypatch.setattr(cam_forces.contact, "line_yield_pressure", lambda strength: 1.5 * strength)
    monkeypatch.setattr(cam_forces.contact_shear, "line_shear", lambda depth: depth / 2)
    hard = Row(modulus_in_plane=1.0, poisson=0.3, yield_strength=9.0, strength_in_plane=1.0)
    soft = Row(modulus_in_plane=1.0, poisson=0.3, strength_in_plane=8.0)
    plain = SimpleNamespace(materials={"cam": hard, "foot": soft})
    made = made_up(valve_lift=row(1.0, 2.0, 3.0) * MM)
    found = cam_forces.worst_contact(plain, made, 100.0)
    assert (found.force, found.pressure, found.lift) == pytest.approx((4.0, 12.0, 3 * MM))
    assert (found.depth, found.shear) == pytest.approx((0.786 * 0.4, 0.393 * 12.0))
    assert (found.capacity, found.softer) == (pytest.approx(12.0), "foot")


def test_a_roller_in_a_hollow_and_on_a_nose():
    """200 N on 8 mm of a nose of 10 mm under a roller of 15: R = 6 mm; b = √(4 · 200 · 6 mm/(π ·
    8 mm · 100 GPa)). A hollow of 16 mm takes it, with R = 240 mm; one of 14 does not."""
    made = made_up()
    patch = cam_forces._patch(made, 200.0, 10 * MM, 100e9)
    assert patch.half_width == pytest.approx(math.sqrt(4.8 / (PI * 8e8)))
    assert patch.peak_pressure == pytest.approx(400.0 / (PI * 8 * MM * patch.half_width))
    hollow = cam_forces._patch(made, 200.0, -16 * MM, 100e9)
    assert hollow.half_width == pytest.approx(math.sqrt(4 * 200.0 * 0.24 / (PI * 8e8)))
    for bend in (-14 * MM, 0.0):
        with pytest.raises(OutsideValidity):
            cam_forces._patch(made, 200.0, bend, 100e9)


# How a cam is shaped


def profile_of(valve: SimpleNamespace, **values: object) -> Profile:
    return Profile(
        **{"which": "inlet", "valve": valve, "opens": 5.0, "shuts": 8.0, "before": 0.7,
           "after": 0.8, "angle": row(-0.5, 0.0, 0.5), "rise": row(1.0, 4.0, 0.1) * MM,
           "slope": row(3.0, 0.0, -3.0) * MM, "second": row(2.0, -6.0, 2.0) * MM,
           "third": row(0.0, 0.0, 0.0)} | values
    )  # fmt: skip


def follower(kind: str, rocker: str = "none") -> SimpleNamespace:
    return SimpleNamespace(
        follower=kind, rocker=rocker, rocker_ratio=1.5, rocker_arm=20 * MM, base_radius=10 * MM,
        follower_radius=5 * MM, lash=0.3 * MM, cam_ramp=0.4,
    )  # fmt: skip


def test_a_rocker_lifts_its_valve_by_more_than_its_cam_less_the_lash():
    """1.5 · 1 - 0.3 = 1.2 mm, 1.5 · 4 - 0.3 = 5.7 mm; 0.15 mm lie within the lash. The nose is
    0.7 rad of the cam after the opening at 5 rad of the crank: 6.4."""
    made = profile_of(follower("flat", "rocker"))
    assert made.valve_lift == pytest.approx(row(1.2, 5.7, 0.0) * MM)
    assert made.centre == pytest.approx(6.4)
    assert profile_of(follower("flat")).valve_lift == pytest.approx(row(0.7, 3.7, 0.0) * MM)


def test_a_profile_reaches_from_one_ramp_s_foot_to_the_other_s(monkeypatch):
    """Flanks from 0.1 over the nose at 0.5 to 1.1 rad, and half of a ramp of 0.4 at each end: -0.6
    to 0.8 about the nose, in eight places 0.2 apart."""
    at = SimpleNamespace(begins=0.1, nose=0.5, ends=1.1)
    valve = follower("flat")

    def about_nose(asked, flanks, place):
        assert (asked, flanks) == (valve, at)
        return Motion(1.0, place, 2 * place, 3.0)

    monkeypatch.setattr(cam_profile.cam_lift, "flanks", of(valve, at))
    monkeypatch.setattr(cam_profile.cam_lift, "about_nose", about_nose)
    monkeypatch.setattr(cam_profile, "timed", of("parts", (("other", 1.0, 2.0), (valve, 5.0, 8.0))))
    found = cam_profile.profile("parts", "exhaust", 8)
    assert (found.which, found.valve) == ("exhaust", valve)
    places = row(-0.6, -0.4, -0.2, 0.0, 0.2, 0.4, 0.6, 0.8)
    assert found.angle == pytest.approx(places, abs=1e-12)
    assert found.slope == pytest.approx(places, abs=1e-12)
    assert found.second == pytest.approx(2 * places, abs=1e-12)
    assert (found.before, found.after) == pytest.approx((0.5, 0.6))
    assert (found.opens, found.shuts) == (5.0, 8.0)


def test_the_edge_under_a_flat_foot_bends_with_base_rise_and_second_slope():
    """10 + 1 + 2, 10 + 4 - 6 and 10 + 0.1 + 2 mm; it touches 3, 0 and -3 mm aside."""
    made = profile_of(follower("flat"))
    assert cam_profile.radii(made) == pytest.approx(row(13.0, 8.0, 12.1) * MM)
    assert cam_profile.sharpest(made) == pytest.approx(8 * MM)
    assert cam_profile.foot(made) == pytest.approx(row(3.0, 0.0, -3.0) * MM)


def test_a_flat_foot_on_a_rocker_is_touched_where_its_arc_says(monkeypatch):
    """7 mm of bend and 2 mm aside wherever it is asked."""
    made = profile_of(follower("flat", "rocker"))
    touch = SimpleNamespace(radius=7 * MM, aside=2 * MM)
    monkeypatch.setattr(cam_profile.cam_lift, "flat_touch", of(made.valve, touch))
    assert cam_profile.radii(made) == pytest.approx(row(7.0, 7.0, 7.0) * MM)
    assert cam_profile.foot(made) == pytest.approx(row(2.0, 2.0, 2.0) * MM)


def test_the_edge_under_a_roller_lies_its_radius_within_the_centre_s_path():
    """At the nose the centre is 10 + 5 + 4 = 19 mm out, its path bent by 19²/(19 + 6) = 14.44 mm:
    the edge by 9.44 mm. On the base circle the centre goes round at 15 mm, the edge at 10. A dent
    of 30 mm/rad² at 15 mm bends the path hollow, by 15²/(15 - 30) = -15 mm: the edge by -20."""
    made = profile_of(
        follower("roller"), rise=row(0.0, 4.0, 0.0) * MM, slope=row(0.0, 0.0, 0.0),
        second=row(0.0, -6.0, 30.0) * MM,
    )  # fmt: skip
    assert cam_profile.radii(made) == pytest.approx(row(10.0, 9.44, -20.0) * MM)
    assert cam_profile.sharpest(made) == pytest.approx(9.44 * MM)


def test_an_outline_goes_over_the_nose_and_round_the_base_circle():
    """14 mm out at the nose. The rest lies on 10 mm, from the last flank's end, -0.5 and 0.5 rad
    left out, on the side of what comes later first."""
    made = profile_of(follower("flat"), rise=row(0.0, 4.0, 0.0) * MM, slope=row(0.0, 0.0, 0.0))
    edge = cam_profile.outline(made)
    assert edge[1] == pytest.approx([14 * MM, 0.0])
    base = edge[3:]
    assert len(base) == cam_profile._ROUND - 2
    assert np.hypot(*base.T) == pytest.approx(np.full(len(base), 10 * MM))
    step = (2 * PI - 1.0) / (cam_profile._ROUND - 1)
    turned = np.unwrap(np.arctan2(base[:, 1], base[:, 0])) % (2 * PI)
    assert turned[[0, -1]] == pytest.approx([0.5 + step, 2 * PI - 0.5 - step])
