"""Friction of metal wren against published totals of metal engines, and the level of O-rings.

Sources, both of oil-lubricated car engines, constants from memory:

- K. J. Patton, R. G. Nitschke, J. B. Heywood, SAE 890836, 1989: rubbing by groups;
- M. L. Barnes-Moss, 1975, as J. B. Heywood, *Internal Combustion Engine Fundamentals*, 1988,
  Eq. 13.6: total motored friction of four-cylinder engines, pumping and pumps included.

Two O-rings cost 1 to 3.5 bar by the levels of seal handbooks' charts (from memory); with little
squeeze half of the low end is allowed, hence 0.5 to 3.5 bar.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.walls import assumed_warm

RPM = math.pi / 30
ROOT = Path(__file__).parent.parent.parent
SPEEDS = (1500, 2500, 3600)
BORE, STROKE = 0.040, 0.036

Points = dict[int, OperatingPoint]


def run(engine: ff.PlainEngine, speeds: tuple[int, ...]) -> Points:
    found: Points = {}
    start = None
    for rpm in speeds:
        spark = spark_angle(engine, rpm * RPM, starting=False)
        found[rpm] = operating_point(
            engine, "full_throttle", str(rpm), rpm * RPM, assumed_warm(engine), spark, start=start
        )
        start = found[rpm].fired.cycle.state
    return found


@pytest.fixture(scope="module")
def metal() -> ff.PlainEngine:
    return ff.resolve(ff.read(ROOT / "tests" / "strangers" / "5_metal_wren.toml"))


@pytest.fixture(scope="module")
def points(metal: ff.PlainEngine) -> Points:
    return run(metal, SPEEDS)


def mep(point: OperatingPoint, *contacts: str) -> float:
    torque = sum(point.friction.by_contact[name] for name in contacts)
    return torque * 4 * math.pi / point.displacement


def test_two_o_rings() -> None:
    wren = ff.resolve(ff.read(ROOT / "engines" / "wren.toml"))
    for point in run(wren, (2000, 4000)).values():
        assert 0.5e5 <= mep(point, "rings") <= 3.5e5


def test_contacts_add_up_and_none_drives(points: Points) -> None:
    for point in points.values():
        assert all(torque >= 0 for torque in point.friction.by_contact.values())
        total = math.fsum(point.friction.by_contact.values())
        assert total == pytest.approx(point.friction.mean_torque, rel=1e-12)
        assert point.friction.torque.min() >= 0
