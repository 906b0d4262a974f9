"""Bending stress in a round plate under gas pressure: heads and piston crowns.

`loaded_radius` in every law: pressure acts on a concentric circle of this radius only, such as
the bore under a head held on a wider bolt circle; left out, it acts on the whole plate.
"""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_positive, require_within


def supported_centre_stress(
    pressure: float,
    radius: float,
    thickness: float,
    poisson: float,
    *,
    loaded_radius: float | None = None,
) -> float:
    """Bending stress at the centre of a simply supported plate, Pa: its largest.

    σ = (6/t²) (q r₀²/4) ((1 + ν) ln(a/r₀) + 1 - (1 - ν) r₀²/4a²); 3(3 + ν)/8 · q (a/t)² where
    all of it is loaded.

    Parameters
    ----------
    pressure
        Pressure q, Pa.
    radius, thickness
        Radius a of the support and thickness t, m.
    loaded_radius
        Radius r₀ under pressure, m.
    poisson
        Poisson's ratio ν.

    Raises
    ------
    OutsideValidity
        If a/t is below 2: a block, not a plate.

    References
    ----------
    S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., Eq. 68 to 70 and
    section 19; W. C. Young, R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed.,
    Table 11.2, case 16 (part load).

    Examples
    --------
    >>> round(supported_centre_stress(3e6, 22e-3, 10e-3, 0.38) / 1e6, 2)
    18.4
    """
    share = loaded_share(radius, thickness, loaded_radius)
    bracket = (1 + poisson) * -math.log(share) + 1 - (1 - poisson) * share**2 / 4
    bracket = found(
        "bracket", bracket, "", "what the plate's law makes of the gas (natural logarithm)"
    )
    return 6 * pressure * (share * radius) ** 2 / 4 * bracket / thickness**2


def loaded_share(radius: float, thickness: float, loaded_radius: float | None) -> float:
    """Share r₀/a of the radius that is under pressure, once the plate is known to be one.

    Parameters
    ----------
    radius, thickness
        Radius a and thickness t, m.
    loaded_radius
        Radius r₀ under pressure, m; None for the whole plate.

    Raises
    ------
    OutsideValidity
        If a/t is below 2 or r₀ is outside t/2 to a.

    Examples
    --------
    >>> loaded_share(30e-3, 8e-3, 22.5e-3)
    0.75
    """
    require_positive(thickness=thickness, radius=radius)
    require_within(
        2.0,
        math.inf,
        because="below two thicknesses it is a block, whose stress no plate law gives",
        radius_over_thickness=radius / thickness,
    )
    if loaded_radius is None:
        return 1.0
    require_within(
        thickness / 2,
        radius,
        because="the load lies on the plate, and below half a thickness it is a point",
        loaded_radius=loaded_radius,
    )
    return found("share", loaded_radius / radius, "", "pressed radius over supported radius")
