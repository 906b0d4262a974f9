"""Walls marched in time against closed forms of conduction, and against SciPy's integrators.

Closed forms and their symbols: F. P. Incropera and others, *Fundamentals of Heat and Mass
Transfer*, 6th ed., Wiley 2007 (equation numbers beside each), and H. S. Carslaw, J. C. Jaeger,
*Conduction of Heat in Solids*, 2nd ed., Oxford 1959. Numbers were computed from those forms
apart from this code; the tolerance is theirs, 0.1 % of the temperature difference, unless a
comment says more.
"""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from tests.heat.made_cycle import made_cycle

from firstfire.formulas.solid import Solid
from firstfire.heat.advance import advance
from firstfire.heat.exposure import Cooling, Exposure
from firstfire.heat.first_cycle import first_cycles
from firstfire.heat.gas_side import GasSide, gas_side, steady_gas
from firstfire.heat.history import begin, cold
from firstfire.heat.layers import Layer
from firstfire.heat.network import Network
from firstfire.heat.profiles import Profiles, row_at
from firstfire.heat.stack import flat_stack, round_stack
from firstfire.heat.swing import swing

PLA = Solid(0.20, 1240.0, 1800.0)
PETG = Solid(0.21, 1270.0, 1300.0)
ALUMINIUM = Solid(167.0, 2700.0, 896.0)
STEEL = Solid(50.0, 7850.0, 470.0)
START = 300.0


def wall(solid, thickness):
    return Network((flat_stack("wall", (Layer("wall", solid, thickness),), 1.0),))


def rise_at(history, seconds, depth=0.0, part="wall"):
    """Rise over the start at a depth, K; a cubic between cells, as theirs are exact points."""
    from scipy.interpolate import CubicSpline

    found = Profiles(row_at(history, seconds))[part]
    return float(CubicSpline(found.depth, found.temperature[0])(depth)) - START


# Constant flux into a thick wall: Incropera Eq. 5.59, Carslaw and Jaeger section 2.9.


@pytest.mark.parametrize(
    ("solid", "flux", "seconds", "depth", "rise"),
    [
        (PLA, 50e3, 2.0, 0.0, 119.4),
        (PLA, 50e3, 2.0, 0.5e-3, 33.8),
        (PLA, 50e3, 2.0, 1.0e-3, 5.88),
        (ALUMINIUM, 100e3, 1.0, 0.0, 5.614),
        (STEEL, 100e3, 1.0, 0.0, 8.308),
    ],
)
def test_constant_flux_into_a_thick_wall(solid, flux, seconds, depth, rise):
    thick = 8 * math.sqrt(solid.diffusivity * seconds) + 2e-3
    history = advance(cold(wall(solid, thick), START), Exposure(sources={"wall": flux}), seconds)
    face = 2 * flux / solid.conductivity * math.sqrt(solid.diffusivity * seconds / math.pi)
    # 0.1 % of the face's rise; figures of three digits round by more
    assert rise_at(history, seconds, depth) == pytest.approx(rise, abs=1.2e-3 * face)


def test_time_to_forty_kelvin_under_constant_flux():
    history = advance(cold(wall(PLA, 10e-3), START), Exposure(sources={"wall": 50e3}), 2.0)
    seconds = brentq(lambda t: rise_at(history, t) - 40.0, 0.1, 1.0)
    # the rise goes with the root of time: 0.1 % of it is 0.2 % of time
    assert seconds == pytest.approx(0.2244, rel=2.5e-3)


# Sudden gas on a thick wall: Incropera Eq. 5.60.


@pytest.mark.parametrize(("depth", "share"), [(0.0, 0.4965), (1e-3, 0.1450)])
def test_sudden_gas_on_a_thick_wall(depth, share):
    gas = steady_gas(200.0, START + 780.0)
    history = advance(cold(wall(PETG, 15e-3), START), Exposure(gas={"wall": gas}), 5.0)
    assert rise_at(history, 5.0, depth) / 780.0 == pytest.approx(share, abs=1e-3)


def test_two_bodies_that_touch_meet_at_the_mean_of_their_effusivities():
    # Steel of 150 °C on PETG of 25 °C: 144.8 °C (Incropera Eq. 5.63)
    layers = (Layer("steel", STEEL, 30e-3), Layer("petg", PETG, 10e-3))
    network = Network((flat_stack("pair", layers, 1.0),))
    steel_cells = network.stacks[0].starts[1]
    start = np.full(network.nodes, 298.15)
    start[:steel_cells] = 423.15
    history = advance(begin(network, start), Exposure(), 1.0)
    for seconds in (0.2, 1.0):
        rows = row_at(history, seconds)
        for part, at in (("steel", -1), ("petg", 0)):
            face = Profiles(rows)[part].temperature[0, at]
            assert face == pytest.approx(144.8 + 273.15, abs=0.125)  # 0.1 % of 125 K


# Slabs: Incropera Example 5.4 (print and unrounded root), Carslaw and Jaeger section 3.8.


def test_pipe_wall_warmed_by_oil():
    steel = Solid(63.9, 7832.0, 434.0)
    oil = steady_gas(500.0, 333.15)
    network = wall(steel, 40e-3)
    history = advance(cold(network, 253.15), Exposure(gas={"wall": oil}), 480.0)
    found = Profiles(row_at(history, 480.0))["wall"].temperature[0]
    outside, inside = found[-1] - 273.15, found[0] - 273.15
    assert outside == pytest.approx(42.9, abs=0.15)
    assert inside == pytest.approx(45.2, abs=0.2)  # the print rounds its root
    # one term with the unrounded root, 0.05 % of the 80 K
    assert outside == pytest.approx(43.02, abs=0.05)
    assert inside == pytest.approx(45.36, abs=0.05)
    assert 500.0 * (60.0 - inside) == pytest.approx(7318.0, rel=2e-3)
    # Pipe of 1 m diameter: heat into a metre of it; the print says 2.73e7
    assert history.stored[-1] * math.pi == pytest.approx(2.725e7, rel=1e-3)


@pytest.mark.parametrize(
    ("solid", "thickness", "flux", "seconds", "hot", "back"),
    [(ALUMINIUM, 3e-3, 200e3, 2.0, 56.31, 54.52), (PETG, 4e-3, 20e3, 30.0, 210.5, 34.7)],
)
def test_slab_insulated_behind(solid, thickness, flux, seconds, hot, back):
    history = advance(
        cold(wall(solid, thickness), START), Exposure(sources={"wall": flux}), seconds
    )
    assert rise_at(history, seconds) == pytest.approx(hot, rel=1e-3)
    assert rise_at(history, seconds, thickness) == pytest.approx(back, rel=1.5e-3)


# Swing at the surface: Incropera section 5.9, Carslaw and Jaeger section 2.6.


@pytest.mark.parametrize(
    ("solid", "frequency", "depth", "amplitude"),
    [
        (PETG, 25.0, 40.2e-6, 13.55),
        (ALUMINIUM, 25.0, 937.5e-6, 0.397),
        (STEEL, 12.5, 587.5e-6, 0.831),
    ],
)
def test_swing_at_the_surface_and_how_deep_it_goes(solid, frequency, depth, amplitude):
    samples = 256
    turn = 2 * np.pi * np.arange(samples) / samples
    # so little coefficient that the flux is what it is told: 100 kW/m² of swing
    gas = GasSide(1 / frequency, np.full(samples, 1e-4), 1e9 * np.cos(turn))
    layers = (Layer("wall", solid, 40 * depth),)
    found = swing(gas, layers, np.array([depth, 4.605 * depth]))
    above = found.peak_above_mean(0.0)
    assert above[0] == pytest.approx(amplitude, rel=1.5e-3)  # three figures, and peaks sampled
    assert above[1] / above[0] == pytest.approx(math.exp(-1), rel=1.5e-3)  # depths of 3 figures
    assert above[2] / above[0] == pytest.approx(0.01, rel=7e-3)


def test_swing_of_a_thin_sheet_is_that_of_its_heat():
    # Lumped: q/(rho c L omega), for a sheet much thinner than the swing goes
    samples, frequency, thickness = 256, 25.0, 0.1e-3
    turn = 2 * np.pi * np.arange(samples) / samples
    gas = GasSide(1 / frequency, np.full(samples, 1e-4), 1e9 * np.cos(turn))
    layers = (Layer("wall", ALUMINIUM, thickness),)
    heat = ALUMINIUM.density * ALUMINIUM.specific_heat * thickness
    above = swing(gas, layers, np.array([])).peak_above_mean(0.0)[0]
    assert above == pytest.approx(100e3 / (heat * 2 * math.pi * frequency), rel=2e-3)


# Layers in a steady state: Incropera sections 3.1 and 3.3.


def test_layers_of_a_flat_wall_when_settled():
    layers = (
        Layer("plate", ALUMINIUM, 3e-3),
        Layer("head", Solid(0.20, 1240.0, 1800.0), 8e-3, contact=1e-4),
    )
    network = Network((flat_stack("head", layers, 1.0),))
    exposure = Exposure(
        gas={"head": steady_gas(200.0, 673.15)},
        cooling={"head": Cooling(303.15, constant=25.0)},
    )
    history = advance(cold(network, 303.15), exposure, 20_000.0)
    rows = row_at(history, 20_000.0)
    plate, head = Profiles(rows)["plate"].temperature[0], Profiles(rows)["head"].temperature[0]
    faces = np.array([plate[0], plate[-1], head[0], head[-1]]) - 273.15
    assert faces == pytest.approx([378.27, 378.19, 377.75, 203.88], abs=0.37)
    assert 200.0 * (400.0 - faces[0]) == pytest.approx(4347.0, rel=1e-3)


def test_layers_of_a_round_wall_when_settled():
    layers = (Layer("liner", ALUMINIUM, 3e-3), Layer("body", PETG, 15e-3))
    network = Network((round_stack("liner", layers, 44e-3, 1.0),))
    exposure = Exposure(
        gas={"liner": steady_gas(250.0, 600.0)},
        cooling={"liner": Cooling(300.0, constant=20.0)},
    )
    history = advance(cold(network, 300.0), exposure, 40_000.0)
    inner = Profiles(row_at(history, 40_000.0))["liner"].temperature[0, 0]
    assert 250.0 * math.pi * 44e-3 * (600.0 - inner) == pytest.approx(513.5, rel=1e-3)


def test_back_that_radiates_and_is_cooled_by_rising_air():
    # settled: k/L (T1 - T2) = a ΔT^(1+n) + eps sigma (T2^4 - T_air^4), solved by SciPy
    network = wall(ALUMINIUM, 3e-3)
    cooling = Cooling(293.15, free=1.9, exponent=0.25, emissivity=0.9)
    exposure = Exposure(sources={"wall": 1500.0}, cooling={"wall": cooling})
    history = advance(cold(network, 293.15), exposure, 40_000.0)

    def lost(back):
        rise = back - 293.15
        return 1.9 * rise**1.25 + 0.9 * 5.670374e-8 * (back**4 - 293.15**4)

    back = brentq(lambda back: lost(back) - 1500.0, 300.0, 900.0)
    found = Profiles(row_at(history, 40_000.0))["wall"].temperature[0]
    assert found[-1] == pytest.approx(back, abs=1e-3 * (back - 293.15))
    assert found[0] - found[-1] == pytest.approx(1500.0 * 3e-3 / 167.0, rel=2e-3)


# SciPy's integrators on an independent even grid.


def _even_grid(layers, contact, count):
    """Nodes at the middle of even cells; conductances between them, W/(m² K)."""
    half, heat = [], []
    for solid, thickness in layers:
        size = thickness / count
        half += [0.5 * size / solid.conductivity] * count
        heat += [solid.density * solid.specific_heat * size] * count
    half, heat = np.array(half), np.array(heat)
    between = 1.0 / (half[:-1] + half[1:] + np.where(np.arange(half.size - 1) == count - 1,
                                                     contact, 0.0))  # fmt: skip
    return half, heat, between


def test_shielded_crown_under_flux_on_and_off_against_scipy():
    contact, flux, film = 5e-4, 300e3, 60.0
    layers = ((ALUMINIUM, 1e-3), (PLA, 5e-3))
    half, heat, between = _even_grid(layers, contact, 120)

    def rate(_, temperatures, power):
        flow = between * (temperatures[:-1] - temperatures[1:])
        into = -np.append(flow, film / (1 + film * half[-1]) * (temperatures[-1] - START))
        into[1:] += flow
        into[0] += power
        return into / heat

    stack = flat_stack(
        "crown", (Layer("shield", ALUMINIUM, 1e-3), Layer("crown", PLA, 5e-3, contact)), 1.0
    )
    history = cold(Network((stack,)), START)
    temperatures = np.full(half.size, START)
    cooling = {"crown": Cooling(START, constant=film)}
    for turn, power in enumerate((flux, 0.0, flux, 0.0)):
        end = 2.0 * (turn + 1)
        solved = solve_ivp(
            rate, (0.0, 2.0), temperatures, "BDF", args=(power,), rtol=1e-7, atol=1e-6,
            jac=lambda *_: _tridiagonal(between, film / (1 + film * half[-1]), heat),
        )  # fmt: skip
        temperatures = solved.y[:, -1]
        sources = {"crown": power} if power else {}
        history = advance(history, Exposure(sources=sources, cooling=cooling), end)
        rows = row_at(history, end)
        shield, crown = Profiles(rows)["shield"], Profiles(rows)["crown"]
        middles = (np.arange(120) + 0.5) / 120
        rise = temperatures.max() - START
        # 0.2 % of the largest rise: both grids together
        assert np.interp(middles * 1e-3, shield.depth, shield.temperature[0]) == pytest.approx(
            temperatures[:120], abs=2e-3 * rise
        )
        assert np.interp(middles * 5e-3, crown.depth, crown.temperature[0]) == pytest.approx(
            temperatures[120:], abs=2e-3 * rise
        )


def _tridiagonal(between, back, heat):
    full = np.diag(between, 1) + np.diag(between, -1)
    full -= np.diag(np.append(between, back) + np.append(0.0, between))
    return full / heat[:, None]


CYCLES = 12


@pytest.fixture(scope="module", params=[1000, 3000])
def cycles_by_scipy(request):
    """Bare PETG through fired cycles from cold, gas resolved in time, by SciPy's LSODA."""
    gas = gas_side(made_cycle(speed=request.param * math.pi / 30))
    count = 300
    reached = 6 * math.sqrt(PETG.diffusivity * CYCLES * gas.period)
    half, heat, between = _even_grid(((PETG, reached),), 0.0, count)
    samples = gas.coefficient.size

    def into_front(time, front):
        at = np.minimum((time / gas.period * samples).astype(int), samples * CYCLES - 1) % samples
        film = gas.coefficient[at] / (1 + gas.coefficient[at] * half[0])
        return film * (gas.temperature[at] - front)

    def rate(time, temperatures):
        flow = between * (temperatures[:-1] - temperatures[1:])
        into = -np.append(flow, 0.0)
        into[1:] += flow
        into[0] += into_front(np.array(time), temperatures[0])
        return into / heat

    moments = np.arange(1, CYCLES * samples) * gas.period / samples
    solved = solve_ivp(
        rate, (0.0, moments[-1]), np.full(count, START), "LSODA", t_eval=moments,
        lband=1, uband=1, max_step=gas.period / samples, rtol=1e-6, atol=1e-4,
    )  # fmt: skip
    front = solved.y[0]
    return gas, moments, front + half[0] * into_front(moments - 1e-9, front)


def test_first_fired_cycle_against_scipy(cycles_by_scipy):
    gas, moments, surface = cycles_by_scipy
    first = moments <= gas.period
    stack = wall(PETG, 3e-3).stacks[0]
    found = first_cycles(stack, gas, START)
    peak = surface[first].max() - START
    assert found.peak - START == pytest.approx(peak, rel=5e-3)  # SciPy's even cells, some µm
    assert found.surface[-1] - START == pytest.approx(surface[first][-1] - START, rel=1e-2)


def test_mean_and_swing_after_some_cycles_against_scipy(cycles_by_scipy):
    gas, moments, surface = cycles_by_scipy
    exposure = Exposure(gas={"wall": gas})
    history = advance(cold(wall(PETG, 3e-3), START), exposure, CYCLES * gas.period)
    last = moments > (CYCLES - 1) * gas.period
    found = Profiles(row_at(history, (CYCLES - 0.5) * gas.period))["wall"]
    mean, peak = found.temperature[0, 0], found.peak[0]
    # the swing is worked out as if cycles had repeated for ever: 2 % after a dozen from cold
    assert mean - START == pytest.approx(surface[last].mean() - START, rel=0.02)
    assert peak - mean == pytest.approx(surface[last].max() - surface[last].mean(), rel=0.03)
    assert peak - START == pytest.approx(surface[last].max() - START, rel=0.02)
