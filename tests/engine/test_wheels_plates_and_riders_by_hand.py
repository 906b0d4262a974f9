"""Cam wheels, riders, plates, lifts and coils that can't be, with the nearest that can, by hand."""

from __future__ import annotations

import math

import pytest

from firstfire.engine.impossible import joint, spark, valves

MM, DEG = 1e-3, math.pi / 180


class Asked(dict):
    """What a check may ask, of these values only; all of them said."""

    def number(self, path):
        return self[path]

    def said(self, path):
        return path in self


def wheels(apart, kind="belt"):
    """18 and 36 teeth of 3 mm: 162 mm round both, 162/2π = 25.78 mm of both radii."""
    return Asked({
        "cam_drive.teeth_crank": 18, "cam_drive.teeth_cam": 36, "cam_drive.pitch": 3 * MM,
        "cam_drive.centre_distance": apart * MM, "cam_drive.kind": kind,
    })  # fmt: skip


def test_wheels_stand_clear_of_each_other():
    """5 mm more than 25.78 are 30.8."""
    ((path, fault, cure),) = valves._wheels(wheels(25.7))
    assert path == "cam_drive.centre_distance"
    assert fault == "is 25.7 mm: its wheels reach to 25.8 mm, and overlap"
    assert cure == "Make it 30.8 mm at least."
    assert not list(valves._wheels(wheels(25.9)))
    assert not list(valves._wheels(wheels(20.0, "gear")))


def riders(radius, follower="roller", worked="cam"):
    each = {"worked": worked, "follower": follower, "follower_radius": radius * MM,
            "base_radius": 10 * MM}  # fmt: skip
    return Asked({f"valves.{name}.{part}": value for name in ("inlet", "exhaust")
                  for part, value in each.items()})  # fmt: skip


def test_a_round_rider_has_a_radius():
    """A tenth of a millimetre at least; 0.8 of a base of 10 mm suits it."""
    inlet, exhaust = valves._riders(riders(0.09))
    assert inlet[0] == "valves.inlet.follower_radius"
    assert exhaust[0] == "valves.exhaust.follower_radius"
    assert inlet[1] == "is 0.09 mm: a roller follower needs one"
    assert inlet[2].startswith("8 mm suits this cam; 0.1 mm is the least.")
    assert not list(valves._riders(riders(0.11)))
    assert not list(valves._riders(riders(0.0, follower="flat")))
    assert not list(valves._riders(riders(0.0, worked="suction")))


def cams(before, after):
    events = {"inlet.opens_before_top": before, "inlet.closes_after_bottom": after,
              "exhaust.opens_before_bottom": 45.0, "exhaust.closes_after_top": 10.0}  # fmt: skip
    return Asked({
        **{f"valves.{name}": angle * DEG for name, angle in events.items()},
        **{f"valves.{name}.cam_law": "harmonic" for name in ("inlet", "exhaust")},
        "cam_drive.teeth_crank": 18, "cam_drive.teeth_cam": 36,
    })  # fmt: skip


def test_a_valve_is_open_for_sixty_degrees_at_least():
    """180 - 60 - 61 are 59; 180 - 60 - 59 are 61."""
    ((path, fault, _),) = valves._cam(cams(-60.0, -61.0))
    assert path == "valves.inlet.opens_before_top"
    assert fault == "leaves the inlet valve open for 59° only"
    assert not list(valves._cam(cams(-60.0, -59.0)))


@pytest.mark.parametrize(("lift", "refused"), [(4.0, False), (4.04, False), (3.94, True)])
def test_a_lift_is_that_of_its_table(lift, refused):
    """Within a twentieth of a millimetre of 4."""
    rows = ((0.0, 0.0), (1.0, 2 * MM), (2.0, 4 * MM), (3.0, 2 * MM), (4.0, 0.0))
    ask = Asked({"valves.inlet.lift_table": rows, "valves.exhaust.lift_table": None,
                 "valves.inlet.lift": lift * MM})  # fmt: skip
    found = list(valves._lift_tables(ask))
    assert bool(found) is refused
    if refused:
        assert found == [(
            "valves.inlet.lift", "is 3.94 mm, and its lift_table goes to 4 mm",
            "Write 4 mm, or leave it out.",
        )]  # fmt: skip


def test_a_plate_is_thinner_than_the_cheek_it_is_let_into():
    """Half of 12 mm is left at least: 6."""
    for plate, refused in ((12.0, True), (11.9, False)):
        ask = Asked({"crank.cheek_thickness": 12 * MM, "crank.joint.plate": "steel",
                     "crank.joint.plate_thickness": plate * MM, "crank.journal.joint.plate": None,
                     "crank.journal.joint.plate_thickness": 20 * MM})  # fmt: skip
        found = list(joint._plates(ask))
        assert bool(found) is refused
        if refused:
            assert found[0][1:] == (
                "is 12 mm: the plate is let into a cheek of 12 mm",
                "Leave at least half of the cheek: 6 mm or less.",
            )


def test_what_is_engaged_is_the_thinner_of_plate_and_joint():
    def engaged(plate, thickness):
        return joint._engaged(Asked({"it.plate": plate, "it.plate_thickness": thickness,
                                     "it.length": 8.0}), "it")  # fmt: skip

    assert (engaged("steel", 6.0), engaged("steel", 9.0), engaged(None, 6.0)) == (6.0, 8.0, 8.0)
    assert engaged("steel", 0.0) == 8.0


def test_the_roots_of_a_wheels_teeth():
    """10π teeth of 2 mm are 20 mm across, less a pitch."""
    assert joint.wheel_outside(10 * math.pi, 2.0) == pytest.approx(18.0)


def cheek(width, pin=10.0, journal=12.0, stroke=24.2, kind="pinned"):
    return Asked({
        "crank.crankpin_diameter": pin * MM, "crank.main_journal_diameter": journal * MM,
        "crank.cheek_width": width * MM, "crank.joint.kind": kind,
        "crank.journal.joint.kind": "pinned", "cylinder.stroke": stroke * MM,
    })  # fmt: skip


def test_a_cheek_has_a_wall_round_what_it_holds():
    """12 mm and a millimetre on both sides; 2.2 · 12 are 26.4."""
    found = list(joint._in_cheek(cheek(13.9, stroke=40.0)))
    assert found[0] == (
        "crank.cheek_width", "is 13.9 mm: no wall is left round 12 mm",
        "As much wall as the pin is thick, nearly: 26.4 mm.",
    )  # fmt: skip
    assert not list(joint._in_cheek(cheek(14.0, stroke=40.0)))


@pytest.mark.parametrize(("stroke", "refused"), [(23.9, True), (24.1, False)])
def test_holes_for_pin_and_journal_do_not_meet(stroke, refused):
    """11 mm of both radii and a wall of 1 in half of a stroke of 24; a solid crank has no holes."""
    assert bool(list(joint._in_cheek(cheek(30.0, stroke=stroke)))) is refused
    assert not list(joint._in_cheek(cheek(30.0, stroke=stroke, kind="solid")))


def coil(millijoules, volts=12.0):
    """10 of 12 V on 3 + 2 ohm are 2 A; ½ · 5 mH · 2² are 10 mJ."""
    return Asked({
        "spark.coil_energy": millijoules * 1e-3, "spark.coil.resistance": 3.0,
        "spark.coil.inductance": 5e-3, "spark.coil.voltage": volts, "spark.coil.driver_drop": 2.0,
        "spark.coil.resistor": 2.0,
    })  # fmt: skip


@pytest.mark.parametrize(
    ("millijoules", "refused"), [(12.1, True), (11.9, False), (8.1, False), (7.9, True)]
)
def test_a_coils_energy_is_what_it_holds_within_a_fifth(millijoules, refused):
    found = list(spark._energy(coil(millijoules)))
    assert bool(found) is refused
    if refused:
        assert found[0][1] == "isn't what the coil holds: its inductance at 2 A has 10 mJ"
    assert not list(spark._energy(coil(millijoules, volts=2.0)))


@pytest.mark.parametrize(
    ("rise", "refused"), [(0.39, True), (0.41, False), (7.9, False), (8.1, True)]
)
def test_a_lobe_opens_its_points_by_their_gap(rise, refused):
    """0.4 mm; of 8 mm of rise 0.95, 7.6, would be clearance. 0.15 more than the gap suit it."""
    found = list(spark._points(Asked({
        "spark.source": "points", "spark.points.gap": 0.4 * MM,
        "spark.points.lobe_rise": rise * MM,
    })))  # fmt: skip
    assert bool(found) is refused
    if refused:
        assert 'lobe_rise = "0.55 mm"' in found[0][2]


def test_a_driver_leaves_the_coil_something():
    for drop, refused in ((12.0, True), (11.9, False)):
        ask = Asked({"spark.coil.driver_drop": drop, "spark.coil.voltage": 12.0})
        assert bool(list(spark._charges(ask))) is refused


def test_two_rows_that_no_cam_can_join():
    """Nearer than 0.05°, or steeper than 2 mm a degree."""
    assert valves._leaps((0.0, 0.0), (0.04 * DEG, 0.0))
    assert not valves._leaps((0.0, 0.0), (0.06 * DEG, 0.0))
    assert valves._leaps((1.0, 3 * MM), (1.0 + 0.5 * DEG, 1.95 * MM))
    assert not valves._leaps((1.0, 3 * MM), (1.0 + 0.5 * DEG, 2.05 * MM))
    assert valves._FEWEST_ROWS == 5


@pytest.mark.parametrize(("journal", "refused"), [(12.31, True), (12.29, False), (11.69, True)])
def test_a_journal_fits_the_bearing_that_was_chosen(journal, refused):
    """Within 0.3 mm of 12, whichever is larger."""
    ask = Asked({"crank.main_bearing": "mine", "crank.main_bearing_bore": 12 * MM,
                 "crank.main_journal_diameter": journal * MM})  # fmt: skip
    assert bool(list(joint._in_bearing(ask))) is refused
    del ask["crank.main_bearing"]
    assert not list(joint._in_bearing(ask))
