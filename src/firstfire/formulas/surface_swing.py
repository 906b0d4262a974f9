"""The swing of a face's temperature through each cycle, and any history of flux into it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from firstfire.formulas.solid import Solid
from firstfire.formulas.validity import require_not_negative, require_positive

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Series = NDArray[np.float64]


def swing_depth(solid: Solid, frequency: float) -> float:
    """Depth at which a swing has faded to 1/e, m: δ = √(2α/ω). To 1 % it takes 4.605 δ.

    Parameters
    ----------
    solid
        What the wall is of.
    frequency
        Frequency of the swing, Hz: half the shaft's for a four-stroke cycle.

    Raises
    ------
    OutsideValidity
        If the frequency or a property is not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., section 5.9;
    H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., section 2.6.

    Examples
    --------
    >>> round(swing_depth(Solid(0.21, 1270.0, 1300.0), 25.0) * 1e6, 1)
    40.2
    """
    require_positive(frequency=frequency)
    return math.sqrt(solid.diffusivity / (math.pi * frequency))


def swing_amplitude(flux_amplitude: float, solid: Solid, frequency: float) -> float:
    """Amplitude of the face's temperature under a flux that swings as a sine, K: q̂/(e √ω).

    Parameters
    ----------
    flux_amplitude
        Amplitude q̂ of the flux, W/m².
    solid, frequency
        As `swing_depth`.

    Raises
    ------
    OutsideValidity
        If the frequency or a property is not above zero. The wall is thick: over 4 δ.

    References
    ----------
    As `swing_depth`.

    Examples
    --------
    >>> round(swing_amplitude(100e3, Solid(0.21, 1270.0, 1300.0), 25.0), 2)
    13.55
    """
    require_positive(frequency=frequency)
    return flux_amplitude / (solid.effusivity * math.sqrt(2 * math.pi * frequency))


def swing_at(
    flux_amplitude: float, solid: Solid, frequency: float, depth: float, phase: float
) -> float:
    """Temperature over its mean at a depth and phase, K, for a flux q̂ cos φ.

    θ = (q̂/(e √ω)) exp(-x/δ) cos(φ - x/δ - π/4): the face lags the flux by an eighth of a cycle.

    Parameters
    ----------
    flux_amplitude, solid, frequency
        As `swing_amplitude`.
    depth
        Depth x, m.
    phase
        Phase φ of the flux, rad.

    Raises
    ------
    OutsideValidity
        If the depth is negative, or frequency or a property not above zero.

    References
    ----------
    *Carslaw, Jaeger*, 2nd ed., section 2.6.

    Examples
    --------
    >>> round(swing_at(100e3, Solid(0.21, 1270.0, 1300.0), 25.0, 0.0, math.pi / 4), 2)
    13.55
    """
    require_not_negative(depth=depth)
    lag = depth / swing_depth(solid, frequency)
    amplitude = swing_amplitude(flux_amplitude, solid, frequency)
    return amplitude * math.exp(-lag) * math.cos(phase - lag - math.pi / 4)


def face_history(fluxes: Series, step: float, solid: Solid) -> Series:
    """Rise of a thick wall's face at the end of each step of a flux history, K.

    Each change of flux starts a `flux_rise` of its own and they add (Duhamel), so that a flux
    constant within each step is answered exactly.

    Parameters
    ----------
    fluxes
        Flux into the face within each step, W/m², shape (n,).
    step
        Length of a step, s.
    solid
        What the wall is of.

    Returns
    -------
    NDArray of float
        Rise at the end of each step, K, shape (n,). The work grows with n².

    Raises
    ------
    OutsideValidity
        If the step or a property is not above zero.

    References
    ----------
    *Carslaw, Jaeger*, 2nd ed., section 1.14 (Duhamel) and 2.9.

    Examples
    --------
    >>> import numpy as np
    >>> pla = Solid(0.20, 1240.0, 1800.0)
    >>> round(float(face_history(np.full(20, 50e3), 0.1, pla)[-1]), 1)
    119.4
    """
    import numpy as np

    require_positive(step=step)
    fluxes = np.asarray(fluxes, dtype=float)
    times = step * np.arange(1, fluxes.size + 1)
    answer = 2 * np.sqrt(times / math.pi) / solid.effusivity
    changes = np.diff(fluxes, prepend=0.0)
    return np.convolve(changes, answer)[: fluxes.size]
