"""How a wall's surface follows the gas through each cycle, and what that does to the mean flux.

Conduction is linear: a wall's temperature is its slow mean plus a periodic part, and each
harmonic of the flux lifts the surface by the wall's impedance at that frequency, layer by layer
from the back. The flux itself depends on the surface, ``q = h (Tg - Tm - θ)``; that is solved to
consistency once for the gas and once for the mean surface temperature Tm, because θ is a
straight line over Tm. So the mean wall sees an *effective* coefficient and gas temperature that
hold the swing exactly, and the peak follows from Tm at any later moment.

Holds once the cycle repeats; the very first cycle is `firstfire.heat.first_cycle`. A round wall
is taken as flat here: the swing reaches a millimetre at the most.

References
----------
H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., Oxford 1959, sections 2.6
(periodic flux), 3.7 (impedance of composite slabs, there as matrices);
F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., section 5.9.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.errors import FirstfireError
from firstfire.heat.gas_side import GasSide
from firstfire.heat.layers import Layer

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Complex = NDArray[np.complex128]

TOLERANCE = 1e-7
"""Largest change of flux in the last round, relative to the largest flux."""

ROUNDS = 400

INSULATED = 1e12
"""Impedance behind a wall that nothing cools, K m²/W."""


@dataclass(frozen=True)
class Swing:
    """What a cycle does at one wall.

    Attributes
    ----------
    coefficient, temperature
        That the mean wall feels, W/(m² K) and K.
    depth
        Where the wall's own swing is known, m below the fire; the first is the surface.
    rise, fall
        The swing at each depth and time is ``rise - fall * Tm`` with Tm the surface's mean, K;
        (depths, samples).
    """

    coefficient: float
    temperature: float
    depth: Floats
    rise: Floats
    fall: Floats

    def peak_above_mean(self, surface: float | Floats) -> Floats:
        """Largest swing above the mean at each depth, K; (..., depths) for surfaces (...)."""
        surfaces = np.asarray(surface, dtype=np.float64)
        swing = self.rise - self.fall * surfaces[..., None, None]
        return np.asarray(swing.max(axis=-1), dtype=np.float64)

    def through_cycle(self, surface: float) -> Floats:
        """Surface temperature over one cycle with that mean, K; (samples)."""
        return np.asarray(surface + self.rise[0] - self.fall[0] * surface, dtype=np.float64)


def no_swing(gas: GasSide) -> Swing:
    """A wall under gas that does not change."""
    nothing = np.zeros((1, 1))
    return Swing(gas.mean_coefficient, gas.mean_temperature, np.zeros(1), nothing, nothing)


def swing(gas: GasSide, layers: Sequence[Layer], depth: Floats, back_film: float = 0.0) -> Swing:
    """The periodic answer of a wall to a cycle.

    Parameters
    ----------
    gas
        Over one cycle.
    layers
        Of the wall, from the fire to the back.
    depth
        Where the swing is wanted below the surface, m; the surface itself is put first.
    back_film
        Coefficient at the back, W/(m² K).

    Raises
    ------
    FirstfireError
        If flux and surface do not agree after many rounds; none is known.
    """
    if gas.steady or gas.mean_coefficient <= 0.0:
        return no_swing(gas)
    samples = gas.coefficient.size
    first = 2.0 * math.pi / gas.period
    frequency = np.linspace(first, first * (samples // 2), samples // 2)
    surface, through = _impedance(layers, frequency, depth, back_film)
    drive = gas.coefficient * np.array([gas.temperature, np.ones(samples)])
    flux = _consistent(gas.coefficient, drive, surface)
    harmonics = np.fft.rfft(flux, axis=-1)[:, 1:] * surface
    swings = np.zeros((2, depth.size + 1, samples // 2 + 1), dtype=np.complex128)
    swings[:, 0, 1:] = harmonics
    swings[:, 1:, 1:] = harmonics[:, None, :] * through
    rise, fall = np.fft.irfft(swings, samples, axis=-1)
    mean = flux.mean(axis=-1)
    return Swing(
        coefficient=float(mean[1]),
        temperature=float(mean[0] / mean[1]),
        depth=np.concatenate(([0.0], depth)),
        rise=rise,
        fall=fall,
    )


def _consistent(coefficient: Floats, drive: Floats, impedance: Complex) -> Floats:
    """Flux that agrees with the surface it swings: ``q + h C q = drive``, C the wall.

    The mean of the coefficient's extremes is taken to the left side, where it is a plain division
    of each harmonic; what is left over contracts by (high - low)/(high + low) or better, because
    no wall's impedance has a negative real part.
    """
    samples = coefficient.size
    middle = 0.5 * (coefficient.max() + coefficient.min())
    rest = coefficient - middle
    whole = np.concatenate(([0.0], impedance))
    flux = drive.copy()
    for _ in range(ROUNDS):
        wall = np.fft.irfft(np.fft.rfft(flux, axis=-1) * whole, samples, axis=-1)
        right = np.fft.rfft(drive - rest * wall, axis=-1) / (1.0 + middle * whole)
        new = np.fft.irfft(right, samples, axis=-1)
        change = np.abs(new - flux).max(axis=-1) / np.abs(new).max(axis=-1)
        flux = new
        if change.max() < TOLERANCE:
            return np.asarray(flux, dtype=np.float64)
    raise FirstfireError("Flux and surface temperature of a wall do not come to agree in a cycle.")


def _impedance(
    layers: Sequence[Layer], frequency: Floats, depth: Floats, back_film: float
) -> tuple[Complex, Complex]:
    """Surface temperature a flux, K m²/W; and temperature at each depth over the surface's."""
    loads: list[Complex] = []
    reflections: list[Complex] = []
    waves: list[Complex] = []
    behind = np.full(frequency.size, INSULATED if back_film <= 0 else 1.0 / back_film, complex)
    for place in range(len(layers) - 1, -1, -1):
        layer = layers[place]
        own, number = _of_layer(layer, frequency)
        reflected = (behind - own) / (behind + own)
        echo = reflected * np.exp(-2.0 * number * layer.thickness)
        front = own * (1.0 + echo) / (1.0 - echo)
        loads.insert(0, front)
        reflections.insert(0, reflected)
        waves.insert(0, number)
        behind = front + layer.contact
    through = np.zeros((depth.size, frequency.size), complex)
    entered = np.ones(frequency.size, complex)
    reached = 0.0
    for place, layer in enumerate(layers):
        if place:
            entered = entered * loads[place] / (loads[place] + layer.contact)
        here = (depth >= reached) & (depth < reached + layer.thickness)
        asked = np.append(depth[here] - reached, layer.thickness)
        within = entered * _within(waves[place], layer.thickness, reflections[place], asked)
        through[here], entered = within[:-1], within[-1]
        reached += layer.thickness
    return loads[0], through


def _of_layer(layer: Layer, frequency: Floats) -> tuple[Complex, Complex]:
    """Own impedance of a thick wall of it, K m²/W, and its wave number, 1/m."""
    waves = np.sqrt(1j * frequency / layer.solid.diffusivity)
    return 1.0 / (layer.solid.conductivity * waves), waves


def _within(waves: Complex, thickness: float, reflected: Complex, depth: Floats) -> Complex:
    """Temperature at depths of a layer over that of its front, (depths, frequencies)."""
    onwards = np.exp(-waves * depth[:, None])
    back = 1.0 + reflected * np.exp(-2.0 * waves * (thickness - depth)[:, None])
    return np.asarray(onwards * back / (1.0 + reflected * np.exp(-2.0 * waves * thickness)))
