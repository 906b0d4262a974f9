"""Peaks that lie on a plane over delay and duration: the strong and the rare one by hand.

One cycle in 20 lies 1.6449, one in 1000 3.0902 standard deviations out (tables of the normal law).
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import scatter
from firstfire.cycle.scatter import peaks_from

MEAN, ANGLE = 30e5, 0.2
BY_RADIAN, BY_LENGTH = 20e5, 25e5
"""Pa more for each radian earlier, and for a burn shorter by its whole length."""


def found(monkeypatch, limit: float = 1e9, slope: float = 1.0, development: float = 0.5):
    figures = SimpleNamespace(peak_pressure=MEAN, peak_angle=ANGLE)
    burn = SimpleNamespace(development=development)
    fired = SimpleNamespace(
        cycle=SimpleNamespace(cylinders=(figures, figures)), burns=(burn, None)
    )  # fmt: skip
    monkeypatch.setattr(scatter, "at_once", lambda *_: limit)

    def run(shifts):
        ahead, shorter = -shifts[0][0], 1 - shifts[0][1]
        return [MEAN + slope * (BY_RADIAN * ahead + BY_LENGTH * shorter), MEAN]

    return peaks_from(fired, (0.0, math.pi), "petrol", run)


def test_on_a_plane(monkeypatch) -> None:
    """Delay spreads by 0.12 of half a radian, 1.2 bar; the burn by 0.08, 2 bar: 2.332 together."""
    peaks, unburned = found(monkeypatch)
    spread = math.hypot(0.06 * BY_RADIAN, 0.08 * BY_LENGTH)
    assert spread == pytest.approx(2.3324e5, rel=1e-4)
    assert (peaks.mean, peaks.angle) == (MEAN, ANGLE)
    assert peaks.strong == pytest.approx(MEAN + 1.6449 * spread, rel=1e-5)
    assert peaks.rare == pytest.approx(MEAN + 3.0902 * spread, rel=1e-5)
    assert (unburned.mean, unburned.strong, unburned.rare) == (MEAN, MEAN, MEAN)


def test_a_later_burn_may_be_the_stronger(monkeypatch) -> None:
    peaks, _ = found(monkeypatch, slope=-1.0)
    assert peaks.strong == pytest.approx(MEAN + 1.6449 * 2.3324e5, rel=1e-5)


def test_no_peak_passes_the_bound(monkeypatch) -> None:
    peaks, _ = found(monkeypatch, limit=35e5)
    assert peaks.strong == pytest.approx(MEAN + 1.6449 * 2.3324e5, rel=1e-5)
    assert peaks.rare == 35e5


def test_the_bound_is_of_the_charge_pressed_to_top(monkeypatch) -> None:
    """Volume 32 to 1, so pressure by 32^1.32 and temperature by 32^0.32."""
    asked = []
    charge = SimpleNamespace(volume=32e-6, temperature=400.0, pressure=1e5)
    monkeypatch.setattr(scatter, "charge_at", lambda *_: charge)

    def burned(fuel, phi, temperature, pressure, water):
        asked.append((phi, temperature, pressure, water))
        return SimpleNamespace(pressure=34e5)

    monkeypatch.setattr(scatter, "burn_at_constant_volume", burned)
    fired = SimpleNamespace(
        cycle=SimpleNamespace(
            cylinders=[SimpleNamespace(peak_pressure=MEAN, peak_angle=ANGLE)],
            curves=SimpleNamespace(volume=np.array([[2e-6], [1e-6], [3e-6]])),
        ),
        burns=[SimpleNamespace(development=0.5, spec=SimpleNamespace(start=-0.4))],
        spec=SimpleNamespace(equivalence_ratio=1.1, water=0.01),
    )
    (peaks,) = peaks_from(fired, (0.0,), "petrol", lambda shifts: [MEAN - 1e7 * shifts[0][0]])
    assert peaks.rare == 34e5
    assert asked == [pytest.approx((1.1, 400 * 32**0.32, 1e5 * 32**1.32, 0.01))]
