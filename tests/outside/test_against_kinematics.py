"""Slider-crank, inertia and rod forces against exact kinematics.

Source: exact formula differentiated to 15 digits with mpmath, apart from this code; engine at
3000 rpm. J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, for
the forces. Tolerances: the printed digits.
"""

import math

import pytest

from firstfire.formulas import slider_crank as sc


def test_offset_3_mm() -> None:
    mechanism = (0.0225, 0.080, 0.003)
    assert 1e3 * sc.stroke(*mechanism) == pytest.approx(45.0344, rel=1e-5)
    top, bottom = sc.top_centre_angle(*mechanism), sc.bottom_centre_angle(*mechanism)
    assert math.degrees(top) == pytest.approx(1.6772, abs=6e-5)
    assert math.degrees(bottom) == pytest.approx(182.9907, abs=6e-5)
    assert math.degrees(bottom - top) == pytest.approx(181.3135, abs=1e-4)
