"""Pint, at one place: a written unit becomes plain SI, once."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from firstfire.errors import FirstfireError

if TYPE_CHECKING:
    import pint


class UnitError(FirstfireError):
    """A unit that isn't known, or isn't of the kind that was wanted."""


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
    import pint

    units = registry()
    try:
        zero = float(units.Quantity(0.0, unit).to_base_units().magnitude)
        one = float(units.Quantity(1.0, unit).to_base_units().magnitude)
    except (pint.errors.PintError, AttributeError, ValueError, TypeError, AssertionError) as why:
        raise UnitError(f'"{unit}" is not a unit. Units are written like mm, bar, N*m.') from why
    if zero == 0.0:
        return float(units.Quantity(1.0, unit).to_base_units().magnitude), 0.0
    return one - zero, zero


def to_si(value: float, unit: str) -> float:
    """`value` in `unit` as plain SI (kelvin for temperatures, radian for angles).

    Examples
    --------
    >>> to_si(2.0, "GPa")
    2000000000.0
    """
    factor, offset = scale(unit)
    return factor * value + offset
