"""The crankcase's room around the crank, and how far a counterweight may reach. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.drawing import catalogued
from firstfire.drawing import conventions as by
from firstfire.drawing.barrel import bolt_circle, case_flange, flange_height, into_body
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine


@dataclass(frozen=True)
class CaseSizes:
    """Radii and levels of the case.

    Attributes
    ----------
    inside, outside
        Radii about the crank.
    tops
        For each cylinder the level on which its body stands.
    half
        For each cylinder half the width of what it stands on.
    counterweight
        Radius of the counterweights.
    """

    inside: float
    outside: float
    tops: tuple[float, ...]
    half: tuple[float, ...]
    counterweight: float


def case_sizes(
    plain: PlainEngine, sizes: Sequence[CylinderSizes], between: float | None
) -> CaseSizes:
    """As small as what turns in it allows.

    Parameters
    ----------
    plain, sizes
        The engine and its cylinders.
    between
        Angle between the two bores of a V, rad; None for any other.
    """
    crank = plain.crank
    pin = 500 * crank.crankpin_diameter
    sweep = max(
        s.throw + max(pin + 1e3 * s.parts.rod.eye_wall, 500 * crank.cheek_width) for s in sizes
    )
    weight = min(s.low_skirt for s in sizes) - by.COUNTERWEIGHT_GAP
    weight = max(min(weight, 1.15 * sweep), 500 * crank.cheek_width + 1)
    inside = max(sweep, weight) + by.CASE_GAP
    outside = inside + 1e3 * plain.case.wall
    half = tuple(_half(s) for s in sizes)
    tops = tuple(_top(plain, s, inside, wide, between) for s, wide in zip(sizes, half, strict=True))
    return CaseSizes(inside, outside, tops, half, weight)


def _half(s: CylinderSizes) -> float:
    bolt = catalogued.screw(s.parts.head.fasteners.thread)
    edge = bolt_circle(s) + bolt.flats * 0.75
    body = 500 * s.parts.body.outside_diameter
    return body + 3.0 if into_body(s) else max(body, edge)


def _top(
    plain: PlainEngine, s: CylinderSizes, inside: float, half: float, between: float | None
) -> float:
    opening = 500 * s.parts.liner.outside_diameter
    arch = math.sqrt(max(inside**2 - opening**2, 0.0))
    level = max(inside + 1.0, arch + 1e3 * plain.case.wall, arch + case_flange(s))
    if between is not None:
        # two towers of a V stand clear of each other where they end
        level = max(level, half / math.tan(between / 2) + 2.0)
        if not into_body(s):
            # and so do the nuts of the bolts that end in them
            bolt = catalogued.screw(s.parts.head.fasteners.thread)
            clear = (bolt_circle(s) + 0.7 * bolt.flats) / math.tan(between / 2)
            level = max(level, clear + case_flange(s) + 1.3 * bolt.nut)
    highest = s.deck - flange_height(s) - 0.15 * (s.deck - s.liner_end)
    return min(level, highest)
