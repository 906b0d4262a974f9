"""A wall as a chain of cells: layers one behind the other, flat or round, finer at the fire."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.formulas.validity import require_positive
from firstfire.heat.layers import Layer

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

FIRST_CELL_BAD, FIRST_CELL_METAL = 6e-6, 60e-6
"""First cell at the fire in what conducts badly and in metal, m: a fraction of the depth a cycle
reaches (some 40 µm and 1 mm at 3000 rpm)."""

LATER_CELL = 60e-6
"""First cell of a layer that does not face the fire, m."""

GROWTH = 1.07
"""Of one cell over the one before."""

LEAST_CELLS = 40
"""No cell is larger than this part of its layer, unless the first is."""


@dataclass(frozen=True)
class Stack:
    """One wall, meshed.

    Attributes
    ----------
    name
        The wall's: ``crown``, ``head``, ``liner`` ...
    layers
        From the fire to the back.
    starts
        First cell of each layer, and the number of cells at the end.
    depth, size
        Depth of each cell's middle below the fire's face, and its thickness, m.
    capacity
        Of each cell, J/K.
    inner, outer
        Resistance of each cell's halves, towards the fire and away, K/W.
    contact
        Resistance between a cell's outer face and the next cell, K/W; infinite at the back.
    fire_area, back_area
        Faces that gas and surroundings touch, m².
    swept
        Whether fire sweeps its front, which wears char off.
    """

    name: str
    layers: tuple[Layer, ...]
    starts: tuple[int, ...]
    depth: Floats
    size: Floats
    capacity: Floats
    inner: Floats
    outer: Floats
    contact: Floats
    fire_area: float
    back_area: float
    swept: bool = True

    @property
    def cells(self) -> int:
        """How many cells it has."""
        return self.capacity.size

    @property
    def parts(self) -> tuple[str, ...]:
        """Names of its parts, from the fire to the back."""
        return tuple(dict.fromkeys(layer.part for layer in self.layers))

    @property
    def thickness(self) -> float:
        """From the fire's face to the back, m."""
        return sum(layer.thickness for layer in self.layers)

    def cell_at(self, depth: float) -> int:
        """The cell whose middle is nearest to a depth, m."""
        return int(np.argmin(np.abs(self.depth - depth)))


def cell_sizes(
    thickness: float, first: float, growth: float = GROWTH, least: int = LEAST_CELLS
) -> Floats:
    """Sizes of cells that grow from about the first to a fortieth, and fill the thickness, m.

    Raises
    ------
    OutsideValidity
        Where a size is not above zero.

    Examples
    --------
    >>> sizes = cell_sizes(4e-3, 6e-6)
    >>> len(sizes), round(float(sum(sizes)), 9), round(float(max(sizes)), 6)
    (69, 0.004, 0.000101)
    """
    require_positive(thickness=thickness, first_cell=first)
    largest = max(thickness / least, first)
    growing = first * growth ** np.arange(math.ceil(math.log(largest / first, growth)) + 1)
    growing = growing[: 1 + int(np.searchsorted(np.cumsum(growing), thickness))]
    left = thickness - growing.sum()
    even = np.full(max(math.ceil(left / largest), 0), largest)
    sizes = np.concatenate([growing, even])
    return np.asarray(sizes * (thickness / sizes.sum()), dtype=np.float64)


def flat_stack(
    name: str,
    layers: Sequence[Layer],
    area: float,
    *,
    fire_area: float | None = None,
    back_area: float | None = None,
    growth: float = GROWTH,
) -> Stack:
    """A flat wall.

    Parameters
    ----------
    name, layers
        The wall's, and its layers from the fire to the back.
    area
        That heat goes through, m².
    fire_area, back_area
        Of the outer faces where they differ from it, m².
    growth
        Of one cell over the one before.
    """

    def through(near: Floats, far: Floats) -> tuple[Floats, Floats]:
        """Volume and length over area between two depths."""
        return area * (far - near), (far - near) / area

    fire = area if fire_area is None else fire_area
    return _meshed(
        name, layers, through, (fire, area if back_area is None else back_area), area, growth
    )


def round_stack(
    name: str,
    layers: Sequence[Layer],
    bore: float,
    length: float,
    *,
    growth: float = GROWTH,
    least: int = LEAST_CELLS,
) -> Stack:
    """A round wall: heat goes from a bore outwards.

    Parameters
    ----------
    name, layers
        The wall's, and its layers from the bore outwards.
    bore, length
        m.
    growth, least
        Of one cell over the one before; cells that a layer has at least.
    """

    def through(near: Floats, far: Floats) -> tuple[Floats, Floats]:
        inside, outside = 0.5 * bore + near, 0.5 * bore + far
        return (
            math.pi * length * (outside**2 - inside**2),
            np.log(outside / inside) / (2.0 * math.pi * length),
        )

    back = math.pi * length * (bore + 2.0 * sum(one.thickness for one in layers))
    faces = (math.pi * bore * length, back)
    return _meshed(name, layers, through, faces, faces[0], growth, least)


def _meshed(
    name: str,
    layers: Sequence[Layer],
    through: object,
    faces: tuple[float, float],
    area: float,
    growth: float,
    least: int = LEAST_CELLS,
) -> Stack:
    assert callable(through)
    starts, edges_near, edges_far, solids, contact = [0], [], [], [], []
    reached = 0.0
    for place, layer in enumerate(layers):
        sizes = cell_sizes(layer.thickness, _first_cell(layer, fire=place == 0), growth, least)
        far = reached + np.cumsum(sizes)
        edges_near.append(far - sizes)
        edges_far.append(far)
        solids += [layer.solid] * sizes.size
        starts.append(starts[-1] + sizes.size)
        contact += [0.0] * (sizes.size - 1)
        # per area of the fire's face; a round wall's contact lies a little further out
        last = place == len(layers) - 1
        reached += layer.thickness
        outward = through(np.array([reached]), np.array([reached + 1e-6]))[0][0] / (area * 1e-6)
        contact.append(math.inf if last else layers[place + 1].contact / (area * outward))
    near, far = np.concatenate(edges_near), np.concatenate(edges_far)
    middle = 0.5 * (near + far)
    conductivity = np.array([solid.conductivity for solid in solids])
    heat = np.array([solid.density * solid.specific_heat for solid in solids])
    return Stack(
        name=name,
        layers=tuple(layers),
        starts=tuple(starts),
        depth=middle,
        size=far - near,
        capacity=heat * through(near, far)[0],
        inner=through(near, middle)[1] / conductivity,
        outer=through(middle, far)[1] / conductivity,
        contact=np.array(contact),
        fire_area=faces[0],
        back_area=faces[1],
    )


def _first_cell(layer: Layer, *, fire: bool) -> float:
    if not fire:
        return min(LATER_CELL, layer.thickness / 3)
    first = FIRST_CELL_METAL if layer.metal else FIRST_CELL_BAD
    return min(first, layer.thickness / 3)
