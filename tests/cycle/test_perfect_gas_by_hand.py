"""The tables of a perfect gas against what heats, gas constant and molar mass have to be."""

from __future__ import annotations

import pytest

from firstfire.cycle.mixture import TABLE_COLDEST, TABLE_STEP
from firstfire.cycle.perfect_gas import perfect_gas


def test_air_as_a_perfect_gas():
    """cp = 1.4/0.4 x 287 = 1004.5 J/(kg K), 28.97 g/mol; nothing is gained at the reference."""
    tables = perfect_gas(287.0, 1.4, 1.3, 300.0)
    assert tables.fuel_molar_mass == pytest.approx(28.97e-3, rel=1e-3)
    rises = tables.fresh[1:, 0] - tables.fresh[:-1, 0]
    assert rises == pytest.approx(1004.5 * TABLE_STEP)
    assert tables.fresh[0, 0] == pytest.approx(1004.5 * (TABLE_COLDEST - 300.0))
    assert tables.fresh[:, 4] == pytest.approx(tables.fresh[:, 0])
