"""A bout run anew for an engine with a change made."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.bout import Bout, first_fired, held, turned
from firstfire.runs.free_rev import free_speed
from firstfire.runs.point import spark_angle
from firstfire.runs.together import Stop
from firstfire.runs.turning_over import speed_before_top

APART = ("head.fasteners", "crank", "cam_drive", "flywheel", "pin", "printing", "rod")
"""Sections that neither gas nor walls feel: a change there needs no new run."""


def felt_by_gas(paths: Iterable[str]) -> bool:
    """Whether gas or walls feel a change of some paths, so that it needs a new run."""
    return not all(path.startswith(APART) for path in paths)


def again(plain: PlainEngine, bout: Bout, stop: Stop | None = None) -> Bout:
    """A bout run anew for an engine like its own.

    Raises
    ------
    OutsideValidity
        Where that one can't be held there.
    Stopped
        If ``stop`` said so.
    """
    point = bout.point
    if point.event == "cranking":
        return turned(plain, point.name, point.speed, stop=stop)
    if point.event == "first_fire":
        cranked = turned(plain, point.name, plain.use.cranking_speed, stop=stop)
        left = speed_before_top(plain, cranked.point)
        spark = spark_angle(plain, left, starting=True)
        return first_fired(plain, point.name, left, spark, stop=stop)
    speed = point.speed
    if point.event == "free_rev":
        speed = free_speed(plain, stop=stop).speed
    spark = spark_angle(plain, speed, starting=False)
    anew = partial(held, plain, point.event, point.name, speed, spark, bout.horizon, stop=stop)
    try:
        return anew(start=point.fired.cycle.state)
    except OutsideValidity:
        # Its network may have become another one, which a state of this doesn't fit.
        return anew()
