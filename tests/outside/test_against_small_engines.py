"""A metal engine of wren's size against the published bands of small four-strokes.

Sources of the bands, for metal engines of 50 to 225 cm³, naturally aspirated, full throttle:

- Rating sheet of a 163 cm³ engine, 68 x 45 mm, compression ratio 8.0, SAE J1349 net, as in its
  owner's manual, p. 65: 9.6 N·m at 2500 rpm, 3.2 kW at 3600 rpm; a slower version 9.0 N·m, 2.7 kW
  at 3000 rpm. As bmep 7.4, 6.5, 6.9 and 6.6 bar; 19.6 and 16.5 kW/litre. Hence 5.5 to 8.5 bar (the
  low end from memory of sheets for 50 cm³) and 15 to 22 kW/litre.
- Volumetric efficiency 0.65 to 0.85, residual 5 to 12 %: from memory, with Albert, *Residual gas
  effects on combustion in an air-cooled utility engine*, MSc thesis, Univ. of Wisconsin-Madison,
  2004.
- Heat to the coolant of spark-ignition engines at full load 17 to 26 % of the fuel, J. B. Heywood,
  *Internal Combustion Engine Fundamentals*, 1988, table 12.1, from memory; the exhaust port's share
  is in it, but a 45 cm³ cylinder has twice the wall for its volume: 12 to 35 %.
- Compression readings of small four-strokes, service and owner's manuals: the limit lies at 77 to
  86 % of the standard reading; an engine without release reads 10 to 14 bar above the air when
  sound, and one under 4 bar has a bad seal. Leak of a sound engine 0.3 to 3 % of the charge at
  3000 rpm by its ring gaps (an 89 mm and a 90 cm³ engine's service data).

The engine is `tests/strangers/5_metal_wren.toml`. No tolerance is added to any band.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.cycle.figures import CylinderFigures
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.walls import assumed_warm, cold

RPM = math.pi / 30
BAR = 1e5
SPEEDS = (1500, 2500, 3000, 3600)
ENGINE = Path(__file__).parent.parent / "strangers" / "5_metal_wren.toml"
LOWEST_FILLING, HIGHEST_FILLING = 0.65, 0.85

Points = dict[int, OperatingPoint]


@pytest.fixture(scope="module")
def points() -> Points:
    engine = ff.resolve(ff.read(ENGINE))
    found: Points = {}
    start = None
    for rpm in SPEEDS:
        spark = spark_angle(engine, rpm * RPM, starting=False)
        found[rpm] = operating_point(
            engine, "full_throttle", str(rpm), rpm * RPM, assumed_warm(engine), spark, start=start
        )
        start = found[rpm].fired.cycle.state
    return found


def figures(points: Points, rpm: int) -> CylinderFigures:
    return points[rpm].fired.cycle.cylinders[0]


def bmep(point: OperatingPoint) -> float:
    return point.brake_torque * 4 * math.pi / point.displacement


@pytest.mark.parametrize("rpm", SPEEDS)
def test_brake_mean_effective_pressure(points: Points, rpm: int) -> None:
    assert 5.5 * BAR <= bmep(points[rpm]) <= 8.5 * BAR


def test_power_a_litre_at_3600(points: Points) -> None:
    a_litre = points[3600].brake_power / points[3600].displacement / 1e6
    assert 15 <= a_litre <= 22


@pytest.mark.parametrize("rpm", SPEEDS)
def test_residual(points: Points, rpm: int) -> None:
    assert 0.05 <= figures(points, rpm).residual_fraction <= 0.12


@pytest.mark.parametrize("rpm", [2500, 3000, 3600])
def test_filling(points: Points, rpm: int) -> None:
    assert LOWEST_FILLING <= figures(points, rpm).volumetric_efficiency <= HIGHEST_FILLING


def test_known_miss_filling_at_1500_is_above_the_band(points: Points) -> None:
    """The model fills 0.02 too much when slow, as `docs/gas.md` says.

    This fails when the miss goes away, which is to be told there, and when it grows.
    """
    assert HIGHEST_FILLING < figures(points, 1500).volumetric_efficiency < HIGHEST_FILLING + 0.04


def test_torque_falls_above_2500_as_on_the_rating_sheet(points: Points) -> None:
    """9.6 N·m at 2500 against 8.49 N·m at 3600 rpm: torque falls while power still rises."""
    assert points[3600].brake_torque < points[2500].brake_torque
    assert points[3600].brake_power > points[2500].brake_power


@pytest.mark.parametrize("rpm", SPEEDS)
def test_heat_to_the_walls(points: Points, rpm: int) -> None:
    fraction = figures(points, rpm).heat_fraction
    assert fraction is not None
    assert 0.12 <= sum(fraction) <= 0.35


def test_leak_of_a_sound_engine(points: Points) -> None:
    assert 0.003 <= figures(points, 3000).leaked_fraction <= 0.03


def reading(engine: ff.PlainEngine) -> float:
    """Peak above the air while cranked cold, Pa: what a gauge with a check valve climbs to."""
    speed = engine.use.cranking_speed
    point = operating_point(engine, "cranking", "cranking", speed, cold(engine), None)
    lowest = min(c.peak_pressure for c in point.fired.cycle.cylinders)
    return lowest - engine.surroundings.air_pressure


def tight(engine: ff.Engine) -> ff.Engine:
    names = ("ring", "inlet_seat", "exhaust_seat", "gasket", "plug", "wall")
    return ff.with_values(engine, {f"leak.{name}": "0 mm^2" for name in names})


def test_a_sound_metal_engine_reads_above_the_service_limit() -> None:
    """77 % of what it would read without any leak, and 10 to 14 bar; ratio 6.5, 360 rpm."""
    engine = ff.read(ENGINE)
    read = reading(ff.resolve(engine))
    assert read >= 0.77 * reading(ff.resolve(tight(engine)))
    assert 10 * BAR <= read <= 14 * BAR


@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_demo_engines_seal_well_enough_to_be_read(name: str) -> None:
    """Above 4 bar and below what they would read tight."""
    engine = ff.read(ENGINE.parents[2] / "engines" / f"{name}.toml")
    assert 4 * BAR <= reading(ff.resolve(engine)) < reading(ff.resolve(tight(engine)))
