"""The paths of a wiring, side by side between its plus and its minus rail."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfire.drawing.frame import Frame
from firstfire.drawing.model import Disc, Lettering, Pen, Point, Shape, Stroke
from firstfire.drawing.outlines import line
from firstfire.drawing.wiring.symbols import HIGH, SYMBOLS
from firstfire.engine.wires import Element, Path, Wire, Wiring

ROWS = 3
BOTTOM = -ROWS * HIGH - 6.0
"""Where the minus rail runs; the plus rail runs at 0."""
_SMALL = 2.5
_BESIDE = 11.0
_PLUG, _SECOND, _AROUND = 26.0, 42.0, 60.0
_SENSOR = 44.0
_LEFT, _APART = 22.0, 18.0


@dataclass(frozen=True)
class Placed:
    """A path where it stands, mm from the left."""

    path: Path
    x: float
    right: float


def placed(wiring: Wiring) -> tuple[Placed, ...]:
    """Every path's place, the starter's to the left of the battery."""
    found, right = [], 0.0
    for path in wiring.paths:
        if path.fed_by == "battery":
            found.append(Placed(path, -36.0, -36.0))
            continue
        x = right + _LEFT + _APART
        right = x + _wide(path)
        found.append(Placed(path, x, right))
    return tuple(found)


def _wide(path: Path) -> float:
    if path.plugs:
        return _PLUG if len(path.plugs) == 1 else _AROUND
    if any(one.kind == "sensor" for _, one in path.beside):
        return _SENSOR
    return _BESIDE if path.beside else 6.0


def wire(*points: Point, pen: Pen = "thin") -> Stroke:
    """A wire through points."""
    return Stroke(line(*points), pen)


def joint(x: float, y: float) -> Disc:
    """Where wires meet."""
    return Disc((x, y), 0.7, "solid", None)


def cell(element: Element, x: float, top: float, *, right: bool = False) -> Iterator[Shape]:
    """A symbol with its letter code and value."""
    place = Frame(origin=(x, top))
    for shape in SYMBOLS[element.kind]():
        yield place.shape(shape)
    beyond, anchor = (6.0, "start") if right else (-3.5, "end")
    if element.kind in ("controller", "regulator"):
        beyond = -10.5
    yield Lettering((x + beyond, top - 3.4), element.id, _SMALL, "start" if right else "end")
    if element.value:
        away = beyond if right else beyond - 2.5
        yield Lettering((x + away, top - 19.0), element.value, _SMALL,
                        "start" if anchor == "start" else "end")  # fmt: skip


def feed(wiring: Wiring) -> Iterator[Shape]:
    """Stop switch, fuse and battery, from plus to minus rail."""
    rating = "too much" if wiring.fuse is None else f"{wiring.fuse:g} A"
    column = (
        Element("S1", "stop", "stop switch"), Element("F1", "fuse", "fuse", rating),
        Element("G1", "battery", "battery", f"{wiring.voltage:g} V"),
    )  # fmt: skip
    for row, element in enumerate(column):
        yield from cell(element, 0.0, -row * HIGH)
    numbers = [one.id for one in wiring.wires if one.path == "feed"]
    yield Lettering((1.2, -2 * HIGH - 3.4), numbers[0], _SMALL)
    yield Lettering((1.2, BOTTOM + 3.0), numbers[1], _SMALL)
    yield wire((0, -ROWS * HIGH), (0, BOTTOM))


def column(
    one: Placed, relayed: float | None, driven: str, wires: Sequence[Wire]
) -> Iterator[Shape]:
    """One path from its feed to the minus rail.

    Parameters
    ----------
    one
        Where it stands.
    relayed
        Where the relay's contact stands, for a path behind it.
    driven
        What switches its driver: the controller's letter code, or "".
    wires
        Its own, numbered.
    """
    path, x = one.path, one.x
    top = {"main": 0.0, "relay": -HIGH, "battery": -2 * HIGH}[path.fed_by]
    if path.fed_by == "battery":
        top = 0.0
        yield wire((0, -2 * HIGH), (x + 12, -2 * HIGH), (x + 12, 4), (x, 4), (x, 0))
        yield joint(0, -2 * HIGH)
    elif path.fed_by == "relay" and relayed is not None and x > relayed:
        yield wire((relayed, -HIGH), (x, -HIGH))
        yield joint(relayed, -HIGH)
    else:
        yield joint(x, 0.0)
    for row, element in enumerate(path.elements):
        at = top - row * HIGH
        yield from cell(element, x, at)
        if element.kind == "driver" and driven:
            yield Lettering((x - 11.5, at - 11.6), driven, _SMALL, "end")
        for owner, other in path.beside:
            if owner == element.id:
                yield from _beside(other, x, at, wires)
        if element.kind == "coil":
            yield from _secondary(path, x, at, wires)
    along = [one.id for one in wires if one.kind == "plain" and "shell" not in one.start]
    for row, number in enumerate(along):
        last = row == len(path.elements)
        below = 3.6 if row == 0 else 2.6  # clear of the rail, clear of the controller's box
        at = BOTTOM + 3.0 if last else top - row * HIGH - below
        yield Lettering((x + 1.2, at), number, _SMALL)
    yield wire((x, top - len(path.elements) * HIGH), (x, BOTTOM))
    yield joint(x, BOTTOM)
    yield Lettering((x, BOTTOM - 5.0), path.name, _SMALL, "middle")


def _beside(other: Element, x: float, top: float, wires: Sequence[Wire]) -> Iterator[Shape]:
    if other.kind == "sensor":
        yield from cell(other, x + _SENSOR - 5.0, top, right=True)
        yield wire((x + 13, top - 11), (x + _SENSOR - 10, top - 11), pen="hidden")
        number = next((one.id for one in wires if one.kind == "screened"), "")
        yield Lettering((x + 13, top - 19.0), f"{number} screened", _SMALL)
        return
    yield from cell(other, x + _BESIDE, top, right=True)
    for at in (top, top - HIGH):
        yield wire((x, at), (x + _BESIDE, at))
        yield joint(x, at)


def _secondary(path: Path, x: float, top: float, wires: Sequence[Wire]) -> Iterator[Shape]:
    """The high voltage: out to the plug, through its gap, home by the return lead."""
    high, low = top - 2.0, top - 20.0
    shell = high - HIGH
    out = [one.id for one in wires if one.kind == "high voltage"]
    home = next((one.id for one in wires if one.start.endswith("shell")), "")
    yield wire((x + 12, high), (x + _PLUG, high))
    yield Lettering((x + 13.5, high - 3.0), out[0], _SMALL)
    yield from cell(path.plugs[0], x + _PLUG, high, right=True)
    if len(path.plugs) == 1:
        yield wire((x + _PLUG, shell), (x + _PLUG, BOTTOM), pen="outline")
        yield wire((x + 12, low), (x + 12, BOTTOM))
        yield joint(x + 12, BOTTOM)
        yield joint(x + _PLUG, BOTTOM)
        yield Lettering((x + _PLUG + 1.5, BOTTOM + 7.0), f"{home} return lead", _SMALL)
        return
    yield from cell(path.plugs[1], x + _SECOND, high, right=True)
    yield wire((x + _PLUG, shell), (x + _SECOND, shell), pen="outline")
    yield Lettering((x + _PLUG + 1.0, shell - 2.8), f"{home} shells", _SMALL)
    yield wire((x + 12, low), (x + 12, shell - 5), (x + _AROUND, shell - 5),
               (x + _AROUND, high), (x + _SECOND, high))  # fmt: skip
    yield Lettering((x + 13.5, shell - 4.0), out[1], _SMALL)
