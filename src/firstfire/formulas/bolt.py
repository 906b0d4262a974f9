"""A bolted joint: stiffness of bolt and parts, how they share a load, and when it opens."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import (
    require_not_negative,
    require_ordered,
    require_positive,
    require_within,
)


def fastener_stiffness(
    shank_area: float, shank_length: float, thread_area: float, thread_length: float, modulus: float
) -> float:
    """Stiffness of a bolt within its grip, N/m: k = A_d A_t E/(A_d l_t + A_t l_d).

    Parameters
    ----------
    shank_area, shank_length
        Area A_d and length l_d of plain shank in the grip, m² and m.
    thread_area, thread_length
        Stress area A_t and length l_t of thread in the grip, m² and m.
    modulus
        Young's modulus E, Pa.

    Raises
    ------
    OutsideValidity
        If an area or the modulus is not above zero, or there is no length at all.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 8-17.

    Examples
    --------
    A fully threaded M5 through 50 mm:

    >>> round(fastener_stiffness(14.2e-6, 0.0, 14.2e-6, 50e-3, 206e9) / 1e6, 1)
    58.5
    """
    require_positive(shank_area=shank_area, thread_area=thread_area, modulus=modulus)
    require_not_negative(shank_length=shank_length, thread_length=thread_length)
    require_positive(grip=shank_length + thread_length)
    shank = shank_length / shank_area if shank_length > 0 else 0.0
    return modulus / (thread_length / thread_area + shank)


def cone_stiffness(
    modulus: float, hole_diameter: float, washer_diameter: float, thickness: float
) -> float:
    """Stiffness of a clamped layer pressed in a cone of 30 degrees, N/m.

    k = 0.5774 π E d / ln{[(1.155 t + D - d)(D + d)]/[(1.155 t + D + d)(D - d)]}. A layer
    pressed from both faces is two such cones in series, each of half its thickness.

    Parameters
    ----------
    modulus
        Young's modulus E of the layer, Pa.
    hole_diameter, washer_diameter
        Bolt diameter d and diameter D of the face that presses at the narrow end, m.
    thickness
        Thickness t of the cone, m.

    Raises
    ------
    OutsideValidity
        If the diameters are not in order, or a quantity is not above zero. The part must be
        wide enough to hold the cone; where a boss is narrower use its own area E A/t.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 8-20.

    Examples
    --------
    >>> round(cone_stiffness(2.0e9, 5e-3, 10e-3, 10e-3) / 1e6, 1)
    29.0
    """
    require_positive(modulus=modulus, thickness=thickness)
    require_ordered(zero=0.0, hole_diameter=hole_diameter, washer_diameter=washer_diameter)
    d, face, cone = hole_diameter, washer_diameter, 2 * thickness / math.sqrt(3)
    cone = found("cone_widens", cone, "m", "what a cone widens over its depth")
    inside = (cone + face - d) * (face + d) / ((cone + face + d) * (face - d))
    inside = found("cone_bracket", inside, "", "what its slope makes of hole and washer")
    return math.pi * modulus * d / (math.sqrt(3) * math.log(inside))


def load_share(bolt_stiffness: float, parts_stiffness: float) -> float:
    """Share of an outside load that the bolt feels: C = k_b/(k_b + k_m).

    Over soft plastic it nears 1: the bolt feels nearly all of the gas load.

    Parameters
    ----------
    bolt_stiffness, parts_stiffness
        Stiffness k_b of the bolt and k_m of the clamped parts, N/m.

    Raises
    ------
    OutsideValidity
        If a stiffness is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., section 8-7, Eq. f.

    Examples
    --------
    >>> load_share(60e6, 15e6)
    0.8
    """
    require_positive(bolt_stiffness=bolt_stiffness, parts_stiffness=parts_stiffness)
    return bolt_stiffness / (bolt_stiffness + parts_stiffness)


def bolt_load(preload: float, load: float, share: float) -> float:
    """Force in the bolt under an outside load, N: F_i + C P while closed, P once open.

    Parameters
    ----------
    preload
        Preload F_i, N, as it is left.
    load
        Outside load P on this bolt, N, opening positive.
    share
        `load_share` C, 0 to 1.

    Raises
    ------
    OutsideValidity
        If the preload is negative or C outside 0 to 1.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 8-24.

    Examples
    --------
    >>> round(bolt_load(3000.0, 1246.0, 0.8))
    3997
    """
    _check_joint(preload, share)
    return math.most(preload + share * load, load)


def _check_joint(preload: float, share: float) -> None:
    require_not_negative(preload=preload)
    require_within(0.0, 1.0, because="it is a share of the load", share=share)
