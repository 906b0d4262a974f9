"""The flywheel: a disc with a hole that a shaft drives."""

from __future__ import annotations

import math

from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Disc, Region, Shape, Stroke
from firstfire.drawing.outlines import at, line, rectangle
from firstfire.drawing.workshop.asked import Asked, coat, stuff
from firstfire.drawing.workshop.fitted import diameter, fitted
from firstfire.drawing.workshop.seats import (
    bore_loop,
    key_pointer,
    open_of,
    polygon_loop,
    seat_words,
    turns,
)
from firstfire.drawing.workshop.view import PartDrawing, Size, View, finish, level, with_fit
from firstfire.engine.sections.joint import Seat
from firstfire.errors import FirstfireError

_BALANCE = (
    "Balance it on two level knives. No casting with pores, no cracked or welded plate: a "
    "flywheel that bursts throws its pieces."
)


def flywheel(asked: Asked) -> PartDrawing:
    """Drawing of the flywheel, cut through its axis and from its face.

    Raises
    ------
    FirstfireError
        Where the engine has none.
    """
    wheel = asked.plain.flywheel
    if wheel.thickness <= 0:
        raise FirstfireError(
            f"{asked.plain.name} has no flywheel to draw: flywheel.thickness is 0. Give it one "
            "(--set flywheel.thickness='10 mm'), or draw another part."
        )
    return PartDrawing(
        part="flywheel", kind="flywheel", title="Flywheel", material=stuff(asked, wheel.material),
        pieces=1, finish=coat("none"), views=lambda unit: _views(asked, unit),
        notes=tuple(filter(None, (seat_words(wheel.joint, "wheel"), _BALANCE))),
        open=(*open_of(wheel.joint), "holes to turn, pull or lighten it: none are drawn"),
    )  # fmt: skip


def _views(asked: Asked, unit: float) -> tuple[View, ...]:
    wheel = asked.plain.flywheel
    rim, bore, half = 500 * wheel.diameter, 500 * wheel.bore, 500 * wheel.thickness
    over = 3.0 * unit
    fill = hatch(asked.plain.materials[wheel.material])
    top, low = _cut_levels(wheel.joint, bore)
    cut: list[Shape] = [
        Region((rectangle(-half, top, half, rim), rectangle(-half, -rim, half, low)), fill)
    ]
    # the bore's edges beside a keyway
    cut += [Stroke(line((-half, y), (half, y))) for y in (bore, -bore) if y not in (top, low)]
    cut += [Stroke(line((x, low), (x, top))) for x in (-half, half)]
    hole = fitted(wheel.bore, "H7")
    sizes = [
        level("flywheel.thickness", wheel.thickness, (-half, -rim), (half, -rim)),
        Size("flywheel.diameter", wheel.diameter, diameter(wheel.diameter), (-half, -rim),
             (-half, rim), "left"),
        with_fit("flywheel.bore", wheel.bore, hole, (half, -bore), (half, bore), "right"),
    ]  # fmt: skip
    axis = Centreline((-half - over, 0.0), (half + over, 0.0))
    front = View(
        "front", tuple(cut), (axis,), tuple(sizes), (finish(1.6, (0.5 * half, -bore), -60.0),),
    )  # fmt: skip
    return front, _face(asked, rim, bore, over)


def _cut_levels(joint: Seat, bore: float) -> tuple[float, float]:
    """Where the cut meets the hole above and below: at a keyway's floor where there is one."""
    if joint.kind != "keyed":
        return bore, -bore
    floor = bore + 500 * joint.cross_pin_diameter
    return floor, -floor if joint.cross_pins % 2 == 0 else -bore


def _face(asked: Asked, rim: float, bore: float, over: float) -> View:
    joint = asked.plain.flywheel.joint
    inner = polygon_loop(joint) if joint.kind == "polygon" else bore_loop(joint, bore)
    face: list[Shape] = [Disc((0.0, 0.0), rim), Region((inner,))]
    if joint.kind == "pinned":
        face += [Disc(centre, 500 * joint.cross_pin_diameter, "none", "thin")
                 for centre in _pin_centres(asked, bore)]  # fmt: skip
    out = rim + over
    axes = (Centreline((-out, 0.0), (out, 0.0)), Centreline((0.0, -out), (0.0, out)))
    return View("right", tuple(face), axes, (), tuple(key_pointer("flywheel.joint", joint, bore)))


def _pin_centres(asked: Asked, bore: float) -> list[tuple[float, float]]:
    joint = asked.plain.flywheel.joint
    return [at((0.0, 0.0), bore, math.pi / 2 + turn) for turn in turns(joint)]
