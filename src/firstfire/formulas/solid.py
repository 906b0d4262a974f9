"""A solid as heat sees it: conductivity, density, specific heat, and what follows from them."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.formulas.validity import require_positive


class Solid(NamedTuple):
    """What a solid does with heat.

    Attributes
    ----------
    conductivity
        Thermal conductivity k, W/(m K).
    density
        Density ρ, kg/m³.
    specific_heat
        Specific heat c, J/(kg K).

    Examples
    --------
    >>> petg = Solid(0.21, 1270.0, 1300.0)
    >>> round(petg.effusivity), round(petg.diffusivity * 1e6, 4)
    (589, 0.1272)
    """

    conductivity: float
    density: float
    specific_heat: float

    @property
    def diffusivity(self) -> float:
        """Thermal diffusivity α = k/(ρ c), m²/s."""
        self.check()
        return self.conductivity / (self.density * self.specific_heat)

    @property
    def effusivity(self) -> float:
        """Thermal effusivity √(k ρ c), W √s/(m² K): how hard it is to warm its face."""
        self.check()
        return math.sqrt(self.conductivity * self.density * self.specific_heat)

    def check(self) -> None:
        """Refuse a solid with a property that is not above zero.

        Raises
        ------
        OutsideValidity
            If a property is not above zero.
        """
        require_positive(
            conductivity=self.conductivity,
            density=self.density,
            specific_heat=self.specific_heat,
        )
