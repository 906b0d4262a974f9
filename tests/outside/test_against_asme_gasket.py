"""Gasket loads against ASME BPVC VIII-1, Appendix 2, Table 2-5.1 and 2-5.

Factors read (reprints of the table; D. Moss, *Pressure Vessel Design Manual*, Table 2-3), loads
evaluated apart from this code. 0.2 %: the seating stresses were rounded to three figures in MPa.
"""

import pytest

from firstfire.formulas import gasket

ROUNDED = 2e-3
PSI = 6894.757
SEAL, PRESSURE = 48e-3, 3e6


@pytest.mark.parametrize(
    ("kind", "maintenance", "seating_psi"),
    [
        ("o-ring", 0, 0),
        ("soft rubber", 0.50, 0),
        ("hard rubber", 1.00, 200),
        ("rubber with cotton", 1.25, 400),
        ("vegetable fibre", 1.75, 1100),
        ("soft copper", 4.75, 13_000),
        ("soft iron", 5.50, 18_000),
    ],
)
def test_factors(kind: str, maintenance: float, seating_psi: float) -> None:
    found = gasket.factors(kind)
    assert found.maintenance == maintenance
    assert found.seating == pytest.approx(seating_psi * PSI)


def test_end_force() -> None:
    assert gasket.end_force(PRESSURE, SEAL) == pytest.approx(5429, rel=ROUNDED)


@pytest.mark.parametrize(
    ("kind", "width", "sealing", "seating"),
    [
        ("vegetable fibre", 2.0e-3, 8595, 2286),
        ("soft copper", 1.5e-3, 11_875, 20_267),
        ("soft rubber", 2.0e-3, 6333, 0),
    ],
)
def test_loads(kind: str, width: float, sealing: float, seating: float) -> None:
    m, y = gasket.factors(kind)
    assert gasket.sealing_load(PRESSURE, SEAL, width, m) == pytest.approx(sealing, rel=ROUNDED)
    assert gasket.seating_load(SEAL, width, y) == pytest.approx(seating, rel=ROUNDED)
