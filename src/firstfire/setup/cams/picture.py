"""A cam and its lift in characters: small enough for a terminal."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from firstfire.loads.cam_profile import Profile, outline

_HIGH = 13
_WIDE = 26  # a character is about twice as high as wide
_PLOT = 46


def picture(cams: Sequence[Profile]) -> list[str]:
    """Outlines of the cams and both lifts over the crank, in lines of at most 79 columns."""
    beside = [outlined(made) for made in cams]
    names = "".join(f"{made.which + ' cam':<{_WIDE + 2}}" for made in cams).rstrip()
    rows = ["  ".join(row).rstrip() for row in zip(*beside, strict=True)]
    return [names, *rows, "", *lifts(cams)]


def outlined(made: Profile) -> list[str]:
    """A cam as an area: `=` within its base circle, `#` what stands out, `+` its axis."""
    edge = outline(made)
    around, far = np.arctan2(edge[:, 1], edge[:, 0]), np.hypot(edge[:, 0], edge[:, 1])
    order = np.argsort(around)
    base = made.valve.base_radius
    across = (far.max() + base) / (_WIDE - 1)
    down = 2.0 * across
    found = []
    for row in range(_HIGH):
        y = ((_HIGH - 1) / 2 - row) * down
        line = ""
        for column in range(_WIDE):
            x = column * across - base
            reach = np.interp(math.atan2(y, x), around[order], far[order], period=2 * math.pi)
            line += _mark(x, y, float(reach), base, across)
        found.append(line)
    return found


def _mark(x: float, y: float, reach: float, base: float, step: float) -> str:
    away = math.hypot(x, y)
    if abs(x) <= 0.5 * step and abs(y) <= step:
        return "+"
    if away > reach:
        return " "
    return "=" if away <= base else "#"


def lifts(cams: Sequence[Profile], high: int = 6) -> list[str]:
    """Lift of the valves over the crank around the top between exhaust and intake."""
    angle = np.linspace(math.radians(90), math.radians(630), _PLOT)
    tallest = max(float(made.valve_lift.max()) for made in cams)
    grid = [[" "] * _PLOT for _ in range(high)]
    for made in cams:
        mark = "i" if made.which == "inlet" else "e"
        lift = np.interp((angle - made.centre) / 2, made.angle, made.valve_lift, left=0, right=0)
        for column, value in enumerate(lift.tolist()):
            for row in range(round(high * value / tallest)):
                here = grid[high - 1 - row]
                here[column] = "*" if here[column] not in (" ", mark) else mark
    rows = ["".join(row).rstrip() for row in grid]
    rows[0] = f"{rows[0]:<{_PLOT}}  {1e3 * tallest:.3g} mm"
    marks = {180: "bottom", 360: "top", 540: "bottom"}
    foot = [" "] * (_PLOT + 4)
    for degrees, word in marks.items():
        place = round((degrees - 90) / 540 * (_PLOT - 1)) - len(word) // 2
        foot[place : place + len(word)] = word
    marks_told = [f"{made.which[0]} {made.which}" for made in cams] + ["* both"] * (len(cams) > 1)
    return [*rows, "-" * _PLOT, "".join(foot).rstrip() + "  " + ", ".join(marks_told)]
