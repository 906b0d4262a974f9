"""The strip that is wrapped round the flywheel's rim: degrees and events at their places."""

from __future__ import annotations

import math

from firstfire.drawing.model import Lettering, Shape
from firstfire.drawing.outlines import rectangle
from firstfire.drawing.templates.marked import marked
from firstfire.drawing.templates.spread import spread
from firstfire.drawing.templates.template import (
    SMALL,
    Template,
    outline,
    part,
    sense,
    tick,
    way,
)
from firstfire.engine.resolve import PlainEngine

_NAMES = 34.0
"""Room for events' names under the degrees, mm."""


def rim_strip(plain: PlainEngine) -> Template | None:
    """A strip as long as the rim, from half a turn before top to half a turn after.

    None where there is no flywheel. Numbers rise to the right, with the upper edge at the
    flywheel's outer face, where the crank turns clockwise seen there; else to the left.
    """
    if plain.flywheel.thickness <= 0:
        return None
    sign, diameter = sense(plain), 1e3 * plain.flywheel.diameter
    long = math.pi * diameter
    high = min(max(1e3 * plain.flywheel.thickness, 8.0), 14.0)
    marks: list[Shape] = []
    words: list[Shape] = []
    per = long / 360
    for degrees in range(-180, 181):
        x = sign * degrees * per
        deep = 5.0 if degrees % 10 == 0 else 3.6 if degrees % 5 == 0 else 2.2
        marks.append(tick((x, 0.0), (x, -deep)))
        if degrees % 10 == 0 and abs(degrees) < 180:
            words.append(Lettering((x, -high + 0.8), str(abs(degrees)), 1.8, "middle"))
    pointers, names = _events(plain, sign, per, high)
    return Template(
        slug="rim-strip", engine=plain.name, title="Strip for the flywheel's rim",
        parts=(
            part("outline", "edge", "cut", outline(rectangle(-long / 2, -high, long / 2, 0.0))),
            part("degrees", "degrees", "marks", *marks),
            part("events", "events", "marks", *pointers),
            part("names", "names", "words", *words, *names),
        ),
        notes=(
            f"{long:.1f} mm long, for a rim {diameter:.1f} mm across. Wrap it with its upper edge "
            f"at the flywheel's outer face, which turns {way(sign)}; paper 0.1 mm thick leaves a "
            "gap of 0.3 mm where its ends meet. 0 stands at the pointer when cylinder 1 is at top.",
            "Measure your rim first: a millimetre more across is three more round. Names below the "
            "strip are cut off with the rest once the marks are copied.",
        ),
    )  # fmt: skip


def _events(
    plain: PlainEngine, sign: float, per: float, high: float
) -> tuple[list[Shape], list[Shape]]:
    """Lines across the strip where events are, names hanging below."""
    found = marked(plain)
    if sign < 0:
        found = [(-degrees, text) for degrees, text in reversed(found)]
    places = spread([degrees * per for degrees, _ in found], 1.6 * SMALL)
    half = 180.0 * per - SMALL
    pointers: list[Shape] = []
    names: list[Shape] = []
    for (degrees, text), place in zip(found, places, strict=True):
        x, moved = degrees * per, min(max(place, -half), half)
        pointers.append(tick((x, 0.0), (x, -high), "outline"))
        pointers.append(tick((x, -high), (moved, -high - 5.0)))
        # turned to hang: letters read from below upwards
        names.append(Lettering((moved + 0.36 * SMALL, -high - 6.0), text, SMALL, "end",
                               math.pi / 2))  # fmt: skip
    return pointers, names
