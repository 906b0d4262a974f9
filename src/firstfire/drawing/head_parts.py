"""The head with its chamber, ports, seats and guides, and the plug behind."""

from __future__ import annotations

import math

from firstfire.drawing import catalogued
from firstfire.drawing import conventions as by
from firstfire.drawing.barrel import bolt_circle, both
from firstfire.drawing.frame import Frame
from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import bulge, line, mirrored, polygon, rectangle, shifted
from firstfire.drawing.sizes import CylinderSizes, ValveSizes
from firstfire.engine.resolve import PlainEngine


def valve_frame(valve: ValveSizes) -> Frame:
    """From the middle of a valve's seat, its axis upwards."""
    return Frame(valve.lean, False, (valve.x, valve.y))


def head(plain: PlainEngine, s: CylinderSizes, *, along: bool = False) -> list[Part]:
    """Head, chamber plate and face, ports, seats and guides.

    Parameters
    ----------
    plain
        The engine.
    s
        The cylinder.
    along
        Seen along the crank's side: the ports then leave towards the reader.
    """
    n, parts = s.number, s.parts
    fill = hatch(plain.materials[parts.head.material])
    holes = [passage(s, valve, along=along) for valve in s.valves]
    silhouette = _silhouette(s)
    found = [
        made(plain, "inlet-port", n, *_gas(s, s.inlet, along=along)),
        made(plain, "exhaust-port", n, *_gas(s, s.exhaust, along=along)),
        made(plain, "head", n, Region((silhouette, *holes, *_bolt_holes(s)), fill)),
    ]
    if parts.head.chamber_plate and parts.head.chamber_plate_thickness > 0:
        found.append(_plate(plain, s))
    else:
        found.append(made(plain, "chamber-face", n, Stroke(s.roof_line(), "heavy")))
    seats: list[Shape] = []
    for valve in s.valves:
        seats += _seat_and_guide(plain, valve)
    return [*found, made(plain, "seats", n, *seats)]


def _silhouette(s: CylinderSizes) -> Loop:
    """A flange on which the screws bear, and a block that carries ports and guides."""
    wide, half = 500 * s.parts.head.diameter, s.block_half
    wide = max(wide, half)
    outside = polygon(
        (s.x + wide, s.face), (s.x + wide, s.flange), (s.x + half, s.flange),
        (s.x + half, s.block), (s.x - half, s.block), (s.x - half, s.flange),
        (s.x - wide, s.flange), (s.x - wide, s.face),
    )  # fmt: skip
    return (*outside, *s.roof_line())


def _bolt_holes(s: CylinderSizes) -> list[Loop]:
    said = s.parts.head.fasteners
    half = catalogued.screw(said.thread).diameter / 2 + 0.25
    radius = bolt_circle(s)
    if radius + half >= 500 * s.parts.head.diameter or radius - half <= s.chamber:
        return []
    hole = rectangle(radius - half, s.face, radius + half, s.flange)
    return [shifted(hole, s.x, 0), shifted(mirrored(hole), s.x, 0)]


def outlet(s: CylinderSizes, valve: ValveSizes) -> tuple[float, float, float]:
    """Where a port leaves the head: x, and the levels of its floor and its roof."""
    side = 1.0 if valve.x > s.x else -1.0
    high = valve.y + valve.port_top
    return s.x + side * s.block_half, high - valve.port, high


def passage(s: CylinderSizes, valve: ValveSizes, *, along: bool = False) -> Loop:
    """All that is cut out of the head for one valve: seat, throat, port and guide."""
    place = valve_frame(valve)
    side = 1.0 if valve.x > s.x else -1.0
    guide = valve.stem + by.GUIDE_WALL
    floor, high = valve.port_top - valve.port, valve.port_top
    far = place.loop(
        polygon(
            (-side * valve.seat_out, 0), (-side * valve.seat_out, valve.seat_high),
            (-side * valve.throat, valve.seat_high),
        )
    )  # fmt: skip
    near = place.loop(
        polygon(
            (side * valve.throat, valve.seat_high), (side * valve.seat_out, valve.seat_high),
            (side * valve.seat_out, 0),
        )
    )  # fmt: skip
    stem_hole = place.loop(
        polygon((-side * guide, high), (-side * guide, valve.top), (side * guide, valve.top),
                (side * guide, high))
    )  # fmt: skip
    turn = valve.throat - guide
    round_far = place.loop(
        ((-side * valve.throat, high - turn, -side * bulge(math.pi / 2)),
         (-side * guide, high, 0.0))
    )  # fmt: skip
    if along:
        return (*far, *round_far, *stem_hole, *_blind(place, valve, side, guide), *near)
    way_out, low, _ = outlet(s, valve)
    start = place.point((side * valve.throat, floor))
    corner = min(2.5, 0.8 * (floor - valve.seat_high), abs(way_out - start[0]) * 0.8)
    corner = max(corner, 0.0)
    mouth: Loop = (
        (way_out, low + valve.port, 0.0),
        (way_out, low, 0.0),
        (start[0] + side * corner, low, side * bulge(math.pi / 2) if corner else 0.0),
        (*place.point((side * valve.throat, floor - corner)), 0.0),
    )
    return (*far, *round_far, *stem_hole, *mouth, *near)


def _blind(place: Frame, valve: ValveSizes, side: float, guide: float) -> Loop:
    """The near side of a port that leaves towards the reader: as round as the far side."""
    turn = valve.throat - guide
    return place.loop(
        ((side * guide, valve.port_top, -side * bulge(math.pi / 2)),
         (side * valve.throat, valve.port_top - turn, 0.0))
    )  # fmt: skip


def _gas(s: CylinderSizes, valve: ValveSizes, *, along: bool) -> list[Shape]:
    """What flows in a port, and seen along the crank its round mouth behind."""
    fill = "fresh" if valve.which == "inlet" else "exhaust"
    shapes: list[Shape] = [
        Region((passage(s, valve, along=along),), fill, None)  # type: ignore[arg-type]
    ]
    return shapes


def port_mouths(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    """Round mouths of ports that leave away from the reader: drawn over the ports' gas."""
    found = []
    for kind, valve in (("inlet-port", s.inlet), ("exhaust-port", s.exhaust)):
        middle = valve_frame(valve).point((0, valve.port_top - valve.port / 2))
        radius = min(valve.port / 2, valve.throat)
        circle = tuple((middle[0] + side * radius, middle[1], 1.0) for side in (-1, 1))
        found.append(made(plain, kind, s.number, Region((circle,), "none", "thin")))
    return found


def _plate(plain: PlainEngine, s: CylinderSizes) -> Part:
    """A dish of sheet that lines roof and wall of the chamber and is clamped by the gasket."""
    thick = 1e3 * s.parts.head.chamber_plate_thickness
    rim = 500 * s.parts.gasket.inside_diameter + 1e3 * s.parts.gasket.width
    rim = min(max(rim, s.chamber + thick + 1), 500 * s.parts.head.diameter)
    inside = s.roof_line()
    slope = math.tan(s.parts.head.valve_axis_angle)
    up = thick * math.sqrt(1 + slope**2)
    peak = s.roof + s.chamber * slope + up
    out = s.chamber + thick
    corner = s.roof + up - thick * slope
    middle: list[Point] = [(s.x, peak)] if slope > 1e-9 else []
    outside = polygon(
        (s.x + rim, s.face), (s.x + rim, s.face + thick), (s.x + out, s.face + thick),
        (s.x + out, corner), *middle, (s.x - out, corner), (s.x - out, s.face + thick),
        (s.x - rim, s.face + thick), (s.x - rim, s.face),
    )  # fmt: skip
    holes = [valve_frame(v).loop(rectangle(-v.seat_out, 0, v.seat_out, thick)) for v in s.valves]
    fill = hatch(plain.materials[s.parts.head.chamber_plate or ""], left=True)
    return made(plain, "chamber-plate", s.number, Region(((*outside, *inside), *holes), fill))


def _seat_and_guide(plain: PlainEngine, v: ValveSizes) -> list[Shape]:
    place = valve_frame(v)
    ring = polygon((v.head, 0), (v.seat_out, 0), (v.seat_out, v.seat_high),
                   (v.throat, v.seat_high), (v.throat, v.cone))  # fmt: skip
    guide = rectangle(v.stem, v.port_top, v.stem + by.GUIDE_WALL, v.top + by.GUIDE_ABOVE)
    seat = hatch(plain.materials[v.valve.seat_material])
    bush = hatch(plain.materials[v.valve.guide_material], left=True)
    return [
        Region((place.loop(ring), place.loop(mirrored(ring))), seat),
        Region((place.loop(guide), place.loop(mirrored(guide))), bush),
    ]


def plug(plain: PlainEngine, s: CylinderSizes) -> Part:
    """The plug behind the section, between the valves: what the head hides is dashed."""
    size = catalogued.screw(s.parts.plug.thread)
    d, half = size.diameter, size.diameter / 2
    low, high = sorted(s.valves, key=lambda v: v.x)
    x = (low.x + low.head + high.x - high.head) / 2
    roof = s.roof + max(0.0, s.chamber - abs(x - s.x)) * math.tan(s.parts.head.valve_axis_angle)
    top = s.block
    flats = size.flats / 3**0.5
    hexagon = top + by.PLUG_HEX * d
    insulator = hexagon + by.PLUG_INSULATOR * d
    end = insulator + by.PLUG_TERMINAL * d
    gap = max(1e3 * s.parts.plug.gap, 0.3)
    nose = roof - min(by.PLUG_NOSE, 0.5 * (s.roof - s.face))
    shapes: list[Shape] = [
        Region((rectangle(x - flats, top, x + flats, hexagon),)),
        Region((polygon((x - 0.42 * d, hexagon), (x + 0.42 * d, hexagon),
                        (x + 0.28 * d, insulator), (x - 0.28 * d, insulator)),)),
        Region((rectangle(x - 0.2 * d, insulator, x + 0.2 * d, end),)),
        Stroke(line((x - half, top), (x - half, roof)), "hidden"),
        Stroke(line((x + half, top), (x + half, roof)), "hidden"),
        Stroke(line((x, roof), (x, nose + gap)), "thin"),
        Stroke(line((x + 0.3 * d, roof), (x + 0.3 * d, nose), (x - 0.08 * d, nose)), "thin"),
    ]  # fmt: skip
    for side in (-flats / 2, flats / 2):
        shapes.append(Stroke(line((x + side, top), (x + side, hexagon)), "thin"))
    return made(plain, "plug", s.number, *shapes)


__all__ = ["both", "head", "outlet", "passage", "plug", "port_mouths", "valve_frame"]
