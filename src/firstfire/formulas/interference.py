"""What is left of a measured interference: peaks pressed flat, and parts that grow when warm."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive


def interference_after_smoothing(
    interference: float, shaft_roughness: float, hub_roughness: float
) -> float:
    """Interference that works once the peaks of both surfaces are pressed flat, m.

    δ_w = δ - 0.8 (R_z,s + R_z,h)

    Parameters
    ----------
    interference
        Measured interference on diameter, m.
    shaft_roughness, hub_roughness
        Roughness depth R_z of each surface, m.

    Raises
    ------
    OutsideValidity
        If a roughness is negative.

    References
    ----------
    DIN 7190-1, from memory; meant for metals, assumed alike for prints.

    Examples
    --------
    >>> round(interference_after_smoothing(100e-6, 2e-6, 30e-6) * 1e6, 1)
    74.4
    """
    require_not_negative(shaft_roughness=shaft_roughness, hub_roughness=hub_roughness)
    return interference - 0.8 * (shaft_roughness + hub_roughness)


def interference_when_warm(
    interference: float,
    diameter: float,
    temperature_rise: float,
    shaft_expansion: float,
    hub_expansion: float,
) -> float:
    """Interference once shaft and hub are warmer by the same rise, m.

    δ' = δ + d ΔT (α_s - α_h): a plastic hub on a steel pin lets go as it warms.

    Parameters
    ----------
    interference, diameter
        Cold interference on diameter and interface diameter, m.
    temperature_rise
        Rise ΔT of both, K.
    shaft_expansion, hub_expansion
        Expansion coefficients, 1/K.

    Raises
    ------
    OutsideValidity
        If the diameter is not above zero.

    References
    ----------
    Linear expansion.

    Examples
    --------
    >>> round(interference_when_warm(100e-6, 12e-3, 60.0, 12e-6, 68e-6) * 1e6, 1)
    59.7
    """
    require_positive(diameter=diameter)
    return interference + diameter * temperature_rise * (shaft_expansion - hub_expansion)


def rise_that_frees(
    interference: float, diameter: float, shaft_expansion: float, hub_expansion: float
) -> float:
    """Rise of both parts at which a hub no longer grips its shaft, K; infinite where it never does.

    ΔT = δ/(d (α_h - α_s)), `interference_when_warm` turned round.

    Parameters
    ----------
    interference, diameter
        Cold interference on diameter and interface diameter, m; zero or less is loose already.
    shaft_expansion, hub_expansion
        Expansion coefficients, 1/K.

    Raises
    ------
    OutsideValidity
        If the diameter is not above zero.

    References
    ----------
    Linear expansion.

    Examples
    --------
    >>> round(rise_that_frees(100e-6, 12e-3, 12e-6, 68e-6), 1)
    148.8
    """
    require_positive(diameter=diameter)
    if interference <= 0:
        return 0.0
    opens = diameter * (hub_expansion - shaft_expansion)
    return interference / opens if opens > 0 else math.inf
