"""A cheek of a crank from its face, or the crank's end: outline, holes, what holds pins in them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from firstfire.drawing.model import Centreline, Disc, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import at, line, shifted, slot
from firstfire.drawing.workshop.asked import Asked
from firstfire.drawing.workshop.crank_sizes import CheekPlace, CrankPlaces, PinPlace, held
from firstfire.drawing.workshop.fitted import Fitted, bare, diameter, fitted
from firstfire.drawing.workshop.seats import bore_loop, key_pointer, polygon_loop, turns
from firstfire.drawing.workshop.view import Pointer, Side, Size, View, level
from firstfire.engine.joint_room import is_across
from firstfire.engine.sections.joint import Joint

_AXIS: Point = (0.0, 0.0)
_THROW = 0.02  # mm


def cheek_views(asked: Asked, places: CrankPlaces, unit: float) -> Iterator[View]:
    """Seen from the flywheel: each kind of cheek alone, or the end of a crank of one piece."""
    if asked.plain.crank.built == "one_piece":
        yield _end(asked, places, unit)
        return
    outer = [cheek for cheek in places.cheeks if len(cheek.pins) == 1]
    middle = [cheek for cheek in places.cheeks if len(cheek.pins) > 1]
    if outer:
        plated = " with its plate" if held_in_plate(asked.plain.crank.joint) else ""
        yield _outer(asked, outer[0], f"Cheek{plated}, {len(outer)} off", unit)
    if middle:
        yield _middle(asked, middle[0], unit)


def held_in_plate(joint: Joint) -> bool:
    """Whether a plate and not the cheek takes the torque."""
    return joint.plate is not None and joint.plate_thickness > 0


def hole_of(joint: Joint) -> Fitted:
    """The hole that a pin is held in: smaller than the pin by what the file asks for."""
    if joint.kind in ("polygon", "splined"):
        return Fitted(f"spline {diameter(joint.diameter)}"
                      if joint.kind == "splined"
                      else f"{joint.flats} flats, {bare(joint.diameter)} across", "")  # fmt: skip
    return fitted(joint.diameter - joint.interference, "JS6")


def _webs(pins: Sequence[PinPlace], half: float, unit: float) -> list[Shape]:
    """From the shaft's axis to each pin, half circles at both ends; one outline round all."""
    across = [pin for pin in pins if math.dist(pin.centre, pins[0].centre) > 1e-6]
    if across and math.dist(across[0].centre, (-pins[0].centre[0], -pins[0].centre[1])) < 1e-6:
        return [Region((slot(pins[0].centre, across[0].centre, half),))]
    shapes: list[Shape] = [Region((slot(_AXIS, pin.centre, half),)) for pin in pins]
    if across:
        # hides where one outline runs into the other
        inner = half - 0.3 * unit
        shapes += [Region((slot(_AXIS, pin.centre, inner),), "paper", None) for pin in pins]
    return shapes


def _hole(joint: Joint, centre: Point, reach: float) -> list[Shape]:
    """A hole with what holds a pin in it."""
    radius = 500 * (joint.diameter - joint.interference)
    size = 500 * joint.cross_pin_diameter
    if joint.kind == "polygon":
        return [Region((shifted(polygon_loop(joint), *centre),))]
    if joint.kind == "keyed":
        return [Region((shifted(bore_loop(joint, radius), *centre),))]
    found: list[Shape] = [Disc(centre, radius)]
    if joint.kind == "splined":
        found.append(Disc(centre, 0.9 * radius, "none", "thin"))
    elif joint.kind == "pinned" and is_across(joint):
        for side in (-size, size):
            y = centre[1] + side
            found.append(Stroke(line((centre[0] - reach, y), (centre[0] + reach, y)), "hidden"))
    elif joint.kind == "pinned":
        found += [Disc(at(centre, radius, math.pi / 2 + turn), size) for turn in turns(joint)]
    return found


def _hole_words(path: str, joint: Joint, centre: Point, toward: float) -> Iterator[Pointer]:
    made = hole_of(joint)
    radius = 500 * (joint.diameter - joint.interference)
    value = joint.diameter
    if joint.kind not in ("polygon", "splined"):
        value -= joint.interference
    lean = math.radians(toward)
    tip = at(centre, radius, lean)
    yield Pointer(made.text, tip, toward, f"{path}.diameter", value, made.limits)
    if joint.kind == "pinned" and is_across(joint):
        size = joint.cross_pin_diameter
        pins = fitted(size, "H7")
        many = f"{joint.cross_pins} × " if joint.cross_pins > 1 else ""
        tip = (centre[0] + radius * 1.2, centre[1] + 500 * size)
        yield Pointer(f"{many}{pins.text} across", tip, toward, f"{path}.cross_pin_diameter", size,
                      pins.limits)  # fmt: skip
    else:
        yield from key_pointer(path, joint, radius, centre, toward)


def _outer(asked: Asked, cheek: CheekPlace, title: str, unit: float) -> View:
    crank, pin = asked.plain.crank, cheek.pins[0]
    half = 500 * crank.cheek_width
    shapes = _webs([pin], half, unit)
    words: list[Pointer] = []
    for path, joint, centre, toward, radius in (
        ("crank.joint", crank.joint, pin.centre, 35.0, 500 * crank.crankpin_diameter),
        ("crank.journal.joint", crank.journal.joint, _AXIS, -35.0,
         500 * crank.main_journal_diameter),
    ):  # fmt: skip
        if joint.kind == "solid":
            shapes.append(Disc(centre, radius))
            continue
        shapes += _hole(joint, centre, half)
        words += _hole_words(path, joint, centre, toward)
    return View("detail", tuple(shapes), tuple(_axes([pin], half, unit)),
                tuple(_sizes(asked, pin, half)), tuple(words), title)  # fmt: skip


def _sizes(asked: Asked, pin: PinPlace, half: float) -> Iterator[Size]:
    crank = asked.plain.crank
    low, side = (-half, 0.0), half
    yield level("crank.cheek_width", crank.cheek_width, low, (side, 0.0), "below",
                asked.limited(crank.cheek_width, -0.2, 0.2))  # fmt: skip
    yield _throw(asked, pin, "left")


def _throw(asked: Asked, pin: PinPlace, side: Side) -> Size:
    """The crank radius, where the pin stands straight up."""
    return level("cylinder.stroke", 1e-3 * pin.throw, (0.0, 0.0), (0.0, pin.throw), side,
                 asked.limited(1e-3 * pin.throw, -_THROW, _THROW))  # fmt: skip


def _axes(pins: Sequence[PinPlace], half: float, unit: float) -> Iterator[Centreline]:
    out = half + 3.0 * unit
    for x, y in dict.fromkeys([_AXIS, *(pin.centre for pin in pins)]):
        yield Centreline((x - out, y), (x + out, y))
    xs = sorted({round(x, 6) for x in (0.0, *(pin.centre[0] for pin in pins))})
    low = min(0.0, *(pin.centre[1] for pin in pins)) - out
    high = max(0.0, *(pin.centre[1] for pin in pins)) + out
    for x in xs:
        yield Centreline((x, low), (x, high))


def _middle(asked: Asked, cheek: CheekPlace, unit: float) -> View:
    """The cheek between two pins that no journal parts."""
    crank = asked.plain.crank
    half, first, second = 500 * crank.cheek_width, cheek.pins[0], cheek.pins[1]
    shapes = _webs(cheek.pins, half, unit)
    words: list[Pointer] = []
    for pin in cheek.pins:
        if crank.joint.kind == "solid":
            shapes.append(Disc(pin.centre, 500 * crank.crankpin_diameter))
        else:
            shapes += _hole(crank.joint, pin.centre, half)
    if crank.joint.kind != "solid":
        words += _hole_words("crank.joint", crank.joint, first.centre, 35.0)
    level_ = min(pin.level for pin in cheek.pins)
    sizes = [
        level("crank.cheek_width", crank.cheek_width, (-half, level_), (half, level_), "below",
              asked.limited(crank.cheek_width, -0.2, 0.2)),
    ]  # fmt: skip
    if abs(abs(second.turn) - math.pi) < 1e-6:
        sizes.append(
            level("cylinder.stroke", 2e-3 * first.throw, second.centre, first.centre, "left",
                  asked.limited(2e-3 * first.throw, -_THROW, _THROW))
        )  # fmt: skip
    else:
        sizes.append(_throw(asked, first, "left"))
    words += _apart(second)
    return View("detail", tuple(shapes), tuple(_axes(cheek.pins, half, unit)), tuple(sizes),
                tuple(words), "Middle cheek, 1 off")  # fmt: skip


def _apart(second: PinPlace) -> Iterator[Pointer]:
    """How far the second pin is turned from the first, where a size can't show it."""
    degrees = round(math.degrees(second.turn), 2)
    if degrees % 180:
        way = "clockwise" if degrees > 0 else "anticlockwise"
        yield Pointer(f"{abs(degrees):g}° {way}", second.centre, -60.0)


def _end(asked: Asked, places: CrankPlaces, unit: float) -> View:
    """A crank of one piece from its flywheel end."""
    crank = asked.plain.crank
    half, first = 500 * crank.cheek_width, places.pins[0]
    kinds = [first, *(p for p in places.pins[1:] if math.dist(p.centre, first.centre) > 1e-6)]
    shapes = _webs(kinds, half, unit)
    shapes += [Disc(pin.centre, 500 * crank.crankpin_diameter, "none", "hidden") for pin in kinds]
    shapes.append(Disc(_AXIS, 500 * crank.main_journal_diameter))
    words = [word for pin in kinds[1:] for word in _apart(pin)]
    return View("right", tuple(shapes), tuple(_axes(kinds, half, unit)),
                tuple(_sizes(asked, first, half)), tuple(words))  # fmt: skip


__all__ = ["cheek_views", "held", "held_in_plate", "hole_of"]
