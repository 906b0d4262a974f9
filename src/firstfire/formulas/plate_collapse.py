"""What a round plate bears before it gives way as a whole, and what heat through it adds."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_positive, require_within


def clamped_collapse_pressure(radius: float, thickness: float, yield_strength: float) -> float:
    """Pressure at which a clamped, ductile plate folds in plastic hinges, Pa.

    q = 11.26 M₀/a², M₀ = σ_y t²/4

    Parameters
    ----------
    radius, thickness
        Radius a to the edge and thickness t, m.
    yield_strength
        Yield strength σ_y, Pa, at the temperature and rate in question.

    Raises
    ------
    OutsideValidity
        If a/t is below 2, or a quantity is not above zero.

    References
    ----------
    H. G. Hopkins, W. Prager, *J. Mech. Phys. Solids* 2 (1953) 1, Tresca (from memory). A print
    that splits before it yields does not reach it.

    Examples
    --------
    >>> round(clamped_collapse_pressure(22e-3, 6e-3, 45e6) / 1e6, 2)
    9.42
    """
    return 11.26 * _hinge_moment(radius, thickness, yield_strength) / radius**2


def supported_collapse_pressure(radius: float, thickness: float, yield_strength: float) -> float:
    """Pressure at which a simply supported, ductile plate folds, Pa: q = 6 M₀/a².

    Parameters
    ----------
    radius, thickness, yield_strength
        As `clamped_collapse_pressure`, a the radius of the support.

    Raises
    ------
    OutsideValidity
        As `clamped_collapse_pressure`.

    References
    ----------
    As `clamped_collapse_pressure`.

    Examples
    --------
    >>> round(supported_collapse_pressure(22e-3, 6e-3, 45e6) / 1e6, 2)
    5.02
    """
    return 6 * _hinge_moment(radius, thickness, yield_strength) / radius**2


def pushed_in_pressure(
    radius: float, thickness: float, yield_strength: float, shear_strength: float
) -> float:
    """Pressure that pushes in a simply supported plate however thick, Pa: 6 M₀/a² or 2 τ t/a.

    Parameters
    ----------
    radius, thickness
        Radius a of the support, thickness t, m.
    yield_strength, shear_strength
        In bending and of the plug's edge, Pa.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    Notes
    -----
    The lesser of folding as `supported_collapse_pressure` has it and the plug's shear. With a shear
    strength of half the other, shear takes over from two thirds of the radius on; between a half
    and that, folding is carried on beyond its ground, where the two together may hold a tenth less.

    References
    ----------
    As `supported_collapse_pressure` and `edge_shear_stress`.

    Examples
    --------
    >>> round(pushed_in_pressure(22e-3, 6e-3, 45e6, 22.5e6) / 1e6, 2)
    5.02
    >>> round(pushed_in_pressure(8e-3, 6e-3, 45e6, 22.5e6) / 1e6, 2)
    33.75
    """
    require_positive(radius=radius, thickness=thickness)
    folds = 6 * (yield_strength * thickness**2 / 4) / radius**2
    folds = found("folds", folds, "Pa", "pressure at which it folds")
    punched = shear_strength / edge_shear_stress(1.0, radius, thickness)
    punched = found("punched", punched, "Pa", "pressure at which it is punched through")
    return math.least(folds, punched)


def edge_shear_stress(pressure: float, radius: float, thickness: float) -> float:
    """Mean shear stress round the edge of a plate under pressure, Pa: τ = q a/(2t).

    Parameters
    ----------
    pressure
        Pressure q on all of it, Pa.
    radius, thickness
        Radius a to the edge and thickness t, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    Equilibrium of the plate as a plug.

    Examples
    --------
    >>> edge_shear_stress(3e6, 22e-3, 6e-3) / 1e6
    5.5
    """
    require_positive(radius=radius, thickness=thickness)
    return pressure * radius / (2 * thickness)


def clamped_gradient_stress(
    temperature_difference: float, modulus: float, poisson: float, expansion: float
) -> float:
    """Stress in the faces of a plate held flat while one is warmer, Pa; the warm one pressed.

    σ = E α ΔT/(2 (1 - ν)), a straight fall through the thickness.

    Parameters
    ----------
    temperature_difference
        Difference ΔT of the faces, K.
    modulus, poisson
        Young's modulus E, Pa, and Poisson's ratio ν.
    expansion
        Expansion coefficient α, 1/K.

    Raises
    ------
    OutsideValidity
        If the modulus is not above zero, or ν is outside 0 to 0.5.

    References
    ----------
    S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., section 14.

    Examples
    --------
    >>> round(clamped_gradient_stress(100.0, 2.0e9, 0.38, 70e-6) / 1e6, 2)
    11.29
    """
    require_positive(modulus=modulus)
    require_within(0.0, 0.5, because="no isotropic solid in use has it", poisson=poisson)
    return modulus * expansion * temperature_difference / (2 * (1 - poisson))


def _hinge_moment(radius: float, thickness: float, yield_strength: float) -> float:
    require_positive(radius=radius, thickness=thickness, yield_strength=yield_strength)
    require_within(
        2.0,
        float("inf"),
        because="below two thicknesses it is a block that shears out instead",
        radius_over_thickness=radius / thickness,
    )
    return yield_strength * thickness**2 / 4
