"""A check: all that is known of an engine, and what isn't, as one result."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import geometry
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import Progress, events, run
from firstfire.verdict.cautions import cautions
from firstfire.verdict.result import Result, Unjudged
from firstfire.version import VERSION

_NOT_YET = (
    ("what fails first", "strengths aren't computed in this version"),
    ("how long it may run", "wall temperatures are assumed, not computed, in this version"),
    ("starting and kick-back", "speed is held fixed in this version"),
)
_RPM = math.pi / 30


def check(
    engine: Engine,
    *,
    speeds: Sequence[float] | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
) -> Result:
    """All that is known of `engine`: its events run, what it makes, what isn't judged.

    Parameters
    ----------
    engine
        As written down.
    speeds
        Full-throttle speeds instead of the file's, rad/s.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.
    on_progress
        Told what is being run and the share of it that is done.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    OutsideValidity
        Where not even the geometry can be answered.
    """
    plain = resolve(engine)
    shape = geometry(plain)
    points: list[OperatingPoint] = []
    unjudged = [Unjudged(*pair) for pair in _NOT_YET]
    for event in events(engine):
        asked = speeds if event == "full_throttle" else None
        try:
            points += run(engine, event, None, stop, on_progress, speeds=asked).points
        except OutsideValidity as why:
            unjudged.append(Unjudged(event.replace("_", " "), str(why).rstrip(".")))
    return Result(
        engine=engine,
        plain=plain,
        geometry=shape,
        points=tuple(points),
        unjudged=(*unjudged, *_beyond(plain, points)),
        cautions=cautions(engine, plain),
        version=VERSION,
    )


# Pipes are volumes without waves, and the burn was fitted from 800 to 6000 rpm.
_FASTEST, _SLOWEST_FIT, _FASTEST_FIT = 8000.0, 800.0, 6000.0


def _beyond(plain: PlainEngine, points: Sequence[OperatingPoint]) -> list[Unjudged]:
    """What this engine asks that the models cover badly or not at all."""
    found = []
    for point in points:
        rpm = point.speed / _RPM
        if rpm > _FASTEST:
            found.append(
                Unjudged(
                    f"{point.name} in full",
                    f"above {_FASTEST:.0f} rpm waves in the pipes matter, which the model has not; "
                    "take the figures as a rough guide",
                )
            )
        elif point.spark is not None and not _SLOWEST_FIT <= rpm <= _FASTEST_FIT:
            found.append(
                Unjudged(
                    f"the burn at {rpm:.0f} rpm in full",
                    "its duration was fitted from 800 to 6000 rpm; here it may be half or double",
                )
            )
        if point.misfires:
            which = " and ".join(map(str, point.misfires))
            found.append(
                Unjudged(
                    f"cylinder {which} at {point.name}",
                    "its charge doesn't light: too lean, too rich or too much burned gas left",
                )
            )
        if not point.fired.cycle.converged:
            found.append(
                Unjudged(
                    f"{point.name} to the last digit",
                    "its cycles don't settle to one: a valve that suction opens bounces anew "
                    "each time",
                )
            )
    if plain.cylinders[0].cylinder.compression_ratio > 8.5:
        found.append(Unjudged("knock", "it isn't computed in this version; above 8.5 it matters"))
    return found
