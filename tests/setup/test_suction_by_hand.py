"""An inlet that suction opens, by hand: no gas is run, stand-ins take its place."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle.layout import ANGLE, LIFT, SUCTION_SIZE
from firstfire.errors import Stopped
from firstfire.setup.cams import suction_gas, suction_inlet
from firstfire.setup.cams.suction_inlet import AtSpeed

THROAT = 36e-6 * math.pi
"""m², of 13 mm with a stem of 5 mm: 13² - 5² = 12² and a quarter of that is 36."""


def of(**valve):
    """An engine with such an inlet: 12.5 g on 125 N/m that push 0.5 N on the seat, 1 N at 4 mm."""
    inlet = {
        "mass": 12.5e-3, "spring_rate": 125.0, "spring_preload": 0.5, "lift": 4e-3,
        "throat_diameter": 13e-3, "stem_diameter": 5e-3, "head_diameter": 20e-3,
        "seat_angle": math.radians(60.0), "flow_coefficient": 0.5,
    }  # fmt: skip
    return SimpleNamespace(
        cylinders=[SimpleNamespace(
            valves=SimpleNamespace(inlet=SimpleNamespace(**inlet | valve)),
            cylinder=SimpleNamespace(bore=40e-3),
        )],
        surroundings=SimpleNamespace(air_pressure=103338.0, air_temperature=300.0),
        use=SimpleNamespace(cranking_speed=30.0, full_throttle_speeds=(200.0, 300.0)),
    )  # fmt: skip


def well(speed, **but):
    return AtSpeed(**{
        "speed": speed, "filling": 0.8, "shuts": 0.5, "back": 0.02, "openings": 1,
    } | but)  # fmt: skip


def test_a_spring_shuts_it_within_sixty_degrees_as_a_quarter_swing():
    """A quarter swing, π/2 √(m/k), shall last as long as π/3 of the crank at 100 rad/s.

    √(k/m) = 100 × (π/2)/(π/3) = 150 rad/s: 8 g want 8 g × 22500 = 180 N/m, and a quarter as much
    at half of that speed.
    """
    assert suction_inlet._rate_for(8e-3, 100.0) == pytest.approx(180.0)
    assert suction_inlet._rate_for(8e-3, 50.0) == pytest.approx(45.0)


@pytest.mark.parametrize(
    ("shuts", "back", "holds"), [(59.0, 0.09, True), (61.0, 0.09, False), (59.0, 0.11, False)]
)
def test_it_is_well_where_it_shuts_within_sixty_degrees_and_gives_a_tenth_back(shuts, back, holds):
    assert well(100.0, shuts=math.radians(shuts), back=back).well is holds


@pytest.mark.parametrize("at", [0.1, 0.13])
def test_it_is_shut_below_three_hundredths_of_its_lift(at):
    """Of 4 mm they are 0.12 mm."""
    wave = np.array([0.0, 2.0, at, 2.0, 0.0])
    assert suction_inlet.openings(wave, 4.0) == (2 if at < 0.12 else 1)


def test_what_it_does_by_its_plain_numbers(monkeypatch):
    """√(m/k) is 10 ms: it swings at 100/2π Hz, and from 1 N to 0.5 N takes it acos ½ = π/3 of that.

    At 300 rad/s the crank turns π. The gas goes through 60 mm² at 3 dm³/s, 50 m/s: of 1.2 kg/m³
    that is 1500 Pa on the throat. At 4/3 mm 0.5 N are 375 N/m: twice that and three times the
    spring's 125 N/m are 1125 N/m, and 12.5 g swing on them at 300 rad/s.
    """
    asked, hovers = [], {(30.0, 300.0): 4e-3 / 3}

    def at_speed(plain, speed, _stop):
        assert plain.use.cranking_speed == 30.0
        asked.append(speed)
        return well(speed, shuts=2.0 if speed > 170.0 else 0.5)

    monkeypatch.setattr(suction_inlet, "at_speed", at_speed)
    monkeypatch.setattr(
        suction_inlet, "hovering", lambda plain, top: hovers[plain.use.cranking_speed, top]
    )
    monkeypatch.setattr(suction_inlet, "drawn_in", lambda _, speed: (1e-5 * speed, 1.2))
    monkeypatch.setattr(suction_inlet, "flow_area", lambda _: 60e-6)
    found = suction_inlet.suction_inlet(of())
    assert asked == pytest.approx([30.0, 75.0, 120.0, 165.0, 210.0, 255.0, 300.0])
    assert found.well_to == pytest.approx(165.0)
    assert found.opens_at == pytest.approx(0.5 / THROAT)
    assert found.shutting == pytest.approx(0.01 * math.pi / 3)
    assert found.shutting_angle == pytest.approx(math.pi)
    assert found.swing == pytest.approx(100.0 / (2 * math.pi))
    assert found.spring_on_stop == pytest.approx(1.0)
    assert found.gas_push == pytest.approx(1500.0 * THROAT)
    assert found.hovers == pytest.approx(4e-3 / 3)
    assert found.dances_at == pytest.approx(300.0 / (2 * math.pi))
    assert len(found.advice) == 1


def test_beyond_its_stop_it_rests(monkeypatch):
    monkeypatch.setattr(suction_inlet, "at_speed", lambda _, speed, __: well(speed))
    monkeypatch.setattr(suction_inlet, "hovering", lambda *_: 4.1e-3)
    monkeypatch.setattr(suction_inlet, "_push", lambda *_: 2.0)
    found = suction_inlet.suction_inlet(of())
    assert found.dances_at == 0.0
    assert found.well_to == pytest.approx(300.0)
    assert found.advice == ()


def test_what_to_change_is_said_in_numbers():
    """A quarter more than twice: at 200 rad/s 12.5 g want 12.5 g × 300² = 1125 N/m.

    On the 125 N/m that it has a ninth of its 12.5 g does as well, 1.4 g. 200 rad/s are 1910 rpm,
    100 rad/s 955 rpm. Half of its 0.5 N; 0.7 of its 4 mm.
    """
    found = SimpleNamespace(
        speeds=(well(100.0, filling=0.6, back=0.2), well(200.0, openings=2)), opens_at=4421.0,
        dances_at=47.7, hovers=4e-3 / 3, gas_push=0.17, spring_on_stop=1.0,
    )  # fmt: skip
    opens, late, dances = suction_inlet._advice(of(), found, 200.0)
    assert "it wants 44 mbar of suction. Take 0.25 N of preload" in opens
    assert "From 955 rpm it shuts too late. A spring of 1.1 N/mm shuts it" in late
    assert "at 1910 rpm; so does 1.4 g on the one it has" in late
    assert "dances about 1.3 mm, where gas and spring balance, some 48 times a second" in dances
    assert "2.8 mm of lift" in dances


def test_the_lift_is_read_from_its_own_column_for_one_cycle(monkeypatch):
    """The second valve is the third that suction opens: two others stand before it."""
    column = 7 + 2 * SUCTION_SIZE + LIFT
    engines = [{"suctions_at": 7, "valves": [{"suction": -1}, {"suction": 2}]}]
    values = np.zeros(ANGLE + 1)
    values[ANGLE] = 5.0
    state = SimpleNamespace(values=values)
    ended = []

    def traced(run, begun, end, stop):
        assert (run, begun) == (engines, state)
        assert stop is None
        ended.append(end)
        return None, SimpleNamespace(values=np.arange(3.0 * (column + 9)).reshape(3, column + 9))

    monkeypatch.setattr(suction_inlet, "build_engine", lambda _: engines)
    monkeypatch.setattr(suction_inlet, "run_traced", traced)
    spec = SimpleNamespace(valves=[SimpleNamespace(name="exhaust 1"),
                                   SimpleNamespace(name="inlet 1")])  # fmt: skip
    fired = SimpleNamespace(spec=spec, cycle=SimpleNamespace(state=state))
    lift = suction_inlet.lift_traced(fired)
    assert lift.tolist() == [column, column + column + 9, column + 2 * (column + 9)]
    assert ended == [pytest.approx(5.0 + 4 * math.pi)]


def test_a_speeds_own_figures_are_told(monkeypatch):
    figures = SimpleNamespace(filling_trapped=0.7, inlet_shut=0.3, spat_back=0.04)
    fired = SimpleNamespace(cycle=SimpleNamespace(cylinders=[figures]))
    monkeypatch.setattr(suction_inlet, "cold", lambda _: None)
    monkeypatch.setattr(
        suction_inlet, "operating_point", lambda *_, **__: SimpleNamespace(fired=fired)
    )
    monkeypatch.setattr(
        suction_inlet, "lift_traced",
        lambda run, _: np.array([0.0, 0.9e-3, 0.0, 0.9e-3, 0.0]) if run is fired else None,
    )  # fmt: skip
    assert suction_inlet.at_speed(of(), 150.0) == AtSpeed(150.0, 0.7, 0.3, 0.04, 2)


def test_springs_and_masses_are_tried_in_turn_until_one_is_well(monkeypatch):
    """Of 3 masses, 4 rates and 3 preloads: 36 trials; the third is well, with twice the preload."""
    engine, shares, tried = SimpleNamespace(name="as written"), [], []

    def with_values(one, put):
        assert one is engine
        tried.append(put)
        return one

    scores = iter([(1.5, False), (1.2, False), (3.9, True)])
    monkeypatch.setattr(suction_inlet, "resolve", lambda _: of())
    monkeypatch.setattr(suction_inlet, "with_values", with_values)
    monkeypatch.setattr(suction_inlet, "_score", lambda *_: next(scores))
    monkeypatch.setattr(suction_inlet, "suction_inlet", lambda _: "what it then does")
    put, then = suction_inlet.chosen(engine, on_progress=lambda _, share: shares.append(share))
    assert shares == pytest.approx([0.0, 1 / 36, 2 / 36])
    assert put == tried[2] == tried[3]
    assert put == {
        "valves.inlet.mass": "12.5 g", "valves.inlet.spring_rate": "0.125 N/mm",
        "valves.inlet.spring_preload": "1 N",
    }  # fmt: skip
    assert then == "what it then does"


def test_a_stopped_choice_keeps_its_best(monkeypatch):
    def score(*_):
        if tried:
            raise Stopped("Stopped.")
        tried.append(1)
        return 0.4, False

    tried = []
    monkeypatch.setattr(suction_inlet, "resolve", lambda _: of())
    monkeypatch.setattr(suction_inlet, "with_values", lambda one, _: one)
    monkeypatch.setattr(suction_inlet, "_score", score)
    monkeypatch.setattr(suction_inlet, "suction_inlet", lambda _: None)
    put, _ = suction_inlet.chosen(SimpleNamespace())
    assert put["valves.inlet.spring_preload"] == "0.5 N"


def test_the_piston_draws_in_bore_times_its_fastest(monkeypatch):
    """20 mm a radian at 100 rad/s are 2 m/s over π/4 × 40² = 400 π mm².

    103338 Pa/(287.05 × 300) = 1.2 kg/m³.
    """
    monkeypatch.setattr(suction_gas, "mechanism", lambda _: ())
    monkeypatch.setattr(
        suction_gas.slider_crank, "piston_height_slope", lambda angle: -20e-3 * math.sin(angle)
    )
    drawn, density = suction_gas.drawn_in(of(), 100.0)
    assert drawn == pytest.approx(2.0 * 400e-6 * math.pi)
    assert density == pytest.approx(1.2)


def test_it_hovers_where_the_gas_pushes_as_the_spring_does(monkeypatch):
    """Gas of 1.25 kg/m³ at 50 m/s loses 1562.5 Pa: on a head of 20 mm, π 10⁻⁴ m², 0.15625 π N.

    The spring has that at 2 mm with 0.05625 π N of preload and 50 π N/m. The gap there is 2 mm
    times a throat of 15 mm, π × 15 × 0.5 (the cosine of 60°) × 0.6 × 0.5 = 2.25 π mm.
    """
    drawn = 2.25e-3 * math.pi * 2e-3 * 50.0
    monkeypatch.setattr(suction_gas, "drawn_in", lambda _, speed: (drawn * speed / 100.0, 1.25))
    plain = of(throat_diameter=15e-3, spring_preload=0.05625 * math.pi, spring_rate=50 * math.pi)
    assert suction_gas.hovering(plain, 100.0) == pytest.approx(2e-3)


@pytest.mark.parametrize(("lift", "narrowest"), [(2e-3, 13e-6 * math.pi), (8e-3, THROAT)])
def test_it_passes_what_curtain_or_throat_leave(lift, narrowest):
    """Curtain: π × 13 mm × 0.5 (the cosine of 60°) by the lift, 13 π mm² at 2 mm and 52 π at 8 mm.

    Throat: 36 π mm². 0.6 × 0.5 of the narrower passes.
    """
    assert suction_gas.flow_area(of(lift=lift)) == pytest.approx(0.3 * narrowest)
