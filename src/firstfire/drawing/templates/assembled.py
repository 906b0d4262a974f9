"""Crank, cams and wheels in one picture as they are put together, and the belt round them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfire.drawing.drive_parts import belt_loop, pitch_radius
from firstfire.drawing.frame import Frame
from firstfire.drawing.model import Disc, Lettering, Part, Point, Region, Shape
from firstfire.drawing.outlines import at
from firstfire.drawing.templates.cams import cams
from firstfire.drawing.templates.named import named
from firstfire.drawing.templates.template import (
    SMALL,
    Template,
    cross,
    hole,
    part,
    sense,
    tick,
    turning_arrow,
    way,
)
from firstfire.engine.geometry import firing_angles, mechanism, mechanism_layout
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.formulas.belt import belt_length, centre_distance_for, pulley_pitch_diameter

_ORIGIN = (0.0, 0.0)
Side = Literal["flywheel", "cam drive"]


@dataclass(frozen=True)
class Shafts:
    """Where the axes lie when cylinder 1 is at firing top, mm, seen at the flywheel's end.

    Attributes
    ----------
    cams
        Axis of each camshaft, with the cylinders it serves, counted from 1.
    pins
        Crankpin of each cylinder.
    teeth
        Of the belt or chain; None for gears.
    """

    cams: tuple[tuple[Point, tuple[int, ...]], ...]
    pins: tuple[Point, ...]
    teeth: int | None


def axes_apart(plain: PlainEngine) -> tuple[float, int | None]:
    """Distance of crank and cam, mm, at which the belt or chain has whole teeth, and how many."""
    drive = plain.cam_drive
    if drive.kind == "gear":
        return 1e3 * drive.centre_distance, None
    small, large = (pulley_pitch_diameter(z, drive.pitch)
                    for z in (drive.teeth_crank, drive.teeth_cam))  # fmt: skip
    step = 2 if drive.kind == "chain" else 1
    exact = belt_length(small, large, drive.centre_distance) / drive.pitch
    teeth = step * round(exact / step)
    while teeth * drive.pitch < belt_length(small, large, 0.5 * (small + large)):
        teeth += step
    return 1e3 * centre_distance_for(small, large, teeth * drive.pitch), teeth


def shafts(plain: PlainEngine) -> Shafts:
    """Axes and crankpins at cylinder 1's firing top."""
    turned = -sense(plain)  # clockwise seen from the flywheel is minus in the sheet's angles
    layout = mechanism_layout(plain)
    apart, teeth = axes_apart(plain)
    late = slider_crank.top_centre_angle(*mechanism(plain.cylinders[0]))
    served: dict[float, list[int]] = {}
    pins = []
    for index, (bank, pin) in enumerate(zip(layout.banks, layout.pins, strict=True)):
        served.setdefault(round(bank, 9), []).append(index + 1)
        throw = 1e3 * mechanism(plain.cylinders[index])[0]
        pins.append(at(_ORIGIN, throw, math.pi / 2 + turned * (pin + late)))
    shafts_ = tuple(
        (at(_ORIGIN, apart, math.pi / 2 + turned * bank), tuple(numbers))
        for bank, numbers in served.items()
    )
    return Shafts(shafts_, tuple(pins), teeth)


def assembled_templates(plain: PlainEngine) -> Iterator[Template]:
    """The picture seen at the flywheel's end and seen at the cam drive, and the belt."""
    yield _assembled(plain, "flywheel")
    yield _assembled(plain, "cam drive")
    if plain.cam_drive.kind != "gear":
        yield _belt_template(plain)


def _assembled(plain: PlainEngine, side: Side) -> Template:
    found = shafts(plain)
    marks: list[Shape] = [*cross(0, 0, 4.0), *_wheel(plain, _ORIGIN, plain.cam_drive.teeth_crank)]
    words: list[Shape] = []
    pins: list[Shape] = []
    radius = 500 * plain.crank.crankpin_diameter
    mirror = side == "cam drive"
    for x, y in found.pins:
        pins += [Disc((x, y), radius, "none", "outline"), tick(_ORIGIN, (x, y), "centre")]
    shown: dict[tuple[float, float], list[str]] = {}
    for number, place in enumerate(found.pins, 1):
        shown.setdefault((round(place[0], 3), round(place[1], 3)), []).append(str(number))
    for (x, y), numbers in shown.items():
        words.append(_beside((x, y), radius, f"crankpin {' and '.join(numbers)}"))
    lobes: list[Shape] = []
    for (x, y), numbers_ in found.cams:
        marks += [*cross(x, y, 3.0), *_wheel(plain, (x, y), plain.cam_drive.teeth_cam)]
        mark = _cam_mark(plain, (x, y), numbers_)
        marks.append(tick((x, y), mark, "outline"))
        shapes, noses = _lobes(plain, (x, y), numbers_)
        lobes += shapes
        reach = max(math.dist(place, (x, y)) for place, _ in [(mark, ""), *noses])
        names, leaders = named((x, y), reach, [(mark, "cam's mark"), *noses])
        words += names
        marks += leaders
    crank = pitch_radius(plain, plain.cam_drive.teeth_crank)
    marks.append(tick(_ORIGIN, (0.0, crank), "outline"))
    names, leaders = named(_ORIGIN, crank, [((0.0, crank), "crank's mark")])
    words += names
    marks += leaders
    sign = sense(plain) * (-1.0 if mirror else 1.0)
    parts: tuple[Part, ...] = (
        part("crankpins", "crankpins", "marks", *pins),
        part("cams", "cams", "cut", *lobes),
        part(
            "wheels",
            "wheels and marks",
            "marks",
            *marks,
            *turning_arrow(_ORIGIN, 0.6 * crank, sense(plain)),
        ),
        part("names", "names", "words", *words),
    )
    other = Frame(mirrored=mirror)
    parts = tuple(_mirrored(other, one) if mirror else one for one in parts)
    cam_sign = sense(plain, cam=True) * (-1.0 if mirror else 1.0)
    tops = firing_angles(plain)[1:]
    later = "".join(
        f" Cylinder {n} fires {math.degrees(fires):.0f}° later." for n, fires in enumerate(tops, 2)
    )
    return Template(
        slug=f"assembled-from-{side.replace(' ', '-')}", engine=plain.name,
        title=f"Crank and cams as assembled, seen from the {side}",
        parts=parts,
        notes=(
            f"Cylinder 1 at firing top, seen from the {side}: the crank turns {way(sign)}, the cam "
            f"{way(cam_sign)}.{later} Both marks are on this side's view of the wheels; a lobe "
            "touches nothing here: valves of cylinder 1 are shut.",
            "Set the crank by top centre, never by a mark alone; set the cam so that its nose "
            "stands as drawn, put the belt on, turn two turns by hand, look again.",
        ),
    )  # fmt: skip


def _mirrored(place: Frame, one: Part) -> Part:
    """Seen from the other side; words stay legible."""
    moved = place.part(one)
    anchors = {"start": "end", "end": "start", "middle": "middle"}
    shapes = tuple(
        Lettering(s.at, s.text, s.height, anchors[s.anchor], -s.turn)  # type: ignore[arg-type]
        if isinstance(s, Lettering) else s
        for s in moved.shapes
    )  # fmt: skip
    return Part(moved.id, moved.title, moved.layer, shapes)


def _wheel(plain: PlainEngine, centre: Point, teeth: int) -> list[Shape]:
    """Pitch circle and a tick a tooth, the first at the top."""
    radius = pitch_radius(plain, teeth)
    shapes: list[Shape] = [Disc(centre, radius, "none", "thin")]
    for n in range(teeth):
        angle = math.pi / 2 + 2.0 * math.pi * n / teeth
        shapes.append(tick(at(centre, radius - 1.2, angle), at(centre, radius, angle)))
    return shapes


def _cam_mark(plain: PlainEngine, centre: Point, numbers: tuple[int, ...]) -> Point:
    """Where the cam's mark, in line with its key, stands at cylinder 1's firing top."""
    sign = sense(plain, cam=True)
    # towards the followers, which lie between cam and crank, when its own cylinder fires
    towards = math.atan2(-centre[1], -centre[0])
    before = _since(plain, numbers)
    return at(centre, pitch_radius(plain, plain.cam_drive.teeth_cam), towards - sign * before)


def _since(plain: PlainEngine, numbers: tuple[int, ...]) -> float:
    """Cam angle gone since the cylinder that its key goes by fired, rad, when cylinder 1 fires."""
    fires = firing_angles(plain)[numbers[0] - 1]
    return -0.5 * fires % (2.0 * math.pi)


def _lobes(
    plain: PlainEngine, centre: Point, numbers: tuple[int, ...]
) -> tuple[list[Shape], list[tuple[Point, str]]]:
    """Cams of one shaft as they stand at cylinder 1's firing top, and where each nose is."""
    mark = _cam_mark(plain, centre, numbers)
    key = math.atan2(mark[1] - centre[1], mark[0] - centre[0])
    shapes: list[Shape] = []
    noses: list[tuple[Point, str]] = []
    sign = sense(plain, cam=True)
    for cam in cams(plain):
        if not set(cam.cylinders) & set(numbers):
            continue
        place = Frame(turned=math.pi / 2 - key, origin=centre)
        shapes.append(Region((place.loop(cam.shape.loop),), "none", "outline"))
        nose = at(centre, cam.shape.tip, key + sign * cam.shape.nose)
        whose = "" if len(plain.cylinders) == 1 else (
            " " + "+".join(str(n) for n in cam.cylinders if n in numbers)
        )  # fmt: skip
        noses.append((nose, f"{cam.which}{whose}"))
    return shapes, noses


def _beside(place: Point, away: float, text: str) -> Lettering:
    return Lettering((place[0] + away + 1.2, place[1] - 0.36 * SMALL), text, SMALL)


def _belt_template(plain: PlainEngine) -> Template:
    """Both wheels with their marks and the belt; each cam has one like it."""
    drive = plain.cam_drive
    apart, teeth = axes_apart(plain)
    cam = (0.0, apart)
    small, large = (pitch_radius(plain, z) for z in (drive.teeth_crank, drive.teeth_cam))
    marks: list[Shape] = [
        *cross(0, 0, 4.0), *cross(*cam, 4.0), *_wheel(plain, _ORIGIN, drive.teeth_crank),
        *_wheel(plain, cam, drive.teeth_cam), tick(_ORIGIN, (0.0, small), "outline"),
        tick(cam, (0.0, apart - large), "outline"),
    ]  # fmt: skip
    between = apart - small - large
    names, leaders = named(_ORIGIN, large + 2.0, [((0.0, small), "crank's mark")])
    more, further = named(cam, large + 2.0, [((0.0, apart - large), "cam's mark")])
    marks += [*leaders, *further]
    words: list[Shape] = [
        *names,
        *more,
        Lettering((0.0, -small - 6.0), f"{drive.teeth_crank} teeth", SMALL, "middle"),
        Lettering((0.0, apart + large + 3.0), f"{drive.teeth_cam} teeth", SMALL, "middle"),
        Lettering((max(small, large) + 4.0, apart / 2), f"{teeth} in all", SMALL),
    ]
    unit = "links" if drive.kind == "chain" else "teeth"
    return Template(
        slug="belt" if drive.kind == "belt" else "chain", engine=plain.name,
        title=f"{drive.kind.capitalize()} of {teeth} {unit} with its marks",
        parts=(
            part("pitch-line", "pitch line", "cut",
                 Region((belt_loop(_ORIGIN, cam, small, large),), "none", "outline")),
            part("wheels", "wheels and marks", "marks", *marks, hole(0, 0, 1.0)),
            part("names", "names", "words", *words),
        ),
        notes=(
            f"{teeth} {unit} of {1e3 * drive.pitch:.4g} mm, axes {apart:.2f} mm apart. Cylinder "
            "1 at firing top: both marks point at each other, "
            f"{between:.1f} mm between the pitch circles. A tick is a tooth.",
            "Count: the marks come together again every second turn of the crank. One tooth off "
            f"is {720 / drive.teeth_cam:.4g}° of the crank.",
        ),
    )  # fmt: skip
