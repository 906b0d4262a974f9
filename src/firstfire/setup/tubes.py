"""Which tube of the catalog a liner may be cut from, and what its bore must be."""

from __future__ import annotations

from firstfire.catalog import Catalog, Row
from firstfire.engine.description import CylinderParts
from firstfire.setup.words import percent

BORE_OVER = 0.6e-3
"""How much larger than the bore a tube may be: as an engine file is refused beyond."""

OUTSIDE_APART = 0.3e-3
"""How far a tube's outside may be from what the file says, m: what a print's hole can follow."""

LEAST_SQUEEZE, MOST_SQUEEZE = 0.05, 0.18
"""Squeeze of a running O-ring that seal handbooks allow at a section of 2.62 mm."""


def tube_for(rows: Catalog, parts: CylinderParts) -> Row | None:
    """The tube a liner is cut from: as the file names it, else the nearest that fits; or None."""
    if parts.liner.tube is not None:
        return rows.row("tube", parts.liner.tube)
    fits = [
        row
        for row in rows.rows("tube")
        if row.texts.get("material") == parts.liner.material
        and abs(row.si("outside") - parts.liner.outside_diameter) <= OUTSIDE_APART
        and abs(row.si("bore") - parts.cylinder.bore) <= BORE_OVER
    ]
    return min(
        fits,
        key=lambda row: (
            abs(row.si("outside") - parts.liner.outside_diameter)
            + abs(row.si("bore") - parts.cylinder.bore)
        ),
        default=None,
    )


def bore_limits(parts: CylinderParts) -> tuple[float, float, str]:
    """Least and greatest bore that the piston as drawn may have, m, and why.

    An O-ring's squeeze changes by half of what the bore does; it may be 5 to 18 %. Other rings
    follow the bore: there the skirt may lose a third of its clearance, and gain as much.
    """
    bore, rings = parts.cylinder.bore, parts.rings
    third = parts.piston.skirt_clearance / 3
    if rings.kind == "o_ring" and rings.count:
        gland = rings.groove_depth + parts.piston.skirt_clearance / 2
        squeeze = 1 - gland / rings.section
        wider = 2 * rings.section * max(squeeze - LEAST_SQUEEZE, 0.0)
        tighter = 2 * rings.section * max(MOST_SQUEEZE - squeeze, 0.0)
        why = (
            f"the O-ring is squeezed {percent(squeeze)} at the bore asked for and may be 5 to 18 % "
            "(seal handbooks)"
        )
        if third < tighter:
            why += "; below, the skirt loses more than a third of its clearance"
        return bore - min(tighter, third), bore + wider, why
    why = "the skirt then keeps its clearance within a third (common practice, no source)"
    return bore - third, bore + third, why
