"""Numbers in the units of the bench: mm, N, MPa, °C, rpm; and what an input is called."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.grammar import leaves
from firstfire.engine.quantity import DIMENSIONS
from firstfire.parts.all import put_in
from firstfire.parts.inputs import SAID
from firstfire.verdict.numbers import THIN

_RPM = math.pi / 30


@dataclass(frozen=True)
class Shown:
    """A unit of the bench: what it is called, and ``si = factor * number + offset``."""

    name: str
    factor: float = 1.0
    offset: float = 0.0


_BY_SI = {
    "": Shown(""), "m": Shown("mm", 1e-3), "m^2": Shown("mm²", 1e-6), "m^3": Shown("mm³", 1e-9),
    "m^4": Shown("mm⁴", 1e-12), "N": Shown("N"), "N*m": Shown("N·m"), "N/m": Shown("N/mm", 1e3),
    "Pa": Shown("MPa", 1e6), "K": Shown("K"), "radian/s": Shown("rpm", _RPM),
    "rad/s": Shown("rpm", _RPM), "radian": Shown("°", math.pi / 180),
    "rad": Shown("°", math.pi / 180), "s": Shown("s"), "m/s": Shown("m/s"),
    "m/Pa": Shown("mm/MPa", 1e-9), "1/Pa": Shown("per MPa", 1e-6), "1/K": Shown("per K"),
    "kg": Shown("g", 1e-3), "kg/m^3": Shown("kg/m³"), "Pa*m^0.5": Shown("MPa·√m", 1e6),
    "1/m^2": Shown("per mm²", 1e6), "Pa/(N*m)": Shown("MPa/N·m", 1e6), "J": Shown("J"),
    "kg*m^2": Shown("kg·m²"), "m/s^2": Shown("m/s²"), "m/s^3": Shown("m/s³"),
    "m^3/s": Shown("cm³/min", 1e-6 / 60), "kg/s": Shown("g/s", 1e-3), "m^2/s": Shown("mm²/s", 1e-6),
    "kg/(s*m^2)": Shown("g/s per mm²", 1e3), "kg/m": Shown("kg/m"), "Hz": Shown("Hz"),
    "V": Shown("V"), "A": Shown("A"), "ohm": Shown("Ω"), "H": Shown("mH", 1e-3),
    "F": Shown("nF", 1e-9), "W": Shown("W"),
}  # fmt: skip
_DEGREES = Shown("°C", 1.0, 273.15)
_LONG = 1e15  # more figures than anyone keys in
NOTHING = 1e-8
"""In units of the bench: rounding of a cold wall's temperature."""


def unit_of(name: str) -> Shown:
    """Unit of the bench in which an input is shown."""
    leaf = leaves().get(name)
    dimension = leaf.dimension if leaf else put_in(name).dimension
    if dimension == "temperature":
        return _DEGREES
    return _BY_SI[DIMENSIONS[dimension].si if dimension else ""]


def shown_in(unit: str) -> Shown:
    """Unit of the bench for an SI unit."""
    return _BY_SI[unit]


def words_of(name: str) -> str:
    """Short words of an input."""
    if name in SAID:
        return SAID[name]
    return put_in(name).words or name.replace(".", "'s ").replace("_", " ")


def plain(value: float, digits: int) -> str:
    """A number as one keys it in: so many figures, no power of ten where that can be.

    Examples
    --------
    >>> plain(0.00007, 4), plain(12345.6, 4), plain(-3.0, 4), plain(2e-9, 4)
    ('0.00007', '12346', '-3', '0')
    """
    if not math.isfinite(value):
        return "–"
    if abs(value) < NOTHING:
        return "0"
    if abs(value) >= _LONG:
        return f"{value:.{digits - 1}e}"
    places = max(digits - 1 - math.floor(math.log10(abs(value))), 0)
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def with_unit(value: float, unit: Shown, digits: int) -> str:
    """An SI value as text in a unit of the bench."""
    text = plain((value - unit.offset) / unit.factor, digits)
    if not unit.name:
        return text
    return f"{text}°" if unit.name == "°" else f"{text}{THIN}{unit.name}"
