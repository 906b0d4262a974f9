"""Fins on a body or a head: how many times as much the face they stand on cools through them.

A fin's face counts by its efficiency, the face between fins in full. What the air takes from a
square metre of fin is Gibson's law in a stream and Bar-Cohen's and Rohsenow's between fins in
still air. Fins see each other: what radiates is the envelope round their tips.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from firstfire.engine.sections.cylinder import Fins
from firstfire.formulas import fin, free_convection
from firstfire.formulas.ambient_air import dry_air
from firstfire.formulas.solid import Solid
from firstfire.heat.stack import Stack


@dataclass(frozen=True)
class FinnedFace:
    """A face with fins, all metres and square metres.

    Attributes
    ----------
    fins
        Their count and sizes.
    bare
        The face they stand on, without them.
    covered
        What of it their roots cover.
    spread
        Both sides and the tips of all fins.
    envelope
        The smooth face round all tips, which radiates.
    height
        The way rising air takes along a fin.
    root
        Radius of the cylinder that round fins stand on; None for straight fins.
    metal
        What the fins are of.
    """

    fins: Fins
    bare: float
    covered: float
    spread: float
    envelope: float
    height: float
    root: float | None
    metal: Solid

    @property
    def volume(self) -> float:
        """Of all fins, m³."""
        thickness = self.fins.thickness
        edge = self.spread * thickness / (2.0 * self.fins.length + thickness)
        return max(self.spread - edge, 0.0) / 2.0 * thickness

    def share(self, part: float) -> FinnedFace:
        """Of an even part of it, 0 to 1."""
        return replace(
            self, bare=self.bare * part, covered=self.covered * part, spread=self.spread * part,
            envelope=self.envelope * part,
        )  # fmt: skip

    def efficiency(self, film: float) -> float:
        """Share of the fins' face that counts under a film, W/(m² K)."""
        sizes = (film, self.metal.conductivity, self.fins.thickness)
        if self.root is None:
            return fin.straight_efficiency(*sizes, self.fins.length)
        return fin.round_efficiency(*sizes, self.root, self.fins.length)

    def times(self, film: float) -> float:
        """What the bare face would have to be larger to cool as much under that film."""
        free = max(self.bare - self.covered, 0.0)
        return (free + self.efficiency(film) * self.spread) / self.bare

    def stream_film(self, speed: float) -> float:
        """Of a stream so fast, m/s, over the fins, W/(m² K)."""
        return fin.stream_coefficient(speed, self.fins.length, self.fins.thickness + self.fins.gap)

    def rising_film(self, air: float, rise: float, pressure: float) -> float:
        """Of air that rises by itself between fins so much warmer, K, W/(m² K)."""
        between = dry_air(air + 0.5 * rise, pressure)
        rayleigh = free_convection.rayleigh(
            self.fins.gap, air + rise, air, between.kinematic_viscosity, between.prandtl
        )
        return fin.rising_coefficient(rayleigh, self.fins.gap, self.height, between.conductivity)


def round_fins(fins: Fins, diameter: float, length: float, metal: Solid) -> FinnedFace | None:
    """Discs round a cylinder; None where there are none.

    Parameters
    ----------
    fins
        As the engine file says.
    diameter, length
        Of the cylinder they stand on, m.
    metal
        What it is of.
    """
    if fins.count == 0:
        return None
    root, tip = 0.5 * diameter, 0.5 * diameter + fins.length
    sides = 2.0 * math.pi * (tip**2 - root**2)
    return FinnedFace(
        fins=fins,
        bare=math.pi * diameter * length,
        covered=fins.count * math.pi * diameter * fins.thickness,
        spread=fins.count * (sides + 2.0 * math.pi * tip * fins.thickness),
        envelope=2.0 * math.pi * tip * length,
        height=2.0 * tip,
        root=root,
        metal=metal,
    )


def upright_fins(fins: Fins, diameter: float, face: float, metal: Solid) -> FinnedFace | None:
    """Straight fins side by side on a round head; None where there are none.

    A chord of the head is π/4 of its diameter in the mean.

    Parameters
    ----------
    fins
        As the engine file says.
    diameter
        Of the head, m.
    face
        All of its outer face, rim included, m².
    metal
        What it is of.
    """
    if fins.count == 0:
        return None
    chord = math.pi / 4 * diameter
    around = chord * (2.0 * fins.length + fins.thickness) + 2.0 * fins.length * fins.thickness
    return FinnedFace(
        fins=fins,
        bare=face,
        covered=min(fins.count * chord * fins.thickness, face),
        spread=fins.count * around,
        envelope=face + math.pi * diameter * fins.length,
        height=chord,
        root=None,
        metal=metal,
    )


def weighed(stack: Stack, fins: FinnedFace | None) -> Stack:
    """A wall whose last cell also holds the heat of the fins on it."""
    if fins is None:
        return stack
    capacity = np.array(stack.capacity)
    capacity[-1] += fins.volume * fins.metal.density * fins.metal.specific_heat
    return replace(stack, capacity=capacity)
