"""A cycle as a small picture for the terminal: two turns from left to right, valves as bars."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.cam_lift import spans, valve_of, valve_rise
from firstfire.engine.happenings import happenings
from firstfire.engine.resolve import PlainEngine

_NAMED = 10
_CYCLE = 4.0 * math.pi


def picture(plain: PlainEngine, width: int = 80) -> list[str]:
    """Lines of it: crank degrees after cylinder 1 fires, then each cylinder.

    ``#`` is a valve more than half open, ``=`` one less, ``S`` and ``R`` are start and running
    spark, ``T`` a firing top and ``t`` the top on overlap.
    """
    room = 60 if width < 72 + _NAMED else 72
    scale = [" "] * (room + 4)
    for mark in range(0, 721, 90):
        at = round(mark / 720 * room)
        for place, letter in enumerate(str(mark)):
            scale[at + place] = letter
    lines = [" " * _NAMED + "".join(scale).rstrip()]
    for number in range(1, len(plain.cylinders) + 1):
        lines += _cylinder(plain, number, room)
    return lines


def _cylinder(plain: PlainEngine, number: int, room: int) -> Iterator[str]:
    found = [one for one in happenings(plain) if one.cylinder == number]
    fires = next(one.crank for one in found if one.id == "firing-top")
    who = "" if len(plain.cylinders) == 1 else f"{number} "
    marks = {"firing-top": "T", "overlap-top": "t", "start-spark": "S", "running-spark": "R",
             "start-spark-wasted": "S", "running-spark-wasted": "R"}  # fmt: skip
    line = [" "] * room
    for ident, letter in marks.items():
        for one in found:
            place = min(math.floor(one.crank / _CYCLE * room), room - 1)
            if one.id == ident and line[place] == " ":
                line[place] = letter
    yield f"{who + 'tops':<{_NAMED}}" + "".join(line).rstrip()
    parts = plain.cylinders[number - 1]
    for which, span in spans(parts).items():
        valve = valve_of(parts, which)
        lifts = [
            valve_rise(valve, span, (n + 0.5) / room * _CYCLE - fires) / valve.lift
            for n in range(room)
        ]
        bar = "".join("#" if one > 0.5 else "=" if one > 1e-6 else "." for one in lifts)
        yield f"{who + which:<{_NAMED}}{bar}"
