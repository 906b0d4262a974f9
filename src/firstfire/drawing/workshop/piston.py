"""The piston: cut along its pin, and seen along it. Its pin's axis lies at the origin."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.drawing import piston_parts as by
from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Disc, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import line, polygon, rectangle
from firstfire.drawing.workshop.asked import Asked, coat, stuff, trial
from firstfire.drawing.workshop.fitted import Fitted, bare, diameter, fitted
from firstfire.drawing.workshop.view import (
    PartDrawing,
    Pointer,
    Size,
    View,
    finish,
    level,
    with_fit,
)
from firstfire.engine.shapes import BOSS_OUTSIDE


@dataclass(frozen=True)
class _Sizes:
    """Radii and levels of the piston alone, mm, without what is screwed on its crown.

    Attributes
    ----------
    land, skirt, floor, inside
        Radii of lands, of the skirt, of a groove's floor, and of the skirt's hollow.
    top, under, low
        Levels of the crown's two sides and of the skirt's end.
    grooves
        Lower and upper level of each.
    belt_end
        Where lands end and the skirt begins.
    shield
        Height of what sits on the crown.
    boss, boss_low
        Where the bosses begin beside the rod, and their lower level.
    pin
        Radius of the pin's hole.
    """

    land: float
    skirt: float
    floor: float
    inside: float
    top: float
    under: float
    low: float
    grooves: tuple[tuple[float, float], ...]
    belt_end: float
    shield: float
    boss: float
    boss_low: float
    pin: float


def piston(asked: Asked) -> PartDrawing:
    """Drawing of a cylinder's piston."""
    said = asked.parts.piston
    pieces = asked.alike(lambda c: (c.piston, c.cylinder, c.rings, c.pin))
    return PartDrawing(
        part="piston", kind="piston", title="Piston",
        material=stuff(asked, said.material),
        pieces=pieces, finish=coat(said.coating),
        views=lambda unit: _views(asked, unit),
        notes=(*_notes(asked), *asked.others("piston", pieces)),
        open=tuple(_open(asked)),
    )  # fmt: skip


def _sizes(asked: Asked) -> _Sizes:
    said, rings, bore = asked.parts.piston, asked.parts.rings, asked.parts.cylinder.bore
    shield = said.shield.thickness + said.shield.air_gap if said.shield.thickness > 0 else 0.0
    count = rings.count if rings.kind != "none" else 0
    skirt = 500 * (bore - said.skirt_clearance)
    top = 1e3 * (said.compression_height - shield)
    wide, land_top = 1e3 * rings.groove_width, 1e3 * (said.compression_height - said.top_land)
    grooves = tuple(
        (land_top - k * (wide + by.BETWEEN) - wide, land_top - k * (wide + by.BETWEEN))
        for k in range(count)
    )
    under = top - 1e3 * said.crown_thickness
    low = 1e3 * (said.compression_height - said.length)
    inside = skirt - 1e3 * said.skirt_thickness
    pin = asked.parts.pin
    out = min(500 * pin.length, inside)
    return _Sizes(
        land=500 * (bore - said.land_clearance), skirt=skirt,
        floor=skirt - 1e3 * rings.groove_depth, inside=inside, top=top, under=under, low=low,
        grooves=grooves, belt_end=grooves[-1][0] - by.BELOW if grooves else under,
        shield=1e3 * shield, boss=max(out - 500 * said.boss_width, 0.5),
        boss_low=max(-BOSS_OUTSIDE * 500 * pin.diameter, low), pin=500 * pin.diameter,
    )  # fmt: skip


def _outside(p: _Sizes) -> list[Point]:
    """From the crown's edge down the outside, grooves and all."""
    found: list[Point] = [(p.land, p.top)]
    for low, high in p.grooves:
        found += [(p.land, high), (p.floor, high), (p.floor, low), (p.land, low)]
    if p.grooves and abs(p.land - p.skirt) > 1e-9:
        found += [(p.land, p.belt_end), (p.skirt, p.belt_end)]
    elif not p.grooves:
        found = [(p.skirt, p.top)]
    return [*found, (p.skirt, p.low)]


def _mirrored(points: list[Point]) -> list[Point]:
    return [(-x, y) for x, y in reversed(points)]


def _views(asked: Asked, unit: float) -> tuple[View, ...]:
    p = _sizes(asked)
    return _cut(asked, p, unit), _seen(asked, p, unit)


def _cut(asked: Asked, p: _Sizes, unit: float) -> View:
    said, over = asked.parts.piston, 3.0 * unit
    fill = hatch(asked.plain.materials[said.material])
    right = [
        *_outside(p), (p.inside, p.low), (p.inside, p.boss_low), (p.boss, p.boss_low),
        (p.boss, p.under),
    ]  # fmt: skip
    shapes: list[Shape] = [Region((polygon(*right, *_mirrored(right)),), fill)]
    # behind the cut: the rest of the hollow
    shapes.append(Stroke(line((-p.inside, p.low), (p.inside, p.low))))
    for side in (-1.0, 1.0):
        near, far = sorted((side * p.boss, side * p.skirt))
        shapes.append(Region((rectangle(near, -p.pin, far, p.pin),), "paper"))
    if p.shield > 0:
        half = 500 * said.shield.diameter
        sheet = rectangle(-half, p.top + 1e3 * said.shield.air_gap, half, p.top + p.shield)
        shapes.append(Region((sheet,), "none", "phantom"))
    axes = (
        Centreline((0.0, p.low - over), (0.0, p.top + p.shield + over)),
        Centreline((-p.skirt - over, 0.0), (p.skirt + over, 0.0)),
    )
    return View(
        "front", tuple(shapes), axes, tuple(_cut_sizes(asked, p)), tuple(_cut_words(asked, p))
    )


def _cut_sizes(asked: Asked, p: _Sizes) -> Iterator[Size]:
    said = asked.parts.piston
    skirt = asked.parts.cylinder.bore - said.skirt_clearance
    yield with_fit("piston.skirt_clearance", skirt, fitted(skirt, "h7"), (-p.skirt, p.low),
                   (p.skirt, p.low), "below")  # fmt: skip
    yield level("piston.boss_width", 2e-3 * p.boss, (-p.boss, p.boss_low), (p.boss, p.boss_low))
    yield level("piston.skirt_thickness", said.skirt_thickness, (p.inside, p.low),
                (p.skirt, p.low))  # fmt: skip
    yield level("piston.crown_thickness", said.crown_thickness, (p.boss, p.under),
                (p.land, p.top), "right")  # fmt: skip
    if p.grooves:
        _, high = p.grooves[0]
        land = 1e-3 * (p.top - high)
        yield level("piston.top_land", land, (-p.land, high), (-p.land, p.top), "left")
    if p.grooves and abs(p.land - p.skirt) > 1e-9:
        land = asked.parts.cylinder.bore - said.land_clearance
        yield level("piston.land_clearance", land, (-p.land, p.top), (p.land, p.top), "above",
                    diameter(land))  # fmt: skip


def _cut_words(asked: Asked, p: _Sizes) -> Iterator[Pointer]:
    if p.grooves:
        # the lowest groove, where words have most room
        low, high = p.grooves[-1]
        across = 2e-3 * p.floor
        made: Fitted = fitted(across, "h9")
        many = f"{len(p.grooves)} × " if len(p.grooves) > 1 else ""
        wide = asked.parts.rings.groove_width
        text = f"{many}{asked.limited(wide, 0.0, 0.05)} wide"
        yield Pointer(text, (-p.land, low), 160.0, "rings.groove_width", wide)
        yield Pointer(f"{many}{made.text} floor", (p.floor, (low + high) / 2), 20.0,
                      "rings.groove_depth", across, made.limits)  # fmt: skip
        yield finish(0.8, (p.floor, low + 0.25 * (high - low)), -15.0)
    yield finish(1.6, (p.skirt, 0.55 * p.low), -20.0)


def _seen(asked: Asked, p: _Sizes, unit: float) -> View:
    """Along the pin: first angle puts the view from the left on the right."""
    over = 3.0 * unit
    right = _outside(p)
    shapes: list[Shape] = [Region((polygon(*right, *_mirrored(right)),))]
    for low, high in p.grooves:
        shapes += [Stroke(line((-p.land, y), (p.land, y))) for y in (low, high)]
    shapes.append(Disc((0.0, 0.0), p.pin))
    pin = asked.parts.pin
    hole = fitted(pin.diameter, "H7")
    height = asked.parts.piston.compression_height - 1e-3 * p.shield
    length = asked.parts.piston.length - 1e-3 * p.shield
    sizes = (
        level("piston.compression_height", height, (p.pin, 0.0), (p.land, p.top), "right",
              asked.limited(height, -0.05, 0.05)),
        level("piston.length", length, (p.skirt, p.low), (p.land, p.top), "right"),
    )  # fmt: skip
    lean = 0.7071 * p.pin
    pointers = (
        Pointer(hole.text, (lean, -lean), -40.0, "pin.diameter", pin.diameter, hole.limits),
        finish(0.8, (-lean, -lean), -140.0),
    )
    axes = (
        Centreline((0.0, p.low - over), (0.0, p.top + over)),
        Centreline((-p.skirt - over, 0.0), (p.skirt + over, 0.0)),
    )
    return View("right", tuple(shapes), axes, sizes, pointers)


def _notes(asked: Asked) -> Iterator[str]:
    said, rings = asked.parts.piston, asked.parts.rings
    p = _sizes(asked)
    if p.shield > 0:
        yield (
            f"Heights are those of the piston alone; a shield of {bare(said.shield.thickness)} "
            f"(chain line) comes on its crown, so that the pin is then "
            f"{bare(said.compression_height)} below the top."
        )
    if said.top_clearance != said.skirt_clearance:
        top = asked.parts.cylinder.bore - said.top_clearance
        yield f"The skirt tapers evenly to {diameter(top)} at its upper end."
    if said.ovality > 0:
        yield f"The skirt is oval: {bare(said.ovality)} less along the pin than across it."
    if said.skirt_material is not None:
        yield f"The skirt is of {stuff(asked, said.skirt_material)}."
    if p.grooves and rings.kind == "o_ring":
        yield "No step, scratch or burr on the grooves' floors: an O-ring leaks there."
    yield "Turn skirt, lands and grooves in one clamping."
    if asked.parts.pin.retention == "circlips":
        yield (
            f"Circlip grooves in the pin's hole to DIN 472 for {diameter(asked.parts.pin.diameter)}"
            f", the pin's {bare(asked.parts.pin.length)} between the clips."
        )
    yield from trial(said.made, "piston")


def _open(asked: Asked) -> Iterator[str]:
    p = _sizes(asked)
    if len(p.grooves) > 1:
        yield f"land between the grooves (drawn {by.BETWEEN:g}, which the length reckons with)"
    yield "wall behind the grooves, round outside of the bosses, fillets of the hollow"
    if asked.parts.piston.shield.thickness > 0 and asked.parts.piston.shield.screws:
        yield f"holes for the shield's {asked.parts.piston.shield.screws} screws"
