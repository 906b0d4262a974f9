"""The degree wheel's answers from one turn to the next: clearances at once, the cycle behind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.pages.answers.bouts import Bouts, fitted
from firstfire.pages.answers.messages import Asked
from firstfire.pages.answers.turned import (
    RUN,
    Row,
    kicking,
    not_kicked,
    not_run,
    running,
    still,
    table,
    wheel,
)
from firstfire.runs.together import Stop

_MOST = 40
Rows = dict[str, Row]


@dataclass
class Turning:
    """What is known of the sheets that were turned, by key.

    Attributes
    ----------
    known
        Rows of the last sheets.
    shown
        Those that a page shows.
    """

    known: dict[str, Rows] = field(default_factory=dict)
    shown: Rows = field(default_factory=dict)
    _present: PlainEngine | None = None
    _events: dict[str, str] = field(default_factory=dict)

    def at_once(self, asked: Asked, plain: PlainEngine, present: PlainEngine) -> dict[str, Any]:
        """The wheel, and what follows from geometry; the cycle as it was before."""
        self._present = present
        for key, one in ((asked.key, plain), (asked.present, present)):
            if key not in self.known:
                while len(self.known) >= _MOST:
                    self.known.pop(next(iter(self.known)))
                self.known[key] = still(one)
        return {"wheel": wheel(plain, present), "turned": self._table(asked)}

    def behind(
        self, asked: Asked, plain: PlainEngine, bouts: Bouts, stop: Stop
    ) -> Iterator[dict[str, Any]]:
        """The table again with the cycle in it, then with kick-back; the present engine's last.

        Raises
        ------
        Stopped
            If ``stop`` said so.
        """
        yield from self._cycle(asked, asked.key, plain, bouts, stop)
        if asked.present != asked.key and self._present is not None:
            yield from self._cycle(asked, asked.present, self._present, bouts, stop)

    def _cycle(
        self, asked: Asked, key: str, plain: PlainEngine, bouts: Bouts, stop: Stop
    ) -> Iterator[dict[str, Any]]:
        event = asked.event if asked.event.startswith("full") else fitted(plain, "full_throttle")
        rows = self.known[key]

        def run() -> Rows:
            return running(bouts.all_of_it(plain, key, event, stop))

        if "torque" not in rows or self._events.get(key) != event:
            rows |= _or_else(run, not_run)
            self._events[key] = event
            yield {"turned": self._table(asked)}
        if "kick" not in rows:
            rows |= _or_else(lambda: kicking(plain, stop), not_kicked)
            yield {"turned": self._table(asked)}

    def _table(self, asked: Asked) -> str:
        now = self.known[asked.key]
        before = {ident: row for ident, row in self.shown.items() if ident in RUN}
        old = tuple(ident for ident in before if ident not in now)
        self.shown = {**before, **now}
        beside = self.known[asked.present] if asked.present != asked.key else None
        return table(self.shown, beside, old)


def _or_else(found: Callable[[], Rows], why_not: Callable[[str], Rows]) -> Rows:
    """Rows, or rows that say why there are none."""
    try:
        return found()
    except OutsideValidity as why:
        return why_not(str(why))
