"""The piston pin."""

from __future__ import annotations

from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Disc, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.drawing.workshop.asked import Asked, coat, stuff
from firstfire.drawing.workshop.fitted import diameter, fitted
from firstfire.drawing.workshop.view import PartDrawing, Size, View, finish, with_fit

_KEPT = {
    "circlips": "Kept by circlips in the piston: nothing is cut into the pin.",
    "buttons": "Kept off the bore by a soft button at each end.",
    "press": "Held by a press fit: which eye or boss holds it, and how tight, is open.",
    "screw": "Held by a screw: its seat in the pin is open.",
    "none": "The file says that nothing keeps it off the bore: it must not touch the liner.",
}
_OPEN = {
    "press": ("where the pin is pressed, and the interference",),
    "screw": ("the seat of the screw that holds the pin",),
}


def pin(asked: Asked) -> PartDrawing:
    """Drawing of the piston pin: its length lying level, and its end."""
    said = asked.parts.pin
    ends = "Ends rounded 0.5 or chamfered, no burr: they pass through the bosses and near the bore."
    pieces = asked.alike(lambda c: c.pin)
    return PartDrawing(
        part="pin", kind="piston-pin", title="Piston pin", material=stuff(asked, said.material),
        pieces=pieces, finish=coat("none"),
        views=lambda unit: _views(asked, unit),
        notes=(
            _KEPT[said.retention], ends,
            "Hardened and ground stock serves as it comes if it measures right.",
            *asked.others("piston pin", pieces),
        ),
        open=("hardness", *_OPEN.get(said.retention, ())),
    )  # fmt: skip


def _views(asked: Asked, unit: float) -> tuple[View, ...]:
    said = asked.parts.pin
    half, radius, hole = 500 * said.length, 500 * said.diameter, 500 * said.inside_diameter
    over = 3.0 * unit
    long: list[Shape] = []
    if hole > 0:
        fill = hatch(asked.plain.materials[said.material])
        halves = (rectangle(-half, hole, half, radius), rectangle(-half, -radius, half, -hole))
        long += [Region(halves, fill)]
        long += [Stroke(line((x, -hole), (x, hole))) for x in (-half, half)]
    else:
        long.append(Region((rectangle(-half, -radius, half, radius),)))
    sizes = [
        Size("pin.length", said.length, asked.limited(said.length, -0.2, 0.0), (-half, -radius),
             (half, -radius), "below"),
        with_fit("pin.diameter", said.diameter, fitted(said.diameter, "h6"), (-half, -radius),
                 (-half, radius), "left"),
    ]  # fmt: skip
    if hole > 0:
        sizes.append(
            Size("pin.inside_diameter", said.inside_diameter, diameter(said.inside_diameter),
                 (half, -hole), (half, hole), "right")
        )  # fmt: skip
    front = View(
        "front", tuple(long), (Centreline((-half - over, 0.0), (half + over, 0.0)),),
        tuple(sizes), (finish(0.4, (0.35 * half, radius), 60.0),),
    )  # fmt: skip
    end: list[Shape] = [Disc((0.0, 0.0), radius)]
    if hole > 0:
        end.append(Disc((0.0, 0.0), hole))
    out = radius + over
    axes = (Centreline((-out, 0.0), (out, 0.0)), Centreline((0.0, -out), (0.0, out)))
    return front, View("right", tuple(end), axes)
