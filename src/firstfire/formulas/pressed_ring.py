"""A thin ring or tube pressed from outside: where it folds in, and where it yields out of round."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import (
    require_not_negative,
    require_ordered,
    require_positive,
    require_within,
)


def folding_pressure(modulus: float, poisson: float, wall: float, mean_radius: float) -> float:
    """Even pressure from outside at which a long round tube folds in, Pa.

    p = E/(4 (1 - ν²)) (t/R)³

    Parameters
    ----------
    modulus, poisson
        Young's modulus E, Pa, and Poisson's ratio ν.
    wall, mean_radius
        Wall t and mean radius R, m.

    Raises
    ------
    OutsideValidity
        If a size or the modulus is not above zero, or Poisson's ratio not from 0 to below a half.

    Notes
    -----
    Of a pressure that follows the wall as it gives way. A fit's pressure falls as the ring
    gives way, and the body keeps it from going outwards: this is the low side. Rings, flanges and
    bends hold a short tube better; out of round it folds sooner.

    References
    ----------
    W. C. Young, R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 15.2,
    long tube under external pressure, ends free; S. Timoshenko, J. M. Gere, *Theory of Elastic
    Stability*, 2nd ed., sections 7.3 and 7.5.

    Examples
    --------
    Steel of 207 GPa, 1 mm on a radius of 50 mm:

    >>> round(folding_pressure(207e9, 0.30, 1e-3, 50e-3) / 1e6, 3)
    0.455
    """
    require_positive(modulus=modulus, wall=wall, mean_radius=mean_radius)
    require_ordered(zero=0.0, poisson=poisson, half=0.5 + 1e-12)
    return modulus / (4 * (1 - poisson**2)) * (wall / mean_radius) ** 3


def out_of_round_pressure(
    strength: float, folds_at: float, wall: float, mean_radius: float, out_of_round: float
) -> float:
    """Even pressure from outside at which a ring that is not quite round first yields, Pa.

    p² - (σ t/R + (1 + 6 w/t) p_f) p + σ (t/R) p_f = 0, the lesser root

    Parameters
    ----------
    strength
        Yield strength σ when pressed, Pa.
    folds_at
        `folding_pressure` p_f of the ring were it round, Pa.
    wall, mean_radius
        Wall t and mean radius R, m; t/R up to 0.6, beyond which it is no ring.
    out_of_round
        Largest departure w of its radius from a circle, as an oval, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero, the wall too thick, or `out_of_round` negative.

    References
    ----------
    S. Timoshenko, J. M. Gere, *Theory of Elastic Stability*, 2nd ed., section 7.5 (from memory).

    Examples
    --------
    Round, it is the lesser of folding and of yielding as a thin ring, σ t/R:

    >>> round(out_of_round_pressure(250e6, 40e6, 2e-3, 21e-3, 0.0) / 1e6, 2)
    23.81
    >>> round(out_of_round_pressure(250e6, 40e6, 2e-3, 21e-3, 0.1e-3) / 1e6, 2)
    15.9
    """
    require_positive(strength=strength, folds_at=folds_at, wall=wall, mean_radius=mean_radius)
    require_not_negative(out_of_round=out_of_round)
    require_within(0.0, 0.6, because="beyond it is no ring", wall_over_radius=wall / mean_radius)
    yields = found("yields_at", strength * wall / mean_radius, "Pa",
                   "pressure that crushes a round ring")  # fmt: skip
    half = found("half_sum", (yields + (1 + 6 * out_of_round / wall) * folds_at) / 2, "Pa",
                 "half of both, that of folding raised by being out of round")  # fmt: skip
    return half - math.sqrt(half**2 - yields * folds_at)
