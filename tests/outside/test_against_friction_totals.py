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
from firstfire.formulas import friction_metal as patton
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


def patton_sum(engine: ff.PlainEngine, rpm: int) -> float:
    """Its groups for a plain-bearing engine of the same journals, widths half the diameters, Pa."""
    speed = rpm * RPM
    journal, pin = engine.crank.main_journal_diameter, engine.crank.crankpin_diameter
    size, piston_speed = (BORE, STROKE), STROKE * rpm / 30
    return (
        patton.crankshaft_seals(journal, BORE, STROKE)
        + patton.journal_bearings(speed, journal, journal / 2, 2, size)
        + patton.journal_bearings(speed, pin, pin / 2, 1, size)
        + patton.turbulent_dissipation(speed, journal, 2)
        + patton.piston_skirt(piston_speed, BORE)
        + patton.piston_rings(speed, BORE)
        + patton.ring_gas_load(1e5, 1e5, engine.cylinders[0].cylinder.compression_ratio,
                               piston_speed)
    )  # fmt: skip


@pytest.mark.parametrize("rpm", SPEEDS)
def test_rubbing_against_patton(metal: ff.PlainEngine, points: Points, rpm: int) -> None:
    """Within 0.6 to 1.6 of the sum of its groups.

    That is the doubt this project states for its own bearings' friction; Patton's groups are ±20 %
    on the engines they were fitted to. Valve gear and cam drive are left out on our side, as the
    groups leave them out.
    """
    ours = mep(points[rpm], "rings", "skirts", "bearings")
    assert 0.6 <= ours / patton_sum(metal, rpm) <= 1.6


@pytest.mark.parametrize("rpm", SPEEDS)
def test_rubbing_and_pumping_below_barnes_moss(points: Points, rpm: int) -> None:
    """Half of it at least, and never more.

    Its engines drive oil and water pumps and have oil films in five mains, four pins and twelve
    rings; a single on two ball bearings has none of these. Less than half would mean that a whole
    group is missing.
    """
    point = points[rpm]
    ours = point.friction_mep - point.fired.cycle.cylinders[0].pmep
    assert 0.5 <= ours / patton.barnes_moss(rpm * RPM) <= 1.0


def test_known_miss_rubbing_does_not_grow_with_speed(points: Points) -> None:
    """Barnes-Moss grows by two thirds from 1500 to 3600 rpm; ours falls a little, pumping apart.

    `docs/gas.md` says so; this fails once friction that grows with speed is there.
    """
    assert patton.barnes_moss(3600 * RPM) > 1.6 * patton.barnes_moss(1500 * RPM)
    assert 0.85 <= points[3600].friction_mep / points[1500].friction_mep <= 1.0


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
