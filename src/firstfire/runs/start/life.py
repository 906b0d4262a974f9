"""The engine's life in time: a shaft turned by its starter, sparked as its controller does."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from firstfire.errors import Stopped
from firstfire.runs.spun import Spun
from firstfire.runs.start.asked import Lived
from firstfire.runs.start.firing import Firing
from firstfire.runs.start.marks import marks_after, marks_before

_LONGEST = 0.05
"""Between two looks at what the shaft does, s."""
_AFTER_KICK = 0.25
"""For how long a shaft that was thrown back is followed, s."""
_AT = 1e-6
"""An angle that is so near is reached, rad."""


class Life(Firing):
    """One engine being started.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How.
    shaft
        What turns it, with what is wrong with that; None: the starter's own line, and what is wrong
        with it.
    wet
        Fuel that a try before left in cylinders and ports.
    """

    def lived(self, stop: Callable[[], bool] | None = None) -> Lived:
        """Go through all of it.

        Raises
        ------
        Stopped
            If `stop` said so.
        FirstfireError
            If no step is small enough.
        """
        while not self._over():
            self.step()
            self.checked(stop)
        return self.told()

    def checked(self, stop: Callable[[], bool] | None) -> None:
        """Raise `Stopped` if `stop` says so."""
        if stop is not None and stop():
            raise Stopped("The start was stopped.")

    def told(self) -> Lived:
        """What has happened so far."""
        spun = Spun.of(np.concatenate(self.seen))
        at, angle = self.reversed or (None, None)
        return Lived(
            self.asked, spun, tuple(self.sparks), self.let_go, at, angle, self.mishaps.slipped,
            tuple(self.fed), () if self.fuelling is None else self.fuelling.left,
            self.letting_off.let_go_at,
        )  # fmt: skip

    def step(self, until_angle: float = math.inf) -> None:
        """On to what comes next: a mark, a spark, a burn, an angle; or a twentieth of a second."""
        place = self.angle, self.phases, self.sparked_at, self.timing
        marks = (
            marks_after(*place, self.letting_off.shuts) if self.way > 0 else marks_before(*place)
        )
        due = min(self.waiting, key=lambda one: one.seconds, default=None)
        until = self.now + _LONGEST
        if due is not None:
            until = min(until, due.seconds)
        until = min(until, self.mishaps.next_stray)
        before, let_off = len(self.seen), self.letting_off.let_off(self.angle, self.phases)
        if self.way > 0:
            self._go(until, min(marks[0].angle, until_angle, self.stood.until))
        else:
            self._go(min(until, self.now + self._back_to(marks[0].angle)), math.inf)
        rows = np.concatenate(self.seen[before:])
        self.stalled.feel(rows[:, 2], let_off=let_off)
        self._suffer(rows)
        self._watch()
        if due is not None and self.now >= due.seconds - 1e-12:
            self.waiting.remove(due)
            self._come(due)
        if self.now >= self.mishaps.next_stray - 1e-12:
            self._stray()
        if self.way * (self.angle - marks[0].angle) > -_AT:
            for mark in marks:
                self._meet(mark)

    def _over(self) -> bool:
        if self.fed and self.fed[-1].stopped:
            return True
        if self.reversed is not None and self.now >= self.reversed[0] + _AFTER_KICK:
            return True
        return self.let_go is not None and self.now >= self.let_go + self.asked.after
