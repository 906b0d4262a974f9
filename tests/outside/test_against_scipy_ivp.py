"""The stepper against SciPy's integrators on the same right-hand side, and its order.

Source: `scipy.integrate.solve_ivp`, DOP853 where nothing is stiff and Radau where openings are
wide, at tolerances far below ours. Order conditions of a Rosenbrock method with any Jacobian:
J. Rang, L. Angermann, *BIT* 45, 2005, 761-787, table of conditions for W-methods (from memory;
they follow from Taylor's expansion and are checked here as such). Tolerance 0.1 %.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from firstfire.cycle import layout
from firstfire.cycle.along import rates_along
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.layout import State
from firstfire.cycle.records import (
    BurnSpec,
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    SteppingSpec,
    ValveSpec,
    VolumeSpec,
)
from firstfire.cycle.run import run_to, run_traced
from firstfire.cycle.stepper import ALPHA, GAMMA, GAMMAS, LOWER_WEIGHTS, WEIGHTS

DEG = math.pi / 180
SWEPT = math.pi / 4 * 0.044**2 * 0.040


def engine(error: float = 3e-5, degrees: float = 1.5) -> EngineSpec:
    cylinder = CylinderSpec(
        "cylinder", 0.044, 0.020, 0.070, SWEPT / 6, burn=BurnSpec(-18 * DEG, 60 * DEG)
    )
    sizes = {"head_diameter": 0.018, "throat_diameter": 0.016, "stem_diameter": 0.005}
    return EngineSpec(
        "petrol",
        1.0,
        (cylinder,),
        (
            VolumeSpec("mouth", fixed=True, equivalence_ratio=1.0),
            VolumeSpec("runner", 15e-6, equivalence_ratio=1.0, wall_area=3e-3, wall_coefficient=50),
            VolumeSpec("stub", 40e-6, temperature=600.0),
            VolumeSpec("outside", fixed=True),
        ),
        (
            PassageSpec("throttle", "mouth", "runner", 60e-6, 0.8),
            PassageSpec("tailpipe", "stub", "outside", 120e-6, 0.8),
            PassageSpec("leak", "cylinder", "outside", 0.3e-6),
        ),
        (
            ValveSpec(
                "in",
                "cylinder",
                "runner",
                max_lift=5e-3,
                opens=345 * DEG,
                closes=590 * DEG,
                **sizes,
            ),
            ValveSpec(
                "out", "cylinder", "stub", max_lift=5e-3, opens=130 * DEG, closes=375 * DEG, **sizes
            ),
        ),
        stepping=SteppingSpec(error, degrees * DEG),
    )


def by_scipy(engines: Any, state: State, stops: list[float], method: str, tolerance: float) -> Any:
    """Values at the last of the angles, each stretch by itself, events left as they are."""
    values = state.values.copy()
    rates = np.empty((1, values.size))
    room = np.empty((1, int(engines[0]["volume_count"])))

    def right_hand_side(_: float, y: Any) -> Any:
        row = np.ascontiguousarray(y)[None, :]
        rates_along(engines, row, state.cylinders[None, :], rates, room)
        return rates[0].copy()

    for stop in stops:
        span = (stop - values[layout.ANGLE]) / values[layout.SPEED]
        scale = np.maximum(np.abs(values), 1e-9) * tolerance
        found = solve_ivp(
            right_hand_side, (0.0, span), values, method=method, rtol=tolerance, atol=scale
        )
        assert found.success
        values = found.y[:, -1]
    return values


def compare(engines: Any, ours: State, theirs: Any) -> None:
    """Pressures, temperatures, masses and sums within 0.1 %."""
    engine_record = engines[0]
    for row in range(int(engine_record["volume_count"])):
        at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
        for value in (layout.PRESSURE, layout.TEMPERATURE):
            assert ours.values[at + value] == pytest.approx(theirs[at + value], rel=1e-3)
        masses = slice(at + layout.AIR, at + layout.BURNED + 1)
        total = theirs[masses].sum()
        if row == 0:
            zone = int(engine_record["cylinders_at"]) + layout.ZONE_AIR
            total += theirs[zone : zone + 3].sum()
        assert ours.values[masses] == pytest.approx(theirs[masses], abs=1e-3 * total)
    sums = int(engine_record["cylinder_sums_at"])
    ends = slice(sums, sums + layout.CYLINDER_SUMS)
    assert ours.values[ends] == pytest.approx(theirs[ends], rel=1e-3, abs=1e-3)


def settled(spec: EngineSpec, speed: float) -> tuple[Any, State]:
    """Some cycles in, at the shutting of the inlet valve, sums at zero."""
    engines = build_engine(spec)
    state = run_to(engines, start_state(spec, engines, -360 * DEG, speed), until_angle=590 * DEG)
    return engines, state


def cleared(engines: Any, state: State) -> State:
    values = state.values.copy()
    values[int(engines[0]["moving"]) :] = 0.0
    return state._replace(values=values)


@pytest.mark.parametrize("rpm", [400.0, 3000.0])
def test_compression_burn_and_expansion(rpm: float) -> None:
    engines, state = settled(engine(), rpm * math.pi / 30)
    state = run_to(engines, state, until_angle=591 * DEG)
    before = cleared(engines, state)
    ours = run_to(engines, before, until_angle=(720 - 18) * DEG)
    theirs = by_scipy(engines, before, [(720 - 18) * DEG], "DOP853", 1e-9)
    compare(engines, ours, theirs)
    # A hair into the burn there are two zones; until nearly burned out there still are.
    lit = cleared(engines, run_to(engines, ours, until_angle=(720 - 17.9) * DEG))
    assert lit.cylinders["burning"][0] == 1
    end = (720 + 40) * DEG
    ours = run_to(engines, lit, until_angle=end)
    assert ours.cylinders["burning"][0] == 1
    theirs = by_scipy(engines, lit, [end], "DOP853", 1e-9)
    compare(engines, ours, theirs)


@pytest.mark.parametrize("rpm", [200.0, 3000.0])
def test_gas_exchange(rpm: float) -> None:
    engines, state = settled(engine(), rpm * math.pi / 30)
    opened = cleared(engines, run_to(engines, state, until_angle=(720 + 132) * DEG))
    assert opened.cylinders["closed"][0] == 0
    stops = [(720 + 345) * DEG, (720 + 375) * DEG, (720 + 585) * DEG]
    ours = run_to(engines, opened, until_angle=stops[-1])
    theirs = by_scipy(engines, opened, stops, "Radau", 1e-7)
    compare(engines, ours, theirs)


def test_order_conditions_with_any_jacobian() -> None:
    """Third order: no condition may lean on the Jacobian being right."""
    alpha = ALPHA.sum(axis=1)
    b, a, g = WEIGHTS, ALPHA, GAMMAS
    assert b.sum() == pytest.approx(1.0, abs=1e-12)
    assert b @ alpha == pytest.approx(1 / 2, abs=1e-12)
    assert b @ g.sum(axis=1) == pytest.approx(0.0, abs=1e-12)
    assert b @ alpha**2 == pytest.approx(1 / 3, abs=1e-12)
    assert b @ a @ alpha == pytest.approx(1 / 6, abs=1e-12)
    assert b @ a @ g.sum(axis=1) == pytest.approx(0.0, abs=1e-12)
    assert b @ g @ alpha == pytest.approx(0.0, abs=1e-12)
    assert b @ g @ g.sum(axis=1) == pytest.approx(0.0, abs=1e-12)
    assert LOWER_WEIGHTS.sum() == pytest.approx(1.0, abs=1e-12)
    assert LOWER_WEIGHTS @ alpha == pytest.approx(1 / 2, abs=1e-12)
    # Stiffly accurate, and damping without limit: the last stage is the result.
    assert (a + g)[-1] == pytest.approx(b, abs=1e-12)
    assert np.diag(g) == pytest.approx(GAMMA)


def test_order_seen() -> None:
    """Fixed steps halved: the error of the motored peak falls by about eight."""
    peaks = []
    for degrees in (4.0, 2.0, 1.0, 0.125):
        spec = engine(error=1e3, degrees=degrees)
        engines = build_engine(spec)
        start = start_state(spec, engines, -120 * DEG, 300.0)
        _, trace = run_traced(engines, start, -20 * DEG)
        peaks.append(trace.values[-1, layout.SHAFT_SIZE + layout.PRESSURE])
    errors = np.abs(np.array(peaks[:3]) - peaks[3])
    orders = np.log2(errors[:-1] / errors[1:])
    assert (orders > 2.6).all()
