"""Spark gap and ignition energy against high-voltage and fire handbooks.

Sources: E. Kuffel, W. S. Zaengl, J. Kuffel, *High Voltage Engineering*, 2nd ed. (practical form
and its rival; from memory); Townsend form with the constants of air (read on a public page on
Paschen's law); a published abstract on ignition demand in engines (0.6 mm: about 8 kV at
compression ratio 8). Tolerances: 0.1 % arithmetic, 10 % between forms.
"""

import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas import spark_gap


def test_paschen_minimum() -> None:
    minimum = min(
        (spark_gap.townsend_voltage(1e-5 * i * spark_gap.TORR), 1e-3 * i) for i in range(400, 2000)
    )
    assert minimum[0] == pytest.approx(305.3, rel=1e-3)
    assert minimum[1] == pytest.approx(0.836, abs=2e-3)
    # Measured: about 327 V (read); the form is within 10 %.
    assert minimum[0] == pytest.approx(327, rel=0.1)


def test_townsend_form_at_10_torr_cm_and_the_practical_form_agree() -> None:
    townsend = spark_gap.townsend_voltage(10e-2 * spark_gap.TORR)
    assert townsend == pytest.approx(1048.5, rel=1e-3)
    practical = spark_gap.breakdown_voltage(10e-2 / 760 * 1.0001, 101_325.0, 293.15)
    assert practical == pytest.approx(townsend, rel=0.10)


def test_townsend_form_is_refused_where_its_constants_fail() -> None:
    # At 76 Torr cm it would say 5035 V with a field of 66 V/(cm Torr), below the 100 to 800.
    with pytest.raises(OutsideValidity):
        spark_gap.townsend_voltage(76e-2 * spark_gap.TORR)


def test_one_millimetre_in_open_air() -> None:
    gap = (1e-3, 101_325.0, 293.15)
    assert spark_gap.breakdown_voltage(*gap) == pytest.approx(4345, rel=1e-3)
    rival = spark_gap.breakdown_voltage_rival(*gap)
    assert rival == pytest.approx(4607, rel=1e-3)
    assert rival == pytest.approx(spark_gap.breakdown_voltage(*gap), rel=0.10)


@pytest.mark.parametrize(
    ("gap", "pressure", "temperature", "kilovolts"),
    [(0.7e-3, 8e5, 550.0, 10.43), (0.7e-3, 12e5, 600.0, 13.68), (0.5e-3, 8e5, 550.0, 7.89)],
)
def test_plug_demand(gap: float, pressure: float, temperature: float, kilovolts: float) -> None:
    found = 1e-3 * spark_gap.breakdown_voltage(gap, pressure, temperature)
    assert found == pytest.approx(kilovolts, rel=1e-3)


def test_demand_of_a_new_plug_at_compression_ratio_8() -> None:
    # Published: 0.6 mm asks for 2-3 kV in open air and about 8 kV in the engine; 6 to 14 passes.
    assert 2e3 < spark_gap.breakdown_voltage(0.6e-3, 101_325.0, 293.15) < 3.2e3
    for gap in (0.6e-3, 0.7e-3):
        assert 6e3 < spark_gap.breakdown_voltage(gap, 8e5, 550.0) < 14e3


def test_ignition_energy_rises_as_pressure_falls() -> None:
    # Metzler, NACA RM E53H31: roughly as the pressure to the power -2; propane 0.25 mJ at 1 atm.
    half = spark_gap.ignition_energy(0.25e-3, 0.5 * 101_325.0)
    assert half == pytest.approx(4 * 0.25e-3, rel=1e-9)


@pytest.mark.parametrize(
    ("gap", "kilovolts"), [(1e-3, 4.5), (2e-3, 8.0), (5e-3, 17.0), (10e-3, 31.0)]
)
def test_sphere_gaps_in_open_air(gap: float, kilovolts: float) -> None:
    # Uniform field, 1 atm, 20 °C, from handbooks' tables of sphere gaps (IEC 60052 and before;
    # peak values, from memory): within 8 %, and the rival too.
    for law in (spark_gap.breakdown_voltage, spark_gap.breakdown_voltage_rival):
        assert law(gap, 101_325.0, 293.15) / 1e3 == pytest.approx(kilovolts, rel=0.08)


def test_only_density_counts() -> None:
    # Paschen: as many molecules across the gap ask for the same, hot and dense or cold and thin.
    cold = spark_gap.breakdown_voltage(0.6e-3, 4e5, 293.15)
    hot = spark_gap.breakdown_voltage(0.6e-3, 8e5, 586.3)
    assert hot == pytest.approx(cold, rel=1e-12)
