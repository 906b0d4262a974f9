"""What a fault of a start is."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine

Layer = Mapping[str, object]
Obeyed = Mapping[str, Any]
Does = Callable[[PlainEngine, float], tuple[Layer, Obeyed]]


class DoesNotApplyError(ValueError):
    """An engine cannot have this fault; the words say why."""


@dataclass(frozen=True)
class Fault:
    """A fault that an engine may have when it is started.

    Attributes
    ----------
    name, what
        As it is asked for, and what is wrong.
    sign
        What a builder sees or hears of it.
    does
        The engine's values that it changes, and what the start obeys, from plain numbers and its
        size: fields of `Wrong`, and beside them ``mixture``, and ``advance``, which is added to a
        spark that is asked for.
    size
        What its size is, e.g. "share of the coil's energy"; "" where it has none.
    dimension, usual
        Of that size, and how large it is if nothing is said, as written.
    least, most
        Sizes that make sense, as written.
    """

    name: str
    what: str
    sign: str
    does: Does = field(repr=False)
    size: str = ""
    dimension: str = "ratio"
    usual: str = ""
    least: str = ""
    most: str = ""


def obeys(**what: object) -> Does:
    """A fault without a size that the start obeys."""
    return lambda _plain, _size: ({}, what)


def sized(name: str) -> Does:
    """A fault whose size the start obeys."""
    return lambda _plain, size: ({}, {name: size})


def angle(value: float) -> str:
    """An angle, rad, as an engine file has it."""
    return write_quantity(value, "angle", digits=6)


def sparks_by_cam(plain: PlainEngine) -> bool:
    """Whether its spark's wheel is on the camshaft: a wasted spark has it on the crank."""
    return not plain.spark.wasted


def a_tooth(plain: PlainEngine) -> float:
    """Crank angle of a tooth of the cam's wheel, rad."""
    return 4 * math.pi / plain.cam_drive.teeth_cam
