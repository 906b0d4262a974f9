"""Whether a notch cracks a part before it yields, and how much of the notch its strength feels."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line
from firstfire.engine.sections.make import Made
from firstfire.formulas import notch
from firstfire.parts.softness import is_metal

SOURCE = (
    "notches: D. Taylor, The Theory of Critical Distances, 2007; whether they decide: ISO 13586, "
    "ASTM E399"
)
LINES = (
    Line("notch_length", "(toughness / notch_strength)**2 / pi", "m",
         "length at which cracks take over"),
    Line("yields_below", "2.5 * (toughness / notch_strength)**2", "m",
         "thickness up to which it yields first"),
)  # fmt: skip


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
    inputs
        Toughness and strength it stands on; none where a notch does not decide.
    """

    decides: bool
    length: float
    yields_below: float
    inputs: dict[str, float]

    @property
    def first(self) -> tuple[Line, ...]:
        """Its line of working."""
        return LINES if self.decides else ()

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
        return float(max(1.0, thickness / self.yields_below) ** power)


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
    strength = _strength(material, across=across)
    length = notch.material_length(toughness, strength)
    limit = notch.yielding_thickness(toughness, strength)
    if thickness <= limit:
        return Notched(False, length, limit, {})
    inputs = {"toughness": toughness, "notch_strength": strength}
    return Notched(True, length, limit, inputs)


def _strength(material: Material, *, across: bool) -> float:
    if is_metal(material):
        return material.get("yield_strength") or material["strength_in_plane"]
    along = material["strength_in_plane"]
    return material["strength_across"] if across else along
