"""The degree wheel, with this engine's own events on it."""

from __future__ import annotations

import math

from firstfire.drawing.model import Lettering, Point, Shape
from firstfire.drawing.outlines import at
from firstfire.drawing.templates.marked import marked
from firstfire.drawing.templates.spread import spread
from firstfire.drawing.templates.template import (
    SMALL,
    Template,
    cross,
    hole,
    part,
    sense,
    tick,
    turning_arrow,
    way,
)
from firstfire.drawing.text import width_of
from firstfire.engine.resolve import PlainEngine

RIM = 52.0
"""Radius of the graduated circle, mm."""
_LABELS = RIM + 9.0
_OUT = 97.0
_ORIGIN = (0.0, 0.0)


def degree_wheel(plain: PlainEngine) -> Template:
    """A wheel of 360 marks for the crank's flywheel end, pointer fixed to the case."""
    sign = sense(plain)
    marks: list[Shape] = [hole(0, 0, RIM), *cross(0, 0, 6.0), hole(0, 0, 2.0)]
    words: list[Shape] = []
    for degrees in range(360):
        angle = _turned(degrees, sign)
        long = 6.0 if degrees % 10 == 0 else 4.5 if degrees % 5 == 0 else 3.0
        marks.append(tick(at(_ORIGIN, RIM - long, angle), at(_ORIGIN, RIM, angle)))
        if degrees % 10 == 0:
            words.append(_level(at(_ORIGIN, RIM - 8.5, angle), str(_counted(degrees)), angle))
    pointers, names = _events(plain, sign)
    words += [Lettering((0.0, 12.0), "TOP of cylinder 1 at the pointer: 0", SMALL, "middle"),
              Lettering((0.0, -16.0), f"seen at the flywheel's end; turns {way(sign)}", SMALL,
                        "middle"),
              ]  # fmt: skip
    marks += turning_arrow(_ORIGIN, 30.0, sign)
    return Template(
        slug="degree-wheel", engine=plain.name, title="Degree wheel",
        parts=(
            part("outline", "edge", "cut", hole(0, 0, _OUT)),
            part("degrees", "degrees", "marks", *marks),
            part("events", "events", "marks", *pointers),
            part("names", "names", "words", *words, *names),
        ),
        notes=(
            f"Fix it to the flywheel's end of the crank. It turns {way(sign)} there; what comes "
            "after top lies against that. Bend a wire to a pointer, find top with a piston stop, "
            "then bring 0 under the pointer. Inner figures count from the nearest top.",
            "Both turns of a cycle are on it: a valve's mark and a spark's hold on the turn that "
            "the timing table says.",
        ),
    )  # fmt: skip


def _turned(degrees: float, sign: float) -> float:
    """Where so many degrees after top lie, rad anticlockwise from the right."""
    return math.pi / 2 + sign * math.radians(degrees)


def _counted(degrees: int) -> int:
    return degrees if degrees <= 180 else 360 - degrees


def _level(place: Point, text: str, angle: float) -> Lettering:
    """Figures along the rim, upright as one turns the wheel."""
    turn = angle - math.pi / 2
    # centred on its place rather than standing on it
    lowered = at(place, -0.5 * SMALL, angle)
    return Lettering(lowered, text, SMALL, "middle", turn)


def _events(plain: PlainEngine, sign: float) -> tuple[list[Shape], list[Shape]]:
    """A pointer from each event's mark to its name, names turned outwards."""
    found = marked(plain)
    room = math.degrees(1.55 * SMALL / _LABELS)
    places = spread([degrees for degrees, _ in found], room)
    pointers: list[Shape] = []
    names: list[Shape] = []
    for (degrees, text), place in zip(found, places, strict=True):
        true, moved = _turned(degrees, sign), _turned(place, sign)
        pointers.append(tick(at(_ORIGIN, RIM, true), at(_ORIGIN, RIM + 2.5, true), "outline"))
        pointers.append(tick(at(_ORIGIN, RIM + 2.5, true), at(_ORIGIN, _LABELS - 1.0, moved)))
        names.append(_outwards(text, moved))
    return pointers, names


def _outwards(text: str, angle: float) -> Lettering:
    left = math.cos(angle) < 0
    height = min(SMALL, (_OUT - _LABELS - 1.0) / width_of(text))
    side = angle - math.pi / 2 if left else angle + math.pi / 2
    place = at(at(_ORIGIN, _LABELS, angle), -0.36 * height, side)
    if left:
        return Lettering(place, text, height, "end", angle + math.pi)
    return Lettering(place, text, height, "start", angle)
