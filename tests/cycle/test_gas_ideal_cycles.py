"""Frozen compression and the fuel-air Otto cycle against tabulated numbers.

Computed beforehand with Cantera 3.2.0 (NASA TM-4513 data).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest

from firstfire.cycle.equilibrium_states import burn_at_constant_volume, expand_to_volume
from firstfire.cycle.mixture_charge import compress, fresh_charge, internal_energy
from firstfire.cycle.thermo_data import air, fuel_vapour

# Compression ratio; air T, p in bar, exponent; iso-octane phi 1 the same; from 300 K and 1 bar.
COMPRESSION = [
    (6, 604.5, 12.089, 1.3910, 547.5, 10.951, 1.3358),
    (8, 672.7, 17.939, 1.3883, 598.7, 15.965, 1.3323),
    (10, 729.7, 24.324, 1.3860, 640.6, 21.354, 1.3295),
]


@pytest.mark.parametrize("row", COMPRESSION, ids=lambda row: f"ratio {row[0]}")
def test_isentropic_compression(row: tuple[float, ...]) -> None:
    ratio, *expected = row
    gases = (air(), expected[:3]), (fresh_charge("iso-octane", 1.0), expected[3:])
    for gas, (temperature, bar, exponent) in gases:
        hot, pressure = compress(gas, 300.0, 1e5, ratio)
        assert hot == pytest.approx(temperature, abs=1.0)
        assert pressure / 1e5 == pytest.approx(bar, rel=0.003)
        # 0.3 % of pressure is 0.0017 of the exponent at a ratio of 6
        found = math.log(pressure / 1e5) / math.log(ratio)
        assert found == pytest.approx(exponent, abs=0.0017)


@dataclass(frozen=True)
class Otto:
    compressed: tuple[float, float]
    burned: tuple[float, float]
    expanded: tuple[float, float]
    imep: float
    efficiency: float


def otto(fuel: str, equivalence_ratio: float, ratio: float) -> Otto:
    """Isentropic frozen compression, burn at constant volume, isentropic shifting expansion."""
    charge = fresh_charge(fuel, equivalence_ratio)
    volume = charge.gas_constant * 300.0 / 1e5
    hot, pressure = compress(charge, 300.0, 1e5, ratio)
    burned = burn_at_constant_volume(fuel, equivalence_ratio, hot, pressure)
    expanded = expand_to_volume(burned, volume)
    work = internal_energy(charge, 300.0) - internal_energy(charge, hot)
    work += burned.internal_energy - expanded.internal_energy
    vapour = fuel_vapour(fuel)
    share = equivalence_ratio / (equivalence_ratio + vapour.stoichiometric_air_fuel_ratio)
    return Otto(
        (hot, pressure),
        (burned.temperature, burned.pressure),
        (expanded.temperature, expanded.pressure),
        work / (volume * (1 - 1 / ratio)),
        work / (share * vapour.lower_heating_value),
    )


def test_stoichiometric_iso_octane_at_eight_to_one() -> None:
    cycle = otto("iso-octane", 1.0, 8.0)
    states = (cycle.compressed, cycle.burned, cycle.expanded)
    expected = ((598.7, 15.965), (2855.9, 81.88), (1892.7, 6.678))
    for (temperature, pressure), (kelvin, bar) in zip(states, expected, strict=True):
        assert temperature == pytest.approx(kelvin, abs=4.0)
        assert pressure / 1e5 == pytest.approx(bar, rel=0.004)
    assert cycle.imep / 1e5 == pytest.approx(16.57, rel=0.005)
    assert cycle.efficiency == pytest.approx(0.4301, rel=0.005)


# Fuel, phi, ratio; T3, p3 in bar, T4, imep in bar, efficiency.
TRENDS = [
    ("iso-octane", 1.0, 6, 2819.4, 60.63, 1999.5, 15.44, 0.3818),
    ("iso-octane", 1.0, 7, 2838.7, 71.21, 1942.0, 16.05, 0.4081),
    ("iso-octane", 1.0, 10, 2885.8, 103.44, 1811.7, 17.42, 0.4653),
    ("iso-octane", 0.8, 8, 2646.2, 74.16, 1612.7, 14.04, 0.4541),
    ("iso-octane", 1.2, 8, 2845.7, 84.60, 1719.9, 16.48, 0.3577),
    ("propane", 1.0, 8, 2853.1, 80.43, 1887.9, 16.15, 0.4288),
]


@pytest.mark.parametrize("row", TRENDS, ids=lambda row: f"{row[0]} {row[1]} {row[2]}")
def test_trends(row: tuple[str, float, float, float, float, float, float, float]) -> None:
    fuel, equivalence_ratio, ratio, hot, bar, late, imep, efficiency = row
    cycle = otto(fuel, equivalence_ratio, ratio)
    assert cycle.burned[0] == pytest.approx(hot, abs=4.0)
    assert cycle.burned[1] / 1e5 == pytest.approx(bar, rel=0.004)
    assert cycle.expanded[0] == pytest.approx(late, abs=4.0)
    assert cycle.imep / 1e5 == pytest.approx(imep, rel=0.005)
    assert cycle.efficiency == pytest.approx(efficiency, rel=0.005)
