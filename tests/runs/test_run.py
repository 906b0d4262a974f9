"""Running an event: what comes back, progress, stopping, starting from an earlier result."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.events import EVENTS
from firstfire.errors import FirstfireError, Stopped
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Trials

RPM = math.pi / 30
ENGINE = Path(__file__).parent.parent / "strangers" / "5_metal_wren.toml"
# What two ways to one limit cycle may differ by: each stops at a change of 5e-4 a cycle, and the
# burn it agreed with may lie 0.1 degrees off; both ways that together.
CONVERGED = 0.01


@pytest.fixture(scope="module")
def told() -> list[tuple[str, float]]:
    return []


@pytest.fixture(scope="module")
def cranking(
    engine: ff.Engine, trials: Trials, told: list[tuple[str, float]]
) -> EventResult:  # fmt: skip
    return ff.run(
        engine, "cranking", on_progress=lambda *said: told.append(said), trials=trials
    )  # fmt: skip


@pytest.fixture(scope="module")
def open_throttle(engine: ff.Engine, trials: Trials) -> EventResult:
    return ff.run(engine, "full_throttle", speeds=[2000 * RPM, 2500 * RPM], trials=trials)


def test_cranking_is_turned_without_fuel(cranking: EventResult) -> None:
    (point,) = cranking.points
    assert cranking.event == point.event == "cranking"
    assert point.speed == cranking.engine.use.cranking_speed
    assert point.spark is None
    assert point.misfires == ()
    assert point.brake_torque < 0
    figures = point.fired.cycle.cylinders[0]
    assert figures.ca50 is None
    assert 5e5 < figures.peak_pressure < 15e5


def test_progress_grows_to_1(cranking: EventResult, told: list[tuple[str, float]]) -> None:
    shares = [share for _, share in told]
    assert cranking.points
    assert shares == sorted(shares)
    assert shares[0] >= 0
    assert shares[-1] == 1.0
    assert "cranking" in told[0][0]


def test_full_throttle_at_the_speeds_asked(open_throttle: EventResult) -> None:
    assert [round(p.speed / RPM) for p in open_throttle.points] == [2000, 2500]
    for point in open_throttle.points:
        assert point.event == "full_throttle"
        assert point.fired.cycle.converged
        assert point.walls_worked_out
        assert point.brake_power > 0
        assert point.peaks[0].mean <= point.peaks[0].strong <= point.peaks[0].rare
    assert len(open_throttle.spreads) == len(open_throttle.bouts) == 2


def test_the_shaft_gets_what_gas_gives_less_friction_and_crankcase(
    open_throttle: EventResult,
) -> None:
    """Work of the gas, less friction, less what pumping the crankcase through its breather takes.

    Closes to 1 % of the gas's own, since the crankcase's loop is summed over steps here.
    """
    for point in open_throttle.points:
        imep = point.fired.cycle.cylinders[0].imep_net
        bmep = point.brake_torque * 4 * math.pi / point.displacement
        curves, spec = point.fired.cycle.curves, point.fired.spec
        case = [v.name for v in (*spec.cylinders, *spec.volumes)].index("case")
        pumped = np.trapezoid(curves.pressure[:, case], curves.volume[:, 0]) / point.displacement
        assert pumped > 0
        assert bmep == pytest.approx(imep - point.friction_mep - pumped, abs=0.01 * imep)


def test_starting_from_an_earlier_result_gives_the_same(
    engine: ff.Engine, trials: Trials, open_throttle: EventResult
) -> None:
    again = ff.run(
        engine, "full_throttle", start_from=open_throttle, speeds=[2500 * RPM], trials=trials
    )
    old, new = open_throttle.points[1], again.points[0]
    assert new.brake_torque == pytest.approx(old.brake_torque, rel=CONVERGED)
    assert new.peaks[0].mean == pytest.approx(old.peaks[0].mean, rel=CONVERGED)
    assert new.peaks[0].rare == pytest.approx(old.peaks[0].rare, rel=CONVERGED)


def test_another_engine_does_not_start_from_it(cranking: EventResult) -> None:
    """A twin has other volumes: the single's state is left alone, and the run goes on without."""
    twin = ff.read(ENGINE.with_name("4_even_v.toml"))
    found = ff.run(twin, "cranking", start_from=cranking)
    assert len(found.points[0].fired.cycle.cylinders) == 2
    assert np.isfinite(found.points[0].brake_torque)


def test_stop_stops(engine: ff.Engine, trials: Trials) -> None:
    with pytest.raises(Stopped):
        ff.run(engine, "full_throttle", stop=lambda: True, trials=trials)


def test_unknown_event_says_which_there_are(engine: ff.Engine) -> None:
    with pytest.raises(FirstfireError, match=r'no event "lunch".*cranking.*full_throttle'):
        ff.run(engine, "lunch")


def test_events_not_computed_are_refused_by_name(engine: ff.Engine) -> None:
    waiting = [event.id for event in EVENTS.values() if not event.computed]
    assert waiting
    for event in waiting:
        with pytest.raises(FirstfireError, match=f'"{event}" is not computed'):
            ff.run(engine, event)


def test_events_lists_exactly_what_is_computed(engine: ff.Engine) -> None:
    assert ff.events(engine) == tuple(e.id for e in EVENTS.values() if e.computed)
    assert all(name == event.id for name, event in EVENTS.items())
