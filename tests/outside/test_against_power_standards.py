"""Weather and power corrections against ISO 1585, SAE J1349 and a reference library.

Sources: ISO 1585 / UN Regulation 85 (from memory); SAE J1349, June 1990 (formula read as quoted
in public); moist air by CoolProp 8.0.0 `HAPropsSI`, evaluated here. Tolerances: 5e-4 on the
factors (the vapour formula), 0.1 % on density and 0.7 % on vapour pressure (two vapour formulas
and real gas).
"""

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from firstfire.errors import OutsideValidity
from firstfire.formulas import atmosphere

# Pressure Pa, temperature K, relative humidity: dry pressure, ISO factor, SAE factor
DAYS = {
    "a": (101_325.0, 298.15, 0.0, 101_325.0, 0.97253, 0.97292),
    "b": (100e3, 308.15, 0.80, 95_499.0, 1.0650, 1.06362),
    "c": (95e3, 303.15, 0.60, 92_453.0, 1.0965, 1.09412),
}


@pytest.mark.parametrize("day", DAYS)
def test_dry_pressure_and_sae_factor(day: str) -> None:
    pressure, temperature, humidity, dry, _, sae = DAYS[day]
    found = pressure - atmosphere.vapour_pressure(temperature, humidity)
    assert found == pytest.approx(dry, rel=5e-5)
    assert atmosphere.sae_j1349(found, temperature) == pytest.approx(sae, abs=5e-4)


@pytest.mark.parametrize("day", ["a", "b"])
def test_iso_factor(day: str) -> None:
    _, temperature, _, dry, iso, _ = DAYS[day]
    assert atmosphere.iso_1585(dry, temperature) == pytest.approx(iso, abs=5e-4)


def test_iso_refuses_a_correction_beyond_its_limits() -> None:
    _, temperature, _, dry, iso, _ = DAYS["c"]
    assert iso > 1.07
    with pytest.raises(OutsideValidity, match=r"1\.09.*ISO 1585"):
        atmosphere.iso_1585(dry, temperature)


# Pressure Pa, temperature K, relative humidity: density kg/m³, vapour pressure Pa, humidity ratio
AIR = [
    (101_325.0, 298.15, 0.0, 1.18435, 0.0, 0.0),
    (95e3, 303.15, 0.60, 1.08099, 2558.9, 0.017216),
    (100e3, 308.15, 0.80, 1.11166, 4523.5, 0.029467),
]


@pytest.mark.parametrize(("p", "t", "humidity", "density", "vapour", "ratio"), AIR)
def test_moist_air(
    p: float, t: float, humidity: float, density: float, vapour: float, ratio: float
) -> None:
    # The library gives volume per kg of dry air, hence the factor; 1e-4 for its rounding here.
    library = (1 + ratio) / HAPropsSI("V", "P", p, "T", t, "R", humidity)
    assert library == pytest.approx(density, rel=1e-4)
    assert atmosphere.moist_air_density(p, t, humidity) == pytest.approx(density, rel=1e-3)
    assert atmosphere.vapour_pressure(t, humidity) == pytest.approx(vapour, rel=7e-3)
    assert atmosphere.humidity_ratio(p, t, humidity) == pytest.approx(ratio, rel=1e-2)
