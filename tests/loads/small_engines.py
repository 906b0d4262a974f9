"""Plain engines from a few lines of text, and gas cycles written by hand."""

import math
from functools import cache

import numpy as np

from firstfire import catalog
from firstfire.engine.read import understand
from firstfire.engine.records import GasCycle
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.loads.masses import reciprocating_mass

SMALL = """
name = "finch"
[printing]
material = "petg"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[rod]
length = "70 mm"
"""

# Every way two cylinders can stand, with the spacing and span that make room for the crank.
TWO_PINS = 'cylinder_spacing = "30 mm"\n[crank]\nbearing_span = "90 mm"\n'
LAYOUTS = {
    "single": '[layout]\nkind = "single"\n',
    "V 90": '[layout]\nkind = "v_twin"\nv_angle = "90 deg"\n',
    "V 45": '[layout]\nkind = "v_twin"\nv_angle = "45 deg"\n',
    "V 60, two pins": '[layout]\nkind = "v_twin"\nv_angle = "60 deg"\ncrank_offset = "60 deg"\n'
    + TWO_PINS,
    "parallel 360": '[layout]\nkind = "parallel_twin"\n' + TWO_PINS,
    "parallel 180": '[layout]\nkind = "parallel_twin"\ncrank_offset = "180 deg"\n' + TWO_PINS,
    "parallel 270": '[layout]\nkind = "parallel_twin"\ncrank_offset = "270 deg"\n' + TWO_PINS,
    "opposed": '[layout]\nkind = "opposed_twin"\n' + TWO_PINS,
    "opposed, common pin": '[layout]\nkind = "opposed_twin"\ncrank_offset = "0 deg"\n',
}


@cache
def _rows():
    return catalog.load()


@cache
def _written(text: str):
    return understand(text, "finch.toml", _rows())


def engine_of(layout: str = "single", base: str = SMALL, **values: object) -> PlainEngine:
    """An engine of one of `LAYOUTS`; values by path with two underscores for the dot, in SI."""
    sample = {name.replace("__", "."): value for name, value in values.items()}
    return resolve(_written(base + LAYOUTS[layout]), sample)


def with_reciprocating(mass: float, base: str, layout: str = "single", **values) -> PlainEngine:
    """An engine whose pistons are made such that this much goes up and down, kg."""
    tried = engine_of(layout, base, **values)
    piston = tried.cylinders[0].piston.mass + mass - reciprocating_mass(tried, 0)
    return engine_of(layout, base, piston__mass=piston, **values)


def gas_cycle(pressure, speed=100 * math.pi, points=1441, case=1e5) -> GasCycle:
    """A cycle from functions of the crank angle (rad), or numbers."""
    angle = np.linspace(-2 * math.pi, 2 * math.pi, points)
    nothing = np.zeros(points)
    return GasCycle(
        angle=angle,
        speed=_over(angle, speed),
        pressure=_over(angle, pressure),
        volume=nothing,
        gas_temperature=nothing,
        coefficient=nothing,
        crankcase_pressure=_over(angle, case),
        leak_to_crankcase=nothing,
    )


def _over(angle, value):
    return value(angle) if callable(value) else np.full(angle.size, float(value))


def fired(angle):
    """A made-up fired pressure: a hump after top centre."""
    return 1e5 + 3e6 * np.exp(-(((angle - 0.25) / 0.5) ** 2))


def all_fired(engine: PlainEngine, speed=100 * math.pi) -> list[GasCycle]:
    """The same fired cycle in every cylinder."""
    return [gas_cycle(fired, speed) for _ in engine.cylinders]
