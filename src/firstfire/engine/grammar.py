"""The path grammar: every value an engine can have, by dotted path.

One grammar serves the file, ``--set``, errors, schema, faults, sweeps and dependencies.
A path below a cylinder's own sections may be said for one cylinder alone, as
``cylinders.2.runner.length``; without the prefix it holds for all.
"""

from __future__ import annotations

import difflib
import re
import types
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from firstfire.engine.description import ORDER, CylinderParts, SharedParts
from firstfire.engine.fields import Field, FromCatalog, Quantity
from firstfire.engine.quantity import DIMENSIONS

_CYLINDER = re.compile(r"^cylinders\.([1-9])\.(.+)$")


@dataclass(frozen=True)
class Leaf:
    """What one path holds.

    Attributes
    ----------
    path
        Dotted path without a cylinder prefix.
    form
        ``quantity``, ``catalog``, ``choice``, ``integer``, ``flag``, ``text`` or ``table``
        (rows of quantities), or ``list`` (quantities).
    dimension
        For quantities, name of the dimension.
    row_kind
        For ``catalog``, the kind of row.
    choices
        For ``choice``, the words allowed.
    columns, limits
        For ``table`` and ``list``, the dimensions of a row, and what each lies between.
    optional
        Whether it may stay unsaid.
    own
        Whether it belongs to each cylinder.
    description, low, high, example
        As declared.
    row
        ``(path, property)`` of the catalog row that supplies it, or None.
    """

    path: str
    form: str
    description: str
    own: bool
    optional: bool = False
    dimension: str = ""
    row_kind: str = ""
    choices: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()
    limits: tuple[tuple[str, str], ...] = ()
    low: str | None = None
    high: str | None = None
    example: str | None = None
    row: tuple[str, str] | None = None

    @property
    def written_example(self) -> str:
        """How a file writes such a value: its own example, or any of its dimension; else ""."""
        return self.example or (DIMENSIONS[self.dimension].example if self.dimension else "")


@cache
def leaves() -> dict[str, Leaf]:
    """Every path with what it holds, in the order of building."""
    found: dict[str, Leaf] = {}
    for owner, own in ((CylinderParts, True), (SharedParts, False)):
        for name, info in owner.model_fields.items():
            for leaf in _walk(name, info, own):
                found[leaf.path] = leaf
    rank = {name: place for place, name in enumerate(ORDER)}
    return dict(sorted(found.items(), key=lambda item: rank[item[0].split(".")[0]]))


def _walk(path: str, info: Field, own: bool) -> Iterator[Leaf]:
    if info.section is not None:
        for name, inner in info.section.model_fields.items():
            yield from _walk(f"{path}.{name}", inner, own)
        return
    yield _leaf(path, info, own)


def _leaf(path: str, info: Field, own: bool) -> Leaf:
    annotation, marks = _bare(info.annotation, ())
    noted = info.said
    if noted is None:
        raise TypeError(f"{path} is declared without said(...)")
    section = path.rsplit(".", 1)[0]
    facts: dict[str, Any] = {
        "path": path,
        "description": noted.description,
        "own": own,
        "optional": noted.optional,
        "low": noted.low,
        "high": noted.high,
        "example": noted.example,
        "row": (f"{section}.{noted.row[0]}", noted.row[1]) if noted.row else None,
        "limits": noted.columns,
    }
    for mark in marks:
        if isinstance(mark, Quantity):
            return Leaf(form="quantity", dimension=mark.dimension, **facts)
        if isinstance(mark, FromCatalog):
            return Leaf(form="catalog", row_kind=mark.kind, **facts)
    if get_origin(annotation) is Literal:
        return Leaf(form="choice", choices=get_args(annotation), **facts)
    if get_origin(annotation) is tuple:
        inner = get_args(annotation)[0]
        if get_origin(inner) is tuple:
            return Leaf(form="table", columns=tuple(map(_dimension, get_args(inner))), **facts)
        return Leaf(form="list", columns=(_dimension(inner),), **facts)
    forms: dict[Any, str] = {bool: "flag", int: "integer", str: "text"}
    return Leaf(form=forms[annotation], **facts)


def _bare(annotation: Any, marks: tuple[Any, ...]) -> tuple[Any, tuple[Any, ...]]:
    """The annotation without ``| None`` and ``Annotated``, and the marks met on the way."""
    if get_origin(annotation) in (Union, types.UnionType):
        inner = [a for a in get_args(annotation) if a is not type(None)]
        return _bare(inner[0], marks)
    if get_origin(annotation) is Annotated:
        return _bare(get_args(annotation)[0], (*marks, *get_args(annotation)[1:]))
    return annotation, marks


def _dimension(annotation: Any) -> str:
    _, marks = _bare(annotation, ())
    return next(mark.dimension for mark in marks if isinstance(mark, Quantity))


def split(path: str) -> tuple[int | None, str]:
    """Cylinder (None: all) and the path itself.

    Examples
    --------
    >>> split("cylinders.2.runner.length")
    (2, 'runner.length')
    >>> split("runner.length")
    (None, 'runner.length')
    """
    match = _CYLINDER.match(path)
    return (int(match[1]), match[2]) if match else (None, path)


@cache
def sections() -> frozenset[str]:
    """Every dotted prefix that is a table of the file rather than a value."""
    found: set[str] = set()
    for path in leaves():
        parts = path.split(".")
        found.update(".".join(parts[:n]) for n in range(1, len(parts)))
    return frozenset(found)


def nearest(path: str) -> str:
    """The known path nearest to an unknown one, or "" where none is near.

    Examples
    --------
    >>> nearest("cylinder.bor")
    'cylinder.bore'
    """
    known = [*leaves(), *sections()]
    same_tail = [k for k in known if k.rsplit(".", 1)[-1] == path.rsplit(".", 1)[-1]]
    close = difflib.get_close_matches(path, known, n=1, cutoff=0.72)
    if close:
        return close[0]
    if same_tail and "." in path:
        return difflib.get_close_matches(path, same_tail, n=1, cutoff=0.0)[0]
    loose = difflib.get_close_matches(path, known, n=1, cutoff=0.55)
    return loose[0] if loose else ""
