"""The engine's description as rows of a form, each with its unit, its reason and its source."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from typing import Any

from markupsafe import Markup

from firstfire.engine.description import ORDER
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import Leaf, leaves
from firstfire.engine.layers import Entry
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.values import Unsaid, written
from firstfire.pages.answers.templates import rendered
from firstfire.report.inputs import KINDS, reason

Row = dict[str, str]
"""Of one value: what the field shows (`v`), how it is known (`k`), and why (`why`);
of a length also its metres (`m`)."""


def form(engine: Engine) -> Markup:
    """All sections in the order of building, each with its rows; without values."""
    inside: dict[str, list[Leaf]] = {name: [] for name in ORDER}
    for path, leaf in leaves().items():
        inside[path.split(".")[0]].append(leaf)
    kinds = sorted({leaf.row_kind for leaf in leaves().values() if leaf.row_kind})
    names = {kind: [(row.key, row.name) for row in engine.catalog.rows(kind)] for kind in kinds}
    return rendered(
        "form.html.j2",
        sections=[(name.replace("_", " "), name, found) for name, found in inside.items()],
        names=names,
        unit=_unit,
        kinds=KINDS,
    )


def _unit(leaf: Leaf) -> str:
    """What a bare number in its field means."""
    if leaf.form != "quantity":
        return ""
    shown = DIMENSIONS[leaf.dimension].shown
    return {"degC": "°C", "deg": "°"}.get(shown, shown.replace("*", "·").replace("^2", "²"))


def rows(engine: Engine) -> dict[str, Row]:
    """Every value by its path, as the first cylinder has it."""
    values, found = engine.values(1), {}
    for path, leaf in leaves().items():
        with suppress(Unsaid):
            found[path] = _row(path, leaf, values.spoken(path))
    return found


def _row(path: str, leaf: Leaf, entry: Entry) -> Row:
    shown = entry.written or written(path, entry.value)
    if leaf.form in ("list", "table"):
        shown = written(path, entry.value)
    if leaf.form == "flag" and entry.value is not None:
        shown = "true" if entry.value else "false"
    if leaf.form in ("choice", "catalog") and entry.value is not None:
        shown = str(entry.value)
    own = entry.layer in ("file", "trial", "as_built", "printer", "learned")
    row = {"v": shown, "k": entry.kind, "l": entry.layer if own else "", "why": reason(entry)}
    if leaf.dimension == "length" and leaf.form == "quantity" and entry.value is not None:
        row["m"] = f"{entry.value:.9g}"
    return row


def changed(now: Mapping[str, Row], before: Mapping[str, Row]) -> dict[str, Any]:
    """Those rows that are not what they were."""
    return {path: row for path, row in now.items() if before.get(path) != row}
