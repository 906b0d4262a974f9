"""What is written at an event's mark, and which events a wheel or a strip shows."""

from __future__ import annotations

import math

from firstfire.engine.happenings import Happening, happenings
from firstfire.engine.resolve import PlainEngine


def marked(plain: PlainEngine) -> list[tuple[float, str]]:
    """Degrees after cylinder 1's top, -180 to below 180, and the words there, rising.

    Sparks that are wasted are left out; cylinders of one event at one mark stand together.
    """
    found: dict[tuple[int, str], set[int]] = {}
    for one in happenings(plain):
        if one.id.endswith("-wasted") or one.id.startswith("bottom"):
            continue
        place = round(10 * math.degrees(one.turn))
        found.setdefault((place, _short(plain, one)), set()).add(one.cylinder)
    many = len(plain.cylinders) > 1
    return [
        (place / 10, f"{'+'.join(map(str, sorted(whose)))} {name}" if many else name)
        for (place, name), whose in sorted(found.items(), key=lambda pair: pair[0][0])
    ]


def _short(plain: PlainEngine, one: Happening) -> str:
    """The name for a mark that either turn of a cycle meets."""
    spark = plain.spark
    if one.kind == "centre":
        return "top"
    if one.kind == "spark" and spark.start_angle == spark.running_angle:
        return "spark"
    return one.name.replace(" at full lift", " full lift")
