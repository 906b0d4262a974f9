"""Whether a notch cracks a part before it yields, and how much of the notch its strength feels."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.sections.make import Made
from firstfire.formulas import mathematics as math
from firstfire.formulas import notch
from firstfire.formulas.recorded import found
from firstfire.parts.softness import is_metal

SOURCE = (
    "notches: D. Taylor, The Theory of Critical Distances, 2007; whether they decide: ISO 13586, "
    "ASTM E399"
)


class Notched(NamedTuple):
    """How a part of one material feels its notches.

    Attributes
    ----------
    decides
        Whether a notch cracks it: its section is thicker than one that yields first. A thinner
        one is judged by what is left of its section.
    length
        `notch.material_length`, m.
    yields_below
        `notch.yielding_thickness`, m.
    """

    decides: bool
    length: float
    yields_below: float

    def most(self, thickness: float, power: int) -> float:
        """Most that a notch may raise stress in a section of some thickness.

        A thick section is never weaker than a thinner one that yields: by Irwin's correction
        toughness falls more slowly with thickness than the section grows.

        Parameters
        ----------
        thickness
            m.
        power
            By which power of the thickness stress falls: 1 pulled, 2 bent.

        References
        ----------
        G. R. Irwin, K_c² = K_Ic² (1 + 1.4 (K_Ic/σ)⁴/t²), in D. Broek, *Elementary Engineering
        Fracture Mechanics* (from memory).
        """
        most = math.most(1.0, thickness / self.yields_below) ** power
        words = "most that a notch may raise: no weaker than a thinner section that yields"
        return found("most", math.number(most), "", words)


def notched(moment: Moment, made: Made, *, pull: tuple[str, ...], thickness: float) -> Notched:
    """How a part as made feels a notch in a section of some thickness.

    Parameters
    ----------
    moment
        Its materials are taken.
    made
        Material and layers.
    pull
        Directions in which it is pulled.
    thickness
        Of the section, m.

    Raises
    ------
    OutsideValidity
        If the material's fracture toughness in that direction is not known.
    """
    material = moment.engine.materials[made.material]
    across = made.made == "printed" and made.layers_stacked in pull and not is_metal(material)
    toughness = material["fracture_toughness_across" if across else "fracture_toughness"]
    toughness = moment.given("toughness", toughness)
    strength = moment.given("notch_strength", _strength(material, across=across))
    length = notch.material_length(toughness, strength)
    limit = notch.yielding_thickness(toughness, strength)
    limit = found("yields_below", limit, "m", "thickness up to which it yields first")
    return Notched(thickness > limit, length, limit)


def _strength(material: Material, *, across: bool) -> float:
    if is_metal(material):
        return material.get("yield_strength") or material["strength_in_plane"]
    along = material["strength_in_plane"]
    return material["strength_across"] if across else along
