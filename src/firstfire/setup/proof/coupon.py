"""A test piece: what is printed, how it is loaded, what it teaches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from firstfire.engine.engine import Engine
from firstfire.engine.pieces import Piece

Kind = Literal["force", "torque"]


@dataclass(frozen=True)
class Expected:
    """What it is expected to read, N or N·m, and between what, 5-95 %."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class Coupon:
    """One test piece.

    Attributes
    ----------
    id
        What its reading is called: ``bar petg``.
    title
        What it is.
    kind
        Whether a force or a torque is read.
    path
        What it teaches, as a layer says it.
    now
        What that is taken to be, SI.
    expected
        What it reads if that is right.
    piece
        What is printed.
    steps
        How to load it, in order.
    reads
        How to read it and what the reading means.
    bears_on
        Which judgements hang on it.
    learned
        From a reading, N or N·m, to the value at `path` that makes it, SI.
    scatter
        What one reading may be off by the part's own luck and the tools, as a share, 5-95 %.
    tells
        How far the value itself may be off besides, however many are broken, as a share.
    lever
        What multiplies the reading of a scale before it is the force or the torque: metres of a
        lever for a torque, a ratio for a force.
    """

    id: str
    title: str
    kind: Kind
    path: str
    now: float
    expected: Expected
    piece: Piece
    steps: tuple[str, ...]
    reads: str
    bears_on: tuple[str, ...]
    learned: Callable[[float], float] = field(compare=False)
    scatter: float = 0.1
    tells: float = 0.0
    lever: float = 1.0


@dataclass(frozen=True)
class NoCoupon:
    """A test piece that this engine has no use for, and why."""

    id: str
    why: str


def proportional(now: float, expected: float) -> Callable[[float], float]:
    """What a reading teaches where it grows as the value does."""
    return lambda read: now * read / expected


def named(engine: Engine, key: str) -> str:
    """A material's name, short."""
    return engine.catalog.row("material", key).name.split(" (")[0]
