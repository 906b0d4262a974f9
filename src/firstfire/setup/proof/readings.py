"""Readings of test pieces as they are typed, and the layer that they make."""

from __future__ import annotations

import math
import re
import statistics
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.read import LAYER_SCHEMA
from firstfire.errors import EngineFileError, OutsideValidity, Problem
from firstfire.setup.proof.coupon import Coupon, NoCoupon
from firstfire.setup.proof.known import is_uncertain
from firstfire.setup.proof.values import written
from firstfire.verdict.numbers import figures

GRAVITY = 9.80665
"""m/s²: what a scale's kilogram pulls."""
_MASS = re.compile(r"\b(kg|g|lb|lbs|oz)\s*$", re.IGNORECASE)
_FAR = 4.0
"""Times what is expected beyond which a reading is taken for a slip."""


class Learned(NamedTuple):
    """What readings of one test piece teach.

    Attributes
    ----------
    coupon
        Which.
    readings
        Each, N or N·m.
    value, low, high
        At the coupon's path, SI, 5-95 %.
    """

    coupon: Coupon
    readings: tuple[float, ...]
    value: float
    low: float
    high: float


def learned(
    found: Sequence[Coupon], missing: Sequence[NoCoupon], typed: Sequence[str]
) -> tuple[Learned, ...]:
    """What readings teach.

    Parameters
    ----------
    found, missing
        Test pieces that there are, and those that this engine has no use for.
    typed
        Each ``name=value``, in kg on the scale, N or N·m.

    Raises
    ------
    EngineFileError
        With every reading that is none.
    """
    problems: list[Problem] = []
    read: dict[str, list[float]] = {}
    for text in typed:
        try:
            coupon, value = _one(found, missing, text)
            read.setdefault(coupon.id, []).append(value)
        except NotAQuantity as why:
            problems.append(Problem(f'--reading "{text}"', why.fault, why.cure))
    by_id = {one.id: one for one in found}
    told = []
    for ident, values in read.items():
        try:
            told.append(_taught(by_id[ident], values))
        except OutsideValidity as why:
            problems.append(Problem(f'--reading "{ident}"', "can't be", str(why)))
    problems += _twice(told)
    if problems:
        raise EngineFileError("firstfire coupon", problems)
    return tuple(told)


def _one(found: Sequence[Coupon], missing: Sequence[NoCoupon], text: str) -> tuple[Coupon, float]:
    name, equals, said = (piece.strip() for piece in text.partition("="))
    name = " ".join(name.lower().split())
    like = f"Write one of: {', '.join(f'{one.id}=3.4 kg' for one in found)}."
    if not equals or not said:
        raise NotAQuantity("is no reading of a test piece", like)
    for other in missing:
        if name == other.id:
            raise NotAQuantity(f"is of no use to this engine: {other.why}", like)
    bare = [one for one in found if one.id.split()[0] == name]
    coupon = next((one for one in found if one.id == name), bare[0] if len(bare) == 1 else None)
    if coupon is None:
        raise NotAQuantity("names no test piece of this engine", like)
    value = _value(coupon, said)
    if not coupon.expected.low / _FAR < value < coupon.expected.high * _FAR:
        raise NotAQuantity(
            f"is {figures(value)} {unit_of(coupon)} where {figures(coupon.expected.low, 2)} to "
            f"{figures(coupon.expected.high, 2)} is expected",
            "Read it again: which lever, which scale, did it break where it should?",
        )
    return coupon, value


def unit_of(coupon: Coupon) -> str:
    """In which it is read."""
    return "N" if coupon.kind == "force" else "N·m"


def _value(coupon: Coupon, said: str) -> float:
    """A reading, N or N·m; kilograms are the scale's, before its lever."""
    if _MASS.search(said):
        return read_quantity(said, "mass", comma=True) * GRAVITY * coupon.lever
    return read_quantity(said, coupon.kind, comma=True)


def _taught(coupon: Coupon, readings: Sequence[float]) -> Learned:
    mean = statistics.fmean(readings)
    value = coupon.learned(mean)
    # what the pieces differ by thins out with their number, what the method is off by does not
    off = math.hypot(coupon.scatter / math.sqrt(len(readings)), coupon.tells)
    ends = [_end(coupon, mean, factor, value) for factor in (1 / (1 + off), 1 + off)]
    return Learned(coupon, tuple(readings), value, min(ends), max(ends))


def _end(coupon: Coupon, mean: float, factor: float, value: float) -> float:
    try:
        return coupon.learned(mean * factor)
    except OutsideValidity:
        return value


def _twice(told: Sequence[Learned]) -> Iterator[Problem]:
    """Two pieces that teach the same number."""
    seen: dict[str, str] = {}
    for one in told:
        path, ident = one.coupon.path, one.coupon.id
        if path in seen:
            yield Problem(
                f'--reading "{ident}"', f'teaches {path}, which "{seen[path]}" teaches already',
                "Say one of them: the piece that is more like what you ask about.",
            )  # fmt: skip
        seen[path] = ident


def layer_text(engine: Engine, told: Sequence[Learned]) -> str:
    """The learned layer's text.

    Parameters
    ----------
    engine
        For units, and for what may say how sure it is.
    told
        From `learned`, at least one.
    """
    what = ", ".join(f"{one.coupon.id} × {len(one.readings)}" for one in told)
    lines = [
        f'schema = "{LAYER_SCHEMA}"', 'layer = "learned"', f'origin = "test pieces: {what}"',
        'note = "broken or twisted at the bench, cold and slow; low and high 5-95 %"', "", "[set]",
        *(f"{one.coupon.path} = {_table(engine, one)}" for one in told),
    ]  # fmt: skip
    return "\n".join(lines) + "\n"


def _table(engine: Engine, one: Learned) -> str:
    path = one.coupon.path
    value = written(engine, path, one.value)
    if not is_uncertain(engine, path):
        return value
    low, high = (written(engine, path, end) for end in (one.low, one.high))
    return f"{{ value = {value}, low = {low}, high = {high} }}"
