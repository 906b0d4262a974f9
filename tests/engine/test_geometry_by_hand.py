"""Volumes, areas, gaps, masses, angles and speeds of an engine, against a pencil."""

import math
from types import SimpleNamespace

import pytest
from tests.engine.by_hand import FIGURES, MM, RPM, plain

from firstfire.engine import cam_lift
from firstfire.engine.geometry import firing_angles, geometry, mechanism
from firstfire.errors import OutsideValidity

ROD = {"rod.length": "65 mm"}
TURNED_OFF = {"cylinder.offset": "6 mm", **ROD}
VALVES = {
    "valves.inlet.head_diameter": "18 mm", "valves.exhaust.head_diameter": "16 mm",
    "valves.inlet.throat_diameter": "15.5 mm", "valves.exhaust.throat_diameter": "14 mm",
    "valves.inlet.stem_diameter": "4 mm", "valves.exhaust.stem_diameter": "3.5 mm",
    "valves.inlet.lift": "4.5 mm", "valves.exhaust.lift": "4 mm",
    "head.valve_bridge": "2 mm",
}  # fmt: skip
RING = {
    "rings.section": "2.62 mm", "rings.inside_diameter": "34.59 mm", "rings.groove_depth": "2.2 mm",
    "rings.groove_width": "3.668 mm", "piston.skirt_clearance": "0.24 mm",
}  # fmt: skip
MOVING = {
    "piston.mass": "30 g", "rod.mass": "20 g", "rod.reciprocating_fraction": 0.35,
    "pin.diameter": "10 mm", "pin.inside_diameter": "6 mm", "pin.length": "34 mm",
    "rings.section": "2.62 mm",
}  # fmt: skip


def cylinder(lines):
    return geometry(plain(lines)).cylinders[0]


def test_volumes():
    """π/4 × 4² × 3.6 = 45.2389 cm³ swept; a sixth of it left at 7 : 1."""
    lines = {"cylinder.compression_ratio": 7}
    size = cylinder(lines)
    assert size.displacement == pytest.approx(45.2389e-6, rel=FIGURES)
    assert size.clearance_volume == pytest.approx(7.53982e-6, rel=FIGURES)
    assert size.compression_ratio == 7
    twin = geometry(plain({"layout.kind": "parallel_twin"}))
    assert twin.displacement == pytest.approx(90.4779e-6, rel=FIGURES)


def test_valves():
    size = cylinder(VALVES)
    # π × 15.5 × 4.5 and π × 14 × 4; π/4 (15.5² - 4²) and π/4 (14² - 3.5²).
    assert size.inlet_curtain == pytest.approx(219.126e-6, rel=FIGURES)
    assert size.exhaust_curtain == pytest.approx(175.929e-6, rel=FIGURES)
    assert size.inlet_throat == pytest.approx(176.126e-6, rel=FIGURES)
    assert size.exhaust_throat == pytest.approx(144.317e-6, rel=FIGURES)


@pytest.mark.parametrize(
    ("lines", "bridge", "wall"),
    [
        # 40 - 18 - 16 = 6: two between and two at each side.
        ({}, 2 * MM, 2 * MM),
        ({"head.valve_bridge": "5 mm"}, 5 * MM, 0.5 * MM),
        ({"head.valve_bridge": "7 mm"}, 6 * MM, 0.0),
        # Leaning by 20° they are 34 × 0.93969 = 31.9495 wide.
        ({"head.valve_axis_angle": "20 deg"}, 2 * MM, 3.02525 * MM),
    ],
)
def test_what_is_left_beside_the_valves(lines, bridge, wall):
    size = cylinder(VALVES | lines)
    assert size.valve_to_valve == pytest.approx(bridge, rel=FIGURES)
    assert size.valve_to_wall == pytest.approx(wall, rel=FIGURES, abs=1e-12)


def test_oring_in_its_groove():
    """Groove 40 - 0.24 - 4.4 = 35.36, gland 2.32; 0.77 mm of stretch on 34.59; section
    2.62 √(37.21/37.98) = 2.59331; π/4 × 2.59331² in 2.32 × 3.668.
    """
    size = cylinder(RING)
    assert size.ring_stretch == pytest.approx(0.0222608, rel=FIGURES)
    assert size.ring_squeeze == pytest.approx(0.105389, rel=FIGURES)
    assert size.ring_fill == pytest.approx(0.620697, rel=FIGURES)
    none = cylinder({"rings.kind": "metal"})
    assert (none.ring_squeeze, none.ring_fill, none.ring_stretch) == (None, None, None)
    without = cylinder({"rings.count": 0})
    assert (without.ring_squeeze, without.ring_fill, without.ring_stretch) == (None, None, None)


@pytest.mark.parametrize(
    ("lines", "grams"),
    [
        # Pin π/4 (10² - 6²) × 34 mm³ of 7850: 13.4159 g. Rings π/4 × 2.62² × π × 37.38 mm³ of
        # FKM, 1850: 1.17126 g each. 0.35 of the rod: 7 g.
        ({"rings.count": 2}, 52.7584),
        ({"rings.count": 0}, 50.4159),
        # Iron 1.8 × 1.5 × π × 38.2 mm³ of 7200: 2.33297 g each.
        ({"rings.count": 2, "rings.kind": "metal", "rings.section": "1.8 mm",
          "rings.axial_height": "1.5 mm"}, 55.0818),
    ],
)  # fmt: skip
def test_what_goes_up_and_down(lines, grams):
    assert cylinder(MOVING | lines).reciprocating_mass == pytest.approx(grams * 1e-3, rel=FIGURES)


def test_a_bore_beside_the_crank():
    """Throw 18 √(1 - 36/(65² - 18²)) = 17.91675; asin(6/82.91675) and asin(6/47.08325)."""
    size = cylinder(TURNED_OFF)
    throw, rod, offset = mechanism(plain(TURNED_OFF).cylinders[0])
    assert (throw, rod, offset) == pytest.approx((17.91675 * MM, 65 * MM, 6 * MM), rel=1e-6)
    assert size.stroke == 36 * MM
    assert math.degrees(size.top_after_inline) == pytest.approx(4.14965, rel=FIGURES)
    assert math.degrees(size.bottom_after_inline) == pytest.approx(187.32133, rel=FIGURES)


@pytest.mark.parametrize(
    ("lines", "degrees"),
    [
        ({"layout.kind": "parallel_twin"}, 360),
        ({"layout.kind": "parallel_twin", "layout.crank_offset": "180 deg"}, 180),
        # The second pin is ahead by 270°: at top 90° later, and even fire is nearer at 450.
        ({"layout.kind": "parallel_twin", "layout.crank_offset": "270 deg"}, 450),
        ({"layout.kind": "v_twin"}, 450),
        ({"layout.kind": "v_twin", "layout.v_angle": "60 deg", "layout.crank_offset": "60 deg"},
         360),
        ({"layout.kind": "v_twin", "layout.v_angle": "60 deg"}, 420),
        ({"layout.kind": "v_twin", "layout.v_angle": "60 deg",
          "layout.second_fires_after": "60 deg"}, 60),
        ({"layout.kind": "v_twin", "layout.v_angle": "60 deg",
          "layout.second_fires_after": "60.8 deg"}, 60),
        ({"layout.kind": "v_twin", "layout.v_angle": "60 deg",
          "layout.second_fires_after": "419.2 deg"}, 420),
        ({"layout.kind": "opposed_twin"}, 360),
        ({"layout.kind": "opposed_twin", "layout.crank_offset": "0 deg"}, 180),
        # A second bore 6 mm aside is at top 4.15° later.
        ({"layout.kind": "parallel_twin", "cylinders.2.cylinder.offset": "6 mm", **ROD}, 364.14965),
        ({"layout.kind": "parallel_twin", "cylinders.1.cylinder.offset": "6 mm", **ROD}, 355.85035),
    ],
)  # fmt: skip
def test_when_the_second_cylinder_fires(lines, degrees):
    twin = geometry(plain(lines))
    first, second = twin.firing_angles
    assert first == 0.0
    assert math.degrees(second) == pytest.approx(degrees, abs=1e-3)
    apart = [math.degrees(one) for one in twin.firing_intervals]
    assert apart == pytest.approx([degrees, 720 - degrees], abs=1e-3)


def test_it_fires_at_its_top_centre_only():
    lines = {"layout.kind": "v_twin", "layout.v_angle": "60 deg"}
    with pytest.raises(OutsideValidity, match=r"62°.* 60 or 420°"):
        firing_angles(plain(lines | {"layout.second_fires_after": "61.6 deg"}))
    assert firing_angles(plain({"layout.second_fires_after": "61.6 deg"})) == (0.0,)


def test_speeds():
    """2 × 36 mm × 50 a second; by calculus 5.86877 m/s at its steepest and, at top centre,
    18 mm × 314.159² × (1 + 18/65) = 2268.49 m/s².
    """
    lines = ROD | {"use.full_throttle_speeds": ["3000 rpm"], "use.idle_speed": "1200 rpm"}
    cranking, idle, full = geometry(plain(lines)).speeds
    assert full.speed == pytest.approx(3000 * RPM)
    assert full.mean_piston_speed == pytest.approx(3.6)
    assert full.largest_piston_speed == pytest.approx(5.86877, rel=FIGURES)
    assert full.largest_piston_acceleration == pytest.approx(2268.49, rel=FIGURES)
    assert idle.mean_piston_speed == pytest.approx(1.44)
    assert idle.largest_piston_acceleration == pytest.approx(2268.49 * 0.16, rel=FIGURES)
    assert cranking.speed == pytest.approx(360 * RPM)


@pytest.mark.parametrize("offset", ["6 mm", "-6 mm"])
def test_aside_the_steeper_stroke_counts(offset):
    """Steepest 71.2° before top or after, by differences of a drawn mechanism: 6.01334 m/s."""
    lines = ROD | {"cylinder.offset": offset, "use.full_throttle_speeds": ["3000 rpm"]}
    full = geometry(plain(lines)).speeds[-1]
    assert full.largest_piston_speed == pytest.approx(6.01334, rel=FIGURES)
    assert full.largest_piston_acceleration == pytest.approx(2264.22, rel=FIGURES)


def test_wheel_and_load_turn_together():
    lines = {"flywheel.inertia": "1.2e-3 kg*m^2", "load.inertia": "3e-4 kg*m^2"}
    assert geometry(plain(lines)).flywheel_inertia == pytest.approx(1.5e-3)


def drawn_gap(rod, throw, offset, edge, shank, bore):
    """Least gap in mm between bore and rod's flank at a height, drawn each second degree."""
    least = math.inf
    for angle in range(0, 360, 2):
        turned = math.radians(angle)
        low, aside = throw * math.cos(turned), throw * math.sin(turned) - offset
        high = low + math.sqrt(rod**2 - aside**2)
        if low < edge < high:
            share = (high - edge) / (high - low)
            least = min(least, bore / 2 - share * abs(aside) - shank / 2 * rod / (high - low))
    return least


@pytest.mark.parametrize(
    ("offset", "liner", "shank"), [(0, 68, 12), (0, 80, 12), (0, 100, 8), (6, 72, 12), (-4, 60, 14)]
)
def test_the_rod_clears_the_liners_lower_edge(offset, liner, shank):
    """The edge is the liner's length below the crown at top: 20 mm above the pin."""
    lines = ROD | {
        "cylinder.offset": f"{offset} mm", "liner.length": f"{liner} mm",
        "rod.shank_width": f"{shank} mm", "piston.compression_height": "20 mm",
    }  # fmt: skip
    throw = 18 * math.sqrt(1 - offset**2 / (65**2 - 18**2))
    edge = math.sqrt((65 + throw) ** 2 - offset**2) + 20 - liner
    hand = drawn_gap(65, throw, offset, edge, shank, 40)
    assert cylinder(lines).rod_to_skirt == pytest.approx(hand * MM, rel=1e-6)


def test_a_table_tells_where_its_cam_begins_is_highest_and_ends():
    """By the crank 10 to 230° after it opens, highest from 100 to 120: half of these by the cam."""
    deg = math.pi / 180
    rows = [(10 * deg, 0.0), (100 * deg, 4e-3), (110 * deg, 4e-3), (120 * deg, 4e-3),
            (230 * deg, 0.0)]  # fmt: skip
    valve = SimpleNamespace(cam_law="table", lift_table=rows)
    at = cam_lift.flanks(valve, SimpleNamespace(opens=0.0, duration=240 * deg))
    assert (at.begins, at.nose, at.ends) == pytest.approx((5 * deg, 55 * deg, 115 * deg))
    drawn = SimpleNamespace(cam_law="polynomial_345", lift_table=None)
    at = cam_lift.flanks(drawn, SimpleNamespace(opens=0.0, duration=240 * deg))
    assert (at.begins, at.nose, at.ends) == pytest.approx((0.0, 60 * deg, 120 * deg))
    highest = cam_lift.nose_at(valve, SimpleNamespace(opens=300 * deg, duration=240 * deg))
    assert highest == pytest.approx(410 * deg)


def test_a_throat_is_what_its_stem_leaves_of_it():
    """π/4 (15.5² - 4²) = 176.13 mm² and π/4 (14² - 3.5²) = 144.32 mm²."""
    size = cylinder(VALVES)
    assert size.inlet_throat == pytest.approx(176.13e-6, rel=1e-4)
    assert size.exhaust_throat == pytest.approx(144.32e-6, rel=1e-4)
