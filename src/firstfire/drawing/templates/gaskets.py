"""Gaskets of head and foot, and where the head is drilled."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.catalog import Catalog
from firstfire.drawing.model import Lettering, Shape
from firstfire.drawing.outlines import at
from firstfire.drawing.sizes import cylinder_sizes
from firstfire.drawing.templates.template import SMALL, Template, cross, hole, part, tick
from firstfire.drawing.workshop.head import bolt_places
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import CatalogError

_LINER_GAP = 0.5
_EDGE = 3.0
# mm from a liner to the base gasket round it, and from a screw's hole to a gasket's edge:
# common practice, no source


def gasket_templates(plain: PlainEngine, catalog: Catalog) -> Iterator[Template]:
    """Head gasket, base gasket and drilling template, for cylinders alike once."""
    done: list[tuple[CylinderParts, list[int]]] = []
    for number, parts in enumerate(plain.cylinders, 1):
        alike = next((numbers for other, numbers in done if _alike(other, parts)), None)
        if alike is None:
            done.append((parts, [number]))
        else:
            alike.append(number)
    for parts, numbers in done:
        suffix = "" if len(done) == 1 else f"-{numbers[0]}"
        if parts.gasket.kind in ("sheet", "cured_sealant", "metal"):
            yield _head_gasket(plain, catalog, parts, suffix)
        yield _base_gasket(plain, catalog, parts, suffix)
        yield _drilling(plain, catalog, parts, numbers[0], suffix)


def _alike(one: CylinderParts, other: CylinderParts) -> bool:
    asked = ("cylinder", "liner", "body", "head", "gasket", "valves", "plug")
    return all(getattr(one, name) == getattr(other, name) for name in asked)


def hole_radius(catalog: Catalog, parts: CylinderParts) -> float:
    """Of the hole for a head screw, mm: the catalog's, or 1.1 times the thread without a row."""
    fasteners = parts.head.fasteners
    try:
        row = catalog.row("thread", fasteners.thread)
    except CatalogError:
        return 0.55e3 * 0.5 * fasteners.washer_diameter
    clear = row.si("clearance_hole") if "clearance_hole" in row.data else 1.1 * row.si("diameter")
    return 500 * clear


def _holes(
    catalog: Catalog, parts: CylinderParts, circle: float
) -> tuple[list[Shape], list[Shape]]:
    """Screw holes on a circle of that radius, with their centres."""
    places = bolt_places(parts.head.fasteners.count, circle)
    radius = hole_radius(catalog, parts)
    cut: list[Shape] = [hole(x, y, radius) for x, y in places]
    marks: list[Shape] = [stroke for x, y in places for stroke in cross(x, y, radius + 1.5)]
    return cut, marks


def _head_gasket(
    plain: PlainEngine, catalog: Catalog, parts: CylinderParts, suffix: str
) -> Template:
    gasket, circle = parts.gasket, 500 * parts.head.fasteners.circle_diameter
    inner = 500 * gasket.inside_diameter
    seals = inner + 1e3 * gasket.width
    drilled, marks = _holes(catalog, parts, circle)
    through = seals > circle - hole_radius(catalog, parts)
    outer = 500 * parts.head.diameter if through else seals
    cut: list[Shape] = [hole(0, 0, outer), hole(0, 0, inner)]
    cut += drilled if through else []
    what = {"sheet": "", "metal": "", "cured_sealant": " (where sealant is spread)"}[gasket.kind]
    holes = (
        f"{parts.head.fasteners.count} holes for {parts.head.fasteners.thread} on "
        f"{2 * circle:.1f} mm" if through else "It lies within its screws: no holes"
    )  # fmt: skip
    return Template(
        slug=f"head-gasket{suffix}", engine=plain.name, title=f"Head gasket{what}",
        parts=(
            part("gasket", "edges and holes", "cut", *cut),
            part("lines", "centres", "marks", *cross(0, 0, 3.0), *(marks if through else [])),
        ),
        notes=(
            f"Inside {2 * inner:.1f} mm, sealing ring {1e3 * gasket.width:.1f} mm wide, "
            f"{1e3 * gasket.thickness:.2g} mm thick when clamped. {holes}. "
            "Seen from the head.",
        ),
    )  # fmt: skip


def _base_gasket(
    plain: PlainEngine, catalog: Catalog, parts: CylinderParts, suffix: str
) -> Template:
    """Under the cylinder: round the liner, inside its screws."""
    long = parts.head.fasteners.long
    circle = 500 * (parts.head.fasteners.circle_diameter if long
                    else parts.body.foot.circle_diameter)  # fmt: skip
    inner = 500 * parts.liner.outside_diameter + _LINER_GAP
    drilled, marks = _holes(catalog, parts, circle)
    outer = max(circle + hole_radius(catalog, parts) + _EDGE, 500 * parts.body.outside_diameter)
    whose = "the head's own, which go through to the case" if long else "the foot's"
    return Template(
        slug=f"base-gasket{suffix}", engine=plain.name, title="Base gasket",
        parts=(
            part("gasket", "edges and holes", "cut", hole(0, 0, outer), hole(0, 0, inner),
                 *drilled),
            part("lines", "centres", "marks", *cross(0, 0, 3.0), *marks),
        ),
        notes=(
            f"Between cylinder and case. Inside {2 * inner:.1f} mm (liner and {_LINER_GAP:g} mm "
            f"all round), {parts.head.fasteners.count} screws on {2 * circle:.1f} mm: {whose}. Its "
            "thickness lowers the ratio: the file has no base gasket, so measure the deck again.",
        ),
    )  # fmt: skip


def _drilling(
    plain: PlainEngine, catalog: Catalog, parts: CylinderParts, number: int, suffix: str
) -> Template:
    """Where the head is drilled, seen from the fire."""
    head, circle = parts.head, 500 * parts.head.fasteners.circle_diameter
    cut, marks = _holes(catalog, parts, circle)
    cut.append(hole(0, 0, 500 * head.diameter))
    marks += [*cross(0, 0, 500 * head.diameter + 3.0)]
    words: list[Shape] = []
    for k, (x, y) in enumerate(bolt_places(head.fasteners.count, circle)):
        clear = 0.75 * hole_radius(catalog, parts) + 1.2  # of its hole, aslant
        words.append(Lettering((x + clear, y + clear), str(k + 1), SMALL))
    if parts.valves.placed == "overhead":
        sizes = cylinder_sizes(plain, number - 1, 0.0)
        for v in sizes.valves:
            x = v.x - sizes.x
            cut.append(hole(x, 0.0, v.throat))
            marks += [*cross(x, 0.0, 2.0)]
            words.append(Lettering((x, -v.head - 3.0), v.which, SMALL, "middle"))
            for n in range(36):
                ends = (math.radians(10 * n), math.radians(10 * n + 6))
                marks.append(tick(at((x, 0.0), v.head, ends[0]), at((x, 0.0), v.head, ends[1])))
    return Template(
        slug=f"head-drilling{suffix}", engine=plain.name, title="Drilling template of the head",
        parts=(
            part("holes", "holes and edge", "cut", *cut),
            part("lines", "centres and valve heads", "marks", *marks),
            part("names", "names", "words", *words),
        ),
        notes=(
            f"Seen from the fire side, its upper edge at the flywheel's end. "
            f"{head.fasteners.count} holes of {2 * hole_radius(catalog, parts):.1f} mm for "
            f"{head.fasteners.thread} on {2 * circle:.1f} mm, evenly, none in line with the "
            "valves. Prick the centres through the paper.",
            f"Full circles at the valves are throats, broken ones the valve heads; they lean "
            f"{math.degrees(head.valve_axis_angle):.3g}° outwards. Where the plug goes the file "
            f"does not say ({parts.plug.thread}): between the valves and the nearest screws.",
        ),
    )  # fmt: skip
