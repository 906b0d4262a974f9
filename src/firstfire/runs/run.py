"""Running one event: its bouts, resumable, stoppable, with progress."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from firstfire.cycle.assembly import network
from firstfire.cycle.layout import State
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import FirstfireError
from firstfire.runs.bout import Bout, first_fired, held, speed_before_top, turned
from firstfire.runs.events import EVENTS
from firstfire.runs.point import OperatingPoint, spark_angle
from firstfire.runs.spread import Spread, Trials, spread

Progress = Callable[[str, float], None]
_RPM = math.pi / 30
_HORIZON = 600.0

#: When the margins of an event are judged, s: its first second; a run's later limits follow the
#: clock and stand in the run times.
JUDGED_AT = {"cranking": 10.0, "first_fire": 0.0, "full_throttle": 1.0}


@dataclass(frozen=True)
class EventResult:
    """What one event came to.

    Attributes
    ----------
    event
        Its id.
    engine
        Plain numbers it was run for.
    bouts
        Each operating point with its walls.
    spreads
        For each bout the slopes of its ways to fail; empty where they weren't asked for.
    """

    event: str
    engine: PlainEngine
    bouts: tuple[Bout, ...]
    spreads: tuple[Spread, ...] = ()

    @property
    def points(self) -> tuple[OperatingPoint, ...]:
        """The operating points."""
        return tuple(bout.point for bout in self.bouts)


def events(engine: Engine) -> tuple[str, ...]:
    """Ids of the events that this version computes for `engine`, in the order they happen."""
    computed = [event.id for event in EVENTS.values() if event.computed]
    return tuple(computed) if engine.cylinders else ()


def run(
    engine: Engine,
    event: str,
    start_from: EventResult | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
    *,
    speeds: Sequence[float] | None = None,
    trials: Trials | None = None,
) -> EventResult:
    """Run one event of an engine.

    Parameters
    ----------
    engine
        As written down.
    event
        Id of the event.
    start_from
        An earlier result of a like engine: its states are started from.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.
    on_progress
        Told what is being run and the share done, 0 to 1.
    speeds
        rad/s, instead of those the file names.
    trials
        The engine's uncertain inputs, made once for several events; None leaves the spread out
        of nothing: it is made here.

    Raises
    ------
    FirstfireError
        For an unknown event or one this version doesn't compute.
    OutsideValidity
        Where a model doesn't hold.
    Stopped
        If ``stop`` said so.
    """
    _known(event)
    trials = trials or Trials(engine)
    plain = trials.centre
    asked = _asked(plain, event, speeds)
    bouts: list[Bout] = []
    for number, speed in enumerate(asked):
        name = f"{event.replace('_', ' ')} {speed / _RPM:.0f} rpm"
        if on_progress is not None:
            on_progress(name, number / (len(asked) + 1))
        bouts.append(_bout(plain, event, name, speed, bouts, start_from, stop))
    if on_progress is not None:
        on_progress(f"spread of {event.replace('_', ' ')}", len(asked) / (len(asked) + 1))
    spreads = _spreads(trials, bouts, stop)
    if on_progress is not None:
        on_progress("", 1.0)
    return EventResult(event, plain, tuple(bouts), spreads)


def _known(event: str) -> None:
    if event not in EVENTS:
        raise FirstfireError(f'There is no event "{event}". Events are: {", ".join(EVENTS)}.')
    if not EVENTS[event].computed:
        computed = ", ".join(e.id for e in EVENTS.values() if e.computed)
        raise FirstfireError(f'"{event}" is not computed in this version; {computed} are.')


def _asked(plain: PlainEngine, event: str, speeds: Sequence[float] | None) -> tuple[float, ...]:
    if event == "full_throttle":
        return tuple(speeds or plain.use.full_throttle_speeds)
    return (plain.use.cranking_speed,)


def _spreads(
    trials: Trials, bouts: Sequence[Bout], stop: Callable[[], bool] | None
) -> tuple[Spread, ...]:
    """Slopes of each bout; the gas's part is run once, at the point with the highest peak."""
    strongest = max(range(len(bouts)), key=lambda n: max(p.rare for p in bouts[n].point.peaks))
    at = JUDGED_AT.get(bouts[0].point.event, 1.0)
    first, ratios = spread(trials, bouts[strongest], at, stop=stop)
    return tuple(
        first if n == strongest else spread(trials, bout, at, like=ratios, stop=stop)[0]
        for n, bout in enumerate(bouts)
    )


def _bout(
    plain: PlainEngine,
    event: str,
    name: str,
    speed: float,
    before: Sequence[Bout],
    start_from: EventResult | None,
    stop: Callable[[], bool] | None,
) -> Bout:
    """One bout, its gas started from the nearest point that is known."""
    start = _nearest(plain, event, speed, [*before, *(start_from.bouts if start_from else ())])
    if event == "cranking":
        return turned(plain, name, speed, start=start, stop=stop)
    if event == "first_fire":
        cranked = turned(plain, name, speed, stop=stop)
        left = speed_before_top(plain, cranked.point)
        named = f"first fire at {left / _RPM:.0f} rpm before top"
        spark = spark_angle(plain, left, starting=True)
        return first_fired(plain, named, left, spark, stop=stop)
    spark = spark_angle(plain, speed, starting=False)
    return held(plain, event, name, speed, spark, _HORIZON, start=start, stop=stop)


def _nearest(plain: PlainEngine, event: str, speed: float, known: Sequence[Bout]) -> State | None:
    fit = [b.point for b in known if b.point.event == event and _fits(b.point, plain)]
    nearest = min(fit, key=lambda p: abs(p.speed - speed), default=None)
    return nearest.fired.cycle.state if nearest else None


def _fits(point: OperatingPoint, plain: PlainEngine) -> bool:
    """Whether a point's state can start this engine: its network is the same."""
    if len(point.walls) != len(plain.cylinders):
        return False
    spec, old = network(plain, point.walls, [None] * len(point.walls)), point.fired.spec
    return [v.name for v in spec.volumes] == [v.name for v in old.volumes] and [
        p.name for p in spec.passages
    ] == [p.name for p in old.passages]
