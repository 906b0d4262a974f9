"""The bending moment at which a wall folds whose strength differs through its depth."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive


def hinge_moment(thicknesses: Sequence[float], strengths: Sequence[float]) -> float:
    """Moment a unit width at which every layer yields, N: M₀ = Σ σᵢ ∫ |y - y₀| dy.

    y₀ halves the pull: as much strength lies above it as below. A layer that gets stronger or
    thicker never lowers M₀. A uniform wall gives σ t²/4.

    Parameters
    ----------
    thicknesses
        Thickness of each layer, m, above zero, from the first face to the last.
    strengths
        Yield strength of each, Pa, not negative, at its own temperature.

    Returns
    -------
    float
        M₀, N (N·m a metre of width); zero where no layer has strength.

    Raises
    ------
    OutsideValidity
        If there is no layer, the lists are not alike, or a quantity is out of range.

    References
    ----------
    Plastic bending of a section: S. Timoshenko, *Strength of Materials*, part II, chapter on
    bending beyond the elastic limit. For a print that splits before it yields it is an upper
    bound.

    Examples
    --------
    A wall of 4 mm and 40 MPa, and the same with its hot millimetre gone:

    >>> round(hinge_moment([4e-3], [40e6]), 1)
    160.0
    >>> round(hinge_moment([1e-3, 3e-3], [0.0, 40e6]), 1)
    90.0
    """
    if len(thicknesses) != len(strengths) or not thicknesses:
        raise OutsideValidity("A hinge has one strength for each of its layers.")
    for thickness, strength in zip(thicknesses, strengths, strict=True):
        require_positive(layer_thickness=thickness)
        require_not_negative(layer_strength=strength)
    neutral = _equal_pull(thicknesses, strengths)
    moment = depth = 0.0
    for thickness, strength in zip(thicknesses, strengths, strict=True):
        near, far = depth - neutral, depth + thickness - neutral
        # ∫|y| dy from near to far
        moment += strength * (far * abs(far) - near * abs(near)) / 2
        depth += thickness
    return moment


def _equal_pull(thicknesses: Sequence[float], strengths: Sequence[float]) -> float:
    """Depth above which half of the pull lies."""
    half = sum(t * s for t, s in zip(thicknesses, strengths, strict=True)) / 2
    depth = pulled = 0.0
    for thickness, strength in zip(thicknesses, strengths, strict=True):
        here = thickness * strength
        if pulled + here >= half and here > 0:
            return depth + (half - pulled) / strength
        pulled += here
        depth += thickness
    return depth
