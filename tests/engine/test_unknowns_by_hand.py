"""How far each uncertain input may be off, 5-95 %, by its catalog row or the rule it stands on."""

import math

import pytest
from tests.engine.by_hand import FIGURES, MM, engine, unknown, written

from firstfire.catalog import load
from firstfire.engine.layers import Entry, Layer
from firstfire.engine.read import understand
from firstfire.engine.unknowns import unknowns

TENTH_POWERS = math.sqrt(10)
BARE = {"liner.kind": "bare_print"}
BOUGHT_PISTON = {"piston.made": "bought", "piston.material": "aluminium"}
METAL_LINER = {"liner.kind": "metal", "liner.made": "bought"}


def ends(lines, path):
    found = unknown(lines)[path]
    return found.low, found.high


def either_way(centre, off):
    return centre - off, centre + off


@pytest.mark.parametrize(
    ("lines", "path", "hand", "beyond"),
    [
        ({}, "doubt.wall_heat", (0.5, 2.0), True),
        ({"doubt.wall_heat": 1.2}, "doubt.wall_heat", (0.6, 2.4), True),
        ({"cylinder.bore": "60 mm", "cylinder.stroke": "54 mm"},
         "doubt.wall_heat", (0.5, 2.0), False),
        # Cranked at 360 rpm, or at 2000.
        ({}, "doubt.burn_duration", (0.5, 2.0), True),
        ({"use.cranking_speed": "790 rpm"}, "doubt.burn_duration", (0.5, 2.0), True),
        ({"use.cranking_speed": "810 rpm"}, "doubt.burn_duration", (0.7, 1.4), False),
        # 2 × 36 mm × 400/60 is 0.48 m/s, × 430/60 0.516.
        ({"use.full_throttle_speeds": ["400 rpm"]}, "doubt.friction.ring", (0.5, 2.0), False),
        ({"use.full_throttle_speeds": ["430 rpm"]}, "doubt.friction.ring", (0.3, 3.0), True),
        ({"rings.kind": "ptfe"}, "doubt.friction.ring", (0.5, 2.0), False),
        ({}, "doubt.flow", (0.85, 1.12), False),
        ({}, "doubt.burn_phase", either_way(0.0, math.radians(5)), False),
        ({"doubt.burn_phase": "3 deg"}, "doubt.burn_phase",
         (math.radians(-2), math.radians(8)), False),
        ({}, "intake.equivalence_ratio", (0.95, 1.25), False),
        ({}, "surroundings.air_temperature", (285.15, 301.15), False),
        ({"surroundings.air_temperature": {"value": "20 °C", "with": "thermometer"}},
         "surroundings.air_temperature", (292.15, 294.15), False),
        ({}, "surroundings.air_pressure", (99300.0, 103300.0), False),
    ],
)  # fmt: skip
def test_laws_and_the_day(lines, path, hand, beyond):
    assert ends(lines, path) == pytest.approx(hand, rel=FIGURES)
    assert unknown(lines)[path].extrapolated is beyond


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 1.6449/1.96 = 0.839235 of the row's span in its logarithm: 45 × (32/45)^0.839235 and
        # 45 × (52/45)^0.839235 MPa.
        ({}, "materials.petg.strength_in_plane", (33.8028e6, 50.8053e6)),
        # 28 MPa, 14 to 42; 1270 kg/m³, 1230 to 1290.
        ({}, "materials.petg.strength_across", (15.6503e6, 39.3496e6)),
        ({}, "materials.petg.density", (1236.34, 1286.76)),
        # 250 MPa, 210 to 370.
        ({}, "materials.steel_mild.yield_strength", (215.970e6, 347.400e6)),
        # Your own 50 MPa, half as unsure: 50 × (32/45)^0.419617.
        ({"materials.petg.strength_in_plane": "50 MPa"},
         "materials.petg.strength_in_plane", (43.3352e6, 53.1273e6)),
        # Your own span as it was said.
        ({"materials.petg.strength_across": {"value": "21 MPa", "low": "19 MPa", "high": "23 MPa"}},
         "materials.petg.strength_across", (19e6, 23e6)),
        # What glues: 5 MPa, 1.5 to 10, on a print; 16, 8 to 28, on metal.
        ({"crank.joint.kind": "bonded", "crank.joint.bond": "epoxy"},
         "materials.epoxy.shear_strength_on_plastic", (1.82034e6, 8.94550e6)),
        ({"crank.joint.kind": "bonded", "crank.joint.bond": "epoxy", "crank.material": "aluminium"},
         "materials.epoxy.shear_strength", (8.94304e6, 25.5909e6)),
        # 900 s, 300 to 2400.
        ({"gasket.kind": "cured_sealant"},
         "materials.silicone_sealant.skin_time", (357.953, 2049.89)),
    ],
)  # fmt: skip
def test_materials(lines, path, hand):
    assert ends(lines, path) == pytest.approx(hand, rel=FIGURES)


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # A drawn tube, a print, or bored to IT7, 25 µm whole at 40 mm.
        ({}, "cylinder.bore", either_way(40 * MM, 0.05 * MM)),
        (BARE, "cylinder.bore", either_way(40 * MM, 0.08 * MM)),
        (METAL_LINER, "cylinder.bore", either_way(40 * MM, 12.5e-6)),
        # Of a bore of more than the table's 80 mm as of 80: 30 µm.
        (METAL_LINER | {"cylinder.bore": "90 mm", "cylinder.stroke": "81 mm"},
         "cylinder.bore", either_way(90 * MM, 15e-6)),
        ({"cylinder.bore": {"value": "40 mm", "with": "caliper_inside"}},
         "cylinder.bore", either_way(40 * MM, 0.06 * MM)),
        # From print to print 0.08; both to IT6, 16 µm: half of √2 × 16.
        ({}, "piston.skirt_clearance", (0.16 * MM, 0.32 * MM)),
        ({"piston.skirt_clearance": "0.05 mm"}, "piston.skirt_clearance", (0.0, 0.13 * MM)),
        (BOUGHT_PISTON | {"piston.skirt_clearance": "0.1 mm"},
         "piston.skirt_clearance", either_way(0.1 * MM, 11.3137e-6)),
        ({}, "rings.groove_depth", either_way(2.238 * MM, 0.08 * MM)),
        # IT9 of up to 3 mm: 25 µm.
        (BOUGHT_PISTON | {"rings.groove_depth": "2.2 mm"},
         "rings.groove_depth", either_way(2.2 * MM, 12.5e-6)),
        # 3.5 % of 2.62; a caliper's 0.03.
        ({}, "rings.section", either_way(2.62 * MM, 0.0917 * MM)),
        ({"rings.section": {"value": "2.6 mm", "with": "caliper"}},
         "rings.section", either_way(2.6 * MM, 0.03 * MM)),
        ({"valves.inlet.spring_rate": "5 N/mm"}, "valves.inlet.spring_rate", (4500.0, 5500.0)),
        ({"valves.inlet.spring_preload": "40 N"}, "valves.inlet.spring_preload", (34.0, 46.0)),
        ({"valves.exhaust.mass": "20 g"}, "valves.exhaust.mass", (18e-3, 22e-3)),
    ],
)  # fmt: skip
def test_sizes_and_springs(lines, path, hand):
    assert ends(lines, path) == pytest.approx(hand, rel=1e-6, abs=1e-12)


LEAK = {"leak.ring": "0.3 mm^2"}
AREA = 0.3e-6


@pytest.mark.parametrize(
    ("lines", "low", "high"),
    [
        ({}, 0.1, 10.0),
        ({"rings.kind": "metal"}, 0.3, 4.0),
        ({"rings.kind": "ptfe"}, 1 / TENTH_POWERS, TENTH_POWERS),
        ({"rings.kind": "none"}, 0.5, 2.0),
        ({"liner.bore_finish": "as_cut"}, 1 / TENTH_POWERS, TENTH_POWERS),
        ({"liner.bore_finish": "as_printed"}, 1 / TENTH_POWERS, TENTH_POWERS),
        ({"liner.bore_finish": "sanded"}, 0.1, 10.0),
    ],
)
def test_a_leak_nobody_measured(lines, low, high):
    found = unknown(LEAK | lines)["leak.ring"]
    assert found.distribution == "loguniform"
    assert (found.low, found.high) == pytest.approx((low * AREA, high * AREA), rel=1e-9)
    plug = unknown(lines)["leak.plug"]
    assert plug.low == pytest.approx(0.002e-6 / TENTH_POWERS)
    assert plug.high == pytest.approx(0.002e-6 * TENTH_POWERS)


@pytest.mark.parametrize(
    ("said", "shape", "low", "high"),
    [
        # Measured, nobody says how well: 30 %.
        ({"kind": "measured"}, "normal", 0.21, 0.39),
        # Down by 1.5 where up squared is 2.8: even in its logarithm.
        ({"low": "0.2 mm^2", "high": "0.5 mm^2"}, "lognormal", 0.2, 0.5),
        # Down by 3: as far down as up, and a twentieth of the centre at the least.
        ({"low": "0.1 mm^2", "high": "0.5 mm^2"}, "normal", 0.1, 0.5),
        ({"low": "0.05 mm^2", "high": "0.45 mm^2"}, "normal", 0.15, 0.45),
        ({"low": "0.05 mm^2", "high": "0.7 mm^2"}, "normal", 0.015, 0.7),
        ({"low": "0 mm^2", "high": "0.5 mm^2"}, "normal", 0.1, 0.5),
    ],
)
def test_a_leak_that_was_measured(said, shape, low, high):
    found = unknown({"leak.ring": {"value": "0.3 mm^2", **said}})["leak.ring"]
    assert found.distribution == shape
    assert (found.low, found.high) == pytest.approx((low * 1e-6, high * 1e-6), rel=1e-9)


def test_a_twin_has_each_cylinders_own():
    found = unknown({"layout.kind": "v_twin", "cylinders.2.leak.ring": "0.3 mm^2"})
    assert found["cylinders.2.leak.ring"].centre == pytest.approx(AREA)
    assert found["cylinders.1.leak.ring"].centre < 0.1 * AREA
    assert "leak.ring" not in found


def test_what_is_not_there_is_not_unsure():
    assert "rings.section" not in unknown({"rings.kind": "metal"})
    assert "rings.section" not in unknown({"rings.count": 0})
    assert "leak.plug" not in unknown({"leak.plug": "0 mm^2"})
    assert "valves.inlet.spring_preload" not in unknown({"valves.inlet.spring_preload": "0 N"})
    assert unknown({})["doubt.burn_duration"].origin == "defaults, default"
    assert unknown({"use.cranking_speed": "500 rpm"})["cylinder.bore"].origin == "file, given"


def test_a_bar_whose_row_gives_no_span_is_off_by_a_tenth(tmp_path):
    own = tmp_path / "catalog.toml"
    own.write_text(
        '[material.my_bar]\nlike = "steel_mild"\nname = "my bar"\n'
        'yield_strength = { value = 300, low = 300, high = 300, unit = "MPa", '
        'source = "the certificate that came with it", sure = "measured" }\n',
        encoding="utf-8",
    )
    mine = understand(written({"pin.material": "my bar"}), "pencil.toml", load([own]))
    bar = {one.path: one for one in unknowns(mine)}["materials.my_bar.yield_strength"]
    assert (bar.low, bar.high) == pytest.approx((300e6 / 1.1, 330e6), rel=1e-9)


def test_a_leak_is_no_less_than_a_twentieth_of_what_was_measured():
    """0.3 mm², 0.295 either way."""
    told = Entry("leak.ring", 0.3e-6, "0.3 mm^2", "learned", "measured", error=0.295e-6)
    known = engine({}).with_layer(Layer("learned", "a leak test", {"leak.ring": told}))
    ring = {one.path: one for one in unknowns(known)}["leak.ring"]
    assert (ring.low, ring.high) == pytest.approx((0.015e-6, 0.595e-6), rel=1e-9)
