"""What fires it: the breaker's lobe, or the wheel with its magnet and the plate of its sensor."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.drawing.model import Lettering, Loop, Point, Region, Shape
from firstfire.drawing.outlines import at, bulge
from firstfire.drawing.templates.named import named
from firstfire.drawing.templates.template import (
    SMALL,
    Template,
    cross,
    hole,
    part,
    sense,
    tick,
    way,
)
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.trigger import trigger
from firstfire.formulas.breaker_points import risen_at
from firstfire.formulas.cam_law import polynomial_345

LOBE_BASE = 9.0
_TOOTH = 4.0
_PLATE_OUT = 42.0
_SLOT = 36.0
_SLOT_HALF = math.radians(20.0)
_SLOT_WIDE = 2.2
_GAP = 0.4
_NAMES = 36.0  # room for the names of edges between wheel and plate
# mm: sizes that no engine file has; common practice, no source. Only angles are this engine's.
_ORIGIN = (0.0, 0.0)
STEPS = 1440


def spark_templates(plain: PlainEngine) -> Iterator[Template]:
    """The lobe of its breaker, or magnet wheel and sensor plate."""
    if plain.spark.source == "points":
        yield breaker_lobe(plain)
    else:
        yield sensor_plate(plain)


def turned(plain: PlainEngine) -> tuple[float, float, tuple[float, ...]]:
    """Share of the crank's angle at what fires, sense of its later marks, tops fired at, rad.

    What fires at each top turns with the crank, else with the cam.
    """
    share = 1.0 if plain.spark.wasted else 0.5
    sign = sense(plain, cam=not plain.spark.wasted)
    tops = {round((share * fires) % (2.0 * math.pi), 9) for fires in firing_angles(plain)}
    return share, sign, tuple(sorted(tops))


def lobe_radius(plain: PlainEngine, angle: float) -> float:
    """Radius of the breaker's lobe, mm, at an angle from its key line in the sense of later marks.

    On its base circle points are shut; they open once its rise has taken up the heel's clearance.
    """
    share, _, tops = turned(plain)
    passes, points = trigger(plain), plain.spark.points
    shut = share * (passes.leading - passes.trailing)
    alone = 2.0 * math.pi / len(tops) - shut
    ramp, before = lobe_ramp(plain, alone)
    raised = alone + 2.0 * before
    for top in tops:
        into = (angle - (top - share * passes.trailing) + before) % (2.0 * math.pi)
        if into < raised:
            progress = min(min(into, raised - into) / ramp, 1.0)
            return LOBE_BASE + 1e3 * points.lobe_rise * polynomial_345(progress)[0]
    return LOBE_BASE


def lobe_ramp(plain: PlainEngine, alone: float) -> tuple[float, float]:
    """Ramp of the breaker's lobe, and how far into it the points open, rad of the lobe.

    The file's ramp, or what the time open leaves room for.
    """
    points = plain.spark.points
    clear = max(points.lobe_rise - points.gap, 0.0)
    share = risen_at(clear, points.lobe_rise, 1.0)
    ramp = min(points.lobe_ramp, 0.5 * alone / (1.0 - share))
    return ramp, share * ramp


def breaker_lobe(plain: PlainEngine) -> Template:
    """The lobe that opens the points."""
    share, sign, tops = turned(plain)
    loop: Loop = tuple(
        (-sign * r * math.sin(a), r * math.cos(a), 0.0)
        for a in (2.0 * math.pi * n / STEPS for n in range(STEPS))
        for r in (lobe_radius(plain, a),)
    )
    rise = 1e3 * plain.spark.points.lobe_rise
    out = LOBE_BASE + rise + 5.0
    passes = trigger(plain)
    marks: list[Shape] = [*cross(0, 0, 2.0), hole(0, 0, 0.5), tick(_ORIGIN, (0, out), "centre")]
    words: list[Shape] = [Lettering((0, out + 1.5), "KEY", SMALL, "middle")]
    openings: list[tuple[Point, str]] = []
    for top in tops:
        opens = math.pi / 2 + sign * (top - share * passes.trailing)
        marks.append(tick(at(_ORIGIN, LOBE_BASE - 2.0, opens), at(_ORIGIN, out, opens), "outline"))
        edge = at(_ORIGIN, out, opens)
        openings.append((edge, f"opens {_deg(top, share, passes.trailing)}"))
    names, leaders = named(_ORIGIN, out, openings)
    words += names
    marks += leaders
    shaft = "crank" if plain.spark.wasted else "cam"
    return Template(
        slug="breaker-lobe", engine=plain.name, title="Lobe of the breaker",
        parts=(
            part("lobe", "edge of the lobe", "cut", Region((loop,), "none", "outline")),
            part("lines", "key line and openings", "marks", *marks),
            part("names", "names", "words", *words),
        ),
        notes=(
            f"On the {shaft}, seen at the flywheel's end, turning {way(sign)}. KEY points to the "
            "breaker's heel when cylinder 1 is at firing top. The points begin to open "
            f"{math.degrees(passes.trailing):.1f}° of the crank before the top that is fired: set "
            "the plate there with a lamp, then the gap.",
            f"Base radius {LOBE_BASE:g} mm, rise {rise:.3g} mm and shut for "
            f"{math.degrees(passes.leading - passes.trailing):.0f}° of the crank are common "
            "practice, no source: fit them to your points. High voltage: coil off while you set.",
        ),
    )  # fmt: skip


def _deg(top: float, share: float, before: float) -> str:
    from_key = math.degrees(top - share * before)
    return f"{from_key % 360:.1f}° from KEY"


def sensor_plate(plain: PlainEngine) -> Template:
    """A wheel with its tooth or magnet, and a plate with slots for the sensor, side by side."""
    share, sign, tops = turned(plain)
    passes = trigger(plain)
    outer = 1e3 * plain.spark.sensor.radius
    wheel = _tooth_wheel(share, sign, tops, passes.leading, passes.trailing, outer)
    apart = outer + _PLATE_OUT + 14.0 + _NAMES
    marks: list[Shape] = [*cross(0, 0, 3.0), tick(_ORIGIN, (0, outer + 9.0), "centre")]
    words: list[Shape] = [Lettering((0, outer + 10.5), "KEY", SMALL, "middle")]
    edges: list[tuple[Point, str]] = []
    for top in tops:
        whose = f" of {_fired(plain, share, top)}," if len(tops) > 1 else ""
        for before, name in ((passes.leading, "first edge"), (passes.trailing, "last edge")):
            angle = math.pi / 2 + sign * (top - share * before)
            end = at(_ORIGIN, outer + 3.0, angle)
            marks.append(tick(at(_ORIGIN, outer - 8.0, angle), end, "outline"))
            edges.append((end, f"{name}{whose} {_top(before)}"))
    names, leaders = named(_ORIGIN, outer + 3.0, edges)
    words += names
    marks += leaders
    plate, plate_marks, plate_words = _plate(share, apart)
    shaft = "crank" if plain.spark.wasted else "cam"
    return Template(
        slug="sensor-plate", engine=plain.name, title="Magnet wheel and sensor plate",
        parts=(
            part("wheel", "wheel with its tooth", "cut", Region((wheel,), "none", "outline")),
            part("plate", "plate of the sensor", "cut", *plate),
            part("lines", "key line and edges", "marks", *marks, *plate_marks),
            part("names", "names", "words", *words, *plate_words),
        ),
        notes=(
            f"On the {shaft}, seen at the flywheel's end, turning {way(sign)}. KEY points to the "
            "sensor when cylinder 1 is at firing top. Angles at the edges are of the crank before "
            f"the top that is fired{'' if share == 1 else '; on the cam they are half as large'}.",
            f"A tooth of steel passes {_GAP:g} to 1 mm before the sensor; a magnet let in between "
            "the edges does as well, its own field decides where the sensor switches: turn by "
            "hand, watch the sensor's lamp, shift the plate until the edge stands at its angle.",
            f"Slots give {math.degrees(_SLOT_HALF):.0f}° either way. Sizes are common practice, no "
            "source; only the angles are this engine's.",
        ),
    )  # fmt: skip


def _fired(plain: PlainEngine, share: float, top: float) -> str:
    """Which cylinders fire at a top of what fires them."""
    at_top = [
        str(number) for number, fires in enumerate(firing_angles(plain), 1)
        if abs((share * fires - top + math.pi) % (2.0 * math.pi) - math.pi) < 1e-6
    ]  # fmt: skip
    return " and ".join(at_top)


def _top(before: float) -> str:
    return f"{abs(math.degrees(before)):.1f}° {'before' if before >= 0 else 'after'}"


def _tooth_wheel(
    share: float,
    sign: float,
    tops: tuple[float, ...],
    leading: float,
    trailing: float,
    outer: float,
) -> Loop:
    """A disc that stands out between the edges of each spark."""
    loop: list[tuple[float, float, float]] = []
    spans = sorted((top - share * leading, top - share * trailing) for top in tops)
    inner = max(outer - _TOOTH, 0.5 * outer)
    for (begins, ends), (after, _) in zip(spans, spans[1:] + spans[:1], strict=True):
        a, b = (math.pi / 2 + sign * one for one in (begins, ends))
        rest = (after - ends) % (2.0 * math.pi) or 2.0 * math.pi
        loop.append((*at(_ORIGIN, inner, a), 0.0))
        loop.append((*at(_ORIGIN, outer, a), bulge(sign * (ends - begins))))
        loop.append((*at(_ORIGIN, outer, b), 0.0))
        # the long way round in two arcs, since one of a whole turn has no bulge
        loop.append((*at(_ORIGIN, inner, b), bulge(sign * rest / 2)))
        loop.append((*at(_ORIGIN, inner, b + sign * rest / 2), bulge(sign * rest / 2)))
    return tuple(loop)


def _plate(share: float, x: float) -> tuple[list[Shape], list[Shape], list[Shape]]:
    """A ring with two slots, a scale in degrees of the crank, and a place for the sensor."""
    middle = (x, 0.0)
    cut: list[Shape] = [hole(x, 0, _PLATE_OUT), hole(x, 0, 12.0)]
    for side in (0.0, math.pi):
        cut.append(Region((_slot(middle, side),), "none", "outline"))
    marks: list[Shape] = [*cross(x, 0, 3.0), tick((x, 14.0), (x, _PLATE_OUT), "centre")]
    words: list[Shape] = [Lettering((x, 26.0), "sensor", SMALL, "middle")]
    for degrees in range(-20, 21):
        angle = math.pi / 2 + share * math.radians(degrees)
        long = 4.0 if degrees % 10 == 0 else 3.0 if degrees % 5 == 0 else 2.0
        marks.append(tick(at(middle, _PLATE_OUT, angle), at(middle, _PLATE_OUT - long, angle)))
        if degrees % 10 == 0:
            words.append(Lettering(at(middle, _PLATE_OUT + 1.5, angle), str(abs(degrees)), 1.6,
                                   "middle"))  # fmt: skip
    return cut, marks, words


def _slot(middle: tuple[float, float], side: float) -> Loop:
    """A curved slot round the plate's middle."""
    low, high = side - _SLOT_HALF, side + _SLOT_HALF
    outer, inner = _SLOT + _SLOT_WIDE, _SLOT - _SLOT_WIDE
    return (
        (*at(middle, outer, low), bulge(high - low)), (*at(middle, outer, high), bulge(math.pi)),
        (*at(middle, inner, high), bulge(low - high)), (*at(middle, inner, low), bulge(math.pi)),
    )  # fmt: skip
