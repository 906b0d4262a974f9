"""Torque and preload of a screw, by nut factor and by friction."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

NUT_FACTORS = {
    "dry, not plated": 0.30,
    "zinc plated or as received": 0.20,
    "lubricated": 0.18,
    "cadmium plated": 0.16,
    "anti-seize": 0.12,
    "lock washers of low friction": 0.09,
}
"""Nut factor K by condition: Shigley, 9th ed., Table 8-15, from memory."""


def torque_for_preload(preload: float, diameter: float, nut_factor: float = 0.20) -> float:
    """Tightening torque, N·m: T = K F d. Expect ±25 to 30 % in the preload by torque wrench.

    Parameters
    ----------
    preload
        Wanted preload F, N.
    diameter
        Nominal diameter d, m.
    nut_factor
        K, 0.05 to 0.5; see `NUT_FACTORS`.

    Raises
    ------
    OutsideValidity
        If K is outside 0.05 to 0.5, or a quantity is negative.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 8-27.

    Examples
    --------
    >>> round(torque_for_preload(6173.0, 5e-3), 2)
    6.17
    """
    require_not_negative(preload=preload, diameter=diameter)
    require_within(0.05, 0.5, because="no thread rubs like that", nut_factor=nut_factor)
    return nut_factor * preload * diameter


def preload_from_torque(torque: float, diameter: float, nut_factor: float = 0.20) -> float:
    """Preload that a torque gives, N: F = T/(K d).

    Parameters
    ----------
    torque
        Tightening torque T, N·m.
    diameter, nut_factor
        As `torque_for_preload`.

    Raises
    ------
    OutsideValidity
        As `torque_for_preload`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 8-27.

    Examples
    --------
    >>> round(preload_from_torque(3.0, 5e-3))
    3000
    """
    require_positive(diameter=diameter)
    return torque / torque_for_preload(1.0, diameter, nut_factor)


def torque_by_friction(
    preload: float,
    *,
    mean_diameter: float,
    pitch: float,
    thread_friction: float,
    collar_diameter: float,
    collar_friction: float,
    half_angle: float = math.pi / 6,
) -> float:
    """Tightening torque from the friction of thread and head, N·m.

    T = (F d_m/2) (l + π μ d_m sec α)/(π d_m - μ l sec α) + F μ_c d_c/2

    Parameters
    ----------
    preload
        Preload F, N.
    mean_diameter, pitch
        Mean thread diameter d_m and pitch l, m.
    thread_friction, collar_friction
        Friction of thread μ and under the head μ_c.
    collar_diameter
        Mean diameter d_c of the face under the head, m; about 1.25 d.
    half_angle
        Half of the thread's included angle α, rad.

    Raises
    ------
    OutsideValidity
        If a size is not above zero, a friction negative, or the thread locks (μ l near π d_m).

    References
    ----------
    *Shigley's*, 9th ed., Eq. 8-26.

    Examples
    --------
    >>> round(torque_by_friction(3000.0, mean_diameter=4.51e-3, pitch=0.8e-3,
    ...     thread_friction=0.15, collar_diameter=6.25e-3, collar_friction=0.15), 2)
    2.98
    """
    require_positive(mean_diameter=mean_diameter, pitch=pitch, collar_diameter=collar_diameter)
    require_not_negative(thread_friction=thread_friction, collar_friction=collar_friction)
    rub = thread_friction / math.cos(half_angle)
    round_way = math.pi * mean_diameter
    require_positive(climb_left_by_friction=round_way - rub * pitch)
    climb = (pitch + rub * round_way) / (round_way - rub * pitch)
    return preload * (mean_diameter * climb + collar_friction * collar_diameter) / 2
