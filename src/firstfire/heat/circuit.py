"""The heat network as arrays: what the compiled step is handed."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NO_HALF, INNER_HALF, OUTER_HALF = 0, 1, 2
"""What lies between a node and its face: nothing, the half cell before it, the one behind it."""


class Circuit(NamedTuple):
    """A network as arrays; n cells of all chains, then m lumps.

    Attributes
    ----------
    capacity
        Of each node, J/K; (n + m).
    inner, outer
        Resistance of the half cell towards the fire and away from it, K/W; (n).
    contact
        Resistance between the faces of a cell and the next, K/W; infinite where a chain ends; (n).
    link_from, link_to, link_conductance
        Joined nodes and W/K; the second is always a lump.
    layer_first, layer_past, layer_limit
        Cells of each layer that can char, and its decomposition temperature, K.
    layer_face
        Index of the fire face of its chain.
    char_ratio
        Conductivity of char over that of the plastic it was.
    thickness
        Of each cell along the heat, m; (n).
    decomposing
        Heat that each cell takes up as it chars, J; (n).
    layer_kept
        Char that stays on each layer, m: what is deeper charred has been blown or burned away.
        Infinite where nothing wears it off.
    """

    capacity: Floats
    inner: Floats
    outer: Floats
    contact: Floats
    link_from: Ints
    link_to: Ints
    link_conductance: Floats
    layer_first: Ints
    layer_past: Ints
    layer_limit: Floats
    layer_face: Ints
    char_ratio: float
    thickness: Floats
    decomposing: Floats
    layer_kept: Floats


class Faces(NamedTuple):
    """Everything at the edge of the network, as arrays over faces.

    Attributes
    ----------
    node, half
        The node behind it, and which half cell lies between.
    film, temperature
        Constant conductance to what is outside, W/K, and its temperature, K.
    free, exponent
        A further conductance ``free * |T - T_outside|**exponent``, W/K.
    radiating
        Emissivity times area times the Stefan-Boltzmann constant, W/K⁴.
    source, limit
        Heat set free at the face, W; it fades over `FADES` kelvin below a limit, K: a face that
        rubs itself molten rubs no more.
    gas
        1 where the outside is hot gas, 0 where it cools.
    excess, excess_slope
        Of each cell: how far its peak within a cycle stands above its mean, K, as a straight line
        over the temperature of its chain's fire face; (n).
    """

    node: Ints
    half: Ints
    film: Floats
    temperature: Floats
    free: Floats
    exponent: Floats
    radiating: Floats
    source: Floats
    limit: Floats
    gas: Ints
    excess: Floats
    excess_slope: Floats
