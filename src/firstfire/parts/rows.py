"""Sizes of threads, inserts and belts, which the plain engine knows by name only.

They are looked up in the shipped tables: a person's own row is not found here, and what needs
it is then not judged.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from firstfire.catalog import Catalog, Row
from firstfire.errors import CatalogError, OutsideValidity

_NEAR = 0.02


class Thread(NamedTuple):
    """Of a screw thread, m and m²."""

    diameter: float
    pitch: float
    stress_area: float
    clearance_hole: float


class Insert(NamedTuple):
    """Of a heat-set insert: outside and length, m."""

    outside: float
    length: float


@cache
def thread(name: str) -> Thread:
    """A thread by its key.

    Raises
    ------
    OutsideValidity
        If it is not among the shipped threads.
    """
    row = _row("thread", name)
    return Thread(*(row.si(x) for x in ("diameter", "pitch", "stress_area", "clearance_hole")))


@cache
def insert(name: str) -> Insert:
    """An insert by its key.

    Raises
    ------
    OutsideValidity
        If it is not among the shipped inserts.
    """
    row = _row("insert", name)
    return Insert(row.si("outside"), row.si("length"))


@cache
def bearing_bore(name: str) -> float:
    """Bore of a shipped bearing, m.

    Raises
    ------
    OutsideValidity
        If it is not among them.
    """
    return _row("bearing", name).si("bore")


@cache
def belt_pull(name: str | None, pitch: float) -> float:
    """Pull that a belt may carry for each metre of its width, N/m, by name or else by pitch.

    Raises
    ------
    OutsideValidity
        If no shipped belt has that name or pitch.
    """
    if name is not None:
        return _row("belt", name).si("tension_per_width")
    for row in Catalog().rows("belt"):
        if abs(row.si("pitch") / pitch - 1) < _NEAR:
            return row.si("tension_per_width")
    raise OutsideValidity(f"No belt of {pitch * 1e3:.4g} mm pitch is in the catalog's table.")


@cache
def material_number(key: str, prop: str) -> float:
    """A property of a shipped material, SI; 0 where it isn't known."""
    row = _row("material", key)
    return row.si(prop) if prop in row.data else 0.0


def _row(kind: str, name: str) -> Row:
    try:
        return Catalog().row(kind, name)
    except CatalogError as why:
        raise OutsideValidity(
            f'The {kind} "{name}" is a row of your own; its sizes are not known to this judgement.'
        ) from why


@cache
def material_name(key: str) -> str:
    """What a shipped material is called."""
    return _row("material", key).name
