"""Friction of every contact under a made-up gas that stands at 10 bar over the crankcase.

Turned so slowly that nothing but the gas presses: a rod then carries p A / cos φ, φ its lean, and
each contact's torque follows from that force alone. Means are over one cycle of 720°.
"""

from __future__ import annotations

import math
from functools import cache
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.loads.small_engines import engine_of

from firstfire.cycle.assembly import network
from firstfire.cycle.friction_along import Friction, friction_along
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine

DEG = math.pi / 180
BORE, STROKE, ROD, OFFSET = 44e-3, 40e-3, 70e-3, 4e-3


def _stroke(throw: float) -> float:
    """From where rod and throw stand in line to where they lie over each other."""
    return math.sqrt((ROD + throw) ** 2 - OFFSET**2) - math.sqrt((ROD - throw) ** 2 - OFFSET**2)


THROW = brentq(lambda throw: _stroke(throw) - STROKE, 19e-3, 20e-3, xtol=1e-15)
"""A little less than half the stroke, for the bore's offset."""
OVER = 1e6
SLOW = 1e-6
SIZES = {
    "cylinder__bore": BORE, "cylinder__stroke": STROKE, "cylinder__offset": OFFSET,
    "rod__length": ROD, "rings__kind": "none", "case__lubrication": "grease",
    "crank__crankpin_diameter": 12e-3, "pin__diameter": 10e-3, "rod__big_end": "plain",
    "rod__small_end": "plain", "crank__main_bearing_bore": 15e-3, "crank__main_bearings": 2,
    "crank__main_bearing_outside": 35e-3, "crank__main_bearing_static_load": 3750.0,
    "case__shaft_seals": 0, "cam_drive__teeth_crank": 20, "cam_drive__pitch": 3e-3,
    "cam_drive__tension": 30.0, "cam_drive__count": 1,
}  # fmt: skip
VALVES = {
    f"valves__{name}__{key}": value
    for name in ("inlet", "exhaust")
    for key, value in {
        "base_radius": 11e-3, "lift": 4e-3, "rocker": "direct", "rocker_ratio": 1.0,
        "follower": "flat", "cam_law": "harmonic", "spring_rate": 5e3, "spring_preload": 20.0,
    }.items()
} | {
    "valves__inlet__opens_before_top": 10 * DEG, "valves__inlet__closes_after_bottom": 50 * DEG,
    "valves__exhaust__opens_before_bottom": 50 * DEG, "valves__exhaust__closes_after_top": 10 * DEG,
}  # fmt: skip


def rubbed(engine: PlainEngine, pressed: int = 0) -> tuple[Friction, np.ndarray]:
    """Friction with gas in one cylinder, and the angles of its crank after bore and crank align."""
    count = len(engine.cylinders)
    spec = network(engine, [Walls(500.0, 450.0, 600.0, 400.0)] * count, [None] * count)
    angle = np.linspace(0.3, 0.3 + 4 * math.pi, 2881)
    pressure = np.full((len(angle), count + len(spec.volumes)), 1e5)
    pressure[:, count:] = 7e5
    pressure[:, count + [v.name for v in spec.volumes].index("case")] = 1e5
    pressure[:, pressed] += OVER
    curves = SimpleNamespace(angle=angle, speed=np.full(len(angle), SLOW), pressure=pressure)
    turned = angle - spec.cylinders[pressed].phase + math.asin(OFFSET / (THROW + ROD))
    return friction_along(engine, spec, curves), turned


@cache
def single() -> tuple[Friction, np.ndarray]:
    return rubbed(engine_of(**SIZES | VALVES))


def mean(values: np.ndarray) -> float:
    """Over a whole cycle, its last row being its first."""
    return float(np.mean((values[1:] + values[:-1]) / 2))


def rod_of(turned: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Lean, force, and how far the piston goes a radian, by the triangle of throw, rod, offset."""
    lean = np.arcsin((THROW * np.sin(turned) - OFFSET) / ROD)
    force = OVER * math.pi / 4 * BORE**2 / np.cos(lean)
    arm = THROW * np.sin(turned) + THROW * np.cos(turned) * np.tan(lean)
    return lean, force, np.abs(arm)


def test_skirt() -> None:
    """A tenth of the side force p A tan φ, times how far the piston goes a radian."""
    found, turned = single()
    lean, force, arm = rod_of(turned)
    wanted = mean(0.10 * force * np.abs(np.sin(lean)) * arm)
    assert found.by_contact["skirts"] == pytest.approx(wanted, rel=1e-9)
    assert found.by_contact["rings"] == 0.0


def test_ends_of_the_rod() -> None:
    """0.10 times 6 mm at the crank; 0.10 times 5 mm at the pin, which swings by r/L cos θ."""
    found, turned = single()
    _, force, _ = rod_of(turned)
    big, small = mean(force * 0.6e-3), mean(force * 0.5e-3 * np.abs(THROW / ROD * np.cos(turned)))
    assert found.rod_ends[0] == pytest.approx((big, small), rel=1e-9)


def test_bearings() -> None:
    """Both ends of the rod and Palmgren's 0.0005 (F/C)^0.55 F d of two bearings of 25 mm."""
    found, turned = single()
    _, force, _ = rod_of(turned)
    rolling = 2 * 0.0005 * (force / 2 / 3750.0) ** 0.55 * force / 2 * 25e-3
    # Grease drags 0.3 N mm at 1 rad/s, by the power 2/3 of the speed 0.03 µN m here.
    drag = 2 * 1.4e-10 * (60 * 30 / math.pi) ** (2 / 3) * 25**3 * SLOW ** (2 / 3)
    wanted = mean(rolling) + drag + math.fsum(found.rod_ends[0])
    assert found.by_contact["bearings"] == pytest.approx(wanted, rel=1e-9)


def test_valve_gear() -> None:
    """240° of each valve's 720, at 0.12/2 of 13 mm; spring 20 N and half of 4 mm · 5 N/mm on it."""
    found, _ = single()
    wanted = 2 * 240 / 720 * 0.06 * 13e-3 * (20 + 10)
    # Steps of a quarter degree: at opening and closing half of one may be counted too much.
    assert found.by_contact["valve gear"] == pytest.approx(wanted, rel=0.25 / 240 + 1e-3)


def test_cam_drive_and_sum() -> None:
    found, _ = single()
    assert found.by_contact["cam drive"] == pytest.approx(17.1887e-3, rel=1e-5)
    assert found.mean_torque == pytest.approx(math.fsum(found.by_contact.values()))
    assert mean(found.torque) == pytest.approx(found.mean_torque)


def test_the_second_cylinders_rod_is_its_own() -> None:
    engine = engine_of("parallel 180", **SIZES | VALVES, layout__cylinder_spacing=60e-3)
    found, turned = rubbed(engine, pressed=1)
    _, force, _ = rod_of(turned)
    big, small = mean(force * 0.6e-3), mean(force * 0.5e-3 * np.abs(THROW / ROD * np.cos(turned)))
    assert found.rod_ends[1] == pytest.approx((big, small), rel=1e-9)
    # Nothing but its own tiny inertia presses in the first.
    assert found.rod_ends[0] == pytest.approx((0.0, 0.0), abs=1e-9)
