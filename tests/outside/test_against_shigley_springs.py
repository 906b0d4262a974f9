"""Springs against Shigley, instructor's solutions to the 10th edition, problems 10-1 and 10-3.

Eq. 10-4, 10-5, 10-7, 10-9, 10-13, 10-14, 10-25 of *Shigley's Mechanical Engineering Design*.
"""

import pytest

from firstfire.formulas import spring, spring_wire

ROUNDED = 1e-3  # four figures in print


def test_problem_10_3_music_wire() -> None:
    wire, mean, active = 2.5e-3, 28.5e-3, 13
    index = spring.spring_index(mean, wire)
    stiffness = spring.rate(wire, mean, active, 81.0e9)
    strength = spring_wire.wire_strength("music wire", wire)
    factor = spring.bergstrasser_factor(index)
    force = spring.force_at_stress(0.45 * strength, wire, mean, factor)
    assert index == pytest.approx(11.4, rel=ROUNDED)
    assert stiffness == pytest.approx(1314, rel=ROUNDED)
    assert strength == pytest.approx(1936e6, rel=ROUNDED)
    assert factor == pytest.approx(1.117, rel=ROUNDED)
    assert force == pytest.approx(167.9, rel=ROUNDED)
    solid = spring.solid_length(wire, 14)
    assert solid == pytest.approx(35e-3)
    assert solid + force / stiffness == pytest.approx(162.8e-3, rel=ROUNDED)
    assert spring.critical_free_length(mean) == pytest.approx(149.9e-3, rel=ROUNDED)


@pytest.mark.parametrize(
    ("index", "wahl", "bergstrasser"),
    [(4, 1.4038, 1.3846), (5, 1.3105, 1.2941), (8, 1.1840, 1.1724), (12, 1.1194, 1.1111)],
)
def test_problem_10_1_factors(index: float, wahl: float, bergstrasser: float) -> None:
    assert spring.wahl_factor(index) == pytest.approx(wahl, rel=1e-4)
    assert spring.bergstrasser_factor(index) == pytest.approx(bergstrasser, rel=1e-4)


def test_problem_10_1_difference_of_the_factors() -> None:
    def difference(index: float) -> float:
        wahl = spring.wahl_factor(index)
        return (wahl - spring.bergstrasser_factor(index)) / wahl

    between = [difference(4 + 0.01 * i) for i in range(801)]
    # Printed to three figures: 1.36 % at C = 4 and 0.743 % at C = 12.
    assert max(between) == pytest.approx(0.0136, rel=5e-3)
    assert min(between) == pytest.approx(0.00743, rel=5e-3)
    assert difference(4) == max(between)
    assert difference(12) == pytest.approx(min(between))


def test_valve_spring_with_surge() -> None:
    # Eq. 10-9, 10-25, 10-26 and Wahl evaluated apart from this code.
    wire, mean, active, shear = 1.2e-3, 9e-3, 5.5, 79.3e9
    stiffness = spring.rate(wire, mean, active, shear)
    mass = spring.active_mass(wire, mean, active, 7850)
    surge = spring.surge_frequency(stiffness, mass)
    assert stiffness == pytest.approx(5126, rel=ROUNDED)
    assert mass == pytest.approx(1.381e-3, rel=ROUNDED)
    assert surge == pytest.approx(963.5, rel=ROUNDED)
    assert spring.surge_frequency(stiffness, mass, one_end_free=True) == pytest.approx(
        481.7, rel=ROUNDED
    )
    stress = spring.shear_stress(20.0, wire, mean, spring.wahl_factor(7.5))
    assert stress == pytest.approx(317.6e6, rel=ROUNDED)
    # f = c d/(n D²), c = 357.7 m/s: the trade form for steel, from memory.
    assert surge * active * mean**2 / wire == pytest.approx(357.7, rel=ROUNDED)
