"""The rings in the bore: squeeze, gap, side clearance; which O-ring suits a measured bore."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from firstfire.catalog import Catalog
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import oring_gland
from firstfire.formulas.expansion import ring_gap_when_warm
from firstfire.setup.orings import LEAST_STRETCH, MOST_STRETCH, groove_diameter
from firstfire.setup.tubes import LEAST_SQUEEZE, MOST_SQUEEZE

FILLED = 0.75
"""Share of its groove that a ring may fill: the middle of the handbooks' 60 to 85 %."""
_MOST = 6
_WARMED = 10.0


class RingFit(NamedTuple):
    """The file's rings in a bore.

    Attributes
    ----------
    kind, number
        As the file has them.
    bore
        Least and most, m.
    stretch
        On the groove's floor; None of a split ring.
    squeeze
        In the widest and in the narrowest place; None of a split ring.
    fill
        Of the groove, in the narrowest place; None of a split ring.
    gap
        Cold gap at the ends in the narrowest and in the widest place, m; None of an O-ring.
    butts_at
        Rise of ring and bore alike at which the ends meet, K; None where they never do.
    side
        Clearance in the groove along the bore, m.
    works
        Whether squeeze or gap are within what handbooks allow.
    """

    kind: str
    number: int
    bore: tuple[float, float]
    stretch: float | None
    squeeze: tuple[float, float] | None
    fill: float | None
    gap: tuple[float, float] | None
    butts_at: float | None
    side: float
    works: bool


class Suits(NamedTuple):
    """A ring that is sold, with the groove that it wants in a bore.

    Attributes
    ----------
    key, name
        Of the catalog.
    inside, section
        Of the free ring, m.
    groove, depth, width
        Floor's diameter, depth below the skirt and width of its groove, m.
    stretch, squeeze, fill
        Then.
    as_drawn
        Squeeze in the groove that the file draws; None where it doesn't go on.
    """

    key: str
    name: str
    inside: float
    section: float
    groove: float
    depth: float
    width: float
    stretch: float
    squeeze: float
    fill: float
    as_drawn: float | None


def ring_fit(plain: PlainEngine, parts: CylinderParts, least: float, most: float) -> RingFit | None:
    """The file's rings in a bore that is so wide; None where there are none.

    Parameters
    ----------
    plain, parts
        The engine and one of its cylinders.
    least, most
        The narrowest and the widest place of the bore, m.
    """
    rings = parts.rings
    if not rings.count or rings.kind == "none":
        return None
    return (_oring if rings.kind == "o_ring" else _split)(plain, parts, (least, most))


def _oring(plain: PlainEngine, parts: CylinderParts, bore: tuple[float, float]) -> RingFit:
    del plain
    rings, floor = parts.rings, groove_diameter(parts)
    section = oring_gland.stretched_section(rings.section, rings.inside_diameter, floor)
    tight, wide = (oring_gland.squeeze(section, (across - floor) / 2) for across in bore)
    return RingFit(
        rings.kind, rings.count, bore, oring_gland.stretch(rings.inside_diameter, floor),
        (wide, tight), oring_gland.fill(section, (bore[0] - floor) / 2, rings.groove_width),
        None, None, rings.groove_width - section,
        wide >= LEAST_SQUEEZE and tight <= MOST_SQUEEZE,
    )  # fmt: skip


def _split(plain: PlainEngine, parts: CylinderParts, bore: tuple[float, float]) -> RingFit:
    """The gap is filed in the bore as drawn and widens by π times what the bore is wider."""
    rings = parts.rings
    gaps = tuple(rings.gap + math.pi * (b - parts.cylinder.bore) for b in bore)
    ring, liner = plain.materials[rings.material], plain.materials[parts.liner.material]
    cold = max(gaps[0], 0.0)
    warm = ring_gap_when_warm(
        cold, bore[0], bore_rise=_WARMED, ring_rise=_WARMED,
        bore_expansion=liner["expansion"], ring_expansion=ring["expansion"],
    )  # fmt: skip
    butts = _WARMED * cold / (cold - warm) if warm < cold else None
    return RingFit(
        rings.kind, rings.count, bore, None, None, None, (gaps[0], gaps[1]), butts,
        rings.groove_width - rings.axial_height, gaps[0] > 0,
    )  # fmt: skip


def suiting(catalog: Catalog, parts: CylinderParts, bore: float) -> tuple[Suits, ...]:
    """O-rings that are sold for a bore, with the groove each wants; the file's section first.

    Parameters
    ----------
    catalog
        Where rings stand.
    parts
        For the squeeze wanted and the skirt's clearance.
    bore
        As measured, its mean, m.
    """
    if parts.rings.kind != "o_ring" or not parts.rings.count:
        return ()
    found = _suiting(catalog, parts, bore)
    wanted = parts.rings.section
    return tuple(sorted(found, key=lambda one: (round(abs(one.section - wanted), 5),
                                                abs(one.stretch - 0.025)))[:_MOST])  # fmt: skip


def _suiting(catalog: Catalog, parts: CylinderParts, bore: float) -> Iterator[Suits]:
    rings, skirt = parts.rings, bore - parts.piston.skirt_clearance
    for row in catalog.rows("oring"):
        inside, section = row.si("inside"), row.si("section")
        try:
            groove = oring_gland.groove_diameter_for_squeeze(bore, inside, section, rings.squeeze)
            fitted = oring_gland.stretched_section(section, inside, groove)
        except OutsideValidity:
            continue
        stretch = oring_gland.stretch(inside, groove)
        if not LEAST_STRETCH <= stretch <= MOST_STRETCH:
            continue
        deep = oring_gland.gland_depth_for_squeeze(fitted, rings.squeeze)
        width = oring_gland.fill(fitted, deep, 1.0) / FILLED
        yield Suits(
            row.key, row.name, inside, section, groove, (skirt - groove) / 2, width, stretch,
            oring_gland.squeeze(fitted, deep), oring_gland.fill(fitted, deep, width),
            _as_drawn(parts, inside, section, bore),
        )  # fmt: skip


def _as_drawn(parts: CylinderParts, inside: float, section: float, bore: float) -> float | None:
    floor = groove_diameter(parts)
    try:
        fitted = oring_gland.stretched_section(section, inside, floor)
        return oring_gland.squeeze(fitted, (bore - floor) / 2)
    except OutsideValidity:
        return None
