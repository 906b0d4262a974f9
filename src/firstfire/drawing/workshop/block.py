"""The foot of a workshop drawing: limits and notes, the title block, and what is left open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfire.drawing import tokens
from firstfire.drawing.legend import scale_words
from firstfire.drawing.model import Lettering, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.drawing.text import wrapped
from firstfire.drawing.workshop.signs import FIRST_ANGLE_WIDTH, first_angle
from firstfire.drawing.workshop.view import PartDrawing

PITCH = 4.1
"""From one line of words to the next, mm of paper."""
_HEAD, _ROW, _PAD = 14.0, 5.8, 1.8
_TITLE, _NAME = 5.0, 3.5
_MOST_LINES = 6
ESTIMATE = "Estimate: check every size before you order or cut."
OPEN = "Open, not in the engine file"
TOLERANCES = "Tolerances ISO 2768-m"
EDGES = "Edges broken 0.2 to 0.5"
SURFACES = "Surfaces Ra 3.2 unless marked"


@dataclass(frozen=True)
class Words:
    """Lines for the foot of one sheet, already as long as it is wide.

    Attributes
    ----------
    above, below
        Over the title block, and under it.
    """

    above: tuple[str, ...]
    below: tuple[str, ...]

    @property
    def high(self) -> float:
        """Of the whole foot, mm of paper."""
        above = len(self.above) * PITCH + (2.0 if self.above else 0.0)
        below = len(self.below) * PITCH + (2.0 if self.below else 0.0)
        return above + _HEAD + 3 * _ROW + below


def words(drawing: PartDrawing, limits: Sequence[str], width: float) -> Words:
    """What stands in the foot of a sheet, `width` mm of paper wide."""
    letters = (width - 2 * _PAD) / tokens.LETTERING
    above: list[str] = []
    if limits:
        above += wrapped(f"Limits, ISO 286: {'; '.join(limits)}.", letters, _MOST_LINES)
    for number, note in enumerate(drawing.notes, start=1):
        above += wrapped(f"{number}. {note}", letters, _MOST_LINES)
    below: list[str] = []
    for place, thing in enumerate(drawing.open):
        # an open thing begins a line of its own, so that it can be ticked off
        name = f"{OPEN}: " if place == 0 else "– "
        below += wrapped(f"{name}{thing}", letters, _MOST_LINES)
    return Words(tuple(above), tuple(below))


def foot(
    drawing: PartDrawing,
    name: str,
    said: Words,
    sheet: str,
    left: float,
    low: float,
    width: float,
    unit: float,
) -> list[Shape]:
    """Shapes of the foot; `left` and `low` are its corner, mm, `width` mm of paper."""
    y = low + said.high * unit
    found: list[Shape] = []
    for text in said.above:
        y -= PITCH * unit
        found.append(Lettering((left + _PAD * unit, y), text, tokens.LETTERING))
    y -= (2.0 if said.above else 0.0) * unit
    found += _block(drawing, name, sheet, left, y, width, unit)
    y -= (_HEAD + 3 * _ROW) * unit
    y -= (0.6 if said.below else 0.0) * unit
    for text in said.below:
        y -= PITCH * unit
        found.append(Lettering((left + _PAD * unit, y), text, tokens.LETTERING))
    return found


def _block(
    drawing: PartDrawing, name: str, sheet: str, left: float, top: float, width: float, unit: float
) -> Iterator[Shape]:
    right, head = left + width * unit, top - _HEAD * unit
    bottom = head - 3 * _ROW * unit
    yield Region((rectangle(left, bottom, right, top),), "none")
    yield from _head(drawing, name, left, top, width, unit)
    for row, cells in enumerate(_rows(drawing, sheet)):
        high = head - row * _ROW * unit
        yield Stroke(line((left, high), (right, high)), "thin")
        x = left
        for share, text in cells:
            if x > left:
                yield Stroke(line((x, high), (x, high - _ROW * unit)), "thin")
            room = (share * width - 2 * _PAD) / tokens.LETTERING
            at = (x + _PAD * unit, high - (_ROW + tokens.LETTERING) / 2 * unit)
            yield Lettering(at, wrapped(text, room, 1)[0], tokens.LETTERING)
            x += share * width * unit


def _rows(drawing: PartDrawing, sheet: str) -> tuple[tuple[tuple[float, str], ...], ...]:
    many = f"{drawing.pieces} off"
    return (
        ((0.5, f"Material: {drawing.material}"), (0.16, many), (0.34, f"Finish: {drawing.finish}")),
        ((0.3, TOLERANCES), (0.31, EDGES), (0.39, SURFACES)),
        ((0.61, ESTIMATE), (0.39, f"Sizes in mm; first angle; {sheet}")),
    )


def _head(
    drawing: PartDrawing, name: str, left: float, top: float, width: float, unit: float
) -> Iterator[Shape]:
    """What it is, of which engine, at which scale, and how its views are projected."""
    sign, scale = (FIRST_ANGLE_WIDTH + 7.0) * unit, 36.0 * unit
    right, low = left + width * unit, top - _HEAD * unit
    room = (width * unit - sign - scale) / unit - 2 * _PAD
    title = wrapped(drawing.title, room / _TITLE, 1)[0]
    yield Lettering((left + _PAD * unit, top - 6.3 * unit), title, _TITLE)
    engine = wrapped(f"engine: {name}", room / _NAME, 1)[0]
    yield Lettering((left + _PAD * unit, top - 11.9 * unit), engine, _NAME)
    for x in (right - sign, right - sign - scale):
        yield Stroke(line((x, top), (x, low)), "thin")
    middle = (top + low) / 2
    at = (right - sign - scale / 2, middle - 0.5 * _NAME * unit)
    yield Lettering(at, f"Scale {scale_words(unit)}", _NAME, "middle")
    yield from first_angle(right - sign + 3.5 * unit, middle, unit)
