"""Viscosity of an oil at any temperature, from what its sheet says of two.

References
----------
ASTM D341, *Viscosity-Temperature Equations and Charts for Liquid Petroleum or Hydrocarbon
Products* (C. Walther's equation, 1931), in the form for above 2 mm²/s; DIN 51563 is the same law.
"""

from __future__ import annotations

import math

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_within

WARM, HOT = 313.15, 373.15
"""Temperatures of an oil's sheet, 40 and 100 °C, K."""

_MM2 = 1e-6
_ADDED = 0.7
_LEAST, _MOST = 2e-6, 20.0
"""The equation's range in this form, m²/s."""


def walther(at_warm: float, at_hot: float, temperature: float) -> float:
    """Kinematic viscosity, m²/s.

    ``log log(ν + 0.7) = A - B log T`` with ν in mm²/s and T in kelvin, through the two that are
    known.

    Parameters
    ----------
    at_warm, at_hot
        At 40 and at 100 °C, m²/s.
    temperature
        K.

    Raises
    ------
    OutsideValidity
        For what is no thicker at 40 than at 100 °C, outside 2 to 2·10⁷ mm²/s, or outside -70 to
        370 °C; a grease or oil sets before that, which the law doesn't know.

    Examples
    --------
    An oil of 100 and 11 mm²/s, at 20 °C and in the frost:

    >>> [round(1e6 * walther(100e-6, 11e-6, 273.15 + celsius)) for celsius in (20, -20)]
    [344, 19733]
    """
    require_within(203.0, 643.0, because="the chart of oils ends there", temperature=temperature)
    if not _LEAST <= at_hot < at_warm:
        raise OutsideValidity(
            f"An oil of {at_warm / _MM2:.3g} mm²/s at 40 °C and {at_hot / _MM2:.3g} at 100 °C is "
            "none: it thins as it warms, and the law holds from 2 mm²/s."
        )
    double_warm, double_hot = _double(at_warm), _double(at_hot)
    slope = (double_warm - double_hot) / math.log10(HOT / WARM)
    power = double_warm + slope * math.log10(WARM / temperature)
    exponent: float = 10.0**power
    if exponent > math.log10(_MOST / _MM2):
        raise OutsideValidity(
            f"At {temperature - 273.15:.0f} °C this oil has set: thicker than the law reaches."
        )
    thick: float = 10.0**exponent
    return max(thick - _ADDED, 0.0) * _MM2


def _double(viscosity: float) -> float:
    return math.log10(math.log10(viscosity / _MM2 + _ADDED))
