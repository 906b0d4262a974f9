"""A wall of layers of unlike stiffness in bending: print walls and infill, a soft hot skin."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive


class LayeredSection(NamedTuple):
    """What a strip of a layered wall is worth, a unit width.

    Attributes
    ----------
    neutral_depth
        Depth of the neutral axis below the first face, m.
    bending_stiffness
        Σ E I about it, N·m; over (1 - ν²) for a plate.
    pull_stiffness
        Σ E t, N/m.
    """

    neutral_depth: float
    bending_stiffness: float
    pull_stiffness: float


def layered_section(thicknesses: Sequence[float], moduli: Sequence[float]) -> LayeredSection:
    """Section of layers that hold together, from the first face to the last.

    Parameters
    ----------
    thicknesses
        Thickness of each layer, m, above zero.
    moduli
        Young's modulus of each, Pa, not negative, at its own temperature and fill.

    Returns
    -------
    LayeredSection
        Neutral axis and stiffness a unit width.

    Raises
    ------
    OutsideValidity
        If there is no layer, all are without stiffness, or the lists are not alike.

    References
    ----------
    Transformed section; S. Timoshenko, *Strength of Materials*, part I, beams of two materials.

    Examples
    --------
    A 4 mm wall whose hot millimetre has lost nine tenths of its stiffness:

    >>> wall = layered_section([1e-3, 3e-3], [0.2e9, 2.0e9])
    >>> round(wall.neutral_depth * 1e3, 3), round(wall.bending_stiffness, 2)
    (2.435, 5.29)
    """
    if len(thicknesses) != len(moduli) or not thicknesses:
        raise OutsideValidity("A layered section has one modulus for each of its layers.")
    depth = pull = first_moment = second = 0.0
    for thickness, modulus in zip(thicknesses, moduli, strict=True):
        require_positive(layer_thickness=thickness)
        require_not_negative(layer_modulus=modulus)
        middle = depth + thickness / 2
        pull += modulus * thickness
        first_moment += modulus * thickness * middle
        second += modulus * thickness * (middle**2 + thickness**2 / 12)
        depth += thickness
    require_positive(stiffness_of_all_layers=pull)
    neutral = first_moment / pull
    return LayeredSection(neutral, second - pull * neutral**2, pull)


def stress_at_depth(
    section: LayeredSection, moment: float, depth: float, modulus_there: float
) -> float:
    """Bending stress at a depth, Pa: σ = M E (y - y₀)/(EI), tension below the neutral axis.

    Parameters
    ----------
    section
        From `layered_section`.
    moment
        Bending moment a unit width, N, positive where it stretches the last face.
    depth
        Depth y below the first face, m.
    modulus_there
        Young's modulus of the layer there, Pa.

    Raises
    ------
    OutsideValidity
        If the section has no bending stiffness.

    References
    ----------
    As `layered_section`.

    Examples
    --------
    >>> wall = layered_section([4e-3], [2.0e9])
    >>> round(stress_at_depth(wall, 100.0, 4e-3, 2.0e9) / 1e6, 2)
    37.5
    """
    require_positive(bending_stiffness=section.bending_stiffness)
    return moment * modulus_there * (depth - section.neutral_depth) / section.bending_stiffness
