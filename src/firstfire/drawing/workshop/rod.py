"""The con rod: from its face, and cut along its length. Its big end's axis lies at the origin."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Region, Shape, Stroke
from firstfire.drawing.outlines import at, bulge, line, polygon, rectangle
from firstfire.drawing.workshop.asked import Asked, coat, stuff, trial
from firstfire.drawing.workshop.fitted import Fitted, diameter, fitted
from firstfire.drawing.workshop.view import (
    PartDrawing,
    Pointer,
    Size,
    View,
    finish,
    level,
    with_fit,
)
from firstfire.parts.softness import is_metal

_NAMES = {"big_end": "big end", "small_end": "small end"}
_BOUGHT = {"needle": "needle bearing", "ball": "ball bearing"}


@dataclass(frozen=True)
class _Eye:
    """One end: where it is, its pin's and its own radius and half its width, mm."""

    end: str
    x: float
    pin: float
    out: float
    half: float
    kind: str
    path: str

    @property
    def lined(self) -> bool:
        """Whether something else than the rod runs on the pin."""
        return self.kind != "plain"


def rod(asked: Asked) -> PartDrawing:
    """Drawing of a cylinder's con rod."""
    said = asked.parts.rod
    pieces = asked.alike(lambda c: (c.rod, c.pin))
    return PartDrawing(
        part="rod", kind="rod", title="Con rod", material=stuff(asked, said.material),
        pieces=pieces, finish=coat("none"),
        views=lambda unit: _views(asked, unit),
        notes=(*_notes(asked), *asked.others("con rod", pieces)),
        open=tuple(_open(asked)),
    )  # fmt: skip


def _eyes(asked: Asked) -> tuple[_Eye, _Eye]:
    said, wall = asked.parts.rod, 1e3 * asked.parts.rod.eye_wall
    big, small = 500 * asked.plain.crank.crankpin_diameter, 500 * asked.parts.pin.diameter
    return (
        _Eye("big_end", 0.0, big, big + wall, 500 * said.big_end_width, said.big_end,
             "crank.crankpin_diameter"),
        _Eye("small_end", 1e3 * said.length, small, small + wall, 500 * said.small_end_width,
             said.small_end, "pin.diameter"),
    )  # fmt: skip


def running(asked: Asked, diameter_: float) -> Fitted:
    """The hole that runs on a pin of h6: closer in metal, wider in plastic, which swells."""
    metal = is_metal(asked.plain.materials[asked.parts.rod.material])
    return fitted(diameter_, "F8" if metal else "E9")


def _views(asked: Asked, unit: float) -> tuple[View, ...]:
    eyes = _eyes(asked)
    return _face(asked, eyes, unit), _cut(asked, eyes, unit)


def _flank(eye: _Eye, half: float) -> float:
    """How far along the rod a flank leaves an eye."""
    return math.sqrt(eye.out**2 - min(half, 0.97 * eye.out) ** 2)


def _face(asked: Asked, eyes: tuple[_Eye, _Eye], unit: float) -> View:
    said, (big, small) = asked.parts.rod, eyes
    half, over = 500 * said.shank_width, 3.0 * unit
    first, last = _flank(big, half), small.x - _flank(small, half)
    shank = polygon((first, -half), (last, -half), (last, half), (first, half))
    shapes: list[Shape] = [Region((shank,))]
    for eye in eyes:
        ring = ((eye.x - eye.out, 0.0, 1.0), (eye.x + eye.out, 0.0, 1.0))
        hole = ((eye.x - eye.pin, 0.0, 1.0), (eye.x + eye.pin, 0.0, 1.0))
        shapes.append(Region((ring, hole)))
        if abs(eye.half - 500 * said.shank_thickness) < 1e-6:
            shapes.append(_flush(eye, half, 1.0 if eye is big else -1.0, unit))
    if said.split:
        shapes += [Stroke(line((0.0, side * big.pin), (0.0, side * big.out)))
                   for side in (-1.0, 1.0)]  # fmt: skip
    middle = (first + last) / 2
    sizes = [
        level("rod.length", said.length, (big.x, 0.0), (small.x, 0.0), "above",
              asked.limited(said.length, -0.05, 0.05)),
        Size("rod.shank_width", said.shank_width, asked.limited(said.shank_width, -0.2, 0.2),
             (middle, -half), (middle, half), "left", middle),
    ]  # fmt: skip
    for eye, side in ((big, "left"), (small, "right")):
        out = 2e-3 * eye.out
        sizes.append(
            Size("rod.eye_wall", out, diameter(out), (eye.x, -eye.out), (eye.x, eye.out),
                 side)  # type: ignore[arg-type]
        )  # fmt: skip
    axes = (
        Centreline((-big.out - over, 0.0), (small.x + small.out + over, 0.0)),
        *(Centreline((eye.x, -eye.out - over), (eye.x, eye.out + over)) for eye in eyes),
    )
    return View("front", tuple(shapes), axes, tuple(sizes), tuple(_holes(asked, eyes)))


def _flush(eye: _Eye, half: float, toward: float, unit: float) -> Region:
    """Hides the eye's outline where the shank runs into it as thick as the eye: no edge there."""
    inside = min(half, 0.97 * eye.out) - 0.25 * unit
    lean = math.asin(inside / eye.out)
    near = [at((eye.x, 0.0), eye.out - 0.4 * unit, side * lean) for side in (-1.0, 1.0)]
    far = [at((eye.x, 0.0), eye.out + 0.4 * unit, side * lean) for side in (1.0, -1.0)]
    ring = [(*near[0], bulge(2 * lean)), (*near[1], 0.0), (*far[0], bulge(-2 * lean)),
            (*far[1], 0.0)]  # fmt: skip
    flip = tuple((eye.x + toward * (x - eye.x), y, toward * b) for x, y, b in ring)
    return Region((flip,), "paper", None)


def _holes(asked: Asked, eyes: tuple[_Eye, _Eye]) -> Iterator[Pointer]:
    for eye, toward in zip(eyes, (-125.0, -55.0), strict=True):
        lean = math.radians(toward)
        tip = eye.x + eye.pin * math.cos(lean), eye.pin * math.sin(lean)
        across = 2e-3 * eye.pin
        if eye.kind in _BOUGHT:
            text = f"{_BOUGHT[eye.kind]} for {diameter(across)}: hole to suit"
            yield Pointer(text, tip, toward, eye.path, across)
            continue
        made = running(asked, across)
        where = ", bush to suit" if eye.kind == "bush" else ""
        yield Pointer(f"{made.text}{where}", tip, toward, eye.path, across, made.limits)
        lean = math.radians(-toward)
        tip = eye.x + eye.pin * math.cos(lean), eye.pin * math.sin(lean)
        yield finish(0.8, tip, -toward)


def _cut(asked: Asked, eyes: tuple[_Eye, _Eye], unit: float) -> View:
    """From above, cut through both axes; first angle puts it below."""
    said, (big, small), over = asked.parts.rod, eyes, 3.0 * unit
    fill = hatch(asked.plain.materials[said.material])
    thick = 500 * said.shank_thickness
    shapes: list[Shape] = [
        Region((rectangle(eye.x - eye.pin, -eye.half, eye.x + eye.pin, eye.half),)) for eye in eyes
    ]
    outer = (
        rectangle(-big.out, -big.half, -big.pin, big.half),
        rectangle(small.x + small.pin, -small.half, small.x + small.out, small.half),
    )
    # the walls between both holes and the shank are one piece: no edge where they are as thick
    steps = [
        (big.pin, big.half), (big.out, big.half), (big.out, thick), (small.x - small.out, thick),
        (small.x - small.out, small.half), (small.x - small.pin, small.half),
    ]  # fmt: skip
    inner = polygon(*steps, *((x, -y) for x, y in reversed(steps)))
    shapes.append(Region((*outer, inner), fill))
    middle = (big.out + small.x - small.out) / 2
    sizes = [
        Size("rod.shank_thickness", said.shank_thickness,
             asked.limited(said.shank_thickness, -0.2, 0.2), (middle, -thick), (middle, thick),
             "left", middle),
    ]  # fmt: skip
    for eye, side, value in ((big, "left", said.big_end_width),
                             (small, "right", said.small_end_width)):  # fmt: skip
        x = eye.x + (-eye.out if side == "left" else eye.out)
        sizes.append(
            with_fit(f"rod.{eye.end}_width", value, fitted(value, "h11", ""), (x, -eye.half),
                     (x, eye.half), side)  # type: ignore[arg-type]
        )  # fmt: skip
    axes = (
        Centreline((-big.out - over, 0.0), (small.x + small.out + over, 0.0)),
        *(Centreline((eye.x, -eye.half - over), (eye.x, eye.half + over)) for eye in eyes),
    )
    rough = (finish(1.6, (big.x + (big.pin + big.out) / 2, -big.half), -70.0),)
    return View("below", tuple(shapes), axes, tuple(sizes), rough)


def _notes(asked: Asked) -> Iterator[str]:
    said = asked.parts.rod
    yield (
        "Bore both ends in one clamping: axes parallel within 0.05 on 100, both ways "
        "(common practice)."
    )
    yield "No scratch, stamp or sharp corner on the shank: it cracks from there."
    if "plain" in (said.big_end, said.small_end):
        yield "Hole and pin run with clearance: oil, grease or a slot to let it in is to suit."
    if said.split:
        yield "Big end bored with its cap bolted on, then both marked as a pair."
    yield from trial(said.made, "rod")


def _open(asked: Asked) -> Iterator[str]:
    said = asked.parts.rod
    yield "fillets from shank to eyes (as large as they go)"
    lined = [_NAMES[eye.end] for eye in _eyes(asked) if eye.lined]
    if lined:
        yield f"outside of bush or bearing in the {' and the '.join(lined)}, and the hole for it"
    if said.split:
        yield "bolts of the big end's cap and their seats"
    elif asked.plain.crank.built == "one_piece":
        yield (
            "how it gets onto a crank of one piece: the file's big end doesn't open "
            "(--set rod.split=true)"
        )
