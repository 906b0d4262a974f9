"""Numbers as a person reads them: three figures, a thin space, the unit."""

from __future__ import annotations

import math
import re

from firstfire import units

THIN = "\u202f"


def figures(value: float | None, digits: int = 3) -> str:
    """`value` to some significant figures, without powers of ten where that can be.

    Examples
    --------
    >>> figures(45.239), figures(0.36), figures(6543.2), figures(None)
    ('45.2', '0.36', '6540', '–')
    """
    if value is None or not math.isfinite(value):
        return "–"
    if value == 0:
        return "0"
    places = digits - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, places)
    if abs(rounded) >= 1e7 or abs(rounded) < 1e-4:
        return f"{rounded:.{digits - 1}e}"
    return (
        f"{rounded:.{max(places, 0)}f}".rstrip("0").rstrip(".") if places > 0 else f"{rounded:.0f}"
    )


_NIL = 5e-4


def factor_figures(factor: float | None) -> str:
    """A factor in two figures; next to nothing is nothing.

    Examples
    --------
    >>> factor_figures(1.234), factor_figures(0.078), factor_figures(1.7e-8)
    ('1.2', '0.078', '0')
    """
    return "0" if factor is not None and abs(factor) < _NIL else figures(factor, 2)


FAR_MORE = "far more than needed"
"""What is said of a factor so large that its figures would only feign knowledge."""
FAR, _FAR_LIFE = 1e3, 1e6


def beyond_telling(factor: float | None) -> bool:
    """Whether a factor is so large that no figure is told: more than a thousand.

    Examples
    --------
    >>> beyond_telling(999.0), beyond_telling(1.2e9), beyond_telling(None)
    (False, True, False)
    """
    return factor is not None and factor > FAR


def life(hours: float) -> str:
    """A life in hours; beyond a million of them *far more than needed*.

    Examples
    --------
    >>> life(820.0).replace(THIN, " "), life(3e9)
    ('820 h', 'far more than needed')
    """
    return FAR_MORE if hours > _FAR_LIFE else f"{figures(hours)}{THIN}h"


def spoken(text: str) -> str:
    """Words with the units in them as one prints them, and not as one types them.

    Examples
    --------
    >>> spoken("Tighten to 3.6 N*m"), spoken("a flywheel of 0.014 kg*m^2")
    ('Tighten to 3.6 N·m', 'a flywheel of 0.014 kg·m²')
    """
    return re.sub(r"(?<=[A-Za-z])\*(?=[A-Za-z])", "·", text).replace("^2", "²").replace("^3", "³")


def shown(value: float | None, unit: str, digits: int = 3) -> str:
    """An SI value in the unit a person uses for it.

    Examples
    --------
    >>> shown(4.5239e-5, "cm^3").replace(THIN, " ")
    '45.2 cm³'
    >>> shown(math.pi, "deg").replace(THIN, " ")
    '180°'
    """
    if value is None or not math.isfinite(value):
        return "–"
    factor, offset = units.scale(unit)
    text = figures((value - offset) / factor, digits)
    if unit == "deg":
        return f"{text}°"
    words = {"degC": "°C", "N*m": "N·m", "kg*m^2": "kg·m²", "MPa*m^0.5": "MPa·√m"}
    name = words.get(unit, unit.replace("^2", "²").replace("^3", "³").replace("*", "·"))
    return f"{text}{THIN}{name}"
