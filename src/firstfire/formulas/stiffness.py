"""Springs one behind another, and the frequency at which two masses or flywheels swing on one."""

from __future__ import annotations

from firstfire.formulas.validity import require_positive


def in_series(*stiffnesses: float) -> float:
    """Stiffness of springs one behind another, in the unit given: 1/k = Σ 1/kᵢ.

    Parameters
    ----------
    *stiffnesses
        Stiffness of each, all above zero: N/m, or N·m/rad in torsion.

    Raises
    ------
    OutsideValidity
        If there is none, or one is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 8-18.

    Examples
    --------
    >>> in_series(60.0, 60.0, 30.0)
    15.0
    """
    for stiffness in stiffnesses or (0.0,):
        require_positive(stiffness=stiffness)
    return 1 / sum(1 / stiffness for stiffness in stiffnesses)
