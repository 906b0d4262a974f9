"""Flywheels: inertia, stored energy, how far the speed swings, how hard the disc is pulled apart.

References
----------
J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter
on flywheels;
S. P. Timoshenko, J. N. Goodier, *Theory of Elasticity*, 3rd ed., art. 32, for the rotating disc.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_ordered, require_positive


def stored_energy(inertia: float, speed: float) -> float:
    """Energy of turning, J.

    Examples
    --------
    >>> import math
    >>> round(stored_energy(1.598e-3, 100 * math.pi), 1)
    78.9
    """
    return 0.5 * inertia * speed**2


def geared_inertia(inertia: float, ratio: float) -> float:
    """Inertia of a rotor as felt at a shaft that turns `ratio` times slower, kg m²."""
    return inertia * ratio**2


class SpeedSwing(NamedTuple):
    """Highest and lowest speed over a cycle, rad/s."""

    highest: float
    lowest: float


def speed_swing(inertia: float, mean_speed: float, energy_swing: float) -> SpeedSwing:
    """Highest and lowest speed of a flywheel that takes up an energy swing about a mean speed.

    ``I ω (ω_high - ω_low) = ΔE`` with the mean halfway between; exact for that mean.

    Raises
    ------
    OutsideValidity
        If the swing would stop the shaft.

    Examples
    --------
    >>> import math
    >>> swing = speed_swing(6500 * 1.8**2, 4 * math.pi, 56e3)
    >>> [round(w * 30 / math.pi, 1) for w in swing]
    [121.0, 119.0]
    """
    require_positive(inertia=inertia, mean_speed=mean_speed)
    half = 0.5 * energy_swing / (inertia * mean_speed)
    if half >= mean_speed:
        raise OutsideValidity(
            f"A swing of {energy_swing:.3g} J stops a shaft of {inertia:.3g} kg m² at "
            f"{mean_speed:.3g} rad/s: it needs a heavier flywheel or more speed."
        )
    return SpeedSwing(mean_speed + half, mean_speed - half)


def inertia_for_swing(energy_swing: float, mean_speed: float, fluctuation: float) -> float:
    """Inertia that keeps the speed within a coefficient of fluctuation, kg m².

    Parameters
    ----------
    energy_swing
        Largest less smallest stored energy over a cycle, J (:func:`energy_swing`).
    mean_speed
        rad/s.
    fluctuation
        (highest - lowest)/mean speed.

    Examples
    --------
    >>> round(inertia_for_swing(890.7, 481.7, 0.025), 4)
    0.1535
    """
    return energy_swing / (fluctuation * mean_speed**2)


def simpson(values: Sequence[float], step: float) -> float:
    """Integral of evenly spaced values by Simpson's rule; an even number of steps.

    Raises
    ------
    OutsideValidity
        If the number of values is even or below three.

    Examples
    --------
    >>> simpson([0.0, 1.0, 4.0], 1.0) == 8 / 3
    True
    """
    if len(values) < 3 or len(values) % 2 == 0:
        raise OutsideValidity("Simpson's rule needs an odd number of values, three or more.")
    odd, even = sum(values[1:-1:2]), sum(values[2:-1:2])
    return step / 3.0 * (values[0] + 4.0 * odd + 2.0 * even + values[-1])


def energy_swing(torques: Sequence[float], step: float) -> float:
    """Largest less smallest energy that a flywheel holds over one cycle, J.

    Parameters
    ----------
    torques
        Torque over one whole cycle, N m, evenly spaced, the last step leading back to the first
        value.
    step
        Crank angle between values, rad.

    Examples
    --------
    >>> import math
    >>> wave = [math.sin(2 * math.pi * i / 360) for i in range(360)]
    >>> round(energy_swing(wave, 2 * math.pi / 360), 3)
    2.0
    """
    mean = sum(torques) / len(torques)
    energy = highest = lowest = 0.0
    for before, after in zip(torques, [*torques[1:], torques[0]], strict=True):
        energy += step * (0.5 * (before + after) - mean)
        highest, lowest = max(highest, energy), min(lowest, energy)
    return highest - lowest


def disc_stress(
    diameter: float, density: float, poisson: float, speed: float, hole_diameter: float = 0.0
) -> float:
    """Largest hoop stress in a flat turning disc, Pa: at the centre, or at the edge of the hole.

    A small hole doubles the stress at the centre. Holds for a disc thin against its diameter
    and free at its hole; a keyway or screw holes concentrate the stress further.

    Raises
    ------
    OutsideValidity
        If the hole is not smaller than the disc.

    Examples
    --------
    Steel, 120 mm, 4000 rpm:

    >>> import math
    >>> round(disc_stress(0.120, 7850.0, 0.3, 4000 * math.pi / 30) / 1e6, 2)
    2.05
    """
    require_ordered(hole_diameter=hole_diameter, diameter=diameter)
    level = density * speed**2 * (0.5 * diameter) ** 2
    if hole_diameter <= 0.0:
        return (3.0 + poisson) / 8.0 * level
    part = (hole_diameter / diameter) ** 2
    return 0.25 * level * ((3.0 + poisson) + (1.0 - poisson) * part)
