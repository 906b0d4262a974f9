"""The crank: along its axis, the flywheel's end to the left, and its cheeks from their face."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.drawing.drive_parts import broken
from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.drawing.workshop.asked import Asked, coat, stuff
from firstfire.drawing.workshop.crank_cheek import cheek_views, held_in_plate
from firstfire.drawing.workshop.crank_sizes import CheekPlace, CrankPlaces, crank_places, held
from firstfire.drawing.workshop.crank_words import notes, open_things
from firstfire.drawing.workshop.fitted import bare, fitted
from firstfire.drawing.workshop.view import PartDrawing, Pointer, Size, View, finish, level

_STUB = 8.0  # mm of shaft drawn beyond its last bearing, before it is broken off


def crank(asked: Asked) -> PartDrawing:
    """Drawing of the crank."""
    said = asked.plain.crank
    places = crank_places(asked.plain)
    return PartDrawing(
        part="crank", kind="cheek", title="Crank", material=stuff(asked, said.material), pieces=1,
        finish=coat("none"), views=lambda unit: _views(asked, places, unit),
        notes=tuple(notes(asked, places)), open=tuple(open_things(asked)),
    )  # fmt: skip


def _views(asked: Asked, places: CrankPlaces, unit: float) -> tuple[View, ...]:
    return _front(asked, places, unit), *cheek_views(asked, places, unit)


def _front(asked: Asked, places: CrankPlaces, unit: float) -> View:
    said = asked.plain.crank
    cut = said.built == "built_up"
    shapes: list[Shape] = []
    if _journal_depth(asked) > 0:
        shapes += [*_cheeks(asked, places, cut=cut), *_plates(asked, places)]
        shapes += _shafts(asked, places)
    else:
        # of one piece: the shaft ends at the cheeks' faces
        shapes += [*_shafts(asked, places), *_cheeks(asked, places, cut=cut)]
        shapes += _plates(asked, places)
    shapes += _pins(asked, places)
    return View(
        "front", tuple(shapes), tuple(_axes(asked, places, unit)), tuple(_sizes(asked, places)),
        tuple(_words(asked, places)),
    )  # fmt: skip


def _levels(asked: Asked, cheek: CheekPlace) -> tuple[float, float]:
    """Lower and upper end of a cheek in this view."""
    half = 500 * asked.plain.crank.cheek_width
    levels = [pin.level for pin in cheek.pins]
    if len(levels) == 1:
        levels.append(0.0)
    return min(levels) - half, max(levels) + half


def _cheeks(asked: Asked, places: CrankPlaces, *, cut: bool) -> Iterator[Shape]:
    fill = hatch(asked.plain.materials[asked.plain.crank.material]) if cut else "paper"
    for cheek in places.cheeks:
        low, high = _levels(asked, cheek)
        yield Region((rectangle(cheek.left, low, cheek.right, high),), fill)


def _plates(asked: Asked, places: CrankPlaces) -> Iterator[Shape]:
    """Let into the cheeks' inner faces, from pin to shaft."""
    joint = asked.plain.crank.joint
    if not held_in_plate(joint):
        return
    thick, rim = 1e3 * joint.plate_thickness, 2.0
    for cheek in places.cheeks:
        low, high = _levels(asked, cheek)
        for pin in cheek.pins:
            left = cheek.right - thick if abs(cheek.right - pin.left) < 1e-6 else cheek.left
            box = rectangle(left, low + rim, left + thick, high - rim)
            yield Region((box,), "metal left")


def _shafts(asked: Asked, places: CrankPlaces) -> Iterator[Shape]:
    """Journals: in their cheeks where they are pieces of their own, broken off at both ends."""
    crank = asked.plain.crank
    radius = 500 * crank.main_journal_diameter
    deep = _journal_depth(asked)
    left, right = _shaft_ends(asked, places)
    for near, far in ((left, places.ends[0] + deep), (places.ends[1] - deep, right)):
        yield Region((rectangle(near, -radius, far, radius),), "paper", None)
        for y in (-radius, radius):
            yield Stroke(line((near, y), (far, y)))
    if deep > 0:
        for x in (places.ends[0] + deep, places.ends[1] - deep):
            yield Stroke(line((x, -radius), (x, radius)))
    for x in (left, right):
        yield broken((x, -radius), (x, radius))
    for near, far in places.between:
        yield Region((rectangle(near - deep, -radius, far + deep, radius),))


def _journal_depth(asked: Asked) -> float:
    """How far a loose journal reaches into its cheek: through it where a plate lies inside."""
    crank = asked.plain.crank
    thick = 1e3 * crank.cheek_thickness
    if crank.journal.joint.kind != "solid" and held_in_plate(crank.journal.joint):
        return thick
    return held(crank.journal.joint, thick)


def _shaft_ends(asked: Asked, places: CrankPlaces) -> tuple[float, float]:
    half = 500 * asked.plain.crank.main_bearing_width
    left = min(places.ends[0], min(places.bearings) - half) - _STUB
    right = max(places.ends[1], max(places.bearings) + half) + _STUB
    return left, right


def _pins(asked: Asked, places: CrankPlaces) -> Iterator[Shape]:
    crank = asked.plain.crank
    radius = 500 * crank.crankpin_diameter
    deep = held(crank.joint, 1e3 * crank.cheek_thickness)
    for pin in places.pins:
        box = rectangle(pin.left - deep, pin.level - radius, pin.right + deep, pin.level + radius)
        yield Region((box,))
        rod = 500 * crank.through_rod_diameter
        if rod > 0:
            for y in (-rod, rod):
                ends = (pin.left - deep, pin.level + y), (pin.right + deep, pin.level + y)
                yield Stroke(line(*ends), "hidden")


def _axes(asked: Asked, places: CrankPlaces, unit: float) -> Iterator[Centreline]:
    over = 3.0 * unit
    left, right = _shaft_ends(asked, places)
    yield Centreline((left - over, 0.0), (right + over, 0.0))
    thick = 1e3 * asked.plain.crank.cheek_thickness
    for pin in places.pins:
        ends = pin.left - thick - over, pin.right + thick + over
        yield Centreline((ends[0], pin.level), (ends[1], pin.level))
    reach = 500 * asked.plain.crank.main_journal_diameter + over
    for x in places.bearings:
        yield Centreline((x, -reach), (x, reach))


def _sizes(asked: Asked, places: CrankPlaces) -> Iterator[Size]:
    crank, first, cheek = asked.plain.crank, places.pins[0], places.cheeks[0]
    low = min(_levels(asked, c)[0] for c in places.cheeks)
    yield level(
        "crank.crankpin_length",
        crank.crankpin_length,
        (first.left, low),
        (first.right, low),
        "below",
        asked.limited(crank.crankpin_length, 0.0, 0.1),
    )
    yield level(
        "crank.cheek_thickness",
        crank.cheek_thickness,
        (cheek.left, low),
        (cheek.left + 1e3 * crank.cheek_thickness, low),
        "below",
    )
    radius = 500 * crank.main_journal_diameter
    if len(places.bearings) > 1:
        ends = places.bearings[0], places.bearings[-1]
        half = 1e-3 * (ends[1] - ends[0])
        yield level(
            "crank.bearing_span",
            half,
            (ends[0], -radius),
            (ends[1], -radius),
            "below",
            asked.limited(half, -0.1, 0.1),
        )
    if len(places.pins) > 1:
        middles = [((pin.left + pin.right) / 2, pin.level) for pin in places.pins]
        yield level("layout.cylinder_spacing", 1e-3 * (middles[1][0] - middles[0][0]), middles[0],
                    middles[1], "above", asked.limited(
                        1e-3 * (middles[1][0] - middles[0][0]), -0.1, 0.1))  # fmt: skip


def _words(asked: Asked, places: CrankPlaces) -> Iterator[Pointer]:
    crank, first = asked.plain.crank, places.pins[0]
    radius = 500 * crank.main_journal_diameter
    seat = fitted(crank.main_journal_diameter, "js6")
    spot: Point = (places.bearings[0] - 0.25e3 * crank.main_bearing_width, radius)
    yield Pointer(
        seat.text,
        spot,
        115.0,
        "crank.main_journal_diameter",
        crank.main_journal_diameter,
        seat.limits,
    )
    yield finish(0.8, (places.bearings[-1] + 0.25e3 * crank.main_bearing_width, radius), 60.0)
    across = fitted(crank.crankpin_diameter, "h6")
    pin_radius = 500 * crank.crankpin_diameter
    width = first.right - first.left
    yield Pointer(
        across.text,
        (first.left + 0.35 * width, first.level + pin_radius),
        100.0,
        "crank.crankpin_diameter",
        crank.crankpin_diameter,
        across.limits,
    )
    last = places.pins[-1]
    tip = (last.left + 0.65 * width, last.level + pin_radius)
    yield finish(0.4, tip, 75.0)
    if crank.journal.joint.kind == "solid":
        corner = (places.ends[0], -radius)
        yield Pointer(
            f"R{bare(crank.journal.fillet)}",
            corner,
            -135.0,
            "crank.journal.fillet",
            crank.journal.fillet,
        )
    if held_in_plate(crank.joint):
        thick, cheek = crank.joint.plate_thickness, places.cheeks[0]
        top = _levels(asked, cheek)[1] - 2.0
        yield Pointer(
            f"plate {bare(thick)} thick",
            (cheek.right - 500 * thick, top),
            120.0,
            "crank.joint.plate_thickness",
            thick,
        )
