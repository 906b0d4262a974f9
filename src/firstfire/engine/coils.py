"""Which coil feeds which plugs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine

_TURN = 2.0 * math.pi


@dataclass(frozen=True)
class Pair:
    """One coil's plugs, by their cylinders, counted from 1: one, or two in series."""

    cylinders: tuple[int, ...]


def paired(plain: PlainEngine) -> bool:
    """Whether two plugs can stand at the ends of one coil: they fire a whole turn apart."""
    tops = firing_angles(plain)
    if not plain.spark.wasted or len(tops) != 2:
        return False
    return abs((tops[1] - tops[0]) % (2 * _TURN) - _TURN) < 1e-6


def coils_of(plain: PlainEngine) -> tuple[Pair, ...]:
    """The coils of an engine."""
    count = len(plain.cylinders)
    if paired(plain):
        return (Pair((1, 2)),)
    return tuple(Pair((one,)) for one in range(1, count + 1))
