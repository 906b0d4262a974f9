"""What the round engine's walls are exposed to as it runs, worked out with a calculator.

A made-up cycle at 100 π rad/s, 0.04 s long: 300 W/(m² K) of gas at 1000 K throughout, and the
piston down by 20 (1 - cos θ) mm, which is 20 in the mean and 1 mm of deck more.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.heat.round_engine import round_engine

from firstfire.engine.records import GasCycle
from firstfire.heat.cylinder import network
from firstfire.heat.exhaust_flow import exhaust_side
from firstfire.heat.gas_side import gas_side, steady_gas
from firstfire.heat.running import running

PI, MM = math.pi, 1e-3
ANGLE = np.linspace(-2 * PI, 2 * PI, 2881)
DOWN = 20 * MM * (1 - np.cos(ANGLE))
PRINTED_BORE = {"liner__material": "petg", "liner__made": "printed", "liner__kind": "bare_print"}
CIRCLE = PI * 40 * MM


def flat(value):
    return np.full(ANGLE.size, float(value))


CYCLE = GasCycle(
    angle=ANGLE, speed=flat(100 * PI), pressure=flat(1e5),
    volume=5e-6 + PI / 4 * 1600 * MM**2 * DOWN, gas_temperature=flat(1000.0),
    coefficient=flat(300.0), crankcase_pressure=flat(1e5), leak_to_crankcase=flat(0.0),
)  # fmt: skip


def exposed(cycle=CYCLE, layout="single", values=None, **more):
    engine = round_engine(layout, **(values or {}))
    return running(engine, 0, network(engine, 0), cycle, **more)


def test_gas_on_the_chamber() -> None:
    found = exposed()
    for name in ("crown", "head", "valves"):
        assert found.gas[name].period == pytest.approx(0.04)
        assert found.gas[name].coefficient == pytest.approx(np.full(256, 300.0))
        assert found.gas[name].temperature == pytest.approx(np.full(256, 1000.0))
    assert "exhaust_port" not in found.gas
    port = steady_gas(100.0, 900.0)
    assert exposed(exhaust=port).gas["exhaust_port"] is port


@pytest.mark.parametrize(("deck", "open_mean"), [(1.0, 21.0), (-1.0, 20.0)])
def test_gas_on_the_bore(deck, open_mean) -> None:
    """Of 80 mm so much lies open in the mean; a piston that stands out opens none more."""
    found = exposed(values={"cylinder__deck": deck * MM})
    assert found.gas["liner"].mean_coefficient == pytest.approx(300 * open_mean / 80, rel=1e-5)
    assert found.gas["liner"].coefficient.max() == pytest.approx(
        300 * (open_mean + 20) / 80, rel=1e-3
    )


def test_gas_on_both_bands() -> None:
    found = exposed(values=PRINTED_BORE)
    open_ = 1 * MM + DOWN
    top = np.clip(open_ / (10 * MM), 0, 1)
    rest = np.clip((open_ - 10 * MM) / (70 * MM), 0, 1)
    for name, share in (("liner", top), ("liner_low", rest)):
        wanted = 300 * np.trapezoid(share, ANGLE) / (4 * PI)
        assert found.gas[name].mean_coefficient == pytest.approx(wanted, rel=1e-6)


def test_behind_the_valves() -> None:
    """Fresh charge at 80 W/(m² K) behind 400 of 656, exhaust behind 256."""
    values = {"doubt__port_film": 2.0}
    fresh = exposed(values=values).cooling["valves"]
    assert fresh.temperature == pytest.approx(293.15)
    assert fresh.constant == pytest.approx(160 * 400 / 656)
    both = exposed(values=values, exhaust=steady_gas(100.0, 900.0)).cooling["valves"]
    total = 160 * 400 + 100 * 256
    assert both.constant == pytest.approx(total / 656)
    assert both.temperature == pytest.approx((160 * 400 * 293.15 + 100 * 256 * 900) / total)


def test_exhaust_port_s_film() -> None:
    """Nu = 0.07 Re^¾ with Heywood's viscosity 3.3e-7 T^0.7/1.027 and Prandtl number
    0.05 + 4.2 · 0.3 - 6.7 · 0.09 = 0.707 of burned gas."""
    flow, hot, bore = 1e-3, 1000.0, 14e-3
    viscosity = 3.3e-7 * hot**0.7
    conducts = viscosity * 1250 / 0.707
    reynolds = 4 * flow / (PI * bore * viscosity / 1.027)
    found = exhaust_side(flow, hot, bore)
    assert found.mean_coefficient == pytest.approx(0.07 * reynolds**0.75 * conducts / bore)
    assert found.mean_temperature == hot
    assert found.steady


def leaking():
    """2e-5 kg/s out at 1200 K and 100 rad/s for one turn, 1e-5 in at 600 K and 200 for another."""
    first = ANGLE < 0
    return replace(
        CYCLE,
        speed=np.where(first, 100.0, 200.0),
        leak_to_crankcase=np.where(first, 2e-5, -1e-5),
        gas_temperature=np.where(first, 1200.0, 600.0),
    )


@pytest.mark.parametrize(("count", "taker"), [(1, "groove"), (0, "land")])
def test_blow_by(count, taker) -> None:
    """Out for two thirds of the time: 1.333e-5 kg/s of 1250 J/(kg K), half to the piston."""
    found = exposed(leaking(), values={"rings__count": count})
    film = 2e-5 * 2 / 3 * 1250
    assert set(found.films) == {taker, "liner"}
    # a step between two of 2881 angles
    assert found.films[taker].conductance == pytest.approx(film / 2, rel=1e-3)
    assert found.films["liner"].conductance == pytest.approx(film / 2, rel=1e-3)
    for one in found.films.values():
        assert one.temperature == pytest.approx(1200.0, rel=1e-3)


def test_blow_by_to_both_bands() -> None:
    found = exposed(leaking(), values=PRINTED_BORE).films
    film = 2e-5 * 2 / 3 * 1250
    assert found["liner"].conductance == pytest.approx(film / 2 * 0.25, rel=1e-3)
    assert found["liner_low"].conductance == pytest.approx(film / 2 * 0.75, rel=1e-3)


def test_the_piston_s_share_of_blow_by_is_the_assumed_one(monkeypatch) -> None:
    monkeypatch.setattr("firstfire.heat.assumed.BLOW_BY_TO_PISTON", 0.3)
    found = exposed(leaking()).films
    film = 2e-5 * 2 / 3 * 1250
    assert found["groove"].conductance == pytest.approx(0.3 * film, rel=1e-3)
    assert found["liner"].conductance == pytest.approx(0.7 * film, rel=1e-3)


def test_no_blow_by() -> None:
    assert not exposed().films


def into_bore(width: float, solid: tuple[float, float, float]) -> float:
    """Of a half space under a flux for width over 4 m/s: mean rise 4 q √(t/π)/(3 e); W/K."""
    seconds = width / 4.0
    effusivity = math.sqrt(solid[0] * solid[1] * solid[2])
    return 3 * effusivity / (4 * math.sqrt(seconds / PI)) * CIRCLE * width


ALUMINIUM, PETG = (167.0, 2700.0, 896.0), (0.2, 1270.0, 1250.0)


def test_friction_of_an_o_ring_and_skirt() -> None:
    """Two rings, each rubbed over half its 2.5 mm; a skirt of 24 mm, 3 mm thick to its middle."""
    engine = round_engine(rings__count=2)
    found = exposed(values={"rings__count": 2}, ring_power=60.0, skirt_power=10.0,
                    case_power=7.0).sources  # fmt: skip
    own = engine.materials["fkm"]["conductivity"] * CIRCLE * 2
    ring = 60 * own / (own + 2 * into_bore(1.25 * MM, ALUMINIUM))
    own = 0.2 / (1.5 * MM) * CIRCLE * 24 * MM
    skirt = 10 * own / (own + into_bore(24 * MM, ALUMINIUM))
    assert found["ring"] == pytest.approx(ring)
    assert found["skirt"] == pytest.approx(skirt)
    assert found["liner"] == pytest.approx(70 - ring - skirt)
    assert found["crankcase"] == 7.0


def test_friction_of_a_metal_ring_on_print() -> None:
    """Rubbed over its height of 1.5 mm; what goes into the bore is shared by the stroke."""
    values = PRINTED_BORE | {"rings__kind": "metal", "piston__skirt_material": "aluminium_6061_t6"}
    engine = round_engine(**values)
    metal = engine.materials[engine.cylinders[0].rings.material]["conductivity"]
    found = exposed(values=values, ring_power=60.0, skirt_power=10.0).sources
    own = CIRCLE / (1 / (3000 * 1.5 * MM) + 1.25 / (metal * 1.5))
    ring = 60 * own / (own + into_bore(1.5 * MM, PETG))
    own = 167.0 / (1.5 * MM) * CIRCLE * 24 * MM
    skirt = 10 * own / (own + into_bore(24 * MM, PETG))
    assert found["ring"] == pytest.approx(ring)
    assert found["skirt"] == pytest.approx(skirt)
    assert found["liner"] == pytest.approx((70 - ring - skirt) / 4)
    assert found["liner_low"] == pytest.approx((70 - ring - skirt) * 3 / 4)


def test_friction_without_rings() -> None:
    found = exposed(values={"rings__count": 0}, ring_power=60.0).sources
    assert "ring" not in found
    assert found["liner"] == pytest.approx(60.0)


def test_air_in_a_running_case() -> None:
    """40 W/(m² K) under grease, over the faces of what hangs there."""
    engine = round_engine()
    found = {link.from_name: link.conductance for link in exposed().links}
    held = {one.name: one.area for one in network(engine, 0).lumps}
    for name in ("land", "skirt", "boss", "webs"):
        assert found[name] == pytest.approx(40.0 * held[name])


# -- gas over a cycle, evenly in time


def test_means_over_intervals_of_a_line() -> None:
    """A coefficient that rises as time does, from 0 to 100: 12.5, 37.5 ... in four parts."""
    line = replace(CYCLE, coefficient=100 * (ANGLE + 2 * PI) / (4 * PI))
    found = gas_side(line, samples=4)
    assert found.coefficient == pytest.approx([12.5, 37.5, 62.5, 87.5])
    assert found.mean_coefficient == pytest.approx(50.0)
    assert found.scaled(3.0).coefficient == pytest.approx([37.5, 112.5, 187.5, 262.5])
    assert found.scaled(3.0).temperature is found.temperature
    assert not found.steady


@pytest.mark.parametrize("samples", [3, 5])
def test_few_points_and_odd_intervals_keep_the_whole(samples) -> None:
    """Three straight pieces, 0 to 90 to 0 to 30: their areas, cut where the intervals are."""
    few = np.array([0, 960, 1920, 2880])
    rough = GasCycle(**{name: getattr(CYCLE, name)[few] for name in CYCLE.__dataclass_fields__})
    rough = replace(rough, coefficient=np.array([0.0, 90.0, 0.0, 30.0]))
    fine = np.linspace(0, 1, 30 * samples + 1)
    drawn = np.interp(fine, [0, 1 / 3, 2 / 3, 1], rough.coefficient)
    pieces = 0.5 * (drawn[1:] + drawn[:-1]).reshape(samples, 30).mean(axis=1)
    found = gas_side(rough, samples=samples)
    assert found.coefficient == pytest.approx(pieces, rel=1e-9)


def test_gas_temperature_is_weighted_with_the_coefficient() -> None:
    """300 W/(m² K) at 900 K for a third of the time, 100 at 500 K for two thirds."""
    first = ANGLE < 0
    cycle = replace(
        CYCLE, speed=np.where(first, 200.0, 100.0), coefficient=np.where(first, 300.0, 100.0),
        gas_temperature=np.where(first, 900.0, 500.0),
    )  # fmt: skip
    found = gas_side(cycle)
    assert found.period == pytest.approx(3 * PI / 100, rel=1e-3)
    # a step between two of 2881 angles
    assert found.mean_coefficient == pytest.approx(500 / 3, rel=1e-3)
    assert found.mean_temperature == pytest.approx((300 * 900 + 200 * 500) / 500, rel=1e-3)
    assert found.temperature[10] == pytest.approx(900.0)
    assert found.temperature[-10] == pytest.approx(500.0)


def test_where_no_gas_touches_its_own_temperature_stands() -> None:
    found = gas_side(CYCLE, np.where(ANGLE < 0, 0.0, 1.0))
    assert found.coefficient[10] == 0.0
    assert found.temperature == pytest.approx(np.full(256, 1000.0))
    none = gas_side(replace(CYCLE, gas_temperature=600 + 100 * np.cos(ANGLE)), flat(0.0))
    assert none.mean_temperature == pytest.approx(600.0, abs=0.1)


def test_steady_gas() -> None:
    found = steady_gas(250.0, 900.0)
    assert (found.period, found.mean_coefficient, found.mean_temperature) == (0.04, 250.0, 900.0)
    assert found.steady
