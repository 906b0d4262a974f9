"""The first combustion with the kernel left out: when it is let burn, and what is read from it.

Two cylinders are turned for three cycles of 4π without a burn, then burn once each. What is run
begins in the middle of the longest gap between two firings, worked out here for two twins.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import first_fire
from firstfire.cycle.burn_plan import Burn
from firstfire.cycle.layout import CYLINDER_EVENT, State
from firstfire.cycle.records import BurnSpec

DEG = math.pi / 180
CYCLE = 4 * math.pi
SHIFTS = [(-0.1, 0.9), (-0.2, 0.8)]
PLANNED = BurnSpec(-0.3, 1.0)


def combustion(monkeypatch, phases, numbers=(0, 1)):
    """The first combustion of a twin, and what was asked of the kernel."""
    seen = SimpleNamespace(burns=[], first=[], begun=[], turned=[], traced=[], lit=[])
    engine = SimpleNamespace(cylinders=("one", "other"), fuel="petrol")
    spec = SimpleNamespace(valves=[SimpleNamespace(name="inlet")], fuel="petrol", water=0.01,
                           passages=[SimpleNamespace(name="ring")], equivalence_ratio=1.1,
                           ambient_pressure=1e5)  # fmt: skip

    def network(of, walls, burns, *, first):
        assert (of, walls) == (engine, ["walls", "walls"])
        seen.burns.append(tuple(burns))
        seen.first.append(first)
        return spec

    def start_state(of, engines, angle, speed):
        assert (of, engines) == (spec, "engines")
        seen.begun.append((angle, speed))
        events = np.zeros(2, CYLINDER_EVENT)
        events["cycle"] = numbers
        return State(np.zeros(1), np.zeros(1), np.zeros(4), events)

    def run_to(engines, state, until, *, stop, factors):
        assert (engines, stop) == ("engines", None)
        seen.turned.append((until, factors.copy()))
        return state

    def run_traced(engines, state, until, stop, factors):
        assert (engines, stop, type(state)) == ("engines", None, State)
        seen.traced.append((until, factors.copy()))
        return "final", "trace"

    def cycle_trace(engines, trace, ambient):
        assert (engines, trace, ambient) == ("engines", "trace", 1e5)
        angle = np.linspace(0.0, CYCLE, 101)
        pressure = np.column_stack([1e5 + 1e4 * angle, 9e5 - 1e4 * angle])
        return SimpleNamespace(angle=angle, pressure=pressure, gas_torque=3.0 + angle)

    def burn_plan(of, parts, speed, spark, charge):
        assert of is engine
        seen.lit.append((parts, speed, spark, charge))
        return Burn(PLANNED, 0.5) if parts == "one" else None

    for name, put in {
        "firing_angles": lambda _: phases, "network": network, "start_state": start_state,
        "build_engine": lambda _: "engines", "run_to": run_to, "run_traced": run_traced,
        "cycle_trace": cycle_trace, "gas_tables": lambda fuel, phi, water: (fuel, phi, water),
        "closure": lambda engines, gas, trace: SimpleNamespace(
            energy=(engines, gas, trace), mass=2e-6),
        "cylinder_figures": lambda of, engines, trace, _, row: (of is spec, engines, trace, row),
        "charge_at": lambda cycle, row, phase, spark: (cycle.state, row, phase, spark),
        "burn_plan": burn_plan,
        "peaks_from": lambda _, at, fuel, run: (at, fuel, run(SHIFTS)),
    }.items():  # fmt: skip
        monkeypatch.setattr(first_fire, name, put)
    return first_fire.first_combustion(engine, 60.0, -0.2, ["walls", "walls"]), seen


@pytest.mark.parametrize(
    ("phases", "begins"),
    [
        # 7 from the first to the second, 4π - 7 = 5.57 on to the first: 3.5, a cycle earlier.
        ((0.0, 7.0), 3.5 - CYCLE),
        # 4 and 8.57: 4 and half of 8.57 is 8.283, a cycle earlier -4.283; in whichever order.
        ((0.0, 4.0), 2.0 - 2 * math.pi),
        ((4.0, 0.0), 2.0 - 2 * math.pi),
        ((1.0, 5.0), 3.0 - 2 * math.pi),
    ],
)
def test_it_begins_as_far_from_a_firing_as_can_be(monkeypatch, phases, begins) -> None:
    _, seen = combustion(monkeypatch, phases)
    assert seen.begun == [(pytest.approx(begins), 60.0)] * 2
    assert [until for until, _ in seen.turned] == pytest.approx([begins + 3 * CYCLE] * 2)
    assert all(until == pytest.approx(begins + 4 * CYCLE) for until, _ in seen.traced)


def test_only_the_burn_after_three_cycles_is_let_burn(monkeypatch) -> None:
    """Counted from 0 it is the fourth, number 3; from 1 number 4, in a round of four 0 again."""
    _, seen = combustion(monkeypatch, (0.0, 7.0))
    amounts = [[0, 1], [0, 0], [0, 0], [1, 0]]
    for _, factors in (*seen.turned, *seen.traced):
        assert factors[:, :, 2].tolist() == amounts
    for _, factors in (*seen.turned, *seen.traced[:-1]):
        assert not factors[:, :, 0].any()
        assert (factors[:, :, 1] == 1.0).all()
    shifted = seen.traced[-1][1]
    assert shifted[3, 0].tolist() == [-0.1, 0.9, 1.0]
    assert shifted[0, 1].tolist() == [-0.2, 0.8, 1.0]
    assert shifted[0, 0].tolist() == [0.0, 1.0, 0.0]


def test_first_it_is_asked_what_a_spark_would_find(monkeypatch) -> None:
    """With burns far behind every spark, 100° after top, so that nothing has burned at any."""
    found, seen = combustion(monkeypatch, (0.0, 7.0))
    assert seen.first == [True, True]
    waiting, lit = seen.burns
    assert [(one.start, one.duration) for one in waiting] == [
        pytest.approx((100 * DEG, 50 * DEG))
    ] * 2
    assert lit == (PLANNED, None)
    charges = [("final", 0, 0.0, -0.2), ("final", 1, 7.0, -0.2)]
    assert seen.lit == [("one", 60.0, -0.2, charges[0]), ("other", 60.0, -0.2, charges[1])]
    assert found.fired.burns == (Burn(PLANNED, 0.5), None)


def test_what_is_read_from_it(monkeypatch) -> None:
    """A torque of 3 + angle has 3 + 2π in the mean; 1e5 rises by 4π e4, 9e5 falls."""
    found, _ = combustion(monkeypatch, (0.0, 7.0))
    cycle = found.fired.cycle
    assert cycle.mean_gas_torque == pytest.approx(3 + 2 * math.pi)
    assert (cycle.cycles, cycle.converged, cycle.speed) == (4, False, 60.0)
    assert cycle.passages == ("inlet", "ring")
    assert cycle.cylinders == tuple((True, "engines", "trace", row) for row in (0, 1))
    assert cycle.health.energy_closure == ("engines", ("petrol", 1.1, 0.01), "trace")
    at, fuel, peaks = found.peaks
    assert (at, fuel) == ((0.0, 7.0), "petrol")
    assert peaks == pytest.approx([1e5 + 1e4 * CYCLE, 9e5])
