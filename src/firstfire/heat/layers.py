"""What a wall is made of, layer by layer, as heat sees it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from firstfire.engine.materials import Material
from firstfire.engine.sections.make import Made
from firstfire.formulas.printed_wall import plastic_share
from firstfire.formulas.solid import Solid
from firstfire.heat import assumed

Flow = Literal["along_bore", "radial"]


@dataclass(frozen=True)
class Layer:
    """One layer of a wall.

    Attributes
    ----------
    part
        The part it belongs to, by the names of `firstfire.engine.records.Temperatures`.
    solid
        Its conductivity, density and specific heat.
    thickness
        m.
    contact
        Resistance between it and the layer before it, m² K/W.
    decomposition
        Temperature above which it chars, K; infinite for a metal.
    """

    part: str
    solid: Solid
    thickness: float
    contact: float = 0.0
    decomposition: float = math.inf

    @property
    def metal(self) -> bool:
        """Whether it conducts like a metal."""
        return self.solid.conductivity > assumed.METAL


def layer(
    part: str,
    material: Material,
    thickness: float,
    *,
    contact: float = 0.0,
    made: Made | None = None,
    flow: Flow = "along_bore",
) -> Layer:
    """A layer of a catalog material, in the direction heat goes through it.

    A print with fibres conducts ``conductivity`` across its layers and ``conductivity_in_plane``
    along them; one without them is alike both ways. Where its infill is sparse, plastic and air lie
    side by side and share the heat by their areas.

    Parameters
    ----------
    part
        The part it belongs to.
    material
        From the plain engine.
    thickness, contact
        m; m² K/W to the layer before.
    made
        How it is made; None for solid stock.
    flow
        Whether heat goes along the bore's axis or away from it.
    """
    stacked = None if made is None or made.made != "printed" else made.layers_stacked
    # heat away from the bore meets upright layers partly face on: the lower figure is taken
    across = stacked is None or (stacked == "along_bore") == (flow == "along_bore")
    in_plane = material.fibres and not across
    conductivity = material["conductivity_in_plane" if in_plane else "conductivity"]
    share = 1.0 if made is None else solid_share(made, thickness)
    solid = Solid(
        conductivity * share + assumed.AIR_CONDUCTIVITY * (1.0 - share),
        material["density"] * share,
        material["specific_heat"],
    )
    limit = math.inf if material.metal else material["decomposition"]
    return Layer(part, solid, thickness, contact, limit)


def solid_share(made: Made, thickness: float) -> float:
    """How much of a printed wall is plastic: its lines from both sides, and infill between.

    Examples
    --------
    >>> made = Made(material="petg", made="printed", walls=6, line_width=0.45e-3, infill=0.4,
    ...             layers_stacked="along_bore")
    >>> round(solid_share(made, 8e-3), 3)
    0.805
    """
    if made.made != "printed" or thickness <= 0:
        return 1.0
    return plastic_share(made.walls, made.line_width, made.infill, thickness)


def gap_resistance(width: float) -> float:
    """Resistance of a gap of still air with radiation between dull faces at 450 K, m² K/W."""
    radiation = 4.0 * 5.67e-8 * 450.0**3 * assumed.EMISSIVITY_METAL
    return 1.0 / (assumed.AIR_CONDUCTIVITY / width + radiation)


_COATINGS = {
    # conductivity, density, specific heat, thickness; from memory, thickness common practice
    "metal_foil": (Solid(200.0, 2700.0, 900.0), 0.1e-3),
    "ceramic_paint": (Solid(0.8, 2000.0, 900.0), 0.2e-3),
}


def coating(part: str, name: str) -> tuple[Layer, ...]:
    """The layer a coating adds on the fire's side: 0.1 mm of foil, 0.2 mm of ceramic paint.

    Epoxy and resin are plastics themselves and change nothing that matters here.
    """
    if name not in _COATINGS:
        return ()
    solid, thickness = _COATINGS[name]
    return (Layer(part, solid, thickness),)
