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


def walther(plain):
    """Viscosity of its cold oil, mm²/s, by the two of its sheet; the chart's lines by hand."""
    case, cold = plain.case, plain.surroundings.air_temperature
    rows = [(313.15, case.viscosity_40), (373.15, case.viscosity_100)]
    (x, y), (x2, y2) = [
        (math.log10(kelvin), math.log10(math.log10(1e6 * thick + 0.7))) for kelvin, thick in rows
    ]
    return 10**10 ** (y + (y2 - y) / (x2 - x) * (math.log10(cold) - x)) - 0.7


def thicker(plain, speed):
    """What cold oil drags beyond the running engine's 60 mm²/s, N·m, by Palmgren's law."""
    crank = plain.crank
    mean = 500.0 * (crank.main_bearing_bore + crank.main_bearing_outside)
    beyond = walther(plain) ** (2 / 3) - 60.0 ** (2 / 3)
    each = 1e-10 * 1.4 * beyond * (np.abs(speed) * 30 / math.pi) ** (2 / 3) * mean**3
    return plain.doubt.friction.bearings * crank.main_bearings * each


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
    friction = friction_along(plain, spec, curves).torque + thicker(plain, spun.speed)
    return gas, friction, load_torque(plain, 1.0) * spun.speed**2, moved
