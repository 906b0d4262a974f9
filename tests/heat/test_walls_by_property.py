"""What must hold for any wall: more insulation never warms what is behind it, and the like."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.heat.made_cycle import made_cycle

from firstfire.formulas.solid import Solid
from firstfire.heat import assumed
from firstfire.heat.advance import advance
from firstfire.heat.answers import char_depths
from firstfire.heat.exposure import Cooling, Exposure
from firstfire.heat.gas_side import gas_side, steady_gas
from firstfire.heat.history import cold
from firstfire.heat.layers import Layer
from firstfire.heat.network import Network
from firstfire.heat.profiles import Profiles, all_rows, row_at
from firstfire.heat.stack import flat_stack

AIR = 293.15
GAS = gas_side(made_cycle())
ALUMINIUM = Solid(167.0, 2700.0, 896.0)
plastics = st.builds(
    Solid, st.floats(0.12, 0.9), st.floats(900.0, 1700.0), st.floats(900.0, 2000.0)
)
FEW = settings(max_examples=25)


def crown(plastic, shield=0.0, *, contact=5e-4, decomposition=math.inf, swept=False):
    layers = [Layer("crown", plastic, 5e-3, contact if shield else 0.0, decomposition)]
    if shield:
        layers.insert(0, Layer("shield", ALUMINIUM, shield))
    return Network((replace(flat_stack("crown", layers, 1.0), swept=swept),))


def run(network, gas=GAS, film=60.0, seconds=5.0):
    exposure = Exposure(gas={"crown": gas}, cooling={"crown": Cooling(AIR, constant=film)})
    return advance(cold(network, AIR), exposure, seconds)


def hottest(history, part="crown"):
    return max(Profiles(rows)[part].peak.max() for rows in all_rows(history))


@FEW
@given(plastics, st.floats(0.2e-3, 2e-3), st.floats(1.1, 3.0))
def test_a_thicker_shield_never_warms_the_plastic(plastic, shield, times):
    thin = run(crown(plastic, shield), seconds=8.0)
    thick = run(crown(plastic, shield * times), seconds=8.0)
    assert hottest(thick) <= hottest(thin) + 0.1
    back = [Profiles(row_at(one, 8.0))["crown"].temperature[0, -1] for one in (thin, thick)]
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
        found = Profiles(row_at(history, history.seconds[index + 1]))["crown"]
        # the peak in depth is drawn as a straight line over the surface's mean
        assert max(found.peak[0], found.temperature.max()) > 620.0 - 1.0
    assert charred[-1] == charred[history.seconds < 200.0][-1]


def test_char_keeps_heat_from_what_is_behind_it():
    plastic = Solid(0.2, 1270.0, 1250.0)
    charring = run(crown(plastic, decomposition=620.0), seconds=60.0)
    lasting = run(crown(plastic), seconds=60.0)
    assert charring.charred[-1, 0] > 0
    behind = [
        Profiles(row_at(one, 60.0))["crown"].temperature[0, -1] for one in (charring, lasting)
    ]
    assert behind[0] < behind[1]
    # what decomposes takes up heat, so that less of it is stored though more came
    assert charring.stored[-1] < lasting.stored[-1]


def test_fire_that_blows_char_away_eats_through():
    plastic = Solid(0.2, 1270.0, 1250.0)
    kept = run(crown(plastic, decomposition=620.0), seconds=60.0)
    swept = run(crown(plastic, decomposition=620.0, swept=True), seconds=60.0)
    deep = [char_depths(one, 60.0)["crown"] for one in (kept, swept)]
    assert deep[1] > 1.2 * deep[0]
    assert swept.received[-1, 0] > kept.received[-1, 0]
    assert swept.stored == pytest.approx(swept.received.sum(axis=1), rel=1e-8, abs=1e-3)


def test_swept_char_goes_as_fast_as_heat_comes():
    """Steady ablation: flux over density times what warming and decomposing takes (an energy
    balance over a front that moves evenly; Carslaw and Jaeger, 2nd ed., section 11.2)."""
    plastic = Solid(0.17, 700.0, 1700.0)  # about a wood's
    thick = Layer("crown", plastic, 40e-3, 0.0, 573.15)
    network = Network((flat_stack("crown", (thick,), 1.0),))
    gas = steady_gas(300.0, 1300.0)
    history = run(network, gas, seconds=120.0)
    depth = [char_depths(history, t)["crown"] for t in (60.0, 120.0)]
    speed = (depth[1] - depth[0]) / 60.0
    face = Profiles(row_at(history, 120.0))["crown"].temperature[0, 0]
    flux = gas.mean_coefficient * (1300.0 - face)
    wanted = 1700.0 * (573.15 - AIR) + assumed.DECOMPOSITION_HEAT
    char = 1700.0 * (face - 573.15)  # what has charred is warmed on before it goes
    # growth of the warm skin ahead of the front and mixed temperatures of what goes: a fifth
    assert speed == pytest.approx(flux / (700.0 * (wanted + 0.5 * char)), rel=0.2)


def test_a_thin_wooden_crown_is_gone_in_seconds():
    """A filmed piston of wood lasted about fifteen seconds (press report, sizes not given)."""
    wood = Solid(0.17, 700.0, 1700.0)
    layers = (Layer("crown", wood, 8e-3, 0.0, 573.15),)
    through = run(Network((flat_stack("crown", layers, 1.0),)), steady_gas(500.0, 1400.0),
                  seconds=60.0)  # fmt: skip
    half = next(t for t in range(1, 60) if char_depths(through, float(t)).get("crown", 0) > 4e-3)
    assert 5 <= half <= 40


def test_scale_of_area_scales_heat_and_nothing_else():
    plastic = Solid(0.2, 1270.0, 1250.0)
    layers = (Layer("crown", plastic, 5e-3),)
    one, ten = (run(Network((flat_stack("crown", layers, area),))) for area in (1e-3, 1e-2))
    assert ten.temperatures[-1] == pytest.approx(one.temperatures[-1], rel=1e-9)
    assert ten.received[-1, 0] == pytest.approx(10 * one.received[-1, 0], rel=1e-9)
