"""A split hub drawn onto a shaft by screws: the torque at which it slips."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def clamp_pressure(screw_force: float, diameter: float, length: float) -> float:
    """Even pressure of a two-part or soft split hub on its shaft, Pa: p = F/(d L).

    Parameters
    ----------
    screw_force
        Force F that presses one half on the shaft, N: of a hub in two parts the sum of all its
        screws, of a hub slit on one side what `lever_force` gives.
    diameter, length
        Shaft diameter d and clamped length L, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    Equilibrium of half a hub.

    Examples
    --------
    >>> round(clamp_pressure(4000.0, 12e-3, 20e-3) / 1e6, 2)
    16.67
    """
    require_positive(diameter=diameter, length=length)
    return screw_force / (diameter * length)


def slip_torque(
    screw_force: float, diameter: float, friction: float, *, closeness: float = math.pi / 2
) -> float:
    """Torque at which a clamped hub slips, N·m: T = κ μ F d.

    Parameters
    ----------
    screw_force
        Force F that presses one half on the shaft, N, as `clamp_pressure`.
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


def lever_force(screw_force: float, hinge_to_screw: float, hinge_to_shaft: float) -> float:
    """Force that presses each half of a hub slit on one side only, N: F_s = F l₁/l₂.

    The unslit side is taken as a free hinge: a stiff one keeps some of the force for itself.

    Parameters
    ----------
    screw_force
        Force of the screws across the slit, N.
    hinge_to_screw, hinge_to_shaft
        Distances l₁ and l₂ from the unslit side (the hinge) to screw and to shaft axis, m.

    Raises
    ------
    OutsideValidity
        If the screw is not further from the hinge than the shaft is.

    References
    ----------
    Equilibrium about the hinge; *Roloff/Matek*, from memory.

    Examples
    --------
    >>> round(lever_force(2000.0, 24e-3, 12e-3))
    4000
    """
    require_positive(hinge_to_shaft=hinge_to_shaft)
    require_within(
        1.0,
        math.inf,
        because="the screw sits beyond the shaft",
        hinge_to_screw_over_hinge_to_shaft=hinge_to_screw / hinge_to_shaft,
    )
    return screw_force * hinge_to_screw / hinge_to_shaft
