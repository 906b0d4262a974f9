"""Fuels against tables of chemistry: air, heat, limits of burning, and E10 petrol.

Sources: heats of formation and flammability limits (IEC 60079-20-1:2010, NFPA 497:2008) as
tabulated in the library chemicals 1.5.2; sums with atomic weights C 12.011, H 1.008, O 15.999; J.
B. Heywood, *Internal Combustion Engine Fundamentals*, 1988, Table D.4 (printed ratios, from
memory); charge by cantera 3.2.0; EN 228 (oxygen limit of E10, from memory).
"""

import pytest

from firstfire.formulas import fuel_mix
from firstfire.formulas.fuel_mix import Atoms, Fuel

FUELS = {
    "iso-octane": Atoms(8, 18),
    "propane": Atoms(3, 8),
    "ethanol": Atoms(2, 6, 1),
    "methanol": Atoms(1, 4, 1),
    "petrol": Atoms(7.14, 13.35),
}

# Heat of formation at 25 °C, J/mol: liquid and vapour
FORMATION = {
    "iso-octane": (-258_800.0, -223_700.0),
    "propane": (-120_900.0, -104_390.0),
    "ethanol": (-277_030.0, -234_570.0),
    "methanol": (-238_400.0, -200_700.0),
}

# Stoichiometric ratio by own sum (±0.01, rounding), and as printed (±0.06: tables' air differs)
AIR = {
    "iso-octane": (15.132, 15.13),
    "propane": (15.680, 15.67),
    "ethanol": (9.005, 9.00),
    "methanol": (6.474, 6.47),
}


@pytest.mark.parametrize("fuel", AIR)
def test_air_fuel_ratio(fuel: str) -> None:
    ratio = fuel_mix.air_fuel_ratio(FUELS[fuel])
    assert ratio == pytest.approx(AIR[fuel][0], abs=0.01)
    assert ratio == pytest.approx(AIR[fuel][1], abs=0.06)


@pytest.mark.parametrize(("hydrogen", "ratio"), [(1.87, 14.604), (1.85, 14.575)])
def test_air_fuel_ratio_of_petrol(hydrogen: float, ratio: float) -> None:
    found = fuel_mix.air_fuel_ratio(Atoms(1, hydrogen))
    assert found == pytest.approx(ratio, abs=0.01)
    assert found == pytest.approx(14.6, abs=0.06)  # as printed


# MJ/kg, liquid and vapour; ±0.15 is the spread between data sets
HEAT = {
    "iso-octane": (44.35, 44.65),
    "ethanol": (26.82, 27.74),
    "methanol": (19.94, 21.11),
    "propane": (45.97, 46.34),
}


@pytest.mark.parametrize("fuel", HEAT)
def test_lower_heating_value(fuel: str) -> None:
    found = [fuel_mix.lower_heating_value(FUELS[fuel], h) / 1e6 for h in FORMATION[fuel]]
    assert found == pytest.approx(HEAT[fuel], abs=0.15)


# Stoichiometric vapour charge at 25 °C and 1 bar: mass fraction, mole fraction, kg/m³, MJ/m³
CHARGE = {
    "iso-octane": (0.06199, 0.01648, 1.2252, 3.391),
    "propane": (0.05995, 0.04021, 1.1930, 3.314),
    "ethanol": (0.09995, 0.06526, 1.2135, 3.363),
    "methanol": (0.13380, 0.12253, 1.1837, 3.343),
}


@pytest.mark.parametrize("fuel", CHARGE)
def test_energy_of_the_charge(fuel: str) -> None:
    # Tolerance 0.5 %.
    atoms = FUELS[fuel]
    by_mass, by_mole, density, energy = CHARGE[fuel]
    share = 1 / (1 + fuel_mix.air_fuel_ratio(atoms))
    assert share == pytest.approx(by_mass, rel=5e-3)
    assert fuel_mix.vapour_fraction(atoms, 1.0) == pytest.approx(by_mole, rel=5e-3)
    found = fuel_mix.charge_density(atoms, 1.0, 1e5, 298.15)
    assert found == pytest.approx(density, rel=5e-3)
    heat = fuel_mix.lower_heating_value(atoms, FORMATION[fuel][1])
    assert found * share * heat / 1e6 == pytest.approx(energy, rel=5e-3)


def test_e10() -> None:
    # Ethanol 789.3 kg/m³, 26.8 MJ/kg; petrol CH1.87, 745 kg/m³, 43.5 MJ/kg; 0.1 %, mixing by mass.
    petrol = Fuel(745.0, fuel_mix.air_fuel_ratio(Atoms(1, 1.87)), 43.5e6, 0.0)
    pure = Atoms(2, 6, 1)
    ethanol = Fuel(789.3, fuel_mix.air_fuel_ratio(pure), 26.8e6, fuel_mix.oxygen_fraction(pure))
    share, e10 = fuel_mix.blend(petrol, ethanol, 0.10)
    assert share == pytest.approx(0.1053, rel=1e-3)
    assert 100 * e10.oxygen == pytest.approx(3.66, rel=1e-3)
    assert 100 * e10.oxygen < 3.7  # EN 228
    assert e10.air_fuel_ratio == pytest.approx(14.01, rel=1e-3)
    assert e10.heating_value == pytest.approx(41.74e6, rel=1e-3)


# Limits by volume as tabulated, and the phi they stand for
LIMITS = {
    "propane": (0.021, 0.095, 0.51, 2.51),  # NFPA
    "ethanol": (0.031, 0.190, 0.46, 3.36),  # IEC
    "methanol": (0.060, 0.360, 0.46, 4.03),  # both
    "iso-octane": (0.007, 0.060, 0.42, 3.8),  # IEC
    "petrol": (0.014, 0.076, 0.71, 4.1),  # both, as C7.14H13.35
}


@pytest.mark.parametrize("fuel", LIMITS)
def test_limits_of_flammability(fuel: str) -> None:
    # phi is printed to two or three figures, hence 2 %.
    low, high, lean, rich = LIMITS[fuel]
    found = [fuel_mix.equivalence_ratio(FUELS[fuel], fraction) for fraction in (low, high)]
    assert found == pytest.approx([lean, rich], rel=0.02)
