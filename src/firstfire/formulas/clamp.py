"""A split hub drawn onto a shaft by screws: the torque at which it slips."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_within


def slip_torque(
    screw_force: float, diameter: float, friction: float, *, closeness: float = math.pi / 2
) -> float:
    """Torque at which a clamped hub slips, N·m: T = κ μ F d.

    Parameters
    ----------
    screw_force
        Force F that presses one half on the shaft, N: the sum of all screws of a hub in two parts.
    diameter
        Shaft diameter d, m.
    friction
        Coefficient of friction μ.
    closeness
        κ: π/2 where the hub embraces the shaft with even pressure (close fit), 1 where it
        touches along two lines only (a stiff hub with play).

    Raises
    ------
    OutsideValidity
        If closeness is outside 1 to π/2, or a quantity is negative.

    References
    ----------
    H. Wittel and others, *Roloff/Matek Maschinenelemente*, clamped joints, from memory.

    Examples
    --------
    >>> round(slip_torque(4000.0, 12e-3, 0.15), 2)
    11.31
    >>> round(slip_torque(4000.0, 12e-3, 0.15, closeness=1.0), 2)
    7.2
    """
    require_not_negative(screw_force=screw_force, diameter=diameter, friction=friction)
    require_within(
        1.0, math.pi / 2, because="a hub touches at least two lines", closeness=closeness
    )
    return closeness * friction * screw_force * diameter
