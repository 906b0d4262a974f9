"""What surrounds the walls for a while: gas, friction and cooling, by the names of the network."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from firstfire.heat.gas_side import GasSide
from firstfire.heat.network import Link


@dataclass(frozen=True)
class Film:
    """A conductance to a temperature: W/K and K."""

    conductance: float
    temperature: float


@dataclass(frozen=True)
class Cooling:
    """What cools a back or a lump, per area.

    Attributes
    ----------
    temperature
        Of what is around it, K.
    constant
        Coefficient that doesn't depend on the wall, W/(m² K).
    free, exponent
        Coefficient of rising air, ``free * |T - temperature|**exponent``.
    emissivity
        Of the face; 0 where nothing radiates.
    """

    temperature: float
    constant: float = 0.0
    free: float = 0.0
    exponent: float = 0.25
    emissivity: float = 0.0


@dataclass(frozen=True)
class Exposure:
    """What a cylinder's walls are exposed to, until something changes.

    Attributes
    ----------
    gas
        Hot gas on the fire faces, by stack.
    films
        Further gas on a fire face or a lump: blow-by.
    sources, limits
        Heat set free at a fire face or in a lump, W: friction; and the temperature at which such
        a face is molten and rubs no more, K.
    cooling
        At the back of a stack or around a lump.
    links
        Paths between walls and lumps that are there only while this goes on: moving air and oil.
    """

    gas: Mapping[str, GasSide] = field(default_factory=dict)
    films: Mapping[str, Film] = field(default_factory=dict)
    sources: Mapping[str, float] = field(default_factory=dict)
    limits: Mapping[str, float] = field(default_factory=dict)
    cooling: Mapping[str, Cooling] = field(default_factory=dict)
    links: tuple[Link, ...] = ()
