"""Unburned gas against Cantera, run live on the same NASA TM-4513 data."""

from __future__ import annotations

from typing import Any

import cantera
import numpy as np
import pytest

from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.mixture import mixture_state
from firstfire.cycle.mixture_charge import compress, fresh_charge, heat_capacity
from firstfire.cycle.species import ATOMIC_WEIGHTS, DRY_AIR, SPECIES, UNIVERSAL_GAS_CONSTANT
from firstfire.cycle.thermo_data import air, fuel_vapour, molar_enthalpy, molecule

PURE = {
    "iso_octane": "C8H18,isooctane",
    "propane": "C3H8",
    "butane": "C4H10,n-butane",
    "ethanol": "C2H5OH",
    "methanol": "CH3OH",
}
PARTS = {"toluene": "C7H8", "n_heptane": "C7H16,n-heptane"}
OURS = {name: name for name in SPECIES} | PURE | PARTS


@pytest.fixture(scope="module")
def phase() -> Any:
    wanted = set(OURS.values())
    found = [s for s in cantera.Species.list_from_file("nasa_gas.yaml") if s.name in wanted]
    return cantera.Solution(thermo="ideal-gas", species=found)


@pytest.mark.parametrize("name", OURS)
def test_the_extract_is_unaltered(phase: Any, name: str) -> None:
    theirs = phase.species(OURS[name])
    ours = molecule(name)
    low, high = theirs.thermo.coeffs[8:], theirs.thermo.coeffs[1:8]
    np.testing.assert_array_equal(ours.coefficients, [low, high])
    assert ours.atoms == dict(theirs.composition)
    assert ours.molar_mass * 1e3 == pytest.approx(theirs.molecular_weight, rel=1e-9)


def test_constants() -> None:
    assert pytest.approx(cantera.gas_constant, rel=1e-12) == UNIVERSAL_GAS_CONSTANT * 1e3
    for symbol, weight in ATOMIC_WEIGHTS.items():
        assert weight * 1e3 == pytest.approx(cantera.Element(symbol).weight, rel=1e-6)


@pytest.mark.parametrize("fuel", PURE)
def test_heating_value(phase: Any, fuel: str) -> None:
    need = fuel_vapour(fuel).oxygen_need
    phase.TPX = 298.15, 1e5, {PURE[fuel]: 1.0, "O2": need}
    before = phase.enthalpy_mass
    share = phase[PURE[fuel]].Y[0]
    atoms = fuel_vapour(fuel).atoms
    phase.TPX = 298.15, 1e5, {"CO2": atoms["C"], "H2O": atoms["H"] / 2}
    released = (before - phase.enthalpy_mass) / share
    assert fuel_vapour(fuel).lower_heating_value == pytest.approx(released, rel=1e-8)


@pytest.mark.parametrize("fuel", PURE)
@pytest.mark.parametrize("phi", [0.0, 0.5, 1.0, 1.6])
def test_fresh_charge_in_the_working_table(phase: Any, fuel: str, phi: float) -> None:
    """The kernel's cubics, from 250 K to 1500 K; 2 J/kg and 0.001 % is their own coarseness."""
    tables = gas_tables(fuel, 1.0)
    vapour = fuel_vapour(fuel)
    moles = phi * DRY_AIR["O2"] / vapour.oxygen_need
    mass_fuel = moles * vapour.molar_mass / air().molar_mass
    for temperature in (250.0, 298.15, 333.3, 412.0, 680.0, 871.0, 1030.0, 1500.0):
        phase.TPX = temperature, 5e5, DRY_AIR | {PURE[fuel]: moles}
        h, h_t, h_p, r, r_t, r_p = mixture_state(tables, 1.0, mass_fuel, 0.0, temperature, 5e5)
        assert h == pytest.approx(phase.enthalpy_mass, abs=2.0)
        assert h_t == pytest.approx(phase.cp_mass, rel=1e-4)
        constant = cantera.gas_constant / phase.mean_molecular_weight
        assert r == pytest.approx(constant, rel=1e-6)
        assert h_p == r_t == r_p == 0.0
        assert heat_capacity(fresh_charge(fuel, phi), temperature) == pytest.approx(
            phase.cp_mass, rel=1e-6
        )


@pytest.mark.parametrize("ratio", [5.0, 7.0, 9.0, 12.0])
def test_isentropic_compression_of_a_rich_charge(phase: Any, ratio: float) -> None:
    moles = 1.2 * DRY_AIR["O2"] / fuel_vapour("ethanol").oxygen_need
    phase.TPX = 320.0, 9e4, DRY_AIR | {"C2H5OH": moles}
    phase.SV = phase.s, phase.v / ratio
    hot, pressure = compress(fresh_charge("ethanol", 1.2), 320.0, 9e4, ratio)
    assert hot == pytest.approx(phase.T, abs=0.01)
    assert pressure == pytest.approx(phase.P, rel=1e-5)


def test_formation_enthalpies(phase: Any) -> None:
    for ours, theirs in PURE.items():
        phase.TPX = 298.15, 1e5, {theirs: 1.0}
        assert molar_enthalpy(molecule(ours)) * 1e3 == pytest.approx(phase.enthalpy_mole, rel=1e-9)
