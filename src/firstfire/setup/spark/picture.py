"""A spark as a small picture: the coil charging up to it, what is asked, where it comes."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.trigger import trigger
from firstfire.setup.spark.facts import SparkFacts

_NAMED = 10
_BEFORE, _AFTER = 120, 30
_ROOM = 60


def picture(found: SparkFacts) -> list[str]:
    """Lines of it, 120° before to 30° after the firing top.

    ``T`` is the top; ``<`` and ``>`` the edges or the points' shutting and opening; ``=`` current
    in the coil; ``a`` asked, ``*`` true with ``-`` its scatter, of cranking and the top speed.
    """
    scale = [" "] * (_ROOM + 4)
    for mark in range(_BEFORE, -_AFTER - 1, -30):
        for place, letter in enumerate(str(abs(mark)) if mark else "T"):
            scale[min(_place(mark), _ROOM) + place] = letter
    lines = [f"{'degrees':<{_NAMED}}" + "".join(scale).rstrip()]
    for name, bar in _bars(found):
        lines.append(f"{name:<{_NAMED}}" + bar.rstrip())
    return lines


def _place(before: float) -> int:
    """Column of an angle before top, degrees."""
    return round((_BEFORE - before) / (_BEFORE + _AFTER) * _ROOM)


def _bars(found: SparkFacts) -> Iterator[tuple[str, str]]:
    passes = trigger(found.plain)
    words = "points" if found.plain.spark.source == "points" else "sensor"
    yield words, _line({passes.leading: "<", passes.trailing: ">"}, ".")
    judged = [one for one in found.angles if not one.why_not]
    for one in judged[:1] + judged[1:][-1:]:
        charging = found.circuit.charging(one.speed) * one.speed
        yield one.name, _line({}, " ", (one.true + charging, one.true, "="))
        marks = {one.asked: "a", one.true: "*"}
        spread = (one.true + one.scatter, one.true - one.scatter, "-")
        yield "", _line(marks, " ", spread)


def _line(marks: dict[float, str], ground: str, bar: tuple[float, float, str] | None = None) -> str:
    line = [ground] * _ROOM
    if bar is not None:
        begins, ends, letter = bar
        low, high = (min(max(_place(math.degrees(one)), 0), _ROOM - 1) for one in (begins, ends))
        line[low : high + 1] = letter * (high + 1 - low)
    for angle, letter in marks.items():
        at = _place(math.degrees(angle))
        if 0 <= at < _ROOM:
            line[at] = letter
    return "".join(line)
