"""Columns against Shigley, Example 4-17 (p. 187) and Eq. 4-43 to 4-50.

Source: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.
Tolerance 0.1 %: rounding of the printed figures.
"""

import pytest

from firstfire.formulas import column

ROUNDED = 1e-3


def test_printed_rods() -> None:
    # Eq. 4-43, 4-45, 4-46 evaluated apart from this code.
    area, inertia = 8e-3 * 14e-3, 14e-3 * 8e-3**3 / 12
    gyration = column.radius_of_gyration(inertia, area)
    assert gyration == pytest.approx(2.309e-3, rel=ROUNDED)
    assert 80e-3 / gyration == pytest.approx(34.64, rel=ROUNDED)
    assert column.transition_slenderness(2.0e9, 45e6) == pytest.approx(29.62, rel=ROUNDED)
    load = column.critical_load(80e-3, area, inertia, 2.0e9, 45e6)
    assert load == pytest.approx(1842, rel=ROUNDED)  # and not Johnson's 1593
    thin = column.critical_load(90e-3, 40e-6, 10e-3 * 4e-3**3 / 12, 2.0e9, 45e6)
    assert thin == pytest.approx(130, rel=2e-3)  # printed to three figures


def test_euler_and_johnson_meet_at_half_the_yield_load() -> None:
    area, inertia = 8e-3 * 14e-3, 14e-3 * 8e-3**3 / 12
    length = column.transition_slenderness(2.0e9, 45e6) * column.radius_of_gyration(inertia, area)
    for side in (1 - 1e-9, 1 + 1e-9):
        load = column.critical_load(length * side, area, inertia, 2.0e9, 45e6)
        assert load == pytest.approx(area * 45e6 / 2, rel=1e-6)
