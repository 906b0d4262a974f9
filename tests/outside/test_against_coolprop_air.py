"""Air at one atmosphere against CoolProp (E. W. Lemmon's equations for air)."""

import pytest

from firstfire.formulas import ambient_air

CoolProp = pytest.importorskip("CoolProp.CoolProp")


@pytest.mark.parametrize("temperature", [250, 275, 300, 340, 375, 420, 500, 600])
def test_air(temperature: float) -> None:
    def of(name: str) -> float:
        return CoolProp.PropsSI(name, "T", temperature, "P", 101_325, "Air")

    found = ambient_air.dry_air(temperature)
    # 2.5 %: the handbook's transport data are older than the reference equation, and straight
    # lines join points 50 K apart.
    assert found.kinematic_viscosity == pytest.approx(of("V") / of("D"), rel=0.025)
    assert found.conductivity == pytest.approx(of("L"), rel=0.025)
    assert found.prandtl == pytest.approx(of("PRANDTL"), rel=0.035)
