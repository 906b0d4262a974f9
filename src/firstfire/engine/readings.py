"""How each uncertain input can be measured at home: with what, in how long, and how well.

Minutes and what a reading leaves open are common practice, no source, but for the errors of
instruments, which are the catalog's. What nobody can measure at home says why.
"""

from __future__ import annotations

import math
from dataclasses import replace
from fnmatch import fnmatchcase
from typing import Literal

from firstfire.catalog import Row
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import split
from firstfire.engine.readings_table import READINGS, Reading, Stage
from firstfire.engine.unknowns import Unknown

__all__ = [
    "Reading",
    "Stage",
    "ends_left",
    "kind_of_material",
    "material_words",
    "reading_of",
    "span_left",
]

_SHORT = 2
"""Words of a kind that stand before a name: *free cutting brass*."""

Kind = Literal["printed", "sawn", "metal", "rubber", "gasket", "mixed"]


def reading_of(engine: Engine, path: str) -> Reading:
    """The reading that tells an uncertain input, its words those of this engine.

    Parameters
    ----------
    engine
        Whose materials are named, and whose parts say what can be reached.
    path
        Of an unknown, or another name that engines are drawn by.

    Raises
    ------
    KeyError
        Where the table has no row for it.
    """
    plain = split(path)[1]
    kind, name = "", ""
    if plain.startswith("materials."):
        row = engine.catalog.row("material", plain.split(".")[1])
        kind, name = kind_of_material(row), material_words(row.name)
    for reading in READINGS:
        if fnmatchcase(plain, reading.pattern) and reading.material in ("", kind):
            return _possible(replace(reading, words=reading.words.format(material=name)), engine)
    raise KeyError(f"no row of readings_table.py tells how {plain} is measured")


def _possible(reading: Reading, engine: Engine) -> Reading:
    """The reading, not to be had where the engine has no such part to take it from."""
    if reading.needs is None:
        return reading
    where, words, without = reading.needs
    if engine.values(1)[where] in words:
        return reading
    return replace(reading, why_not=without)


def material_words(name: str) -> str:
    """A material's name as it stands in the middle of a sentence.

    Examples
    --------
    >>> material_words("PA6, cast"), material_words("Mild steel (AISI 1018/1020, S235)")
    ('cast PA6', 'mild steel')
    >>> material_words("Gasket sheet, fibre with NBR binder")
    'gasket sheet'
    """
    first, _, more = name.partition(" (")[0].partition(", ")
    if first[1:2].islower():
        first = first[:1].lower() + first[1:]
    return f"{more} {first}" if more and len(more.split()) <= _SHORT else first


def kind_of_material(row: Row) -> Kind:
    """What one does with a material: whether bars of it can be printed or sawn.

    Examples
    --------
    >>> from firstfire.catalog import Catalog
    >>> kind_of_material(Catalog().row("material", "petg"))
    'printed'
    """
    structure, made = row.texts.get("structure", ""), row.texts.get("made", "")
    if structure == "metal":
        return "metal"
    if made == "mixed":
        return "mixed"
    if structure == "elastomer":
        return "rubber"
    if row.key.startswith("gasket"):
        return "gasket"
    return "printed" if made == "printed" else "sawn"


def span_left(reading: Reading, unknown: Unknown, engine: Engine) -> float:
    """Share of an unknown's span that a reading leaves, 0 to 1; 1 where it tells nothing new.

    What is written in the file with its instrument, or with its own low and high, is then as wide
    as this (`firstfire.engine.unknowns`).

    Parameters
    ----------
    reading
        Of that unknown.
    unknown
        As wide as it is now.
    engine
        For its instruments' errors, and its size.
    """
    if reading.why_not or unknown.high <= unknown.low:
        return 1.0
    if reading.left_as == "half":  # as the file takes a person's own value of a material
        return 0.5 if unknown.origin.startswith("catalog") else 1.0
    low, high = ends_left(reading, unknown, engine)
    if unknown.distribution in ("lognormal", "loguniform") and unknown.low > 0:
        return math.log(high / low) / math.log(unknown.high / unknown.low)
    return (high - low) / (unknown.high - unknown.low)


def ends_left(reading: Reading, unknown: Unknown, engine: Engine) -> tuple[float, float]:
    """The 5 and 95 % that a reading at the unknown's centre leaves, within those of now; SI."""
    centre = unknown.centre
    if reading.left_as == "factor":
        low, high = centre / reading.left, centre * reading.left
    else:
        off = _off(reading, unknown, engine)
        low, high = centre - off, centre + off
    return max(low, unknown.low), min(high, unknown.high)


def _off(reading: Reading, unknown: Unknown, engine: Engine) -> float:
    """What a reading may be off by to either side, SI."""
    if reading.left_as == "share":
        return reading.left * abs(unknown.centre)
    if reading.left_as == "of_volume":
        values = engine.values(split(unknown.path)[0] or 1)
        bore, stroke = values.number("cylinder.bore"), values.number("cylinder.stroke")
        return reading.left * math.pi / 4 * bore**2 * stroke
    return _error(engine.catalog.row("instrument", reading.instrument), unknown.centre)


def _error(instrument: Row, value: float) -> float:
    """What one reading may be off by, SI."""
    relative = instrument.get("error_relative")
    more = relative.si * abs(value) if relative is not None else 0.0
    return math.hypot(instrument.si("error"), more)
