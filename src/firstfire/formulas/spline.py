"""A straight-sided splined joint: the pressure on its teeth and the shear at their root."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_ordered, require_positive, require_within


def tooth_pressure(
    torque: float,
    *,
    teeth: float,
    root_diameter: float,
    outside_diameter: float,
    length: float,
    bearing_share: float = 0.75,
) -> float:
    """Pressure on the flanks, Pa: p = 2T/(φ z d_m h L), d_m and h from both diameters.

    Parameters
    ----------
    torque
        Torque T, N·m.
    teeth
        Number z of teeth, 3 to 60.
    root_diameter, outside_diameter
        Diameters of the shaft at root and tip, m.
    length
        Engaged length L, m.
    bearing_share
        Share φ of the flanks that bears, 0.2 to 1: 0.75 machined, less as printed.

    Raises
    ------
    OutsideValidity
        If sizes are out of order, or teeth or share outside their range.

    References
    ----------
    Common form for splined shafts; φ 0.75 from H. Wittel and others, *Roloff/Matek
    Maschinenelemente* (from memory); a lower φ for prints is common practice, no source.

    Examples
    --------
    >>> p = tooth_pressure(10.0, teeth=6, root_diameter=13e-3, outside_diameter=16e-3,
    ...                    length=20e-3)
    >>> round(p / 1e6, 2)
    10.22
    """
    require_ordered(zero=0.0, root_diameter=root_diameter, outside_diameter=outside_diameter)
    require_positive(length=length)
    require_within(3, 60, because="fewer or more is no spline", teeth=teeth)
    require_within(0.2, 1.0, because="it is a share of the flanks", bearing_share=bearing_share)
    mean_diameter = (root_diameter + outside_diameter) / 2
    height = (outside_diameter - root_diameter) / 2
    return 2 * abs(torque) / (bearing_share * teeth * mean_diameter * height * length)


def tooth_root_shear(
    torque: float, *, teeth: float, root_diameter: float, tooth_width: float, length: float
) -> float:
    """Shear stress at the root of the teeth, Pa: τ = 2T/(z d_r w L).

    Parameters
    ----------
    torque
        Torque T, N·m.
    teeth
        Number z of teeth.
    root_diameter, tooth_width, length
        Root diameter d_r, width w of a tooth at its root, engaged length L, m.

    Raises
    ------
    OutsideValidity
        If the teeth do not fit round the root, or a size is not above zero.

    References
    ----------
    Equilibrium, the teeth sharing evenly.

    Examples
    --------
    >>> round(tooth_root_shear(10.0, teeth=6, root_diameter=13e-3, tooth_width=3.5e-3,
    ...                        length=20e-3) / 1e6, 2)
    3.66
    """
    require_positive(
        teeth=teeth, root_diameter=root_diameter, tooth_width=tooth_width, length=length
    )
    require_within(
        0.0,
        1.0,
        because="the teeth do not fit round the root",
        share_of_circumference=teeth * tooth_width / (math.pi * root_diameter),
    )
    return 2 * abs(torque) / (teeth * root_diameter * tooth_width * length)
