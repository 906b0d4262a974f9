"""The events of an engine's life: fixed ids, what each is, and over how long it is judged."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True)
class Event:
    """One event.

    Attributes
    ----------
    id
        Fixed for good.
    what
        What happens, in a few words.
    computed
        Whether this version computes it.
    """

    id: str
    what: str
    computed: bool


EVENTS = MappingProxyType(
    {
        event.id: event
        for event in (
            Event("hand_turn", "turned by hand", computed=False),
            Event("hand_liquid", "turned by hand with liquid on the piston", computed=False),
            Event("starter_liquid", "the starter into a flooded cylinder", computed=False),
            Event("jam", "the starter into a stuck shaft", computed=False),
            Event("cranking", "turned by the starter, no fuel", computed=True),
            Event("first_fire", "one combustion from cranking", computed=True),
            Event("kick_back", "a first combustion that reverses the shaft", computed=False),
            Event("idle", "lowest steady speed", computed=True),
            Event("full_throttle", "throttle open at the chosen speeds", computed=True),
            Event("run_10_rest_60", "ten seconds on, a minute off", computed=False),
            Event("free_rev", "throttle open, no load", computed=True),
            Event("knock", "a knocking cycle at full throttle", computed=False),
            Event("surface_ignition", "lit early by something glowing", computed=False),
            Event("spit_back", "the intake charge lights", computed=False),
            Event("after_fire", "the exhaust lights", computed=False),
            Event("case_fire", "crankcase vapour lights", computed=False),
            Event("tooth_off", "cam drive one and two teeth out", computed=False),
            Event("overtighten", "assembly at 1.5 times the torque", computed=False),
            Event("night", "twelve hours' rest", computed=False),
            Event("restart_20", "twenty starts of 10 s", computed=False),
        )
    }
)

HORIZON = {"full_throttle": 600.0, "idle": 600.0, "free_rev": 3.0}
"""How long an event of running is followed, s."""

JUDGED_AT = {
    "cranking": 10.0,
    "first_fire": 0.0,
    "idle": 1.0,
    "full_throttle": 1.0,
    "free_rev": 3.0,
}
"""When the margins of an event are judged, s: its first second; a run's later limits follow the
clock and stand in the run times."""

CLOCKED = ("idle", "full_throttle")
"""Events that are held until heat ends them or their horizon is reached."""
