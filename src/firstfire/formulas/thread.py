"""Screw threads: diameters, stress area, what the shank carries, what strips a plastic nut."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import beside


class _Strength(NamedTuple):
    proof: float  # Pa: stress under proof load, or at 0.2 % strain for stainless
    tensile: float  # Pa: least tensile strength


# ISO 898-1:2013 Table 3 up to M16; stainless by ISO 3506-1, from memory.
_STRENGTHS = {
    "4.6": _Strength(225e6, 400e6),
    "4.8": _Strength(310e6, 420e6),
    "5.6": _Strength(280e6, 500e6),
    "5.8": _Strength(380e6, 520e6),
    "6.8": _Strength(440e6, 600e6),
    "8.8": _Strength(580e6, 800e6),
    "9.8": _Strength(650e6, 900e6),
    "10.9": _Strength(830e6, 1040e6),
    "12.9": _Strength(970e6, 1220e6),
    "A2-50": _Strength(210e6, 500e6),
    "A2-70": _Strength(450e6, 700e6),
    "A4-80": _Strength(600e6, 800e6),
}
_LARGEST_STRESS_AREA = 158e-6  # m²: M16; above it class 8.8 has other values

PROPERTY_CLASSES = tuple(_STRENGTHS)
"""The property classes known here: steel by ISO 898-1, stainless by ISO 3506-1."""


def pitch_diameter(diameter: float, pitch: float) -> float:
    """Pitch diameter of an ISO metric thread, m.

    d₂ = d - 0.649519 P

    Parameters
    ----------
    diameter
        Nominal (major) diameter d, m.
    pitch
        Pitch P, m.

    Raises
    ------
    OutsideValidity
        If the thread is so coarse that no core is left, or a size is not positive.

    References
    ----------
    ISO 724:1993, basic dimensions; ISO 68-1, basic profile.

    Examples
    --------
    >>> round(pitch_diameter(5e-3, 0.8e-3) * 1e3, 3)
    4.48
    """
    _check(diameter, pitch)
    return diameter - 0.649519 * pitch


def minor_diameter(diameter: float, pitch: float) -> float:
    """Root diameter d₃ of the screw (external thread), m.

    d₃ = d - 1.226869 P, the rounded root on which the stress area rests.

    Parameters
    ----------
    diameter, pitch
        Nominal diameter d and pitch P, m.

    Raises
    ------
    OutsideValidity
        As `pitch_diameter`.

    References
    ----------
    ISO 898-1:2013, 9.1.6.1.

    Examples
    --------
    >>> round(minor_diameter(5e-3, 0.8e-3) * 1e3, 3)
    4.019
    """
    _check(diameter, pitch)
    return diameter - 1.226869 * pitch


def stress_area(diameter: float, pitch: float) -> float:
    """Tensile stress area of an ISO metric screw, m².

    A_s = (π/4) ((d₂ + d₃)/2)²

    Parameters
    ----------
    diameter, pitch
        Nominal diameter d and pitch P, m.

    Raises
    ------
    OutsideValidity
        As `pitch_diameter`.

    References
    ----------
    ISO 898-1:2013, 9.1.6.1. The standard's tables round to three figures.

    Examples
    --------
    >>> round(stress_area(5e-3, 0.8e-3) * 1e6, 2)
    14.18
    """
    mean = (pitch_diameter(diameter, pitch) + minor_diameter(diameter, pitch)) / 2
    return math.pi / 4 * mean**2


def proof_load(stress_area: float, property_class: str) -> float:
    """Load that the screw carries without lasting stretch, N.

    Parameters
    ----------
    stress_area
        Tensile stress area, m², up to that of M16.
    property_class
        One of `PROPERTY_CLASSES`, such as "8.8" or "A2-70".

    Raises
    ------
    OutsideValidity
        If the class is unknown or the screw larger than M16.

    References
    ----------
    ISO 898-1:2013, Table 3. Stainless: 0.2 % limit of ISO 3506-1 (from memory), which sets
    no proof load.

    Examples
    --------
    >>> round(proof_load(14.2e-6, "8.8"))
    8236
    """
    proof = _strength(stress_area, property_class).proof
    return stress_area * beside(stress_area, "screw_proof_strength", proof)


def shear_area_on_pitch_cylinder(diameter: float, pitch: float, engaged_length: float) -> float:
    """Area that shears when a screw pulls its thread out of plastic, m².

    A = π d₂ L, the pitch cylinder as a whole: the form of plastics makers' screw guides.

    Parameters
    ----------
    diameter, pitch
        Nominal diameter d and pitch P, m.
    engaged_length
        Length L of full thread in the plastic, m: 1 to 4 diameters. Longer threads do not
        share their load evenly.

    Raises
    ------
    OutsideValidity
        If the engagement is outside one to four diameters, or the thread has no core.

    References
    ----------
    Common practice of plastics makers' design guides for self-tapping screws, from memory.
    B. Lincoln and others, *Mechanical Fastening of Plastics*: engage 2 to 3 diameters.

    Examples
    --------
    >>> round(shear_area_on_pitch_cylinder(5e-3, 0.8e-3, 8e-3) * 1e6, 1)
    112.6
    """
    _check_engagement(diameter, engaged_length)
    return math.pi * pitch_diameter(diameter, pitch) * engaged_length


def pull_out_load(shear_area: float, shear_strength: float) -> float:
    """Load that strips a thread out of a soft nut, N.

    F = τ A

    Parameters
    ----------
    shear_area
        Sheared area, m², from one of the two laws above.
    shear_strength
        Shear strength τ of the plastic, Pa; 0.5 to 0.577 of its tensile strength across the
        direction sheared where no test exists.

    Raises
    ------
    OutsideValidity
        If the area or the strength is negative.

    References
    ----------
    As `shear_area_on_pitch_cylinder`.

    Examples
    --------
    >>> round(pull_out_load(112.6e-6, 18e6))
    2027
    """
    if shear_area < 0 or shear_strength < 0:
        raise OutsideValidity("A sheared area and a shear strength are not negative.")
    return shear_area * shear_strength


def _strength(stress_area: float, property_class: str) -> _Strength:
    if property_class not in _STRENGTHS:
        raise OutsideValidity(
            f'"{property_class}" is no property class known here. '
            f"Known are {', '.join(PROPERTY_CLASSES)}."
        )
    if not 0 < stress_area <= _LARGEST_STRESS_AREA:
        raise OutsideValidity(
            f"A stress area of {stress_area * 1e6:.4g} mm² is outside the table of property "
            "classes, which holds above 0 and up to 157 mm² (M16)."
        )
    return _STRENGTHS[property_class]


def _check(diameter: float, pitch: float) -> None:
    if not (pitch > 0 and diameter > 1.226869 * pitch):
        raise OutsideValidity(
            f"A thread of {diameter * 1e3:.4g} mm with a pitch of {pitch * 1e3:.4g} mm has no "
            "core left. An ISO metric thread is more than 1.23 pitches in diameter."
        )


def _check_engagement(diameter: float, engaged_length: float) -> None:
    if not diameter <= engaged_length * (1 + 1e-9) <= 4.000001 * diameter:
        raise OutsideValidity(
            f"A thread engaged over {engaged_length * 1e3:.4g} mm on {diameter * 1e3:.4g} mm is "
            "outside one to four diameters, where the load spreads about evenly over the turns."
        )
