"""From a described engine to the network the gas sees, and how that network breathes."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.cycle.assembly import network
from firstfire.cycle.fired import unfired_cycle
from firstfire.cycle.limit_cycle import LimitCycle
from firstfire.cycle.records import BurnSpec, EngineSpec
from firstfire.engine.geometry import firing_angles
from firstfire.runs.walls import assumed_warm, cold

RPM = math.pi / 30
DEG = math.pi / 180
ROOT = Path(__file__).parent.parent.parent
BURN = BurnSpec(start=-10 * DEG, duration=60 * DEG)
ENGINES = [*sorted((ROOT / "engines").glob("*.toml")),
           *sorted(p for p in (ROOT / "tests" / "strangers").glob("[1-5]*.toml"))]  # fmt: skip


def plain(path: Path, **values: object) -> ff.PlainEngine:
    return ff.resolve(ff.read(path), values or None)


@pytest.fixture(scope="module")
def single() -> ff.PlainEngine:
    return plain(ROOT / "engines" / "wren.toml")


@pytest.fixture(scope="module")
def twin() -> ff.PlainEngine:
    return plain(ROOT / "engines" / "heron.toml")


def turned(engine: ff.PlainEngine, rpm: float = 2500) -> LimitCycle:
    return unfired_cycle(engine, rpm * RPM, cold(engine)).cycle


def spec_of(engine: ff.PlainEngine, **how: object) -> EngineSpec:
    burns = [BURN] * len(engine.cylinders)
    return network(engine, assumed_warm(engine), burns, **how)  # type: ignore[arg-type]


@pytest.mark.parametrize("path", ENGINES, ids=lambda p: p.stem)
def test_every_end_of_every_passage_is_there(path: Path) -> None:
    engine = plain(path)
    spec = spec_of(engine)
    volumes = {v.name for v in (*spec.cylinders, *spec.volumes)}
    assert len(volumes) == len(spec.cylinders) + len(spec.volumes)
    for passage in spec.passages:
        assert {passage.start, passage.end} <= volumes
        assert passage.area > 0
        assert 0 < passage.coefficient <= 1
    for valve in spec.valves:
        assert {valve.cylinder, valve.port} <= volumes
    assert len(spec.valves) == 2 * len(engine.cylinders)
    assert [c.phase for c in spec.cylinders] == list(firing_angles(engine))


@pytest.mark.parametrize("path", ENGINES, ids=lambda p: p.stem)
def test_cylinders_are_as_large_as_described(path: Path) -> None:
    engine = plain(path)
    for cylinder, parts in zip(spec_of(engine).cylinders, engine.cylinders, strict=True):
        given = parts.cylinder
        area = math.pi / 4 * given.bore**2
        assert cylinder.head_area is not None
        assert cylinder.valves_area is not None
        assert cylinder.head_area + cylinder.valves_area == pytest.approx(area)
        # Without offset the piston travels the stroke; with it a little more.
        swept = area * given.stroke
        ratio = 1 + swept / cylinder.clearance_volume
        assert ratio == pytest.approx(given.compression_ratio, rel=0.01)


def test_leaks_are_the_areas_described(single: ff.PlainEngine) -> None:
    leak = single.cylinders[0].leak
    found = {p.name: p.area for p in spec_of(single).passages if "leak" in p.name}
    for name in ("ring", "inlet_seat", "exhaust_seat", "gasket", "plug", "wall"):
        area = getattr(leak, name)
        assert found.get(f"{name} leak 1", 0.0) == area


def test_throttle_closes(single: ff.PlainEngine) -> None:
    areas = [
        next(p.area for p in spec_of(single, throttle_opening=o).passages if p.name == "throttle")
        for o in (0.05, 0.3, 1.0)
    ]
    assert areas == sorted(areas)
    assert areas[0] < 0.1 * math.pi / 4 * single.intake.throttle_diameter**2
    assert areas[2] < math.pi / 4 * single.intake.throttle_diameter**2


def test_fuel_stands_in_the_intake_only_when_there_is_fire(single: ff.PlainEngine) -> None:
    walls = cold(single)
    mouths = {
        name: next(v for v in spec.volumes if v.name == "mouth").equivalence_ratio
        for name, spec in (
            ("fired", network(single, walls, [BURN])),
            ("first", network(single, walls, [None], first=True)),
            ("turned", network(single, walls, [None])),
        )
    }
    asked = single.intake.equivalence_ratio
    assert mouths == {"fired": asked, "first": asked, "turned": 0.0}


def test_lift_laws_start_and_end_shut(single: ff.PlainEngine) -> None:
    for valve in spec_of(single).valves:
        assert valve.lift_law is not None
        law = np.asarray(valve.lift_law)
        assert law[0] == law[-1] == 0.0
        assert law.max() == pytest.approx(1.0, abs=1e-6)
        assert law == pytest.approx(law[::-1], abs=1e-9)


def with_arms(engine: ff.PlainEngine, *lengths: float) -> ff.PlainEngine:
    """The engine with the first cylinder's parts in all, but runners of these lengths."""
    first = engine.cylinders[0]
    parts = [
        first.model_copy(update={"runner": first.runner.model_copy(update={"length": length})})
        for length in lengths
    ]
    return engine.model_copy(update={"cylinders": tuple(parts)})


# A point is converged to changes of 5e-4 a cycle.
SETTLED = 5e-4


def test_equal_cylinders_on_equal_arms_breathe_equally(twin: ff.PlainEngine) -> None:
    one, two = turned(with_arms(twin, 0.06, 0.06)).cylinders
    assert one.volumetric_efficiency == pytest.approx(two.volumetric_efficiency, rel=SETTLED)
    assert one.peak_pressure == pytest.approx(two.peak_pressure, rel=SETTLED)


def test_on_unequal_arms_they_do_not(twin: ff.PlainEngine) -> None:
    """Which fills better is open: a long arm rubs more and holds more mixture ready."""
    short, long = turned(with_arms(twin, 0.06, 0.25)).cylinders
    apart = abs(long.volumetric_efficiency / short.volumetric_efficiency - 1)
    assert apart > 3 * SETTLED
