"""A closed cycle, a cylinder-step and a twin's point against other ways to compute the same."""

import contextlib
import importlib.util
import math
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import psutil

import firstfire as ff
from benchmarks.alternate import least_times
from benchmarks.figure import Figure, at_least, at_most
from benchmarks.gas_closed import closed
from benchmarks.gas_toy import STEPS, run
from firstfire.cycle.advance import advance
from firstfire.cycle.assembly import network
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.fired import fired_cycle
from firstfire.cycle.layout import CYLINDER_EVENT
from firstfire.cycle.limit_cycle import CYCLE, FIRST_ANGLE
from firstfire.cycle.run import run_to, run_traced, steady_factors
from firstfire.runs.walls import assumed_warm, cold

ROOT = Path(__file__).resolve().parents[1]
HERON = ROOT / "engines" / "heron.toml"
SPEED = 2000 * math.pi / 30
ROUNDS = 7


def best(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Give the shortest time of a call, s: what else the machine does only adds."""
    times = []
    work()
    for _ in range(rounds):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def measure() -> list[Figure]:
    return [_against_cantera(), *_steps(), _warm_against_cold(), *_starts()]


def _against_cantera() -> Figure:
    """Give the closed cycle against the same on Cantera's gases, as the test has it."""
    file = ROOT / "tests" / "outside" / "test_against_cantera_closed_cycle.py"
    spec = importlib.util.spec_from_file_location("closed_cycle_on_cantera", file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    case = module.Case()
    theirs = best(lambda: module.TwoZones(case).run(), 1)
    ours = best(case.ours)
    return at_least("closed cycle: two zones on Cantera ÷ ours", theirs / ours, 100, "×",
                    "compression, burn and expansion with heat")  # fmt: skip


def _steps() -> list[Figure]:
    engines, state = closed(True)
    factors, end = steady_factors(engines), math.radians(130.0)
    none, no_events = np.empty((0, 0)), np.empty((0, 1), CYLINDER_EVENT)
    room, events = np.empty((4000, 1 + state.values.size)), np.empty((4000, 1), CYLINDER_EVENT)
    _, count, _ = advance(state, engines, factors, math.inf, end, room, events, 100_000)

    def whole() -> object:
        return advance(state, engines, factors, math.inf, end, none, no_events, 100_000)

    def nothing() -> object:
        return advance(state, engines, factors, math.inf, state.values[0], none, no_events, 10)

    toy, ours, calling = least_times([lambda: run(STEPS, 1e-3), whole, nothing], 10.0)
    toy, step = toy / STEPS, (ours - calling) / count
    engined = [_network_cycle(n) for n in (1, 2, 4)]
    times = least_times([cycle for cycle, _ in engined], 10.0)
    per = [time / steps for time, (_, steps) in zip(times, engined, strict=True)]
    return [
        at_most("cylinder-step, closed and fired ÷ step of a six-state toy", step / toy, 12, "×",
                f"{1e6 * step:.2f} µs against {1e6 * toy:.3f} µs"),
        Figure("step of a whole engine, a cylinder ÷ the same", per[0] / toy, "×", "none set", True,
               f"{1e6 * per[0]:.2f} µs: six volumes and ten openings for one cylinder"),
        at_most("cost a cylinder: 4 cylinders ÷ 1", per[2] / per[0], 1.3, "×",
                f"2 cylinders: {per[1] / per[0]:.2f}"),
    ]  # fmt: skip


def _network_cycle(cylinders: int) -> tuple[Callable[[], object], int]:
    """Give a cycle of that many cylinders like wren's side by side, and its cylinder-steps."""
    from dataclasses import replace

    plain = ff.resolve(ff.read(ROOT / "engines" / "wren.toml"))
    one = network(plain, cold(plain), [None])
    parts: dict[str, list[object]] = {"cylinders": [], "volumes": [], "passages": [], "valves": []}
    names = {v.name for v in one.volumes if not v.fixed} | {c.name for c in one.cylinders}

    def own(name: str, number: int) -> str:
        return f"{name} of {number}" if name in names else name

    for n in range(cylinders):
        parts["cylinders"] += [
            replace(c, name=own(c.name, n), crankcase=own(c.crankcase or "", n))
            for c in one.cylinders
        ]
        parts["volumes"] += [
            replace(v, name=own(v.name, n)) for v in one.volumes if not v.fixed or n == 0
        ]
        parts["passages"] += [
            replace(p, name=f"{p.name} {n}", start=own(p.start, n), end=own(p.end, n))
            for p in one.passages
        ]
        parts["valves"] += [
            replace(v, name=f"{v.name} {n}", cylinder=own(v.cylinder, n), port=own(v.port, n))
            for v in one.valves
        ]
    spec = replace(one, **{name: tuple(found) for name, found in parts.items()})
    engines = build_engine(spec)
    state = run_to(engines, start_state(spec, engines, FIRST_ANGLE, SPEED), FIRST_ANGLE + CYCLE)
    end = FIRST_ANGLE + 2 * CYCLE
    _, trace = run_traced(engines, state, end)
    return lambda: run_to(engines, state, end), len(trace.time) * cylinders


def _warm_against_cold() -> Figure:
    plain = ff.resolve(ff.read(HERON))
    walls, spark = assumed_warm(plain), -plain.spark.running_angle
    near = fired_cycle(plain, SPEED * 1.05, spark, walls)
    fresh, warm = least_times(
        [
            lambda: fired_cycle(plain, SPEED, spark, walls),
            lambda: fired_cycle(
                plain, SPEED, spark, walls, start=near.cycle.state, guess=near.burns
            ),
        ],
        10.0,
    )
    return at_most("twin point from a neighbour ÷ from nothing", warm / fresh, 0.6, "×",
                   f"{1e3 * warm:.0f} ms against {1e3 * fresh:.0f} ms")  # fmt: skip


_POINT = """
import time
import firstfire as ff
from firstfire.cycle.fired import fired_cycle
from firstfire.runs.walls import assumed_warm
plain = ff.resolve(ff.read("engines/heron.toml"))
begin = time.perf_counter()
fired_cycle(plain, 209.4, -0.26, assumed_warm(plain))
first = time.perf_counter() - begin
begin = time.perf_counter()
fired_cycle(plain, 209.4, -0.26, assumed_warm(plain))
again = time.perf_counter() - begin
print(first - again)
"""


def _starts() -> list[Figure]:
    """Give the first compile of gas and walls, the start from the cache, and memory."""
    with tempfile.TemporaryDirectory() as folder:
        env = {**os.environ, "FIRSTFIRE_CACHE": folder, "NUMBA_CACHE_DIR": folder}
        first, _ = _check(env)
        second, memory = _check(env)
        done = subprocess.run(
            [sys.executable, "-c", _POINT],
            capture_output=True,
            text=True,
            check=True,
            cwd=ROOT,
            env=env,
        )
    return [
        at_most("first check of a single, caches empty, over the next", first - second, 30, "s",
                "gas and walls compiled, on two processors"),
        at_most("first point from the cache, over a later one", float(done.stdout), 0.5, "s",
                "a fresh process, imports apart"),
        at_most("memory of firstfire check of a single", memory, 400, "MB"),
    ]  # fmt: skip


def _check(env: dict[str, str]) -> tuple[float, float]:
    """Give how long a whole check takes, s, and the most memory it held, MB."""
    command = [str(Path(sys.executable).with_name("firstfire")), "check", "engines/wren.toml"]
    begun = time.perf_counter()
    running = psutil.Popen(
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT, env=env
    )
    most = 0.0
    while running.poll() is None:
        with contextlib.suppress(psutil.Error):
            most = max(most, running.memory_info().rss / 1e6)
        time.sleep(0.02)
    assert running.returncode == 0
    return time.perf_counter() - begun, most
