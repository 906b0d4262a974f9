"""Sizes as a person writes them on a shopping list, and names of catalog rows."""

from __future__ import annotations

from firstfire.catalog import Catalog
from firstfire.verdict.numbers import THIN, figures, shown

_DIGITS = 4


def mm(metres: float | None) -> str:
    """A length in millimetres to four figures, as a caliper shows it.

    Examples
    --------
    >>> mm(0.03953).replace(THIN, " "), mm(0.002).replace(THIN, " ")
    ('39.53 mm', '2 mm')
    """
    return shown(metres, "mm", _DIGITS)


def bare_mm(metres: float) -> str:
    """The same without its unit."""
    return figures(metres * 1e3, _DIGITS)


def by(*metres: float) -> str:
    """Sizes side by side.

    Examples
    --------
    >>> by(0.015, 0.035, 0.011).replace(THIN, " ")
    '15 × 35 × 11 mm'
    """
    return f"{' × '.join(bare_mm(m) for m in metres)}{THIN}mm"


def give(metres: float) -> str:
    """A tolerance, plus or minus.

    Examples
    --------
    >>> give(0.0002).replace(THIN, " ")
    '± 0.2 mm'
    """
    return f"± {mm(metres)}"


def material(rows: Catalog, key: str) -> str:
    """What a material is called, without what stands in brackets, small where it is a word."""
    name = rows.row("material", key).name.split(" (")[0]
    return name if name[:2].isupper() else name[:1].lower() + name[1:]


def many(count: int, one: str, more: str = "") -> str:
    """A count with its noun.

    Examples
    --------
    >>> many(1, "piston"), many(2, "piston"), many(2, "body", "bodies")
    ('1 piston', '2 pistons', '2 bodies')
    """
    return f"{count} {one if count == 1 else more or f'{one}s'}"
