"""Heat in walls: limits, balances, and brute-force conduction on a fine grid."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import (
    ambient_air,
    forced_convection,
    free_convection,
    layers,
    radiation,
    slab,
    slab_flux,
    surface_swing,
    thick_wall,
)
from firstfire.formulas.solid import Solid, diffusion_depth

PETG = Solid(0.21, 1270.0, 1300.0)
times = st.floats(1e-3, 100.0)
depths = st.floats(0.0, 3e-3)


def brute_force(
    flux: float, seconds: float, thickness: float, solid: Solid, back_film: float
) -> tuple[float, float]:
    """Rise of face and back by an implicit grid of 400 cells and 2000 steps."""
    cells, steps = 400, 2000
    width, step = thickness / cells, seconds / steps
    store = solid.density * solid.specific_heat * width / step
    link = solid.conductivity / width
    # Half a cell lies between the last node and the film.
    leave = 1 / (1 / back_film + 0.5 / link) if back_film else 0.0
    matrix = np.zeros((cells, cells))
    for i in range(cells):
        matrix[i, i] = store
        for j in (i - 1, i + 1):
            if 0 <= j < cells:
                matrix[i, i] += link
                matrix[i, j] -= link
    matrix[-1, -1] += leave
    inverse = np.linalg.inv(matrix)
    rise = np.zeros(cells)
    source = np.zeros(cells)
    source[0] = flux
    for _ in range(steps):
        rise = inverse @ (store * rise + source)
    face = rise[0] + flux * 0.5 / link
    back = rise[-1] * (1 - leave * 0.5 / link)
    return face, back


@pytest.mark.parametrize(("seconds", "film"), [(5.0, 0.0), (40.0, 0.0), (5.0, 60.0), (200.0, 60.0)])
def test_a_slab_under_flux_by_brute_force(seconds: float, film: float) -> None:
    # 0.3 %: first-order steps of the grid.
    face, back = brute_force(20e3, seconds, 4e-3, PETG, film)

    def law(depth: float) -> float:
        if film == 0:
            return slab_flux.insulated_back_rise(20e3, seconds, 4e-3, PETG, depth)
        return slab_flux.cooled_back_rise(20e3, seconds, 4e-3, PETG, back_film=film, depth=depth)

    assert law(0.0) == pytest.approx(face, rel=3e-3)
    assert law(4e-3) == pytest.approx(back, rel=3e-3, abs=0.02)


@given(times, depths)
def test_gas_through_an_endless_film_is_a_step_of_the_face(seconds: float, depth: float) -> None:
    step = thick_wall.step_share(seconds, PETG, depth)
    assert thick_wall.gas_share(1e12, seconds, PETG, depth) == pytest.approx(step, abs=1e-6)


@given(times)
def test_gas_through_a_weak_film_is_a_constant_flux(seconds: float) -> None:
    film = 1e-4
    found = thick_wall.gas_share(film, seconds, PETG) * 1000.0
    assert found == pytest.approx(thick_wall.flux_rise(film * 1000.0, seconds, PETG), rel=1e-3)


@given(times, depths, st.floats(1.0, 1e4))
def test_a_face_under_gas_warms_between_nothing_and_the_gas(
    seconds: float, depth: float, film: float
) -> None:
    share = thick_wall.gas_share(film, seconds, PETG, depth)
    assert 0 <= share <= 1
    assert thick_wall.gas_share(film, seconds, PETG, depth + 1e-4) <= share + 1e-12
    assert thick_wall.gas_share(film, seconds * 2, PETG, depth) >= share - 1e-12


def test_flux_and_step_agree_on_their_energy() -> None:
    # Heat taken under a constant flux, by integrating the rise over depth.
    x = np.linspace(0.0, 15e-3, 4001)
    rise = np.array([thick_wall.flux_rise(50e3, 2.0, PETG, depth) for depth in x])
    heat = PETG.density * PETG.specific_heat * np.trapezoid(rise, x)
    assert heat == pytest.approx(50e3 * 2.0, rel=1e-4)
    assert thick_wall.step_flux(100.0, 4.0, PETG) == pytest.approx(
        thick_wall.step_flux(100.0, 1.0, PETG) / 2
    )


@given(st.floats(1e3, 1e6), st.floats(5.0, 500.0))
def test_the_face_reaches_its_rise_at_its_time(flux: float, rise: float) -> None:
    seconds = thick_wall.time_to_rise(flux, rise, PETG)
    assert thick_wall.flux_rise(flux, seconds, PETG) == pytest.approx(rise)


@given(st.floats(1e4, 1e6), st.floats(5.0, 200.0), st.floats(0.01, 20.0))
def test_the_depth_of_a_rise_has_that_rise(flux: float, rise: float, seconds: float) -> None:
    depth = thick_wall.flux_depth(flux, rise, seconds, PETG)
    if depth > 0:
        assert thick_wall.flux_rise(flux, seconds, PETG, depth) == pytest.approx(rise, rel=1e-6)
    else:
        assert thick_wall.flux_rise(flux, seconds, PETG) <= rise


def test_like_bodies_touch_half_way_and_nothing_happens_at_once() -> None:
    assert thick_wall.touch_temperature(100.0, PETG, 20.0, PETG) == pytest.approx(60.0)
    assert thick_wall.flux_rise(1e6, 0.0, PETG) == 0.0
    assert thick_wall.gas_share(1e3, 0.0, PETG) == 0.0


def test_swing_is_what_a_history_of_sines_settles_to() -> None:
    frequency, cycles, steps = 25.0, 40, 200
    step = 1 / frequency / steps
    # mean flux within each step, so that the history is the sine's own
    phase = 2 * math.pi * np.arange(cycles * steps + 1) / steps
    fluxes = 100e3 * np.diff(np.sin(phase)) / (2 * math.pi / steps)
    found = surface_swing.face_history(fluxes, step, PETG)[-steps:]
    expected = [
        surface_swing.swing_at(100e3, PETG, frequency, 0.0, phase[i + 1]) for i in range(steps)
    ]
    # 0.15 K of 13.55: the start has not quite died away after 40 cycles.
    assert found == pytest.approx(np.array(expected), abs=0.15)


def test_histories_add() -> None:
    rng = np.random.default_rng(1)
    one, other = rng.uniform(0, 1e5, (2, 50))
    both = surface_swing.face_history(one + other, 0.01, PETG)
    apart = surface_swing.face_history(one, 0.01, PETG)
    apart = apart + surface_swing.face_history(other, 0.01, PETG)
    assert both == pytest.approx(apart)


@given(st.floats(0.01, 100.0), st.floats(0.01, 3.0))
def test_a_slab_loses_its_excess_from_the_film_side(number: float, time: float) -> None:
    face, back = (slab.excess_left(number, time, place) for place in (1.0, 0.0))
    assert -1e-9 <= face <= back + 1e-9 <= 1 + 1e-6
    share = slab.heat_taken_share(number, time)
    assert 1 - back - 1e-9 <= share <= 1 - face + 1e-9


def test_an_early_slab_is_a_thick_wall() -> None:
    # Fo 0.02: the back feels nothing yet; 1e-6.
    seconds = 0.02 * 16e-6 / PETG.diffusivity
    face = 1 - slab.excess_left(200.0 * 4e-3 / 0.21, 0.02, 1.0)
    assert face == pytest.approx(thick_wall.gas_share(200.0, seconds, PETG), rel=1e-6)


@pytest.mark.parametrize("number", [0.05, 1.0, 30.0])
def test_roots_satisfy_their_equation(number: float) -> None:
    for n in range(1, 8):
        zeta = slab.root(number, n)
        assert zeta * math.sin(zeta) == pytest.approx(number * math.cos(zeta), abs=1e-8)


@pytest.mark.parametrize("seconds", [0.2 * 16e-6 / PETG.diffusivity * f for f in (0.999, 1.001)])
def test_series_and_images_agree_where_they_meet(seconds: float) -> None:
    # Both sides of Fo 0.2 against the long series: heat balance of the whole wall.
    x = np.linspace(0.0, 4e-3, 401)
    rises = [slab_flux.insulated_back_rise(20e3, seconds, 4e-3, PETG, min(d, 4e-3)) for d in x]
    mean = np.trapezoid(rises, x) / 4e-3
    assert mean == pytest.approx(slab_flux.lumped_rise(20e3, seconds, 4e-3, PETG), rel=1e-5)


def test_a_cooled_wall_ends_at_its_steady_profile() -> None:
    wall = [layers.layer(4e-3, 0.21), layers.film(50.0)]
    found = slab_flux.cooled_back_rise(2e3, 1e5, 4e-3, PETG, back_film=50.0)
    assert found == pytest.approx(2e3 * sum(wall))


def test_a_thin_metal_wall_is_alike_throughout() -> None:
    aluminium = Solid(167.0, 2700.0, 896.0)
    lumped = slab_flux.lumped_rise(20e3, 30.0, 1e-3, aluminium, back_film=100.0)
    exact = slab_flux.cooled_back_rise(20e3, 30.0, 1e-3, aluminium, back_film=100.0, depth=0.5e-3)
    assert lumped == pytest.approx(exact, rel=1e-3)  # Bi 0.0006


@given(st.lists(st.floats(1e-4, 0.1), min_size=1, max_size=6))
def test_temperatures_fall_from_layer_to_layer(resistances: list[float]) -> None:
    after = layers.temperatures_between(400.0, 300.0, resistances)
    assert list(after) == sorted(after, reverse=True)
    assert after[-1] == pytest.approx(300.0)


def test_a_thin_tube_is_a_flat_layer() -> None:
    bore, wall = 44e-3, 0.01e-3
    flat = layers.layer(wall, 0.2) / (math.pi * (bore + wall))
    assert layers.tube(bore, bore + 2 * wall, 0.2) == pytest.approx(flat, rel=1e-6)
    assert layers.settling_time(4e-3, PETG.diffusivity) == pytest.approx(62.9, rel=1e-2)


@given(st.floats(1e-4, 1e11), st.floats(1.01, 10.0))
def test_stronger_buoyancy_cools_better(number: float, times: float) -> None:
    more = number * times
    tube = free_convection.level_tube_nusselt
    assert tube(more, 0.7) > tube(number, 0.7)
    if number > 0.1:
        face = free_convection.upright_face_nusselt
        assert face(more, 0.7) > face(number, 0.7)


def test_a_faster_stream_cools_better_and_the_plate_turns_turbulent() -> None:
    assert forced_convection.across_tube_nusselt(2e4, 0.7) > forced_convection.across_tube_nusselt(
        1e4, 0.7
    )
    laminar = forced_convection.along_face_nusselt(4.999e5, 0.7)
    turbulent = forced_convection.along_face_nusselt(5.001e5, 0.7)
    # 871 was chosen so that both meet at 5·10⁵: within 1 %.
    assert laminar == pytest.approx(turbulent, rel=0.01)


def test_radiation_as_a_film_gives_the_same_flux() -> None:
    film = radiation.radiation_film(353.15, 293.15, 0.9)
    assert film * 60.0 == pytest.approx(radiation.radiated_flux(353.15, 293.15, 0.9))
    assert radiation.radiated_flux(300.0, 300.0, 0.9) == 0.0


def test_thin_air_is_more_viscous_by_its_inverse() -> None:
    high = ambient_air.dry_air(300.0, 80e3)
    low = ambient_air.dry_air(300.0)
    assert high.kinematic_viscosity * 80e3 == pytest.approx(low.kinematic_viscosity * 101_325)
    assert low.conductivity == pytest.approx(0.0263)


def test_heat_is_nearly_all_within_four_diffusion_depths() -> None:
    reach = diffusion_depth(PETG, 10.0)
    deep = thick_wall.flux_rise(50e3, 10.0, PETG, 4 * reach)
    assert deep < 0.002 * thick_wall.flux_rise(50e3, 10.0, PETG)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: Solid(0.2, 0.0, 1e3).diffusivity, "density"),
        (lambda: thick_wall.erfc_scaled(-1.0), "x is -1"),
        (lambda: thick_wall.flux_rise(1e3, -1.0, PETG), "seconds"),
        (lambda: slab.excess_left(1.0, 1e-5, 0.5), "thick wall"),
        (lambda: slab.excess_left(1.0, 1.0, 1.5), "wall lies"),
        (lambda: slab_flux.insulated_back_rise(1e3, 1.0, 4e-3, PETG, 5e-3), "wall lies"),
        (lambda: slab_flux.lumped_rise(1e3, 1.0, 4e-3, PETG, 50.0), "alike throughout"),
        (lambda: layers.flux_through(1.0, 0.0, []), "resistance"),
        (lambda: free_convection.level_tube_nusselt(1e13, 0.7), "tests end"),
        (lambda: forced_convection.across_tube_nusselt(0.1, 0.7), "tests end"),
        (lambda: forced_convection.along_face_nusselt(1e4, 0.1), "tests end"),
        (lambda: radiation.radiated_flux(300.0, 300.0, 1.2), "black one"),
        (lambda: ambient_air.dry_air(700.0), "table ends"),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
