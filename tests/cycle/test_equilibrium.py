"""Equilibrium as chemistry must have it, whatever the numbers."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from firstfire.cycle.equilibrium import burned_amounts, equilibrium_at, standard_state
from firstfire.cycle.equilibrium_states import (
    burn_at_constant_pressure,
    burn_at_constant_volume,
    burned_gas,
    expand_to_pressure,
    expand_to_volume,
)
from firstfire.cycle.mixture_charge import enthalpy, fresh_charge, internal_energy
from firstfire.cycle.species import SPECIES, STANDARD_PRESSURE, UNIVERSAL_GAS_CONSTANT
from firstfire.cycle.thermo_data import (
    fuel_names,
    molecule,
    product_coefficients,
    product_molar_masses,
)
from firstfire.errors import CatalogError, OutsideValidity

fuels = st.sampled_from(fuel_names())
mixtures = st.floats(0.2, 2.0) | st.sampled_from([1.0, 0.999999, 1.000001])
temperatures = st.floats(200.0, 4000.0)
pressures = st.floats(math.log(1e3), math.log(8e7)).map(math.exp)


def at(
    fuel: str, phi: float, temperature: float, pressure: float
) -> tuple[tuple[float, ...], NDArray[np.float64]]:
    fractions = np.empty(12)
    amounts = burned_amounts(fuel, phi)
    found = equilibrium_at(product_coefficients(), amounts, temperature, pressure, fractions)
    return found, fractions


@given(fuels, mixtures, temperatures, pressures)
def test_elements_are_kept(fuel: str, phi: float, temperature: float, pressure: float) -> None:
    (_, _, gas, *_), x = at(fuel, phi, temperature, pressure)
    moles = gas / UNIVERSAL_GAS_CONSTANT
    assert x.min() >= 0.0
    assert x.sum() == pytest.approx(1.0, abs=1e-12)
    assert moles * (x @ product_molar_masses()) == pytest.approx(1.0, abs=1e-12)
    charge = fresh_charge(fuel, phi)
    for atom in ("C", "H", "O", "N", "Ar"):
        held = sum(f * molecule(s).atoms.get(atom, 0.0) for s, f in zip(SPECIES, x, strict=True))
        fed = charge.atoms[atom] / charge.molar_mass
        assert moles * held == pytest.approx(fed, rel=1e-9)


# Reactions that were not used in solving: left and right.
REACTIONS = [
    ({"CO": 1, "H2O": 1}, {"CO2": 1, "H2": 1}),
    ({"H2": 1, "O2": 1}, {"OH": 2}),
    ({"H": 1, "O2": 1}, {"OH": 1, "O": 1}),
    ({"N2": 1, "O": 1}, {"NO": 1, "N": 1}),
]


@given(fuels, mixtures, st.floats(900.0, 4000.0), pressures)
def test_no_reaction_would_go_on(
    fuel: str, phi: float, temperature: float, pressure: float
) -> None:
    """Gibbs energies of both sides of every reaction are equal."""
    _, x = at(fuel, phi, temperature, pressure)
    state = np.empty((3, 12))
    standard_state(product_coefficients(), temperature, state)
    potential = state[1] - state[2] + np.log(x * pressure / STANDARD_PRESSURE)
    for left, right in REACTIONS:
        before = sum(n * potential[SPECIES.index(s)] for s, n in left.items())
        after = sum(n * potential[SPECIES.index(s)] for s, n in right.items())
        assert before == pytest.approx(after, abs=1e-7)  # of ln K


@given(fuels, mixtures, st.floats(250.0, 3900.0), st.floats(math.log(2e3), math.log(7e7)))
def test_derivatives_are_those_of_the_values(
    fuel: str, phi: float, temperature: float, log_pressure: float
) -> None:
    # What differences of 2e-4 leave of the curvature of a steep dissociation is 1e-6 of the slope.
    if abs(temperature - 1000.0) < 5.0:
        return  # the polynomials change there and their slopes agree to four figures only
    pressure, step = math.exp(log_pressure), 2e-4
    (_, _, gas, h_t, h_p, gas_t, gas_p), _ = at(fuel, phi, temperature, pressure)
    high, _ = at(fuel, phi, temperature * (1 + step), pressure)
    low, _ = at(fuel, phi, temperature * (1 - step), pressure)
    width = 2 * step * temperature
    assert h_t == pytest.approx((high[0] - low[0]) / width, rel=2e-5)
    assert h_t / temperature == pytest.approx((high[1] - low[1]) / width, rel=2e-5)
    assert gas_t == pytest.approx((high[2] - low[2]) / width, rel=1e-3, abs=1e-7)
    high, _ = at(fuel, phi, temperature, pressure * (1 + step))
    low, _ = at(fuel, phi, temperature, pressure * (1 - step))
    width = 2 * step * pressure
    rounding = 1e-3 * h_t / pressure  # J/(kg Pa) that a kelvin in a thousand is worth
    assert h_p == pytest.approx((high[0] - low[0]) / width, rel=1e-4, abs=rounding)
    assert gas_p == pytest.approx((high[2] - low[2]) / width, rel=1e-4, abs=1e-7 / pressure)
    entropy_p = -(gas + temperature * gas_t) / pressure
    assert entropy_p == pytest.approx((high[1] - low[1]) / width, rel=1e-5)


@given(fuels, mixtures, st.floats(280.0, 800.0), st.floats(2e4, 5e6))
def test_burning_keeps_its_energy(
    fuel: str, phi: float, temperature: float, pressure: float
) -> None:
    charge = fresh_charge(fuel, phi)
    open_flame = burn_at_constant_pressure(fuel, phi, temperature, pressure)
    assert open_flame.enthalpy == pytest.approx(enthalpy(charge, temperature), abs=1e-2)
    assert open_flame.pressure == pytest.approx(pressure, rel=1e-9)
    bomb = burn_at_constant_volume(fuel, phi, temperature, pressure)
    assert bomb.internal_energy == pytest.approx(internal_energy(charge, temperature), abs=1e-2)
    volume = charge.gas_constant * temperature / pressure
    assert bomb.specific_volume == pytest.approx(volume, rel=1e-9)
    assert bomb.temperature > open_flame.temperature


@given(fuels, st.floats(0.5, 1.6), st.floats(1.2, 12.0))
def test_expansion_keeps_its_entropy_and_returns(fuel: str, phi: float, ratio: float) -> None:
    hot = burn_at_constant_volume(fuel, phi, 600.0, 1.5e6)
    wide = expand_to_volume(hot, ratio * hot.specific_volume)
    assert wide.entropy == pytest.approx(hot.entropy, rel=1e-10)
    assert wide.temperature < hot.temperature
    back = expand_to_pressure(wide, hot.pressure)
    assert back.temperature == pytest.approx(hot.temperature, rel=1e-8)


@given(fuels, st.floats(0.5, 1.6), st.floats(1000.0, 3200.0), st.floats(5e4, 1e7))
def test_exponent_is_that_of_a_small_expansion(
    fuel: str, phi: float, temperature: float, pressure: float
) -> None:
    gas = burned_gas(fuel, phi, temperature, pressure)
    a = expand_to_volume(gas, gas.specific_volume * 1.001)
    b = expand_to_volume(gas, gas.specific_volume / 1.001)
    exponent = -math.log(a.pressure / b.pressure) / math.log(1.001**2)
    assert gas.isentropic_exponent == pytest.approx(exponent, abs=2e-5)


@given(fuels, mixtures, st.floats(300.0, 3900.0), pressures)
def test_pressure_hinders_dissociation(
    fuel: str, phi: float, temperature: float, pressure: float
) -> None:
    """Le Chatelier: more pressure, fewer moles; more heat, more moles; and heat capacity > R."""
    (_, _, gas, h_t, h_p, gas_t, gas_p), _ = at(fuel, phi, temperature, pressure)
    # The water-gas shift moves heat, never moles; 1e-8 J/(kg K) of some 300 is rounding.
    assert gas_p * pressure <= 1e-8
    assert gas_t * temperature >= -1e-8
    assert h_p * pressure <= 1e-8 * temperature
    assert h_t > 3 * gas


def test_rich_gas_holds_carbon_monoxide_and_lean_gas_oxygen() -> None:
    rich = burned_gas("petrol", 1.2, 1500.0, 3e5).mole_fractions
    lean = burned_gas("petrol", 0.8, 1500.0, 3e5).mole_fractions
    assert rich["CO"] > 0.03
    assert lean["O2"] > 0.03
    assert lean["CO"] < 1e-5
    assert rich["O2"] < 1e-5


def test_cold_stoichiometric_gas_is_complete_products() -> None:
    cold = burned_gas("propane", 1.0, 300.0, 1e5).mole_fractions
    # C3H8 + 5 O2 -> 3 CO2 + 4 H2O; air brings 0.00036/0.20946 CO2 to a mole of O2.
    assert cold["CO2"] / cold["H2O"] == pytest.approx((3 + 5 * 0.00036 / 0.20946) / 4, rel=1e-9)
    assert cold["CO"] + cold["H2"] + cold["O2"] < 1e-20


@pytest.mark.parametrize("phi", [0.1, 2.5, -1.0, math.nan])
def test_mixtures_beyond_the_chemistry_are_refused(phi: float) -> None:
    with pytest.raises(OutsideValidity, match="equivalence ratios"):
        burned_gas("petrol", phi, 2000.0, 1e5)


@pytest.mark.parametrize(("temperature", "pressure"), [(150.0, 1e5), (4500.0, 1e5), (2000.0, 10.0)])
def test_states_beyond_the_data_are_refused(temperature: float, pressure: float) -> None:
    with pytest.raises(OutsideValidity, match="Burned gas is known"):
        burned_gas("petrol", 1.0, temperature, pressure)


def test_an_unknown_fuel_is_refused() -> None:
    with pytest.raises(CatalogError, match="propane"):
        burned_gas("coal", 1.0, 2000.0, 1e5)
