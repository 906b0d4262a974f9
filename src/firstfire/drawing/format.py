"""What a drawing is laid out for: a sheet of paper, a desk's page, a phone or a bench sheet."""

from __future__ import annotations

from dataclasses import dataclass, replace

from firstfire.drawing.model import Box

# ISO 5455, and 1 : 2.5 of older practice.
STEPS = (0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 50.0)
_FINE = tuple(0.4 * 1.05**step for step in range(100))


@dataclass(frozen=True)
class Format:
    """Room for a drawing.

    Attributes
    ----------
    wide, high
        mm, words and legend included, at the size at which lettering has its own height.
    steps
        Scales it may be drawn at, mm of the engine to one of paper, the largest drawing first.
    ruled
        Whether a ruler finds the scale: not on a screen, which has none.
    keyed
        Whether the drawing has numbers only and their words stand below, as where it is narrow.
    turns
        Whether it may lie on its side.
    measured
        Whether its dimensions are drawn.
    """

    wide: float
    high: float
    steps: tuple[float, ...] = STEPS
    ruled: bool = True
    keyed: bool = False
    turns: bool = True
    measured: bool = True

    def holds(self, box: Box, unit: float) -> bool:
        """Whether a box of the engine fits at a scale."""
        wide, high = box.width / unit, box.height / unit
        upright = wide <= self.wide and high <= self.high
        return upright or (self.turns and wide <= self.high and high <= self.wide)


A4 = Format(202.0, 289.0)
"""What A4 holds inside a margin of 4 mm."""

DESK = Format(164.0, 200.0, _FINE, ruled=False, turns=False)
"""A column of a page, 620 px wide (a CSS pixel is 1/96 in)."""

NARROW = Format(94.0, 168.0, _FINE, ruled=False, keyed=True, turns=False)
"""A phone of 390 px less its margins, or half a sheet of paper."""

PICTURE = replace(NARROW, measured=False)
"""The same without dimensions: for what is laid over the engine."""
