"""Adiabatic burned gas at equilibrium against tabulated numbers.

Computed beforehand with Cantera 3.2.0 and its nasa_gas.yaml (NASA TM-4513, 1993). Tolerances for an
equilibrium on the same data: T 3 K, p 0.3 %, R 0.2 J/(kg K), CO and CO2 1 %, NO 2 %, n_s 0.003
(theirs are finite differences); traces under 0.0005: 10 % or 1e-5.
"""

from __future__ import annotations

import pytest

from firstfire.cycle.equilibrium_states import (
    BurnedGas,
    burn_at_constant_pressure,
    burn_at_constant_volume,
)
from firstfire.cycle.mixture_charge import (
    complete_products,
    enthalpy,
    fresh_charge,
    internal_energy,
    temperature_at_energy,
)

BAR = 1e5


def agrees(gas: BurnedGas, expected: dict[str, float]) -> None:
    for name, value in expected.items():
        if name == "T":
            assert gas.temperature == pytest.approx(value, abs=3.0)
        elif name == "p":
            assert gas.pressure / BAR == pytest.approx(value, rel=0.003)
        elif name == "R":
            assert gas.gas_constant == pytest.approx(value, abs=0.2)
        elif name == "gamma":
            assert gas.frozen_heat_capacity_ratio == pytest.approx(value, abs=0.002)
        elif name == "n_s":
            assert gas.isentropic_exponent == pytest.approx(value, abs=0.003)
        else:
            share = 0.02 if name == "NO" else 0.01
            found = gas.mole_fractions[name]
            rounding = 0.5e-5  # they are printed to five decimals
            if value < 0.0005:
                assert found == pytest.approx(value, rel=0.1, abs=1e-5)
            else:
                assert found == pytest.approx(value, rel=share, abs=rounding)


def rows(text: str) -> list[dict[str, float]]:
    head, *lines = [line.split() for line in text.strip().splitlines()]
    return [dict(zip(head, map(float, line), strict=True)) for line in lines]


# Iso-octane vapour, constant pressure, from 298.15 K and 1 bar.
COLD_PRESSURE = rows("""
phi T      R      gamma  n_s    CO      CO2     NO
0.7 1884.2 288.94 1.2673 1.2521 0.00018 0.08927 0.00279
0.9 2184.7 290.36 1.2547 1.2017 0.00424 0.10867 0.00357
1.0 2270.9 292.36 1.2520 1.1774 0.01358 0.11021 0.00243
1.1 2271.3 296.24 1.2531 1.2013 0.03294 0.10059 0.00091
1.3 2131.0 307.03 1.2615 1.2481 0.07834 0.07201 0.00007
""")

# The same from 700 K and 30 bar.
HOT_PRESSURE = rows("""
phi T      R      gamma  n_s    CO      CO2     NO
0.7 2190.8 289.03 1.2612 1.2407 0.00039 0.08903 0.00620
0.9 2483.1 290.50 1.2506 1.2046 0.00494 0.10791 0.00632
1.0 2572.3 292.44 1.2481 1.1871 0.01438 0.10937 0.00405
1.1 2573.9 296.32 1.2492 1.2063 0.03436 0.09913 0.00154
1.3 2437.3 307.07 1.2566 1.2445 0.08104 0.06929 0.00017
""")

# Constant volume, from 298.15 K and 1 bar.
COLD_VOLUME = rows("""
phi T      p     R      n_s    CO      CO2     NO
0.7 2268.3 7.930 289.32 1.2267 0.00127 0.08806 0.00732
0.9 2559.3 9.115 292.04 1.1807 0.01168 0.10058 0.00764
1.0 2635.9 9.514 294.62 1.1693 0.02397 0.09887 0.00586
1.1 2660.5 9.763 298.16 1.1757 0.04128 0.09138 0.00359
1.3 2575.3 9.839 307.67 1.2205 0.08264 0.06740 0.00075
""")

# The same from 700 K and 30 bar, near the state at firing.
HOT_VOLUME = rows("""
phi T      p      R      n_s    CO      CO2     NO
0.7 2542.1 113.61 289.44 1.2231 0.00164 0.08764 0.01204
0.9 2841.4 129.29 291.99 1.1898 0.01170 0.10058 0.01112
1.0 2926.0 134.88 294.46 1.1806 0.02388 0.09903 0.00816
1.1 2952.6 138.38 298.02 1.1873 0.04180 0.09093 0.00480
1.3 2865.4 139.89 307.67 1.2243 0.08441 0.06563 0.00106
""")


def phi(row: dict[str, float]) -> str:
    return f"phi {row['phi']}"


def without_phi(row: dict[str, float]) -> dict[str, float]:
    return {name: value for name, value in row.items() if name != "phi"}


@pytest.mark.parametrize("row", COLD_PRESSURE, ids=phi)
def test_constant_pressure_from_room_conditions(row: dict[str, float]) -> None:
    gas = burn_at_constant_pressure("iso-octane", row["phi"], 298.15, BAR)
    agrees(gas, without_phi(row))


@pytest.mark.parametrize("row", HOT_PRESSURE, ids=phi)
def test_constant_pressure_from_a_compressed_charge(row: dict[str, float]) -> None:
    gas = burn_at_constant_pressure("iso-octane", row["phi"], 700.0, 30 * BAR)
    agrees(gas, without_phi(row))


@pytest.mark.parametrize("row", COLD_VOLUME, ids=phi)
def test_constant_volume_from_room_conditions(row: dict[str, float]) -> None:
    gas = burn_at_constant_volume("iso-octane", row["phi"], 298.15, BAR)
    agrees(gas, without_phi(row))


@pytest.mark.parametrize("row", HOT_VOLUME, ids=phi)
def test_constant_volume_from_a_compressed_charge(row: dict[str, float]) -> None:
    gas = burn_at_constant_volume("iso-octane", row["phi"], 700.0, 30 * BAR)
    agrees(gas, without_phi(row))


# Stoichiometric, from 298.15 K and 1 bar: constant-p T, CO, NO; constant-V T, p in bar.
OTHER_FUELS = {
    "propane": (2265.4, 0.01254, 0.00233, 2629.7, 9.330),
    "ethanol": (2236.0, 0.01143, 0.00207, 2593.4, 9.414),
    "methanol": (2220.6, 0.01006, 0.00189, 2572.1, 9.296),
}


@pytest.mark.parametrize("fuel", OTHER_FUELS)
def test_other_fuels(fuel: str) -> None:
    flame, carbon_monoxide, nitric_oxide, bomb, pressure = OTHER_FUELS[fuel]
    burned = burn_at_constant_pressure(fuel, 1.0, 298.15, BAR)
    agrees(burned, {"T": flame, "CO": carbon_monoxide, "NO": nitric_oxide})
    agrees(burn_at_constant_volume(fuel, 1.0, 298.15, BAR), {"T": bomb, "p": pressure})


# S. R. Turns, An Introduction to Combustion, Table B.1 (from memory): adiabatic flame temperature
# at 1 atm, other thermodynamic data: 10 K.
@pytest.mark.parametrize(("fuel", "printed"), [("iso-octane", 2275.0), ("propane", 2267.0)])
def test_flame_temperature_as_printed(fuel: str, printed: float) -> None:
    gas = burn_at_constant_pressure(fuel, 1.0, 298.0, 1.01325 * BAR)
    assert gas.temperature == pytest.approx(printed, abs=10.0)


# Start T, p in bar, phi; frozen T and equilibrium T, frozen p in bar. Tolerance 5 K.
DISSOCIATION = [
    (298.15, 1.0, 1.0, 2920.0, 2635.9, 10.359),
    (700.0, 30.0, 1.0, 3204.2, 2926.0, 145.24),
    (700.0, 30.0, 0.8, 2819.6, 2709.4, 126.43),
]


@pytest.mark.parametrize("row", DISSOCIATION, ids=lambda row: f"{row[0]:g} K, phi {row[2]}")
def test_dissociation_takes_its_share_at_constant_volume(row: tuple[float, ...]) -> None:
    temperature, bar, ratio, frozen, equilibrium, frozen_bar = row
    charge, products = fresh_charge("iso-octane", ratio), complete_products("iso-octane", ratio)
    hot = temperature_at_energy(products, internal_energy(charge, temperature))
    assert hot == pytest.approx(frozen, abs=5.0)
    pressed = bar * products.gas_constant * hot / (charge.gas_constant * temperature)
    assert pressed == pytest.approx(frozen_bar, rel=0.003)
    gas = burn_at_constant_volume("iso-octane", ratio, temperature, bar * BAR)
    assert gas.temperature == pytest.approx(equilibrium, abs=5.0)


def test_dissociation_takes_its_share_at_constant_pressure() -> None:
    # Frozen 2403.1 K, equilibrium 2270.9 K.
    charge, products = fresh_charge("iso-octane", 1.0), complete_products("iso-octane", 1.0)
    gap = enthalpy(products, 2403.1) - enthalpy(charge, 298.15)
    assert abs(gap) < 5.0 * 1500.0  # 5 K of about 1500 J/(kg K)
    assert burn_at_constant_pressure("iso-octane", 1.0, 298.15, BAR).temperature < 2403.1 - 125.0
