"""An engine's torques by laws of their own, for books that are kept apart from the kernel's."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import numpy as np

import firstfire as ff
from firstfire.cycle.friction_along import friction_along
from firstfire.engine.geometry import reciprocating_mass
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas import slider_crank
from firstfire.loads.driven import load_torque

ENGINES = Path(__file__).resolve().parents[3] / "engines"
RPM, DEG = math.pi / 30, math.pi / 180


@cache
def read(name, **changes):
    """An engine, changed: two underscores stand for a point."""
    found = ff.read(ENGINES / f"{name}.toml")
    changed = {path.replace("__", "."): value for path, value in changes.items()}
    return with_values(found, changed) if changed else found


@cache
def engine(name, **changes):
    return resolve(read(name, **changes))


def summed(curve, along):
    """By chords: ends of stretches between sparks stand twice, which Simpson's rule can't have."""
    return float(np.sum((curve[1:] + curve[:-1]) / 2 * np.diff(along)))


def torques(plain, spec, spun):
    """Gas against the case, friction and load, N·m; and what goes up and down, kg·m²."""
    names = [c.name for c in spec.cylinders] + [v.name for v in spec.volumes]
    under = spun.pressure[:, names.index("case")]
    gas, moved = np.zeros(len(spun.time)), np.zeros(len(spun.time))
    for row, cylinder in enumerate(spec.cylinders):
        size = cylinder.throw, cylinder.rod, cylinder.offset
        inline = spun.angle - cylinder.phase + slider_crank.top_centre_angle(*size)
        slope = np.array([slider_crank.piston_height_slope(one, *size) for one in inline])
        gas -= math.pi / 4 * cylinder.bore**2 * (spun.pressure[:, row] - under) * slope
        moved += reciprocating_mass(plain, plain.cylinders[row]) * slope**2
    curves = SimpleNamespace(angle=spun.angle, speed=spun.speed, pressure=spun.pressure)
    friction = friction_along(plain, spec, curves).torque
    return gas, friction, load_torque(plain, 1.0) * spun.speed**2, moved
