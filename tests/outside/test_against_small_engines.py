"""A metal engine of wren's size against the published bands of small four-strokes.

Sources of the bands, for metal engines of 50 to 225 cm³, naturally aspirated, full throttle:

- Rating sheet of a 163 cm³ engine, 68 x 45 mm, compression ratio 8.0, SAE J1349 net, as in its
  owner's manual, p. 65: 9.6 N·m at 2500 rpm, 3.2 kW at 3600 rpm; a slower version 9.0 N·m, 2.7 kW
  at 3000 rpm. As bmep 7.4, 6.5, 6.9 and 6.6 bar; 19.6 and 16.5 kW/litre. Hence 5.5 to 8.5 bar (the
  low end from memory of sheets for 50 cm³) and 15 to 22 kW/litre.
- Volumetric efficiency 0.65 to 0.85, residual 5 to 12 %: from memory, with Albert, *Residual gas
  effects on combustion in an air-cooled utility engine*, MSc thesis, Univ. of Wisconsin-Madison,
  2004.

The engine is `tests/strangers/5_metal_wren.toml`. No tolerance is added to any band.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.cycle.figures import CylinderFigures
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.walls import assumed_warm

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
