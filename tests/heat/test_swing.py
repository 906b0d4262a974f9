"""The periodic answer of a wall: consistent with itself, and with heat that can't be lost."""

import math

import numpy as np
import pytest
from tests.heat.made_cycle import made_cycle

from firstfire.errors import OutsideValidity
from firstfire.formulas.solid import Solid
from firstfire.heat.gas_side import GasSide, gas_side, steady_gas
from firstfire.heat.layers import Layer
from firstfire.heat.swing import swing

PETG = (Layer("wall", Solid(0.2, 1270.0, 1250.0), 5e-3),)
ALUMINIUM = (Layer("wall", Solid(167.0, 2700.0, 896.0), 5e-3),)
SURFACE = np.array([])


def gas_at(speed_rpm, **more):
    return gas_side(made_cycle(speed=speed_rpm * math.pi / 30, **more))


def test_gas_side_keeps_coefficient_and_heat_of_the_cycle():
    cycle = made_cycle()
    found = gas_side(cycle)
    assert found.period == pytest.approx(0.04)
    mean = np.trapezoid(cycle.coefficient, cycle.angle) / (4 * math.pi)
    heat = np.trapezoid(cycle.coefficient * cycle.gas_temperature, cycle.angle) / (4 * math.pi)
    assert found.mean_coefficient == pytest.approx(mean, rel=1e-9)
    # product of two lines against the trapezoid of the product: a few parts in ten thousand
    assert found.mean_coefficient * found.mean_temperature == pytest.approx(heat, rel=5e-4)


def test_uneven_angles_and_speed_are_put_on_even_time():
    cycle = made_cycle(points=2881)
    kept = np.sort(np.concatenate([np.arange(0, 1000, 9), np.arange(1000, 2881)]))
    kept[-1] = 2880
    thinned = type(cycle)(**{name: getattr(cycle, name)[kept] for name in vars(cycle)})
    even, uneven = gas_side(cycle), gas_side(thinned)
    assert uneven.mean_coefficient == pytest.approx(even.mean_coefficient, rel=2e-3)


def test_a_shaft_that_stands_is_refused():
    cycle = made_cycle()
    standing = type(cycle)(**(vars(cycle) | {"speed": np.zeros_like(cycle.speed)}))
    with pytest.raises(OutsideValidity, match="speed"):
        gas_side(standing)


def test_flux_and_surface_agree_at_every_moment():
    gas = gas_at(2000)
    found = swing(gas, PETG, SURFACE)
    surface_mean = 430.0
    surface = found.through_cycle(surface_mean)
    flux = gas.coefficient * (gas.temperature - surface)
    assert surface.mean() == pytest.approx(surface_mean, abs=1e-6)
    mean = found.coefficient * (found.temperature - surface_mean)
    assert flux.mean() == pytest.approx(mean, rel=1e-6)
    # each harmonic of the surface is that of the flux times 1/(e sqrt(i w)) of a thick wall
    order = np.arange(1, 20)
    own = 1 / (PETG[0].solid.effusivity * np.sqrt(1j * 2 * math.pi * order / gas.period))
    lifted = np.fft.rfft(surface)[order] / np.fft.rfft(flux)[order]
    assert lifted == pytest.approx(own, rel=1e-4)


def test_mean_flux_into_plastic_falls_because_its_surface_rises():
    gas = gas_at(1000)
    plain = gas.mean_coefficient * (gas.mean_temperature - 300.0)
    plastic, metal = swing(gas, PETG, SURFACE), swing(gas, ALUMINIUM, SURFACE)
    into_plastic = plastic.coefficient * (plastic.temperature - 300.0)
    into_metal = metal.coefficient * (metal.temperature - 300.0)
    assert into_plastic < 0.99 * plain
    assert into_metal == pytest.approx(plain, rel=1e-3)


def test_plastic_swings_tens_of_kelvin_and_metal_a_few():
    gas = gas_at(3000)
    assert 30 < swing(gas, PETG, SURFACE).peak_above_mean(400.0)[0] < 120
    assert 0.5 < swing(gas, ALUMINIUM, SURFACE).peak_above_mean(400.0)[0] < 5


def test_swing_fades_with_depth():
    depth = np.linspace(5e-6, 400e-6, 12)
    found = swing(gas_at(3000), PETG, depth).peak_above_mean(400.0)
    assert (np.diff(found) < 0).all()
    assert found[-1] < 0.02 * found[0]


def test_foil_on_plastic_takes_the_swing_off_it():
    foil = Layer("crown", Solid(200.0, 2700.0, 900.0), 0.1e-3)
    gas = gas_at(3000)
    bare = swing(gas, PETG, SURFACE).peak_above_mean(400.0)[0]
    foiled = swing(gas, (foil, *PETG), SURFACE).peak_above_mean(400.0)[0]
    assert foiled < 0.5 * bare


def test_wall_halved_in_two_layers_of_one_material_is_one_wall():
    solid = PETG[0].solid
    halves = (Layer("wall", solid, 50e-6), Layer("wall", solid, 4.95e-3))
    depth = np.array([20e-6, 80e-6])
    gas = gas_at(3000)
    one, two = swing(gas, PETG, depth), swing(gas, halves, depth)
    assert two.peak_above_mean(400.0) == pytest.approx(one.peak_above_mean(400.0), rel=1e-6)


def test_steady_gas_swings_nothing():
    found = swing(steady_gas(250.0, 900.0), PETG, SURFACE)
    assert (found.coefficient, found.temperature) == (250.0, 900.0)
    assert found.peak_above_mean(400.0)[0] == 0.0


def test_hard_swing_on_a_poor_conductor_still_agrees():
    # char-like wall under ten times an engine's coefficient
    gas = gas_at(600)
    hard = GasSide(gas.period, 10 * gas.coefficient, gas.temperature)
    foam = (Layer("wall", Solid(0.05, 300.0, 1500.0), 5e-3),)
    found = swing(hard, foam, SURFACE)
    surface = found.through_cycle(700.0)
    flux = hard.coefficient * (hard.temperature - surface)
    mean = found.coefficient * (found.temperature - 700.0)
    assert flux.mean() == pytest.approx(mean, rel=1e-4)
    assert surface.max() < hard.temperature.max()
