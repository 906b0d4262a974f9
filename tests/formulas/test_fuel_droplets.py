"""Droplets: the d² law's closed form, a solved droplet, measured constants and sizes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from firstfire.errors import OutsideValidity
from firstfire.formulas.droplet import (
    INJECTED,
    evaporation_constant,
    lifetime,
    share_evaporated,
    torn_by_air,
    ventilation,
    wet_bulb,
)
from firstfire.formulas.vapour_pressure import PETROL, vapour_pressure

coolprop = pytest.importorskip("CoolProp.CoolProp", reason="a development dependency")
HEPTANE = {"heptane": 1.0}


def test_share_evaporated_is_the_solved_d_squared_law() -> None:
    """dd/dt = −K/(2d), by SciPy, to where a tenth of the diameter is left."""
    size, constant = 80e-6, 2e-8
    found = solve_ivp(
        lambda _, d: -constant / (2.0 * d), (0.0, 0.3), [size], rtol=1e-10, atol=1e-16
    )
    left = (float(found.y[0][-1]) / size) ** 3
    assert share_evaporated(size, constant, 0.3) == pytest.approx(1.0 - left, rel=1e-6)
    lasts = lifetime(size, constant)
    assert lasts == pytest.approx(0.32, rel=1e-12)
    assert share_evaporated(size, constant, 1.001 * lasts) == 1.0
    assert share_evaporated(size, constant, 0.0) == 0.0
    assert share_evaporated(size, constant, 0.999 * lasts) < 1.0


@pytest.mark.parametrize(("celsius", "measured"), [(198, 0.10), (282, 0.17), (468, 0.31)])
def test_heptane_shrinks_as_measured_without_gravity(celsius: float, measured: float) -> None:
    """mm²/s at 1 atm; H. Nomura and others, *26th Symposium (International) on Combustion*, 1996,
    1267 (from memory, read off a figure: 25 %)."""
    found = 1e6 * evaporation_constant(HEPTANE, 273.15 + celsius, 101_325.0)
    assert found == pytest.approx(measured, rel=0.25)


def test_a_droplet_ends_as_one_followed_in_time_with_reference_properties() -> None:
    """A cold droplet of n-heptane followed by SciPy: its heat and mass by Turns's chapter 3 with
    CoolProp's pressures, heats and conductivity of air. Its late constant and its temperature are
    the law's within 8 % and 1.5 K: viscosity, conductivity and heat capacity are fits here."""
    gas, pressure, size = 350.0, 1e5, 100e-6
    heat_vapour, heat_liquid, dense = 1650.0, 2240.0, 683.7

    def rates(_: float, y: list[float]) -> list[float]:
        square, warm = y
        mean = warm + (gas - warm) / 3.0
        over = coolprop.PropsSI("P", "T", warm, "Q", 0, "n-Heptane") / pressure
        fraction = over * 0.1002 / (over * 0.1002 + (1 - over) * 0.02896)
        mixed = 2.0 / 3.0 * fraction
        air = pressure / (8.314 * mean) / (mixed / 0.1002 + (1 - mixed) / 0.02896)
        spread = 7.4e-6 * (mean / 298.15) ** 1.75 * 101_325.0 / pressure
        into = 2 * math.pi * air * spread * math.sqrt(square) * math.log(1 / (1 - fraction))
        conductivity = coolprop.PropsSI("L", "T", mean, "P", 1e5, "Air")
        stretch = into * heat_vapour / (2 * math.pi * conductivity * math.sqrt(square))
        heat = into * heat_vapour * (gas - warm) / math.expm1(stretch)
        latent = coolprop.PropsSI("H", "T", warm, "Q", 1, "n-Heptane")
        latent -= coolprop.PropsSI("H", "T", warm, "Q", 0, "n-Heptane")
        mass = dense * math.pi / 6 * square**1.5
        return [-4 * into / (math.pi * dense * math.sqrt(square)),
                (heat - into * latent) / (mass * heat_liquid)]  # fmt: skip

    found = solve_ivp(rates, (0.0, 0.12), [size**2, 300.0], rtol=1e-7, method="LSODA")
    late = rates(0.0, [float(found.y[0][-1]), float(found.y[1][-1])])
    assert -late[0] == pytest.approx(evaporation_constant(HEPTANE, gas, pressure), rel=0.08)
    assert float(found.y[1][-1]) == pytest.approx(wet_bulb(HEPTANE, gas, pressure), abs=1.5)


def test_wet_bulb_lies_between_cold_and_gas_and_below_boiling() -> None:
    for gas in (280.0, 350.0, 500.0, 900.0):
        wet = wet_bulb(HEPTANE, gas, 101_325.0)
        assert wet < gas
        assert wet < 371.6
    hot = wet_bulb(HEPTANE, 1200.0, 101_325.0)
    assert 350.0 < hot < 371.6


def test_in_saturated_air_nothing_evaporates() -> None:
    y = vapour_pressure("ethanol", 290.0) / 1e5
    far = y * 46.069 / (y * 46.069 + (1 - y) * 28.966)
    assert wet_bulb({"ethanol": 1.0}, 290.0, 1e5, far) == pytest.approx(290.0, abs=0.01)
    dry = evaporation_constant({"ethanol": 1.0}, 290.0, 1e5)
    assert evaporation_constant({"ethanol": 1.0}, 290.0, 1e5, far) < 1e-3 * dry
    assert evaporation_constant({"ethanol": 1.0}, 290.0, 1e5, 1.5 * far) == 0.0


@given(gas=st.floats(255.0, 600.0), pressure=st.floats(0.4e5, 10e5))
def test_hotter_air_evaporates_faster(gas: float, pressure: float) -> None:
    for blend in (PETROL, {"ethanol": 1.0}):
        here = evaporation_constant(blend, gas, pressure)
        assert evaporation_constant(blend, gas + 10.0, pressure) > here > 0.0


def test_air_that_blows_past_helps_as_ranz_and_marshall_say() -> None:
    """Sh = 2 + 0.6 Re^½ Sc^⅓ at Re = 100, Sc = 1.8, over 2, worked by hand: 4.65."""
    viscosity, density = 1.8205e-5, 1e5 / (287.04 * 293.15)
    speed = 100.0 * viscosity / (density * 1e-4)
    # the viscosity is a fit, 3.5 % off at room temperature
    assert ventilation(speed, 1e-4, 293.15, 1e5, 1.8) == pytest.approx(4.65, rel=0.02)
    assert ventilation(0.0, 1e-4, 293.15, 1e5, 1.8) == 1.0
    with pytest.raises(OutsideValidity):
        ventilation(3.0 * speed, 1e-4, 293.15, 1e5, 1.8)


def test_size_of_droplets_in_nukiyamas_own_units() -> None:
    """585/u √(σ/ρ) + 597 (μ/√(σρ))^0.45 (1000 Q_l/Q_a)^1.5 in µm, with m/s, dyn/cm, g/cm³ and
    poise (A. H. Lefebvre, 1989, from memory). Both forms agree within the rounding of 53."""
    for speed, flows in ((60.0, 1e-4), (100.0, 1e-3), (150.0, 5e-3)):
        known = 585.0 / speed * math.sqrt(22.0 / 0.75)
        known += 597.0 * (0.005 / math.sqrt(22.0 * 0.75)) ** 0.45 * (1000.0 * flows) ** 1.5
        found = 1e6 * torn_by_air(speed, 22e-3, 750.0, 0.5e-3, flows)
        assert found == pytest.approx(known, rel=0.01)


def test_sizes_are_those_that_engines_are_known_to_make() -> None:
    """Port injectors 100 to 300 µm; carburettors at speed tens of µm (common practice)."""
    assert 80e-6 < INJECTED[0] < INJECTED[1] < INJECTED[2] <= 300e-6
    assert 20e-6 < torn_by_air(100.0, 21e-3, 745.0, 0.5e-3, 1e-4) < 60e-6
    with pytest.raises(OutsideValidity):
        torn_by_air(100.0, 0.2, 745.0)
    with pytest.raises(OutsideValidity):
        torn_by_air(100.0, 21e-3, 500.0)
