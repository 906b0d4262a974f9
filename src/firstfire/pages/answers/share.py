"""How far a whole check is, told as one share that only rises, and how long it may still take."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

_EVENTS = 0.9
"""Share of a check that its events take, roughly; then come changes and the start."""
_TOLD_FROM = 0.08
"""Share from which an estimate of the rest is worth telling."""


@dataclass
class Share:
    """Of a check of so many events.

    Attributes
    ----------
    events
        How many are run.
    clock
        Seconds, rising.
    """

    events: int
    clock: Callable[[], float] = time.monotonic
    _done: int = 0
    _last: float = 0.0
    _most: float = 0.0
    _begun: float = field(default=0.0, init=False)

    def __post_init__(self) -> None:
        self._begun = self.clock()

    def now(self, share: float) -> float:
        """Share of the whole, from what `check` tells of each event in turn.

        Examples
        --------
        >>> share = Share(2)
        >>> [round(share.now(x), 2) for x in (0.0, 0.6, 1.0, 0.0, 0.6, 1.0, 0.97)]
        [0.0, 0.27, 0.45, 0.45, 0.72, 0.9, 0.97]
        """
        if share < self._last and self._done + 1 < self.events:
            self._done += 1
        self._last = share
        last = self._done + 1 >= self.events
        beyond = last and self._most >= _EVENTS
        found = share if beyond else _EVENTS * (self._done + share) / self.events
        self._most = max(self._most, min(found, 1.0))
        return self._most

    def left(self) -> float | None:
        """Seconds that it may still take; None as long as nothing can be said."""
        if self._most < _TOLD_FROM:
            return None
        gone = self.clock() - self._begun
        return gone / self._most - gone
