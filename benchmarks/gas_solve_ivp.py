"""A fired cycle of a twin at a converged point, by the stepper and by SciPy's integrators.

Both integrate the same right-hand side from the same state. SciPy goes from event to event: at
each, what the event does (a valve shuts, a zone is born or joined) is left to the kernel, within a
millionth of a radian. Reference is SciPy's DOP853 at a tolerance far below (Radau there gives the
same to 1e-6 in twenty times the time). The stepper comes within 1e-4 of that; SciPy is let off at
half a per cent, as it takes half a minute to come as near.
"""

import math
import os
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

import firstfire as ff
from benchmarks.figure import Figure, at_least
from firstfire.cycle import layout
from firstfire.cycle.along import fill_rates
from firstfire.cycle.build import build_engine
from firstfire.cycle.fired import fired_cycle
from firstfire.cycle.layout import Records, State
from firstfire.cycle.limit_cycle import CYCLE, FIRST_ANGLE, begin
from firstfire.cycle.run import Trace, run_to, run_traced
from firstfire.cycle.work import new_work
from firstfire.errors import FirstfireError
from firstfire.runs.walls import assumed_warm

ROOT = Path(__file__).resolve().parents[1]
SPEED = 2000 * math.pi / 30
HAIR = 1e-6
METHODS = ("RK23", "RK45", "DOP853", "LSODA")
TOLERANCES = (1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6)
LET_OFF = 5e-3
END = FIRST_ANGLE + CYCLE


@dataclass(frozen=True)
class Case:
    """A cycle to integrate: the engine, its state, where events are, and how large values get."""

    engines: Records
    state: State
    stops: list[float]
    sizes: np.ndarray


def case() -> Case:
    """Heron at 2000 rpm, throttle open, at its limit cycle."""
    plain = ff.resolve(ff.read(ROOT / "engines" / "heron.toml"))
    fired = fired_cycle(plain, SPEED, -plain.spark.running_angle, assumed_warm(plain))
    engines = build_engine(fired.spec)
    state = begin(fired.spec, engines, SPEED, fired.cycle.state)
    _, trace = run_traced(engines, state, END)
    sizes = np.maximum(np.abs(trace.values).max(axis=0), 1e-12)
    return Case(engines, state, [*_event_angles(engines, trace), END], sizes)


def _event_angles(engines: Records, trace: Trace) -> list[float]:
    """Angles of the cycle at which a rate jumps."""
    changed = np.zeros(len(trace.events) - 1, dtype=bool)
    for flag in ("burning", "closed", "fired"):
        changed |= (trace.events[flag][1:] != trace.events[flag][:-1]).any(axis=1)
    found = set(trace.angle[:-1][changed])
    cams = engines[0]["events"][: int(engines[0]["event_count"])]
    found |= {FIRST_ANGLE + (angle - FIRST_ANGLE) % CYCLE for angle in cams}
    apart: list[float] = []
    for angle in sorted(found):
        if FIRST_ANGLE + 1e-3 < angle < END - 1e-3 and (not apart or angle - apart[-1] > 1e-3):
            apart.append(float(angle))
    return apart


def by_scipy(given: Case, method: str, tolerance: float) -> tuple[np.ndarray, int]:
    """Values at the end of the cycle, and how often the rates were asked for."""
    state, asked = given.state, 0
    allowed = tolerance * given.sizes
    # Nothing depends on the sums: they may not shorten a step.
    allowed[int(given.engines[0]["moving"]) :] = 1e9
    rates = np.empty((1, state.values.size))
    room = np.empty((1, int(given.engines[0]["volume_count"])))
    for stop in given.stops:
        events = state.cylinders[None, :]

        def right_hand_side(_: float, y: np.ndarray, events: np.ndarray = events) -> np.ndarray:
            row = np.ascontiguousarray(y)[None, :]
            fill_rates(given.engines, new_work(), row, events, rates, room)
            return rates[0].copy()

        span = (stop - state.values[layout.ANGLE]) / SPEED
        found = solve_ivp(
            right_hand_side, (0.0, span), state.values, method=method,
            rtol=tolerance, atol=allowed,
        )  # fmt: skip
        asked += found.nfev
        if not found.success:
            return np.full(state.values.size, np.nan), asked
        state = state._replace(values=np.ascontiguousarray(found.y[:, -1]))
        if stop < END:
            try:
                state = run_to(given.engines, state, stop + HAIR)
            except FirstfireError:  # too coarse a tolerance has left a state that can't be
                return np.full(state.values.size, np.nan), asked
    return state.values, asked


def figures_of(given: Case, values: np.ndarray) -> np.ndarray:
    """What is compared: work, heat and mass of each cylinder, over their sizes."""
    engine = given.engines[0]
    found = []
    for row in range(int(engine["cylinder_count"])):
        sums = int(engine["cylinder_sums_at"]) + row * layout.CYLINDER_SUMS
        change = (
            values[sums : sums + layout.CYLINDER_SUMS]
            - given.state.values[sums : sums + layout.CYLINDER_SUMS]
        )
        at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE + layout.AIR
        found += [change[layout.WORK], change[1:].sum(), values[at : at + 3].sum()]
    return np.array(found)


def best(work: Callable[[], object], rounds: int) -> float:
    """Give the shortest time of a call, s."""
    times = []
    for _ in range(rounds):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return min(times)


def measure() -> list[Figure]:
    given = case()
    exact = figures_of(given, by_scipy(given, "DOP853", 1e-7)[0])

    def error(values: np.ndarray) -> float:
        return float(np.max(np.abs(figures_of(given, values) / exact - 1.0)))

    ours = error(run_to(given.engines, given.state, END).values)
    assert ours < 1e-4, f"the stepper is off by {ours:.1e}"
    own = best(lambda: run_to(given.engines, given.state, END), 30)
    tried = []
    for method in METHODS:
        for tolerance in TOLERANCES:
            begun = time.perf_counter()
            values, asked = by_scipy(given, method, tolerance)
            seconds = time.perf_counter() - begun
            if error(values) <= LET_OFF:
                tried.append((seconds, method, tolerance, asked))
            # Nearer takes longer still: no use once another method was quicker.
            if error(values) <= LET_OFF or (tried and seconds > min(tried)[0]):
                break
    assert tried, "no method of SciPy's came near enough"
    seconds, method, tolerance, _ = min(tried)
    fewest = min(tried, key=lambda t: t[3])
    plain = plain_rate() * fewest[3]
    accuracy = f"heron fired at 2000 rpm; ours within {ours:.0e}, SciPy within {LET_OFF:g}"
    return [
        at_least("twin's cycle: plain Python under solve_ivp ÷ ours", plain / own, 50, "×",
                 f"{accuracy}; {fewest[1]} at {fewest[2]:g} asks least often, {fewest[3]} times; "
                 "one evaluation timed apart"),
        at_least("twin's cycle: compiled right-hand side under solve_ivp ÷ ours", seconds / own,
                 8, "×", f"{accuracy}; {method} at {tolerance:g} is quickest, "
                 f"{1e3 * seconds:.0f} ms against {1e3 * own:.1f} ms"),
    ]  # fmt: skip


# Records must give their fields as attributes where nothing is compiled.
_PLAIN = """
import numpy as np

def with_attributes(make):
    def made(shape, dtype=float, *more, **others):
        kind = np.dtype(dtype)
        return make(shape, np.dtype((np.record, kind)) if kind.names else kind, *more, **others)
    return made

np.zeros, np.empty = with_attributes(np.zeros), with_attributes(np.empty)
from benchmarks.gas_solve_ivp import time_of_one_evaluation
print(time_of_one_evaluation())
"""


def time_of_one_evaluation() -> float:
    """Give the time of one evaluation of the twin's right-hand side, s."""
    from firstfire.cycle.assembly import network
    from firstfire.cycle.build import start_state
    from firstfire.runs.walls import cold

    plain = ff.resolve(ff.read(ROOT / "engines" / "heron.toml"))
    spec = network(plain, cold(plain), [None, None])
    engines = build_engine(spec)
    state = start_state(spec, engines, FIRST_ANGLE, SPEED)
    rates = np.empty((1, state.values.size))
    room = np.empty((1, int(engines[0]["volume_count"])))
    values, events = state.values[None, :], state.cylinders[None, :]
    return best(lambda: fill_rates(engines, new_work(), values, events, rates, room), 6)


def plain_rate() -> float:
    """Give the same with nothing compiled, s."""
    done = subprocess.run(
        [sys.executable, "-c", _PLAIN], capture_output=True, text=True, check=True, cwd=ROOT,
        env={**os.environ, "NUMBA_DISABLE_JIT": "1"},
    )  # fmt: skip
    return float(done.stdout.split()[-1])
