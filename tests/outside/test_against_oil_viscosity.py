"""Walther's law of oils (ASTM D341) against a worked example, published sheets, and its own chart.

Sources: a worked sheet of ASTM D341 read on the web (32 mm²/s at 40 °C, 5.4 at 100 °C: A 9.5259,
B 3.7449 with 0 °C at 273 K, 8.5 mm²/s at 80 °C); NumPy's straight line through the chart's points.
"""

import math

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas.oil_viscosity import walther


def test_a_worked_sheet():
    assert 1e6 * walther(32e-6, 5.4e-6, 353.15) == pytest.approx(8.5, abs=0.05)
    # By its own A and B, at another temperature: 10^10^(9.5259 - 3.7449 log 293) - 0.7.
    by_sheet = 10**10 ** (9.5259 - 3.7449 * math.log10(293.0)) - 0.7
    assert 1e6 * walther(32e-6, 5.4e-6, 293.15) == pytest.approx(by_sheet, rel=5e-3)


@pytest.mark.parametrize("celsius", [-30, -10, 0, 20, 60, 130])
def test_it_lies_on_the_charts_straight_line(celsius):
    warm, hot = 93e-6, 10.8e-6
    kelvin = np.log10([313.15, 373.15])
    double = np.log10(np.log10(np.array([93.0, 10.8]) + 0.7))
    line = np.polynomial.Polynomial.fit(kelvin, double, 1)
    found = walther(warm, hot, 273.15 + celsius)
    assert found == pytest.approx(
        1e-6 * (10**10 ** line(math.log10(273.15 + celsius)) - 0.7), rel=1e-6
    )


def test_it_goes_through_what_its_sheet_says():
    assert walther(100e-6, 11e-6, 313.15) == pytest.approx(100e-6)
    assert walther(100e-6, 11e-6, 373.15) == pytest.approx(11e-6)


def test_oils_thicken_in_the_cold_and_set():
    thick = [walther(100e-6, 11e-6, kelvin) for kelvin in (293.0, 273.0, 253.0, 233.0)]
    assert thick == sorted(thick)
    assert thick[-1] > 100 * thick[1]
    with pytest.raises(OutsideValidity, match="has set"):
        walther(500e-6, 20e-6, 210.0)


@pytest.mark.parametrize(
    "wrong", [(10e-6, 10e-6, 300.0), (10e-6, 1e-6, 300.0), (100e-6, 11e-6, 700.0)]
)
def test_what_is_no_oil_is_refused(wrong):
    with pytest.raises(OutsideValidity):
        walther(*wrong)
