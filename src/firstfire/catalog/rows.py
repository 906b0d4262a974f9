"""From what files say to finished rows: inheriting, completeness, names that don't clash."""

from __future__ import annotations

from collections.abc import Mapping

from firstfire.catalog.curves import REFERENCE_TEMPERATURE, stretched
from firstfire.catalog.found import find, names_of
from firstfire.catalog.fuel_blends import settled
from firstfire.catalog.names import nearest
from firstfire.catalog.properties import properties
from firstfire.catalog.reader import Parts
from firstfire.catalog.row import CurvePoint, Row
from firstfire.errors import Problem

_STRETCHED = ("modulus", "strength")


def finished(
    kind: str, found: Mapping[str, Parts], known: Mapping[str, Row], origin: str
) -> tuple[dict[str, Row], list[Problem]]:
    """Rows made of `found`, and what is wrong with them.

    Parameters
    ----------
    kind
        Kind of all of them.
    found
        What the files say, by key.
    known
        Rows that a row may be like, and that may not be mixed up with it.
    origin
        ``"catalog"`` or ``"yours"``.
    """
    rows: dict[str, Row] = {}
    problems: list[Problem] = []
    taken = {name: row for row in known.values() for name in names_of(row)}
    # A mixture comes after what it is made of.
    for key, parts in sorted(found.items(), key=lambda item: "made_of" in item[1].texts):
        others = bool(parts.like) or kind == "fuel"
        row, wrong = _row(kind, key, parts, {**known, **rows} if others else {}, origin)
        problems += wrong or _clashes(row, taken)
        taken.update(dict.fromkeys(names_of(row), row))
        rows[key] = row
    return {key: rows[key] for key in found}, problems


def _row(
    kind: str, key: str, parts: Parts, known: Mapping[str, Row], origin: str
) -> tuple[Row, list[Problem]]:
    base = find(known, parts.like) if parts.like else None
    if parts.like and base is None:
        near = nearest(parts.like, [n for r in known.values() for n in (r.key, r.name)])
        cure = f"Nearest: {', '.join(near)}." if near else f"`firstfire catalog {kind}` lists them."
        problem = Problem(f"{kind}.{key}.like", f'is "{parts.like}", which is no {kind}', cure)
        return Row(kind, key, parts.name or key, origin, {}), [problem]
    row = Row(
        kind,
        key,
        parts.name or key,
        origin,
        {**(base.data if base else {}), **parts.data},
        {**(base.texts if base else {}), **parts.texts},
        {**(_inherited(base, parts) if base else {}), **parts.curves},
        parts.aliases,
    )
    problems: list[Problem] = []
    if kind == "fuel":
        row, problems = settled(row, parts, known)
    return row, problems or [
        Problem(f"{kind}.{key}", f"has no {name}", f"Give {prop.means}.")
        for name, prop in properties(kind).items()
        if prop.needed and name not in row.data
    ]


def _inherited(base: Row, parts: Parts) -> Mapping[str, tuple[CurvePoint, ...]]:
    """Curves of the row that is followed; an amorphous plastic's move with its own Tg."""
    own, of_base = parts.data.get("glass_transition"), base.get("glass_transition")
    if own is None or of_base is None or base.texts.get("structure") != "amorphous":
        return base.curves
    if min(own.si, of_base.si) <= REFERENCE_TEMPERATURE:
        return base.curves
    return {
        name: stretched(points, of_base.si, own.si) if name in _STRETCHED else points
        for name, points in base.curves.items()
    }


def _clashes(row: Row, taken: Mapping[str, Row]) -> list[Problem]:
    others = {taken[name].key: taken[name] for name in names_of(row) if name in taken}
    return [
        Problem(
            f"{row.kind}.{row.key}",
            f'has a name or alias that also means "{other.name}"',
            "Give it another name, or the key of that row to put yours in its place.",
        )
        for other in others.values()
        if other.key != row.key
    ]
