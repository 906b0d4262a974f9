"""What a bout's walls feel, from flows and torques that a pocket calculator follows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import gas_cycle

from firstfire.engine.records import Walls
from firstfire.heat.exhaust_flow import exhaust_side
from firstfire.runs import bout
from firstfire.runs.bout import exhaust_changed, exhaust_felt, exhaust_over, warmed
from firstfire.runs.gas_change import all_at_once

PORT = 0.014


def plain(film=1.0, lubrication="splash", count=1):
    parts = SimpleNamespace(stub=SimpleNamespace(diameter=PORT))
    return SimpleNamespace(
        cylinders=(parts,) * count, doubt=SimpleNamespace(port_film=film),
        case=SimpleNamespace(lubrication=lubrication),
        surroundings=SimpleNamespace(air_temperature=293.15),
    )  # fmt: skip


def point(times=1.0, warmer=0.0, speed=300.0):
    """Out for a second, rising evenly to 4 g/s as it warms from 800 to 1200 K; in for another."""
    time = np.linspace(0.0, 2.0, 4001)
    flow = np.where(time <= 1, -4e-3 * time, 5e-3) * times
    temperature = np.where(time <= 1, 800 + 400 * time, 300.0) + warmer
    curves = SimpleNamespace(
        time=time + 5.0, flow=np.stack([0 * time, flow], axis=1), temperature=temperature[:, None]
    )
    cycle = SimpleNamespace(curves=curves, passages=("inlet 1", "exhaust 1"))
    return SimpleNamespace(fired=SimpleNamespace(cycle=cycle), speed=speed)


def test_a_port_feels_the_gas_that_leaves_weighted_with_its_flow():
    """2 g in 2 s; ∫t (800 + 400 t) dt over ∫t dt = 533.3 / 0.5 = 1066.7 K."""
    found = exhaust_felt(plain(), point(), 0)
    told = exhaust_side(1e-3, 800 + 400 * 2 / 3, PORT)
    assert found.mean_coefficient == pytest.approx(told.mean_coefficient, rel=1e-3)
    assert found.mean_temperature == pytest.approx(1066.67, rel=1e-3)
    half = exhaust_felt(plain(film=0.5), point(), 0)
    assert half.mean_coefficient == pytest.approx(0.5 * found.mean_coefficient)
    assert exhaust_felt(plain(), point(times=-1e-9), 0).mean_temperature == pytest.approx(500.0)
    assert exhaust_felt(plain(), point(warmer=2000.0), 0).mean_temperature == pytest.approx(1800.0)
    assert exhaust_felt(plain(), point(times=0.0), 0) is None


def test_what_more_flow_does_to_a_port():
    """Nu goes with Re^0.75: twice the flow makes 1.682 of the coefficient."""
    before = SimpleNamespace(point=point())
    film, warmth = exhaust_over(before, point(times=2.0), plain(), 0)
    assert (film, warmth) == pytest.approx((2**0.75, 1.0), rel=1e-6)
    film, warmth = exhaust_over(before, point(warmer=106.667), plain(), 0)
    assert warmth == pytest.approx(1.1, rel=1e-4)
    assert exhaust_over(before, point(times=0.0), plain(), 0) == (1.0, 1.0)


def test_a_changed_port_is_as_its_change_says():
    change = replace(all_at_once([]), exhaust=(1.5, 1.1))
    usual = exhaust_felt(plain(), point(), 0)
    (found,) = exhaust_changed(plain(), point(), [change])
    assert found.mean_coefficient == pytest.approx(1.5 * usual.mean_coefficient)
    assert found.mean_temperature == pytest.approx(1.1 * usual.mean_temperature)


@pytest.fixture
def exposed(monkeypatch):
    """What each cylinder's walls are told to feel."""
    told = []
    monkeypatch.setattr(bout, "heat_network", lambda _, row: row)
    monkeypatch.setattr(bout, "cold", lambda walls, air: (walls, air))
    monkeypatch.setattr(bout, "running", lambda *of, **powers: told.append((*of[1:], powers)))
    monkeypatch.setattr(bout, "advance", lambda begun, _, long, **__: (*begun, long))
    return told


@pytest.mark.parametrize(("oil", "carried"), [("splash", 100.0), ("dry", 0.0)])
def test_friction_warms_where_it_rubs(exposed, oil, carried):
    """At 200 rad/s half of 1 N·m is 100 W. Of bearings' 2.2 N·m, 220 W; 0.4 and 0.2 N·m of rod.

    The rest, 100 W, goes with the oil, where there is any.
    """
    one = point(speed=200.0)
    one.friction = SimpleNamespace(
        by_contact={"rings": 1.0, "skirts": 0.5, "bearings": 2.2},
        rod_ends=((0.4, 0.2), (0.4, 0.2)),
    )
    gases = [replace(gas_cycle(1e5), coefficient=np.full(1441, 100.0))] * 2
    found = warmed(plain(lubrication=oil, count=2), one, gases, 10.0, heat=1.5, exhausts=("a", "b"))
    assert found == ((0, 293.15, 10.0), (1, 293.15, 10.0))
    (row, walls, gas, first), (*others, _, second) = exposed
    assert (row, walls, others) == (0, 0, [1, 1])
    assert gas.coefficient[0] == pytest.approx(150.0)
    assert first == pytest.approx(second | {"exhaust": "a"})
    assert (first["ring_power"], first["skirt_power"]) == pytest.approx((100.0, 50.0))
    assert (first["big_end_power"], first["pin_power"]) == pytest.approx((80.0, 40.0))
    assert first["case_power"] == pytest.approx(carried)
    exposed.clear()
    warmed(plain(), one, gases[:1], 10.0)
    assert exposed[0][-1]["exhaust"].mean_temperature == pytest.approx(1066.67, rel=1e-3)


@dataclass(frozen=True)
class Run:
    fired: object
    friction: object = None
    peaks: object = None
    walls_worked_out: bool = False


PLAIN = SimpleNamespace(
    fuel="petrol", spark=SimpleNamespace(limit_speed=290.0, limited_by="cuts"),
    surroundings=SimpleNamespace(air_temperature=293.15), cylinders=(1, 2),
)  # fmt: skip


@pytest.fixture
def holding(monkeypatch):
    """Holds at 300 rad/s: with which walls it was run, which seconds were asked, the bout."""

    def of(event, horizon, crowns, speed=300.0, spark=-0.3):
        runs, asked, left = [], [], iter(crowns)

        def run(*of, **_):
            assert (*of[:4], *of[5:]) == (PLAIN, event, "named", speed, spark)
            runs.append(of[4][0].crown)
            return Run(SimpleNamespace(cycle=SimpleNamespace(state=None), burns=None))

        def idle(of, name, speed, spark, stop):
            return SimpleNamespace(
                point=lambda walls, **_: run(of, event, name, speed, walls, spark)
            )

        def walls_then(history, at):
            assert history == "walls"
            asked.append(at)
            return replace(FIRST, crown=next(left))

        def warmed(of, point, gases, long, **_):
            return ("walls",) if (of, gases, long) == (PLAIN, (point, PLAIN), horizon) else ()

        monkeypatch.setattr(bout, "assumed_warm", lambda _: (FIRST,))
        monkeypatch.setattr(bout, "operating_point", run)
        monkeypatch.setattr(bout, "Idle", idle)
        monkeypatch.setattr(bout, "spark_angle", lambda of, fast, **_: -fast if of is PLAIN else 0)
        monkeypatch.setattr(bout, "gas_cycles", lambda *of: of)
        monkeypatch.setattr(bout, "warmed", warmed)
        monkeypatch.setattr(bout, "walls_of", walls_then)
        monkeypatch.setattr(bout, "peaks_of", lambda *of: of)
        found = bout.held(PLAIN, event, "named", 300.0, -0.3, horizon)
        assert found.point.peaks == (PLAIN, found.point.fired)
        assert found.horizon == horizon
        return runs, asked

    return of


FIRST = Walls(crown=500.0, head=480.0, valves=600.0, liner=400.0)


@pytest.mark.parametrize(
    ("event", "horizon", "seconds"),
    [("full_throttle", 600.0, 10), ("full_throttle", 4.0, 4), ("idle", 600.0, 60),
     ("idle", 7200.0, 1800), ("full_throttle", 3600.0, 900)],
)  # fmt: skip
def test_gas_and_walls_agree_after_ten_seconds_or_a_quarter_of_long(
    holding, event, horizon, seconds
):
    """And are run again while any wall is more than 10 K off, three times at the most."""
    runs, asked = holding(event, horizon, [520.0, 531.0, 999.0])
    assert asked == [seconds] * 3
    assert runs == [500.0, 520.0, 531.0]
    assert holding(event, horizon, [490.5])[0] == [500.0]
    assert holding(event, horizon, [489.0, 498.0])[0] == [500.0, 489.0]


def test_what_is_let_go_is_held_at_its_limiter(holding):
    assert holding("free_rev", 3.0, [500.0], 290.0, -290.0)[1] == [3.0]


def test_what_rests_is_as_warm_as_the_air(monkeypatch):
    """Turned: the gas is run with cold walls, and nothing warms."""
    run = Run(SimpleNamespace(spec="network", cycle=SimpleNamespace(curves="curves")))
    asked = []
    monkeypatch.setattr(bout, "cold_walls", lambda _: ("cold",))
    monkeypatch.setattr(bout, "operating_point", lambda *of, **_: asked.append(of) or run)
    monkeypatch.setattr(bout, "heat_network", lambda *of: of)
    monkeypatch.setattr(bout, "cold", lambda walls, air: (walls, air))
    monkeypatch.setattr(bout, "gas_cycles", lambda *of: of)
    turned = bout.turned(PLAIN, "cranked", 40.0)
    assert asked == [(PLAIN, "cranking", "cranked", 40.0, ("cold",), None)]
    assert turned.horizon == 10.0
    assert turned.histories == (((PLAIN, 0), 293.15), ((PLAIN, 1), 293.15))
    assert turned.gases == (turned.point, PLAIN)
    assert turned.point.walls_worked_out


def test_no_wall_is_hotter_than_what_has_melted():
    hot = bout._bounded(Walls(crown=1200.0, head=480.0, valves=901.0, liner=400.0))
    assert hot == Walls(crown=900.0, head=480.0, valves=900.0, liner=400.0)
