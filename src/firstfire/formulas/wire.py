"""Copper wire: its resistance, what it drops, what it carries, and what it stands for a moment.

References
----------
IEC 60228, flexible copper conductors (class 5), plain, greatest resistance at 20 °C; IEC 60335-1,
Table 11, least section by rated current (both read as reprinted by cable and pump makers). IEC
60364-5-54, adiabatic heating with k = 115 for copper in PVC (from memory).
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive

FLEXIBLE = {
    0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91,
    16.0: 1.21, 25.0: 0.780, 35.0: 0.554, 50.0: 0.386,
}  # fmt: skip
"""Greatest resistance, mΩ/m at 20 °C, by section, mm² (IEC 60228, class 5)."""

CARRIES = {
    0.5: 3.0, 0.75: 6.0, 1.0: 10.0, 1.5: 16.0, 2.5: 25.0, 4.0: 32.0, 6.0: 40.0, 10.0: 63.0,
}  # fmt: skip
"""Current that a section carries for good, A, by section, mm² (IEC 60335-1, Table 11)."""

_PER_KELVIN = 0.00393
_PVC = 115.0
"""Of copper in PVC from 70 to 160 °C, A √s/mm²."""


def wire_resistance(section: float, length: float, temperature: float = 293.15) -> float:
    """Resistance of a flexible copper wire of a standard section, ohm.

    Parameters
    ----------
    section
        One of :data:`FLEXIBLE`, mm².
    length
        There, or there and back, m.
    temperature
        Of the copper, K; 0.393 % a kelvin.

    Examples
    --------
    2 m of 1.5 mm²:

    >>> round(1e3 * wire_resistance(1.5, 2.0), 1)
    26.6
    """
    require_not_negative(length=length)
    return 1e-3 * FLEXIBLE[section] * length * (1.0 + _PER_KELVIN * (temperature - 293.15))


def adiabatic_section(current: float, seconds: float) -> float:
    """Section that a current may heat for some seconds without harm to PVC, mm²: I√t/115.

    Examples
    --------
    100 A for 5 s:

    >>> round(adiabatic_section(100.0, 5.0), 2)
    1.94
    """
    require_positive(current=current, seconds=seconds)
    return current * math.sqrt(seconds) / _PVC


def wire_section(
    current: float, length: float, drop: float, seconds: float = math.inf, fuse: float = 0.0
) -> float | None:
    """The least standard section for a current, mm²; None where even the thickest is too thin.

    It drops no more than it may, and carries the current: for good, or for so many seconds.

    Parameters
    ----------
    current
        A.
    length
        There and back, m.
    drop
        That is allowed, V.
    seconds
        How long it flows at a time, s.
    fuse
        In front of it, A: it carries that for good.

    Examples
    --------
    5 A over 2 m with 0.36 V lost at most:

    >>> wire_section(5.0, 2.0, 0.36)
    0.75
    """
    require_positive(drop=drop, length=length, seconds=seconds)
    require_not_negative(current=current)
    for section in FLEXIBLE:
        drops = current * wire_resistance(section, length)
        if drops <= drop and fuse <= _rated(section) and _carries(section, current, seconds):
            return section
    return None


def _rated(section: float) -> float:
    """What it carries for good, A; beyond the table's end at least as much as that."""
    return CARRIES.get(section, max(CARRIES.values()))


def _carries(section: float, current: float, seconds: float) -> bool:
    if current <= _rated(section):
        return True
    return math.isfinite(seconds) and adiabatic_section(current, seconds) <= section
