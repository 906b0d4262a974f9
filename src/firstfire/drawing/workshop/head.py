"""The head: cut through its valves, and its fire side. The bore's axis is at 0, its face at 0."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.drawing.frame import Frame
from firstfire.drawing.making import hatch
from firstfire.drawing.model import Centreline, Disc, Loop, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import at, polygon, rectangle
from firstfire.drawing.sizes import CylinderSizes, ValveSizes, cylinder_sizes, volume_in_head
from firstfire.drawing.workshop.asked import Asked, coat, stuff, trial, within
from firstfire.drawing.workshop.fitted import bare, diameter
from firstfire.drawing.workshop.signs import cutting_plane
from firstfire.drawing.workshop.view import PartDrawing, Pointer, Size, View, finish, level
from firstfire.errors import CatalogError
from firstfire.verdict.numbers import shown


def head(asked: Asked) -> PartDrawing:
    """Drawing of a cylinder's head."""
    said = asked.parts.head
    pieces = asked.alike(
        lambda c: (c.head, c.valves, c.cylinder, c.gasket, c.plug, c.runner.diameter,
                   c.stub.diameter)
    )  # fmt: skip
    return PartDrawing(
        part="head", kind="head", title="Head", material=stuff(asked, said.material),
        pieces=pieces, finish=coat(said.coating), views=lambda unit: _views(asked, unit),
        notes=(*_notes(asked), *asked.others("head", pieces)), open=tuple(_open(asked)),
    )  # fmt: skip


def _overhead(asked: Asked) -> bool:
    return asked.parts.valves.placed == "overhead"


def _views(asked: Asked, unit: float) -> tuple[View, ...]:
    """Levels are counted from the face, places from the bore's axis."""
    s = cylinder_sizes(asked.plain, asked.number - 1, 0.0)
    place = Frame(origin=(-s.x, -s.face))
    return _cut(asked, s, place, unit), _fire_side(asked, s, place, unit)


def _axis_of(valve: ValveSizes) -> tuple[float, float]:
    return math.sin(valve.lean), math.cos(valve.lean)


def _throat(valve: ValveSizes, place: Frame, top: float) -> Loop:
    """A throat's straight bore from its seat up to where the flange ends."""
    own = Frame(valve.lean, False, (valve.x, valve.y))
    right, up = _axis_of(valve)
    ends = [place.point(own.point((side * valve.throat, 0.0))) for side in (-1.0, 1.0)]
    tops = [(x + (top - y) * right / up, top) for x, y in ends]
    return polygon(ends[0], ends[1], tops[1], tops[0])


def _cut(asked: Asked, s: CylinderSizes, place: Frame, unit: float) -> View:
    said, over = asked.parts.head, 3.0 * unit
    half, high = 500 * said.diameter, 1e3 * said.thickness
    fill = hatch(asked.plain.materials[said.material])
    holes = [_throat(v, place, high) for v in s.valves] if _overhead(asked) else []
    shapes: list[Shape] = [Region((rectangle(-half, 0.0, half, high), *holes), fill)]
    roof = place.loop(s.roof_line())
    shapes += [Stroke(roof, "phantom")]
    axes = [Centreline((0.0, -over), (0.0, high + over))]
    sizes = [
        Size("head.diameter", said.diameter, diameter(said.diameter), (-half, 0.0), (half, 0.0),
             "below"),
        level("head.thickness", said.thickness, (half, 0.0), (half, high), "right"),
    ]  # fmt: skip
    if _overhead(asked):
        centres = [place.point((v.x, v.y)) for v in s.valves]
        for v, (x, y) in zip(s.valves, centres, strict=True):
            right, up = _axis_of(v)
            far = high + 2 * over - y
            axes.append(Centreline((x - over * right, y - over * up),
                                   (x + far * right / up, y + far)))  # fmt: skip
        sizes.append(_between(centres))
    words = tuple(_lean(asked, s, place, high))
    return View("front", tuple(shapes), tuple(axes), tuple(sizes), words, title="A–A")


def _between(centres: list[Point]) -> Size:
    """The two valves' axes, where they pass through their seats."""
    (x0, y0), (x1, y1) = sorted(centres)
    return level("head.valve_bridge", 1e-3 * (x1 - x0), (x0, y0), (x1, y1), "above")


def _lean(asked: Asked, s: CylinderSizes, place: Frame, high: float) -> Iterator[Pointer]:
    lean = asked.parts.head.valve_axis_angle
    if not _overhead(asked) or lean < 1e-6:
        return
    valve = max(s.valves, key=lambda v: v.x)
    x, y = place.point((valve.x, valve.y))
    right, up = _axis_of(valve)
    tip = x + (high - y) * right / up, high
    words = f"valves lean {bare(1e-3 * math.degrees(lean), 1)}° outwards"
    yield Pointer(words, tip, 60.0, "head.valve_axis_angle", lean)


def _fire_side(asked: Asked, s: CylinderSizes, place: Frame, unit: float) -> View:
    """From below; first angle puts it above. Its upper edge is the side one looks from."""
    said, bolts = asked.parts.head, asked.parts.head.fasteners
    half, circle, over = 500 * said.diameter, 500 * bolts.circle_diameter, 3.0 * unit
    hole = 500 * _clearance(asked)
    shapes: list[Shape] = [
        Disc((0.0, 0.0), half),
        Disc((0.0, 0.0), s.chamber, "none", "phantom"),
        Disc((0.0, 0.0), circle, "none", "centre"),
    ]
    places = bolt_places(bolts.count, circle)
    shapes += [Disc(centre, hole) for centre in places]
    face = at((0.0, 0.0), (circle + half) / 2, math.radians(205))
    pointers = [_bolt_words(asked, places, hole), finish(1.6, face, 205.0)]
    if _overhead(asked):
        for v in s.valves:
            x, _ = place.point((v.x, v.y))
            shapes += [Disc((x, 0.0), v.head, "none", "thin"), Disc((x, 0.0), v.throat)]
            out = 1.0 if x > 0 else -1.0
            lean = math.radians(90 - out * 50)
            tip = x + v.throat * math.cos(lean), v.throat * math.sin(lean)
            across = v.valve.throat_diameter
            pointers.append(
                Pointer(f"{v.which} throat {diameter(across)}", tip, 90 - out * 42,
                        f"valves.{v.which}.throat_diameter", across)
            )  # fmt: skip
    shapes += cutting_plane(((-half - over, 0.0), (half + over, 0.0)), -1.0, "A", unit)
    axes = [
        Centreline((-half - over, 0.0), (half + over, 0.0)),
        Centreline((0.0, -half - over), (0.0, half + over)),
    ]
    if _overhead(asked):
        for v in s.valves:
            x, _ = place.point((v.x, v.y))
            axes.append(Centreline((x, -v.head - over), (x, v.head + over)))
    sizes = (
        Size("head.fasteners.circle_diameter", bolts.circle_diameter,
             diameter(bolts.circle_diameter), (-circle, 0.0), (circle, 0.0), "below"),
    )  # fmt: skip
    return View("above", tuple(shapes), tuple(axes), sizes, tuple(pointers))


def bolt_places(count: int, radius: float) -> list[Point]:
    """Bolts evenly round the bore, none of them in line with the valves if that can be."""
    first = math.pi / count
    return [at((0.0, 0.0), radius, first + 2 * math.pi * k / count) for k in range(count)]


def _clearance(asked: Asked) -> float:
    """Hole for a head screw, m: the catalog's, or a tenth over the thread where it has none."""
    thread = asked.parts.head.fasteners.thread
    try:
        row = asked.catalog.row("thread", thread)
        return (
            row.si("clearance_hole") if "clearance_hole" in row.data else 1.1 * row.si("diameter")
        )
    except CatalogError:
        return 1.1 * asked.parts.head.fasteners.washer_diameter / 2


def _bolt_words(asked: Asked, places: list[Point], hole: float) -> Pointer:
    """At the lowest hole on the right, where nothing else is said."""
    said = asked.parts.head.fasteners
    x, y = min(places, key=lambda p: (round(p[1], 6), -p[0]))
    lean = math.radians(-40)
    tip = x + hole * math.cos(lean), y + hole * math.sin(lean)
    text = f"{said.count} × {diameter(2e-3 * hole)} through, evenly round"
    return Pointer(text, tip, -25.0, "head.fasteners.thread", 2e-3 * hole)


def _notes(asked: Asked) -> Iterator[str]:
    parts, valves = asked.parts, asked.parts.valves
    left = volume_in_head(parts)
    ratio = f"{parts.cylinder.compression_ratio:.3g}"
    if left > 0:
        yield (
            f"Chamber (chain line): {shown(left, 'cm^3')} in the head over its face, valves shut, "
            f"plug in; with gasket and deck it gives a ratio of {ratio}. Measure it with oil."
        )
    gasket = parts.gasket
    if gasket.kind != "none":
        inner, outer = gasket.inside_diameter, gasket.inside_diameter + 2 * gasket.width
        yield (
            f"Face flat within 0.05 where the gasket lies, {diameter(inner)} to {diameter(outer)}."
        )
    if _overhead(asked):
        for which, valve in (("Inlet", valves.inlet), ("Exhaust", valves.exhaust)):
            yield (
                f"{which}: valve head {diameter(valve.head_diameter)}, stem "
                f"{diameter(valve.stem_diameter)}, seat {shown(valve.seat_angle, 'deg')}; its ring "
                f"of {within(asked, valve.seat_material)} is "
                f"{bare(valve.seat_interference, 3)} larger than its hole."
            )
    if parts.head.fins.count:
        fins = parts.head.fins
        yield (
            f"{fins.count} fins, not drawn: {bare(fins.length)} long, {bare(fins.thickness)} "
            f"thick, {bare(fins.gap)} apart."
        )
    if parts.head.chamber_plate is not None and parts.head.chamber_plate_thickness > 0:
        yield (
            f"Lined by a chamber plate of {within(asked, parts.head.chamber_plate)}, "
            f"{bare(parts.head.chamber_plate_thickness)} thick, within that volume's walls."
        )
    yield from trial(parts.head.made, "head")


def _open(asked: Asked) -> Iterator[str]:
    parts = asked.parts
    plug = parts.plug.thread
    yield f"shape of the chamber; place and lean of the plug's hole ({plug}, between the valves)"
    if _overhead(asked):
        yield "where the pair of valves stands about the bore's axis (drawn: heads evenly)"
        yield "outside and depth of seat rings (1.1 valve heads is common); guides and their holes"
        yield (
            f"ports (inlet {diameter(parts.runner.diameter)}, exhaust "
            f"{diameter(parts.stub.diameter)}) and the block over the flange that carries them, "
            "springs and cam"
        )
    else:
        yield "room in the chamber over the valves, which stand beside the bore"
    yield "how the bolts are turned against the valves (drawn: between them)"
