"""One written value against what its path holds: read, or told what would be right."""

from __future__ import annotations

import difflib
import itertools
import math
import re
from collections.abc import Callable
from typing import Any

from firstfire.catalog import Catalog
from firstfire.engine.grammar import Leaf
from firstfire.engine.quantity import DIMENSIONS, NotAQuantity, read_quantity
from firstfire.errors import CatalogError


def read_leaf(leaf: Leaf, raw: object, catalog: Catalog, *, comma: bool = False) -> Any:
    """The value of `raw` as `leaf` wants it: SI float, count, flag, word or tuple.

    Raises
    ------
    NotAQuantity
        With what is wrong and what would be right.
    """
    readers: dict[str, Callable[[], Any]] = {
        "quantity": lambda: _quantity(leaf, raw, comma),
        "catalog": lambda: _catalog(leaf, raw, catalog),
        "choice": lambda: _choice(leaf, raw),
        "integer": lambda: _integer(leaf, raw, comma),
        "flag": lambda: _flag(raw, comma),
        "text": lambda: _text(raw),
        "list": lambda: _rows(leaf, raw),
        "table": lambda: _rows(leaf, raw),
    }
    return readers[leaf.form]()


def _quantity(leaf: Leaf, raw: object, comma: bool) -> float:
    try:
        value = read_quantity(raw, leaf.dimension, comma=comma)
    except NotAQuantity as why:
        if leaf.example is None:
            raise
        general = DIMENSIONS[leaf.dimension].example
        raise NotAQuantity(
            why.fault, why.cure.replace(f'"{general}"', f'"{leaf.example}"')
        ) from None
    _within(leaf, value, f'"{raw}"' if isinstance(raw, str) else str(raw))
    return value


def _within(leaf: Leaf, value: float, shown: str) -> None:
    """Refuse what no engine of this kind has."""
    word = _beyond(value, leaf.dimension, leaf.low, leaf.high)
    if word:
        raise NotAQuantity(f"is {shown}, {word}", _span(leaf))


def beyond_limits(leaf: Leaf, value: float) -> tuple[str, str] | None:
    """How a value that wasn't written lies beyond its limits, and what they are; None within."""
    word = _beyond(value, leaf.dimension, leaf.low, leaf.high)
    return (word, _span(leaf)) if word else None


def _beyond(value: float, dimension: str, low: str | None, high: str | None) -> str:
    """How a value lies beyond its limits, "" where it doesn't; a rounding hair beyond passes."""
    if not math.isfinite(value):
        return "which is not a number"
    for limit, sign, word in ((low, -1.0, "below"), (high, 1.0, "above")):
        if limit is None:
            continue
        edge = read_quantity(limit, dimension) if dimension else float(limit)
        if sign * (value - edge) > 1e-9 * max(abs(edge), abs(value)):
            return "negative" if value < 0 <= edge else f"{word} what makes sense"
    return ""


def _span(leaf: Leaf) -> str:
    subject = leaf.path.rsplit(".", 1)[-1].replace("_", " ")
    low, high = leaf.low, leaf.high
    if leaf.dimension == "ratio" or not leaf.dimension:
        kind = "whole number" if leaf.form == "integer" else "number"
        if low is not None and high is not None:
            return f"The {subject} is a {kind} from {low} to {high}."
        return (
            f"The {subject} is a {kind}, {low} or more." if low is not None else f"Write a {kind}."
        )
    if low is not None and high is not None:
        return f"The {subject} is from {low} to {high}."
    if low is not None:
        return f"The {subject} is {low} or more."
    return f'Write it like "{leaf.written_example}".'


def _catalog(leaf: Leaf, raw: object, catalog: Catalog) -> str:
    if not isinstance(raw, str):
        raise NotAQuantity(
            f"is {raw!r}, not the name of a {leaf.row_kind}",
            f"`firstfire catalog {leaf.row_kind}` lists the names.",
        )
    try:
        return catalog.row(leaf.row_kind, raw).key
    except CatalogError as why:
        near = re.search(r"nearest: ([^.]+)\.", str(why))
        cure = f"`firstfire catalog {leaf.row_kind}` lists what there is."
        if near:
            cure = f"The nearest are {near[1]}; {cure}"
        raise NotAQuantity(f'is "{raw}": no such {leaf.row_kind}', cure) from None


def _choice(leaf: Leaf, raw: object) -> str:
    word = raw.strip().lower().replace(" ", "_").replace("-", "_") if isinstance(raw, str) else raw
    for choice in leaf.choices:
        if word == choice.lower().replace("-", "_"):
            return choice
    shown = f'"{raw}"' if isinstance(raw, str) else repr(raw)
    close = difflib.get_close_matches(str(word), leaf.choices, n=1, cutoff=0.5)
    hint = f' Did you mean "{close[0]}"?' if close else ""
    raise NotAQuantity(f"is {shown}", f"It is one of: {', '.join(leaf.choices)}.{hint}")


def _integer(leaf: Leaf, raw: object, typed: bool) -> int:
    if typed and isinstance(raw, str) and is_whole(raw):
        raw = int(raw)
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise NotAQuantity(f"is {raw!r}, not a whole number", _span(leaf))
    _within(leaf, raw, str(raw))
    return raw


def is_whole(written: str) -> bool:
    """Whether a typed word is a whole number, of no more digits than any count has.

    Examples
    --------
    >>> is_whole("12"), is_whole("1.5"), is_whole("9" * 400)
    (True, False, False)
    """
    return re.fullmatch(r"\s*[+-]?[0-9]{1,18}\s*", written) is not None


def _flag(raw: object, typed: bool) -> bool:
    words = {"true": True, "yes": True, "y": True, "false": False, "no": False, "n": False}
    if typed and isinstance(raw, str) and raw.strip().lower() in words:
        return words[raw.strip().lower()]
    if not isinstance(raw, bool):
        raise NotAQuantity(f"is {raw!r}", "Write true or false, without quotes.")
    return raw


def _text(raw: object) -> str:
    if not isinstance(raw, str):
        raise NotAQuantity(f"is {raw!r}, not text", 'Write it in quotes, "like this".')
    return raw


def _rows(leaf: Leaf, raw: object) -> tuple[Any, ...]:
    """A list of quantities, or a table of rows, its first column rising."""
    cure = f"Write {leaf.description.split(', ', 1)[-1]}."
    if not isinstance(raw, list) or not raw:
        raise NotAQuantity("is not a list", cure)
    if len(raw) > 1000:
        raise NotAQuantity(f"has {len(raw)} entries", "Keep it to 1000 or fewer.")
    if leaf.form == "list":
        return tuple(_cell(leaf, item, 0, f"in place {at}") for at, item in enumerate(raw, start=1))
    rows = []
    for number, row in enumerate(raw, start=1):
        if not isinstance(row, list) or len(row) != len(leaf.columns):
            raise NotAQuantity(f"has no pair in row {number}", cure)
        rows.append(tuple(_cell(leaf, x, at, f"in row {number}") for at, x in enumerate(row)))
    if any(b[0] <= a[0] for a, b in itertools.pairwise(rows)):
        raise NotAQuantity("has a first column that doesn't rise from row to row", cure)
    return tuple(rows)


def _cell(leaf: Leaf, raw: object, column: int, place: str) -> float:
    """One quantity of a list or a table, within what its column may hold."""
    value = read_quantity(raw, leaf.columns[column])
    low, high = leaf.limits[column]
    word = _beyond(value, leaf.columns[column], low, high)
    if word:
        raise NotAQuantity(f'has "{raw}" {place}, {word}', f"That is from {low} to {high}.")
    return value
