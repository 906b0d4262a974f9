"""Engines to draw, and a drawing's SVG measured back."""

from __future__ import annotations

import math
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from firstfire.engine.read import read, with_values
from firstfire.engine.resolve import PlainEngine, resolve

ROOT = Path(__file__).parent.parent.parent
FILES = {
    **{path.stem: path for path in sorted((ROOT / "engines").glob("*.toml"))},
    **{path.stem: path for path in sorted((ROOT / "tests" / "strangers").glob("[1-5]*.toml"))},
}
ANGLES = (-360.0, -200.0, 0.0, 30.0, 90.0, 250.0)
SVG = "{http://www.w3.org/2000/svg}"

_KEPT: dict[tuple[str, tuple[tuple[str, object], ...]], PlainEngine] = {}


def plain_engine(name: str, **tried: object) -> PlainEngine:
    """A demo engine or a stranger, with values by path (``__`` for a dot)."""
    key = (name, tuple(sorted(tried.items(), key=lambda pair: pair[0])))
    if key not in _KEPT:
        engine = read(FILES[name])
        values = {path.replace("__", "."): value for path, value in tried.items()}
        _KEPT[key] = resolve(with_values(engine, values) if values else engine)
    return _KEPT[key]


class Measured:
    """An SVG drawing, read as a browser would, and what can be measured in it."""

    def __init__(self, svg: str) -> None:
        self.root = ElementTree.fromstring(svg)
        left, top, width, height = (float(x) for x in self.root.attrib["viewBox"].split())
        assert (left, top) == (0.0, 0.0)
        self.width, self.height = width, height
        # patterns have coordinates of their own
        for defs in self.root.findall(f"{SVG}defs"):
            self.root.remove(defs)

    def part(self, ident: str) -> ElementTree.Element:
        for group in self.root.iter(f"{SVG}g"):
            if group.attrib.get("data-part") == ident:
                return group
        raise KeyError(ident)

    def ids(self) -> list[str]:
        return [e.attrib["id"] for e in self.root.iter() if "id" in e.attrib]

    def box(self, ident: str) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of a part's outlines."""
        points = [p for e in self.part(ident) for p in outline(e)]
        across, down = zip(*points, strict=True)
        return min(across), min(down), max(across), max(down)

    def circles(self, ident: str) -> list[tuple[float, float, float]]:
        found = self.part(ident).iter(f"{SVG}circle")
        return [tuple(float(c.attrib[k]) for k in ("cx", "cy", "r")) for c in found]  # type: ignore[misc]

    def measures(self) -> dict[str, ElementTree.Element]:
        return {
            g.attrib["data-path"]: g for g in self.root.iter(f"{SVG}g") if "data-path" in g.attrib
        }


def outline(element: ElementTree.Element) -> list[tuple[float, float]]:
    """Corners of an element, arcs by many points along them, circles by their boxes."""
    if element.tag == f"{SVG}circle":
        x, y, r = (float(element.attrib[k]) for k in ("cx", "cy", "r"))
        return [(x - r, y - r), (x + r, y + r)]
    if element.tag == f"{SVG}rect" and "x" in element.attrib:
        x, y, w, h = (float(element.attrib[k]) for k in ("x", "y", "width", "height"))
        return [(x, y), (x + w, y + h)]
    if element.tag != f"{SVG}path":
        return []
    points: list[tuple[float, float]] = []
    for step, numbers in re.findall(r"([MLAZ])([^MLAZ]*)", element.attrib["d"]):
        values = [float(v) for v in numbers.split()]
        if step == "A":
            points += along_arc(points[-1], values)
        if step != "Z":
            points.append((values[-2], values[-1]))
    return points


def along_arc(start: tuple[float, float], arc: list[float]) -> list[tuple[float, float]]:
    """Points along an SVG arc of a circle (SVG 1.1, appendix F.6.5), 2° apart at the most."""
    r, _, _, large, sweep, x, y = arc
    dx, dy = x - start[0], y - start[1]
    chord = math.hypot(dx, dy)
    rise = math.sqrt(max(r * r - chord * chord / 4, 0.0))
    # y points down: sweep 1 turns clockwise on the sheet, its centre to the right of a short way
    side = rise if large == sweep else -rise
    cx = (start[0] + x) / 2 + side * dy / chord
    cy = (start[1] + y) / 2 - side * dx / chord
    first = math.atan2(start[1] - cy, start[0] - cx)
    turn = (math.atan2(y - cy, x - cx) - first) % (2 * math.pi)
    turn = turn if sweep else turn - 2 * math.pi
    steps = [first + turn * n / 180 for n in range(1, 180)]
    return [(cx + r * math.cos(a), cy + r * math.sin(a)) for a in steps]


@pytest.fixture(params=sorted(FILES))
def engine_name(request: pytest.FixtureRequest) -> str:
    return str(request.param)
