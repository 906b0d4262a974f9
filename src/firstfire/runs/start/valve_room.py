"""Whether a piston meets a valve that a cam holds open at another angle than was drawn."""

from __future__ import annotations

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.valve_gaps import piston_gap, worked


def valve_room(plain: PlainEngine, later: float = 0.0) -> float | None:
    """Least room between a valve on its cam and the piston, m; negative: they meet.

    None where valves stand beside the bore, or none is on a cam.

    Parameters
    ----------
    plain
        Plain numbers.
    later
        By how much cams have come later in a joint that slips, rad of the crank.
    """
    gaps = [
        piston_gap(plain, cylinder, made, later)
        for cylinder, parts in enumerate(plain.cylinders)
        for made in worked(parts)
    ]
    found = [one.gap for one in gaps if one is not None]
    return min(found) if found else None
