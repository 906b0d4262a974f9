"""One event at one speed: the only place that knows how each kind of event is run."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from firstfire.cycle.layout import State
from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.bout import Bout, held, turned
from firstfire.runs.first_fired import first_fired
from firstfire.runs.followed_up import followed_up
from firstfire.runs.free_rev import free_speed
from firstfire.runs.point import OperatingPoint, spark_angle

_RPM = math.pi / 30


def bout_at(
    plain: PlainEngine,
    event: str,
    speed: float,
    name: str = "",
    *,
    horizon: float | None = None,
    start: State | None = None,
    quicker: float = 1.0,
    stop: Callable[[], bool] | None = None,
) -> Bout:
    """One bout of an event.

    Parameters
    ----------
    plain, event, speed
        Which engine; which event that is computed; rad/s, which a first combustion leaves to its
        starter.
    name
        Of the point; "" for the event and its speed.
    horizon
        How long a held one is followed, s; None: as long as the event is.
    start
        State its cycles are started from.
    quicker
        Times torque and speed of a first combustion's starter, as it happens to turn.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.

    Raises
    ------
    OutsideValidity
        Where it can't be held there; where a model doesn't hold.
    """
    asked = EVENTS[event]
    words = event.replace("_", " ")
    named = name or f"{words} {speed / _RPM:.0f} rpm"
    if asked.how == "turned":
        return turned(plain, named, speed, event=event, start=start, stop=stop)
    if asked.once:
        fired = first_fired(plain, name, event=event, quicker=quicker, stop=stop)
        followed = asked.how == "climbs"
        return followed_up(plain, fired, quicker=quicker, stop=stop) if followed else fired
    spark = spark_angle(plain, speed, starting=False)
    long = asked.horizon if horizon is None else horizon
    return held(plain, event, named, speed, spark, long, start=start, stop=stop)


def speed_again(
    plain: PlainEngine,
    point: OperatingPoint,
    at_full: Sequence[OperatingPoint] = (),
    stop: Callable[[], bool] | None = None,
) -> float:
    """Speed, rad/s, at which an engine like a point's own is run for the same event.

    Parameters
    ----------
    plain, point
        That engine, and the point.
    at_full
        Its own points at full throttle, which a free speed is sought from.
    stop
        As `bout_at` takes it.
    """
    how = EVENTS[point.event].how
    if EVENTS[point.event].once:
        return plain.use.cranking_speed
    return free_speed(plain, at_full, stop).speed if how == "let go" else point.speed
