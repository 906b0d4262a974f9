"""Units against their definitions, by arithmetic that knows no Pint.

Inch, pound, pound-force: international yard and pound agreement of 1959 (exact). Standard gravity
and atmosphere: CGPM 1901, 1954 (exact). Fahrenheit: 9/5 and 32 (exact). Mechanical horsepower:
550 ft·lbf/s (exact).
"""

import math

import pytest

from firstfire.engine.quantity import read_quantity

INCH = 0.0254
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY


@pytest.mark.parametrize(
    ("written", "dimension", "si"),
    [
        ("1 in", "length", INCH),
        ("1 ft", "length", 12 * INCH),
        ("1 lb", "mass", POUND),
        ("1 oz", "mass", POUND / 16),
        ("1 lbf", "force", POUND_FORCE),
        ("1 lbf*in", "torque", POUND_FORCE * INCH),
        ("1 ft*lbf", "torque", 12 * INCH * POUND_FORCE),
        ("1 psi", "pressure", POUND_FORCE / INCH**2),
        ("1 atm", "pressure", 101325.0),
        ("1 bar", "pressure", 1e5),
        ("1 hp", "power", 550 * 12 * INCH * POUND_FORCE),
        ("1 in^3", "volume", INCH**3),
        ("1 in^2", "area", INCH**2),
        ("1 l", "volume", 1e-3),
        ("1 rpm", "speed", 2 * math.pi / 60),
        ("1 deg", "angle", math.pi / 180),
        ("32 degF", "temperature", 273.15),
        ("-40 degF", "temperature", 233.15),
        ("1 kgf", "force", GRAVITY),
        ("1 min", "time", 60.0),
    ],
)
def test_unit(written, dimension, si):
    # 1e-12: double rounding only.
    assert read_quantity(written, dimension) == pytest.approx(si, rel=1e-12)
