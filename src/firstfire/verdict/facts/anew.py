"""A bout run anew for an engine with a change made."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.at import bout_at, speed_again
from firstfire.runs.bout import Bout
from firstfire.runs.followed_up import followed_up
from firstfire.runs.together import Stop

APART = ("head.fasteners", "crank", "cam_drive", "pin", "printing", "rod")
"""Sections that neither gas nor walls feel: a change there needs no new run.

A flywheel is felt by what speed is left to a first combustion; what else turns is next to nothing
beside it.
"""


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
    if EVENTS[point.event].how == "climbs":
        return followed_up(plain, bout, stop=stop)
    speed = speed_again(plain, point, stop=stop)
    anew = partial(bout_at, plain, point.event, speed, point.name, horizon=bout.horizon, stop=stop)
    if point.spark is None:
        return anew()
    try:
        return anew(start=point.fired.cycle.state)
    except OutsideValidity:
        # Its network may have become another one, which a state of this doesn't fit.
        return anew()
