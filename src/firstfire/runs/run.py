"""Running one event: its operating points, resumable, stoppable, with progress."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from firstfire.cycle.assembly import network
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import FirstfireError
from firstfire.runs.events import EVENTS
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.walls import assumed_warm, cold

Progress = Callable[[str, float], None]
_RPM = math.pi / 30


@dataclass(frozen=True)
class EventResult:
    """What one event came to.

    Attributes
    ----------
    event
        Its id.
    inputs_sha256
        Of the plain engine it was run for.
    points
        Its operating points.
    """

    event: str
    inputs_sha256: str
    points: tuple[OperatingPoint, ...]


def events(engine: Engine) -> tuple[str, ...]:
    """Ids of the events that this version computes for `engine`, in the order they happen.

    Examples
    --------
    ``ff.events(engine)`` gives ``("cranking", "full_throttle")``.
    """
    plain = resolve(engine)
    found = [event.id for event in EVENTS.values() if event.computed]
    return tuple(found) if plain.cylinders else ()


def run(
    engine: Engine,
    event: str,
    start_from: EventResult | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
    *,
    speeds: Sequence[float] | None = None,
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

    Raises
    ------
    FirstfireError
        For an unknown event or one this version doesn't compute.
    OutsideValidity
        Where a model doesn't hold.
    Stopped
        If ``stop`` said so.
    """
    if event not in EVENTS:
        raise FirstfireError(f'There is no event "{event}". Events are: {", ".join(EVENTS)}.')
    if not EVENTS[event].computed:
        computed = ", ".join(e.id for e in EVENTS.values() if e.computed)
        raise FirstfireError(f'"{event}" is not computed in this version; {computed} are.')
    plain = resolve(engine)
    asked = _asked(plain, event, speeds)
    points: list[OperatingPoint] = []
    for number, speed in enumerate(asked):
        name = f"{event.replace('_', ' ')} {speed / _RPM:.0f} rpm"
        if on_progress is not None:
            on_progress(name, number / len(asked))
        points.append(_point(plain, event, name, speed, points, start_from, stop))
    if on_progress is not None:
        on_progress("", 1.0)
    return EventResult(event, plain.sha256, tuple(points))


def _asked(plain: PlainEngine, event: str, speeds: Sequence[float] | None) -> tuple[float, ...]:
    if speeds is not None:
        return tuple(speeds)
    if event == "cranking":
        return (plain.use.cranking_speed,)
    return tuple(plain.use.full_throttle_speeds)


def _point(
    plain: PlainEngine,
    event: str,
    name: str,
    speed: float,
    before: Sequence[OperatingPoint],
    start_from: EventResult | None,
    stop: Callable[[], bool] | None,
) -> OperatingPoint:
    """One point, started from the nearest that is known."""
    known = [*before, *(start_from.points if start_from else ())]
    known = [p for p in known if _fits(p, plain, fired=event != "cranking")]
    nearest = min(known, key=lambda p: abs(p.speed - speed), default=None)
    start = nearest.fired.cycle.state if nearest else None
    unfired = event == "cranking"
    walls = cold(plain) if unfired else assumed_warm(plain)
    spark = None if unfired else spark_angle(plain, speed, starting=False)
    return operating_point(plain, event, name, speed, walls, spark, start=start, stop=stop)


def _fits(point: OperatingPoint, plain: PlainEngine, *, fired: bool) -> bool:
    """Whether a point's state can start this engine: both fired or not, and the same network."""
    if (point.spark is not None) is not fired or len(point.walls) != len(plain.cylinders):
        return False
    spec, old = network(plain, point.walls, [None] * len(point.walls)), point.fired.spec
    return [v.name for v in spec.volumes] == [v.name for v in old.volumes] and [
        p.name for p in spec.passages
    ] == [p.name for p in old.passages]
