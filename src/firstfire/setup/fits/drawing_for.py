"""What to draw for this printer, by how far its holes and outsides come out."""

from __future__ import annotations

from firstfire.engine.resolve import PlainEngine
from firstfire.setup.fits.seat import Drawn
from firstfire.setup.jobs_cylinder import REACH_OF_HOLE_ERROR
from firstfire.setup.words import mm


def hole_for(plain: PlainEngine, wanted: float) -> float:
    """Diameter to draw a hole with so that it comes out as wanted, m."""
    return wanted - plain.printing.hole_error


def shaft_for(plain: PlainEngine, wanted: float) -> float:
    """Diameter to draw an outside with so that it comes out as wanted, m."""
    return wanted - plain.printing.shaft_error


def drawn(
    plain: PlainEngine, *, hole: float | None = None, shaft: float | None = None, ream: float = 0.0
) -> Drawn:
    """What to draw of a seat.

    Parameters
    ----------
    plain
        Its printer's errors.
    hole, shaft
        What is wanted of the side that is printed, m; None where it is not.
    ream
        What is left in the hole for a reamer or drill, m.
    """
    said = []
    low, high = REACH_OF_HOLE_ERROR
    if hole is not None and not low <= hole <= high:
        said.append(
            f"the printer's error is for holes of {1e3 * low:.0f} to {mm(high)}: print a ring of "
            "it first"
        )
    if ream:
        said.append(f"{mm(ream)} are left for the reamer")
    return Drawn(
        None if hole is None else hole_for(plain, hole - ream),
        None if shaft is None else shaft_for(plain, shaft),
        "; ".join(said),
    )
