"""An engine turned slowly: its books close, and no speed asks for more memory than there is."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.cycle import limit_cycle as limits
from firstfire.cycle.build import build_engine
from firstfire.cycle.fired import Fired, fired_cycle, unfired_cycle
from firstfire.cycle.health import integral_weights
from firstfire.cycle.layout import State
from firstfire.cycle.limit_cycle import FIRST_ANGLE, begin
from firstfire.cycle.run import MOST_TRACED, Trace, run_traced
from firstfire.errors import OutsideValidity
from firstfire.runs.walls import cold

ROOT = Path(__file__).parents[2]
RPM = math.pi / 30


def turned(name: str, rpm: float) -> Fired:
    engine = ff.resolve(ff.read(ROOT / name))
    return unfired_cycle(engine, rpm * RPM, cold(engine))


@pytest.mark.parametrize("rpm", [30, 50, 80])
@pytest.mark.parametrize("name", ["engines/wren.toml", "tests/strangers/5_metal_wren.toml"])
def test_books_close_however_slowly_it_is_turned(name: str, rpm: float) -> None:
    """They were open by up to 2 parts in 1000: steps left over more than a slow cycle bears, and
    Simpson's rule made much of a step of a microsecond beside one of a millisecond."""
    health = turned(name, rpm).cycle.health
    assert abs(health.energy_closure) < 1e-4
    assert abs(health.mass_closure) < 1e-4


@pytest.mark.slow
@pytest.mark.parametrize("rpm", [30, 50])
def test_books_of_a_twin_with_suction_valves_close(rpm: float) -> None:
    health = turned("engines/plover.toml", rpm).cycle.health
    assert abs(health.energy_closure) < 1e-4
    assert abs(health.mass_closure) < 1e-4


@pytest.mark.parametrize("rpm", [30, 50])
def test_books_of_a_slow_fired_cycle_close(rpm: float) -> None:
    engine = ff.resolve(ff.read(ROOT / "engines" / "wren.toml"))
    fired = fired_cycle(engine, rpm * RPM, math.radians(-5), cold(engine))
    assert abs(fired.cycle.health.energy_closure) < 1e-4


@pytest.mark.parametrize("shortest", [1e-1, 1e-3, 1e-6, 1e-9])
def test_an_integral_does_not_hang_on_the_shortest_step(shortest: float) -> None:
    """Of e^t over 1 s with noise of a part in 10⁹, every third step so short."""
    longest = 1e-3
    steps = np.resize([longest, shortest * longest, 0.6 * longest], 2400)
    time = np.concatenate([[0.0], np.cumsum(steps)])
    noise = 1e-9 * np.random.default_rng(5).standard_normal(len(time))
    found = integral_weights(time) @ (np.exp(time) * (1 + noise))
    # Chords of 1 ms: h²/12 of the second derivative, a part in 10⁷.
    assert found == pytest.approx(math.exp(time[-1]) - 1.0, rel=2e-7)


def test_a_shaft_too_slow_to_be_followed_is_refused() -> None:
    with pytest.raises(OutsideValidity, match=r"At 0\.01 rpm .* turns too slowly .* 30 rpm"):
        turned("engines/wren.toml", 0.01)


def test_traces_kept_for_a_mean_fit_into_the_room_for_one() -> None:
    spec = turned("engines/wren.toml", 400).spec
    engines = build_engine(spec)
    state = begin(spec, engines, 40.0, None)
    _, trace = run_traced(engines, state, FIRST_ANGLE + 1.0)
    large = int(MOST_TRACED / trace.values.nbytes * 0.4) + 1
    wide = Trace(trace.time, np.repeat(trace.values, large, axis=0), trace.events)
    assert len(limits._kept([trace] * 8)) == 8
    assert len(limits._kept([wide] * 8)) == 2
    assert limits._kept([trace, wide, wide])[-1] is wide


def test_a_slow_shaft_is_stepped_with_more_care(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []
    run = run_traced

    def noted(engines: np.ndarray, *more: object, **named: object) -> tuple[State, Trace]:
        asked.append(float(engines["step"]["relative"][0]))
        return run(engines, *more, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(limits, "run_traced", noted)
    turned("engines/wren.toml", 99)
    slow = asked[-1]
    turned("engines/wren.toml", 101)
    assert slow == pytest.approx(asked[-1] / 10)
