"""What a reading at home leaves of a span, and materials as physics sees them, against a pencil."""

import pytest
from tests.engine.by_hand import FIGURES, MM, engine, plain, unknown

from firstfire.engine.readings import ends_left, reading_of, span_left

CLAMPED = {"crank.joint.kind": "clamped"}
LEAK = {"leak.ring": "0.3 mm^2"}
TWIN = {"layout.kind": "parallel_twin", "cylinders.2.cylinder.bore": "50 mm",
        "cylinders.2.leak.ring": "0.3 mm^2"}  # fmt: skip


def left(lines, path):
    described, one = engine(lines), unknown(lines)[path]
    return span_left(reading_of(described, path), one, described)


def ends(lines, path):
    described, one = engine(lines), unknown(lines)[path]
    return ends_left(reading_of(described, path), one, described)


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 0.06 mm of 0.08 from print to print; a drawn tube's 0.05 is told no better.
        ({"liner.kind": "bare_print"}, "cylinder.bore", 0.75),
        ({}, "cylinder.bore", 1.0),
        # 1 K of 8, 100 Pa of 2000, 0.02 of 0.15.
        ({}, "surroundings.air_temperature", 0.125),
        ({}, "surroundings.air_pressure", 0.05),
        ({}, "intake.equivalence_ratio", 0.133333),
        # 1 g and 0.3 % of 20 g, of 2 g; 0.5 N and 1 % of 40, of 6.
        ({"valves.inlet.mass": "20 g"}, "valves.inlet.mass", 0.500899),
        ({"valves.inlet.spring_preload": "40 N"}, "valves.inlet.spring_preload", 0.106719),
        # 4 % of 10.
        ({"valves.exhaust.spring_rate": "5 N/mm"}, "valves.exhaust.spring_rate", 0.4),
        # 5 % of 3 N m: ln(3.15/2.85)/ln(1.25²); 30 % of 2 kN, below no lower than now:
        # ln(2600/1481.5)/ln(1.35²).
        ({"head.fasteners.torque": "3 N*m"}, "head.fasteners.torque", 0.224258),
        (CLAMPED, "crank.joint.clamp_screw_force", 0.937121),
        # A factor of 1.12 either way: ln(1.2544)/ln(1.35/0.7); 1.2: ln(1.44)/ln(1.5/0.6).
        ({}, "doubt.nut_factor", 0.345104),
        ({}, "doubt.press_friction", 0.397956),
        # 0.6 mm² a litre of 45.2389 cm³ is 0.0271434 mm²: ln(0.32714/0.27286)/ln(100).
        (LEAK, "leak.ring", 0.0394018),
        ({}, "materials.petg.density", 0.5),
        ({"materials.petg.density": "1260 kg/m^3"}, "materials.petg.density", 1.0),
        ({}, "doubt.wall_heat", 1.0),
        ({"head.fasteners.kind": "screws"}, "doubt.nut_factor", 1.0),
    ],
)
def test_what_is_left(lines, path, hand):
    assert left(lines, path) == pytest.approx(hand, rel=FIGURES)


def test_the_ends_that_are_left():
    low, high = ends({"leak.ring": "0.3 mm^2"}, "leak.ring")
    assert (low, high) == pytest.approx((0.272857e-6, 0.327143e-6), rel=FIGURES)
    # A second cylinder of 50 mm sweeps 70.6858 cm³: 0.0424115 mm².
    low, high = ends(TWIN, "cylinders.2.leak.ring")
    assert (low, high) == pytest.approx((0.257589e-6, 0.342412e-6), rel=FIGURES)
    assert ends({}, "cylinder.bore") == pytest.approx((39.95 * MM, 40.05 * MM), rel=1e-9)
    assert ends({}, "doubt.nut_factor") == pytest.approx((1 / 1.12, 1.12), rel=1e-9)


@pytest.mark.parametrize(
    ("path", "words", "instrument"),
    [
        ("materials.petg.density", "density of PETG as it comes out", "kitchen_scale"),
        ("materials.steel_mild.density", "density of mild steel", "kitchen_scale"),
        ("materials.fkm.strength_in_plane", "strength of FKM", ""),
        ("cylinders.2.cylinder.bore", "bore of the cylinder", "caliper_inside"),
        ("crank.joint.interference", "how tight the crankpin sits in its cheeks", "caliper_inside"),
        ("flywheel.joint.interference", "how tight a wheel or journal sits", "caliper_inside"),
    ],
)
def test_which_reading_tells_it(path, words, instrument):
    found = reading_of(engine({}), path)
    assert (found.words, found.instrument) == (words, instrument)


def test_plastics_soften_sooner_or_later():
    """From 23 °C, 296.15 K: petg's 348.15 K is 52 above, its curve begins 15.6 above."""
    usual = plain({}).materials["petg"]
    later = plain({"doubt.softening": 1.1}).materials["petg"]
    assert usual["glass_transition"] == pytest.approx(348.15)
    assert later["glass_transition"] == pytest.approx(296.15 + 57.2)
    for name in ("strength", "modulus"):
        assert later.curve(name)[0].at == pytest.approx(296.15 + 17.16)
        assert later.curve(name)[0].value == usual.curve(name)[0].value
    assert later.curve("relaxation_low") == usual.curve("relaxation_low")


def test_ones_own_number_stands_before_the_catalogs():
    mine = plain({"materials.petg.density": "1300 kg/m^3"}).materials["petg"]
    assert (mine["density"], mine.yours) == (1300.0, True)
    assert not plain({}).materials["petg"].yours


def test_fibres_make_two_of_one_number():
    filled = plain({"rod.material": "pa12_cf"}).materials["pa12_cf"]
    assert filled.along_or_across("modulus_in_plane", across=False) == 4.5e9
    assert filled.along_or_across("expansion", across=True) == pytest.approx(130e-6)
    assert filled.along_or_across("expansion", across=False) == pytest.approx(35e-6)
    bare = plain({}).materials["petg"]
    assert bare.along_or_across("expansion", across=True) == bare["expansion"]
    assert plain({}).materials["steel_mild"].metal
    assert not bare.metal
