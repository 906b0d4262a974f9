"""Burned gas as it is tabled and how its atoms divide, in numbers that can be added by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import equilibrium, mixture
from firstfire.cycle import equilibrium_balances as balances
from firstfire.cycle.species import AR, CO, CO2, H2, H2O, N2, NO, O2, OH, H, N, O

# The table


CELL = 5 * 29 + 2
"""The sixth of temperature, from 450 K on, and the third of pressure, from 4096 to 6144 Pa."""


def tables(temperature_cell=5, cell=CELL):
    """Cubics 1 + 8 t + 4 t² + 16 t³: 8 half way, with a slope of 24; ten times that of fuel.

    Of burned gas those for each power of pressure, 1, 2, 4 and 8 times; tenfold of its R.
    """
    cubic = np.array([1.0, 8.0, 4.0, 16.0])
    fresh, burned = np.zeros((68, 8)), np.zeros((68 * 29, 32))
    fresh[temperature_cell] = [*cubic, *(10.0 * cubic)]
    for power in range(4):
        burned[cell, power::8] = 2.0**power * cubic
        burned[cell, 4 + power :: 8] = 10.0 * 2.0**power * cubic
    return SimpleNamespace(fresh=fresh, burned=burned)


def test_a_cell_half_way_along_its_temperature():
    """1 + 4 + 1 + 2 = 8, and 8 + 4 + 12 = 24; 10, 20, 40 and 80 times."""
    found = mixture._along_temperature.py_func(tables().burned, CELL, 4, 0.5)
    assert found[:4] == pytest.approx((80.0, 160.0, 320.0, 640.0))
    assert found[4:] == pytest.approx((240.0, 480.0, 960.0, 1920.0))


def looked_up(monkeypatch, of, warm, pressure, *, burned=True):
    monkeypatch.setattr(mixture, "_along_temperature", ALONG)
    return mixture.species_state.py_func(of, warm, pressure, burned)


ALONG = mixture._along_temperature.py_func


def test_gas_in_the_middle_of_a_cell(monkeypatch):
    """475 K and 5120 Pa, cells of 50 K and 2048 Pa: slopes of 24/50.

    8 (1 + 2/2 + 4/4 + 8/8) = 32; by pressure 8 (2 + 4 + 6)/2048; by temperature 24 · 4/50.
    """
    found = looked_up(monkeypatch, tables(), 475.0, 5120.0)
    assert found[:4] == pytest.approx((8.0, 0.48, 80.0, 4.8))
    assert found[4:7] == pytest.approx((32.0, 1.92, 96.0 / 2048.0))
    assert found[7:] == pytest.approx((320.0, 19.2, 960.0 / 2048.0))
    bare = looked_up(monkeypatch, tables(), 475.0, 5120.0, burned=False)
    assert bare == pytest.approx((8.0, 0.48, 80.0, 4.8, *[0.0] * 6))


def test_gas_above_its_table(monkeypatch):
    """3700 K: 29 at the last end, and 100 K along its slope of 64/50; R stays.

    At 64 MPa, and 2 kPa, its pressure counts no more: at the ends 15 times, and once.
    """
    found = looked_up(monkeypatch, tables(67, 67 * 29 + 28), 3700.0, 6.4e7)
    assert found[:4] == pytest.approx((157.0, 1.28, 1570.0, 12.8))
    assert found[4:7] == pytest.approx((15 * 157.0, 15 * 1.28, 0.0))
    assert found[7:] == pytest.approx((15 * 290.0, 0.0, 0.0))
    found = looked_up(monkeypatch, tables(67, 67 * 29), 3700.0, 2e3)
    assert found[4:] == pytest.approx((157.0, 1.28, 0.0, 290.0, 0.0, 0.0))


def test_gas_below_its_table(monkeypatch):
    """150 K: 1 less 50 K of 8/50."""
    found = looked_up(monkeypatch, tables(0, 2), 150.0, 4096.0)
    assert found[:4] == pytest.approx((-7.0, 0.16, -70.0, 1.6))
    assert found[4:] == pytest.approx((-7.0, 0.16, 2.0 / 2048, 10.0, 0.0, 20.0 / 2048))


SPECIES = (10.0, 1000.0, 20.0, 2000.0, 30.0, 1500.0, 0.5, 400.0, 0.2, -1e-3)


def test_a_kilogram_mixed(monkeypatch):
    """6 : 1 : 3. 6 + 2 + 9; 600 + 200 + 450; 0.3 · 0.5; 180 + 10 + 120; 0.3 of 0.2 and -1e-3."""
    asked = []
    monkeypatch.setattr(mixture, "species_state", lambda *all_: asked.append(all_) or SPECIES)
    gas = SimpleNamespace(gas_constant_air=300.0, gas_constant_fuel=100.0)
    found = mixture.mixture_state.py_func(gas, 12.0, 2.0, 6.0, 900.0, 2e5)
    assert found == pytest.approx((17.0, 1250.0, 0.15, 310.0, 0.06, -3e-4))
    assert asked == [(gas, 900.0, 2e5, True)]


def test_a_ratio_of_heats():
    """1000/(1000 - 200)."""
    assert mixture.gamma_of.py_func(1000.0, 200.0) == pytest.approx(1.25)


@pytest.mark.parametrize("guess", [500.0, 900.0, 4000.0])
def test_a_temperature_is_found_from_an_enthalpy(monkeypatch, guess):
    """Of T²/2, 320 kJ/kg at 800 K. Newton's steps are quadratic: ten do."""
    asked = []

    def state(gas, air, fuel, burned, warm, pressure):
        assert (gas, air, fuel, burned, pressure) == ("gas", 1.0, 2.0, 3.0, 2e5)
        asked.append(warm)
        return warm * warm / 2, warm, 0, 0, 0, 0

    monkeypatch.setattr(mixture, "mixture_state", state)
    found = mixture.temperature_from_enthalpy.py_func("gas", 1.0, 2.0, 3.0, 320e3, 2e5, guess)
    assert found == pytest.approx(800.0, rel=1e-12)
    assert len(asked) <= 10


@pytest.mark.parametrize("guess", [500.0, 900.0, 2500.0])
def test_temperature_and_pressure_are_found_from_an_energy(monkeypatch, guess):
    """h = T² + 0.1 p and R = 100 + 0.1 T + 6e-4 p; 800 K at 2e5 Pa: 660 kJ/kg, R 300.

    R T = 240 kJ/kg, so energy 420, and 1.2 kg in V = 1.2 · 240e3/2e5. Newton's steps are
    quadratic: seven do.
    """
    asked = []

    def state(gas, air, fuel, burned, warm, pressure):
        assert (gas, air, fuel, burned) == ("gas", 0.5, 0.3, 0.4)
        asked.append(warm)
        constant = 100.0 + 0.1 * warm + 6e-4 * pressure
        return warm * warm + 0.1 * pressure, 2 * warm, 0.1, constant, 0.1, 6e-4

    monkeypatch.setattr(mixture, "mixture_state", state)
    found = mixture.temperature_from_energy.py_func(
        "gas", 0.5, 0.3, 0.4, 420e3, 1.2 * 240e3 / 2e5, guess
    )
    assert found == pytest.approx((800.0, 2e5), rel=1e-9)
    assert len(asked) <= 7


# How its atoms divide


def test_constants_of_seven_balances():
    """h - T s over R T: O2 2, H2 4 and N2 6, whose halves are 1, 2 and 3.

    CO + 1 - CO2 = 1.5; H2 + 1 - H2O = 4.7; 2 + 1 - OH; 2 - H; 3 + 1 - NO; 3 - N; 1 - O.
    """
    free = {O2: 2.0, H2: 4.0, N2: 6.0, CO: 1.0, CO2: 0.5, H2O: 0.3, OH: 0.2, H: 0.1, NO: 0.7,
            N: 0.9, O: 0.4, AR: 77.0}  # fmt: skip
    state = np.zeros((3, 12))
    for row, value in free.items():
        state[1, row], state[2, row] = value + 10.0 + row, 10.0 + row
    k = np.zeros(7)
    balances._constants.py_func(state, k)
    assert np.log(k) == pytest.approx([1.5, 4.7, 2.8, 1.9, 3.3, 2.1, 0.6])


K = np.array([2.0, 3.0, 2.0, 1.0, 2.0, 1.0, 0.4])
"""With q = 0.5 they give s = 0.4 and t = 1 where 1.6 and 4 bar of atoms stand for H and N."""

ROOT_OF_H, ROOT_OF_N = balances._root_of_hydrogen.py_func, balances._root_of_nitrogen.py_func


def test_hydrogen_and_nitrogen_divide():
    """2 (1 + 1.5) s² + (1 + 1) s = 1.6, root √(4 + 20 · 1.6); 2 t² + 2 t = 4, √(4 + 8 · 4)."""
    assert ROOT_OF_H(K, 0.5, 1.6) == pytest.approx((0.4, 6.0))
    assert ROOT_OF_N(K, 0.5, 4.0) == pytest.approx((1.0, 6.0))


def amounts(spare):
    """Carbon, hydrogen, spare oxygen, nitrogen, argon, of which a mole is 2 bar."""
    return np.array([0.7, 0.8, spare, 2.0, 0.3])


AT_Q, AT_K = math.log(0.5), math.log(2.0)


def balanced(monkeypatch, spare, log_q=AT_Q, log_kappa=AT_K):
    monkeypatch.setattr(balances, "_root_of_hydrogen", ROOT_OF_H)
    monkeypatch.setattr(balances, "_root_of_nitrogen", ROOT_OF_N)
    return BALANCES(K, amounts(spare), 3.325, log_q, log_kappa)


BALANCES = balances._balances.py_func


@pytest.mark.parametrize(
    ("spare", "oxygen"), [(0.25, math.log(1.9 / 1.56)), (-0.25, math.log(2.4 / 1.06))]
)
def test_two_balances(monkeypatch, spare, oxygen):
    """Free oxygen 2 · 0.25 + 0.4 · 0.5 + 2 · 0.5 + 2 · 0.4 · 0.5/2 = 1.9 bar; what lacks it
    1.4 · 0.5 + 0.4² + 0.4/2 = 1.06, and 0.5 of spare on either side.

    In all 0.25 + 0.2 + 2 · 1 + 0.4 (0.4 · 2.5 + 2) + 1 (1 + 1 + 1) = 6.65 bar, twice 3.325.
    """
    assert balanced(monkeypatch, spare)[:2] == pytest.approx((oxygen, math.log(2.0)))


@pytest.mark.parametrize("spare", [0.25, -0.25])
def test_how_two_balances_answer(monkeypatch, spare):
    """Each derivative against the difference of two values a hundred thousandth apart."""
    near = 1e-5
    _, _, oxygen_q, oxygen_k, excess_q, excess_k = balanced(monkeypatch, spare)
    more = balanced(monkeypatch, spare, log_q=AT_Q + near)
    less = balanced(monkeypatch, spare, log_q=AT_Q - near)
    apart = [(a - b) / (2 * near) for a, b in zip(more[:2], less[:2], strict=True)]
    assert (oxygen_q, excess_q) == pytest.approx(apart, rel=1e-8)
    more = balanced(monkeypatch, spare, log_kappa=AT_K + near)
    less = balanced(monkeypatch, spare, log_kappa=AT_K - near)
    apart = [(a - b) / (2 * near) for a, b in zip(more[:2], less[:2], strict=True)]
    assert (oxygen_k, excess_k) == pytest.approx(apart, rel=1e-8)


GUESS, SOLVED = balances._first_guess.py_func, balances._solve_balances.py_func


@pytest.mark.parametrize(
    ("spare", "pressure", "log_q"),
    [(1.0, 10.0, 0.0), (0.0, 9.0, math.log(0.5) / 3), (-0.5, 9.0, math.log(0.75))],
)
def test_where_the_search_begins(spare, pressure, log_q):
    """1 + 2/2 + 4/2 + 0.5 moles and half the spare oxygen: two bar each. 2 (1/4 + 1/4)/2 = 0.5 is
    freed; a mole spare is a bar, whose root is 1. Half a mole too little of 2: 3 to 1, over 4.
    """
    k = np.array([4.0, 4.0, 1.0, 1.0, 1.0, 1.0, 1.0])
    found = GUESS(k, np.array([1.0, 2.0, spare, 4.0, 0.5]), pressure)
    assert found == pytest.approx((log_q, math.log(2.0)))


def test_balances_are_solved(monkeypatch):
    """0.84 bar of spare oxygen make 1.06 to 1.9: then q is 0.5 and a mole 2 bar, at 6.65 bar.

    Newton's steps are quadratic: ten do.
    """
    monkeypatch.setattr(balances, "_root_of_hydrogen", ROOT_OF_H)
    monkeypatch.setattr(balances, "_root_of_nitrogen", ROOT_OF_N)
    monkeypatch.setattr(balances, "_first_guess", GUESS)
    asked = []
    monkeypatch.setattr(balances, "_balances", lambda *all_: asked.append(1) or BALANCES(*all_))
    found = SOLVED(K, amounts(0.42), 6.65)
    assert found == pytest.approx((math.log(0.5), math.log(2.0)), rel=1e-9)
    assert len(asked) <= 10


def test_fractions_of_twelve_molecules(monkeypatch):
    """Bars by the balances above, which sum to 6.65; half that many moles to the kilogram."""
    asked = []

    def constants(state, k):
        assert state == "state"
        k[:] = K

    def solved(k, of, bar):
        asked.append(bar)
        assert len(k) == 7
        assert len(of) == 5
        return math.log(0.5), math.log(2.0)

    monkeypatch.setattr(balances, "_constants", constants)
    monkeypatch.setattr(balances, "_solve_balances", solved)
    monkeypatch.setattr(balances, "_root_of_hydrogen", ROOT_OF_H)
    monkeypatch.setattr(balances, "_root_of_nitrogen", ROOT_OF_N)
    fractions = np.zeros(12)
    moles = balances.equilibrium_moles.py_func("state", amounts(0.42), 6.65e5, fractions)
    bars = {O2: 0.25, N2: 1.0, AR: 0.6, CO2: 0.7, H2O: 0.24, CO: 0.7, H2: 0.16, OH: 0.4, H: 0.4,
            O: 0.2, NO: 1.0, N: 1.0}  # fmt: skip
    for row, bar in bars.items():
        assert fractions[row] == pytest.approx(bar / 6.65), row
    assert fractions.sum() == pytest.approx(1.0)
    assert moles == pytest.approx(3.325)
    assert asked == [pytest.approx(6.65)]


@pytest.mark.parametrize(("warm", "span"), [(2.0, 0), (1000.0, 0), (1000.1, 1)])
def test_a_standard_state(warm, span):
    """Coefficients 1 to 7 at 2 K: 1 + 4 + 12 + 32 + 80; 1 + 2 + 4 + 8 + 16 + 6/2;
    ln 2 + 4 + 6 + 32/3 + 20 + 7. The other span, above 1000 K, has a first of 9 alone."""
    coefficients, state = np.zeros((2, 2, 7)), np.zeros((3, 2))
    coefficients[1, 0] = np.arange(1.0, 8.0)
    coefficients[1, 1, 0] = 9.0
    equilibrium.standard_state.py_func(coefficients, warm, state)
    if warm == 2.0:
        entropy = math.log(2.0) + 37.0 + 32.0 / 3.0
        assert state[:, 1] == pytest.approx([129.0, 34.0, entropy])
    else:
        assert bool(state[0, 1] == 9.0) is (span == 1)


def test_five_equations_are_solved():
    """Against what the matrix was made of: solutions 1 to 5 and 5 to 1."""
    matrix = np.zeros((5, 7))
    matrix[:, :5] = [[9, 1, 2, 1, 3], [1, 8, 1, 2, 2], [2, 1, 7, 1, 1], [1, 2, 1, 6, 4],
                     [3, 2, 1, 4, -5]]  # fmt: skip
    matrix[:, 5] = matrix[:, :5] @ [1.0, 2.0, 3.0, 4.0, 5.0]
    matrix[:, 6] = matrix[:, :5] @ [5.0, 4.0, 3.0, 2.0, 1.0]
    equilibrium._eliminate.py_func(matrix)
    assert matrix[:, 5] == pytest.approx([1.0, 2.0, 3.0, 4.0, 5.0])
    assert matrix[:, 6] == pytest.approx([5.0, 4.0, 3.0, 2.0, 1.0])
