"""Engines drawn at random where files break: edges of each value, odd tables, any material."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from functools import cache

from firstfire import catalog
from firstfire.engine.engine import Engine
from firstfire.engine.geometry import geometry
from firstfire.engine.grammar import Leaf, leaves
from firstfire.engine.quantity import DIMENSIONS, read_quantity
from firstfire.engine.read import understand, with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError

SMALL = """
name = "finch"
[layout]
kind = "{layout}"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
"""
LAYOUTS = ("single", "parallel_twin", "v_twin", "opposed_twin")
_BETWEEN = (0.0, 1e-4, 0.02, 0.3, 0.7, 0.98, 1.0)


@cache
def rows() -> catalog.Catalog:
    return catalog.load()


@cache
def small(layout: str) -> Engine:
    text = SMALL.format(layout=layout)
    if layout == "v_twin":
        text = text.replace('"v_twin"', '"v_twin"\nv_angle = "90 deg"')
    return understand(text, "finch.toml", rows())


def edges(leaf: Leaf, chance: random.Random) -> list[object]:
    """Values from one end of what a leaf may hold to the other, and every word it knows."""
    if leaf.form == "quantity":
        low, high = (read_quantity(x, leaf.dimension) for x in (leaf.low, leaf.high))
        unit = DIMENSIONS[leaf.dimension].si
        values = [low + share * (high - low) for share in _BETWEEN]
        return [f"{v!r} {unit}" if unit else v for v in values]
    if leaf.form == "integer":
        return [int(leaf.low or 0), int(leaf.high or 0)]
    if leaf.form == "choice":
        return list(leaf.choices)
    if leaf.form == "flag":
        return [True, False]
    if leaf.form == "catalog":
        names = [row.key for row in rows().rows(leaf.row_kind)]
        return list(chance.sample(names, min(len(names), 6)))
    return []


def one_edge_each(chance: random.Random) -> Iterator[dict[str, object]]:
    """Every leaf by itself at each of its edges, in no order."""
    all_of_them = [{p: v} for p, leaf in leaves().items() for v in edges(leaf, chance)]
    chance.shuffle(all_of_them)
    yield from all_of_them


def any_materials(chance: random.Random) -> dict[str, object]:
    """A material at random for every role."""
    names = [row.key for row in rows().rows("material")]
    roles = [path for path, leaf in leaves().items() if leaf.row_kind == "material"]
    shield = {"piston.shield.thickness": "1 mm", "head.chamber_plate_thickness": "3 mm"}
    return {**{role: chance.choice(names) for role in roles}, **shield}


def lift_table(chance: random.Random) -> list[list[str]]:
    """Tables of lift that a tired hand may write: few rows, no rise, leaps, ends off the seat."""
    count = chance.choice((1, 2, 3, 5, 12, 60))
    angle, table = chance.choice((0.0, 0.0, -10.0, 300.0)), []
    for _ in range(count):
        lift = chance.choice((0.0, 0.0, chance.uniform(0, 8), chance.uniform(-1, 30), 1e-9))
        table.append([f"{angle} deg", f"{lift} mm"])
        angle += chance.choice((1e-9, 0.1, chance.uniform(0, 40), 200.0 / count))
    if chance.random() < 0.5:
        table[0][1] = table[-1][1] = "0 mm"
    return _uneven_table(chance) if chance.random() < 0.3 else table


def _uneven_table(chance: random.Random) -> list[list[str]]:
    """A table that can be followed, read off a cam by eye: steps and lifts as they came."""
    wide, count = chance.uniform(150, 300), chance.randint(5, 40)
    shares = sorted(chance.uniform(0.02, 0.98) for _ in range(count))
    lifts = [6 * math.sin(math.pi * x) ** 2 + chance.uniform(0, 0.3) for x in shares]
    inside = [[f"{wide * x} deg", f"{y} mm"] for x, y in zip(shares, lifts, strict=True)]
    return [["0 deg", "0 mm"], *inside, [f"{wide} deg", "0 mm"]]


def changed(engine: Engine, changes: dict[str, object]) -> Engine | None:
    """The engine so changed; None where that is refused in words."""
    try:
        found = with_values(engine, changes, comma=False)
        geometry(resolve(found))
        return found
    except FirstfireError as why:
        assert str(why).strip()
        assert "Traceback" not in str(why)
        return None
