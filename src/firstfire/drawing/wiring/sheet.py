"""The wiring sheet: paths between two rails, what each letter code is, and the table of wires."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from firstfire.drawing.model import Drawing, Lettering, Part, Shape
from firstfire.drawing.templates.template import Template
from firstfire.drawing.text import wrapped
from firstfire.drawing.wiring.paths import BOTTOM, Placed, cell, column, feed, placed, wire
from firstfire.engine.wires import Element, Path, Wire, Wiring, caution

_LINE, _SMALL = 4.5, 2.5
_CODES, _WIRES = 88.0, 163.0
_COLUMNS = (0.0, 13.0, 53.0, 98.0, 116.0, 146.0)


def wiring_sheet(name: str, wiring: Wiring) -> Drawing:
    """The wiring of an engine as one drawing, millimetres of paper.

    Parameters
    ----------
    name
        Of the engine.
    wiring
        What `firstfire.engine.wires.wiring` gave.
    """
    parts = _parts(name, wiring)
    box = Template("wiring", name, "Wiring", parts, ()).box
    return Drawing(
        name=name, title="Wiring",
        description=_described(wiring), parts=parts, labels=(), centrelines=(), arrows=(),
        legend=(), box=box.grown(5.0), unit=1.0, crank_angle=0.0,
    )  # fmt: skip


def wiring_template(name: str, wiring: Wiring) -> Template:
    """The same as one of the sheets that are printed as they are, on more pages where it is wide.

    Parameters
    ----------
    name, wiring
        As `wiring_sheet` takes them.
    """
    notes = ("Not to scale: only its lettering is as large as it should be.",)
    return Template("wiring", name, "Wiring", _parts("", wiring), notes, to_scale=False)


def _parts(name: str, wiring: Wiring) -> tuple[Part, ...]:
    paths = placed(wiring)
    parts = [Part("feed", "battery, fuse and stop", "wiring", tuple(feed(wiring)))]
    relayed = next((one.x for one in paths if one.path.fed_by == "relay"), None)
    driven = "A1" if any(path.id == "controller" for path in wiring.paths) else ""
    for one in paths:
        shapes = tuple(
            column(one, relayed, driven, [w for w in wiring.wires if w.path == one.path.id])
        )
        parts.append(Part(one.path.id.replace(" ", "-"), one.path.name, "wiring", shapes))
    parts.append(Part("rails", "rails", "wiring", tuple(_rails(paths, relayed))))
    left = min(-12.0, *(one.x - 12.0 for one in paths))
    parts.append(Part("tables", "tables", "words", tuple(_tables(name, wiring, left))))
    return tuple(parts)


def _rails(paths: Sequence[Placed], relayed: float | None) -> Iterator[Shape]:
    main = [one for one in paths if one.path.fed_by != "battery"]
    left = min([0.0, *(one.x for one in paths if one.path.fed_by == "battery")])
    right = max((one.right for one in main), default=20.0)
    last = max((one.x for one in main if one.path.fed_by == "main"), default=0.0)
    yield wire((0, 0), (max(last, relayed or 0.0), 0), pen="outline")
    yield wire((left, BOTTOM), (right, BOTTOM), pen="outline")
    yield Lettering((-3.0, 1.5), "+", 3.5, "end")
    yield Lettering((left - 3.0, BOTTOM - 1.2), "–", 3.5, "end")
    if relayed is not None:
        yield from cell(Element("K1", "contact", "relay contact"), relayed, 0.0)


def _tables(name: str, wiring: Wiring, left: float) -> Iterator[Shape]:
    if name:
        yield Lettering((left, 15.0), f"{name}: wiring", 3.5)
    yield Lettering((left, 9.0), "Not to scale; symbols after IEC 60617", _SMALL)
    top = BOTTOM - 14.0
    codes = [*_codes(wiring)]
    for row, text in enumerate(codes):
        yield Lettering((left, top - row * _LINE), text, _SMALL)
    at = left + _CODES
    heads = ("wire", "from", "to", "A", "mm²", "V lost")
    for row, cells in enumerate([heads, *(_row(one) for one in wiring.wires)]):
        for x, text in zip(_COLUMNS, cells, strict=True):
            yield Lettering((at + x, top - row * _LINE), text, _SMALL)
    rows = max(len(codes), len(wiring.wires) + 1)
    for row, text in enumerate(wrapped(caution(wiring), (_CODES + _WIRES) / _SMALL, 6)):
        yield Lettering((left, top - (rows + 1 + row) * _LINE), text, _SMALL)


def _codes(wiring: Wiring) -> Iterator[str]:
    rating = "over 40 A: two circuits" if wiring.fuse is None else f"{wiring.fuse:g} A"
    yield f"G1  battery, {wiring.voltage:g} V"
    yield f"F1  fuse, {rating}"
    yield "S1  stop switch: opens when hit"
    for element in elements(wiring.paths):
        value = f", {element.value}" if element.value else ""
        yield f"{element.id}  {element.name}{value}"


def elements(paths: Sequence[Path]) -> Iterator[Element]:
    """Every element of all paths, each once."""
    seen = set[str]()
    for path in paths:
        for one in (*path.elements, *(other for _, other in path.beside), *path.plugs):
            if one.id not in seen:
                seen.add(one.id)
                yield one


def _row(one: Wire) -> tuple[str, ...]:
    if one.kind == "high voltage":
        return one.id, one.start, one.end, "–", "HV lead", "–"
    section = "too thin" if one.section is None else f"{one.section:g}"
    if one.kind == "screened":
        section += " screened"
    drop = "–" if math.isnan(one.drop) or one.drop == 0.0 else f"{one.drop:.2f}"
    amps = "–" if one.current == 0.0 else f"{one.current:.3g}"
    return one.id, one.start, one.end, amps, section, drop


def _described(wiring: Wiring) -> str:
    """For whoever can't see it."""
    ways = "; ".join(
        f"{path.name}: {', '.join(f'{one.name} {one.id}' for one in path.elements)}"
        for path in wiring.paths
    )
    return f"Wiring between battery, fuse and stop switch and the minus rail. {ways}."
