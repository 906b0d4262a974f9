"""Rolling bearings: life at a load, at a reliability, and the steady load that wears alike."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive, require_within

BALL = 3.0
"""Life exponent of ball bearings."""
ROLLER = 10 / 3
"""Life exponent of roller bearings."""


def rating_life(dynamic_rating: float, load: float, exponent: float = BALL) -> float:
    """Revolutions that nine in ten bearings outlast: L₁₀ = 10⁶ (C/P)^p.

    Parameters
    ----------
    dynamic_rating, load
        Dynamic rating C and equivalent load P, N; P at most C/2.
    exponent
        p: `BALL` or `ROLLER`.

    Raises
    ------
    OutsideValidity
        If the load is above half the rating, where raceways deform, or not above zero.

    References
    ----------
    ISO 281:2007, Eq. 1 and clause 4 (limit of load).

    Examples
    --------
    >>> round(rating_life(4.55e3, 0.5e3) / 1e6, 1)
    753.6
    """
    require_positive(dynamic_rating=dynamic_rating, load=load)
    require_within(
        0.0, 0.5, because="the raceways deform there", load_over_rating=load / dynamic_rating
    )
    return math.number(1e6 * (dynamic_rating / load) ** exponent)
