"""Forces of one moment laid over the section, to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from firstfire.drawing.frame import Frame
from firstfire.drawing.model import Arrow, Point
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import Array, CylinderLoads, Loads
from firstfire.engine.resolve import PlainEngine

_LONGEST = 0.9  # longest arrow, in bores
_CYCLE = 4 * math.pi


@dataclass(frozen=True)
class CylinderForces:
    """Of one cylinder at one moment, N, in its own directions.

    Attributes
    ----------
    gas
        On the piston, down the bore positive.
    inertia
        Up the bore positive.
    rod
        Compression positive.
    side
        Of the piston on the wall, a quarter turn against rotation from the bore positive.
    crankpin
        Its size.
    """

    gas: float
    inertia: float
    rod: float
    side: float
    crankpin: float


@dataclass(frozen=True)
class Forces:
    """Of all cylinders at one crank angle.

    Attributes
    ----------
    crank_angle
        rad after the firing top centre of cylinder 1.
    cylinders
        Each one's.
    newtons_per_mm
        How long an arrow is: a round number at which the longest is a bore or less.
    path
        Cylinder, counted from 1, and name of each that is drawn; None for all.
    """

    crank_angle: float
    cylinders: tuple[CylinderForces, ...]
    newtons_per_mm: float
    path: frozenset[tuple[int, str]] | None = None

    def on_path(self, cylinder: int, name: str) -> bool:
        """Whether a force is drawn: of a cylinder counted from 1."""
        return self.path is None or (cylinder, name) in self.path


NAMES = ("gas", "inertia", "rod", "side", "crankpin")
"""Of the forces of one cylinder."""


def forces_at(
    loads: Loads,
    plain: PlainEngine,
    crank_angle: float,
    path: frozenset[tuple[int, str]] | None = None,
) -> Forces:
    """Forces at a crank angle, between the points of the cycle that were computed.

    Parameters
    ----------
    loads
        Of one operating point.
    plain
        Its engine.
    crank_angle
        rad after the firing top centre of cylinder 1, any turn.
    path
        Which of them are drawn, as `Forces` has it.
    """
    each = tuple(
        _one(own, crank_angle - late)
        for own, late in zip(loads.cylinders, firing_angles(plain), strict=True)
    )
    found = Forces(crank_angle, each, 1.0, path)
    largest = max(
        (abs(getattr(f, name)) for n, f in enumerate(each, 1) for name in NAMES
         if found.on_path(n, name)),
        default=0.0,
    )  # fmt: skip
    bore = 1e3 * plain.cylinders[0].cylinder.bore
    return replace(found, newtons_per_mm=_round(max(largest, 1.0) / (_LONGEST * bore)))


def _one(own: CylinderLoads, angle: float) -> CylinderForces:
    start = float(own.angle[0])
    place = start + (angle - start) % _CYCLE

    def read(values: Array) -> float:
        return float(np.interp(place, own.angle, values))

    return CylinderForces(
        read(own.gas), read(own.inertia), read(own.rod), read(own.side), read(own.crankpin)
    )


def _round(value: float) -> float:
    """The next of 1, 2, 5, 10, 20 ... above a value.

    Examples
    --------
    >>> _round(3.2), _round(120.0)
    (5.0, 200.0)
    """
    power = 10.0 ** math.floor(math.log10(value))
    return next(power * step for step in (1.0, 2.0, 5.0, 10.0) if power * step >= value)


def arrows(
    forces: Forces, sizes: Sequence[CylinderSizes], frames: Sequence[Frame]
) -> tuple[Arrow, ...]:
    """Where each force acts and where its arrow ends, on the sheet."""
    found: list[Arrow] = []
    for s, frame, f in zip(sizes, frames, forces.cylinders, strict=True):
        lean = math.atan2(s.crankpin[0] - s.x, s.pin - s.crankpin[1])
        down = (math.sin(lean), -math.cos(lean))
        top, pin = (s.x, s.crown), (s.x, s.pin)
        # the wall is pushed to the side away from which the rod leans
        mm = 1.0 / forces.newtons_per_mm
        ends: tuple[tuple[str, float, Point, Point], ...] = (
            ("gas", f.gas, (s.x - 0.35 * s.bore, top[1]), (0.0, -f.gas * mm)),
            ("inertia", f.inertia, (s.x + 0.35 * s.bore, top[1]), (0.0, f.inertia * mm)),
            ("rod", f.rod, pin, (down[0] * f.rod * mm, down[1] * f.rod * mm)),
            ("side", f.side, pin, (-f.side * mm, 0.0)),
        )
        by_pin = _on_pin(s, f)
        size = math.hypot(*by_pin)
        ends += (("crankpin", size, s.crankpin, (by_pin[0] * mm, by_pin[1] * mm)),)
        for name, force, start, by in ends:
            if not forces.on_path(s.number, name):
                continue
            end = (start[0] + by[0], start[1] + by[1])
            found.append(Arrow(name, s.number, force, frame.point(start), frame.point(end)))
    return tuple(found)


def _on_pin(s: CylinderSizes, f: CylinderForces) -> tuple[float, float]:
    """Force of the rod on the crankpin, N: its push, and the pull of its own turning mass.

    The record has the size of both together; that the second points outwards gives its part:
    the smallest pull ``k`` with ``|rod + k outwards|`` of that size.
    """
    lean = math.atan2(s.crankpin[0] - s.x, s.pin - s.crankpin[1])
    rod = f.rod * math.sin(lean), -f.rod * math.cos(lean)
    out = s.crankpin[0] / s.throw, s.crankpin[1] / s.throw
    along = rod[0] * out[0] + rod[1] * out[1]
    under = along**2 - f.rod**2 + f.crankpin**2
    roots = [-along + sign * math.sqrt(max(under, 0.0)) for sign in (-1, 1)]
    pull = min((k for k in roots if k >= 0), default=0.0)
    return rod[0] + pull * out[0], rod[1] + pull * out[1]
