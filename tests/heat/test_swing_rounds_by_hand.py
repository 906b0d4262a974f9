"""How flux and surface of a wall come to agree, with four samples and a wall of half a kelvin."""

from __future__ import annotations

import numpy as np
import pytest

from firstfire.errors import FirstfireError
from firstfire.heat import swing

HALF = np.array([0.5 + 0j, 0.5 + 0j])
"""A wall whose surface follows each harmonic of its flux by half, and its mean by nothing."""


def test_under_a_steady_coefficient_flux_and_surface_agree_at_once(monkeypatch):
    """10 + 4 cos drives a film of 2: 1 + 2 · ½ divides what swings by 2. The second round finds it
    so; one round alone can not tell."""
    film, drive = np.full(4, 2.0), np.array([[14.0, 10.0, 6.0, 10.0]])
    monkeypatch.setattr(swing, "ROUNDS", 2)
    assert swing._consistent(film, drive, HALF)[0] == pytest.approx([12.0, 10.0, 8.0, 10.0])
    monkeypatch.setattr(swing, "ROUNDS", 1)
    with pytest.raises(FirstfireError):
        swing._consistent(film, drive, HALF)


def test_under_a_film_that_swings_they_agree_at_each_moment():
    """Flux of 12, 10, 8, 10 moves the surface by 1, 0, -1, 0: films of 1, 3, 1, 3 make it be driven
    by 12 + 1, 10, 8 - 1 and 10. Twice the drive is twice the flux. To 1e-7 of the largest."""
    film, drive = np.array([1.0, 3.0, 1.0, 3.0]), np.array([13.0, 10.0, 7.0, 10.0])
    found = swing._consistent(film, np.array([drive, 2 * drive]), HALF)
    wanted = np.array([12.0, 10.0, 8.0, 10.0])
    assert found[0] == pytest.approx(wanted, rel=1e-7)
    assert found[1] == pytest.approx(2 * wanted, rel=1e-7)
