"""Deflection of a round plate under gas pressure, bending and shear together.

`loaded_radius` as in the stress laws: pressure acts on a concentric circle of this radius only.
"""

from __future__ import annotations

import math

from firstfire.formulas.plate import loaded_share
from firstfire.formulas.validity import require_positive, require_within

_SHEAR_CORRECTION = 5 / 6


def plate_stiffness(thickness: float, modulus: float, poisson: float) -> float:
    """Bending stiffness of a plate, N·m: D = E t³/(12 (1 - ν²)).

    Parameters
    ----------
    thickness
        Thickness t, m.
    modulus, poisson
        Young's modulus E, Pa, and Poisson's ratio ν.

    Raises
    ------
    OutsideValidity
        If thickness or modulus is not above zero, or ν is outside 0 to 0.5.

    References
    ----------
    S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., Eq. 3.

    Examples
    --------
    >>> round(plate_stiffness(10e-3, 2.0e9, 0.38), 1)
    194.8
    """
    require_positive(thickness=thickness, modulus=modulus)
    require_within(0.0, 0.5, because="no isotropic solid in use has it", poisson=poisson)
    return modulus * thickness**3 / (12 * (1 - poisson**2))


def clamped_bending_part(
    pressure: float, radius: float, stiffness: float, *, loaded_radius: float | None = None
) -> float:
    """Part of the centre's deflection that bending makes, clamped edge, m.

    w = (q r₀²/16D) (a² - r₀² ln(a/r₀) - 3r₀²/4); q a⁴/64D where all of it is loaded. Not a
    deflection by itself: see `clamped_deflection`.

    Parameters
    ----------
    pressure, radius, loaded_radius
        Pressure q, Pa, radius a to the edge, and radius r₀ under pressure (all of it if left
        out), m.
    stiffness
        `plate_stiffness` D, N·m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., Eq. 62 and
    section 19 (part load).

    Examples
    --------
    >>> round(clamped_bending_part(3e6, 22e-3, plate_stiffness(10e-3, 2e9, 0.38)) * 1e3, 5)
    0.05637
    """
    loaded = _loaded(radius, loaded_radius)
    require_positive(stiffness=stiffness)
    shape = radius**2 - loaded**2 * math.log(radius / loaded) - 0.75 * loaded**2
    return pressure * loaded**2 / (16 * stiffness) * shape


def supported_bending_part(
    pressure: float,
    radius: float,
    stiffness: float,
    poisson: float,
    *,
    loaded_radius: float | None = None,
) -> float:
    """Part of the centre's deflection that bending makes, simply supported edge, m.

    w = (q r₀²/16D) ((3 + ν)/(1 + ν) a² - r₀² ln(a/r₀) - (7 + 3ν)/(4 + 4ν) r₀²);
    (5 + ν)/(1 + ν) q a⁴/64D where all of it is loaded.

    Parameters
    ----------
    pressure, radius, stiffness, loaded_radius
        As `clamped_bending_part`.
    poisson
        Poisson's ratio ν.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Theory of Plates and Shells*, 2nd ed., Eq. 67 and section 19; W. C. Young, R. G. Budynas,
    *Roark's Formulas for Stress and Strain*, 7th ed., Table 11.2, case 16.

    Examples
    --------
    >>> D = plate_stiffness(10e-3, 2e9, 0.38)
    >>> round(supported_bending_part(3e6, 22e-3, D, 0.38) * 1e3, 4)
    0.2198
    """
    loaded = _loaded(radius, loaded_radius)
    require_positive(stiffness=stiffness)
    shape = (3 + poisson) / (1 + poisson) * radius**2
    shape -= loaded**2 * math.log(radius / loaded)
    shape -= (7 + 3 * poisson) / (4 + 4 * poisson) * loaded**2
    return pressure * loaded**2 / (16 * stiffness) * shape


def shear_part(
    pressure: float,
    radius: float,
    thickness: float,
    shear_modulus: float,
    *,
    loaded_radius: float | None = None,
) -> float:
    """Part of the centre's deflection that shear makes, m, for either edge.

    w = (q r₀²/2κGt) (1/2 + ln(a/r₀)), κ = 5/6; q a²/4κGt where all of it is loaded. At
    a/t = 2.2 it is more than the bending part of a clamped plate.

    Parameters
    ----------
    pressure, radius, thickness, loaded_radius
        As `clamped_deflection`.
    shear_modulus
        Shear modulus G, Pa: E/(2 + 2ν), lower across the layers of a print.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    R. D. Mindlin, *J. Appl. Mech.* 18 (1951) 31 (from memory); E. Reissner's factor 5/6.

    Examples
    --------
    >>> round(shear_part(3e6, 22e-3, 10e-3, 2.0e9 / (2 * 1.38)) * 1e3, 4)
    0.0601
    """
    loaded = _loaded(radius, loaded_radius)
    require_positive(thickness=thickness, shear_modulus=shear_modulus)
    rigidity = 2 * _SHEAR_CORRECTION * shear_modulus * thickness
    return pressure * loaded**2 / rigidity * (0.5 + math.log(radius / loaded))


def clamped_deflection(
    pressure: float,
    radius: float,
    thickness: float,
    modulus: float,
    poisson: float,
    *,
    loaded_radius: float | None = None,
) -> float:
    """Deflection at the centre of a clamped plate, bending and shear together, m.

    Parameters
    ----------
    pressure, radius, thickness, loaded_radius
        Pressure q, Pa, radius a to the edge, thickness t, and radius r₀ under pressure, m.
    modulus, poisson
        Young's modulus, Pa, and Poisson's ratio.

    Raises
    ------
    OutsideValidity
        If a/t is below 2, or the plate bows by more than half its thickness, where it starts
        to carry as a membrane.

    References
    ----------
    `clamped_bending_part` and `shear_part`; limit of small deflection: *Theory of Plates and
    Shells*, 2nd ed., section 13 (membrane stress counts above about 0.5 t).

    Examples
    --------
    >>> round(clamped_deflection(3e6, 22e-3, 10e-3, 2.0e9, 0.38) * 1e3, 4)
    0.1165
    """
    loaded_share(radius, thickness, loaded_radius)
    stiffness = plate_stiffness(thickness, modulus, poisson)
    shear_modulus = modulus / (2 + 2 * poisson)
    whole = clamped_bending_part(pressure, radius, stiffness, loaded_radius=loaded_radius)
    whole += shear_part(pressure, radius, thickness, shear_modulus, loaded_radius=loaded_radius)
    return _small(whole, thickness)


def supported_deflection(
    pressure: float,
    radius: float,
    thickness: float,
    modulus: float,
    poisson: float,
    *,
    loaded_radius: float | None = None,
) -> float:
    """Deflection at the centre of a simply supported plate, bending and shear together, m.

    Parameters
    ----------
    pressure, radius, thickness, modulus, poisson, loaded_radius
        As `clamped_deflection`.

    Raises
    ------
    OutsideValidity
        As `clamped_deflection`.

    References
    ----------
    `supported_bending_part` and `shear_part`.

    Examples
    --------
    >>> round(supported_deflection(3e6, 22e-3, 10e-3, 2.0e9, 0.38) * 1e3, 4)
    0.2799
    """
    loaded_share(radius, thickness, loaded_radius)
    stiffness = plate_stiffness(thickness, modulus, poisson)
    shear_modulus = modulus / (2 + 2 * poisson)
    whole = supported_bending_part(
        pressure, radius, stiffness, poisson, loaded_radius=loaded_radius
    )
    whole += shear_part(pressure, radius, thickness, shear_modulus, loaded_radius=loaded_radius)
    return _small(whole, thickness)


def _loaded(radius: float, loaded_radius: float | None) -> float:
    loaded = radius if loaded_radius is None else loaded_radius
    require_positive(radius=radius, loaded_radius=loaded)
    require_within(0.0, radius, because="the load lies on the plate", loaded_radius=loaded)
    return loaded


def _small(deflection: float, thickness: float) -> float:
    require_within(
        0.0,
        0.5,
        because="beyond half its thickness the plate carries as a membrane too",
        deflection_over_thickness=abs(deflection) / thickness,
    )
    return deflection
