"""Vapour pressures and heats of vaporisation against reference equations of state, run live.

CoolProp has each of these liquids but iso-octane and trimethylbenzene; those are held to the Wagner
equations of R. A. McGarry, *Industrial & Engineering Chemistry Process Design and Development* 22,
1983, 313, as the chemicals library has them. Bounds are the differences between the two sets of
data, as written in the law: 1 % from 0 to 120 °C (hexane 1.3), 3 % at −30 °C (toluene, hexane 3.1);
heats within 2.5 %. Methanol was fitted to CoolProp's, so it is also held to the Wagner equation of
B. E. Poling and others, *The Properties of Gases and Liquids*, 5th ed.
"""

from __future__ import annotations

import pytest

from firstfire.formulas.distillation import boiling_point
from firstfire.formulas.vapour_pressure import LIQUIDS, latent_heat, vapour_pressure

coolprop = pytest.importorskip("CoolProp.CoolProp", reason="a development dependency")
chemicals = pytest.importorskip("chemicals", reason="a development dependency")

NAMES = {
    "propane": "n-Propane",
    "butane": "n-Butane",
    "pentane": "n-Pentane",
    "hexane": "n-Hexane",
    "heptane": "n-Heptane",
    "toluene": "Toluene",
    "methanol": "Methanol",
    "ethanol": "Ethanol",
}
WARM = [273.15, 293.15, 313.15, 353.15, 393.15]
LIQUID = [
    (liquid, temperature)
    for liquid in NAMES
    for temperature in (243.15, *WARM)
    if temperature < LIQUIDS[liquid].critical_temperature
]
"""Of each, the temperatures below its critical point."""


@pytest.mark.parametrize(("liquid", "temperature"), [one for one in LIQUID if one[1] > 270.0])
def test_vapour_pressure_is_the_reference_equations(liquid: str, temperature: float) -> None:
    known = coolprop.PropsSI("P", "T", temperature, "Q", 0, NAMES[liquid])
    assert vapour_pressure(liquid, temperature) == pytest.approx(known, rel=0.013)


@pytest.mark.parametrize("liquid", NAMES)
def test_vapour_pressure_at_thirty_below(liquid: str) -> None:
    known = coolprop.PropsSI("P", "T", 243.15, "Q", 0, NAMES[liquid])
    assert vapour_pressure(liquid, 243.15) == pytest.approx(known, rel=0.031)


@pytest.mark.parametrize("temperature", [243.15, 273.15, 293.15, 333.15])
def test_methanol_follows_another_set_of_constants_too(temperature: float) -> None:
    row = chemicals.vapor_pressure.Psat_data_WagnerPoling.loc["67-56-1"]
    wagner = chemicals.vapor_pressure.Wagner(
        temperature, *(float(row[name]) for name in ("Tc", "Pc", "A", "B", "C", "D"))
    )
    assert vapour_pressure("methanol", temperature) == pytest.approx(wagner, rel=0.01)


@pytest.mark.parametrize(("liquid", "temperature"), LIQUID)
def test_heat_of_vaporisation_is_the_reference_equations(liquid: str, temperature: float) -> None:
    vapour, boiling = (
        coolprop.PropsSI("H", "T", temperature, "Q", q, NAMES[liquid]) for q in (1, 0)
    )
    assert latent_heat(liquid, temperature) == pytest.approx(vapour - boiling, rel=0.025)


@pytest.mark.parametrize(
    ("liquid", "known"), [("iso_octane", "540-84-1"), ("trimethylbenzene", "95-63-6")]
)
def test_liquids_that_it_lacks_follow_wagners_equation(liquid: str, known: str) -> None:
    row = chemicals.vapor_pressure.Psat_data_WagnerMcGarry.loc[known]
    for temperature in (293.15, 333.15, 373.15, 433.15):
        if temperature < float(row["Tmin"]):
            continue
        wagner = chemicals.vapor_pressure.Wagner_original(
            temperature, *(float(row[name]) for name in ("Tc", "Pc", "A", "B", "C", "D"))
        )
        assert vapour_pressure(liquid, temperature) == pytest.approx(wagner, rel=0.01)


@pytest.mark.parametrize("liquid", NAMES)
def test_density_and_boiling_point(liquid: str) -> None:
    """Densities at 20 °C to the figures given; boiling points within 0.3 K."""
    dense = coolprop.PropsSI("D", "T", 293.15, "Q", 0, NAMES[liquid])
    assert LIQUIDS[liquid].density == pytest.approx(dense, abs=0.06)
    boils = coolprop.PropsSI("T", "P", 101_325.0, "Q", 0, NAMES[liquid])
    assert boiling_point({liquid: 1.0}) == pytest.approx(boils, abs=0.3)


@pytest.mark.parametrize(
    ("liquid", "dense", "boils"),
    [("iso_octane", 692.0, 372.37), ("trimethylbenzene", 876.0, 442.5)],
)
def test_density_and_boiling_point_from_the_handbook(
    liquid: str, dense: float, boils: float
) -> None:
    """*CRC Handbook of Chemistry and Physics*, from memory."""
    assert LIQUIDS[liquid].density == pytest.approx(dense, rel=2e-3)
    assert boiling_point({liquid: 1.0}) == pytest.approx(boils, abs=0.3)
