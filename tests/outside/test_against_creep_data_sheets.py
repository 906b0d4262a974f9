"""Creep and relaxation against published figures of moulded polycarbonate and PVC-U.

Sources: data sheet of a moulded PC: modulus 2400 MPa, ISO 899-1 creep modulus 2200 MPa at 1 h
and 1900 MPa at 1000 h; M. Yaeger 2017: PC held at 1.9 % strain carries 36 MPa at 1 h and 30 MPa
at 1000 h; PVC-U compound 12454: 7450 psi short-time, 4000 psi for 100 000 h (ASTM D2837).
"""

import pytest

from firstfire.formulas import creep

HOUR = 3600.0
PC = 1900 / 2400


def test_creep_modulus_of_polycarbonate() -> None:
    assert creep.stress_left(PC, 1000 * HOUR) == pytest.approx(PC)
    # 3 %: one straight line in logs through a curve; the law gives 0.898 at 1 h, the sheet 0.917.
    assert creep.stress_left(PC, HOUR) == pytest.approx(2200 / 2400, rel=0.03)


@pytest.mark.parametrize(("hours", "stress"), [(1, 36e6), (1000, 30e6)])
def test_relaxation_of_polycarbonate_at_1_9_per_cent(hours: float, stress: float) -> None:
    share = creep.stress_left_in_press_fit(PC, hours * HOUR)
    # 3 %, as above: the press-fit factors stand on the same line.
    assert share * 0.019 * 2400e6 == pytest.approx(stress, rel=0.03)


def test_pvc_pipe_after_eleven_years() -> None:
    psi = 6894.757
    left = creep.strength_under_lasting_load(7450 * psi, 0.077, 1e5 * HOUR)
    assert left == pytest.approx(4000 * psi, rel=5e-3)  # 0.077 is rounded to three figures
