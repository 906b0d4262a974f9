"""The swing of walls against chains of matrices, and the faces that the march is handed.

A layer is the matrix of Carslaw and Jaeger, 2nd ed., section 3.7: with s = √(iω/α) front
temperature and flux are (cosh sL, sinh sL/(k s); k s sinh sL, cosh sL) of those at its back.
"""

import math

import numpy as np
import pytest

from firstfire.formulas.solid import Solid
from firstfire.heat.edges import COLD_SURFACE, faces, wall_swing
from firstfire.heat.exposure import Cooling, Exposure, Film
from firstfire.heat.gas_side import GasSide, steady_gas
from firstfire.heat.layers import Layer
from firstfire.heat.network import Lump, Network
from firstfire.heat.stack import flat_stack
from firstfire.heat.swing import Swing, no_swing, swing

PLASTIC, METAL = Solid(0.2, 1270.0, 1250.0), Solid(167.0, 2700.0, 896.0)
PERIOD, SAMPLES = 0.04, 32
TIME = (np.arange(SAMPLES) + 0.5) / SAMPLES


def matrix(solid, thickness, frequency):
    heat = solid.density * solid.specific_heat
    s = np.sqrt(1j * frequency * heat / solid.conductivity)
    cosh, sinh = np.cosh(s * thickness), np.sinh(s * thickness)
    return np.array([[cosh, sinh / (solid.conductivity * s)],
                     [solid.conductivity * s * sinh, cosh]])  # fmt: skip


def behind(layers, depth, frequency, film):
    """Temperature and flux at a depth for one kelvin at the back."""
    found = np.array([1.0 + 0j, film])
    bottom = sum(one.thickness for one in layers)
    for place in range(len(layers) - 1, -1, -1):
        one = layers[place]
        top = bottom - one.thickness
        left = bottom - max(depth, top)
        if left > 0:
            found = matrix(one.solid, left, frequency) @ found
        if depth >= top:
            return found
        found = np.array([[1, one.contact], [0, 1]]) @ found
        bottom = top
    return found


THIN_PLASTIC = (Layer("a", PLASTIC, 0.1e-3),)
SHEET = (Layer("a", METAL, 0.3e-3), Layer("b", PLASTIC, 0.2e-3, contact=2e-4))
THREE = (Layer("a", PLASTIC, 30e-6), Layer("b", METAL, 0.2e-3, contact=1e-4),
         Layer("c", PLASTIC, 0.1e-3, contact=3e-4))  # fmt: skip


@pytest.mark.parametrize("film", [0.0, 5000.0])
@pytest.mark.parametrize("layers", [THIN_PLASTIC, SHEET, THREE])
def test_swing_under_a_steady_coefficient(layers, film) -> None:
    """T_g = 900 + 200 cos(ωt + 1) + 50 cos(3ωt) at 500 W/(m² K): each harmonic of the surface is
    h Z/(1 + h Z) of the gas's, and in depth as the matrices have it."""
    turn = 2 * math.pi * TIME
    gas = GasSide(PERIOD, np.full(SAMPLES, 500.0),
                  900 + 200 * np.cos(turn + 1) + 50 * np.cos(3 * turn))  # fmt: skip
    whole = sum(one.thickness for one in layers)
    depth = np.array([0.15, 0.5, 0.7, 0.95]) * whole
    found = swing(gas, layers, depth, film)
    assert found.depth == pytest.approx([0.0, *depth])
    assert (found.coefficient, found.temperature) == pytest.approx((500.0, 900.0))
    for row, below in enumerate([0.0, *depth]):
        wanted = np.zeros(SAMPLES)
        for order, amplitude in ((1, 200 * np.exp(1j)), (3, 50.0)):
            frequency = 2 * math.pi * order / PERIOD
            front, flux = behind(layers, 0.0, frequency, film)
            lifted = amplitude * 500 * front / (flux + 500 * front)
            here = lifted * behind(layers, below, frequency, film)[0] / front
            wanted += (here * np.exp(1j * order * turn)).real
        # an insulated back is 1e12 K m²/W here
        assert found.rise[row] - found.fall[row] * 900.0 == pytest.approx(wanted, abs=1e-4)
        assert found.fall[row] == pytest.approx(0.0, abs=1e-9)


def test_swing_under_a_coefficient_that_swings() -> None:
    """Flux and surface agree at each moment and harmonic; the mean wall feels their mean."""
    turn = 2 * math.pi * TIME
    gas = GasSide(PERIOD, 500 + 450 * np.cos(turn), 900 + 600 * np.cos(turn - 0.5))
    found = swing(gas, THREE, np.array([20e-6]), 100.0)
    for mean in (400.0, 700.0):
        surface = found.through_cycle(mean)
        assert surface.mean() == pytest.approx(mean)
        flux = gas.coefficient * (gas.temperature - surface)
        assert flux.mean() == pytest.approx(found.coefficient * (found.temperature - mean))
        orders = np.arange(1, SAMPLES // 2)
        impedance = []
        for order in orders:
            front, through = behind(THREE, 0.0, 2 * math.pi * order / PERIOD, 100.0)
            impedance.append(front / through)
        lifted, driven = np.fft.rfft(surface)[orders], np.fft.rfft(flux)[orders]
        # agreement of flux and surface within 1e-7 of the largest flux
        assert lifted == pytest.approx(driven * np.array(impedance), abs=1e-3)
        peak = found.peak_above_mean(mean)
        assert peak[0] == pytest.approx(surface.max() - mean)
        assert peak[1] == pytest.approx((found.rise[1] - found.fall[1] * mean).max())
    assert found.peak_above_mean(np.array([400.0, 700.0])).shape == (2, 2)


def test_a_hard_swing_on_foam_agrees_too() -> None:
    """h Z of the first harmonic is 2.7 in the mean: plain rounds would run away."""
    turn = 2 * math.pi * TIME
    gas = GasSide(PERIOD, 5000 + 4900 * np.cos(turn), 900 + 600 * np.cos(turn))
    foam = (Layer("wall", Solid(0.05, 300.0, 1500.0), 5e-3),)
    found = swing(gas, foam, np.zeros(0))
    flux = gas.coefficient * (gas.temperature - found.through_cycle(700.0))
    assert flux.mean() == pytest.approx(found.coefficient * (found.temperature - 700.0))


def test_no_gas_swings_nothing() -> None:
    still = GasSide(PERIOD, np.zeros(4), np.array([300.0, 900.0, 300.0, 300.0]))
    found = swing(still, SHEET, np.array([1e-4]))
    assert (found.coefficient, found.temperature) == (0.0, 450.0)
    assert found.depth.tolist() == [0.0]


# -- the wall that swings

GAS = GasSide(PERIOD, 500 + 450 * np.cos(2 * math.pi * TIME),
              900 + 600 * np.cos(2 * math.pi * TIME))  # fmt: skip
# 5 √(α T/π) of PETG: α = 1.25984e-7 m²/s, 200.26 µm
REACH = 5 * math.sqrt(0.2 / 1587500.0 * PERIOD / math.pi)


def crown(thickness=5e-3, decomposition=650.0, *more):
    return flat_stack(
        "crown", (Layer("crown", PLASTIC, thickness, 0.0, decomposition), *more), 1e-3
    )


def swung(stack, charred=0.0, cooling=None):
    exposure = Exposure(gas={"crown": GAS}, cooling=cooling or {})
    return wall_swing(stack, exposure, charred, 0.5)


def test_how_deep_a_swing_is_followed() -> None:
    """Five depths of 1/e and a cell, at ten of the cells; three cells into what is behind."""
    stack = crown()
    found = swung(stack)
    assert found.depth.size == 11
    assert found.depth[1] == stack.depth[0]
    beyond = int((stack.depth < REACH).sum())
    assert found.depth[-1] == stack.depth[beyond]
    thin = crown(0.1e-3, 650.0, Layer("body", METAL, 1e-3))
    assert swung(thin).depth[-1] == thin.depth[thin.starts[1] + 2]
    single = crown(50e-6)
    assert swung(single).depth[-1] == single.depth[-1]


def alike(found, wanted) -> None:
    assert found.coefficient == pytest.approx(wanted.coefficient, rel=1e-12)
    assert found.temperature == pytest.approx(wanted.temperature, rel=1e-12)
    assert found.rise == pytest.approx(wanted.rise, rel=1e-9, abs=1e-9)
    assert found.fall == pytest.approx(wanted.fall, rel=1e-9, abs=1e-12)


CHARRED = Solid(0.1, 1270.0, 1250.0)


@pytest.mark.parametrize(
    ("charred", "layers"),
    [
        (0.0, (Layer("c", PLASTIC, 5e-3),)),
        (40e-6, (Layer("c", CHARRED, 40e-6), Layer("c", PLASTIC, 4.96e-3))),
        # fire keeps 0.1 mm of it
        (2e-3, (Layer("c", CHARRED, 0.1e-3), Layer("c", PLASTIC, 4.9e-3))),
    ],
)
def test_a_wall_swings_with_its_char_in_front(charred, layers) -> None:
    found = swung(crown(), charred)
    alike(found, swing(GAS, layers, found.depth[1:]))


def test_a_thin_wall_may_be_all_char_and_metal_never_is() -> None:
    thin = swung(crown(60e-6), 80e-6)
    alike(thin, swing(GAS, (Layer("c", CHARRED, 60e-6),), thin.depth[1:]))
    part = swung(crown(150e-6), 40e-6)
    half = (Layer("c", CHARRED, 40e-6), Layer("c", PLASTIC, 110e-6))
    alike(part, swing(GAS, half, part.depth[1:]))
    metal = swung(crown(60e-6, math.inf), 80e-6)
    alike(metal, swing(GAS, (Layer("c", PLASTIC, 60e-6),), metal.depth[1:]))


def test_a_thin_wall_s_back_counts() -> None:
    stack = crown(60e-6)
    found = swung(stack, cooling={"crown": Cooling(300.0, constant=3000.0)})
    alike(found, swing(GAS, stack.layers, found.depth[1:], 3000.0))
    assert np.abs(found.rise - swung(stack).rise).max() > 1.0


def test_steady_gas_is_left_as_it_is() -> None:
    found = wall_swing(crown(), Exposure(gas={"crown": steady_gas(200.0, 900.0)}), 0.0, 0.5)
    assert (found.coefficient, found.temperature) == (200.0, 900.0)


# -- faces

WALLS = Network(
    (flat_stack("crown", (Layer("crown", PLASTIC, 5e-3),), 1e-3, back_area=2e-3),
     flat_stack("head", (Layer("head", PLASTIC, 5e-3),), 3e-3)),
    (Lump("pin", 5.0, 4e-4, 1e-3), Lump("ring", 5.0, 0.0, 1e-3), Lump("oil", 5.0, 0.0, 1e-3)),
)  # fmt: skip


def row_of(found, index) -> dict[str, float]:
    return {name: float(getattr(found, name)[index]) for name in found._fields[:10]}


def test_faces_of_a_network() -> None:
    """Fire faces first, 200 W/(m² K) on 10 cm² beside 0.3 W/K of leak; then backs, then lumps."""
    exposure = Exposure(
        gas={"crown": steady_gas(200.0, 900.0)},
        films={"crown": Film(0.3, 700.0), "ring": Film(0.05, 800.0)},
        sources={"crown": 7.0, "oil": 9.0}, limits={"crown": 650.0, "oil": 640.0},
        cooling={"crown": Cooling(310.0, 20.0, 1.5, 0.3, 0.9), "pin": Cooling(320.0, 30.0)},
    )  # fmt: skip
    found = faces(WALLS, exposure, {"crown": no_swing(exposure.gas["crown"])})
    cells = WALLS.stacks[0].cells
    both = cells + WALLS.stacks[1].cells
    nothing = {"free": 0.0, "exponent": 0.0, "radiating": 0.0, "source": 0.0, "limit": math.inf}
    assert found.node.size == 6
    assert row_of(found, 0) == pytest.approx(nothing | {
        "node": 0, "half": 1, "film": 0.5, "temperature": (0.2 * 900 + 0.3 * 700) / 0.5,
        "source": 7.0, "limit": 650.0, "gas": 1})  # fmt: skip
    # a face that nothing touches
    assert row_of(found, 1) == pytest.approx(nothing | {
        "node": cells, "half": 1, "film": 0.0, "temperature": COLD_SURFACE, "gas": 1})  # fmt: skip
    assert row_of(found, 2) == pytest.approx(nothing | {
        "node": cells - 1, "half": 2, "film": 0.04, "temperature": 310.0, "free": 3e-3,
        "exponent": 0.3, "radiating": 0.9 * 5.670374e-8 * 2e-3, "gas": 0})  # fmt: skip
    assert row_of(found, 3) == pytest.approx(
        nothing
        | {"node": both, "half": 0, "film": 0.012, "temperature": 320.0, "exponent": 0.25, "gas": 0}
    )
    assert row_of(found, 4) == pytest.approx(nothing | {
        "node": both + 1, "half": 0, "film": 0.05, "temperature": 800.0, "gas": 1})  # fmt: skip
    assert row_of(found, 5) == pytest.approx(nothing | {
        "node": both + 2, "half": 0, "film": 0.0, "temperature": COLD_SURFACE, "source": 9.0,
        "limit": 640.0, "gas": 1})  # fmt: skip


@pytest.mark.parametrize(("felt", "warm"), [(1000.0, 800.0), (300.0, 400.0)])
def test_peaks_are_a_line_over_the_surface(felt, warm) -> None:
    """Peaks of 80 - 0.05 T at the face and 40 - 0.13 T at 1 mm, drawn from 300 K to `warm`:
    both swing to either side alike, so that the second is highest the other way above 308 K."""
    depth = np.array([0.0, 1e-3])
    rise = np.array([[80.0, -80.0], [40.0, -40.0]])
    fall = np.array([[0.05, -0.05], [0.13, -0.13]])
    found = faces(WALLS, Exposure(), {"head": Swing(1.0, felt, depth, rise, fall)})
    first = WALLS.stacks[0].cells
    deep = WALLS.stacks[1].depth
    reached = int((deep <= 1e-3).sum())
    at = [(80 - 0.05 * 300, 80 - 0.05 * warm), (abs(40 - 0.13 * 300), abs(40 - 0.13 * warm))]
    slopes = [(high - low) / (warm - 300) for low, high in at]
    starts = [low - slope * 300 for (low, _), slope in zip(at, slopes, strict=True)]
    here = slice(first, first + reached)
    assert found.excess_slope[here] == pytest.approx(np.interp(deep[:reached], depth, slopes))
    assert found.excess[here] == pytest.approx(np.interp(deep[:reached], depth, starts))
    for one in (found.excess, found.excess_slope):
        assert not one[:first].any()
        assert not one[first + reached :].any()


def test_steady_walls_have_no_peaks() -> None:
    found = faces(WALLS, Exposure(), {"head": no_swing(steady_gas(200.0, 900.0))})
    assert not found.excess.any()
