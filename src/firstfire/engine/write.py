"""Writing an engine file: small and commented, or with every default and its reason."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any

import tomlkit
from tomlkit.container import Container
from tomlkit.items import InlineTable, Table

from firstfire.engine.description import ORDER
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import Leaf, leaves, split
from firstfire.engine.layers import Entry
from firstfire.engine.quantity import write_quantity
from firstfire.engine.read import SCHEMA
from firstfire.engine.values import Values

# So many digits that reading a full file back gives the same engine to a part in ten million.
_DIGITS = 8
_WIDTH = 96


def small_file(name: str, answers: Mapping[str, object], notes: Iterable[str] = ()) -> str:
    """A small, commented file from a few answers by path.

    Parameters
    ----------
    name
        What the engine is called.
    answers
        Written values by path.
    notes
        Sentences for its head.
    """
    document = tomlkit.document()
    for note in notes:
        _comment(document, note)
    document.add("schema", tomlkit.item(SCHEMA))
    document.add("name", tomlkit.item(name))
    document.add(tomlkit.nl())
    for line in _LEGEND:
        _comment(document, line)
    for section in ORDER:
        said = {p: v for p, v in answers.items() if p.split(".")[0] == section}
        if said:
            document.add(tomlkit.nl())
            document.add(section, _section(said))
    return tomlkit.dumps(document)


_LEGEND = (
    'Quantities are text with a unit: "44 mm", "1-3/4 in", "20 °C", "12 N*m".',
    "What is not written here has a rule-of-thumb default. To see them all, with reasons:",
    "  firstfire new full.toml --from this-file.toml --full",
)


def _comment(where: Container, text: str) -> None:
    for line in _wrapped(text):
        where.add(tomlkit.comment(line))


def _wrapped(text: str) -> list[str]:
    import textwrap

    indent = " " * (len(text) - len(text.lstrip()))
    return textwrap.wrap(text, _WIDTH, initial_indent=indent, subsequent_indent=indent) or [""]


def _section(said: Mapping[str, object]) -> Table:
    table = tomlkit.table()
    for path, value in said.items():
        *inner, last = path.split(".")[1:]
        here: Any = table
        for name in inner:
            if name not in here:
                here.add(name, tomlkit.table(is_super_table=False))
            here = here[name]
        here.add(last, tomlkit.item(value))
        meaning = leaves()[path].description
        if meaning.replace(" ", "_") != last and len(meaning) < 60 and "[" not in meaning:
            here[last].comment(meaning)
    return table


def full_file(engine: Engine) -> str:
    """A file that writes every value of `engine`, each default with its reason and source."""
    document = tomlkit.document()
    document.add(
        tomlkit.comment("Every value written out. A value marked 'default' may be deleted:")
    )
    document.add(tomlkit.comment("the rule named beside it then fills it again."))
    document.add("schema", tomlkit.item(SCHEMA))
    document.add("name", tomlkit.item(engine.name))
    if engine.story:
        document.add("story", tomlkit.string(engine.story, multiline="\n" in engine.story))
    for section in ORDER:
        document.add(tomlkit.nl())
        document.add(section, _full_table(section, engine.values(1)))
    for cylinder in range(1, engine.cylinders + 1):
        _own_lines(document, engine, cylinder)
    return tomlkit.dumps(document)


def _full_table(section: str, values: Values) -> Table:
    """One section with all values, inner tables last, as TOML wants."""
    table = tomlkit.table()
    inside = [leaf for path, leaf in leaves().items() if path.split(".")[0] == section]
    for leaf in sorted(inside, key=lambda leaf: leaf.path.count(".")):
        *inner, last = leaf.path.split(".")[1:]
        here: Any = table
        for name in inner:
            if name not in here:
                here.add(name, tomlkit.table())
            here = here[name]
        _full_line(here, last, leaf, _general(values, leaf.path))
    return table


def _general(values: Values, path: str) -> Entry:
    """What holds for all cylinders: what one alone says is written below its own heading."""
    general = values.stack.top(path)
    return general if general is not None else values.spoken(path)


def _full_line(table: Any, key: str, leaf: Leaf, entry: Entry) -> None:
    for line in _wrapped(_meaning(leaf, entry)):
        table.add(tomlkit.comment(line))
    if entry.value is None:
        table.add(tomlkit.comment(f"{key} = {_example(leaf)}"))
    else:
        table.add(key, tomlkit.item(file_value(leaf, entry.value)))


def _example(leaf: Leaf) -> str:
    if leaf.form in ("table", "list"):
        return leaf.description.split(", ", 1)[-1]
    return f'"{leaf.written_example or "..."}"'


def _meaning(leaf: Leaf, entry: Entry) -> str:
    if entry.kind in ("default", "catalog"):
        why = ", ".join(filter(None, (entry.note, entry.source)))
        return f"{leaf.description}. {entry.kind}: {why}"
    return f"{leaf.description}. {entry.kind}{': ' + entry.note if entry.note else ''}"


def file_value(leaf: Leaf, value: Any) -> Any:
    """A value as a file has it: text with a unit, a number, a word, or rows of them.

    Examples
    --------
    >>> file_value(leaves()["cylinder.bore"], 0.044)
    '44 mm'
    """
    if leaf.form == "quantity":
        if leaf.dimension == "ratio":
            return float(f"{value:.{_DIGITS}g}")
        return write_quantity(float(value), leaf.dimension, digits=_DIGITS)
    if leaf.form == "list":
        return [write_quantity(x, leaf.columns[0], digits=_DIGITS) for x in value]
    if leaf.form == "table":
        return [
            [write_quantity(x, c, digits=_DIGITS) for x, c in zip(row, leaf.columns, strict=True)]
            for row in value
        ]
    return value


def _own_lines(document: Container, engine: Engine, cylinder: int) -> None:
    """What was said for this cylinder alone."""
    values = engine.values(cylinder)
    for path, leaf in leaves().items():
        entry = values.stack.top(path, cylinder)
        if entry is None or split(entry.path)[0] is None:
            continue
        here: Any = document
        for name in ["cylinders", str(cylinder), *path.split(".")[:-1]]:
            if name not in here:
                here.add(name, tomlkit.table(is_super_table=name in ("cylinders", str(cylinder))))
            here = here[name]
        here.add(path.rsplit(".", 1)[-1], tomlkit.item(file_value(leaf, entry.value)))


def set_in_text(
    text: str, values: Mapping[str, object], why: Mapping[str, str] | None = None
) -> str:
    """A file's text with some values set; comments and all else stay as they were.

    Parameters
    ----------
    text
        TOML.
    values
        Written values by dotted path.
    why
        A few words by path that are written behind the value, before what stood there.

    Examples
    --------
    >>> print(set_in_text('[cylinder]\\nbore = "44 mm" # tube', {"cylinder.bore": "45 mm"}))
    [cylinder]
    bore = "45 mm" # tube
    """
    document = tomlkit.parse(text)
    for path, value in values.items():
        *tables, last = path.split(".")
        here: Any = document
        for name in tables:
            if name not in here:
                here.add(name, tomlkit.table())
            here = here[name]
        before = here[last].trivia.comment.lstrip("# ").strip() if last in here else ""
        here[last] = value
        said = (why or {}).get(path)
        if said is not None and not isinstance(here, InlineTable):
            here[last].comment(f"{said}; {before}" if before else said)
    return tomlkit.dumps(document)


def rounded_length(value: float) -> str:
    """A length rounded to half a millimetre, as one would draw it.

    Examples
    --------
    >>> rounded_length(0.04062)
    '40.5 mm'
    """
    return f"{round(value * 2e3) / 2:g} mm" if math.isfinite(value) else "0 mm"
