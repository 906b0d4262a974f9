"""Curves of a material: how it falls with temperature and with time under load."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any

from firstfire.catalog.entry import Refused, origin_of, spread, unit_of
from firstfire.catalog.row import CurvePoint
from firstfire.units import UnitError, to_si

AXES: Mapping[str, tuple[str, str]] = {
    "modulus": ("temperature", "relative_modulus"),
    "modulus_annealed": ("temperature", "relative_modulus"),
    "strength": ("temperature", "relative_strength"),
    "strength_long_term": ("temperature", "relative_strength"),
    "relaxation_low": ("time", "stress_left"),
    "relaxation_press_fit": ("time", "stress_left"),
    "relaxation_warm": ("x", "factor"),
}
"""By curve: the field of its axis and the field of its value."""

UNITS: Mapping[str, str] = {"temperature": "degC", "time": "hour", "x": "dimensionless"}
"""Units of the axes where a file doesn't say."""

REFERENCE_TEMPERATURE = 296.15
"""Temperature at which every relative curve is 1, kelvin (23 degC, ISO 291)."""


def read_curve(
    name: str, raw: object, sources: Mapping[str, str], units: Mapping[str, str]
) -> tuple[CurvePoint, ...]:
    """Points of a curve, in rising order along its axis.

    Raises
    ------
    firstfire.catalog.entry.Refused
        Where a point lacks something or points don't rise.
    """
    if not isinstance(raw, list) or not raw:
        raise Refused("is no list of points", "Write [{ ... }, { ... }].")
    points = tuple(
        _point(number, name, entry, sources, units) for number, entry in enumerate(raw, 1)
    )
    if any(a.at >= b.at for a, b in pairwise(points)):
        raise Refused("has points out of order", f"Let {AXES[name][0]} rise from point to point.")
    return points


def _point(
    number: int, curve: str, raw: object, sources: Mapping[str, str], units: Mapping[str, str]
) -> CurvePoint:
    axis, quantity = AXES[curve]
    try:
        if not isinstance(raw, Mapping):
            raise Refused("is no table", "Write { ... }.")
        if not isinstance(raw.get(axis), int | float):
            raise Refused(f"has no {axis}", f"Say at which {axis} the value holds.")
        value, low, high = spread(raw, quantity)
        source, sure = origin_of(raw, sources)
        unit = unit_of({"unit": units.get(axis, UNITS[axis])}, UNITS[axis])
        load_time = _load_time(raw)
    except Refused as why:
        raise Refused(f"point {number} {why.fault}", why.cure) from why
    at, at_low, at_high = (
        to_si(float(raw.get(k, raw[axis])), unit) for k in (axis, f"{axis}_low", f"{axis}_high")
    )
    return CurvePoint(
        at,
        value,
        low,
        high,
        "softening" if axis == "x" else axis,
        source,
        sure,
        load_time,
        at_low,
        at_high,
    )


def _load_time(raw: Mapping[str, Any]) -> float | None:
    written = raw.get("load_time")
    if written is None:
        return None
    number, _, unit = str(written).partition(" ")
    try:
        return to_si(float(number), unit)
    except (ValueError, UnitError) as why:
        raise Refused(f'has load_time "{written}"', 'Write it like "1 minute".') from why


def stretched(
    points: tuple[CurvePoint, ...], glass_transition: float, own: float
) -> tuple[CurvePoint, ...]:
    """Curve of an amorphous plastic, stretched to another glass transition of the same kind.

    ``T' = T0 + (T - T0) (Tg' - T0) / (Tg - T0)`` with T0 = 23 degC: the rule that comes with
    the table of curves.

    Parameters
    ----------
    points
        Curve over temperature of the kind.
    glass_transition, own
        Glass transition of the kind and of the filament, kelvin; both above 23 degC.
    """
    ratio = (own - REFERENCE_TEMPERATURE) / (glass_transition - REFERENCE_TEMPERATURE)

    def moved(at: float) -> float:
        return REFERENCE_TEMPERATURE + (at - REFERENCE_TEMPERATURE) * ratio

    return tuple(
        replace(
            p,
            at=moved(p.at),
            at_low=moved(p.at_low),
            at_high=moved(p.at_high),
            source=f"{p.source}; stretched to its own glass transition",
            sure="computed",
        )
        for p in points
    )
