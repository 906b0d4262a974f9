"""What a page needs to turn its drawing through a cycle: how each outline has moved at each angle.

The drawing is made anew at every angle, so that all stands as `draw --angle` puts it, and only
the difference is written: three numbers where an outline moves as a whole, its points where it
changes its shape.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Sequence

import numpy as np

from firstfire.drawing.model import Drawing
from firstfire.drawing.svg import to_svg
from firstfire.engine.records import Array

STEP = 30
"""Crank angle between two drawings, degrees: divides the 30° at which the drawing rests."""
ANGLES = range(-360, 361, STEP)
_LEAF = re.compile(r"<(?:path|circle|text)\b[^>]*?(?:/>|>[^<]*</text>)")
_PLACED = re.compile(r'(?<=[ML])(-?[\d.]+) (-?[\d.]+)|(?<=0 0 [01] )(-?[\d.]+) (-?[\d.]+)'
                     r'|(?<=c)x="(-?[\d.]+)" cy="(-?[\d.]+)')  # fmt: skip
_CLOSE = 2e-3  # mm: coordinates are written to a thousandth


def turning(draw: Callable[[float], Drawing], prefix: str) -> str:
    """The moves of a drawing's outlines as JSON.

    Parameters
    ----------
    draw
        The drawing at a crank angle, rad after firing top; all on one sheet.
    prefix
        Of its ids.

    Returns
    -------
    str
        By the outline's place in the drawing, a list over `ANGLES`: a number leads to an earlier
        entry of the list, ``[turn, right, down]`` moves its first state (rad about the sheet's
        corner, mm), and text is its markup.
    """
    frames = [_leaves(draw(math.radians(angle)), prefix) for angle in ANGLES]
    rest = _leaves(draw(math.radians(30)), prefix)
    if any(len(frame) != len(rest) for frame in frames):
        return ""
    moves = {}
    for place, first in enumerate(rest):
        states = [frame[place] for frame in frames]
        if any(state != first for state in states):
            moves[place] = _told(first, states)
    return json.dumps(moves, separators=(",", ":")).replace("<", "\\u003c")


def _leaves(drawing: Drawing, prefix: str) -> list[str]:
    body = to_svg(drawing, prefix=prefix, size=False).split("</defs>")[-1]
    return _LEAF.findall(body)


def _told(first: str, states: Sequence[str]) -> list[object]:
    """Each different state once, later ones by where it stands."""
    seen: dict[str, int] = {}
    found: list[object] = []
    for index, state in enumerate(states):
        found.append(seen[state] if state in seen else _moved(first, state))
        seen.setdefault(state, index)
    return found


def _moved(first: str, state: str) -> object:
    """A turn and a shift that carry the one into the other, or the other's markup."""
    if _PLACED.sub("@", first) != _PLACED.sub("@", state):
        return state
    a, b = _points(first), _points(state)
    if not len(a):
        return state
    turn = float(np.angle(np.sum(np.conj(a - a.mean()) * (b - b.mean())))) if len(a) > 1 else 0.0
    turn = round(turn, 6)
    shift = complex(np.mean(b - a * np.exp(1j * turn)))
    shift = complex(round(shift.real, 3), round(shift.imag, 3))
    if np.max(np.abs(a * np.exp(1j * turn) + shift - b)) > _CLOSE:
        return state
    return [turn, shift.real, shift.imag]


def _points(leaf: str) -> Array:
    """Its points as complex numbers, right and down, mm."""
    found = [[float(n) for n in groups if n] for groups in _PLACED.findall(leaf)]
    return np.array([complex(*pair) for pair in found])
