"""Rules of thumb for layout, crank, case, flywheel and load, against a pencil."""

import math

import pytest
from tests.engine.by_hand import FIGURES, MM, value

PARALLEL, VEE, OPPOSED = ({"layout.kind": k} for k in ("parallel_twin", "v_twin", "opposed_twin"))
EVEN_VEE = {**VEE, "layout.v_angle": "60 deg", "layout.crank_offset": "60 deg"}
ROD_EYE = {"rod.big_end_width": "12 mm"}
PIN_AND_CHEEK = {"crank.crankpin_length": "13 mm", "crank.cheek_thickness": "10 mm"}
PROPELLER = {"load.kind": "propeller"}


def of_bore(mm):
    return {"cylinder.bore": f"{mm} mm", "cylinder.stroke": f"{0.9 * mm:g} mm"}


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        (VEE, "layout.v_angle", math.pi / 2),
        (OPPOSED, "layout.v_angle", 0.0),
        (OPPOSED, "layout.crank_offset", math.pi),
        (VEE, "layout.crank_offset", 0.0),
        # Big end and half a millimetre at each side; two on a common pin.
        (ROD_EYE, "crank.crankpin_length", 13 * MM),
        (VEE | ROD_EYE, "crank.crankpin_length", 26 * MM),
        (EVEN_VEE | ROD_EYE, "crank.crankpin_length", 13 * MM),
        (PARALLEL | ROD_EYE, "crank.crankpin_length", 13 * MM),
        # A rod's width beside it, a cheek between two pins, or both liners: 44 mm outside + 12.
        ({}, "layout.cylinder_spacing", 0.0),
        (VEE | ROD_EYE, "layout.cylinder_spacing", 13 * MM),
        (EVEN_VEE | PIN_AND_CHEEK, "layout.cylinder_spacing", 23 * MM),
        (PARALLEL | PIN_AND_CHEEK, "layout.cylinder_spacing", 56 * MM),
        (PARALLEL | {"crank.crankpin_length": "50 mm", "crank.cheek_thickness": "14 mm"},
         "layout.cylinder_spacing", 64 * MM),
        # 13 + 2 × 10 + the 6202's 11 + 2; with 23 more between two pins.
        (PIN_AND_CHEEK, "crank.bearing_span", 46 * MM),
        (EVEN_VEE | PIN_AND_CHEEK, "crank.bearing_span", 69 * MM),
        (VEE, "crank.balance_factor", 1.0),
        (VEE | {"layout.v_angle": "91 deg"}, "crank.balance_factor", 1.0),
        (VEE | {"layout.v_angle": "89 deg"}, "crank.balance_factor", 1.0),
        (VEE | {"layout.v_angle": "92 deg"}, "crank.balance_factor", 0.6),
        (VEE | {"layout.v_angle": "60 deg"}, "crank.balance_factor", 0.6),
        (OPPOSED, "crank.balance_factor", 0.0),
        (OPPOSED | {"layout.crank_offset": "0 deg"}, "crank.balance_factor", 0.5),
        (PARALLEL, "crank.balance_factor", 0.5),
        # 0.28 × 40; built up no more than stroke - 15 - 3, and 0.2 × 40 at the least.
        ({}, "crank.crankpin_diameter", 11.2 * MM),
        ({"crank.built": "one_piece", "cylinder.stroke": "24 mm"},
         "crank.crankpin_diameter", 11.2 * MM),
        ({"cylinder.stroke": "28 mm"}, "crank.crankpin_diameter", 10 * MM),
        ({"cylinder.stroke": "24 mm", "crank.main_journal_diameter": "13 mm"},
         "crank.crankpin_diameter", 8 * MM),
        # A quarter of the bore, 8 mm at least.
        ({}, "crank.cheek_thickness", 10 * MM),
        (of_bore(28), "crank.cheek_thickness", 8 * MM),
        # 1.8 × 15 at the journal; 2.2 × 14 at the pin.
        ({}, "crank.cheek_width", 27 * MM),
        ({"crank.crankpin_diameter": "14 mm"}, "crank.cheek_width", 30.8 * MM),
        ({}, "crank.main_journal_diameter", 15 * MM),
        # π/4 × 4² × 3.6 = 45.239 cm³ swept, three times, for each cylinder.
        ({}, "case.volume", 135.717e-6),
        (VEE, "case.volume", 271.434e-6),
        ({}, "case.shaft_seals", 0),
        ({"case.lubrication": "splash"}, "case.shaft_seals", 2),
        ({}, "flywheel.diameter", 104 * MM),
        ({}, "flywheel.bore", 15 * MM),
        # π (55² - 7.5²) × 12 mm³ = 111 919 mm³ at 7850: 0.87857 kg × (55² + 7.5²)/2 mm².
        ({"flywheel.diameter": "110 mm", "flywheel.bore": "15 mm", "flywheel.thickness": "12 mm"},
         "flywheel.inertia", 1.35355e-3),
        # 30 g × 0.3² / 24, and 25 g × (4/3)³.
        (PROPELLER | {"load.mass": "30 g"}, "load.inertia", 1.125e-4),
        (PROPELLER | {"load.diameter": "400 mm"}, "load.mass", 0.0592593),
        ({"load.kind": "fan", "load.diameter": "150 mm"}, "load.mass", 3.125e-3),
        ({"load.kind": "brake", "load.mass": "30 g"}, "load.inertia", 0.0),
        ({"load.kind": "pump"}, "load.mass", 0.0),
    ],
)  # fmt: skip
def test_crank(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=FIGURES, abs=1e-12)


@pytest.mark.parametrize(
    ("bore", "bearing"),
    [(20, "608"), (28, "6000"), (33, "6001"), (40, "6202"), (44, "6202"), (45, "6203"),
     (55, "6204"), (70, "6205"), (90, "6205")],
)  # fmt: skip
def test_the_first_bearing_whose_bore_is_a_third_of_the_cylinders(bore, bearing):
    """Bores of 8, 10, 12, 15, 17, 20 and 25 mm against 0.34 × bore."""
    assert value(of_bore(bore), "crank.main_bearing") == bearing
