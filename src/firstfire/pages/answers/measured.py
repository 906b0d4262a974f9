"""What was read at the bench, made an overlay: by the same functions as the commands."""

from __future__ import annotations

import math
import re
import traceback
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from firstfire.bench.leak_test import GaugeTest, leak_test
from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.read import with_layer_text
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.pages.answers.messages import Measured, Told
from firstfire.pages.answers.quick import understood
from firstfire.setup.fits.bore import PLACES
from firstfire.setup.fits.measured import (
    Habit,
    bore_layer_text,
    habits,
    layer_text,
    readings,
)
from firstfire.setup.proof.bench_tests import bench_tests
from firstfire.setup.proof.values import written
from firstfire.verdict.numbers import figures

_BARE = re.compile(r"[+-]?\d+(?:[.,]\d*)?|[.,]\d+")
_LONGEST = 60


class _Overlay(NamedTuple):
    """What is laid over the engine file."""

    kind: str
    words: str
    text: str


def laid(one: Measured) -> Told:
    """An overlay of what was read, or what is wrong with it.

    It is laid over the engine once here, so that what it can't be laid over refuses it.
    """
    try:
        engine = understood(one.of)
        found = _KINDS[one.kind](engine, one.said)
        with_layer_text(found.text, "what was measured", engine)
    except EngineFileError as why:
        return _told(one, wrong=[_said_wrong(p) for p in why.problems])
    except FirstfireError as why:
        return _told(one, wrong=[str(why)])
    except Exception as why:  # a fault of ours must not end the pages: it is said, and logged
        traceback.print_exc()
        words = f"This could not be read, by a fault of firstfire's own: {why!r}."
        return _told(one, wrong=[words])
    return _told(one, words=found.words, text=found.text, of=found.kind)


def _said_wrong(problem: Problem) -> str:
    """A problem without the option that the commands have it under."""
    place = re.sub(r"^--\w+ ", "", problem.path)
    return f"{place} {problem.fault}. {problem.cure}".strip()


def _told(one: Measured, **data: object) -> Told:
    return Told(one.number, one.key, "laid", {"tab": one.tab, "kind": one.kind, **data})


def _printer(engine: Engine, said: Mapping[str, str]) -> _Overlay:
    """Sizes drawn and come out: ``hole 1`` beside ``hole 1 read``."""
    typed = [
        f"{name.split()[0]} {_with_unit(drawn, 'mm')}={_with_unit(said[f'{name} read'], 'mm')}"
        for name, drawn in _filled(said)
        if not name.endswith("read") and said.get(f"{name} read", "").strip()
    ]
    found = habits(engine, readings(engine, _some(typed)).printed)
    return _Overlay("printer", f"Printer: {', '.join(map(_habit, found))}", layer_text(found))


def _habit(one: Habit) -> str:
    plural = "s" if one.kind == "hole" else "s or outsides"
    return f"{one.kind}{plural} {1e3 * one.error:+.2f} mm ({one.count} read)"


def _bore(engine: Engine, said: Mapping[str, str]) -> _Overlay:
    """Readings by place: ``top along``; ``cylinder`` says which."""
    number = said.get("cylinder", "").strip() or "1"
    typed = [
        f"{number} bore {place}={_with_unit(value, 'mm')}"
        for place, value in _filled(said)
        if place in PLACES
    ]
    found = readings(engine, _some(typed)).bores
    (which, bore), *_ = found.items()
    many = f" of cylinder {which}" if engine.cylinders > 1 else ""
    apart = 1e3 * (bore.most - bore.least)
    words = (
        f"Bore{many}: {1e3 * bore.mean:.2f} mm, mean of {len(bore.readings)}; widest less "
        f"narrowest {apart:.2f} mm"
    )
    return _Overlay(f"bore {which}", words, bore_layer_text(engine, found))


def _gauge(engine: Engine, said: Mapping[str, str]) -> _Overlay:
    """A compression gauge: ``shows``, ``rpm``, and with oil ``oiled``."""
    problems: list[Problem] = []

    def number(
        name: str, words: str, dimension: str, unit: str, span: tuple[float, float]
    ) -> float:
        text = _with_unit(said.get(name, ""), unit)
        low, high = span
        try:
            value = float(read_quantity(text, dimension, comma=True)) if text else math.nan
        except NotAQuantity as why:
            problems.append(Problem(words, why.fault, why.cure))
            return math.nan
        if not low <= value <= high:
            fault = "is missing" if math.isnan(value) else "is beyond what makes sense"
            problems.append(
                Problem(words, fault, f"Write it as the gauge's day had it, in {unit}.")
            )
        return value

    bar, rpm = (0.05e5, 60e5), (3.0, 400.0)
    shows = number("shows", "What the gauge shows", "pressure", "bar", bar)
    speed = number("rpm", "The cranking speed", "speed", "rpm", rpm)
    wet = said.get("oiled", "").strip()
    oiled = number("oiled", "The reading with oil", "pressure", "bar", bar) if wet else None
    which = said.get("cylinder", "").strip() if engine.cylinders > 1 else ""
    if which and not which.isdecimal():
        problems.append(Problem("The cylinder", "is no whole number", "Count from 1."))
    if problems:
        raise EngineFileError("a compression gauge", problems)
    cylinder = int(which) if which else None
    found = leak_test(engine, GaugeTest(shows, speed, oiled, cylinder=cylinder))
    with_oil = "" if oiled is None else f", {figures(oiled / 1e5, 2)} bar with oil"
    many = f" of cylinder {cylinder}" if cylinder else ""
    words = (
        f"Gauge{many}: {figures(shows / 1e5, 2)} bar at {speed * 30 / math.pi:.0f} rpm{with_oil}"
    )
    return _Overlay(f"gauge {which}".strip(), words, found.layer)


def _coupon(engine: Engine, said: Mapping[str, str]) -> _Overlay:
    """A test piece: ``piece``, and up to three readings of it."""
    piece = " ".join(said.get("piece", "").lower().split())
    values = [value for name, value in _filled(said) if name.startswith("read")]
    typed = [f"{piece}={_with_unit(value, 'kg')}" for value in _some(values)]
    found = bench_tests(engine, typed)
    one = found.learned[0]
    path = one.coupon.path
    what = f"{one.coupon.id}, {len(one.readings)} read"
    words = f"Test piece {what}: {path.replace('_', ' ')} {written(engine, path, one.value)}"
    return _Overlay(f"coupon {one.coupon.id}", words.replace('"', ""), found.layer)


_KINDS = {"printer": _printer, "bore": _bore, "gauge": _gauge, "coupon": _coupon}


def _filled(said: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Fields that something was typed in, none of it endless."""
    for name, value in said.items():
        if value.strip():
            yield name, value.strip()[:_LONGEST]


def _with_unit(text: str, unit: str) -> str:
    """A bare number with the unit that its field says.

    Examples
    --------
    >>> _with_unit("11,82", "mm"), _with_unit("0.5 in", "mm"), _with_unit(" ", "mm")
    ('11,82 mm', '0.5 in', '')
    """
    text = text.strip()[:_LONGEST]
    return f"{text} {unit}" if _BARE.fullmatch(text) else text


def _some(typed: list[str]) -> list[str]:
    """Refuse a form in which nothing was filled.

    Raises
    ------
    FirstfireError
        Saying so.
    """
    if not typed:
        raise FirstfireError("Nothing was read yet: fill in at least one reading.")
    return typed
