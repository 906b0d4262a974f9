"""A round plate with a hole in its middle, or pierced by many: a head with its plug and valves."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive, require_within


class AnnularPlate(NamedTuple):
    """How a plate with a central hole bears pressure.

    Attributes
    ----------
    deflection
        Deflection of the hole's edge, bending only, m.
    hole_moment
        Hoop moment a unit length at the hole, N.
    edge_moment
        Radial moment a unit length at the outer edge, N; zero where it is simply supported.
    """

    deflection: float
    hole_moment: float
    edge_moment: float


def supported_annular_plate(
    pressure: float, radius: float, hole_radius: float, stiffness: float, poisson: float
) -> AnnularPlate:
    """Annular plate, outer edge simply supported, hole free, pressure all over.

    Parameters
    ----------
    pressure
        Pressure q, Pa.
    radius, hole_radius
        Outer radius a and hole radius b, m; b/a from 0.001 to 0.95.
    stiffness, poisson
        Plate stiffness D, N·m, and Poisson's ratio ν.

    Returns
    -------
    AnnularPlate
        The bending stress at the hole is 6 · hole_moment/t².

    Raises
    ------
    OutsideValidity
        If b/a is outside 0.001 to 0.95 (a solid plate, a ring) or D is not above zero.

    References
    ----------
    W. C. Young, R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 11.2,
    case 2a; here from the plate equation D d/dr((1/r) d(r w')/dr) = Q.

    Examples
    --------
    >>> plate = supported_annular_plate(1.0, 1.0, 0.5, 1.0, 0.30)
    >>> round(plate.deflection, 4), round(plate.hole_moment, 4)
    (0.0624, 0.2404)
    """
    return _solve(pressure, radius, hole_radius, stiffness, poisson, clamped=False)


def clamped_annular_plate(
    pressure: float, radius: float, hole_radius: float, stiffness: float, poisson: float
) -> AnnularPlate:
    """Annular plate, outer edge clamped, hole free, pressure all over.

    Parameters
    ----------
    pressure, radius, hole_radius, stiffness, poisson
        As `supported_annular_plate`.

    Raises
    ------
    OutsideValidity
        As `supported_annular_plate`.

    References
    ----------
    As `supported_annular_plate`; case 2e.

    Examples
    --------
    >>> plate = clamped_annular_plate(1.0, 1.0, 0.5, 1.0, 0.30)
    >>> plate.edge_moment < 0 < plate.hole_moment
    True
    """
    return _solve(pressure, radius, hole_radius, stiffness, poisson, clamped=True)


def ligament_efficiency(hole_pitch: float, hole_diameter: float) -> float:
    """Share of a pierced plate left between neighbouring holes: η = (P - d)/P.

    Divide the solid plate's stress by it. Around a single small hole in a plate bent alike in
    all directions the stress doubles, which is an efficiency of one half.

    Parameters
    ----------
    hole_pitch, hole_diameter
        Distance P of centres and diameter d, m.

    Raises
    ------
    OutsideValidity
        If the holes meet.

    References
    ----------
    ASME BPVC section VIII-1, UG-53 (form, from memory).

    Examples
    --------
    >>> ligament_efficiency(20.0, 15.0)
    0.25
    """
    require_positive(hole_pitch=hole_pitch, hole_diameter=hole_diameter)
    require_within(
        0.0, 0.999, because="the holes meet", diameter_over_pitch=hole_diameter / hole_pitch
    )
    return (hole_pitch - hole_diameter) / hole_pitch


def _solve(
    pressure: float,
    radius: float,
    hole_radius: float,
    stiffness: float,
    poisson: float,
    *,
    clamped: bool,
) -> AnnularPlate:
    """Slope w' = (q a³/2D) f(ρ), ρ = r/a: f = ρ³/8 - β²ρ lnρ/2 + β²ρ/4 + Aρ + B/ρ."""
    require_positive(radius=radius, hole_radius=hole_radius, stiffness=stiffness)
    hole = hole_radius / radius
    require_within(0.001, 0.95, because="that is a solid plate or a ring", hole_over_radius=hole)
    nu, square, log = poisson, hole**2, math.log(hole)

    def known(rho: float) -> tuple[float, float]:
        """Slope and its derivative without A and B."""
        slope = rho**3 / 8 - square * rho * math.log(rho) / 2 + square * rho / 4
        return slope, 3 * rho**2 / 8 - square * math.log(rho) / 2 - square / 4

    # Radial moment ∝ f' + ν f/ρ = known + (1+ν) A - (1-ν) B/ρ²; none at the free hole.
    slope, bend = known(hole)
    free = bend + nu * slope / hole
    slope, bend = known(1.0)
    if clamped:  # f(1) = 0: B = -slope - A
        a = -(free + (1 - nu) / square * slope) / (1 + nu + (1 - nu) / square)
        b = -slope - a
    else:
        edge = bend + nu * slope
        b = (free - edge) / ((1 - nu) * (1 / square - 1))
        a = ((1 - nu) * b - edge) / (1 + nu)

    slope, bend = known(hole)
    slope, bend = slope + a * hole + b / hole, bend + a - b / square
    hoop = slope / hole + nu * bend
    outer_slope, outer_bend = known(1.0)
    radial = outer_bend + a - b + nu * (outer_slope + a + b)
    log_integral = -0.25 - square * log / 2 + square / 4  # of ρ lnρ from β to 1
    fall = (1 - square**2) / 32 - square * log_integral / 2 + square * (1 - square) / 8
    fall += a * (1 - square) / 2 - b * log
    scale = pressure * radius**2 / 2
    return AnnularPlate(-scale * radius**2 / stiffness * fall, -scale * hoop, -scale * radial)
