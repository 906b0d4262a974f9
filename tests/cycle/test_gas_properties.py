"""Air, fuel vapours and fresh charge against tabulated numbers.

Expected values: Cantera 3.2.0 with its nasa_gas.yaml (NASA TM-4513, 1993), computed beforehand,
unless a test says otherwise.
"""

from __future__ import annotations

import pytest

from firstfire.cycle.mixture_charge import (
    enthalpy,
    fresh_charge,
    heat_capacity,
    heat_capacity_ratio,
)
from firstfire.cycle.species import ATOMIC_WEIGHTS
from firstfire.cycle.thermo_data import air, fuel_names, fuel_vapour
from firstfire.errors import CatalogError

# T, cp, gamma, h - h(298.15 K) in kJ/kg; then CoolProp 8.0.0, `Air` at 1 bar: cp, gamma.
AIR = [
    (300, 1004.8, 1.3999, 1.86, 1006.4, 1.4017),
    (600, 1050.5, 1.3760, 308.89, 1051.2, 1.3761),
    (1000, 1140.7, 1.3363, 747.95, 1141.0, 1.3362),
    (1500, 1208.6, 1.3115, 1336.50, 1211.0, 1.3107),
    (2000, 1251.9, 1.2975, 1952.48, 1250.2, 1.2981),
    (2500, 1278.8, 1.2894, 2585.70, None, None),
]


@pytest.mark.parametrize("row", AIR, ids=lambda row: f"{row[0]} K")
def test_air(row: tuple[float, ...]) -> None:
    temperature, cp, gamma, sensible, real_cp, real_gamma = row
    # 0.3 % and 0.002 cover both libraries.
    assert heat_capacity(air(), temperature) == pytest.approx(cp, rel=0.003)
    assert heat_capacity_ratio(air(), temperature) == pytest.approx(gamma, abs=0.002)
    above = (enthalpy(air(), temperature) - enthalpy(air(), 298.15)) / 1e3
    assert above == pytest.approx(sensible, rel=0.003)
    if real_cp:
        assert heat_capacity(air(), temperature) == pytest.approx(real_cp, rel=0.003)
        assert heat_capacity_ratio(air(), temperature) == pytest.approx(real_gamma, abs=0.002)


def test_molar_mass_of_air() -> None:
    # 28.966 kg/kmol with 360 ppm of carbon dioxide, sum of atomic weights.
    assert air().molar_mass == pytest.approx(28.966e-3, abs=1e-6)


def test_heat_of_formation_of_the_carbon_dioxide_in_air() -> None:
    assert enthalpy(air(), 298.15) / 1e3 == pytest.approx(-4.89, abs=0.01)


# Fuel, R of the stoichiometric charge, gamma at 300 to 800 K.
CHARGE = {
    "iso-octane": (273.76, (1.3548, 1.3380, 1.3216, 1.3063, 1.2926, 1.2806)),
    "propane": (281.14, (1.3680, 1.3517, 1.3348, 1.3188, 1.3045, 1.2922)),
}


@pytest.mark.parametrize("fuel", CHARGE)
def test_fresh_charge(fuel: str) -> None:
    gas_constant, gammas = CHARGE[fuel]
    charge = fresh_charge(fuel, 1.0)
    assert charge.gas_constant == pytest.approx(gas_constant, abs=0.1)
    for temperature, gamma in zip(range(300, 900, 100), gammas, strict=True):
        assert heat_capacity_ratio(charge, temperature) == pytest.approx(gamma, abs=0.002)


def test_heat_capacity_of_the_iso_octane_charge() -> None:
    charge = fresh_charge("iso-octane", 1.0)
    expected = (1045.4, 1083.8, 1125.1, 1167.6, 1209.5, 1249.4)
    for temperature, cp in zip(range(300, 900, 100), expected, strict=True):
        assert heat_capacity(charge, temperature) == pytest.approx(cp, rel=0.003)


# Stoichiometric air-fuel ratio: own sum of atomic weights C 12.011, H 1.008, O 15.999 with the O2
# of dry air, tolerance round-off; then heating value of the vapour, MJ/kg, NASA data, and by the
# heats of formation of chemicals 1.5.2, between which 0.15 is the spread of data sets.
FUELS = {
    "iso-octane": (15.132, 44.650, 44.65),
    "propane": (15.680, 46.333, 46.34),
    "ethanol": (9.005, 27.731, 27.74),
    "methanol": (6.474, 21.104, 21.11),
}


@pytest.mark.parametrize("fuel", FUELS)
def test_air_need_and_heating_value(fuel: str) -> None:
    air_fuel_ratio, heating_value, other_data = FUELS[fuel]
    vapour = fuel_vapour(fuel)
    assert vapour.stoichiometric_air_fuel_ratio == pytest.approx(air_fuel_ratio, abs=0.01)
    assert vapour.lower_heating_value / 1e6 == pytest.approx(heating_value, abs=0.001)
    assert vapour.lower_heating_value / 1e6 == pytest.approx(other_data, abs=0.15)


# Printed: Heywood, Internal Combustion Engine Fundamentals, 1988, Table D.4 (from memory).
@pytest.mark.parametrize(
    ("fuel", "printed"),
    [("iso-octane", 15.13), ("petrol", 14.6), ("propane", 15.67), ("ethanol", 9.0)],
)
def test_air_need_as_printed(fuel: str, printed: float) -> None:
    found = fuel_vapour(fuel).stoichiometric_air_fuel_ratio
    assert found == pytest.approx(printed, abs=0.06)


def test_petrol_surrogate_lies_within_petrol() -> None:
    petrol = fuel_vapour("petrol")
    assert petrol.atoms["H"] / petrol.atoms["C"] == pytest.approx(1.87, abs=1e-9)
    assert petrol.stoichiometric_air_fuel_ratio == pytest.approx(14.604, abs=0.01)
    # Liquid petrol has 42.5 to 44.0 MJ/kg (Heywood, Table D.4 and common practice, from memory);
    # it takes 0.30 to 0.38 MJ/kg to evaporate (Heywood gives 0.305 for gasoline, from memory).
    assert 42.5e6 + 0.30e6 < petrol.lower_heating_value < 44.0e6 + 0.38e6


def test_e10_by_mixing_masses() -> None:
    # 10 % by volume of ethanol (789.3 kg/m³) in petrol CH1.87 (745 kg/m³): 10.53 % by mass, 3.66 %
    # oxygen, air-fuel ratio 14.01; pure mixing by mass, tolerance 0.1 %.
    e10 = fuel_vapour("E10")
    oxygen = e10.atoms["O"] * ATOMIC_WEIGHTS["O"] / e10.molar_mass
    assert oxygen == pytest.approx(0.0366, rel=1.5e-3)  # printed to three figures
    assert e10.stoichiometric_air_fuel_ratio == pytest.approx(14.01, rel=1e-3)
    petrol, ethanol = fuel_vapour("petrol"), fuel_vapour("ethanol")
    mixed = 0.8947 * petrol.lower_heating_value + 0.1053 * ethanol.lower_heating_value
    assert e10.lower_heating_value == pytest.approx(mixed, rel=1e-9)


# Stoichiometric vapour charge at 298.15 K, 1 bar: mass fraction and mole fraction of fuel, density,
# MJ/m³, MJ/kg. Tolerance 0.5 % covers the heating values of two data sets.
ENERGY = {
    "iso-octane": (0.06199, 0.01648, 1.2252, 3.391, 2.768),
    "propane": (0.05995, 0.04021, 1.1930, 3.314, 2.778),
    "ethanol": (0.09995, 0.06526, 1.2135, 3.363, 2.772),
    "methanol": (0.13380, 0.12253, 1.1837, 3.343, 2.825),
}


@pytest.mark.parametrize("fuel", ENERGY)
def test_energy_of_the_charge(fuel: str) -> None:
    by_mass, by_mole, density, per_volume, per_mass = ENERGY[fuel]
    vapour, charge = fuel_vapour(fuel), fresh_charge(fuel, 1.0)
    share = 1 / (1 + vapour.stoichiometric_air_fuel_ratio)
    dense = 1e5 / (charge.gas_constant * 298.15)
    assert share == pytest.approx(by_mass, rel=0.005)
    assert share * charge.molar_mass / vapour.molar_mass == pytest.approx(by_mole, rel=0.005)
    assert dense == pytest.approx(density, rel=0.005)
    assert share * dense * vapour.lower_heating_value / 1e6 == pytest.approx(per_volume, rel=0.005)
    assert share * vapour.lower_heating_value / 1e6 == pytest.approx(per_mass, rel=0.005)


def test_names_are_forgiving() -> None:
    assert fuel_vapour("iso octane") is not None
    assert fuel_vapour(" ISO-Octane ").name == fuel_vapour("iso_octane").name == "iso_octane"


def test_an_unknown_fuel_names_those_there_are() -> None:
    with pytest.raises(CatalogError) as refused:
        fuel_vapour("kerosene")
    assert all(name in str(refused.value) for name in fuel_names())
