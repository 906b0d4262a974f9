"""Two laws of a turbulent flame: their exact solutions, and the burn angles of usual engines."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from firstfire.formulas import gas_transport, laminar_speed, slider_crank
from firstfire.formulas import turbulent_flame as flame
from firstfire.formulas.flame_shape import front_area_table

DENSITY, FRONT, LAMINAR = 6.0, 1.5e-3, 0.6


def test_blizard_and_keck_with_nothing_changing_follow_the_exact_solution() -> None:
    # Linear with constant coefficients; its solution worked out by hand.
    speed, length = 4.0, 1.5e-3
    tau, inflow = length / LAMINAR, DENSITY * FRONT * speed

    def slope(t: float, masses: np.ndarray) -> tuple[float, float]:
        return flame.keck_rates(masses[1], t, DENSITY, FRONT, LAMINAR, speed, length)

    times = np.linspace(0.0, 8 * tau, 20)
    found = solve_ivp(slope, (0, times[-1]), (0.0, 0.0), t_eval=times, rtol=1e-10, atol=1e-16).y
    gone = np.exp(-times / tau)
    entrained = inflow * (tau * (1 - gone) - times * gone)
    taken_in = DENSITY * FRONT * LAMINAR * times + inflow * (times - tau * (1 - gone))
    assert found[1] == pytest.approx(entrained, rel=1e-7, abs=1e-13)
    assert found.sum(axis=0) == pytest.approx(taken_in, rel=1e-7, abs=1e-13)


def test_tabaczynski_with_nothing_changing_follows_the_exact_solution() -> None:
    intensity, microscale = 2.0, 0.25e-3
    tau, inflow = microscale / LAMINAR, DENSITY * FRONT * (intensity + LAMINAR)

    def slope(_: float, masses: np.ndarray) -> tuple[float, float]:
        return flame.tabaczynski_rates(masses[1], DENSITY, FRONT, LAMINAR, intensity, microscale)

    times = np.linspace(0.0, 8 * tau, 20)
    found = solve_ivp(slope, (0, times[-1]), (0.0, 0.0), t_eval=times, rtol=1e-10, atol=1e-16).y
    assert found[1] == pytest.approx(inflow * tau * (1 - np.exp(-times / tau)), rel=1e-7, abs=1e-13)
    assert found.sum(axis=0) == pytest.approx(inflow * times, rel=1e-7, abs=1e-13)


def test_young_flame_is_laminar_and_old_one_burns_what_it_takes_in() -> None:
    # Heywood 1988, Eqs. 14.35 and 14.36 (from memory): at first rho A S_L, in the end
    # rho A (S_L + u_T), where rho u_T tau of mass is on its way.
    young = flame.keck_rates(0.0, 0.0, DENSITY, FRONT, LAMINAR, 4.0, 1.5e-3)
    assert young == (pytest.approx(DENSITY * FRONT * LAMINAR), 0.0)
    under_way = DENSITY * FRONT * 4.0 * 1.5e-3 / LAMINAR
    burning, growth = flame.keck_rates(under_way, 1e3, DENSITY, FRONT, LAMINAR, 4.0, 1.5e-3)
    assert burning == pytest.approx(DENSITY * FRONT * (LAMINAR + 4.0))
    assert growth == pytest.approx(0.0, abs=1e-12 * burning)


def test_without_a_laminar_flame_nothing_burns() -> None:
    assert flame.keck_rates(1e-6, 1e-3, DENSITY, FRONT, 0.0, 4.0, 1.5e-3) == (0.0, 0.0)
    assert flame.tabaczynski_rates(1e-6, DENSITY, FRONT, 0.0, 2.0, 1e-3)[0] == 0.0


def test_keck_scales_are_those_printed() -> None:
    # Heywood 1988, Eqs. 14.39 to 14.41 (from memory): a valve of a sixth of the piston's area.
    inlet = flame.inlet_gas_speed(0.8, 6.0, 1.0, 5.0)
    assert inlet == pytest.approx(24.0)
    assert flame.keck_speed(inlet, 1.0, 1.0) == pytest.approx(0.08 * 24.0)
    assert flame.keck_speed(inlet, 4.0, 1.0) == pytest.approx(2 * 0.08 * 24.0)
    assert flame.keck_length(9e-3, 1.0, 1.0) == pytest.approx(7.2e-3)
    assert flame.keck_length(9e-3, 16.0, 1.0) == pytest.approx(0.9e-3)


@given(st.floats(0.1, 10), st.floats(1e-4, 1e-2), st.floats(0.3, 30), st.floats(0.3, 30))
def test_pressed_eddies_keep_mass_and_angular_momentum(
    intensity: float, length: float, before: float, after: float
) -> None:
    faster = flame.pressed_intensity(intensity, after, before)
    smaller = flame.pressed_length(length, after, before)
    assert after * smaller**3 == pytest.approx(before * length**3)
    assert faster * smaller == pytest.approx(intensity * length)


@given(st.floats(0.5, 10), st.floats(1e-3, 1e-2), st.floats(1e-6, 1e-5))
def test_microscale_loses_what_the_large_eddies_feed(u: float, length: float, nu: float) -> None:
    # 15 nu u'²/lambda² of isotropic turbulence, and u'³/L (Tennekes and Lumley, section 3.2).
    microscale = flame.taylor_microscale(length, u, nu)
    assert 15 * nu * u**2 / microscale**2 == pytest.approx(u**3 / length)
    assert microscale < length


def test_microscale_ends_at_the_large_eddies() -> None:
    assert flame.taylor_microscale(1e-3, 1e-3, 1e-5) == 1e-3
    at_join = 15 * 1e-5 / 1e-3
    assert flame.taylor_microscale(1e-3, 1.0001 * at_join, 1e-5) == pytest.approx(1e-3, rel=1e-4)
    at_half_more = flame.taylor_microscale(1e-3, 1.5 * at_join, 1e-5)
    assert at_half_more == pytest.approx(1e-3 / math.sqrt(1.5))
    assert flame.taylor_microscale(1e-3, 0.0, 1e-5) == 1e-3


# From here on: the laws in an engine. Two zones of one gas of n = 1.3, R = 287 J/(kg K): pressure
# by energy, unburned gas pressed as a polytrope, what is left of the room is burned gas. The charge
# gives 2.6 MJ/kg (stoichiometric, 8 % burned gas; it then grows 4.2 times at 650 K); 370 K and
# 0.95 bar where the inlet closes, 140° before top. Nothing is fitted.

GAS, POLYTROPE, HEAT, RESIDUAL = 287.0, 1.3, 2.6e6, 0.08
AT_CLOSING = (math.radians(-140), 0.95e5, 370.0)
INLET_DENSITY = AT_CLOSING[1] / (GAS * AT_CLOSING[2])
STEP = math.radians(0.1)


@dataclass(frozen=True)
class Engine:
    """A cylinder with a flat chamber; its inlet valve 0.44 of the bore, lifted a quarter of it."""

    bore: float
    stroke: float
    ratio: float
    plug_offset: float = 0.0

    @property
    def area(self) -> float:
        return math.pi / 4 * self.bore**2

    @property
    def clearance(self) -> float:
        return self.stroke / (self.ratio - 1)

    def height(self, angle: float) -> float:
        throw = self.stroke / 2
        return self.clearance + slider_crank.piston_travel(angle, throw, 3.5 * throw, 0.0)


CAR = Engine(86e-3, 86e-3, 8.5)
SMALL = Engine(44e-3, 40e-3, 7.0)

Rates = Callable[[float, float, float, float, float], tuple[float, float]]
Law = Callable[[Engine, float], Rates]


def keck(engine: Engine, speed: float) -> Rates:
    valve = 0.44 * engine.bore
    opening = math.pi * valve * 0.25 * valve
    inlet = flame.inlet_gas_speed(0.85, engine.area, opening, engine.stroke * speed / math.pi)

    def rates(
        entrained: float, age: float, density: float, front: float, laminar: float
    ) -> tuple[float, float]:
        turbulent = flame.keck_speed(inlet, density, INLET_DENSITY)
        length = flame.keck_length(0.25 * valve, density, INLET_DENSITY)
        return flame.keck_rates(entrained, age, density, front, laminar, turbulent, length)

    return rates


def tabaczynski(engine: Engine, speed: float) -> Rates:
    at_top = INLET_DENSITY * engine.height(AT_CLOSING[0]) / engine.clearance
    started = flame.intensity_at_top(engine.stroke * speed / math.pi)
    size = flame.integral_length_at_top(engine.clearance)

    def rates(
        entrained: float, age: float, density: float, front: float, laminar: float
    ) -> tuple[float, float]:
        temperature = AT_CLOSING[2] * (density / INLET_DENSITY) ** (POLYTROPE - 1)
        intensity = flame.pressed_intensity(started, density, at_top)
        length = flame.pressed_length(size, density, at_top)
        viscosity = gas_transport.viscosity(temperature) / density
        microscale = flame.taylor_microscale(length, intensity, viscosity)
        return flame.tabaczynski_rates(entrained, density, front, laminar, intensity, microscale)

    return rates


def fronts(engine: Engine) -> Callable[[float, float], float]:
    """The front by height and by the cube root of the share behind it, between grid points."""
    heights = np.linspace(engine.clearance, engine.height(math.radians(130)), 24)
    edge = np.linspace(0.0, 1.0, 81)
    offset, depth = engine.plug_offset * engine.bore, min(2e-3, engine.clearance / 2)
    table = front_area_table(engine.bore, offset, depth, heights, edge**3).tolist()

    def front(height: float, share: float) -> float:
        x = 80 * min(max(share, 0.0), 1.0) ** (1 / 3)
        y = 23 * (height - heights[0]) / (heights[-1] - heights[0])
        i, j = min(max(int(y), 0), 22), min(int(x), 79)
        y, x = y - i, x - j
        upper = table[i][j] * (1 - x) + table[i][j + 1] * x
        return upper * (1 - y) + (table[i + 1][j] * (1 - x) + table[i + 1][j + 1] * x) * y

    return front


def iso_octane(temperature: float, pressure: float) -> float:
    fit = laminar_speed.METGHALCHI_KECK_ISO_OCTANE
    whole = laminar_speed.metghalchi_keck(1.0, temperature, pressure, fit)
    return whole * laminar_speed.metghalchi_keck_dilution(RESIDUAL)


def burn_angles(law: Law, engine: Engine, rpm: float, spark_degrees: float) -> tuple[float, float]:
    """Spark to a tenth burned and from there to nine tenths, degrees."""
    speed, angle = rpm * math.pi / 30, math.radians(spark_degrees)
    rates, front = law(engine, speed), fronts(engine)
    first = engine.area * engine.height(AT_CLOSING[0])
    mass = INLET_DENSITY * first
    volume = engine.area * engine.height(angle)
    # A kernel of half a millimetre has burned at once.
    burned = 4 / 3 * math.pi * 0.5e-3**3 * mass / volume / 4
    pressure = AT_CLOSING[1] * (first / volume) ** POLYTROPE
    pressure += (POLYTROPE - 1) * HEAT * burned / volume
    entrained, tenth = 0.0, math.nan
    begun = angle
    while burned < 0.9 * mass:
        assert angle < math.radians(130), "the piston was down before the charge had burned"
        pressed = (pressure / AT_CLOSING[1]) ** (1 / POLYTROPE)
        density, temperature = INLET_DENSITY * pressed, AT_CLOSING[2] * pressed**0.3
        behind = volume - (mass - burned - entrained) / density
        area = front(volume / engine.area, behind / volume)
        laminar = iso_octane(temperature, pressure)
        age = (angle - begun) / speed
        burning, growth = rates(entrained, age, density, area, laminar)
        angle += STEP
        wider = engine.area * engine.height(angle)
        more = min(burning * STEP / speed, mass - burned)
        pressure = pressure * (volume / wider) ** POLYTROPE + (POLYTROPE - 1) * HEAT * more / wider
        volume, burned = wider, burned + more
        entrained = min(max(entrained + growth * STEP / speed, 0.0), mass - burned)
        if math.isnan(tenth) and burned >= 0.1 * mass:
            tenth = math.degrees(angle - begun)
    return tenth, math.degrees(angle - begun) - tenth


LAWS = pytest.mark.parametrize("law", [keck, tabaczynski])


@LAWS
def test_a_car_engine_burns_its_next_eight_tenths_in_the_published_angle(law: Law) -> None:
    # 20 to 35° at 1500 rpm (Heywood 1988, section 9.2 and Fig. 9-13, from memory), the plug in the
    # middle. Beside it a disc burns slower, as section 15.4 there has it.
    rapid = burn_angles(law, CAR, 1500, -30)[1]
    assert 20 < rapid < 35
    assert burn_angles(law, replace(CAR, plug_offset=0.2), 1500, -30)[1] > 1.3 * rapid


@LAWS
def test_a_car_engine_burns_its_first_tenth_slower_than_published(law: Law) -> None:
    # 15 to 25° (as above). The laws have no constant to be set, and come out slow; this is what
    # whoever uses them must know.
    tenth = burn_angles(law, CAR, 1500, -30)[0]
    assert 25 < tenth < 38


def power_of_speed(law: Law, engine: Engine, slow: float, fast: float) -> tuple[float, float]:
    pairs = zip(
        burn_angles(law, engine, slow, -30), burn_angles(law, engine, fast, -30), strict=True
    )
    before, after = (math.log(b / a) / math.log(fast / slow) for a, b in pairs)
    return before, after


def test_angles_of_tabaczynski_grow_with_speed_as_engines_do() -> None:
    # About the power 0.37 (Heywood 1988, section 9.3, after Hires and others; from memory). That is
    # with the spark moved along; held, as here, the later part is drawn into the downstroke.
    for engine, slow, fast in ((CAR, 1000, 3000), (SMALL, 1000, 4000)):
        tenth, rapid = power_of_speed(tabaczynski, engine, slow, fast)
        assert 0.2 < tenth < 0.4
        assert 0.2 < rapid < 0.55


def test_first_angle_of_keck_grows_with_speed_faster_than_engines_do() -> None:
    # A lump burns in a time that knows no speed.
    tenth, _ = power_of_speed(keck, CAR, 1000, 2000)
    assert 0.5 < tenth < 0.8


@LAWS
def test_cranked_slowly_a_small_engine_burns_in_few_degrees(law: Law) -> None:
    # A laminar flame alone, of 0.7 m/s swept along at 4.2 times that, would take the 22 mm of the
    # radius in 7.5 ms: 13° at 300 rpm. Both laws must be of that size, and no slower than it.
    tenth, rapid = burn_angles(law, SMALL, 300, -15)
    assert 5 < tenth + rapid < 30
    assert burn_angles(law, SMALL, 400, -15)[0] > tenth
