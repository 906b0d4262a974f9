"""The wiring as a chapter of setting up; its diagram is among the sheets."""

from __future__ import annotations

import math

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import resolve
from firstfire.engine.wires import Wire, caution, wiring
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.wiring.text import opening, section_words
from firstfire.verdict.numbers import figures

TITLE = "Wiring"


def wiring_chapter(engine: Engine) -> Chapter:
    """The wires of an engine."""
    found = wiring(resolve(engine))
    rows = tuple(_row(wire) for wire in found.wires)
    head = ("wire", "from", "to", "A", "m", "mm²", "V lost")
    said = (opening(engine.name, found), "Its diagram is the sheet named wiring.")
    return Chapter("wiring", TITLE, said, (), (Table("Wires", head, rows),), caution(found))


def _row(wire: Wire) -> tuple[str, ...]:
    amps = "–" if wire.current == 0.0 else figures(wire.current, 3)
    lost = "–" if math.isnan(wire.drop) or wire.drop == 0.0 else f"{wire.drop:.2f}"
    return (wire.id, wire.start, wire.end, amps, f"{wire.length:g}", section_words(wire), lost)
