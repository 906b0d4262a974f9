"""Toothed belts against geometry and a belt handbook.

Sources: ISO 5294/5296 pitches; Stock Drive Products handbook D265, p. T-15, Table 3 (allowable
tension a 25.4 mm width; read, columns inferred); teeth-in-mesh factors from memory (the same
handbook, ISO 5295). Geometry: 0.05 %, the rounding of the printed figures.
"""

import math

import pytest

from firstfire.formulas import belt

ROUNDED = 5e-4


@pytest.mark.parametrize(
    ("teeth", "pitch", "diameter"),
    [(20, 2e-3, 12.732e-3), (24, 3e-3, 22.918e-3), (12, 5.08e-3, 19.404e-3)],
)
def test_pitch_diameters(teeth: int, pitch: float, diameter: float) -> None:
    assert belt.pulley_pitch_diameter(teeth, pitch) == pytest.approx(diameter, rel=ROUNDED)


def test_two_to_one_cam_drive() -> None:
    small = belt.pulley_pitch_diameter(18, 3e-3)
    large = belt.pulley_pitch_diameter(36, 3e-3)
    length = belt.belt_length(small, large, 75e-3)
    wrap = belt.wrap_on_small(small, large, 75e-3)
    assert length == pytest.approx(231.99e-3, rel=ROUNDED)
    assert length / 3e-3 == pytest.approx(77.3, rel=ROUNDED)
    assert math.degrees(wrap) == pytest.approx(166.8, rel=ROUNDED)
    assert belt.teeth_in_mesh(18, wrap) == pytest.approx(8.34, rel=ROUNDED)


@pytest.mark.parametrize(
    ("teeth", "factor"), [(8.3, 1.0), (6.0, 1.0), (5.9, 0.8), (4, 0.6), (3, 0.4), (2, 0.2)]
)
def test_teeth_in_mesh_factors(teeth: float, factor: float) -> None:
    assert belt.mesh_factor(teeth) == pytest.approx(factor)
