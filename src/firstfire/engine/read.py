"""Reading an engine file: understood whole, or refused with everything that is wrong."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from firstfire import catalog
from firstfire.engine.engine import Engine
from firstfire.engine.impossible.whole import impossible
from firstfire.engine.layers import Layer, Stack
from firstfire.engine.toml_lines import line_numbers
from firstfire.engine.tree import Gathered, Reader
from firstfire.engine.values import Values
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.toml_text import NotToml, parsed

SCHEMA = "firstfire.engine/1"
LAYER_SCHEMA = "firstfire.layer/1"
LARGEST = 1_000_000
_HEAD = ("schema", "name", "story", "note")
_LAYERS = {
    "printer": "measured", "as_built": "measured", "learned": "learned", "fault": "assumed",
    "trial": "given",
}  # fmt: skip


def read(file: str | os.PathLike[str]) -> Engine:
    """The engine written down in `file`.

    Parameters
    ----------
    file
        A TOML file; a ``catalog.toml`` beside it or in the person's config folder adds rows.

    Raises
    ------
    EngineFileError
        With every problem at once, each with its path, line, fault and cure.
    CatalogError
        Where a person's own catalog file is wrong.
    """
    path = Path(file)
    text = read_text(path)
    rows = catalog.load(catalog.own_files(path))
    return understand(text, str(file), rows)


def understand(
    text: str, where: str, rows: catalog.Catalog, before: tuple[Values, ...] = ()
) -> Engine:
    """The engine that a file's text describes.

    Parameters
    ----------
    text, where, rows
        Of the file, its name for messages, and what its names refer to.
    before
        ``built`` of an engine that this is a change of, which makes it quicker and nothing else.

    Raises
    ------
    EngineFileError
        With every problem at once.
    """
    tree = _parse(text, where)
    lines = line_numbers(text)
    problems = _head_problems(tree, lines, SCHEMA, _HEAD)
    as_built = tree.pop("as_built", {})
    head = {key: str(tree.pop(key, "")) for key in _HEAD}
    said = Reader(rows, "file", "given", where, lines).read(tree)
    built = _read_built(as_built, rows, where, lines)
    stack = Stack((Layer("file", where, said.entries), Layer("as_built", where, built.entries)))
    problems += said.problems + built.problems
    engine = Engine(
        name=head["name"] or Path(where).stem,
        story=head["story"],
        where=where,
        sha256=hashlib.sha256(text.encode()).hexdigest(),
        stack=stack,
        catalog=rows,
        faulty=frozenset(said.faulty | built.faulty),
        before=before,
    )
    return checked(engine, where, problems)


def _read_built(
    as_built: object, rows: catalog.Catalog, where: str, lines: Mapping[str, int]
) -> Gathered:
    if not isinstance(as_built, dict):
        fault = "is not a table"
        return Gathered(problems=[Problem("as_built", fault, "Write [as_built.cylinder].")])
    return Reader(rows, "as_built", "measured", where, lines, under="as_built").read(as_built)


def _refuse(where: str, problems: Sequence[Problem]) -> None:
    if problems:
        unique = list(dict.fromkeys(problems))
        raise EngineFileError(where, sorted(unique, key=lambda p: (p.line == 0, p.line)))


def _head_problems(
    tree: dict[str, Any], lines: Mapping[str, int], schema: str, texts: Sequence[str]
) -> list[Problem]:
    """Whether the file says what it is, in a version we know; bad head entries are dropped."""
    found = []
    for key in texts:
        if key in tree and not isinstance(tree[key], str):
            found.append(
                Problem(key, "is not text", 'Write it in quotes, "like this".', lines.get(key, 0))
            )
            tree.pop(key)
    spoken = tree.get("schema", schema)
    if spoken != schema:
        found.append(
            Problem(
                "schema", f'is "{spoken}"', f'Write schema = "{schema}".', lines.get("schema", 0)
            )
        )
    return found


def read_layer(file: str | os.PathLike[str], engine: Engine) -> Engine:
    """`engine` with an overlay file on it: a printer's habits, what was learned, a trial.

    Raises
    ------
    EngineFileError
        With every problem at once, those of the engine so changed included.
    """
    return with_layer_text(read_text(Path(file)), str(file), engine)


def with_layer_text(text: str, where: str, engine: Engine) -> Engine:
    """`engine` with the text of an overlay on it, from `where`.

    Raises
    ------
    EngineFileError
        As `read_layer` does.
    """
    tree, lines = _parse(text, where), line_numbers(text)
    problems = _head_problems(tree, lines, LAYER_SCHEMA, ("schema", "layer", "origin", "note"))
    name = str(tree.pop("layer", "trial"))
    origin = str(tree.pop("origin", "") or where)
    values = tree.pop("set", {})
    for key in tree.keys() - {"schema", "note"}:
        cure = "An overlay has schema, layer, origin, note and a [set] table."
        problems.append(Problem(key, "is not known in an overlay", cure, lines.get(key, 0)))
    if name not in _LAYERS:
        cure = f"It is one of: {', '.join(_LAYERS)}."
        problems.append(Problem("layer", f'is "{name}"', cure, lines.get("layer", 0)))
        name = "trial"
    kind: Any = _LAYERS[name]
    said = Reader(engine.catalog, name, kind, where, lines, under="set").read(_nested(values))
    _refuse(where, problems + said.problems)
    return checked(engine.with_layer(Layer(name, origin, said.entries)), where)


def with_values(
    engine: Engine,
    values: Mapping[str, object],
    *,
    layer: str = "trial",
    origin: str = "tried on the command line",
    comma: bool = True,
) -> Engine:
    """`engine` with some values set on top, as ``--set path=value`` does.

    Values may be given as written (``"45 mm"``, ``"0,5 mm"``, ``"2"``) or as a file has them;
    without `comma` only as a file has them.

    Examples
    --------
    ``with_values(engine, {"cylinder.bore": "45 mm"})``

    Raises
    ------
    EngineFileError
        With every problem at once.
    """
    reader = Reader(engine.catalog, layer, "given", origin, comma=comma)
    said = reader.read(_nested(dict(values)))
    _refuse(origin, said.problems)
    return checked(engine.with_layer(Layer(layer, origin, said.entries)), origin)


def checked(engine: Engine, where: str, problems: Sequence[Problem] = ()) -> Engine:
    """`engine` itself, if nothing about it is impossible; what was asked of it for that is kept.

    Parameters
    ----------
    engine, where
        It, and what to call it.
    problems
        That are known already.

    Raises
    ------
    EngineFileError
        With every problem at once.
    """
    each = tuple(engine.values(number) for number in range(1, engine.cylinders + 1))
    _refuse(where, [*problems, *impossible(engine, each)])
    return replace(engine, before=each)


def _nested(flat: object) -> dict[str, Any]:
    """``{"a.b": 1}`` as ``{"a": {"b": 1}}``; what is nested already stays."""
    tree: dict[str, Any] = {}
    for path, value in flat.items() if isinstance(flat, dict) else ():
        *tables, last = str(path).split(".")
        here = tree
        for table in tables:
            inner = here.setdefault(table, {})
            here = inner if isinstance(inner, dict) else here
        inside = isinstance(value, dict) and "value" not in value
        here[last] = {**here.get(last, {}), **_nested(value)} if inside else value
    return tree


def read_text(path: Path) -> str:
    """A file's text, refused by kind and size before anything is parsed.

    Raises
    ------
    EngineFileError
        Missing, a folder, unreadable, over 1 MB, or not text.
    """
    try:
        state = path.stat()
        if stat.S_ISDIR(state.st_mode):
            raise _refused(path, "is a folder", f"Name the file in it, like {path / 'wren.toml'}.")
        if not stat.S_ISREG(state.st_mode):
            raise _refused(path, "is not an ordinary file", "Name a .toml file.")
        if state.st_size > LARGEST:
            raise _refused(
                path,
                f"is {state.st_size / 1e6:.1f} MB",
                "An engine file is some kilobytes; 1 MB is the most that is read.",
            )
        data = path.read_bytes()
    except FileNotFoundError:
        hint = f"`firstfire new {path}` writes one."
        raise _refused(path, "is not there", hint) from None
    except PermissionError:
        raise _refused(path, "may not be read", "Give yourself the right to read it.") from None
    except (OSError, ValueError) as why:
        raise _refused(path, f"can't be read ({why})", "Try a copy of it.") from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        cure = "An engine file is TOML in UTF-8, as any text editor writes it."
        raise _refused(path, "is not a text file", cure) from None


def _refused(path: Path, fault: str, cure: str) -> EngineFileError:
    return EngineFileError(str(path), [Problem("", fault, cure)])


def _parse(text: str, where: str) -> dict[str, Any]:
    try:
        return parsed(text)
    except NotToml as why:
        cure = 'A line is  name = "value"  below a [section].'
        problem = Problem("", f"this is not TOML: {why.fault}", cure, why.line)
        raise EngineFileError(where, [problem]) from None


__all__ = ["FirstfireError", "read", "read_layer", "read_text", "understand", "with_values"]
