"""What goes on in each event, so that a part is judged only where something can break it."""

from __future__ import annotations

from collections.abc import Mapping

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
BACKFIRE = frozenset({"backfire"})
"""Something burns where it should not: intake, exhaust, crankcase."""
ANY = GAS | TURNING | STARTED | WARM | REST | TIGHTENING | BACKFIRE

_RUNNING = GAS | TURNING | WARM

GOING_ON: Mapping[str, frozenset[str]] = {
    "hand_turn": TURNING | STARTED,
    "hand_liquid": GAS | TURNING,
    "starter_liquid": GAS | TURNING | STARTED,
    "jam": TURNING | STARTED,
    "cranking": GAS | TURNING | STARTED,
    "first_fire": GAS | TURNING,
    "kick_back": GAS | TURNING,
    "idle": _RUNNING,
    "full_throttle": _RUNNING,
    "run_10_rest_60": _RUNNING,
    "free_rev": GAS | TURNING,
    "knock": _RUNNING,
    "surface_ignition": _RUNNING,
    "spit_back": BACKFIRE,
    "after_fire": BACKFIRE,
    "case_fire": BACKFIRE,
    "tooth_off": frozenset(),
    "overtighten": TIGHTENING,
    "night": REST,
    "restart_20": _RUNNING,
}
"""By event id. ``tooth_off`` is a question of room between valve and piston, not of strength. A
free rev is of a warm engine, whose parts are as weak as they are warm; what heat itself ends
belongs to the clock of full throttle."""


def going_on(event: str) -> frozenset[str]:
    """What goes on in an event; of an event not listed here, everything a run has.

    Examples
    --------
    >>> sorted(going_on("first_fire"))
    ['gas', 'turning']
    """
    return GOING_ON.get(event, _RUNNING)
