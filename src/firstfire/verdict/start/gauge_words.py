"""What a compression gauge shows while an engine is cranked, and what less of it tells."""

from __future__ import annotations

from firstfire.runs.cranking import Cranked
from firstfire.verdict.start.words import bar, rpm

BRACED = "Gauge screwed in, not held; drill braced; nothing to burn near."


def crank_with_gauge(turned: Cranked) -> str:
    """What to do, and at which speed it is reckoned."""
    return f"Crank it with a compression gauge for plug, throttle open, at {rpm(turned.mean_speed)}"


def where_it_leaks(turned: Cranked) -> str:
    """What oil on the rings tells, and where to listen where it tells nothing."""
    return (
        f"Less: a spoonful of oil on the piston. Near {bar(turned.gauge_oiled)} with it, the rings "
        "leak; no better, listen at carburettor (inlet seat), exhaust (its seat), breather (rings),"
        " and put soap water on gasket and plug."
    )
