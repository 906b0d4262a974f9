"""Sizes of bought things that the plain engine knows by name only, mm, with a drawn guess."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from firstfire.catalog import Catalog
from firstfire.errors import CatalogError


class Screw(NamedTuple):
    """Diameter, width across flats, height of head and of nut, mm."""

    diameter: float
    flats: float
    head: float
    nut: float


class Insert(NamedTuple):
    """Outside and length of a heat-set insert, mm."""

    outside: float
    length: float


@cache
def screw(name: str) -> Screw:
    """A screw by its thread.

    A thread of a person's own table is drawn by the first number in its name and the usual
    proportions of hexagon screws (1.6 and 0.7 diameters, nut 0.8).
    """
    try:
        row = Catalog().row("thread", name)
        sizes = [1e3 * row.si(x) for x in ("diameter", "across_flats", "head_height", "nut_height")]
    except CatalogError:
        number = re.search(r"\d+(\.\d+)?", name)
        size = min(max(float(number.group()), 2.0), 20.0) if number else 5.0
        sizes = [size, 1.6 * size, 0.7 * size, 0.8 * size]
    # a hexagon head, ISO 4014, is about 0.65 diameters high; the table has socket heads
    return Screw(sizes[0], sizes[1], min(sizes[2], 0.7 * sizes[0]), sizes[3])


@cache
def insert(name: str | None, diameter: float) -> Insert:
    """A heat-set insert by its name; an unknown one is 1.5 diameters wide and 2 long."""
    try:
        row = Catalog().row("insert", name or "")
        return Insert(1e3 * row.si("outside"), 1e3 * row.si("length"))
    except CatalogError:
        return Insert(1.5 * diameter, 2.0 * diameter)
