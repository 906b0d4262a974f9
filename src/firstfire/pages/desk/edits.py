"""One value in an engine file's text: set or taken out, comments and all else as they were."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from firstfire.engine.grammar import leaves, split
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.toml_lines import line_numbers
from firstfire.engine.typed import typed
from firstfire.toml_text import NotToml, parsed

_BARE = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)")
_COMMA = re.compile(r"^([+-]?\d+),(\d+)")
_LINE = re.compile(
    r"""^(?P<head>\s*[^=#\n]+?=\s*)
        (?P<value>"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|[^"'\[{#\s][^#\n]*?)
        (?P<rest>[ \t]*(?:\#[^\n]*)?)$""",
    re.VERBOSE,
)


def as_file_has_it(path: str, said: str) -> object:
    """What was typed in a field, as an engine file has it: unit added, comma made a point.

    What can't be read stays as it is, for the reader to say what is wrong with it.

    Examples
    --------
    >>> as_file_has_it("cylinder.bore", "44,5"), as_file_has_it("rings.count", "2")
    ('44.5 mm', 2)
    """
    leaf, words = leaves().get(split(path)[1]), said.strip()
    if leaf is not None and leaf.form == "quantity":
        words = _COMMA.sub(r"\1.\2", words)
        if leaf.dimension != "ratio" and _BARE.fullmatch(words):
            words = f"{words} {DIMENSIONS[leaf.dimension].shown}"
    return typed(path, words)


def set_value(text: str, path: str, value: object) -> str:
    """`text` with one value set.

    Where the value stands on a line of its own only that is replaced: a large file is so changed
    in milliseconds, and the result is compared with what was meant.

    Raises
    ------
    NotToml
        Where the text isn't TOML, so that nothing can be set in it.

    Examples
    --------
    >>> print(set_value('[cylinder]\\nbore = "44 mm" # tube', "cylinder.bore", "45 mm"))
    [cylinder]
    bore = "45 mm" # tube
    """
    tree = parsed(text)
    short = _on_its_line(text, path, value)
    wanted = _with(tree, path.split("."), value)
    if short is not None and _same(short, wanted):
        return short
    from firstfire.engine.write import set_in_text

    try:
        return set_in_text(text, {path: value})
    except (TypeError, ValueError, AttributeError):  # a table's name that holds a value
        raise NotToml(f"{path} can't be set: something above it isn't a table") from None


def take_out(text: str, path: str) -> str:
    """`text` without a value, so that its default holds again; unchanged where it isn't there.

    Raises
    ------
    NotToml
        Where the text isn't TOML.
    """
    import tomlkit

    parsed(text)
    document = tomlkit.parse(text)
    *tables, last = path.split(".")
    here: Any = document
    for name in tables:
        if name not in here:
            return text
        here = here[name]
    if last not in here:
        return text
    here.remove(last)
    return tomlkit.dumps(document)


def said_in(text: str) -> dict[str, Any]:
    """Every value that the text itself says, by dotted path; empty where it isn't TOML."""
    try:
        return dict(_flat(parsed(text), ""))
    except NotToml:
        return {}


def _flat(tree: dict[str, Any], prefix: str) -> list[tuple[str, Any]]:
    found: list[tuple[str, Any]] = []
    for key, value in tree.items():
        path = f"{prefix}{key}"
        if isinstance(value, dict):
            found += _flat(value, f"{path}.")
        else:
            found.append((path, value))
    return found


def _on_its_line(text: str, path: str, value: object) -> str | None:
    """With the value replaced where it stands; None where it doesn't stand so."""
    number = line_numbers(text).get(path)
    if number is None or isinstance(value, list | dict):
        return None
    lines = text.splitlines(keepends=True)
    line = lines[number - 1].rstrip("\r\n")
    found = _LINE.match(line)
    if found is None:
        return None
    end = lines[number - 1][len(line) :]
    lines[number - 1] = f"{found['head']}{_toml(value)}{found['rest']}{end}"
    return "".join(lines)


def _toml(value: object) -> str:
    import tomlkit

    return tomlkit.item(value).as_string()


def _with(tree: dict[str, Any], path: list[str], value: object) -> dict[str, Any]:
    """A tree with a value set."""
    first, *others = path
    inner = tree.get(first)
    if others:
        below = inner if isinstance(inner, dict) else {}
        return {**tree, first: _with(below, others, value)}
    return {**tree, first: value}


def _same(text: str, wanted: dict[str, Any]) -> bool:
    try:
        return tomllib.loads(text) == wanted
    except tomllib.TOMLDecodeError:
        return False
