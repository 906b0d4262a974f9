"""How hard a squeezed O-ring presses on its bore, from squeeze and hardness."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive, require_within


def rubber_modulus(shore_a: float) -> float:
    """Young's modulus of rubber from its hardness, Pa.

    E = 0.0981 (56 + 7.66 S)/(0.137505 (254 - 2.54 S)) MPa

    Parameters
    ----------
    shore_a
        Hardness S, Shore A, 30 to 90.

    Raises
    ------
    OutsideValidity
        If the hardness is outside 30 to 90.

    References
    ----------
    A. N. Gent, *Rubber Chem. Technol.* 31 (1958) 896 (from memory).

    Examples
    --------
    >>> round(rubber_modulus(70) / 1e6, 2)
    5.54
    """
    require_within(30.0, 90.0, because="the gauge tells little there", shore_a=shore_a)
    return 0.0981e6 * (56 + 7.66 * shore_a) / (0.137505 * (254 - 2.54 * shore_a))


def peak_contact_pressure(squeeze: float, modulus: float) -> float:
    """Pressure of the ring on the bore in the middle of its strip, without gas, Pa.

    p = E √(8 (1.25 c^1.5 + 50 c⁶)/(3π)). Gas adds its own pressure to it: the ring seals
    itself as long as it is squeezed at all.

    Parameters
    ----------
    squeeze
        Squeeze c of its section, 0 to 0.35.
    modulus
        Young's modulus E of the rubber, Pa.

    Raises
    ------
    OutsideValidity
        If the squeeze is outside 0 to 0.35.

    References
    ----------
    P. B. Lindley, *J. Inst. Rubber Ind.* 1 (1967) 209 (from memory); flat plates, no friction,
    no side walls; with Hertz on rubber (ν = 0.5).

    Examples
    --------
    >>> round(peak_contact_pressure(0.10, 5.54e6) / 1e6, 2)
    1.02
    """
    require_positive(modulus=modulus)
    return modulus * math.sqrt(8 / (3 * math.pi) * _lindley(squeeze))


def _lindley(squeeze: float) -> float:
    require_within(0.0, 0.35, because="the fit to tests ends there", squeeze=squeeze)
    return float(1.25 * squeeze**1.5 + 50 * squeeze**6)
