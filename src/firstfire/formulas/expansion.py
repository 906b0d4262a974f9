"""Parts that grow: clearance left when warm or swollen, the temperature that seizes, ring gaps."""

from __future__ import annotations

from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_ordered, require_positive


def clearance_when_warm(
    bore: float,
    piston: float,
    *,
    bore_rise: float,
    piston_rise: float,
    bore_expansion: float,
    piston_expansion: float,
    piston_swelling: float = 0.0,
) -> float:
    """Clearance on diameter once both parts are warm, m; negative where the piston seizes.

    c = B (1 + α_b ΔT_b) - D (1 + s + α_p ΔT_p)

    Parameters
    ----------
    bore, piston
        Cold diameters B and D, m.
    bore_rise, piston_rise
        Mean temperature rise of each over its measured state, K.
    bore_expansion, piston_expansion
        Expansion coefficients, 1/K. A bore grows as if it were solid.
    piston_swelling
        Swelling s by moisture, oil or fuel, as a strain.

    Raises
    ------
    OutsideValidity
        If a diameter is not above zero or the swelling negative.

    References
    ----------
    Linear expansion.

    Examples
    --------
    A polyamide piston 0.3 mm smaller than its aluminium bore of 44 mm:

    >>> c = clearance_when_warm(44e-3, 43.7e-3, bore_rise=40.0, piston_rise=90.0,
    ...     bore_expansion=23e-6, piston_expansion=90e-6)
    >>> round(c * 1e3, 3)
    -0.013
    """
    require_positive(bore=bore, piston=piston)
    require_not_negative(piston_swelling=piston_swelling)
    grown = piston * (1 + piston_swelling + piston_expansion * piston_rise)
    return bore * (1 + bore_expansion * bore_rise) - grown


def seizing_rise(
    bore: float,
    piston: float,
    *,
    bore_expansion: float,
    piston_expansion: float,
    bore_share: float = 0.0,
    piston_swelling: float = 0.0,
) -> float:
    """Rise of the piston at which its clearance is gone, K.

    ΔT = (B - D (1 + s))/(D α_p - B α_b h)

    Parameters
    ----------
    bore, piston, bore_expansion, piston_expansion, piston_swelling
        As `clearance_when_warm`.
    bore_share
        Rise of the bore over that of the piston h, 0 to 1.

    Raises
    ------
    OutsideValidity
        If there is no clearance to begin with, or the bore outgrows the piston.

    References
    ----------
    `clearance_when_warm`, set to zero.

    Examples
    --------
    >>> round(seizing_rise(44e-3, 43.7e-3, bore_expansion=23e-6, piston_expansion=90e-6,
    ...                    bore_share=0.5), 1)
    87.5
    """
    require_ordered(zero=0.0, piston=piston * (1 + piston_swelling), bore=bore)
    faster = piston * piston_expansion - bore * bore_expansion * bore_share
    if not faster > 0:
        raise OutsideValidity("The bore outgrows the piston: warming does not seize it.")
    return (bore - piston * (1 + piston_swelling)) / faster


def ring_gap_when_warm(
    gap: float,
    bore: float,
    *,
    bore_rise: float,
    ring_rise: float,
    bore_expansion: float,
    ring_expansion: float,
) -> float:
    """Gap of a split ring once warm, m; zero or less means that its ends butt.

    g' = g + π B (α_b ΔT_b - α_r ΔT_r)

    Parameters
    ----------
    gap, bore
        Cold gap g in the bore of diameter B, m.
    bore_rise, ring_rise
        Temperature rise of each, K.
    bore_expansion, ring_expansion
        Expansion coefficients, 1/K.

    Raises
    ------
    OutsideValidity
        If the bore is not above zero or the gap negative.

    References
    ----------
    Linear expansion of the ring's circumference.

    Examples
    --------
    A PTFE ring:

    >>> round(ring_gap_when_warm(1.5e-3, 34e-3, bore_rise=50.0, ring_rise=120.0,
    ...     bore_expansion=19e-6, ring_expansion=130e-6) * 1e3, 3)
    -0.065
    """
    require_positive(bore=bore)
    require_not_negative(gap=gap)
    growth = bore_expansion * bore_rise - ring_expansion * ring_rise
    return gap + math.pi * bore * growth


def stress_held_fast(temperature_rise: float, modulus: float, expansion: float) -> float:
    """Stress in a bar that is kept from growing, Pa, compression negative: σ = -E α ΔT.

    Parameters
    ----------
    temperature_rise
        Rise ΔT, K.
    modulus
        Young's modulus E, Pa, at temperature.
    expansion
        Expansion coefficient α, 1/K.

    Raises
    ------
    OutsideValidity
        If the modulus is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 3-61.

    Examples
    --------
    >>> round(stress_held_fast(50.0, 2.0e9, 70e-6) / 1e6, 2)
    -7.0
    """
    require_positive(modulus=modulus)
    return -modulus * expansion * temperature_rise
