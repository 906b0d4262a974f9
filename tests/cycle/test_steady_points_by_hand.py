"""Steady points with the kernel left out: what is handed to it and read from it, by hand.

Traces are made up, straight lines or flat with one hump, so that what should be found in them is
known. Cylinders stand for two that fire at 0.5 and 3.5 rad of the shaft.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import fired, limit_cycle, scatter
from firstfire.cycle.burn_plan import Burn, Charge
from firstfire.cycle.figures import CylinderFigures
from firstfire.cycle.fired import charge_at, charge_in, fired_cycle, set_burns, unfired_cycle
from firstfire.cycle.layout import CYLINDER_EVENT, State
from firstfire.cycle.records import BurnSpec
from firstfire.engine.records import Peaks
from firstfire.errors import OutsideValidity

DEG = math.pi / 180
PHASES = (0.5, 3.5)
SHAFT, VOLUME = 3, 6
"""Values of the shaft, then six of each volume: p, T, air, fuel, burned gas, film."""


def state(next_burn: tuple[float, float] = (0.0, 0.0), size: int = 40) -> State:
    events = np.zeros(2, CYLINDER_EVENT)
    events["next_burn"] = next_burn
    return State(np.zeros(1), np.full(1, 1e-5), np.zeros(size), events)


def charge(**values: float) -> Charge:
    usual = {"pressure": 5e5, "temperature": 600.0, "volume": 2e-5, "burned_fraction": 0.1,
             "equivalence_ratio": 1.0}  # fmt: skip
    return Charge(**usual | values)


def test_new_burns_move_what_is_ahead() -> None:
    """From 0.3 to 0.1 before top: a burn due at 12.2 is due 0.2 later. One that misfires stays."""
    rows = np.zeros(2, [("fire", int), *((name, float) for name in (
        "burn_start", "burn_duration", "wiebe_a", "wiebe_m"))])  # fmt: skip
    rows["burn_start"], rows["fire"] = -0.3, 1
    before = state((12.2, 15.2))
    after = set_burns([{"cylinders": rows}], before, [BurnSpec(-0.1, 0.8, 4.0, 3.0), None])
    assert after.cylinders["next_burn"] == pytest.approx([12.4, 15.2])
    assert before.cylinders["next_burn"] == pytest.approx([12.2, 15.2])
    assert rows[0].tolist() == (1, -0.1, 0.8, 4.0, 3.0)
    assert rows[1].tolist() == (0, -0.3, 0.0, 0.0, 0.0)


@pytest.mark.parametrize(("row", "spark", "angle"), [(0, -0.4, 0.1), (1, -0.4, 3.1),
                                                     (1, -9.7, -6.2 + 4 * math.pi)])  # fmt: skip
def test_a_charge_in_a_trace(
    monkeypatch: pytest.MonkeyPatch, row: int, spark: float, angle: float
) -> None:
    """All quantities grow with the angle by a known law, and a cycle begins at -2 rad.

    Of 8, 0.5 and 1.5 parts a tenth and a half is burned gas: 0.15; 0.5 of fuel on 8 of air, at 14.4
    of air to one of fuel, 0.9.
    """
    turned = np.linspace(-2.0, -2.0 + 4 * math.pi, 60)
    values = np.full((60, 40), 1e9)
    for cylinder in (0, 1):
        at = SHAFT + VOLUME * cylinder
        values[:, at] = 3e5 + 1e5 * cylinder + 1e4 * turned
        values[:, at + 1] = 500.0 + 100 * cylinder + 7.0 * turned
        values[:, at + 2 : at + 5] = np.outer(10 + turned, (8e-6, 0.5e-6, 1.5e-6))
    engine = {"cylinders": {"phase": np.array(PHASES)},
              "gas": {"stoichiometric_air_fuel_ratio": 14.4}}  # fmt: skip
    monkeypatch.setattr(fired, "volumes_at", lambda _, at: np.array([1.0, 2.0]) * (20 + at))
    trace = SimpleNamespace(angle=turned, values=values)
    found = charge_in([engine], trace, row, spark)
    assert found.pressure == pytest.approx(3e5 + 1e5 * row + 1e4 * angle)
    assert found.temperature == pytest.approx(500.0 + 100 * row + 7.0 * angle)
    assert found.volume == pytest.approx((row + 1.0) * (20 + angle))
    assert found.burned_fraction == pytest.approx(0.15)
    assert found.equivalence_ratio == pytest.approx(0.9)


@pytest.mark.parametrize("phase", [0.0, 3.5, 3 * math.pi])
def test_a_charge_in_curves_is_counted_from_its_own_top(phase: float) -> None:
    """0.4 before top; only there the pressure is 7 bar."""
    angle = np.linspace(-2 * math.pi, 2 * math.pi, 721)
    local = (angle - phase + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
    near = np.abs(local + 0.4) <= math.pi / 360  # steps of 1°: the nearest one
    alone = np.column_stack([np.zeros(721), np.where(near, 7e5, 1e5)])
    curves = SimpleNamespace(angle=angle, pressure=alone, temperature=alone / 1e3,
                             volume=alone / 1e10)  # fmt: skip
    figures = SimpleNamespace(residual_fraction=0.07, trapped_phi=1.1)
    cycle = SimpleNamespace(curves=curves, cylinders=[None, figures])
    assert charge_at(cycle, 1, phase, -0.4) == Charge(7e5, 700.0, 7e-5, 0.07, 1.1)


@dataclass(frozen=True)
class Cylinder:
    burn: BurnSpec | None


@dataclass(frozen=True)
class Spec:
    cylinders: tuple[Cylinder, ...]


def agreeing(
    monkeypatch: pytest.MonkeyPatch, plans: list[tuple[float, float] | None]
) -> SimpleNamespace:
    """Cycles whose charges ask for burns by turns, in degrees, and what the loop was told."""
    seen = SimpleNamespace(offs=[], first=None, asked=[])
    engine = SimpleNamespace(cylinders=("one",))
    asked = iter(plans)

    def network(of: object, walls: object, specs: tuple[BurnSpec, ...]) -> SimpleNamespace:
        assert (of, walls) == (engine, ["walls"])
        seen.first = specs
        return Spec(cylinders=(Cylinder(burn=specs[0]),))

    def cycles(spec, speed, *, start, adapt, most_cycles, stop):
        assert (type(spec), speed) == (Spec, 300.0)
        for _ in plans:
            _, off = adapt("engines", "state", "trace")
            seen.offs.append(off)
        return "cycle"

    def put(engines, state, specs):
        assert (engines, state, len(specs)) == ("engines", "state", 1)
        return state

    def planned(of, parts, speed, spark, found):
        assert of is engine
        seen.asked.append((parts, speed, spark, found))
        plan = next(asked)
        if plan is None:
            return None
        start, duration = plan
        return Burn(BurnSpec(start * DEG, duration * DEG), 0.3)

    monkeypatch.setattr(fired, "network", network)
    monkeypatch.setattr(fired, "limit_cycle", cycles)
    monkeypatch.setattr(fired, "burn_plan", planned)
    monkeypatch.setattr(fired, "charge_in", lambda *at: at)
    monkeypatch.setattr(fired, "set_burns", put)
    seen.found = fired_cycle(engine, 300.0, -0.35, ["walls"])
    return seen


def test_a_burn_is_followed_until_it_moves_by_less_than_a_tenth_of_a_degree(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It is begun with 60° from 10° before top, so the first plan is off by 5/0.1 = 50 units."""
    seen = agreeing(monkeypatch, [(-12.0, 55.0), (-12.0, 55.3), (-12.06, 55.3), (-12.06, 55.3)])
    (first,) = seen.first
    assert (first.start, first.duration) == pytest.approx((-10 * DEG, 60 * DEG))
    assert seen.offs == pytest.approx([50.0, 3.0, 0.6, 0.6])
    assert seen.found.agreed
    # What is within a tenth is not followed.
    kept = seen.found.spec.cylinders[0].burn
    assert (kept.start, kept.duration) == pytest.approx((-12 * DEG, 55.3 * DEG))
    assert seen.found.burns[0].spec.start == pytest.approx(-12.06 * DEG)
    assert seen.asked[0] == ("one", 300.0, -0.35, ("engines", "trace", 0, -0.35))
    far = agreeing(monkeypatch, [(-12.0, 55.0), (-12.15, 55.0)])
    assert far.offs == pytest.approx([50.0, 1.5])
    assert not far.found.agreed


def test_one_that_comes_to_misfire_does_not_agree(monkeypatch: pytest.MonkeyPatch) -> None:
    lost = agreeing(monkeypatch, [(-12.0, 55.0), None])
    assert lost.offs == pytest.approx([50.0, math.inf])
    assert not lost.found.agreed
    gone = agreeing(monkeypatch, [None, None])
    assert gone.offs == [math.inf, 0.0]
    assert gone.found.agreed
    assert gone.found.burns == (None,)
    assert gone.found.spec.cylinders[0].burn is None


def test_without_fuel_no_cylinder_burns(monkeypatch: pytest.MonkeyPatch) -> None:
    engine = SimpleNamespace(cylinders=("one", "other"))
    monkeypatch.setattr(fired, "network", lambda *given: given)
    monkeypatch.setattr(fired, "limit_cycle", lambda *given, start, stop: (given, start, stop))
    found = unfired_cycle(engine, 40.0, ["walls"], start="start", stop="stop")
    assert found.spec == (engine, ["walls"], (None, None))
    assert found.cycle == ((found.spec, 40.0), "start", "stop")
    assert (found.burns, found.agreed) == ((None, None), True)


TOPS = (0.5, -6.0 + 4 * math.pi)
"""The firings after a state at -2π that lie a quarter turn into it at least, of 0.5 and -6.0."""


def test_shifted_peaks_are_looked_for_about_the_next_firing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A peak 1.5 rad after top counts, and 90 bar 1.6 rad from it, beyond a quarter turn, do not.

    20 bar, 1 bar less for each tenth of a radian later and each tenth longer.
    """
    before, asked = state((0.2, 6.0)), []

    def begun(spec, engines, speed, at):
        assert (spec, engines, speed, at) == ("spec", "engines", 300.0, "state")
        return before

    def traced(engines, moved, end, *, factors):
        assert engines == "engines"
        asked.append((end, moved.cylinders["next_burn"].tolist()))
        angle = np.arange(-2 * math.pi, end, 0.001)
        values = np.full((len(angle), 40), 1e8)
        for row, top in enumerate(TOPS):
            shift, stretch, amount = factors[0, row]
            pressure = np.full(len(angle), 1e5)
            pressure[np.abs(angle - top - 1.5) < 2e-3] = 20e5 - 1e6 * shift - 1e6 * (stretch - 1)
            pressure[np.abs(np.abs(angle - top) - 1.6) < 2e-3] = 90e5
            values[:, SHAFT + VOLUME * row] = pressure * amount
        return None, SimpleNamespace(angle=angle, values=values)

    plain = np.array([0.0, 1.0, 1.0])
    monkeypatch.setattr(scatter, "build_engine", lambda _: "engines")
    monkeypatch.setattr(scatter, "begin", begun)
    monkeypatch.setattr(scatter, "steady_factors", lambda _: np.tile(plain, (1, 2, 1)))
    monkeypatch.setattr(scatter, "run_traced", traced)
    monkeypatch.setattr(scatter, "at_once", lambda *_: math.inf)
    figures = SimpleNamespace(peak_pressure=20e5, peak_angle=0.2)
    burn = SimpleNamespace(development=0.5)
    point = SimpleNamespace(
        spec="spec",
        cycle=SimpleNamespace(speed=300.0, state="state", cylinders=(figures, figures)),
        burns=(burn, burn),
    )  # fmt: skip
    found = scatter.peaks(point, (0.5, -6.0), "petrol")
    # 0.12 · 0.5 rad and 0.08 of its length: 0.6 and 0.8 bar, 1 bar together; 1.6449 deviations.
    assert [one.strong for one in found] == pytest.approx([20e5 + 1.6449e5] * 2, rel=1e-5)
    # Half a turn beyond the cycle that begins at -2π; burns ahead move with the shift.
    assert [end for end, _ in asked] == pytest.approx([3 * math.pi] * 4)
    assert asked[0][1] == pytest.approx([0.2 - 0.06, 6.0 - 0.06])
    assert asked[1][1] == pytest.approx([0.2, 6.0])
    assert before.cylinders["next_burn"].tolist() == [0.2, 6.0]
    assert isinstance(found[0], Peaks)


def test_the_bound_is_of_the_charge_where_its_burn_starts(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """At -0.4 the gas stands at 3 bar in 8 cm³, at top in 1: 8^1.32 of 3 bar."""
    asked = []

    def burned(fuel, phi, temperature, pressure, water):
        asked.append((fuel, temperature, pressure))
        return SimpleNamespace(pressure=1.0)

    monkeypatch.setattr(scatter, "burn_at_constant_volume", burned)
    angle = np.array([-0.4, 0.0, 0.4])
    curves = SimpleNamespace(
        angle=angle, pressure=np.array([[3e5], [9e5], [1e5]]),
        temperature=np.array([[450.0], [900.0], [300.0]]),
        volume=np.array([[8e-6], [1e-6], [4e-6]]),
    )  # fmt: skip
    figures = SimpleNamespace(peak_pressure=9e5, peak_angle=0.0, residual_fraction=0.1,
                              trapped_phi=1.0)  # fmt: skip
    point = SimpleNamespace(
        cycle=SimpleNamespace(cylinders=[figures], curves=curves),
        burns=[Burn(BurnSpec(-0.4, 1.0), 0.5)],
        spec=SimpleNamespace(equivalence_ratio=1.0, water=0.0),
    )  # fmt: skip
    scatter.peaks_from(point, (0.0,), "petrol", lambda _: [9e5])
    assert asked == [("petrol", pytest.approx(450 * 8**0.32), pytest.approx(3e5 * 8**1.32))]


SWEPT = 50e-6
MARKED = {"reference_pressure": 1e5, "reference_mass": 40e-6, "reference_burned": 4e-6,
          "reference_fuel": 2.4e-6}  # fmt: skip


ENGINE = np.dtype([
    ("step", [("relative", float)]), ("cylinder_sums_at", int),
    ("cylinders", [("displacement", float)], (4,)),
])  # fmt: skip


def run(monkeypatch, cycles, *, speed=300.0, **how):
    """Cycles of given marks, works of the second cylinder, J, and torques, N m, by turns."""
    engines = np.zeros(1, ENGINE)
    engines["step"]["relative"], engines["cylinder_sums_at"] = 1e-4, 20
    engines["cylinders"]["displacement"] = 1.0, SWEPT, 7.0, 7.0
    first = state()
    for name, value in MARKED.items():
        first.cylinders[name] = value
    seen = SimpleNamespace(ends=[], engines=engines)

    def traced(_, before, end, *, stop):
        marks, work, torque = cycles[len(seen.ends)]
        seen.ends.append(end)
        after = State(before.time, before.step, before.values.copy(), before.cylinders.copy())
        for name, value in marks.items():
            after.cylinders[name][1] = value
        after.values[25] += work  # the second cylinder's: five sums of the first stand before
        after.values[1] = speed
        return after, SimpleNamespace(torque=torque, values=np.zeros(3))

    def begun(of, record, at, start):
        assert (of is spec, record is engines, at, start) == (True, True, speed, None)
        return first

    def closed(record, gas, trace):
        assert (record is engines, gas) == (True, ("petrol", 1.0, 0.0))
        return SimpleNamespace(energy=1e-5, mass=2e-6)

    def curves(_, trace, ambient):
        angle = np.linspace(0.0, 4 * math.pi, 9)
        return SimpleNamespace(angle=angle, gas_torque=np.full(9, trace.torque))

    def figures(of, record, trace, _, row):
        assert (of is spec, record is engines) == (True, True)
        values = dict.fromkeys((one.name for one in fields(CylinderFigures)), trace.torque)
        early = trace.torque < 9.0
        return CylinderFigures(**values | {
            "peak_pressure": trace.torque * (row + 1), "ca50": None if early else trace.torque,
        })  # fmt: skip

    monkeypatch.setattr(limit_cycle, "build_engine", lambda _: engines)
    monkeypatch.setattr(limit_cycle, "begin", begun)
    monkeypatch.setattr(limit_cycle, "run_traced", traced)
    monkeypatch.setattr(limit_cycle, "cycle_trace", curves)
    monkeypatch.setattr(limit_cycle, "cylinder_figures", figures)
    monkeypatch.setattr(limit_cycle, "gas_tables", lambda *of: of)
    monkeypatch.setattr(limit_cycle, "closure", closed)
    spec = SimpleNamespace(ambient_pressure=1e5, fuel="petrol", equivalence_ratio=1.0, water=0.0,
                           cylinders=(1, 2), valves=(), passages=())  # fmt: skip
    return limit_cycle.limit_cycle(spec, speed, **how), seen


@pytest.mark.parametrize(
    ("marks", "work", "change"),
    [
        ({"reference_pressure": 1.02e5}, 30.0, math.log(1.02)),
        ({"reference_mass": 40e-6 * 1.03, "reference_burned": 4e-6 * 1.03,
          "reference_fuel": 2.4e-6 * 1.03}, 30.0, math.log(1.03)),
        # 0.02 more of it is burned gas; 0.002 more is fuel, which counts tenfold.
        ({"reference_burned": 4.8e-6}, 30.0, 0.02),
        ({"reference_fuel": 2.48e-6}, 30.0, 0.02),
        # 3 J in 50 cm³ are 0.6 bar, of 10.
        ({}, 33.0, 0.06),
        ({}, 27.0, 0.06),
    ],
)  # fmt: skip
def test_by_what_a_cycle_changed(monkeypatch, marks, work, change) -> None:
    found, _ = run(monkeypatch, [({}, 30.0, 5.0), (marks, work, 5.0)], most_cycles=2)
    assert found.health.cycle_change == pytest.approx(change, rel=1e-9)
    assert found.cycles == 2
    assert not found.converged
    assert (found.health.energy_closure, found.health.mass_closure) == (1e-5, 2e-6)


def test_cycles_are_run_until_they_repeat(monkeypatch) -> None:
    """A cycle of 4π after another, from -2π; the third does what the second did."""
    cycles = [({}, 30.0, 5.0), ({}, 33.0, 6.0), ({}, 33.01, 8.0), ({}, 33.01, 9.0)]
    found, seen = run(monkeypatch, cycles)
    # 0.01 J in 50 cm³ are 200 Pa: 2e-4 of 10 bar.
    assert found.converged
    assert found.cycles == 3
    assert found.health.cycle_change == pytest.approx(2e-4)
    assert seen.ends == pytest.approx([2 * math.pi, 6 * math.pi, 10 * math.pi])
    assert found.mean_gas_torque == pytest.approx(8.0)
    assert found.speed == 300.0


def test_where_none_repeats_the_last_eight_are_meant(monkeypatch) -> None:
    """Of twelve with torques of 1 to 12, 5 to 12: 8.5 in the mean."""
    cycles = [({}, 30.0 + 5 * (n % 2), 1.0 + n) for n in range(12)]
    found, _ = run(monkeypatch, cycles, most_cycles=12)
    assert found.mean_gas_torque == pytest.approx(8.5)
    assert [one.peak_pressure for one in found.cylinders] == pytest.approx([8.5, 17.0])
    # Only the last four, 9 to 12, have burned half by any angle.
    assert found.cylinders[0].ca50 == pytest.approx(10.5)


@pytest.mark.parametrize(("rpm", "relative"), [(99.9, 1e-5), (100.1, 1e-4)])
def test_below_a_hundred_turns_a_minute_steps_are_watched_closer(
    monkeypatch, rpm: float, relative: float
) -> None:
    _, seen = run(monkeypatch, [({}, 3.0, 1.0)] * 2, speed=rpm * 2 * math.pi / 60)
    assert seen.engines[0]["step"]["relative"] == pytest.approx(relative)


def test_what_follows_a_cycle_may_change_the_engine(monkeypatch) -> None:
    """Off by 3 units, then by 0.5: though cycles repeat it goes on until that is at rest."""
    given = iter([3.0, 3.0, 0.5])

    def adapt(engines, state, trace):
        assert (engines.dtype, type(state), trace.torque) == (ENGINE, State, 1.0)
        return state, next(given)

    found, _ = run(monkeypatch, [({}, 3.0, 1.0)] * 5, adapt=adapt)
    assert (found.cycles, found.converged) == (3, True)


ENGINES = [{"moving": 30}]


def test_a_state_is_turned_back_to_where_a_cycle_begins(monkeypatch) -> None:
    """Three cycles on, -2π + 12π = 10π. A burn under way is not due again before it is over."""
    fresh = state((-2 * math.pi - 0.1, 5.0))
    fresh.cylinders["cycle"] = 7

    def started(of, engines, angle, speed):
        assert (of, engines, angle, speed) == ("spec", ENGINES, -2 * math.pi, 250.0)
        return fresh

    monkeypatch.setattr(limit_cycle, "start_state", started)
    start = state((99.0, 99.0))
    start.values[:] = np.arange(40.0)
    start.values[0] = 10 * math.pi
    start.cylinders["burning"] = 1, 0
    found = limit_cycle.begin("spec", ENGINES, 250.0, start)
    assert found.values[:2] == pytest.approx([-2 * math.pi, 250.0])
    assert found.values[2:30].tolist() == list(range(2, 30))
    assert not found.values[30:].any()
    assert found.cylinders["next_burn"] == pytest.approx([2 * math.pi - 0.1, 5.0])
    assert found.cylinders["cycle"].tolist() == [8, 7]
    assert start.values[0] == 10 * math.pi
    start.values[0] += 0.01
    with pytest.raises(OutsideValidity, match="beginning of a cycle"):
        limit_cycle.begin("spec", ENGINES, 250.0, start)
