"""Vapour pressures against CoolProp, petrol against EN 228, and what a cold fuel gives off.

CoolProp 8 (reference equations of state). EN 228: vapour pressure 45 to 90 kPa by season, shares
distilled by volume at 70, 100, 150 °C of 20-50, 46-71 and at least 75 % (from memory; the standard
distils in one pot, which parts the components less sharply than their boiling points do).
"""

from __future__ import annotations

import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas.vapour_pressure import (
    AIR_MOLAR_MASS,
    LIQUIDS,
    PETROL,
    given_off,
    vapour_pressure,
)

NAMES = {
    "propane": "Propane",
    "butane": "n-Butane",
    "pentane": "n-Pentane",
    "hexane": "n-Hexane",
    "toluene": "Toluene",
    "methanol": "Methanol",
    "ethanol": "Ethanol",
}
WITHIN = {"methanol": 0.02, "ethanol": 0.03}
KELVIN = 273.15


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("celsius", [-20.0, 0.0, 20.0, 40.0, 70.0])
def test_vapour_pressures(name: str, celsius: float) -> None:
    """Lee and Kesler within 6 % of hydrocarbons, Antoine within 2 and 3 % of alcohols."""
    temperature = celsius + KELVIN
    known = PropsSI("P", "T", temperature, "Q", 0, NAMES[name])
    assert vapour_pressure(name, temperature) == pytest.approx(known, rel=WITHIN.get(name, 0.06))


@pytest.mark.parametrize("name", sorted(set(NAMES) - set(WITHIN)))
def test_critical_data(name: str) -> None:
    """Of those that go by Lee and Kesler's law."""
    liquid, other = LIQUIDS[name], NAMES[name]
    for value, key, within in (
        (liquid.molar_mass, "M", 1e-3),
        (liquid.critical_temperature, "Tcrit", 3e-3),
        (liquid.critical_pressure, "pcrit", 0.02),
    ):
        assert value == pytest.approx(PropsSI(key, other), rel=within), key
    assert liquid.acentric == pytest.approx(PropsSI("acentric", other), abs=0.012)


def boiling(name: str) -> float:
    """At one atmosphere, K."""
    low, high = 230.0, 400.0
    while high - low > 0.01:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if vapour_pressure(name, middle) < 101_325.0 else (low, middle)
    return high


def test_iso_octane_boils_where_handbooks_say() -> None:
    """99.2 °C, and 6.5 kPa at 25 °C (CRC Handbook; from memory)."""
    assert boiling("iso_octane") == pytest.approx(KELVIN + 99.2, abs=1.0)
    assert vapour_pressure("iso_octane", 298.15) == pytest.approx(6.5e3, rel=0.05)


def test_petrol_has_the_vapour_pressure_and_distils_as_en_228_asks() -> None:
    """Densities of the components at 15 °C from handbooks (from memory), kg/m³."""
    moles = {name: share / LIQUIDS[name].molar_mass for name, share in PETROL.items()}
    whole = sum(moles.values())
    reid = sum(n / whole * vapour_pressure(name, 310.93) for name, n in moles.items())
    assert 45e3 < reid < 90e3
    dense = {"butane": 585, "pentane": 631, "hexane": 664, "iso_octane": 696, "toluene": 871,
             "trimethylbenzene": 880}  # fmt: skip
    volumes = {name: share / dense[name] for name, share in PETROL.items()}
    points = {**{name: boiling(name) for name in PETROL if name != "trimethylbenzene"},
              "trimethylbenzene": KELVIN + 169.4}  # fmt: skip
    over = {
        at: sum(v for name, v in volumes.items() if points[name] <= at + KELVIN)
        / sum(volumes.values())
        for at in (70, 100, 150)
    }
    assert 0.20 < over[70] < 0.50
    assert 0.46 < over[100] < 0.71
    assert over[150] > 0.75
    assert sum(PETROL.values()) == pytest.approx(1.0)


@given(
    st.floats(240.0, 330.0),
    st.floats(0.2, 60.0),
    st.dictionaries(st.sampled_from(sorted(LIQUIDS)), st.floats(0.01, 5.0), min_size=1),
)
def test_what_is_given_off_is_in_equilibrium(temperature, air, liquid) -> None:
    """By Raoult and Dalton: of each component x p_i is its share of the gas times the pressure."""
    off = given_off(liquid, air, temperature, 1e5)
    gas = {name: mass / LIQUIDS[name].molar_mass for name, mass in off.items()}
    left = {name: (liquid[name] - mass) / LIQUIDS[name].molar_mass for name, mass in off.items()}
    all_gas, all_left = sum(gas.values()) + air / AIR_MOLAR_MASS, sum(left.values())
    assert all(-1e-9 <= mass <= liquid[name] * (1 + 1e-9) for name, mass in off.items())
    if all_left < 1e-6 * sum(gas.values()):
        return
    for name, amount in left.items():
        over_it = vapour_pressure(name, temperature)
        assert gas[name] / all_gas * 1e5 == pytest.approx(amount / all_left * over_it, rel=1e-4)


def test_a_single_liquid_saturates_its_air() -> None:
    """Of ethanol at 0 °C 1.60 kPa: 1.60/98.4 of 9 kg of air's moles, 46.07 g each: 0.233 kg."""
    known = PropsSI("P", "T", KELVIN, "Q", 0, "Ethanol")
    moles = known / (1e5 - known) * 9.0 / 28.96e-3
    off = given_off({"ethanol": 1.0}, 9.0, KELVIN, 1e5)
    assert off["ethanol"] == pytest.approx(moles * 46.07e-3, rel=0.01)


def test_alcohols_do_not_start_in_the_cold_and_petrol_does() -> None:
    """Neat ethanol and methanol are known not to start below 10 to 15 °C, petrol to at -20 °C with
    several times its fuel (from memory): a mixture of 0.65 at the least has to be had."""

    def richest(parts: dict[str, float], ratio: float, celsius: float) -> float:
        four = {name: 4.0 * share for name, share in parts.items()}
        return sum(given_off(four, ratio, celsius + KELVIN, 1e5).values())

    assert richest({"ethanol": 1.0}, 9.0, 10.0) < 0.65 < richest({"ethanol": 1.0}, 9.0, 20.0)
    assert richest({"methanol": 1.0}, 6.46, 8.0) < 0.65 < richest({"methanol": 1.0}, 6.46, 16.0)
    assert richest(dict(PETROL), 14.6, -20.0) > 0.65 > richest(dict(PETROL), 14.6, -35.0)
    assert math.isclose(richest({"propane": 1.0}, 15.6, -20.0), 4.0)


def test_no_vapour_beyond_what_was_fitted() -> None:
    with pytest.raises(OutsideValidity):
        vapour_pressure("hexane", 420.0)
    with pytest.raises(OutsideValidity):
        given_off({"hexane": 1.0}, 0.0, 300.0, 1e5)
