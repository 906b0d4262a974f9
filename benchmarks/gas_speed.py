"""How long a step of a cylinder takes, beside a toy step compiled alike.

Run it as ``python benchmarks/gas_speed.py``. Ratios count, not microseconds: other work on the
machine slows both. Each figure is the best of several runs.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable

import numba
import numpy as np

from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.kernel import advance
from firstfire.cycle.layout import CYLINDER_EVENT, Records, State
from firstfire.cycle.records import (
    BurnSpec,
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    SteppingSpec,
    VolumeSpec,
)
from firstfire.cycle.run import steady_factors

TOY_STEPS = 20000


@numba.njit(error_model="numpy")
def toy_rates(y: np.ndarray, out: np.ndarray) -> None:
    """Six states, each with a product or two: three oscillators, weakly coupled."""
    for i in range(3):
        out[2 * i] = y[2 * i + 1]
        out[2 * i + 1] = -(1.0 + i) * y[2 * i] - 0.1 * y[(2 * i + 3) % 6]


@numba.njit(error_model="numpy")
def toy(steps: int, h: float) -> float:
    """Classical fourth-order Runge-Kutta."""
    y = np.ones(6)
    k1, k2, k3, k4, z = np.empty(6), np.empty(6), np.empty(6), np.empty(6), np.empty(6)
    for _ in range(steps):
        toy_rates(y, k1)
        for i in range(6):
            z[i] = y[i] + 0.5 * h * k1[i]
        toy_rates(z, k2)
        for i in range(6):
            z[i] = y[i] + 0.5 * h * k2[i]
        toy_rates(z, k3)
        for i in range(6):
            z[i] = y[i] + h * k3[i]
        toy_rates(z, k4)
        for i in range(6):
            y[i] += h / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i])
    return float(y[0])


def best(work: Callable[[], object], runs: int = 30) -> float:
    """Shortest time of a call, s."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def closed(fired: bool) -> tuple[Records, State]:
    """A 44 x 40 mm cylinder at inlet closing, 3000 rpm, with a leak."""
    burn = BurnSpec(math.radians(-18.0), math.radians(60.0)) if fired else None
    cylinder = CylinderSpec("cylinder", 0.044, 0.020, 0.070, 1.01e-5, burn=burn)
    spec = EngineSpec(
        "iso-octane",
        1.0,
        (cylinder,),
        (VolumeSpec("case", fixed=True),),
        (PassageSpec("leak", "cylinder", "case", 0.2e-6),),
        stepping=SteppingSpec(),
    )
    engines = build_engine(spec)
    charge = VolumeSpec("", pressure=0.95e5, temperature=330.0, equivalence_ratio=1.0)
    return engines, start_state(spec, engines, math.radians(-140.0), 314.0, [charge])


def main() -> None:
    """Print the figures."""
    toy(10, 1e-3)
    toy_step = best(lambda: toy(TOY_STEPS, 1e-3)) / TOY_STEPS
    print(f"toy step                     {1e6 * toy_step:8.3f} µs")
    for fired in (False, True):
        engines, state = closed(fired)
        factors = steady_factors(engines)
        room = np.empty((4000, 1 + state.values.size))
        end = math.radians(130.0)
        events = np.empty((4000, 1), CYLINDER_EVENT)
        _, steps, _ = advance(state, engines, factors, math.inf, end, room, events, 100000)
        none, none_events = np.empty((0, 0)), np.empty((0, 1), CYLINDER_EVENT)
        call = best(
            lambda: advance(
                state, engines, factors, math.inf, state.values[0], none, none_events, 10
            )  # noqa: B023
        )
        run = best(
            lambda: advance(state, engines, factors, math.inf, end, none, none_events, 100000)  # noqa: B023
        )
        step = (run - call) / steps
        print(
            f"{'fired' if fired else 'motored':8s} closed, {steps} steps  {1e6 * step:8.3f} µs "
            f"= {step / toy_step:5.1f} toy steps; a call {1e6 * call:.1f} µs"
        )


if __name__ == "__main__":
    main()
