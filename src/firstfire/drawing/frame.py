"""Where a cylinder stands on the sheet: turned about the crank, mirrored, moved."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from firstfire.drawing.model import Disc, Lettering, Loop, Part, Point, Region, Shape, Stroke


@dataclass(frozen=True)
class Frame:
    """From a cylinder's own coordinates to the sheet's.

    Attributes
    ----------
    turned
        Clockwise, rad.
    mirrored
        Whether left and right are exchanged (before turning).
    origin
        Where its own origin lies on the sheet, mm.
    """

    turned: float = 0.0
    mirrored: bool = False
    origin: Point = (0.0, 0.0)

    def point(self, own: Point) -> Point:
        """A point on the sheet."""
        x, y = (-own[0] if self.mirrored else own[0]), own[1]
        cosine, sine = math.cos(self.turned), math.sin(self.turned)
        return self.origin[0] + cosine * x + sine * y, self.origin[1] - sine * x + cosine * y

    def loop(self, own: Loop) -> Loop:
        """An outline on the sheet."""
        flip = -1.0 if self.mirrored else 1.0
        cosine, sine = math.cos(self.turned), math.sin(self.turned)
        left, up = self.origin
        return tuple(
            (left + cosine * flip * x + sine * y, up - sine * flip * x + cosine * y, flip * b)
            for x, y, b in own
        )

    def shape(self, own: Shape) -> Shape:
        """A shape on the sheet."""
        if isinstance(own, Region):
            return Region(tuple(self.loop(loop) for loop in own.loops), own.fill, own.pen)
        if isinstance(own, Disc):
            return Disc(self.point(own.centre), own.radius, own.fill, own.pen)
        if isinstance(own, Stroke):
            return Stroke(self.loop(own.vertices), own.pen)
        if isinstance(own, Lettering):
            return replace(own, at=self.point(own.at))
        return own

    def part(self, own: Part) -> Part:
        """A part on the sheet."""
        return replace(own, shapes=tuple(self.shape(shape) for shape in own.shapes))
