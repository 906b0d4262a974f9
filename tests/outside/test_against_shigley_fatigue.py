"""Fatigue lines and mean stress against Shigley's solved problems.

Sources: instructor's solutions to *Shigley's Mechanical Engineering Design*, 11th ed., problem
6-3, and 8th ed., problem 6-15 (1 % on cycles: the print rounds b); 9th ed., p. 309 (Gerber);
the rest evaluated from Eq. 6-45 to 6-48 and 6-57 apart from this code, 0.2 %.
"""

import pytest

from firstfire.formulas import fatigue, mean_stress

ROUNDED_EXPONENT = 1e-2
CLOSED_FORM = 2e-3


def test_problem_6_3_of_the_11th_edition() -> None:
    line = fatigue.steel_line(120e3, 60e3, 0.82)  # psi in, psi out
    assert line.coefficient == pytest.approx(161.4e3, rel=CLOSED_FORM)
    assert line.exponent == pytest.approx(-0.0716, rel=CLOSED_FORM)
    cycles = fatigue.cycles_to_failure(line, 70e3)
    assert cycles == pytest.approx(1.17e5, rel=ROUNDED_EXPONENT)
    assert cycles == pytest.approx(116_200, rel=1e-3)


def test_problem_6_15_of_the_8th_edition() -> None:
    line = fatigue.steel_line(551e6, 276e6, 0.9)
    assert line.coefficient == pytest.approx(891.0e6, rel=CLOSED_FORM)
    assert line.exponent == pytest.approx(-0.084828, rel=1e-4)
    cycles = fatigue.cycles_to_failure(line, 358.5e6)
    assert cycles == pytest.approx(45_800, rel=ROUNDED_EXPONENT)
    assert cycles == pytest.approx(45_820, rel=1e-3)


def test_line_of_a_print() -> None:
    line = fatigue.line_through(1.0, 0.2)
    assert line.exponent == pytest.approx(-0.1165, rel=1e-3)
    assert fatigue.cycles_to_failure(line, 0.35) == pytest.approx(8199, rel=1e-3)
    lives = [fatigue.cycles_to_failure(line, stress) for stress in (0.35, 0.25)]
    assert fatigue.damage([1e4, 1e5], lives) == pytest.approx(1.899, rel=CLOSED_FORM)


def test_published_design_curve_of_printed_pla() -> None:
    # O. H. Ezeh, L. Susmel 2019, from memory: inverse slope 5.5, range 0.1 S_u at 2·10⁶.
    line = fatigue.line_of_slope(0.1, 2e6, 5.5)
    assert fatigue.stress_for_cycles(line, 2e6) == pytest.approx(0.1)
    assert fatigue.cycles_to_failure(line, 0.2) == pytest.approx(2e6 / 2**5.5)


def test_four_ways_to_count_a_mean_stress() -> None:
    case = (4.0, 12.0, 10.0)
    assert mean_stress.goodman_factor(*case, 50.0) == pytest.approx(1.5625, rel=CLOSED_FORM)
    assert mean_stress.gerber_factor(*case, 50.0) == pytest.approx(1.9516, rel=CLOSED_FORM)
    assert mean_stress.soderberg_factor(*case, 40.0) == pytest.approx(1.4286, rel=CLOSED_FORM)
    assert mean_stress.elliptic_factor(*case, 40.0) == pytest.approx(2.000, rel=CLOSED_FORM)
    reversed_stress = mean_stress.equivalent_reversed_stress(4.0, 12.0, 50.0)
    assert reversed_stress == pytest.approx(5.263, rel=CLOSED_FORM)


def test_gerber_of_page_309() -> None:
    case = (8.38, 8.38, 33.9, 100.0)  # kpsi
    assert mean_stress.gerber_factor(*case) == pytest.approx(3.66, rel=CLOSED_FORM)
    assert mean_stress.goodman_factor(*case) == pytest.approx(3.02, rel=CLOSED_FORM)
