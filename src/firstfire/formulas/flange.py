"""Plates pulled between a circle of bolts and a ring they press on: heads and feet."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_not_negative, require_ordered, require_within

FLANK_TANGENT = 0.57735
"""Slope of the flanks of a 60° thread: tan 30°, ISO 68-1."""


def middle_moment(load: float, bolt_radius: float, ring_radius: float, poisson: float) -> float:
    """Bending moment inside the ring of a round plate pulled down by bolts, N·m a metre.

    M = (F/2π) ((1 + ν)/2 ln(b/g) + (1 - ν)/4 (1 - g²/b²)), alike in all directions

    Parameters
    ----------
    load
        Pull F of all bolts that the ring carries, N.
    bolt_radius, ring_radius
        Radius b of the bolts' circle and g of the ring, m.
    poisson
        Poisson's ratio ν.

    Raises
    ------
    OutsideValidity
        If the ring is not inside the bolts, or ν is outside 0 to 0.5.

    Notes
    -----
    What stands out beyond the bolts is left out, and with it the help it gives.

    References
    ----------
    W. C. Young, R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 11.2, case
    9a; S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., section 16.

    Examples
    --------
    >>> round(middle_moment(10.8e3, 29e-3, 22.5e-3, 0.35), 1)
    405.6
    """
    _check(bolt_radius, ring_radius, poisson)
    share = _share(bolt_radius, ring_radius)
    bracket = (1 + poisson) / 2 * -math.log(share) + (1 - poisson) / 4 * (1 - share**2)
    bracket = found("ring_bracket", bracket, "",
                    "what the plate's law makes of the pull (natural logarithm)")  # fmt: skip
    return load / (2 * math.pi) * bracket


def rim_moment(load: float, bolt_radius: float, ring_radius: float, poisson: float) -> float:
    """Bending moment round the bolts' circle of the same plate, N·m a metre.

    M = F (1 - ν)/(4π) (1 - g²/b²), round the circle; none across it

    Parameters
    ----------
    load, bolt_radius, ring_radius, poisson
        As `middle_moment`.

    Raises
    ------
    OutsideValidity
        As `middle_moment`.

    References
    ----------
    *Theory of Plates and Shells*, 2nd ed., section 16, at the support.

    Examples
    --------
    >>> round(rim_moment(10.8e3, 29e-3, 22.5e-3, 0.35), 1)
    222.4
    """
    _check(bolt_radius, ring_radius, poisson)
    return load * (1 - poisson) / (4 * math.pi) * (1 - _share(bolt_radius, ring_radius) ** 2)


def foot_moment(load: float, bolt_radius: float, wall_radius: float, poisson: float) -> float:
    """Bending moment at the root of a foot: a flange round a wall that is pulled off its bolts.

    M = (F/2π) ((1 + ν)/2 ln(a/b) + (1 - ν)/4 (1 - b²/a²))/(½ (1 + ν + (1 - ν) b²/a²)), N·m a metre

    Parameters
    ----------
    load
        Pull F of the wall, N.
    bolt_radius, wall_radius
        Radius a of the bolts' circle and b of the wall's outside, m.
    poisson
        Poisson's ratio ν.

    Raises
    ------
    OutsideValidity
        If the wall is not inside the bolts, or ν is outside 0 to 0.5.

    References
    ----------
    *Roark's*, 7th ed., Table 11.2, case 1b: outer edge supported, inner edge kept from turning.

    Examples
    --------
    A narrow foot is a cantilever as wide as the wall is round, F (a - b)/(2π b):

    >>> round(foot_moment(1000.0, 0.101, 0.100, 0.38), 3), round(1000 * 0.001 / 0.6283185, 3)
    (1.588, 1.592)
    """
    _check(bolt_radius, wall_radius, poisson)
    held = (1 + poisson + (1 - poisson) * _share(bolt_radius, wall_radius) ** 2) / 2
    held = found("held", held, "", "what it comes to where the wall keeps it from turning")
    return middle_moment(load, bolt_radius, wall_radius, poisson) / held


def thread_hoop(
    load: float, hole: float, length: float, boss: float, *, flank_tangent: float = FLANK_TANGENT
) -> float:
    """Pull round a threaded hole whose screw is pulled along it, Pa.

    σ = p (D² + d²)/(D² - d²), p = F tan 30°/(π d L): the flanks wedge the hole open.

    Parameters
    ----------
    load
        Pull F of the screw, N.
    hole, length
        Diameter d that is wedged and length L of thread, m.
    boss
        Diameter D of what stands round it, m: twice the distance to the nearest edge.
    flank_tangent
        Of the flank's slope; of a 60° thread tan 30°.

    Raises
    ------
    OutsideValidity
        If the sizes are not in order, or the load negative.

    References
    ----------
    Equilibrium of the flanks without friction, the low side of friction's help; Lamé, *Shigley's
    Mechanical Engineering Design*, 9th ed., Eq. 3-50.

    Examples
    --------
    >>> round(thread_hoop(2.7e3, 5e-3, 10e-3, 11e-3) / 1e6, 2)
    15.09
    """
    require_ordered(zero=0.0, hole=hole, boss=boss)
    require_ordered(zero=0.0, length=length)
    require_not_negative(load=load)
    wedged = load * flank_tangent / (math.pi * hole * length)
    wedged = found("wedged", wedged, "Pa", "pressure by which the flanks wedge it open")
    return wedged * (boss**2 + hole**2) / (boss**2 - hole**2)


def _share(bolt_radius: float, ring_radius: float) -> float:
    return found("share", ring_radius / bolt_radius, "", "inner radius over the bolts'")


def _check(bolt_radius: float, ring_radius: float, poisson: float) -> None:
    require_ordered(zero=0.0, ring_radius=ring_radius, bolt_radius=bolt_radius)
    require_within(0.0, 0.5, because="no isotropic solid in use has it", poisson=poisson)
