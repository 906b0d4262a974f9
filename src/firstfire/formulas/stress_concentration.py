"""How much a notch raises the stress, and how much of that fatigue feels."""

from __future__ import annotations

from itertools import pairwise

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_ordered, require_positive, require_within

# K = A (r/d)^b by D/d, fits to Peterson's charts; R. L. Norton, *Machine Design*, appendix C,
# from memory. Between columns: straight line in D/d.
_BENDING = (
    (1.01, 0.91938, -0.17032),
    (1.05, 0.98137, -0.19653),
    (1.10, 0.95120, -0.23757),
    (1.20, 0.97098, -0.21796),
    (1.50, 0.93836, -0.25759),
    (2.00, 0.90879, -0.28598),
    (3.00, 0.89334, -0.30860),
    (6.00, 0.87868, -0.33243),
)
_TORSION = (
    (1.09, 0.90337, -0.12692),
    (1.20, 0.83425, -0.21649),
    (1.33, 0.84897, -0.23161),
    (2.00, 0.86331, -0.23865),
)


def fillet_in_bending(diameter: float, shoulder: float, fillet: float) -> float:
    """Stress factor at the fillet of a stepped round shaft in bending.

    Parameters
    ----------
    diameter, shoulder
        Thin diameter d and thick diameter D, m; D/d from 1.01 to 6.
    fillet
        Fillet radius r, m; r/d from 0.01 to 0.3.

    Raises
    ------
    OutsideValidity
        If a ratio is outside its range: a sharp corner has no factor.

    References
    ----------
    R. E. Peterson, *Stress Concentration Factors*; fit of R. L. Norton, *Machine Design*,
    appendix C (from memory).

    Examples
    --------
    >>> round(fillet_in_bending(15e-3, 30e-3, 1.5e-3), 2)
    1.76
    """
    return _fillet(_BENDING, diameter, shoulder, fillet)


def fillet_in_torsion(diameter: float, shoulder: float, fillet: float) -> float:
    """Stress factor at the fillet of a stepped round shaft in torsion.

    Parameters
    ----------
    diameter, shoulder, fillet
        As `fillet_in_bending`; D/d from 1.09 to 2.

    Raises
    ------
    OutsideValidity
        As `fillet_in_bending`.

    References
    ----------
    As `fillet_in_bending`.

    Examples
    --------
    >>> round(fillet_in_torsion(15e-3, 30e-3, 1.5e-3), 2)
    1.5
    """
    return _fillet(_TORSION, diameter, shoulder, fillet)


def hole_in_strip(hole: float, width: float) -> float:
    """Peak over net stress beside a hole in a strip in tension, 3 for a small hole.

    K = 2 + 0.284 (1 - x) - 0.600 (1 - x)² + 1.32 (1 - x)³, x = d/w

    Parameters
    ----------
    hole, width
        Hole d and width w, m.

    Raises
    ------
    OutsideValidity
        If the hole is not smaller than the strip.

    References
    ----------
    Peterson, fit of chart 4.1 (from memory).

    Examples
    --------
    >>> round(hole_in_strip(1.0, 2.0), 2)
    2.16
    """
    require_ordered(zero=0.0, hole=hole, width=width)
    left = found("strip_left", 1 - hole / width, "", "share that a hole leaves of its strip")
    return 2 + 0.284 * left - 0.600 * left**2 + 1.32 * left**3


def fatigue_factor(stress_factor: float, notch_radius: float, material_length: float) -> float:
    """Part of a stress factor that fatigue feels: K_f = 1 + (K - 1)/(1 + √(a/r)).

    Parameters
    ----------
    stress_factor
        Elastic factor K, 1 or more.
    notch_radius
        Notch radius r, m.
    material_length
        Neuber's length a, m: about 0.06 mm for steel of 700 MPa. For prints none is known: take
        0, the whole factor.

    Raises
    ------
    OutsideValidity
        If K is below 1, the radius not above zero or the length negative.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 6-33.

    Examples
    --------
    >>> round(fatigue_factor(1.76, 1.5e-3, 0.06e-3), 2)
    1.63
    """
    require_positive(notch_radius=notch_radius)
    require_within(1.0, math.inf, because="a notch does not relieve", stress_factor=stress_factor)
    require_within(0.0, math.inf, because="it is a length", material_length=material_length)
    return 1 + (stress_factor - 1) / (1 + math.sqrt(material_length / notch_radius))


def _fillet(
    table: tuple[tuple[float, float, float], ...], diameter: float, shoulder: float, fillet: float
) -> float:
    require_ordered(zero=0.0, diameter=diameter, shoulder=shoulder)
    step, sharp = shoulder / diameter, fillet / diameter
    require_within(
        table[0][0], table[-1][0], because="the charts end there", shoulder_over_diameter=step
    )
    require_within(0.01, 0.3, because="the charts end there", fillet_over_diameter=sharp)
    factors = [(ratio, scale * sharp**power) for ratio, scale, power in table]
    for (low, first), (high, second) in pairwise(factors):
        if step <= high:
            return math.number(first + (second - first) * (step - low) / (high - low))
    return math.number(factors[-1][1])
