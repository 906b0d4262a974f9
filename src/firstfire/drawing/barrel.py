"""Liner, body, gasket and what holds the head down, in section through the bore's axis."""

from __future__ import annotations

from firstfire.drawing import catalogued
from firstfire.drawing import conventions as by
from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Disc, Fill, Loop, Part, Region, Shape, Stroke
from firstfire.drawing.outlines import line, mirrored, polygon, rectangle, shifted
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine


def both(loop: Loop, s: CylinderSizes, fill: Fill, pen: str | None = "outline") -> Region:
    """An outline right of the bore's axis and its mirror image, about that axis."""
    return Region(
        (shifted(loop, s.x, 0), shifted(mirrored(loop), s.x, 0)),
        fill,
        pen,  # type: ignore[arg-type]
    )


def barrel(plain: PlainEngine, s: CylinderSizes, case_top: float) -> list[Part]:
    """Body, liner, the liner's bore and the gasket."""
    parts, n = s.parts, s.number
    outside = 500 * parts.liner.outside_diameter
    liner = rectangle(s.bore, s.liner_end, outside, s.deck)
    surface = tuple(
        Stroke(line((s.x + side * s.bore, s.liner_end), (s.x + side * s.bore, s.deck)))
        for side in (-1, 1)
    )
    return [
        made(plain, "body", n, *_body(plain, s, case_top)),
        made(plain, "liner", n, both(liner, s, hatch(plain.materials[parts.liner.material]))),
        made(plain, "charge", n, *_charge(s)),
        made(plain, "bore", n, *surface),
        *_gasket(plain, s),
    ]


def _charge(s: CylinderSizes) -> list[Shape]:
    """The bore's far wall, and what is between crown and head at this moment of the cycle."""
    wall = rectangle(s.x - s.bore, s.liner_end, s.x + s.bore, s.deck)
    between = rectangle(s.x - s.bore, s.crown, s.x + s.bore, s.face)
    return [Region((wall,), "paper", None), Region((between,), s.gas, None),
            Region((tuple(s.roof_line()),), s.gas, None)]  # fmt: skip


def _body(plain: PlainEngine, s: CylinderSizes, case_top: float) -> list[Shape]:
    """A tube with a flange at its head end, and one at the case where bolts go through."""
    parts = s.parts
    inside, outside = 500 * parts.liner.outside_diameter, 500 * parts.body.outside_diameter
    wide = max(outside, 500 * parts.head.diameter)
    high = flange_height(s)
    low = s.deck - high
    loop = polygon(
        (inside, case_top), (outside, case_top), (outside, low), (wide, low), (wide, s.deck),
        (inside, s.deck),
    )  # fmt: skip
    fill = hatch(plain.materials[parts.body.material], left=True)
    radius = bolt_circle(s)
    hole = catalogued.screw(parts.head.fasteners.thread).diameter / 2
    if parts.head.fasteners.kind == "inserts":
        hole = _insert(s).outside / 2
    depth = high if not into_body(s) else min(high, 1e3 * parts.head.fasteners.engaged_length + 1)
    holes = rectangle(radius - hole, s.deck - depth, radius + hole, s.deck)
    loops = (loop, holes) if radius + hole < wide else (loop,)
    every = tuple(shifted(x, s.x, 0) for x in loops)
    return [
        Region(every, fill),
        Region(tuple(shifted(mirrored(x), s.x, 0) for x in loops), fill),
    ]


def flange_height(s: CylinderSizes) -> float:
    """Height of the body's flange under the head."""
    high = 2 * by.FLANGE * s.bore
    if into_body(s):
        high = max(high, 1e3 * s.parts.head.fasteners.engaged_length + 4.0)
    return min(high, 0.5 * (s.deck - s.liner_end))


def into_body(s: CylinderSizes) -> bool:
    """Whether the head's screws end in the body and not in the case."""
    return s.parts.head.fasteners.kind in ("screws", "inserts")


def bolt_circle(s: CylinderSizes) -> float:
    """Radius on which the head's bolts stand."""
    return 500 * s.parts.head.fasteners.circle_diameter


def _insert(s: CylinderSizes) -> catalogued.Insert:
    fasteners = s.parts.head.fasteners
    found = catalogued.insert(fasteners.insert, 1e3 * s.bolt)
    return catalogued.Insert(found.outside, 1e3 * fasteners.engaged_length)


def _gasket(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    gasket, n = s.parts.gasket, s.number
    inside = 500 * gasket.inside_diameter
    if gasket.kind == "none":
        return []
    if gasket.kind == "o_ring" or gasket.thickness <= 0:
        # an O-ring's groove is in the body; its section is drawn half the ring's width
        radius = max(0.25e3 * gasket.width, 0.6)
        rings = [
            Disc((s.x + side * (inside + 2 * radius), s.deck - 0.8 * radius), radius, "rubber")
            for side in (-1, 1)
        ]
        return [made(plain, "gasket", n, *rings)]
    strip = rectangle(inside, s.deck, inside + 1e3 * gasket.width, s.face)
    fill: Fill = "metal" if gasket.kind == "metal" and gasket.thickness > 2e-3 else "solid"
    return [made(plain, "gasket", n, both(strip, s, fill, "thin"))]


def fasteners(plain: PlainEngine, s: CylinderSizes, case_top: float) -> list[Part]:
    """What holds the head down and its washers, turned into the plane of the section.

    As many as the file has are seen from both sides: two are drawn, and their number is written.
    """
    said, n = s.parts.head.fasteners, s.number
    bolt = catalogued.screw(said.thread)
    radius = bolt_circle(s)
    washer = by.WASHER * bolt.diameter
    under = s.flange + washer
    washers = rectangle(
        radius - 500 * said.washer_diameter, s.flange, radius + 500 * said.washer_diameter, under
    )
    return [
        made(plain, "fasteners", n, *_screws(s, bolt, radius, under, case_top)),
        made(plain, "washers", n, both(washers, s, "solid", "thin")),
    ]


def _screws(
    s: CylinderSizes, bolt: catalogued.Screw, radius: float, under: float, case_top: float
) -> list[Shape]:
    said = s.parts.head.fasteners
    thick, flats = bolt.diameter / 2, bolt.flats / 2 * 2 / 3**0.5
    end = s.deck - 1e3 * said.engaged_length
    shapes: list[Shape] = []
    if said.kind == "inserts":
        ring = _insert(s)
        sleeve = rectangle(radius - ring.outside / 2, s.deck - ring.length,
                           radius + ring.outside / 2, s.deck)  # fmt: skip
        shapes.append(both(sleeve, s, "metal left"))
    if not into_body(s):
        end = nut_level(s, case_top)
        if said.through:
            end -= 1.3 * bolt.nut
            nut = rectangle(radius - flats, end + 0.3 * bolt.nut, radius + flats,
                            end + 1.3 * bolt.nut)  # fmt: skip
            shapes.append(both(nut, s, "paper"))
        else:
            end = case_top - 1e3 * said.engaged_length
    shapes.append(both(rectangle(radius - thick, end, radius + thick, under), s, "paper"))
    top = under + (bolt.nut if said.stud else bolt.head)
    shapes.append(both(rectangle(radius - flats, under, radius + flats, top), s, "paper"))
    if said.stud:
        tip = rectangle(radius - thick, top, radius + thick, top + 0.4 * bolt.diameter)
        shapes.append(both(tip, s, "paper"))
    # edges of the hexagon, and the thread by a thin line at its core (ISO 6410-1)
    core = thick - 0.61 * _pitch(s)
    reach = end + 2.0 * bolt.diameter
    for side in (-1, 1):
        for x in (radius - flats / 2, radius + flats / 2):
            shapes.append(Stroke(line((s.x + side * x, under), (s.x + side * x, top)), "thin"))
        for x in (radius - core, radius + core):
            shapes.append(Stroke(line((s.x + side * x, end), (s.x + side * x, reach)), "thin"))
    return shapes


def _pitch(s: CylinderSizes) -> float:
    return 0.16 * 1e3 * s.bolt


def nut_level(s: CylinderSizes, case_top: float) -> float:
    """Underside of the case's flange, where a through-bolt's nut bears."""
    return case_top - case_flange(s)


def case_flange(s: CylinderSizes) -> float:
    """Thickness of the case's flange under the body."""
    return max(6.0, 2 * by.FLANGE * s.bore)
