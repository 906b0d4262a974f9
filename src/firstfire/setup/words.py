"""Sizes as a person writes them on a shopping list, and names of catalog rows."""

from __future__ import annotations

from firstfire.catalog import Catalog
from firstfire.verdict.numbers import THIN, figures, shown

_DIGITS = 4
_ROUNDED = 5e-6


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


def percent(share: float, digits: int = 0) -> str:
    """A share in per cent.

    Examples
    --------
    >>> percent(0.1).replace(THIN, " "), percent(0.0079, 1).replace(THIN, " ")
    ('10 %', '0.8 %')
    """
    return f"{100 * share:.{digits}f}{THIN}%"


def sold_diameter(metres: float) -> float | None:
    """The nearest diameter in which rod is sold, m; None where this is one.

    Half millimetres, or thirty-seconds of an inch (common practice, no source).

    Examples
    --------
    >>> sold_diameter(0.01104), sold_diameter(0.012), sold_diameter(0.009525)
    (0.011, None, None)
    """
    half, inch = 0.5e-3, 25.4e-3 / 32
    if min(abs(metres - step * round(metres / step)) for step in (half, inch)) < _ROUNDED:
        return None
    return round(metres / half) * half


def rod_note(metres: float, path: str) -> str:
    """What to do where no rod of a diameter is sold; "" where one is."""
    near = sold_diameter(metres)
    if near is None:
        return ""
    return f"No shop has {mm(metres)} rod: the nearest is {mm(near)}. Set {path} to it."


_PIN_LENGTHS = (4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 30, 32, 36, 40, 45, 50, 55, 60, 70,
                80, 90, 100)  # fmt: skip
"""Lengths of hardened parallel pins, mm: ISO 8734, the commoner ones (from memory)."""
_SHORTEST_PIN = {1: 4, 1.5: 4, 2: 5, 2.5: 6, 3: 8, 4: 10, 5: 12, 6: 14, 8: 18, 10: 22, 12: 26}
"""Shortest pin of a thickness, mm: ISO 8734 (from memory)."""


def sold_pin(diameter: float, length: float) -> float | None:
    """The next longer length in which a hardened parallel pin is sold, m; None beyond all.

    Examples
    --------
    >>> sold_pin(0.004, 0.004), sold_pin(0.003, 0.016), sold_pin(0.004, 0.2)
    (0.01, 0.016, None)
    """
    across = round(diameter * 1e3, 1)
    thicker = (least for size, least in _SHORTEST_PIN.items() if size >= across)
    shortest = next(thicker, _PIN_LENGTHS[-1])
    wanted = max(length * 1e3 - 1e-3, shortest - 1e-3)
    return next((n / 1e3 for n in _PIN_LENGTHS if n >= wanted), None)


def material(rows: Catalog, key: str) -> str:
    """What a material is called, without what stands in brackets, small where it is a word."""
    return small(rows.row("material", key).name.split(" (")[0])


def small(name: str) -> str:
    """A name as it stands within a sentence: small, unless it is capitals.

    Examples
    --------
    >>> small("Caliper"), small("PETG"), small("AS568-126"), small("UV resin")
    ('caliper', 'PETG', 'AS568-126', 'UV resin')
    """
    return name if name[1:2].isupper() or name[1:2].isdigit() else name[:1].lower() + name[1:]


def tool(rows: Catalog, key: str) -> str:
    """What an instrument is called: *caliper (inside jaws)*."""
    name, comma, part = rows.row("instrument", key).name.partition(", ")
    return f"{small(name)} ({part})" if comma else small(name)


def many(count: int, one: str, more: str = "") -> str:
    """A count with its noun.

    Examples
    --------
    >>> many(1, "piston"), many(2, "piston"), many(2, "body", "bodies")
    ('1 piston', '2 pistons', '2 bodies')
    """
    return f"{count} {one if count == 1 else more or f'{one}s'}"
