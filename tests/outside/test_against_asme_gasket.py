"""Gasket loads against ASME BPVC VIII-1, Appendix 2, Table 2-5.1 and 2-5.

Factors read (reprints of the table; D. Moss, *Pressure Vessel Design Manual*, Table 2-3), loads
evaluated apart from this code. 0.2 %: the seating stresses were rounded to three figures in MPa.
"""

import pytest

from firstfire.formulas import gasket

ROUNDED = 2e-3
SEAL, PRESSURE = 48e-3, 3e6


def test_end_force() -> None:
    assert gasket.end_force(PRESSURE, SEAL) == pytest.approx(5429, rel=ROUNDED)
