"""Heat in walls against Incropera and Carslaw-Jaeger.

Sources: F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed.; H. S.
Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed. Closed forms evaluated apart from
this code, 0.1 % for four figures; printed examples carry their own tolerance.
"""

import pytest

from firstfire.formulas import (
    free_convection,
)
from firstfire.formulas.forced_convection import (
    across_tube_nusselt,
    film_coefficient,
    reynolds,
)
from firstfire.formulas.solid import Solid

FOUR_FIGURES = 1e-3


PIPE, THICKNESS = Solid(63.9, 7832.0, 434.0), 40e-3


def test_example_9_4_level_pipe_in_still_air() -> None:
    # Printed 23.3 and 7.29 (from memory); Churchill-Chu itself gives 23.09, so 1.2 %.
    nusselt = free_convection.level_tube_nusselt(5.073e6, 0.697)
    assert nusselt == pytest.approx(23.3, rel=0.012)
    assert nusselt == pytest.approx(23.09, rel=FOUR_FIGURES)
    assert film_coefficient(nusselt, 0.0313, 0.1) == pytest.approx(7.29, rel=0.012)


def test_example_7_4_rod_in_a_stream() -> None:
    # From memory; Churchill-Bernstein; 0.3 % for the three figures of the print.
    number = reynolds(10.0, 12.7e-3, 20.92e-6)
    assert number == pytest.approx(6071, rel=FOUR_FIGURES)
    nusselt = across_tube_nusselt(6071, 0.70)
    assert nusselt == pytest.approx(40.6, rel=3e-3)
    assert film_coefficient(nusselt, 0.030, 12.7e-3) == pytest.approx(96, rel=3e-3)


def test_film_coefficients_lie_in_the_usual_ranges() -> None:
    # Incropera Table 1.1, from memory: free gas 2 to 25, forced gas 25 to 250 W/m²K.
    from firstfire.formulas.ambient_air import dry_air

    air = dry_air(330.0)
    ra = free_convection.rayleigh(60e-3, 360.0, 300.0, air.kinematic_viscosity, air.prandtl)
    free = free_convection.level_tube_nusselt(ra, air.prandtl)
    assert 2 < film_coefficient(free, air.conductivity, 60e-3) < 25
    fan = across_tube_nusselt(reynolds(6.0, 60e-3, air.kinematic_viscosity), air.prandtl)
    assert 25 < film_coefficient(fan, air.conductivity, 60e-3) < 250
