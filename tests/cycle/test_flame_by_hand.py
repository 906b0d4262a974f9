"""What a flame begins with, its front, its streams, and a strong cycle's, in round numbers."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import (
    burning,
    fired,
    flame_cycle,
    flame_front,
    flame_plan,
    flame_scatter,
    scatter,
)
from firstfire.cycle.layout import (
    AIR,
    CYLINDER_SIZE,
    FRONT_HEIGHTS,
    FRONT_SHARES,
    PRESSURE,
    PROGRESS,
    SHAFT_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    WITHIN,
    ZONE_AIR,
    ZONE_TEMPERATURE,
)
from firstfire.formulas import turbulent_flame

BORE = math.sqrt(4e-4 / math.pi)
"""Of a square centimetre, m."""


# What it begins with


@pytest.mark.parametrize(("least", "depth"), [(10e-3, 3e-3), (4e-3, 2e-3)])
def test_the_form_of_a_front(monkeypatch, least, depth):
    """Fronts of 6 cm² in chambers of 1 cm², from 1 cm³ or 0.4 up, each higher by 1.1³.

    Half way along half is behind: 6 over V^⅔ and ½. A third of the way 1 of 1 + 8: (1/9)^⅔ (8/9)^⅓
    is 2/9; at two thirds 4/9. A plug reaches in 3 mm, at most half way. First of all it is a ball:
    4 π over (4/3 π)^⅔.
    """
    asked = []

    def areas(*given):
        asked.append(given)
        return np.full((FRONT_HEIGHTS, FRONT_SHARES), 6e-4)

    monkeypatch.setattr(flame_plan.flame_shape, "front_area_table", areas)
    form, step = flame_plan._front.__wrapped__(BORE, 5e-3, least, 1.331**15)
    assert step == pytest.approx(3 * math.log(1.1))
    bore, offset, deep, heights, shares = asked[0]
    assert (bore, offset, deep) == pytest.approx((BORE, 5e-3, depth))
    assert heights[[0, 1, 15]] == pytest.approx([least, 1.331 * least, 1.331**15 * least])
    assert shares[[0, 16, 24, 32, 48]] == pytest.approx([0.0, 1 / 9, 0.5, 8 / 9, 1.0])
    flat = 6e-4 / (least * 1e-4) ** (2 / 3)
    if least == 10e-3:
        assert flat == pytest.approx(6.0)
    assert form[0, [16, 24, 32]] == pytest.approx([4.5 * flat, 2.0 * flat, 2.25 * flat])
    assert form[3, 24] == pytest.approx(2.0 * flat / 1.21**3)
    assert form[:, 0] == pytest.approx(np.full(16, 4 * math.pi / (4 / 3 * math.pi) ** (2 / 3)))
    assert list(form[:, -1]) == list(form[:, -2])


def parts():
    """8 cm³ at 9 to 1 leave one: 10 mm over a square centimetre."""
    return SimpleNamespace(
        cylinder=SimpleNamespace(bore=BORE, compression_ratio=9.0, stroke=0.04),
        plug=SimpleNamespace(offset=5e-3),
    )


def test_each_cylinder_gets_its_front(monkeypatch):
    asked = []
    monkeypatch.setattr(flame_plan, "swept_volume", lambda _: 8e-6)
    monkeypatch.setattr(flame_plan, "_front", lambda *all_: asked.append(all_) or (7.0, 0.3))
    rows = {name: np.zeros(2) for name in ("front", "front_least", "front_step")}
    plain = SimpleNamespace(cylinders=[parts(), parts()])
    flame_plan.let_travel([{"cylinders": rows}], plain)
    assert asked == [pytest.approx((BORE, 5e-3, 10e-3, 9.0))] * 2
    assert rows["front_least"] == pytest.approx([10e-3] * 2)
    assert list(rows["front_step"]) == [0.3] * 2


def test_a_flame_as_its_charge_would_light_it(monkeypatch):
    """Half as quick again, over 0.75 of doubt: twice. 40 mm in 10 ms: 4 m/s, of which 2 stir.

    Eddies of a fifth of 10 mm; 2.87 bar at 500 K: 2 kg/m³.
    """
    charge = SimpleNamespace(equivalence_ratio=1.1, pressure=2.87e5, temperature=500.0)
    plain = SimpleNamespace(fuel="petrol", doubt=SimpleNamespace(burn_duration=0.75))
    monkeypatch.setattr(flame_plan, "swept_volume", lambda _: 8e-6)
    monkeypatch.setattr(flame_plan, "with_steam", lambda engine, of: (engine.fuel, of.pressure))
    asked = []
    monkeypatch.setattr(flame_plan, "flame_speed", lambda *all_: asked.append(all_) or 0.4)

    def law(fit, phi, reference):
        assert (phi, reference) == (1.1, 1.0)
        return SimpleNamespace(
            speed=fit(phi, 600.0, 3e5), temperature_power=2.1, pressure_power=-0.2
        )

    monkeypatch.setattr(flame_plan.laminar_speed, "power_law", law)
    flame = flame_plan.flame_of(plain, parts(), charge, 0.01, 1.5)
    assert asked == [("petrol", ("petrol", 2.87e5), 600.0, 3e5)]
    assert flame.flame_speed == pytest.approx(0.8)
    assert (flame.flame_temperature_power, flame.flame_pressure_power) == (2.1, -0.2)
    assert flame.flame_intensity == pytest.approx(4.0)
    assert flame.flame_length == pytest.approx(2e-3)
    assert flame.flame_density == pytest.approx(2.0)


# Its front


def chamber():
    """Rows 1, 2, 3 … times columns 10, 11, 12 …: between them it is as even."""
    form = np.outer(1.0 + np.arange(FRONT_HEIGHTS), 10.0 + np.arange(FRONT_SHARES))
    return SimpleNamespace(
        piston_area=1e-4, front=form, front_step=math.log(1.1), front_least=10e-3 / 1.1**2.25
    )


def test_a_front_lies_between_four_places_of_its_table():
    """1 : (48/12.25 - 1)³ behind it: 12.25 along. 10 mm: 2.25 up. (1 + 2.25) · (10 + 12.25), times
    size² · rest = share · 2.918, on 1 cm³: 1 cm².
    """
    ratio = 48 / 12.25 - 1
    share = 1 / (1 + ratio**3)
    area = flame_front.front_area.py_func(chamber(), 1e-6, share * 1e-6)
    assert area == pytest.approx(3.25 * 22.25 * share * ratio * 1e-4)
    eight = flame_front.front_area.py_func(
        SimpleNamespace(**{**vars(chamber()), "piston_area": 8e-4}), 8e-6, share * 8e-6
    )
    assert eight == pytest.approx(4.0 * area)


@pytest.mark.parametrize(("volume", "times"), [(1e-8, 1.0), (1.0, 16.0)])
def test_a_front_beyond_its_table_is_that_of_its_edge(volume, times):
    """Half behind: 24 along, 34 by its columns; size² · rest is a half."""
    area = flame_front.front_area.py_func(chamber(), volume, 0.5 * volume)
    assert area == pytest.approx(times * 34.0 * 0.5 * volume ** (2 / 3))


@pytest.mark.parametrize("behind", [-1e-7, 0.0, 1e-6, 2e-6])
def test_there_is_no_front_with_nothing_or_all_behind_it(behind):
    assert flame_front.front_area.py_func(chamber(), 1e-6, behind) == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize(("within", "caught"), [(2e-4, 2e-4), (-1.0, 0.0), (1.0, 8e-4)])
def test_a_travelling_flame(monkeypatch, within, caught):
    """0.9 and 0.1 g, of which a tenth stays: 0.8 are left, of 9 kg/m³ and 9e5 Pa.

    Pressed 8 to 1 since the spark: eddies stir twice as much at half their size, 4 m/s and 1 mm,
    and 9e-5 Pa s are 1e-5 m²/s. The front encloses 2e-5 m³ and what is left or caught over 9.
    """
    given = {}

    def note(name, answer):
        def law(*all_):
            given[name] = all_
            return answer

        monkeypatch.setattr(flame_front, name, law)

    note("laminar_now", 0.5)
    note("viscosity_of", 9e-5)
    note("microscale", 1e-4)
    note("front_area", 3e-4)
    note("rates_of_flame", (0.1, 0.2))
    monkeypatch.setattr(flame_front, "intensity_now", turbulent_flame.pressed_intensity)
    monkeypatch.setattr(flame_front, "length_now", turbulent_flame.pressed_length)
    here = SimpleNamespace(mass=9e-4, volume=1e-4, specific=1e5, temperature=700.0)
    hot = SimpleNamespace(mass=1e-4, volume=2e-5)
    event = SimpleNamespace(
        amount=0.9, flame_speed=0.4, flame_temperature_power=2.0, flame_pressure_power=-0.3,
        flame_intensity=2.0, flame_length=2e-3, flame_density=9.0 / 8.0,
    )  # fmt: skip
    cylinder = object()
    engine = SimpleNamespace(cylinders=[cylinder], volume_count=1)
    work = SimpleNamespace(zone=[here, hot])
    travel = flame_front.travel.py_func
    assert travel(engine, work, event, 0, within) == (0.1, 0.2)
    assert given["laminar_now"] == ((0.4, 2.0, -0.3), 700.0, pytest.approx(9e5))
    assert given["viscosity_of"] == (700.0, 0.0)
    assert given["microscale"] == pytest.approx((1e-3, 4.0, 1e-5))
    front = given["front_area"]
    assert front[0] is cylinder
    assert front[1:] == pytest.approx((2e-5 + 8e-4 / 9.0, 2e-5 + caught / 9.0))
    assert given["rates_of_flame"] == pytest.approx((caught, 9.0, 3e-4, 0.5, 4.0, 1e-4))
    event.amount = 0.05
    assert travel(engine, work, event, 0, within) == (0.0, 0.0)


# Its streams


@pytest.mark.parametrize(
    ("air", "fuel", "streams"), [(1.0, 0.02, (0.6, 0.0, 0.72)), (1.0, 0.1, (0.0, 0.05, 1.35))]
)
def test_air_and_fuel_burn_in_proportion(air, fuel, streams):
    """0.5 over 10: a twentieth. 0.02 kg of fuel take 0.4 of air; 1 kg of air takes 0.05."""
    gas = SimpleNamespace(equivalence_ratio=0.5, stoichiometric_air_fuel_ratio=10.0)
    assert burning.burn_streams.py_func(gas, air, fuel, 0.3) == pytest.approx(streams)


@pytest.mark.parametrize(
    ("shape", "progress", "taken"), [(2.0, 0.5, 0.03), (3.0, 0.5, 0.02), (2.0, 0.0, 0.0)]
)
def test_a_burn_takes_a_share_of_what_is_left(shape, progress, taken):
    """0.8 g left · 5 · 3 · 0.5² · 10 a second; at 3 it is 5 · 4 · 0.5³."""
    cylinder = SimpleNamespace(wiebe_a=5.0, wiebe_m=shape)
    engine = SimpleNamespace(cylinders=[cylinder], volume_count=1)
    work = SimpleNamespace(zone=[SimpleNamespace(mass=9e-4), SimpleNamespace(mass=1e-4)])
    event = SimpleNamespace(amount=0.9, rate=10.0)
    law = burning.burned_by_law.py_func
    assert law(engine, work, event, 0, progress) == pytest.approx(taken)
    event.amount = 0.05
    assert law(engine, work, event, 0, progress) == 0.0


@pytest.mark.parametrize(("a", "m", "heat"), [(4.0, 1.0, 800.0), (8.0, 2.0, 1200.0)])
def test_heat_is_given_by_the_same_law(a, m, heat):
    """Half way: 4 · 0.5² = 8 · 0.5³ = 1. 100 J · 4 · 2 · 0.5/e · 2 a second; 8 · 3 · 0.25."""
    cylinder = SimpleNamespace(wiebe_a=a, wiebe_m=m, burn_heat=100.0)
    assert burning.given_heat.py_func(cylinder, 0.5, 2.0) == pytest.approx(heat / math.e)
    assert burning.given_heat.py_func(cylinder, 0.0, 2.0) == 0.0


AT = SHAFT_SIZE + 2 * VOLUME_SIZE
ENGINE = SimpleNamespace(gas="gas", cylinders_at=AT - CYLINDER_SIZE)
"""The second of two cylinders has its burned zone at ``AT``."""
VOLUME_AT = SHAFT_SIZE + VOLUME_SIZE


def test_a_seed_burns_and_both_zones_are_pressed(monkeypatch):
    """320 · 2400/(300 · 400) = 6.4: the seed swells the charge by 5.4e-5, which 1200/900 of it,
    7.2e-5, takes back; a quarter of that warms the charge, a fifth the seed.
    """
    asked = []

    def state(gas, *given):
        asked.append((gas, *given))
        return (17.0, 1200.0, 0, 300.0, 0, 0) if given[-2] == 400.0 else (0, 1600.0, 0, 320.0, 0, 0)

    monkeypatch.setattr(burning, "mixture_state", state)
    streams = lambda *all_: asked.append(all_) or (1e-10, 2e-10, 7e-9)  # noqa: E731
    monkeypatch.setattr(burning, "burn_streams", streams)
    hot = lambda *all_: asked.append(all_) or 2400.0  # noqa: E731
    monkeypatch.setattr(burning, "temperature_from_enthalpy", hot)
    values = np.full(AT + CYLINDER_SIZE, 9.0)
    values[VOLUME_AT + PRESSURE], values[VOLUME_AT + TEMPERATURE] = 1e6, 400.0
    values[VOLUME_AT + AIR : VOLUME_AT + AIR + 3] = 6e-4, 1e-4, 3e-4
    burning.ignite.py_func(ENGINE, values, 1)
    assert asked[0] == ("gas", 6e-4, 1e-4, 3e-4, 400.0, 1e6)
    assert asked[1] == ("gas", *(pytest.approx(mass) for mass in (6e-9, 1e-9, 3e-9)))
    assert asked[2][:6] == ("gas", 1e-10, 2e-10, 7e-9, 17.0, 1e6)
    assert asked[3] == ("gas", 1e-10, 2e-10, 7e-9, 2400.0, 1e6)
    assert values[VOLUME_AT + PRESSURE] == pytest.approx(1e6 + 72.0, rel=1e-11)
    assert values[VOLUME_AT + TEMPERATURE] == pytest.approx(400.0 + 7.2e-3, rel=1e-11)
    assert values[AT + ZONE_TEMPERATURE] == pytest.approx(2400.0 + 2400 * 1.44e-5, rel=1e-11)
    left = [mass * 0.99999 for mass in (6e-4, 1e-4, 3e-4)]
    assert values[VOLUME_AT + AIR : VOLUME_AT + AIR + 3] == pytest.approx(left, rel=1e-12)
    zone = values[AT + ZONE_AIR : AT + ZONE_AIR + 3]
    assert zone == pytest.approx([1e-10, 2e-10, 1e-8 - 3e-10])
    assert (values[AT + PROGRESS], values[AT + WITHIN]) == (0.0, 0.0)


def test_two_zones_are_joined(monkeypatch):
    """1 g of 500 kJ/kg and 3 g of 100 are 800 J, less 1 bar · 2 l 600 J: 150 kJ/kg of 4 g.

    500 and 2100 K are 1700 by mass.
    """
    asked, found = [], []

    def state(gas, *given):
        asked.append(given)
        return (5e5 if given[3] == 500.0 else 1e5, 0, 0, 0, 0, 0)

    monkeypatch.setattr(burning, "mixture_state", state)
    from_energy = lambda *all_: found.append(all_) or (1600.0, 9e5)  # noqa: E731
    monkeypatch.setattr(burning, "temperature_from_energy", from_energy)
    values = np.full(AT + CYLINDER_SIZE, 9.0)
    values[VOLUME_AT + PRESSURE], values[VOLUME_AT + TEMPERATURE] = 1e5, 500.0
    values[VOLUME_AT + AIR : VOLUME_AT + AIR + 3] = 5e-4, 3e-4, 2e-4
    values[AT + ZONE_AIR : AT + ZONE_AIR + 3] = 1e-3, 0.5e-3, 1.5e-3
    values[AT + ZONE_TEMPERATURE] = 2100.0
    burning.join_zones.py_func(ENGINE, values, 1, 2e-3)
    assert asked == [
        (5e-4, 3e-4, 2e-4, 500.0, 1e5), (1e-3, 0.5e-3, 1.5e-3, 2100.0, 1e5)
    ]  # fmt: skip
    assert found == [
        ("gas", *(pytest.approx(one) for one in (1.5e-3, 0.8e-3, 1.7e-3, 150e3, 2e-3, 1700.0)))
    ]
    both = values[VOLUME_AT + AIR : VOLUME_AT + AIR + 3]
    assert both == pytest.approx([1.5e-3, 0.8e-3, 1.7e-3])
    assert not values[AT + ZONE_AIR : AT + ZONE_AIR + 3].any()
    assert (values[VOLUME_AT + TEMPERATURE], values[VOLUME_AT + PRESSURE]) == (1600.0, 9e5)
    assert values[AT + ZONE_TEMPERATURE] == 1600.0
    assert (values[AT + PROGRESS], values[AT + WITHIN]) == (0.0, 0.0)


# A strong cycle's


@pytest.mark.parametrize(
    ("drawn", "strong", "times"),
    [(1.0, 0.0, 1.2), (0.0, math.sqrt(2.0), 0.8), (2.0, math.sqrt(2.0), 1.2), (-9.0, 0.0, 0.3)],
)
def test_a_burn_is_stretched(drawn, strong, times):
    """Spread 0.2: by so many more, less so many over √2; by 0.3 at least."""
    assert scatter.stretched(0.2, drawn, strong) == pytest.approx(times)


def test_a_strong_flame_is_as_much_quicker_as_its_burn_is_shorter(monkeypatch):
    """0.8 and 0.5 of the mean time: 1.25 and twice as quick, stirred as much more."""
    asked, bounds, pressed = [], [], []
    plain = SimpleNamespace(fuel="petrol")
    cylinders = {"flame_speed": np.array([4.0]), "flame_intensity": np.array([8.0])}

    class State(SimpleNamespace):
        def _replace(self, **changed):
            return State(**{**vars(self), **changed})

    class Rows(dict):
        def copy(self):
            return Rows({name: one.copy() for name, one in self.items()})

    state = State(cylinders=Rows(cylinders))

    def stretch(spread, drawn, strong):
        assert (spread, drawn) == (scatter.DELAY_SPREAD, 0.0)
        return {flame_scatter.NINETY: 0.8, flame_scatter.RARE: 0.5}[strong]

    def run(engines, begun, until, factors):
        asked.append((engines, until, factors))
        pressed.append([float(begun.cylinders[name][0]) for name in cylinders])
        return None, "trace"

    cycle = SimpleNamespace(speed=50.0, state="state")
    point = SimpleNamespace(flames=("flame",), spec="spec", cycle=cycle)
    monkeypatch.setattr(flame_scatter, "firing_angles", lambda _: (0.3,))
    monkeypatch.setattr(flame_scatter, "build_engine", lambda spec: [spec])
    monkeypatch.setattr(flame_scatter, "let_travel", lambda engines, of: engines.append(of.fuel))
    monkeypatch.setattr(
        flame_scatter, "begin",
        lambda *all_: state if all_ == ("spec", ["spec", "petrol"], 50.0, "state") else None,
    )  # fmt: skip
    monkeypatch.setattr(flame_scatter, "stretched", stretch)
    monkeypatch.setattr(flame_scatter, "run_traced", run)
    monkeypatch.setattr(flame_scatter, "steady_factors", lambda engines: (*engines, "steady"))
    monkeypatch.setattr(
        flame_scatter, "next_peaks", lambda trace, phases: [(trace, phases, len(asked))]
    )
    monkeypatch.setattr(flame_scatter, "bounded", lambda *all_: bounds.append(all_) or "peaks")
    assert flame_scatter.peaks_of(plain, point) == ("peaks",)
    assert pressed == [pytest.approx([5.0, 10.0]), pytest.approx([8.0, 16.0])]
    assert asked == [
        (["spec", "petrol"], scatter.UNTIL_PEAKS, ("spec", "petrol", "steady"))
    ] * 2  # fmt: skip
    strong, rare = ("trace", (0.3,), 1), ("trace", (0.3,), 2)
    assert bounds == [(point, 0, (strong, rare), 0.3, "petrol")]


def test_burns_by_law_have_their_own_peaks(monkeypatch):
    monkeypatch.setattr(flame_scatter, "firing_angles", lambda _: (0.3,))
    monkeypatch.setattr(flame_scatter, "peaks", lambda *all_: all_)
    point = SimpleNamespace(flames=None)
    plain = SimpleNamespace(fuel="petrol")
    assert flame_scatter.peaks_of(plain, point) == (point, (0.3,), "petrol")


def test_a_first_burn_is_of_60_degrees_from_10_before_top():
    assert fired.FIRST_BURN.start == pytest.approx(-math.pi / 18)
    assert fired.FIRST_BURN.duration == pytest.approx(math.pi / 3)


def test_burns_a_tenth_of_a_degree_apart_agree():
    """0.2° later and 0.3° longer: three times what counts."""
    tenth = math.pi / 1800
    old = SimpleNamespace(start=0.1, duration=1.0)
    new = SimpleNamespace(spec=SimpleNamespace(start=0.1 + 2 * tenth, duration=1.0 + 3 * tenth))
    assert fired._apart([old], [new]) == pytest.approx(3.0)
    new.spec.duration = 1.0
    assert fired._apart([old], [new]) == pytest.approx(2.0)
    assert fired._apart([None], [new]) == math.inf
    assert fired._apart([None], [None]) == 0.0


def flame(**other):
    usual = {
        "flame_speed": 0.5, "flame_temperature_power": 2.0, "flame_pressure_power": -0.2,
        "flame_intensity": 2.0, "flame_length": 1e-3, "flame_density": 2.0,
    }  # fmt: skip
    return flame_plan.Flame(**{**usual, **other})


@pytest.mark.parametrize(
    ("other", "apart"),
    [
        ({"flame_speed": 0.4}, 0.2),
        ({"flame_density": 4.0}, math.log(2.0)),
        ({"flame_density": 1.0}, math.log(2.0)),
        ({"flame_temperature_power": 2.3}, 0.3),
        ({"flame_pressure_power": 0.1}, 0.3),
    ],
)
def test_flames_differ_by_share_and_by_power(other, apart):
    """0.1 of 0.5 m/s; a half or twice the density."""
    assert flame_cycle._differ(flame(), flame(**other)) == pytest.approx(apart)
    assert flame_cycle._differ(flame(**other), flame()) == pytest.approx(apart)


def test_a_flame_is_lit_at_its_spark(monkeypatch):
    """A cylinder without one isn't; what its burn is called lasts half a turn."""
    given = []
    state = SimpleNamespace(cylinders="cylinders")
    monkeypatch.setattr(flame_cycle, "set_burns", lambda *all_: given.append(all_) or state)
    lights = SimpleNamespace(put_in=lambda *all_: given.append(all_))
    assert flame_cycle._lit("engines", "before", [None, lights], -0.4) is state
    engines, before, burns = given[0]
    assert (engines, before, burns[0]) == ("engines", "before", None)
    assert (burns[1].start, burns[1].duration) == (-0.4, pytest.approx(math.pi))
    assert given[1] == ("cylinders", 1)


def test_a_burn_is_told_from_its_spark_on_round_the_cycle(monkeypatch):
    """Phase 1, spark 0.5 before it: 0.5 of the shaft. 0.7, 0.9 and a cycle less 0.1 on."""
    given = []
    monkeypatch.setattr(flame_cycle, "told_burn", lambda *all_: given.append(all_) or "burn")
    curves = SimpleNamespace(
        angle=np.array([0.4, 0.7, 0.9]), burned_fraction=np.array([[0, 0.3], [0, 0.1], [0, 0.2]])
    )
    assert flame_cycle._burn(curves, 1, 1.0, -0.5) == "burn"
    since, share, at = given[0]
    assert since == pytest.approx([0.2, 0.4, 4 * math.pi - 0.1])
    assert list(share) == [0.1, 0.2, 0.3]
    assert at == -0.5
    assert flame_cycle._burn(curves, 0, 1.0, -0.5) is None
