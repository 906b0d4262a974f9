"""Pint, at one place: a written unit becomes plain SI, once."""

from __future__ import annotations

import math
import re
from functools import cache
from typing import TYPE_CHECKING

from firstfire.errors import FirstfireError
from firstfire.usual_units import USUAL

if TYPE_CHECKING:
    import pint


class UnitError(FirstfireError):
    """A unit that isn't known, or isn't of the kind that was wanted."""


# What a unit may look like: Pint evaluates expressions, and an engine file comes from anywhere.
_UNIT = re.compile(r"^(?!.*\d{3})(?!.*[*^]{3})[A-Za-zµμΩ%][A-Za-z0-9_*/^() µμ.-]{0,40}$")


@cache
def registry() -> pint.UnitRegistry[float]:
    """The one unit registry; made on first use, since Pint takes a while to load."""
    import pint

    units: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    units.define("ppm_per_kelvin = 1e-6 / kelvin")
    return units


@cache
def scale(unit: str) -> tuple[float, float]:
    """Factor and offset that take a number in `unit` to SI: ``si = factor * number + offset``.

    Raises
    ------
    UnitError
        Where Pint doesn't know the unit.

    Examples
    --------
    >>> scale("mm")
    (0.001, 0.0)
    >>> tuple(round(x, 6) for x in scale("degC"))
    (1.0, 273.15)
    """
    if unit in USUAL:
        return USUAL[unit][:2]
    return asked_of_pint(unit)


def asked_of_pint(unit: str) -> tuple[float, float]:
    """As `scale`, without what is known beforehand."""
    try:
        if not _UNIT.match(unit) and unit != "1/K":
            raise ValueError(unit)
        zero, one, two = (_in_base(number, unit) for number in (0.0, 1.0, 2.0))
        if zero == 0.0:
            slope = one
        elif math.isclose(two - one, one - zero, rel_tol=1e-6):
            slope = _in_base(1.0, f"delta_{unit}")
        else:
            raise ValueError(f"{unit} has a scale that isn't even, like a decibel")
        if not (math.isfinite(slope) and slope):
            raise ValueError(unit)
    except Exception as why:  # Pint raises a dozen kinds, Python's tokenizer among them
        raise UnitError(f'"{unit}" is not a unit. Units are written like mm, bar, N*m.') from why
    return slope, zero


def _in_base(number: float, unit: str) -> float:
    return float(registry().Quantity(number, unit).to_base_units().magnitude)


@cache
def dimension(unit: str) -> str:
    """Dimension of a unit as a text that can be compared.

    Raises
    ------
    UnitError
        Where it isn't a unit.

    Examples
    --------
    >>> dimension("kN") == dimension("lbf")
    True
    """
    if unit in USUAL:
        return USUAL[unit][2]
    scale(unit)
    return dimension_by_pint(unit)


def dimension_by_pint(unit: str) -> str:
    """As `dimension`, without what is known beforehand; its terms in one order, whoever asks."""
    terms = registry().Unit(unit).dimensionality
    return " ".join(f"{name}{terms[name]:+g}" for name in sorted(terms))


def same_dimension(unit: str, other: str) -> bool:
    """Whether `unit` measures the same kind of thing as `other` (``"in"`` and ``"m"``).

    Raises
    ------
    UnitError
        Where either isn't a unit.
    """
    return dimension(unit) == dimension(other)


def to_si(value: float, unit: str) -> float:
    """`value` in `unit` as plain SI (kelvin for temperatures, radian for angles).

    Examples
    --------
    >>> to_si(2.0, "GPa")
    2000000000.0
    """
    factor, offset = scale(unit)
    return factor * value + offset


_HUGE = 10**300
_WRITTEN = re.compile(r"^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*$")


def read_in(written: object, unit: str) -> float:
    """SI value of a written number whose unit measures the same thing as `unit`.

    Raises
    ------
    UnitError
        With what would be right.

    Examples
    --------
    >>> read_in("28 MPa", "GPa")
    28000000.0
    >>> read_in(0.3, "dimensionless")
    0.3
    """
    if isinstance(written, int | float) and not isinstance(written, bool):
        text = f"{written}" if abs(written) < _HUGE else ""
    else:
        text = written if isinstance(written, str) else ""
    match = _WRITTEN.match(text.replace("·", "*").replace("°C", "degC").replace("%", "percent"))
    wanted = "" if unit == "dimensionless" else f" {unit}"
    if match is None:
        raise UnitError(f'Write it as a number with its unit, like "1.5{wanted}".')
    given = match[2] or "dimensionless"
    if not same_dimension(given, unit):
        raise UnitError(
            f'Write it in {unit} or a unit of the same kind, like "{match[1]}{wanted}".'
        )
    value = to_si(float(match[1]), given)
    if not math.isfinite(value):
        raise UnitError(f'It is too large to be a number. Write it like "1.5{wanted}".')
    return value
