"""Springs one behind another, and the frequency at which two masses or flywheels swing on one."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
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


def two_body_frequency(stiffness: float, first_inertia: float, second_inertia: float) -> float:
    """Frequency at which two free bodies swing against each other, Hz.

    f = (1/2π) √(k (1/I₁ + 1/I₂))

    Parameters
    ----------
    stiffness
        Stiffness k between them, N/m or N·m/rad.
    first_inertia, second_inertia
        Mass, kg, or moment of inertia, kg·m², of each.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    J. P. Den Hartog, *Mechanical Vibrations*, two-disc torsional system.

    Examples
    --------
    >>> round(two_body_frequency(1466.0, 2e-5, 1.1e-3))
    1375
    """
    require_positive(
        stiffness=stiffness, first_inertia=first_inertia, second_inertia=second_inertia
    )
    return math.sqrt(stiffness * (1 / first_inertia + 1 / second_inertia)) / (2 * math.pi)
