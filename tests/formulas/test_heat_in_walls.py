"""Heat in walls: limits, balances, and brute-force conduction on a fine grid."""

import pytest

from firstfire.formulas import (
    ambient_air,
)


def test_thin_air_is_more_viscous_by_its_inverse() -> None:
    high = ambient_air.dry_air(300.0, 80e3)
    low = ambient_air.dry_air(300.0)
    assert high.kinematic_viscosity * 80e3 == pytest.approx(low.kinematic_viscosity * 101_325)
    assert low.conductivity == pytest.approx(0.0263)
