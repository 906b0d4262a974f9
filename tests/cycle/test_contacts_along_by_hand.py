"""Each cylinder's contacts along a cycle, a cam's lift along it, and how a kernel grows."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import burn_plan, friction_along


def test_each_cylinder_rubs_by_its_own_angle_and_force(monkeypatch):
    """Phases 0.3 and 1.3, and 20, 70 and 45 mm: in line asin(45/90) = 30° later.

    5 bar over 2, and 4 over 1. The second's force is what it adds to the first's: 10, then 100 N.
    """
    given, ends = [], []

    def rub(record, mechanism, inline, speed, drop, torques, load):
        given.append((record, mechanism, inline.copy(), drop.copy()))
        load += 10.0 ** len(given)

    monkeypatch.setattr(friction_along, "_rub_cylinder", rub)
    monkeypatch.setattr(friction_along, "_rub_shaft", lambda *_: None)
    monkeypatch.setattr(friction_along, "_cams", lambda *_: 0.0)
    monkeypatch.setattr(friction_along, "shaft_rubbing", lambda _: "shaft")
    monkeypatch.setattr(friction_along, "rubbing", lambda engine, row: (engine.name, row))
    monkeypatch.setattr(friction_along, "_record", lambda kind, rubs: (kind is not None, rubs))
    monkeypatch.setattr(
        friction_along, "_rod_ends", lambda rubs, force, swing, _: ends.append((rubs, force, swing))
    )
    crank = {"throw": 20e-3, "rod": 70e-3, "offset": 45e-3}
    cylinders = [
        SimpleNamespace(name=name, phase=phase, crankcase=None, **crank)
        for name, phase in (("a", 0.3), ("b", 1.3))
    ]
    spec = SimpleNamespace(cylinders=cylinders, volumes=(), ambient_pressure=1e5)
    curves = SimpleNamespace(
        angle=np.array([0.0, 2.0]), speed=np.full(2, 50.0), pressure=np.array([[5e5, 4e5]] * 2)
    )
    parts = SimpleNamespace(cylinder=SimpleNamespace(bore=0.04))
    engine = SimpleNamespace(name="engine", cylinders=[parts] * 2)
    friction_along.friction_along(engine, spec, curves)
    for row, (phase, over) in enumerate(((0.3, 4e5), (1.3, 3e5))):
        record, mechanism, inline, drop = given[row]
        assert record == (True, ("engine", row))
        assert mechanism == pytest.approx([math.pi * 4e-4, 20e-3, 70e-3, 45e-3])
        assert inline == pytest.approx(np.array([0.0, 2.0]) - phase + math.pi / 6)
        assert drop == pytest.approx([over] * 2)
        rubs, force, swing = ends[row]
        assert rubs == ("engine", row)
        assert force == pytest.approx([10.0 ** (row + 1)] * 2)
        assert swing == pytest.approx(np.abs(2 / 7 * np.cos(inline)))


def test_a_cams_lift_along_a_cycle():
    """From 1 to 3 rad up and down to 5 mm: 2.5 mm a quarter in, also a cycle on; shut before."""
    cam = SimpleNamespace(opens=1.0, closes=3.0, max_lift=5e-3, lift_law=(0.0, 1.0, 0.0))
    angles = np.array([0.5, 1.0, 1.5, 2.0, 2.5, 3.5, 1.5 + 4 * math.pi])
    expected = [0.0, 0.0, 2.5e-3, 5e-3, 2.5e-3, 0.0, 2.5e-3]
    assert friction_along.lift_along(cam, angles) == pytest.approx(expected)


def test_a_kernel_has_grown_where_its_shares_add_up(monkeypatch):
    """0.6 of it in the first degree, 0.8 in the second, of which a half: 1.5°."""
    degree = math.pi / 180
    shares = {0: 0.6, 1: 0.8}
    asked = []

    def group(engine, charge, speed, shape, volume, pressed):
        asked.append(volume)
        return volume

    def angle(volume):
        step = math.floor(volume / degree)
        return degree / shares.get(step, 0.1) * burn_plan._ON_THE_WAY / 2

    monkeypatch.setattr(burn_plan, "_group", group)
    monkeypatch.setattr(burn_plan.burn_duration, "development_angle", angle)
    shape = SimpleNamespace(volume=lambda at: at + 0.3)
    engine = SimpleNamespace(doubt=SimpleNamespace(burn_duration=2.0))
    charge = SimpleNamespace(volume=7.0)
    found = burn_plan._development(engine, shape, charge, 50.0, -0.3)
    assert found == pytest.approx(1.5 * degree)
    assert asked == pytest.approx([7.0, 0.5 * degree, 1.5 * degree])
