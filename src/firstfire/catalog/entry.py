"""One entry of a table, checked: a number without source and sureness is refused."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from firstfire.catalog.properties import ANY_UNIT
from firstfire.catalog.row import Datum
from firstfire.units import UnitError, dimension, to_si

SURE = (
    "read here",
    "computed",
    "from memory",
    "assumed",
    "measured",
    "common practice, no source",
)
"""How a number was had. ``measured`` is for a person's own rows."""

_TRIPLE = 3


class Refused(Exception):  # noqa: N818 - it is a refusal, not a malfunction
    """One value can't be taken; carries what is wrong and what would be right."""

    def __init__(self, fault: str, cure: str) -> None:
        self.fault, self.cure = fault, cure
        super().__init__(f"{fault}. {cure}")


def _number(raw: object, what: str) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise Refused(f"has {what} {raw!r}", "A number is needed.")
    if not math.isfinite(raw):
        raise Refused(f"has {what} {raw}", "A finite number is needed.")
    return float(raw)


def spread(raw: Mapping[str, Any], key: str = "value") -> tuple[float, float, float]:
    """Value, low and high of an entry, in order and finite."""
    for needed in (key, "low", "high"):
        if needed not in raw:
            raise Refused(
                f"has no {needed}", f"Give {key}, low and high; an exact size has them alike."
            )
    value, low, high = (_number(raw[k], k) for k in (key, "low", "high"))
    if low > value:
        raise Refused(f"has low {low:g} above value {value:g}", "Low may not exceed the value.")
    if value > high:
        raise Refused(
            f"has value {value:g} above high {high:g}", "High may not be below the value."
        )
    return value, low, high


def origin_of(raw: Mapping[str, Any], sources: Mapping[str, str]) -> tuple[str, str]:
    """Full source text and sureness of an entry; refuses an entry without either."""
    source, sure = raw.get("source"), raw.get("sure")
    if not isinstance(source, str) or not source.strip():
        raise Refused("has no source", "Say where the number comes from, if only a test of yours.")
    if not isinstance(sure, str) or not sure.strip():
        raise Refused("has no sureness", f"sure is one of: {'; '.join(SURE)}.")
    if sure not in SURE:
        raise Refused(f'has sure = "{sure}"', f"sure is one of: {'; '.join(SURE)}.")
    if source in sources:
        return sources[source], sure
    if " " not in source.strip():
        raise Refused(
            f'has source "{source}", which is no key of [sources]',
            "Add it there, or write the source as a sentence.",
        )
    return source, sure


def unit_of(raw: Mapping[str, Any], wanted: str) -> str:
    """Unit of an entry; refuses an unknown one and one of another dimension than `wanted`."""
    unit = raw.get("unit")
    if not isinstance(unit, str) or not unit.strip():
        raise Refused("has no unit", f"Give one, such as {wanted}.")
    try:
        given = dimension(unit)
    except UnitError as why:
        raise Refused(
            f'has unit "{unit}", which is no unit', f"Give one such as {wanted}."
        ) from why
    if wanted != ANY_UNIT and given != dimension(wanted):
        raise Refused(f'has unit "{unit}" of the wrong kind', f"Give one such as {wanted}.")
    return unit


def read_datum(
    raw: object, wanted: str, column: Mapping[str, Any], sources: Mapping[str, str]
) -> Datum:
    """One number: a table of its own, or a bare number or ``[low, value, high]`` of a column.

    Parameters
    ----------
    raw
        What stands in the row.
    wanted
        A unit of the right dimension, or ``"any"``.
    column
        Unit, source and sureness that hold for the whole column; empty where there are none.
    sources
        Source texts by key.
    """
    if isinstance(raw, list):
        if len(raw) != _TRIPLE:
            raise Refused("has a list of other than three numbers", "Write [low, value, high].")
        raw = {"low": raw[0], "value": raw[1], "high": raw[2]}
    elif isinstance(raw, int | float) and not isinstance(raw, bool):
        raw = {"low": raw, "value": raw, "high": raw}
    if not isinstance(raw, Mapping):
        raise Refused(f"is {raw!r}", 'Write { value = .., low = .., high = .., unit = "..", ... }.')
    entry = {**column, **raw}
    value, low, high = spread(entry)
    unit = unit_of(entry, wanted)
    source, sure = origin_of(entry, sources)
    si, si_low, si_high = (to_si(x, unit) for x in (value, low, high))
    if si_low < 0.0:
        raise Refused(f"has low {low:g} {unit}", "Nothing of this kind is below nought.")
    return Datum(value, low, high, unit, si, si_low, si_high, source, sure)
