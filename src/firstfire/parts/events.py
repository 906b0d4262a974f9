"""What goes on in each event, so that a part is judged only where something can break it."""

from __future__ import annotations

from collections.abc import Mapping

from firstfire.engine.events import EVENTS

GAS = frozenset({"gas"})
"""Pressure acts on the piston and the head."""
TURNING = frozenset({"turning"})
"""The shaft turns fast enough for inertia and torque to matter."""
WARM = frozenset({"warm"})
"""Fire has warmed the walls."""
STARTED = frozenset({"started"})
"""Something outside turns the crank."""
REST = frozenset({"rest"})
"""The engine has stood since it was put together, cold or after a run."""
TIGHTENING = frozenset({"tightening"})
"""Screws are being done up."""
CLIMBING = frozenset({"climbing"})
"""A first combustion is lit before its top."""
BACKFIRE = frozenset({"backfire"})
"""Something burns where it should not: intake, exhaust, crankcase."""

GOING_ON: Mapping[str, frozenset[str]] = {ident: event.going_on for ident, event in EVENTS.items()}
"""By event id."""


def going_on(event: str) -> frozenset[str]:
    """What goes on in an event; of an event not listed here, everything a run has.

    Examples
    --------
    >>> sorted(going_on("first_fire"))
    ['gas', 'turning']
    """
    return GOING_ON.get(event, GAS | TURNING | WARM)
