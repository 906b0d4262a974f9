"""What must hold for any wall: more insulation never warms what is behind it, and the like."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.heat.made_cycle import made_cycle

from firstfire.formulas.solid import Solid
from firstfire.heat.advance import advance
from firstfire.heat.exposure import Cooling, Exposure
from firstfire.heat.gas_side import gas_side, steady_gas
from firstfire.heat.history import cold
from firstfire.heat.layers import Layer
from firstfire.heat.network import Network
from firstfire.heat.profiles import all_rows, profile, row_at
from firstfire.heat.stack import flat_stack

AIR = 293.15
GAS = gas_side(made_cycle())
ALUMINIUM = Solid(167.0, 2700.0, 896.0)
plastics = st.builds(
    Solid, st.floats(0.12, 0.9), st.floats(900.0, 1700.0), st.floats(900.0, 2000.0)
)
FEW = settings(max_examples=25)


def crown(plastic, shield=0.0, *, contact=5e-4, decomposition=math.inf):
    layers = [Layer("crown", plastic, 5e-3, contact if shield else 0.0, decomposition)]
    if shield:
        layers.insert(0, Layer("shield", ALUMINIUM, shield))
    return Network((flat_stack("crown", layers, 1.0),))


def run(network, gas=GAS, film=60.0, seconds=5.0):
    exposure = Exposure(gas={"crown": gas}, cooling={"crown": Cooling(AIR, constant=film)})
    return advance(cold(network, AIR), exposure, seconds)


def hottest(history, part="crown"):
    return max(profile(rows, part).peak.max() for rows in all_rows(history))


@FEW
@given(plastics, st.floats(0.2e-3, 2e-3), st.floats(1.1, 3.0))
def test_a_thicker_shield_never_warms_the_plastic(plastic, shield, times):
    thin = run(crown(plastic, shield), seconds=8.0)
    thick = run(crown(plastic, shield * times), seconds=8.0)
    assert hottest(thick) <= hottest(thin) + 0.1
    back = [profile(row_at(one, 8.0), "crown").temperature[0, -1] for one in (thin, thick)]
    assert back[1] <= back[0] + 0.01


@FEW
@given(plastics, st.floats(1.1, 3.0))
def test_better_conduction_never_warms_the_surface(plastic, times):
    better = plastic._replace(conductivity=plastic.conductivity * times)
    assert hottest(run(crown(better))) <= hottest(run(crown(plastic))) + 0.1


@FEW
@given(plastics, st.floats(1.1, 3.0))
def test_stronger_cooling_never_warms_anything(plastic, times):
    weak, strong = run(crown(plastic)), run(crown(plastic), film=60.0 * times)
    assert (strong.temperatures[-1] <= weak.temperatures[-1] + 1e-6).all()


@FEW
@given(plastics, st.floats(1.1, 2.0))
def test_a_larger_coefficient_never_cools_the_surface(plastic, times):
    usual, more = run(crown(plastic)), run(crown(plastic), gas=GAS.scaled(times))
    assert hottest(more) >= hottest(usual) - 0.1


@FEW
@given(plastics, st.floats(250.0, 800.0))
def test_nothing_is_ever_hotter_than_the_gas_or_colder_than_the_air(plastic, coefficient):
    history = run(crown(plastic, 1e-3), gas=steady_gas(coefficient, 1100.0), seconds=300.0)
    assert history.temperatures.max() <= 1100.0 + 1e-6
    assert history.temperatures.min() >= AIR - 1e-6


@FEW
@given(plastics)
def test_char_only_grows_and_only_above_decomposition(plastic):
    network = crown(plastic, decomposition=620.0)
    history = run(network, seconds=60.0)
    charred = history.charred[:, 0]
    assert (np.diff(charred) >= 0).all()
    # heat still soaks in for a moment after the stop
    history = advance(history, Exposure(cooling={"crown": Cooling(AIR, constant=60.0)}), 600.0)
    charred = history.charred[:, 0]
    assert (np.diff(charred) >= 0).all()
    for index in np.flatnonzero(np.diff(charred)):
        found = profile(row_at(history, history.seconds[index + 1]), "crown")
        # the peak in depth is drawn as a straight line over the surface's mean
        assert max(found.peak[0], found.temperature.max()) > 620.0 - 1.0
    assert charred[-1] == charred[history.seconds < 200.0][-1]


def test_char_keeps_heat_from_what_is_behind_it():
    plastic = Solid(0.2, 1270.0, 1250.0)
    charring = run(crown(plastic, decomposition=620.0), seconds=60.0)
    lasting = run(crown(plastic), seconds=60.0)
    assert charring.charred[-1, 0] > 0
    behind = [profile(row_at(one, 60.0), "crown").temperature[0, -1] for one in (charring, lasting)]
    assert behind[0] < behind[1]
    assert charring.received[-1, 0] < lasting.received[-1, 0]


def test_scale_of_area_scales_heat_and_nothing_else():
    plastic = Solid(0.2, 1270.0, 1250.0)
    layers = (Layer("crown", plastic, 5e-3),)
    one, ten = (run(Network((flat_stack("crown", layers, area),))) for area in (1e-3, 1e-2))
    assert ten.temperatures[-1] == pytest.approx(one.temperatures[-1], rel=1e-9)
    assert ten.received[-1, 0] == pytest.approx(10 * one.received[-1, 0], rel=1e-9)
