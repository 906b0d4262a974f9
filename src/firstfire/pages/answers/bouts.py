"""Bouts kept warm from one change to the next: what lets an answer come while one types."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.at import bout_at
from firstfire.runs.bout import Bout
from firstfire.runs.meanwhile import meanwhile
from firstfire.runs.together import Stop

_RPM = math.pi / 30
_AT_HAND = ("cranking", "first_fire", "idle", "full_throttle")


@dataclass
class Bouts:
    """The last settled bout of each event at hand, and those of the present sheet."""

    warm: dict[str, Bout] = field(default_factory=dict)
    settled: dict[tuple[str, str], Bout] = field(default_factory=dict)

    def first(self, plain: PlainEngine, event: str, stop: Stop) -> Bout | None:
        """A first answer from warm walls; None where only a settled one will do, or none is warm.

        Raises
        ------
        Stopped
            If ``stop`` said so.
        """
        known = self.warm.get(_like(event))
        if known is None or EVENTS[event.partition("@")[0]].how != "held":
            return None
        try:
            return meanwhile(plain, known, speed_of(plain, event), stop)
        except OutsideValidity:
            return None  # the settled one will say why

    def all_of_it(self, plain: PlainEngine, key: str, event: str, stop: Stop) -> Bout:
        """The settled bout of a sheet.

        Raises
        ------
        OutsideValidity
            Where a model doesn't hold.
        Stopped
            If ``stop`` said so.
        """
        found = self.settled.get((key, event))
        if found is None:
            found = self._run(plain, event, stop)
            while len(self.settled) >= _MOST:
                self.settled.pop(next(iter(self.settled)))
            self.settled[key, event] = self.warm[_like(event)] = found
        return found

    def _run(self, plain: PlainEngine, event: str, stop: Stop) -> Bout:
        ident, known = event.partition("@")[0], self.warm.get(_like(event))
        speed = speed_of(plain, event)
        if known is not None and EVENTS[ident].how == "held":
            try:
                return bout_at(plain, ident, speed, start=known.point.fired.cycle.state, stop=stop)
            except OutsideValidity:
                pass  # its network may have become another, which that state doesn't fit
        return bout_at(plain, ident, speed, stop=stop)


_MOST = 12
"""Settled bouts that are kept: of a trial, the present engine and what was undone."""


_UNIT = "rpm"
_SLOWEST, _FASTEST = 200, 1.5
"""Speeds that may be chosen, rpm, and over the highest that the engine is meant for."""


def _like(event: str) -> str:
    """What an event is kept warm as: all chosen speeds are one."""
    return event.partition("@")[0] + "@" + _UNIT if event.endswith(_UNIT) else event


def _chosen(plain: PlainEngine, event: str) -> bool:
    """Whether it is a speed at full throttle that somebody chose, as ``full_throttle@2750rpm``."""
    ident, _, number = event.partition("@")
    speed = number.removesuffix(_UNIT)
    if ident != "full_throttle" or speed == number or not speed.isdecimal() or len(speed) > 6:
        return False
    return _SLOWEST <= int(speed) <= _FASTEST * max(plain.use.full_throttle_speeds) / _RPM


def speed_of(plain: PlainEngine, event: str) -> float:
    """Speed of an event at hand, rad/s."""
    ident, _, number = event.partition("@")
    how = EVENTS[ident].how
    if number.endswith(_UNIT):
        return float(number.removesuffix(_UNIT)) * _RPM
    if how == "held":
        speeds = plain.use.full_throttle_speeds
        return speeds[min(int(number or 0), len(speeds) - 1)]
    return plain.use.idle_speed if how == "throttled" else plain.use.cranking_speed


def choices(plain: PlainEngine) -> list[tuple[str, str, float]]:
    """Events that can be at hand: id, words, and how long they are followed, s."""
    found = []
    for ident in _AT_HAND:
        event = EVENTS[ident]
        words = ident.replace("_", " ")
        speeds = plain.use.full_throttle_speeds if event.how == "held" else ()
        if len(speeds) > 1:
            found += [
                (f"{ident}@{number}", f"{words}, {speed / _RPM:.0f} rpm", event.horizon)
                for number, speed in enumerate(speeds)
            ]
        else:
            found.append((ident, words, event.horizon))
    return found


def fitted(plain: PlainEngine, event: str) -> str:
    """The event at hand that an engine has, nearest to the one asked for.

    A speed's number has a meaning only where there are several.
    """
    known = [ident for ident, _, _ in choices(plain)]
    if event in known or _chosen(plain, event):
        return event
    name = event.partition("@")[0]
    return next((ident for ident in known if ident.partition("@")[0] == name), known[0])
