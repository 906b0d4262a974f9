"""Which O-rings that are sold suit the groove a file draws."""

from __future__ import annotations

from firstfire.catalog import Catalog, FittingRing
from firstfire.engine.description import CylinderParts

SECTION_APART = 0.05e-3
LEAST_STRETCH, MOST_STRETCH = 0.0, 0.05
"""Stretch of a ring on its groove, 0 to 5 %: seal handbooks."""


def groove_diameter(parts: CylinderParts) -> float:
    """Diameter of the groove's floor, m."""
    return parts.cylinder.bore - parts.piston.skirt_clearance - 2 * parts.rings.groove_depth


def nearest_rings(rows: Catalog, parts: CylinderParts, most: int = 2) -> tuple[FittingRing, ...]:
    """Rings of the section drawn that sit on its groove with 0 to 5 % of stretch.

    Those nearest to 2.5 % come first.
    """
    groove = groove_diameter(parts)
    fits = [
        FittingRing(row, groove / row.si("inside") - 1)
        for row in rows.rows("oring")
        if abs(row.si("section") - parts.rings.section) <= SECTION_APART
    ]
    good = [ring for ring in fits if LEAST_STRETCH <= ring.stretch <= MOST_STRETCH]
    return tuple(sorted(good, key=lambda ring: abs(ring.stretch - 0.025))[:most])
