"""What is measured in a section: the engine file's numbers at the places they belong to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.drawing import conventions as by
from firstfire.drawing.frame import Frame
from firstfire.drawing.model import Dimension, Point
from firstfire.drawing.sizes import CylinderSizes, ValveSizes
from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.numbers import shown


@dataclass(frozen=True)
class _Measured:
    """In the cylinder's own coordinates; without a line it is pointed at where `second` is."""

    path: str
    label: str
    value: float
    first: Point
    second: Point
    line: tuple[Point, Point] | None = None
    to_scale: bool = True


def dimensions(
    plain: PlainEngine, s: CylinderSizes, frame: Frame, unit: float, half: float, side: float
) -> list[Dimension]:
    """Of one cylinder, on the sheet.

    Parameters
    ----------
    plain, s, frame
        The engine, the cylinder and where it stands.
    unit
        mm of the engine to one of paper.
    half
        Half the width of what stands on the case, for lines beside it.
    side
        1 or -1: the side on which nothing else stands, in the cylinder's own coordinates.
    """
    # a single cylinder has room for words on both sides
    head_side = -side if plain.layout.kind == "single" else side
    found = []
    for m in (
        *_across(s, head_side),
        *_along(s, unit, half, side),
        *_head(s, side, head_side),
        *_crank(plain, s, side),
    ):
        line = m.line or (m.second, m.second)
        found.append(
            Dimension(
                path=m.path,
                label=m.label,
                text=shown(m.value, "mm"),
                value=m.value,
                first=frame.point(m.first),
                second=frame.point(m.second),
                line=(frame.point(line[0]), frame.point(line[1])),
                to_scale=m.to_scale,
            )
        )
    return found


def _across(s: CylinderSizes, far: float) -> Iterator[_Measured]:
    parts = s.parts
    bore, x = s.bore, s.x
    above, below = s.deck - s.crown, s.skirt - s.liner_end
    level = (s.deck + s.crown) / 2 if above > max(below, 8.0) else s.liner_end + 0.35 * below
    if max(above, below) < 4.0:
        level = s.deck - 1.5
    if level < s.skirt and abs(level - (s.pin + s.crankpin[1]) / 2) < 5.0:
        # the line that leads to the rod's length starts at this height
        level = s.liner_end + 0.12 * below
    ends = (x - bore, level), (x + bore, level)
    yield _Measured("cylinder.bore", "bore", parts.cylinder.bore, *ends, ends)
    outside = 500 * parts.liner.outside_diameter
    low = s.liner_end + 0.2 * (s.deck - s.liner_end)
    yield _Measured(
        "liner.outside_diameter", "liner outside", parts.liner.outside_diameter,
        (x - far * outside, low), (x + far * outside, low),
    )  # fmt: skip
    body = 500 * parts.body.outside_diameter
    middle = s.liner_end + 0.5 * (s.deck - s.liner_end)
    yield _Measured(
        "body.outside_diameter", "body outside", parts.body.outside_diameter,
        (x - far * body, middle), (x + far * body, middle),
    )  # fmt: skip
    pin = 500 * parts.pin.diameter
    yield _Measured(
        "pin.diameter",
        "piston pin",
        parts.pin.diameter,
        (x - far * pin, s.pin),
        (x + far * pin, s.pin),
    )


def _along(s: CylinderSizes, unit: float, half: float, side: float) -> Iterator[_Measured]:
    cylinder = s.parts.cylinder
    wall = s.x + side * s.bore
    beside = max(half, 500 * s.parts.head.diameter) + 0.6 * by.LINE_GAP * unit
    beside = s.x + side * beside
    low = s.top_crown - 1e3 * cylinder.stroke
    yield _Measured(
        "cylinder.stroke", "stroke", cylinder.stroke, (wall, s.top_crown),
        (wall, low), ((beside, s.top_crown), (beside, low)),
    )  # fmt: skip
    yield _Measured(
        "rod.length",
        "rod",
        s.parts.rod.length,
        (s.x, s.pin),
        s.crankpin,
        ((s.x, s.pin), s.crankpin),
    )
    yield _Measured(
        "cylinder.deck", "deck", cylinder.deck, (wall, s.top_crown), (wall, s.deck),
    )  # fmt: skip


def _head(s: CylinderSizes, side: float, head_side: float) -> Iterator[_Measured]:
    head, gasket = s.parts.head, s.parts.gasket
    edge = s.x + head_side * 500 * head.diameter
    yield _Measured(
        "head.thickness", "head", head.thickness, (edge, s.flange), (edge, (s.face + s.flange) / 2)
    )
    if gasket.kind != "none" and gasket.thickness > 0:
        out = s.x + side * (500 * gasket.inside_diameter + 1e3 * gasket.width)
        yield _Measured(
            "gasket.thickness", "gasket", gasket.thickness, (out, s.face),
            (out, (s.deck + s.face) / 2),
        )  # fmt: skip
    for valve in s.valves:
        yield _valve(valve, s)


def _valve(v: ValveSizes, s: CylinderSizes) -> _Measured:
    place = Frame(v.lean, False, (v.x, v.y))
    side = 1.0 if v.x > s.x else -1.0
    level = -v.lift - by.RIM * v.head
    return _Measured(
        f"valves.{v.which}.head_diameter", f"{v.which} valve", v.valve.head_diameter,
        place.point((-side * v.head, level)), place.point((side * v.head, level)),
    )  # fmt: skip


def _crank(plain: PlainEngine, s: CylinderSizes, side: float) -> Iterator[_Measured]:
    pin = 500 * plain.crank.crankpin_diameter
    x, y = s.crankpin
    yield _Measured(
        "crank.crankpin_diameter", "crankpin", plain.crank.crankpin_diameter,
        (x - side * pin, y), (x + side * pin, y),
    )  # fmt: skip
    yield _Measured(
        "cam_drive.centre_distance", "crank to cam", plain.cam_drive.centre_distance,
        (s.x, 0.0), (s.x, s.cam_level), to_scale=abs(s.cam_level - s.cam_wanted) < 1e-6,
    )  # fmt: skip
