"""What a check found, as a plain record that all its wordings are written from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import Geometry
from firstfire.engine.records import Raise, Way
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.brought_over import TurnOver
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import EventResult
from firstfire.runs.start.brief import Brief
from firstfire.verdict.facts.cautions import Caution
from firstfire.verdict.facts.judge import Opened, read_in
from firstfire.verdict.facts.lasting import Lasting
from firstfire.verdict.facts.margin import Margin, RunTime, Verdict
from firstfire.verdict.facts.narrows import Narrows


@dataclass(frozen=True)
class Unjudged:
    """Something a person will ask that isn't answered (`subject`), and the reason (`why`)."""

    subject: str
    why: str


@dataclass(frozen=True)
class Found:
    """What a check found.

    Attributes
    ----------
    engine
        The engine as written down.
    plain
        The plain engine it was computed from.
    geometry
        What follows by arithmetic.
    events
        Results of the events that were run, in order.
    margins
        Every way to fail, worst first.
    run_times
        Every limit that heat brings while an idle or full throttle is held, soonest first.
    verdict
        What decides.
    unjudged
        What isn't answered, and why.
    cautions
        What to mind.
    version
        Of firstfire.
    sentence
        The verdict in words.
    starting
        What the starter makes of it; None where cranking wasn't run.
    helped
        Changes that were tried and bring it over its top; empty where it comes over.
    begins
        Which sparks throw it back, and from which speed it keeps going; None where not asked.
    lasting
        For an idle and for full throttle, the chance that nothing has given way by each second.
    narrows
        The reading that narrows the verdict most; None where none would, or it was not asked.
    """

    engine: Engine = field(repr=False)
    plain: PlainEngine = field(repr=False)
    geometry: Geometry
    events: tuple[EventResult, ...] = field(repr=False)
    margins: tuple[Margin, ...] = field(repr=False)
    run_times: tuple[RunTime, ...] = field(repr=False)
    verdict: Verdict
    unjudged: tuple[Unjudged, ...]
    cautions: tuple[Caution, ...]
    version: str
    sentence: str = ""
    starting: TurnOver | None = field(default=None, repr=False)
    helped: tuple[Raise, ...] = field(default=(), repr=False)
    begins: Brief | None = None
    lasting: tuple[Lasting, ...] = ()
    narrows: Narrows | None = None

    @property
    def points(self) -> tuple[OperatingPoint, ...]:
        """Operating points, in the order they were run."""
        return tuple(point for event in self.events for point in event.points)

    @property
    def kick(self) -> Margin | None:
        """The worst margin to a first combustion that throws it back; None where it was not run."""
        return next((margin for margin in self.margins if margin.event == "kick_back"), None)

    def read(self, margin: Margin) -> tuple[str, ...]:
        """Paths of the engine file that the way of one of its margins reads in its event."""
        return self._read.get((margin.event, margin.way.id), ())

    @cached_property
    def _read(self) -> Mapping[tuple[str, str], tuple[str, ...]]:
        return read_in(self.events)

    def opened(self, margin: Margin) -> Way:
        """The way of one of its margins with the numbers put in and the working."""
        return self._opened.way(margin)

    @cached_property
    def _opened(self) -> Opened:
        return Opened(self.events)
