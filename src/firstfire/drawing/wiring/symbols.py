"""Symbols of the wiring, drawn from the plain shapes of IEC 60617: each upright, in a cell.

A symbol begins at the top of its cell and ends at its bottom, both at x = 0, so that paths join
without more; what sticks out to the right stays within a cell's width.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from firstfire.drawing.model import Disc, Lettering, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.engine.wires import Kind

HIGH = 22.0
"""Of a cell, mm."""
_HALF = 5.0
_LETTER = 2.5


def _tick(x0: float, y0: float, x1: float, y1: float, heavy: bool = False) -> Stroke:
    return Stroke(line((x0, y0), (x1, y1)), "heavy" if heavy else "thin")


def _ends(top: float, bottom: float) -> list[Shape]:
    """Leads from the cell's top and bottom to the symbol's own."""
    return [_tick(0, 0, 0, top), _tick(0, bottom, 0, -HIGH)]


def _box(half: float = 3.0, top: float = -6.0, bottom: float = -16.0) -> list[Shape]:
    return [Region((rectangle(-half, bottom, half, top),), "paper", "outline")]


def _winding(x: float, top: float, bottom: float, side: float) -> Shape:
    """Four half circles, the plain shape of a winding."""
    step = (top - bottom) / 4
    vertices = tuple((x, top - n * step, side if n < 4 else 0.0) for n in range(5))
    return Stroke(vertices, "outline")


def battery() -> list[Shape]:
    """Long thin line plus, short thick line minus."""
    shapes = _ends(-8.0, -14.0)
    for top in (-8.0, -12.0):
        shapes += [_tick(-5, top, 5, top), _tick(-2.5, top - 2, 2.5, top - 2, heavy=True)]
    return [*shapes, _tick(0, -10, 0, -12), Lettering((-7.0, -8.0), "+", _LETTER, "middle")]


def fuse() -> list[Shape]:
    """A box with its wire through it."""
    return [*_ends(-6.0, -16.0), *_box(2.0), _tick(0, -6, 0, -16)]


def resistor() -> list[Shape]:
    """A box."""
    return [*_ends(-6.0, -16.0), *_box(2.0)]


def _contact(closed: bool) -> list[Shape]:
    """A blade beside its lower end: a make contact, or one that breaks."""
    if not closed:
        return [*_ends(-7.0, -15.0), _tick(0, -15, -4.5, -7.5)]
    return [*_ends(-7.0, -15.0), _tick(0, -15, 3.6, -6.0), _tick(0, -7, 3.8, -7)]


def switch() -> list[Shape]:
    """A make contact worked by hand."""
    return [*_contact(False), _tick(-2.3, -11.2, -8, -11.2), _tick(-8, -9.2, -8, -13.2)]


def stop() -> list[Shape]:
    """A break contact worked by a palm: pushed, it opens."""
    knob = Stroke(((-8.0, -9.2, 1.0), (-8.0, -13.2, 0.0)), "outline")
    return [*_contact(True), _tick(1.8, -10.6, -8, -10.6), knob]


def contact() -> list[Shape]:
    """A relay's make contact."""
    return _contact(False)


def points() -> list[Shape]:
    """A break contact worked by a cam."""
    cam = Stroke(((-8.0, -8.6, 0.6), (-8.0, -13.2, 0.0)), "outline")
    return [*_contact(True), _tick(1.8, -10.6, -7.0, -10.6), cam, _tick(-8, -8.6, -8, -13.2)]


def relay() -> list[Shape]:
    """A box as wide as it isn't high."""
    return [*_ends(-8.0, -14.0), *_box(5.0, -8.0, -14.0)]


def coil() -> list[Shape]:
    """Two windings with an iron core between; the secondary leaves at the right."""
    return [
        _tick(0, 0, 0, -5), _tick(0, -17, 0, -HIGH), _winding(0.0, -5, -17, 1.0),
        _tick(3.2, -5, 3.2, -17), _winding(6.4, -5, -17, -1.0),
        _tick(6.4, -5, 6.4, -2), _tick(6.4, -17, 6.4, -20),
        _tick(6.4, -2, 12, -2), _tick(6.4, -20, 12, -20),
    ]  # fmt: skip


def condenser() -> list[Shape]:
    """Two plates."""
    return [*_ends(-10.0, -12.0), _tick(-4, -10, 4, -10, heavy=True),
            _tick(-4, -12, 4, -12, heavy=True)]  # fmt: skip


def driver() -> list[Shape]:
    """A transistor: its base at the left."""
    emitter = Region((((-0.2, -16.0, 0.0), (-2.6, -15.4, 0.0), (-1.3, -13.6, 0.0)),), "solid", None)
    return [
        Disc((-1.5, -11.0), 6.0, "none", "thin"), _tick(0, 0, 0, -6.5), _tick(0, -15.8, 0, -HIGH),
        _tick(-4, -7.5, -4, -14.5, heavy=True), _tick(-4, -9.5, 0, -6.5),
        _tick(-4, -12.5, 0, -15.8), emitter, _tick(-4, -11, -11, -11),
    ]  # fmt: skip


def diode() -> list[Shape]:
    """A triangle to its bar, pointing up: shut to the battery, open to the coil's own current."""
    triangle = Region((((-3.0, -13.5, 0.0), (3.0, -13.5, 0.0), (0.0, -8.5, 0.0)),), "solid", None)
    return [*_ends(-8.5, -13.5), triangle, _tick(-3, -8.5, 3, -8.5, heavy=True)]


def injector() -> list[Shape]:
    """The box of a winding that works a valve, with the valve beside it."""
    valve = Region(
        (((-12.0, -8.5, 0.0), (-12.0, -13.5, 0.0), (-7.0, -8.5, 0.0), (-7.0, -13.5, 0.0)),),
        "none", "outline",
    )  # fmt: skip
    link = Stroke(line((-7.0, -11.0), (-5.0, -11.0)), "hidden")
    return [*relay(), valve, link]


def _round(letter: str) -> list[Shape]:
    return [*_ends(-5.5, -16.5), Disc((0.0, -11.0), 5.5, "paper", "outline"),
            Lettering((0.0, -12.3), letter, 3.5, "middle")]  # fmt: skip


def motor() -> list[Shape]:
    """A circle with its letter."""
    return _round("M")


def regulator() -> list[Shape]:
    """A box, from high to low voltage."""
    return [*_ends(-5.0, -17.0), *_box(6.0, -5.0, -17.0), _tick(-6, -17, 6, -5),
            Lettering((-3.0, -9.0), "12", _LETTER, "middle"),
            Lettering((3.0, -15.0), "5", _LETTER, "middle")]  # fmt: skip


def controller() -> list[Shape]:
    """A box with its pins: sensor at the right, drivers at the left."""
    return [*_ends(-3.0, -19.0), *_box(9.0, -3.0, -19.0),
            Lettering((0.0, -12.0), "µC", 3.5, "middle"),
            _tick(9, -11, 13, -11), _tick(-9, -11, -13, -11),
            Lettering((8.0, -10.2), "in", _LETTER, "end"),
            Lettering((-8.0, -10.2), "out", _LETTER, "start")]  # fmt: skip


def sensor() -> list[Shape]:
    """A box with a magnet's sign and a switch."""
    return [
        Region((rectangle(-5, -16, 5, -6),), "paper", "outline"),
        _tick(-3.5, -9, -1.0, -13), _tick(-3.5, -13, -1.0, -9),
        _tick(2.5, -14.5, 0.8, -9.5), _tick(2.5, -14.5, 2.5, -16), _tick(2.5, -6, 2.5, -9),
    ]  # fmt: skip


def plug() -> list[Shape]:
    """A spark gap: two points facing."""
    upper = Region((((-1.6, -7.0, 0.0), (1.6, -7.0, 0.0), (0.0, -10.3, 0.0)),), "solid", None)
    lower = Region((((-1.6, -15.0, 0.0), (1.6, -15.0, 0.0), (0.0, -11.7, 0.0)),), "solid", None)
    return [*_ends(-7.0, -15.0), upper, lower]


SYMBOLS: Mapping[Kind, Callable[[], list[Shape]]] = {
    "battery": battery, "fuse": fuse, "stop": stop, "switch": switch, "contact": contact,
    "relay": relay, "coil": coil, "points": points, "condenser": condenser, "driver": driver,
    "resistor": resistor, "regulator": regulator, "controller": controller, "sensor": sensor,
    "plug": plug, "injector": injector, "diode": diode, "pump": motor, "starter": motor,
}  # fmt: skip
"""Each kind's symbol."""
