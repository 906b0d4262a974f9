"""A free shaft: its cycle against one at a held speed, and against SciPy in plain Python."""

import math
from dataclasses import replace
from pathlib import Path

from tests.outside.test_against_free_shaft_ivp import DRILL, Law

import firstfire as ff
from benchmarks.alternate import least_times, median_times
from benchmarks.figure import Figure, at_least, at_most
from firstfire.cycle.advance import advance
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.layout import CYLINDER_EVENT, Records, State
from firstfire.cycle.records import SteppingSpec
from firstfire.cycle.run import steady_factors
from firstfire.engine.resolve import resolve
from firstfire.runs.spun import on_its_shaft, starter_line, turned_on
from firstfire.runs.walls import cold

ENGINE = Path(__file__).resolve().parents[1] / "engines" / "wren.toml"
_SECONDS = 2.0


def measure() -> list[Figure]:
    return [_against_held(), _against_scipy()]


def _against_held() -> Figure:
    """Time a step of wren cranked, free, over that of the same network held to its mean speed."""
    plain = resolve(ff.read(ENGINE))
    started = on_its_shaft(plain, cold(plain), starter_line(plain), 0.2)
    settled, _ = turned_on(started, _SECONDS)
    spec = replace(started.spec, shaft=None)
    held = build_engine(spec)
    first = start_state(spec, held, 0.2, settled.state.values[1], None)
    steady = _stepped(held, first)[0]
    turns = {"free": 0, "held": 0}

    def free() -> None:
        turns["free"] = _stepped(settled.engines, settled.state)[1]

    def fixed() -> None:
        turns["held"] = _stepped(held, steady)[1]

    times = least_times([free, fixed], 4.0)
    ratio = (times[0] / turns["free"]) / (times[1] / turns["held"])
    note = f"{turns['free']} and {turns['held']} steps"
    return at_most("a step of a free shaft over one at a held speed", ratio, 1.5, "", note)


def _stepped(engines: Records, state: State) -> tuple[State, int]:
    """Two seconds further, and the steps that took."""
    import numpy as np

    rows = np.empty((40_000, 1 + state.values.size))
    events = np.empty((40_000, state.cylinders.size), CYLINDER_EVENT)
    until = float(state.time[0]) + _SECONDS
    later, count, _ = advance(
        state, engines, steady_factors(engines), until, math.inf, rows, events, 40_000
    )
    return later, count


def _against_scipy() -> Figure:
    """Time SciPy takes, with the same law in plain Python as fine and as sure, over ours."""
    longest = SteppingSpec().largest_angle / DRILL["starter_free_speed"]
    theirs, ours = median_times(
        lambda: Law(**DRILL).walk(1.0, "RK45", 1e-6, longest),
        lambda: ff.free_shaft(**DRILL, seconds=1.0), 5,
    )  # fmt: skip
    return at_least(
        "free shaft: solve_ivp in plain Python over ours", theirs / ours, 50, "times",
        "both in steps of 1.5 degrees at the most and to 1e-6",
    )  # fmt: skip
