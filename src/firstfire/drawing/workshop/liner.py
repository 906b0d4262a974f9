"""The liner: a sleeve that the piston runs in."""

from __future__ import annotations

from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Disc, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.drawing.workshop.asked import Asked, coat, stuff
from firstfire.drawing.workshop.fitted import bare, fitted
from firstfire.drawing.workshop.view import PartDrawing, Size, View, finish, with_fit
from firstfire.errors import FirstfireError

_SOFT = ("o_ring", "ptfe", "none")


def liner(asked: Asked) -> PartDrawing:
    """Drawing of a cylinder's liner, cut through its axis.

    Raises
    ------
    FirstfireError
        Where the piston runs in the bare print.
    """
    said = asked.parts.liner
    if said.kind == "bare_print":
        raise FirstfireError(
            f"{asked.plain.name} has no liner to draw: its piston runs in the bare print. Give it "
            "one (--set liner.kind=metal), or draw another part."
        )
    tight = said.fit_interference
    word = "smaller" if tight >= 0 else "larger"
    pieces = asked.alike(lambda c: (c.liner, c.cylinder))
    return PartDrawing(
        part="liner", kind="liner", title="Liner", material=stuff(asked, said.material),
        pieces=pieces, finish=coat(said.coating),
        views=lambda unit: _views(asked, unit),
        notes=(
            f"The body's hole is made {bare(abs(tight), 3)} {word} than the outside as it "
            "measures.",
            "Ends square to the axis within 0.05: head and gasket press on the upper one. Bore "
            "round and straight within half its tolerance when it sits in its body.",
            _surface(asked),
            *_tube(asked),
            *asked.others("liner", pieces),
        ),
        open=(
            "lead-in at the lower end, on which rings slide in (15° over 2 mm is common practice)",
        ),
    )  # fmt: skip


def _surface(asked: Asked) -> str:
    if asked.parts.rings.kind == "metal":
        return "Bore honed in a cross hatch, then washed: metal rings run in on it."
    return "Bore smooth, polished in the direction of turning: soft rings run on it."


def _tube(asked: Asked) -> tuple[str, ...]:
    if asked.parts.liner.made != "tube":
        return ()
    return ("Cut from tube: bore and outside stay as they come where they measure within limits.",)


def _views(asked: Asked, unit: float) -> tuple[View, ...]:
    parts = asked.parts
    half, bore, out = 500 * parts.liner.length, 500 * parts.cylinder.bore, 500 * (
        parts.liner.outside_diameter
    )  # fmt: skip
    fill, over = hatch(asked.plain.materials[parts.liner.material]), 3.0 * unit
    walls = (rectangle(-half, bore, half, out), rectangle(-half, -out, half, -bore))
    cut: list[Shape] = [Region(walls, fill)]
    cut += [Stroke(line((x, -bore), (x, bore))) for x in (-half, half)]
    hole = fitted(parts.cylinder.bore, "H8" if parts.rings.kind in _SOFT else "H7")
    body = fitted(parts.liner.outside_diameter, "h7")
    sizes = (
        Size("liner.length", parts.liner.length, asked.limited(parts.liner.length, -0.1, 0.1),
             (-half, -out), (half, -out), "below"),
        with_fit("liner.outside_diameter", parts.liner.outside_diameter, body, (-half, -out),
                 (-half, out), "left"),
        with_fit("cylinder.bore", parts.cylinder.bore, hole, (half, -bore), (half, bore), "right"),
    )  # fmt: skip
    rough = (
        finish(0.4, (0.3 * half, -bore), 75.0, inside=True), finish(1.6, (-0.3 * half, out), 110.0),
    )  # fmt: skip
    axis = Centreline((-half - over, 0.0), (half + over, 0.0))
    front = View("front", tuple(cut), (axis,), sizes, rough)
    ring: list[Shape] = [Disc((0.0, 0.0), out), Disc((0.0, 0.0), bore)]
    far = out + over
    axes = (Centreline((-far, 0.0), (far, 0.0)), Centreline((0.0, -far), (0.0, far)))
    return front, View("right", tuple(ring), axes)
