"""What is measured along the crank."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.drawing import conventions as by
from firstfire.drawing.along_shaft import pulley_place, wheel_place
from firstfire.drawing.along_sizes import AlongSizes
from firstfire.drawing.model import Dimension, Point
from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.numbers import shown


def measured_along(plain: PlainEngine, z: AlongSizes, unit: float) -> list[Dimension]:
    """On the sheet; without a line of its own a dimension is pointed at."""
    return [*_spans(plain, z, unit), *_crank(plain, z), *_outside(plain, z), *_piston(plain, z)]


def _dimension(
    path: str,
    label: str,
    value: float,
    first: Point,
    second: Point,
    line: tuple[Point, Point] | None = None,
) -> Dimension:
    return Dimension(
        path, label, shown(value, "mm"), value, first, second, line or (second, second)
    )


def _spans(plain: PlainEngine, z: AlongSizes, unit: float) -> Iterator[Dimension]:
    low = -z.room.outside - by.LINE_GAP * unit
    half = 500 * plain.crank.bearing_span
    if plain.crank.main_bearings > 1:
        ends = (-half, 0.0), (half, 0.0)
        yield _dimension("crank.bearing_span", "between bearings", plain.crank.bearing_span, *ends,
                         ((-half, low), (half, low)))  # fmt: skip
    if len(z.places) > 1:
        left, right = z.places[0], z.places[1]
        line = (left, low - by.LINE_GAP * unit), (right, low - by.LINE_GAP * unit)
        yield _dimension("layout.cylinder_spacing", "between bores", plain.layout.cylinder_spacing,
                         (left, 0.0), (right, 0.0), line)  # fmt: skip


def _crank(plain: PlainEngine, z: AlongSizes) -> Iterator[Dimension]:
    crank = plain.crank
    last, cheek = z.pins[-1], z.cheeks[-1]
    level = cheek.bottom + 0.2 * (cheek.top - cheek.bottom)
    left = cheek.right - 1e3 * crank.cheek_thickness
    ends = (left, level), (cheek.right, level)
    yield _dimension("crank.cheek_thickness", "cheek", crank.cheek_thickness, *ends, ends)
    across = 0.7 * 500 * crank.crankpin_diameter
    ends = (last.left, last.level - across), (last.right, last.level - across)
    yield _dimension("crank.crankpin_length", "crankpin long", crank.crankpin_length, *ends)
    radius = 500 * crank.main_journal_diameter
    x = z.wall_right[1] + 0.5 * by.BESIDE
    yield _dimension("crank.main_journal_diameter", "main journal", crank.main_journal_diameter,
                     (x, -radius), (x, radius))  # fmt: skip
    outside = 500 * crank.main_bearing_outside
    x = min(z.bearings)
    yield _dimension("crank.main_bearing_outside", f"bearing {crank.main_bearing}",
                     crank.main_bearing_outside, (x, outside), (x, -outside))  # fmt: skip


def _outside(plain: PlainEngine, z: AlongSizes) -> Iterator[Dimension]:
    left, right = wheel_place(plain, z)
    wheel = plain.flywheel
    if wheel.thickness > 0:
        rim, middle = 500 * wheel.diameter, (left + right) / 2
        yield _dimension("flywheel.diameter", "flywheel", wheel.diameter, (middle, -rim),
                         (middle, rim))  # fmt: skip
        yield _dimension("flywheel.thickness", "flywheel thick", wheel.thickness,
                         (right, -0.7 * rim), (left, -0.7 * rim))  # fmt: skip
    drive = plain.cam_drive
    start = pulley_place(plain, z)[0] + 1.0
    up = 0.5 * z.drawn[0].cam_level
    count = f"{drive.count} × " if drive.count > 1 else ""
    yield _dimension("cam_drive.width", f"{count}{drive.kind}", drive.width, (start, up),
                     (start + 1e3 * drive.width, up))  # fmt: skip


def _piston(plain: PlainEngine, z: AlongSizes) -> Iterator[Dimension]:
    s, frame = z.drawn[-1 if plain.layout.kind == "parallel_twin" else 0], z.frames[0]
    if plain.layout.kind == "parallel_twin":
        frame = z.frames[-1]
    piston, pin, head = s.parts.piston, s.parts.pin, s.parts.head
    half = 500 * pin.length
    yield _dimension("pin.length", "piston pin long", pin.length, frame.point((-half, s.pin)),
                     frame.point((half, s.pin)))  # fmt: skip
    side = s.bore - 500 * piston.skirt_clearance
    yield _dimension("piston.length", "piston long", piston.length,
                     frame.point((side, s.crown)), frame.point((side, s.skirt)))  # fmt: skip
    wide = 500 * head.diameter
    level = (s.face + s.flange) / 2
    ends = frame.point((-wide, level)), frame.point((wide, level))
    yield _dimension("head.diameter", "head outside", head.diameter, *ends)
