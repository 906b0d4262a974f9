"""The working table against the equilibrium it was filled from, and the surface it makes."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.cycle.equilibrium import burned_amounts, equilibrium_at
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.mixture import (
    PRESSURE_HIGHEST,
    PRESSURE_LOWEST,
    TABLE_COLDEST,
    TABLE_HOTTEST,
    gamma_of,
    mixture_state,
    temperature_from_energy,
    temperature_from_enthalpy,
)
from firstfire.cycle.mixture_charge import fresh_charge, internal_energy
from firstfire.cycle.thermo_data import air, fuel_names, product_coefficients
from firstfire.errors import CatalogError, OutsideValidity

fuels = st.sampled_from(fuel_names())
mixtures = st.sampled_from([0.5, 0.7, 0.9, 0.99, 1.0, 1.01, 1.1, 1.3, 1.6])
temperatures = st.floats(200.0, 3600.0)
# What an engine can hold: hot gas is compressed gas, 3200 K at no less than half a bar.
pressures = st.floats(math.log(5e4), math.log(4e7)).map(math.exp)
masses = st.floats(0.0, 1.0)


@given(fuels, mixtures, st.floats(200.0, 3200.0), pressures)
def test_table_is_the_equilibrium(
    fuel: str, phi: float, temperature: float, pressure: float
) -> None:
    """1 kJ/kg is a third of a kelvin of burning gas; gas constant and slopes in proportion."""
    exact = equilibrium_at(
        product_coefficients(), burned_amounts(fuel, phi), temperature, pressure, np.empty(12)
    )
    found = mixture_state(gas_tables(fuel, phi), 0.0, 0.0, 1.0, temperature, pressure)
    assert found[0] == pytest.approx(exact[0], abs=1e3)
    assert found[3] == pytest.approx(exact[2], abs=0.02)
    assert found[1] == pytest.approx(exact[3], rel=1e-3)
    assert found[2] * pressure == pytest.approx(exact[4] * pressure, abs=1e4)


@given(fuels, mixtures, st.floats(300.0, 3000.0), st.floats(math.log(1e6), math.log(2e7)))
def test_table_is_closer_still_where_an_engine_burns(
    fuel: str, phi: float, temperature: float, log_pressure: float
) -> None:
    pressure = math.exp(log_pressure)
    exact = equilibrium_at(
        product_coefficients(), burned_amounts(fuel, phi), temperature, pressure, np.empty(12)
    )
    found = mixture_state(gas_tables(fuel, phi), 0.0, 0.0, 1.0, temperature, pressure)
    assert found[0] == pytest.approx(exact[0], abs=200.0)
    assert found[3] == pytest.approx(exact[2], abs=0.005)


@given(mixtures, masses, masses, masses, temperatures, pressures)
def test_derivatives_are_those_of_the_surface(
    phi: float, lean: float, vapour: float, burned: float, temperature: float, pressure: float
) -> None:
    """Bookkeeping by derivatives finds what the values hold; differences good to 1e-6."""
    tables, mass = gas_tables("petrol", phi), (lean + 0.01, vapour, burned)
    step = 1e-5
    temperature = min(max(temperature, 201.0), 3599.0)
    _, h_t, h_p, _, gas_t, gas_p = mixture_state(tables, *mass, temperature, pressure)
    high = mixture_state(tables, *mass, temperature * (1 + step), pressure)
    low = mixture_state(tables, *mass, temperature * (1 - step), pressure)
    width = 2 * step * temperature
    assert h_t == pytest.approx((high[0] - low[0]) / width, rel=1e-5)
    assert gas_t == pytest.approx((high[3] - low[3]) / width, rel=1e-4, abs=1e-6)
    high = mixture_state(tables, *mass, temperature, pressure * (1 + step))
    low = mixture_state(tables, *mass, temperature, pressure * (1 - step))
    width = 2 * step * pressure
    # rounding of an enthalpy of some MJ/kg leaves 1e-4 J/kg of a difference
    assert h_p == pytest.approx((high[0] - low[0]) / width, rel=1e-3, abs=1e-3 / width)
    assert gas_p == pytest.approx((high[3] - low[3]) / width, rel=1e-3, abs=1e-9 / width)


@pytest.mark.parametrize("temperature", [250.0, 1000.0, 1050.0, 2500.0, 3550.0])
@pytest.mark.parametrize("pressure", [2.0**12, 1.5 * 2.0**16, 2.0**17, 2.0**22, 1.5 * 2.0**24])
def test_no_step_where_cells_meet(temperature: float, pressure: float) -> None:
    """Value and slopes are the same from either side of an edge, to rounding."""
    tables, tiny = gas_tables("methanol", 1.1), 1e-11
    scale = [1.0, temperature, pressure, 1.0, temperature, pressure]
    seen = []
    for a, b in ((-1, -1), (-1, 1), (1, -1), (1, 1)):
        t, p = temperature * (1 + a * tiny), pressure * (1 + b * tiny)
        seen.append(np.array(mixture_state(tables, 0.3, 0.02, 1.0, t, p)) * scale)
    for corner in seen[1:]:
        np.testing.assert_allclose(corner, seen[0], rtol=1e-8, atol=1e-6)


@given(mixtures, masses, masses, masses, temperatures, pressures)
def test_a_mixture_is_the_sum_of_its_parts(
    phi: float, lean: float, vapour: float, burned: float, temperature: float, pressure: float
) -> None:
    tables = gas_tables("e10", phi)
    lean += 0.01
    total = lean + vapour + burned
    whole = np.array(mixture_state(tables, lean, vapour, burned, temperature, pressure))
    parts = (
        lean * np.array(mixture_state(tables, 1.0, 0.0, 0.0, temperature, pressure))
        + vapour * np.array(mixture_state(tables, 0.0, 1.0, 0.0, temperature, pressure))
        + burned * np.array(mixture_state(tables, 0.0, 0.0, 1.0, temperature, pressure))
    ) / total
    np.testing.assert_allclose(whole, parts, rtol=1e-9, atol=1e-12)


@given(mixtures, masses, masses, masses, st.floats(220.0, 3500.0), pressures, st.floats(250, 3000))
def test_temperature_is_found_again(
    phi: float,
    lean: float,
    vapour: float,
    burned: float,
    temperature: float,
    pressure: float,
    guess: float,
) -> None:
    tables, mass = gas_tables("ethanol", phi), (lean + 0.01, vapour, burned)
    h, _, _, gas, _, _ = mixture_state(tables, *mass, temperature, pressure)
    found = temperature_from_enthalpy(tables, *mass, h, pressure, guess)
    assert found == pytest.approx(temperature, rel=1e-8)
    volume = sum(mass) * gas * temperature / pressure
    energy = h - gas * temperature
    hot, pressed = temperature_from_energy(tables, *mass, energy, volume, guess)
    assert hot == pytest.approx(temperature, rel=1e-8)
    assert pressed == pytest.approx(pressure, rel=1e-7)


def test_a_charge_burned_in_the_table_ends_at_the_published_state() -> None:
    """Iso-octane, phi 1, constant volume from 700 K and 30 bar: 2926.0 K, 134.88 bar.

    Cantera 3.2.0, nasa_gas.yaml, computed beforehand; 3 K and 0.3 %.
    """
    charge = fresh_charge("iso-octane", 1.0)
    volume = charge.gas_constant * 700.0 / 30e5
    energy = internal_energy(charge, 700.0)
    tables = gas_tables("iso-octane", 1.0)
    hot, pressed = temperature_from_energy(tables, 0.0, 0.0, 1.0, energy, volume, 700.0)
    assert hot == pytest.approx(2926.0, abs=3.0)
    assert pressed / 1e5 == pytest.approx(134.88, rel=0.003)


def test_outside_the_table_enthalpy_goes_on_along_its_tangent() -> None:
    tables, mass = gas_tables("petrol", 1.0), (0.5, 0.03, 0.5)
    for edge, outward in ((TABLE_COLDEST, -1), (TABLE_HOTTEST, 1)):
        h, h_t, _, gas, _, _ = mixture_state(tables, *mass, edge, 1e6)
        far = mixture_state(tables, *mass, edge + 100.0 * outward, 1e6)
        assert far[0] == pytest.approx(h + 100.0 * outward * h_t, rel=1e-9)
        assert far[3] == pytest.approx(gas, rel=1e-12)
        assert far[4] == 0.0
    for edge, beyond in ((PRESSURE_LOWEST, 100.0), (PRESSURE_HIGHEST, 9e7)):
        at_edge = mixture_state(tables, *mass, 2500.0, edge)
        far = mixture_state(tables, *mass, 2500.0, beyond)
        assert far[0] == pytest.approx(at_edge[0], rel=1e-12)
        assert far[2] == far[5] == 0.0


def test_nonsense_in_is_nonsense_out_not_a_crash() -> None:
    tables = gas_tables("petrol", 1.0)
    assert math.isnan(mixture_state(tables, 1.0, 0.0, 1.0, math.nan, 1e5)[0])
    assert math.isfinite(mixture_state(tables, 1.0, 0.0, 1.0, 1e9, 1e5)[0])
    assert math.isfinite(mixture_state(tables, 1.0, 0.0, 1.0, -5.0, -1e5)[0])


def test_tables_are_made_once() -> None:
    assert gas_tables("iso-octane", 0.9) is gas_tables("Iso Octane", 0.90000001)


def test_tables_carry_the_fuel() -> None:
    tables = gas_tables("methanol", 0.8)
    assert tables.equivalence_ratio == 0.8
    assert tables.stoichiometric_air_fuel_ratio == pytest.approx(6.474, abs=0.01)
    assert tables.lower_heating_value == pytest.approx(21.104e6, rel=1e-4)
    assert tables.fuel_molar_mass == pytest.approx(32.042e-3, rel=1e-4)
    assert tables.gas_constant_air == air().gas_constant


def test_ratio_of_heat_capacities() -> None:
    assert gamma_of(1004.8, 287.04) == pytest.approx(1.3999, abs=2e-4)


def test_refusals() -> None:
    with pytest.raises(CatalogError):
        gas_tables("paraffin", 1.0)
    with pytest.raises(OutsideValidity):
        gas_tables("petrol", 3.0)
