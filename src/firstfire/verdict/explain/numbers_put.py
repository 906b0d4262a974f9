"""Every number put into a judgement, with who said it or what computed it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.catalog import Datum
from firstfire.engine.arithmetic import names_in
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves, split
from firstfire.engine.layers import Entry
from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.all import put_in
from firstfire.parts.inputs import OUTCOME, Input
from firstfire.verdict.explain.bench_units import Shown, unit_of, with_unit, words_of
from firstfire.verdict.explain.opened import NumberPut
from firstfire.verdict.numbers import THIN, figures, life

_LAYERS = {
    "printer": "your printer's file",
    "learned": "learned from tests",
    "fault": "a fault that is tried",
    "trial": "tried for this run",
}


def numbers_put(
    engine: Engine, plain: PlainEngine, way: Way, digits: int, read: Sequence[str] = ()
) -> list[NumberPut]:
    """The numbers that the working of a way begins from, then what is told besides.

    Parameters
    ----------
    engine, plain
        As written down, and as it was judged.
    way
        Judged.
    digits
        Figures, as its working writes them.
    read
        Paths that it reads, which tell of which material a number is.
    """
    cylinder = int(way.id.partition("#")[2] or 1)
    found_below = {line.name for line in way.working}
    used = {name for line in way.working for name in names_in(line.expression)}
    begun = [name for name in way.inputs if name not in found_below]
    besides = [
        name for name in begun
        if name not in used and put_in(name).words and put_in(name).by != OUTCOME
    ]  # fmt: skip
    return [
        _number(engine, plain, way, name, cylinder, digits, read)
        for name in (*(name for name in begun if name in used), *besides)
    ]


def _number(
    engine: Engine, plain: PlainEngine, way: Way, name: str, cylinder: int, digits: int,
    read: Sequence[str],
) -> NumberPut:  # fmt: skip
    value, unit = way.inputs[name], unit_of(name)
    if name in leaves():
        kind, origin, source = _said(engine.values(cylinder).spoken(name), engine)
    else:
        kind, origin, source = _found(engine, plain, way, name, cylinder, read)
    return NumberPut(
        name=name,
        words=words_of(name),
        value=value,
        unit_text=unit.name,
        value_text=_value_text(name, value, unit, digits),
        kind=kind,
        origin_text=origin,
        source=source,
    )


def number_at(engine: Engine, path: str, value: float, digits: int, cylinder: int = 1) -> NumberPut:
    """A value of the engine file, with who said it.

    Parameters
    ----------
    engine
        As written down.
    path, value
        Where it stands, and what it comes to, SI.
    digits
        Figures, as its working writes them.
    cylinder
        Counted from 1.
    """
    unit = unit_of(path)
    kind, origin, source = _said(engine.values(cylinder).spoken(path), engine)
    text = with_unit(value, unit, digits)
    return NumberPut(path, words_of(path), value, unit.name, text, kind, origin, source)


def _value_text(name: str, value: float, unit: Shown, digits: int) -> str:
    if name == "life_hours":
        return life(value)
    text = with_unit(value, unit, digits)
    if put_in(name).dimension == "pressure":
        return f"{text} ({figures(value / 1e5)}{THIN}bar)"
    return text


def _said(entry: Entry, engine: Engine) -> tuple[str, str, str]:
    """Kind, origin and source of a value of the engine."""
    if entry.layer in _LAYERS:
        kind = "learned" if entry.kind == "learned" else "tried"
        if entry.layer == "printer":
            kind = "measured"
        return kind, _LAYERS[entry.layer], entry.source
    if entry.kind == "default":
        return "default", _sentence(entry.note) or "a rule of thumb", entry.source
    if entry.kind == "catalog":
        return "catalog", entry.note, entry.source
    line = f", line {entry.line}" if entry.line else ""
    where = engine.where.rpartition("/")[2] if entry.source == engine.where else entry.source
    return entry.kind, f"{where}{line}", entry.note


def _sentence(note: str) -> str:
    return note.strip().rstrip(".")


def _found(
    engine: Engine, plain: PlainEngine, way: Way, name: str, cylinder: int, read: Sequence[str]
) -> tuple[str, str, str]:
    """Kind, origin and source of what no path holds."""
    one = put_in(name)
    if one.props:
        row = _row_of(engine, plain, way, name, one, cylinder, read)
        if row is not None:
            return row
    origin = one.by
    if name == "temperature_leaves" and way.temperature is not None:
        origin = f"{one.by} at {way.temperature - 273.15:.0f}{THIN}°C"
    return one.kind, origin, ""


def _row_of(
    engine: Engine,
    plain: PlainEngine,
    way: Way,
    name: str,
    one: Input,
    cylinder: int,
    read: Sequence[str],
) -> tuple[str, str, str] | None:
    """The material's row whose property this is: of those the way reads, the first that has it."""
    for key in _materials(engine, read, cylinder):
        material = plain.materials.get(key)
        for prop in one.props:
            if material is not None and material.get(prop) == way.inputs[name]:
                return _row(engine, key, prop)
    return None


def _row(engine: Engine, key: str, prop: str) -> tuple[str, str, str]:
    row = engine.catalog.row("material", key)
    said = engine.stack.top(f"materials.{key}.{prop}")
    if said is not None:
        kind, origin, source = _said(said, engine)
        return kind, f"{origin}: {row.name}", source
    datum: Datum = row[prop]
    span = ""
    if datum.low < datum.high:
        unit = datum.unit.replace("*m^0.5", "·√m").replace("degC", "°C").replace("percent", "%")
        unit = unit.replace("^", "")
        unit = "" if unit == "dimensionless" else f"{THIN}{unit}"
        span = f", {figures(datum.low)}–{figures(datum.high)}{unit}"
    own = "" if row.origin == "catalog" else ", your own row"
    return "catalog", f"{row.name}{own}{span}", f"{datum.source} ({datum.sure})"


def _materials(engine: Engine, read: Sequence[str], cylinder: int) -> Iterator[str]:
    """Keys of the materials that a way reads, in that order; then all others."""
    values = engine.values(cylinder)
    named = [path for path in read if (leaf := leaves().get(split(path)[1])) is not None
             and leaf.row_kind == "material"]  # fmt: skip
    others = [path for path, leaf in leaves().items() if leaf.row_kind == "material"]
    for path in dict.fromkeys([*named, *others]):
        if (key := values[path]) is not None:
            yield str(key)
