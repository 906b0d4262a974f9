"""Parts of the kernel as they are written, against the numbers they stand for."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.cycle.test_limit_cycle import engine

from firstfire.cycle import implicit, kernel, mechanism, suction, walls
from firstfire.cycle.build import build_engine, volumes_at, widening_along
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.layout import ANNAND
from firstfire.cycle.mixture import mixture_state, temperature_from_energy
from firstfire.formulas import wall_heat
from firstfire.formulas.nozzle_flow import mass_flow


@pytest.mark.parametrize("apart", [0.1, -0.1, 0.08, 0.03, 1e-4, 0.0, 0.5, -3.0, 1e4])
def test_sine_and_cosine_go_on_to_the_last_bit(apart):
    """From what is remembered of an angle up to a tenth of a radian away, or anew."""
    work = SimpleNamespace(turned=0.7, sine=math.sin(0.7), cosine=math.cos(0.7))
    sine, cosine = mechanism.turn_shaft.py_func(work, 0.7 + apart)
    assert sine == pytest.approx(math.sin(0.7 + apart), rel=0, abs=4e-16)
    assert cosine == pytest.approx(math.cos(0.7 + apart), rel=0, abs=4e-16)
    assert (work.turned == 0.7) is (abs(apart) <= 0.1)


def test_a_valve_of_18_mm_over_a_port_of_16_mm_round_a_stem_of_5_mm():
    """π/4 (16² - 5²) = 181.43 mm² at most; it lifts by 5 mm in the middle of its 245°."""
    valves = build_engine(engine())[0]["valves"]
    inlet, exhaust = valves[0], valves[1]
    assert 1e6 * inlet["throat_area"] == pytest.approx(181.43, abs=0.01)
    assert inlet["head_diameter"] == 0.018
    assert max(inlet["lift"]) == pytest.approx(5e-3, rel=1e-3)
    assert inlet["lift"][0] == inlet["lift"][-1] == 0.0
    assert math.degrees(inlet["duration"]) == pytest.approx(245.0)
    assert math.degrees(inlet["opens"]) == pytest.approx(720.0 - 375.0)
    assert math.degrees(exhaust["opens"]) == pytest.approx(130.0)


@pytest.mark.parametrize("guess", [250.0, 900.0, 2500.0])
@pytest.mark.parametrize("warm", [400.0, 1500.0])
def test_a_temperature_from_energy_is_found_again_from_its_energy(warm, guess):
    """Whatever it starts to look from: mass, energy and room have one temperature."""
    tables = gas_tables("petrol", 1.0)
    masses = (0.3e-3, 0.02e-3, 0.1e-3)
    pressure, mass = 12e5, sum(masses)
    enthalpy, _, _, gas, _, _ = mixture_state(tables, *masses, warm, pressure)
    volume = mass * gas * warm / pressure
    found = temperature_from_energy(tables, *masses, enthalpy - gas * warm, volume, guess)
    assert found == pytest.approx((warm, pressure), rel=1e-7)
    assert np.isfinite(found).all()


@pytest.mark.parametrize("degrees", [-170, -60, -15, 20, 95, 200, 300])
def test_a_cylinder_grows_by_what_its_piston_sweeps_and_the_case_loses_it(degrees):
    """44 mm on a throw of 20 and a rod of 70 mm: depth under the top by the cosine rule, its slope
    between two angles a thousandth of a degree apart."""
    angle, near = math.radians(degrees), math.radians(5e-4)

    def volume(at):
        depth = 20e-3 * (1 - math.cos(at)) + 70e-3
        depth -= math.sqrt(70e-3**2 - (20e-3 * math.sin(at)) ** 2)
        return math.pi / 4 * 44e-3**2 * (depth + 40e-3 / 6)

    engines = build_engine(engine())
    volumes = volumes_at(engines, angle)
    assert volumes[0] == pytest.approx(volume(angle), rel=1e-9)
    other = volumes_at(engines, angle + 1.0)
    apart = other - volumes
    moving = np.flatnonzero(np.abs(apart) > 1e-12)
    assert len(moving) == 2  # cylinder and case; what one gains the other loses
    assert apart[moving].sum() == pytest.approx(0.0, abs=1e-15)
    grows = (volume(angle + near) - volume(angle - near)) / (2 * near)
    assert widening_along(engines, np.array([angle]))[0] == pytest.approx(grows, rel=1e-6)


@pytest.mark.parametrize(
    ("error", "times"), [(1.0, 0.9), (8.0, 0.45), (0.125, 1.8), (1e-3, 9.0), (0.0, 90.0)]
)
def test_a_step_of_third_order_goes_with_the_cube_root_of_its_error(error, times):
    """An eighth of what is allowed lets it be twice as long, less a tenth to be sure."""
    assert kernel.allowed.py_func(error) == pytest.approx(times)


@pytest.mark.parametrize("drop", [0.05, 0.1, 0.2])
def test_an_opening_is_never_taken_for_softer_than_it_is(drop):
    """Against the slope between two drops of the nozzle's law at γ 1.3: stiffer by a quarter at
    most, since a step that thinks it softer swings to and fro."""

    def flow(by):
        return mass_flow(1.0, 1e5, 300.0, 300.0, 1.3, (1.0 - by) * 1e5) / (1e5 / 300.0)

    slope = (flow(drop + 1e-4) - flow(drop - 1e-4)) / 2e-4
    assert slope < implicit.coefficient_slope.py_func(drop, 1e-3) < 1.25 * slope


def test_a_drop_in_the_even_band_has_that_bands_slope():
    """At half of a band of 1 %, against the slope between two drops by the nozzle's law."""

    def flow(by):
        return mass_flow(1.0, 1e5, 300.0, 300.0, 1.3, (1.0 - by) * 1e5, 0.01) / (1e5 / 300.0)

    slope = (flow(0.00501) - flow(0.00499)) / 2e-5
    assert implicit.coefficient_slope.py_func(0.005, 0.01) == pytest.approx(slope, rel=0.02)


def test_annands_gas_conducts_by_its_viscosity_and_heat_at_a_prandtl_number_of_0_7(monkeypatch):
    """2000 K: 3.3e-7 · 2000^0.7 = 6.75e-5 Pa s; 1300 J/(kg K) of it over 0.7 are 0.1254 W/(m K).

    3.92 kg/m³ past 50 mm at 4.5 m/s: Re 13,070, of which 0.49 k/B Re^0.7 is 935 W/(m² K).
    """
    monkeypatch.setattr(walls, "annand", wall_heat.annand)
    cylinder = SimpleNamespace(wall_law=ANNAND, bore=0.050, wall_doubt=2.0)
    mass, volume = 0.392e-3, 1e-4
    found = walls.wall_coefficient.py_func(
        cylinder, SimpleNamespace(closed=1, fired=1), volume, 30e5, 2000.0, mass, 1300.0 * mass, 4.5
    )
    viscosity = 3.3e-7 * 2000.0**0.7
    assert viscosity == pytest.approx(6.75e-5, rel=1e-3)
    reynolds = 3.92 * 4.5 * 0.050 / viscosity
    by_hand = 0.49 * (1300.0 * viscosity / 0.7) / 0.050 * reynolds**0.7
    assert by_hand == pytest.approx(935.0, rel=2e-3)
    assert found == pytest.approx(2.0 * by_hand)


@pytest.mark.parametrize(
    ("closing", "bend"), [(2.0, 0.0), (2.0, -500.0), (2.0, 500.0), (-0.5, -900.0), (0.0, -900.0)]
)
def test_a_gap_is_shut_where_its_parabola_is_first_crossed(closing, bend):
    """1 mm that closes at 2 m/s, evenly, ever faster or slower, or only comes back: t so that
    1 mm - closing t + bend t² is half of what a valve may sink in."""
    gap, step = 1e-3, 2e-3
    after = gap - closing * step + bend * step**2
    found = suction.time_to_wall.py_func(gap, closing, after, step)
    roots = np.roots([bend, -closing, gap + 0.5 * suction.SUNK])
    first = min(root.real for root in roots if abs(root.imag) < 1e-12 and root.real > 0)
    assert found == pytest.approx(first, rel=1e-9)


@pytest.mark.parametrize(("closing", "bend"), [(2.0, 1200.0), (-2.0, 100.0)])
def test_a_gap_that_never_shuts_takes_the_whole_step(closing, bend):
    """Slowed to a stand before, or opening ever faster."""
    after = 1e-3 - closing * 2e-3 + bend * 2e-3**2
    assert suction.time_to_wall.py_func(1e-3, closing, after, 2e-3) == 2e-3
