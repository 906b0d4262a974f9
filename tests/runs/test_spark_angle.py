"""When the plug fires: as asked for at a speed, and later by what the shaft turns meanwhile."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.runs.point import spark_angle

RPM = math.pi / 30
DEG = math.pi / 180


@pytest.fixture(scope="module")
def single() -> ff.PlainEngine:
    return ff.resolve(ff.read(Path(__file__).parents[2] / "engines" / "wren.toml"))


def sparked(engine: ff.PlainEngine, **changes: object) -> ff.PlainEngine:
    return engine.model_copy(update={"spark": engine.spark.model_copy(update=changes)})


def test_start_and_running_angle_before_top(single: ff.PlainEngine) -> None:
    engine = sparked(single, start_angle=5 * DEG, running_angle=20 * DEG, advance_table=(),
                     latency=0.0)  # fmt: skip
    assert spark_angle(engine, 400 * RPM, starting=True) == pytest.approx(-5 * DEG)
    assert spark_angle(engine, 3000 * RPM, starting=False) == pytest.approx(-20 * DEG)


def test_latency_makes_it_late_by_what_the_shaft_turns(single: ff.PlainEngine) -> None:
    """A tenth of a millisecond at 3000 rpm (18° a millisecond) is 1.8°."""
    engine = sparked(single, running_angle=20 * DEG, advance_table=(), latency=1e-4)
    assert spark_angle(engine, 3000 * RPM, starting=False) == pytest.approx(-18.2 * DEG)


@pytest.mark.parametrize(
    ("rpm", "before_top"), [(500, 8), (1000, 8), (2000, 14), (3000, 20), (3500, 22), (9000, 24)]
)
def test_advance_table_between_and_beyond(
    single: ff.PlainEngine, rpm: float, before_top: float
) -> None:
    table = ((1000 * RPM, 8 * DEG), (3000 * RPM, 20 * DEG), (4000 * RPM, 24 * DEG))
    engine = sparked(single, advance_table=table, latency=0.0, start_angle=3 * DEG)
    assert spark_angle(engine, rpm * RPM, starting=False) == pytest.approx(-before_top * DEG)
    assert spark_angle(engine, rpm * RPM, starting=True) == pytest.approx(-3 * DEG)
