"""A charge that burns at once in a shut pipe, against chemical equilibrium and published limits.

Sources: Cantera's equilibrium at constant energy and volume (GRI-Mech 3.0), from 300 K and 1 atm;
pressures of hydrocarbons in a shut vessel, 8 to 9 times the first one, and limits of burning:
Zabetakis, Bureau of Mines Bulletin 627, 1965, from memory.
"""

import cantera
import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas.pipe_burn import can_burn, heat_in, shut_in_rise

ATMOSPHERE = 101_325.0
HEATING_VALUE = {"C3H8": 46.35e6, "CH4": 50.0e6}
JUST_ENOUGH = {"C3H8": 15.6, "CH4": 17.2}


@pytest.mark.parametrize(("fuel", "ratio"), [("C3H8", 1.0), ("C3H8", 0.7), ("CH4", 1.0)])
def test_the_rise_bounds_that_of_equilibrium_and_not_by_far(fuel, ratio):
    """A constant exponent and nothing that comes apart against both."""
    gas = cantera.Solution("gri30.yaml")
    gas.set_equivalence_ratio(ratio, fuel, "O2:0.21, N2:0.79")
    gas.TP = 300.0, ATMOSPHERE
    share = gas[fuel].Y[0]
    heat = heat_in(
        (1 - share) * gas.density, share * gas.density, JUST_ENOUGH[fuel], HEATING_VALUE[fuel]
    )
    gas.equilibrate("UV")
    assert 1.0 < shut_in_rise(heat, 1.0) / (gas.P - ATMOSPHERE) < 1.25
    assert 5.0 < gas.P / ATMOSPHERE < 10.0


def test_no_more_burns_than_its_air_lets():
    """1 g of air is enough for 1/15.6 g of propane, 2.971 kJ; with half of that, half."""
    assert heat_in(1e-3, 1.0, 15.6, 46.35e6) == pytest.approx(2971.0, rel=1e-3)
    assert heat_in(1e-3, 0.5e-3 / 15.6, 15.6, 46.35e6) == pytest.approx(1485.6, rel=1e-3)


@pytest.mark.parametrize(
    ("ratio", "burned", "does"),
    [(1.0, 0.0, True), (0.5, 0.0, False), (0.6, 0.0, True), (4.0, 0.0, False), (3.0, 0.0, True),
     (1.0, 0.4, True), (1.0, 0.45, False)],
)  # fmt: skip
def test_limits_of_hydrocarbons(ratio, burned, does):
    assert can_burn(ratio, burned) is does


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: heat_in(-1.0, 1.0, 15.0, 1.0),
        lambda: heat_in(1.0, 1.0, 0.0, 1.0),
        lambda: shut_in_rise(-1.0, 1.0),
        lambda: shut_in_rise(1.0, 0.0),
    ],
)
def test_what_has_no_meaning_is_refused(wrong):
    with pytest.raises(OutsideValidity):
        wrong()
