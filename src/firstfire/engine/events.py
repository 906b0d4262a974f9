"""The events of an engine's life, each one record: what goes on, how it is run, what it is called.

An event that is run as another is costs a record here. One that is run in a way of its own costs
that way too, in `firstfire.runs.at`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

How = Literal["turned", "fired once", "climbs", "held", "throttled", "let go"]
"""How an event is run: turned by the starter without fuel; one combustion from cranking; that
followed up to its top; held at a speed; held there by its throttle; let go with nothing to drive
until it gains no more."""

Peak = Literal["mean", "strong", "strongest so far"]
"""Which cycle an event is judged by: its mean, its 1-in-20, or the strongest of all so far."""

_TURNED = frozenset({"gas", "turning", "started"})
_FIRED = frozenset({"gas", "turning"})
_RUNNING = frozenset({"gas", "turning", "warm"})
_LIT_BEFORE_TOP = frozenset({"climbing"})
_BACKFIRE = frozenset({"backfire"})


@dataclass(frozen=True)
class Words:
    """What an event is called where it is told.

    Attributes
    ----------
    during
        When something gives way in it: *it slips at a strong first combustion*.
    first
        The same of its first second, by which it is judged.
    survived
        What an engine has survived that is past that.
    brief, mark
        A column's head, and its shortest form.
    lasting
        How a sentence begins that says how long it lasts; "" where nobody waits for that.
    """

    during: str
    first: str
    survived: str
    brief: str
    mark: str
    lasting: str = ""


@dataclass(frozen=True)
class Event:
    """One event.

    Attributes
    ----------
    id
        Fixed for good.
    what
        What happens, in a few words.
    going_on
        What has to go on for a way to fail to matter (see `firstfire.parts.events`).
    how
        How it is run; None where this version computes nothing of it.
    words
        What it is called; None where nothing is told of it.
    peak
        Which cycle it is judged by.
    judged_at
        When its margins are judged, s: a run's in its first second, since later limits follow the
        clock and stand in the run times.
    horizon
        How long it is followed, s; 0 where nothing warms.
    clocked
        Whether it is held until heat ends it or its horizon is reached.
    after
        Event it is run after, since it starts from that; "" where it starts from nothing.
    in_the_odds
        Whether it belongs to the life that the odds are of: not what only a run-away brings.
    """

    id: str
    what: str
    going_on: frozenset[str]
    how: How | None = None
    words: Words | None = None
    peak: Peak = "strongest so far"
    judged_at: float = 1.0
    horizon: float = 0.0
    clocked: bool = False
    after: str = ""
    in_the_odds: bool = True

    @property
    def computed(self) -> bool:
        """Whether this version computes it."""
        return self.how is not None

    @property
    def once(self) -> bool:
        """Whether it is one combustion of an engine as its starter turns it."""
        return self.how in ("fired once", "climbs")


_ALL = (
    Event("hand_turn", "turned by hand", frozenset({"turning", "started"})),
    Event("hand_liquid", "turned by hand with liquid on the piston", _FIRED),
    Event("starter_liquid", "the starter into a flooded cylinder", _TURNED),
    Event("jam", "the starter into a stuck shaft", frozenset({"turning", "started"})),
    Event(
        "cranking", "turned by the starter, no fuel", _TURNED, "turned",
        Words("while it is cranked", "while it is cranked", "being cranked", "cranked", "crank"),
        peak="mean", judged_at=10.0, horizon=10.0,
    ),
    Event(
        "first_fire", "one combustion from cranking", _FIRED, "fired once",
        Words("at a strong first combustion", "at a strong first combustion",
              "its first combustions", "first fire", "first"),
        peak="strong", judged_at=0.0,
    ),
    # what that combustion does to parts is the first fire's
    Event(
        "kick_back", "a first combustion that reverses the shaft", _LIT_BEFORE_TOP, "climbs",
        Words("by a strong first combustion", "by a strong first combustion",
              "its first combustions", "kick-back", "kick"),
        peak="strong", judged_at=0.0,
    ),
    Event(
        "idle", "lowest steady speed", _RUNNING, "throttled",
        Words("at idle", "within the first second of idling", "its first second of idling", "idle",
              "idle", "Idling"),
        horizon=600.0, clocked=True, after="full_throttle",
    ),
    Event(
        "full_throttle", "throttle open at the chosen speeds", _RUNNING, "held",
        Words("at full throttle", "within the first second of full throttle",
              "its first second at full throttle", "full", "full",
              "Held at full throttle"),
        horizon=600.0, clocked=True,
    ),
    Event("run_10_rest_60", "ten seconds on, a minute off", _RUNNING),
    # of a warm engine: its parts are as weak as they are warm, but what heat itself ends belongs
    # to the clock of full throttle
    Event(
        "free_rev", "throttle open, no load", _FIRED, "let go",
        Words("when it revs freely", "when it revs freely", "revving freely", "free", "free"),
        judged_at=3.0, horizon=3.0, after="full_throttle", in_the_odds=False,
    ),
    Event("knock", "a knocking cycle at full throttle", _RUNNING),
    Event("surface_ignition", "lit early by something glowing", _RUNNING),
    Event("spit_back", "the intake charge lights", _BACKFIRE),
    Event("after_fire", "the exhaust lights", _BACKFIRE),
    Event("case_fire", "crankcase vapour lights", _BACKFIRE),
    # a question of room between valve and piston, not of strength
    Event("tooth_off", "cam drive one and two teeth out", frozenset()),
    Event("overtighten", "assembly at 1.5 times the torque", frozenset({"tightening"}),
        words=Words("when its screws are done up half as hard again",
                    "when its screws are done up half as hard again", "its assembly",
                    "overtighten", "tight")),
    Event("night", "twelve hours' rest", frozenset({"rest"}),
        words=Words("after a night's rest", "after a night's rest", "a night's rest", "night",
                    "night")),
    Event("restart_20", "twenty starts of 10 s", _RUNNING),
)  # fmt: skip

_BY_ID = {event.id: event for event in _ALL}
EVENTS = MappingProxyType(_BY_ID)
"""Every event by its id, in the order of an engine's life."""

LIFE = tuple(event.id for event in _ALL if event.computed)
"""Ids of those that this version computes, in that order."""

CLOCKED = tuple(event.id for event in _ALL if event.clocked)
"""Ids of those held until heat ends them."""


def running_order(ids: Sequence[str]) -> list[str]:
    """Events in the order in which they are run: what starts from another after it.

    Examples
    --------
    >>> running_order(("idle", "full_throttle"))
    ['full_throttle', 'idle']
    """
    return sorted(ids, key=lambda ident: bool(EVENTS[ident].after))


def called(event: str) -> Words:
    """What an event is called; of one that nothing is told of, its id in plain words."""
    known = EVENTS[event].words if event in EVENTS else None
    plain = event.replace("_", " ")
    return known or Words(f"in the event {plain}", f"in the event {plain}", plain, plain, plain[:5])


def during(event: str) -> str:
    """When something gives way in an event.

    Examples
    --------
    >>> during("first_fire"), during("night")
    ('at a strong first combustion', "after a night's rest")
    """
    return called(event).during


def first_second(event: str) -> str:
    """The same of the event's first second, by which it is judged.

    Examples
    --------
    >>> first_second("idle")
    'within the first second of idling'
    """
    return called(event).first
