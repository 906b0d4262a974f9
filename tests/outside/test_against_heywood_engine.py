"""Ideal cycle, mean pressures and motored friction against Heywood and a rating sheet.

Sources: J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 5.5
(exact algebra), Eq. 2.19 and 2.20 (exact arithmetic), Eq. 13.6 (from memory); K. J. Patton, R. G.
Nitschke, J. B. Heywood, SAE 890836, 1989 (constants from memory); the rating sheet of a 163 cm³
engine (68 x 45 mm, SAE J1349 net, read in its owner's manual).
"""

import math

import pytest

from firstfire.formulas import friction_metal, mean_pressure
from firstfire.formulas.ideal_cycle import State, otto_cycle, otto_efficiency

EFFICIENCY = {
    1.4: [0.47469, 0.51164, 0.54084, 0.56472, 0.58476, 0.60189],
    1.3: [0.38297, 0.41581, 0.44221, 0.46411, 0.48272, 0.49881],
}


@pytest.mark.parametrize("gamma", EFFICIENCY)
def test_otto_efficiency_for_ratios_5_to_10(gamma: float) -> None:
    found = [otto_efficiency(ratio, gamma) for ratio in range(5, 11)]
    assert found == pytest.approx(EFFICIENCY[gamma], abs=1e-5)


def test_cold_air_cycle() -> None:
    # Compression ratio 8, 1800 kJ/kg from 300 K and 1 bar; exact, tolerance 0.01 % of the digits.
    cycle = otto_cycle(8.0, 1.4, 287.0, State(1e5, 300.0), 1.8e6)
    assert cycle.compressed.temperature == pytest.approx(689.2, rel=1e-4)
    assert cycle.compressed.pressure == pytest.approx(18.379e5, rel=1e-4)
    assert cycle.burned.temperature == pytest.approx(3197.9, rel=1e-4)
    assert cycle.burned.pressure == pytest.approx(85.278e5, rel=1e-4)
    assert cycle.expanded.temperature == pytest.approx(1392.0, rel=1e-4)
    assert cycle.expanded.pressure == pytest.approx(4.640e5, rel=1e-4)
    assert cycle.efficiency == pytest.approx(0.56472, abs=1e-5)
    assert cycle.mean_effective_pressure == pytest.approx(13.493e5, rel=1e-4)


def test_work_of_the_cycle_closes() -> None:
    cycle = otto_cycle(8.0, 1.4, 287.0, State(1e5, 300.0), 1.8e6)
    lost = 287.0 / 0.4 * (cycle.expanded.temperature - 300.0)
    assert 1.0 - lost / 1.8e6 == pytest.approx(cycle.efficiency, rel=1e-12)


def test_bmep_of_the_rating_sheet() -> None:
    volume = mean_pressure.swept_volume(0.068, 0.045)
    assert 1e6 * volume == pytest.approx(163.43, rel=1e-4)
    torque = [mean_pressure.mean_effective_pressure(m, volume) / 1e5 for m in (9.6, 9.0)]
    assert torque == pytest.approx([7.38, 6.92], rel=1e-3)
    power = [
        mean_pressure.mean_effective_pressure_of_power(p, volume, rpm * math.pi / 30) / 1e5
        for p, rpm in ((3200, 3600), (2700, 3000))
    ]
    assert power == pytest.approx([6.53, 6.61], rel=1e-3)
    assert 3.2 / (1e3 * volume) == pytest.approx(19.6, rel=2e-3)
    assert mean_pressure.torque(power[0] * 1e5, volume) == pytest.approx(8.49, rel=1e-3)
    assert mean_pressure.power(power[0] * 1e5, volume, 120 * math.pi) == pytest.approx(3200)


def test_barnes_moss() -> None:
    rpm = [1000, 2000, 3000, 3600, 4000, 6000]
    found = [friction_metal.barnes_moss(n * math.pi / 30) / 1e5 for n in rpm]
    assert found == pytest.approx([1.170, 1.470, 1.870, 2.158, 2.370, 3.670], abs=1e-3)


def test_patton_nitschke_heywood() -> None:
    # One cylinder 68 x 45, compression ratio 8.5, 3600 rpm, two mains 25 x 15, crankpin 30 x 20;
    # kPa; 0.1 % on the arithmetic.
    speed, size = 120 * math.pi, (0.068, 0.045)
    piston_speed = mean_pressure.mean_piston_speed(0.045, speed)
    assert piston_speed == pytest.approx(5.4)
    terms = [
        friction_metal.crankshaft_seals(0.025, *size),
        friction_metal.journal_bearings(speed, 0.025, 0.015, 2, size),
        friction_metal.turbulent_dissipation(speed, 0.025, 2),
        friction_metal.piston_skirt(piston_speed, 0.068),
        friction_metal.piston_rings(speed, 0.068),
        friction_metal.journal_bearings(speed, 0.030, 0.020, 1, size),
        friction_metal.ring_gas_load(1e5, 1e5, 8.5, piston_speed),
    ]
    expected = [14.66, 2.457, 2.187, 23.35, 11.22, 2.831, 21.56]
    assert [1e-3 * term for term in terms] == pytest.approx(expected, rel=1e-3)
    assert 1e-3 * sum(terms) == pytest.approx(78.26, rel=1e-3)
