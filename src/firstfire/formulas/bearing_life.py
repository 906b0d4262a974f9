"""Rolling bearings: life at a load, at a reliability, and the steady load that wears alike."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

BALL = 3.0
"""Life exponent of ball bearings."""
ROLLER = 10 / 3
"""Life exponent of roller bearings."""
HALF_SINE = (4 / (3 * math.pi)) ** (1 / 3)
"""Steady ball-bearing load over the peak of a half-sine pulse."""
RELIABILITY_FACTORS = {0.90: 1.0, 0.95: 0.64, 0.96: 0.55, 0.97: 0.47, 0.98: 0.37, 0.99: 0.25}
"""Life factor a₁ by reliability: ISO 281:2007, Table 12, from memory."""


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


def life_in_seconds(revolutions: float, speed: float) -> float:
    """Time to turn a number of revolutions, s.

    Parameters
    ----------
    revolutions
        Number of revolutions.
    speed
        Speed, rad/s.

    Raises
    ------
    OutsideValidity
        If the speed is not above zero.

    References
    ----------
    2π a revolution.

    Examples
    --------
    >>> round(life_in_seconds(753.6e6, 3000 * math.pi / 30) / 3600)
    4187
    """
    require_positive(speed=speed)
    return revolutions * 2 * math.pi / speed


def reliability_factor(reliability: float) -> float:
    """Share a₁ of the rating life that this share of bearings outlasts.

    Straight lines between the standard's points, in ln a₁ over ln ln (1/R).

    Parameters
    ----------
    reliability
        R, 0.90 to 0.99.

    Raises
    ------
    OutsideValidity
        If R is outside 0.90 to 0.99.

    References
    ----------
    ISO 281:2007, Table 12, from memory.

    Examples
    --------
    >>> reliability_factor(0.95)
    0.64
    """
    require_within(
        0.90, 0.99, because="the standard's table is used there", reliability=reliability
    )
    if reliability in RELIABILITY_FACTORS:
        return RELIABILITY_FACTORS[reliability]
    points = sorted(RELIABILITY_FACTORS)
    above = next(point for point in points if point > reliability)
    below = points[points.index(above) - 1]
    x, x0, x1 = (math.log(-math.log(r)) for r in (reliability, below, above))
    y0, y1 = (math.log(RELIABILITY_FACTORS[r]) for r in (below, above))
    return math.exp(y0 + (y1 - y0) * (x - x0) / (x1 - x0))


def cubic_mean(loads: Sequence[float], shares: Sequence[float], exponent: float = BALL) -> float:
    """Steady load that wears a bearing as a series of loads does, N: (Σ qᵢ Pᵢ^p)^(1/p).

    Parameters
    ----------
    loads
        Loads Pᵢ, N, not negative.
    shares
        Share qᵢ of the turns at each; they sum to 1.
    exponent
        p: `BALL` or `ROLLER`.

    Raises
    ------
    OutsideValidity
        If the shares do not sum to 1, or something is negative.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 11-14.

    Examples
    --------
    >>> round(cubic_mean([2e3, 0.3e3], [0.1, 0.9]), 1)
    937.6
    """
    require_within(
        1 - 1e-6, 1 + 1e-6, because="they are shares of all turns", sum_of_shares=sum(shares)
    )
    total = 0.0
    for load, share in zip(loads, shares, strict=True):
        require_not_negative(load=load, share=share)
        total += share * load**exponent
    return math.number(total ** (1 / exponent))


def static_factor(static_rating: float, peak_load: float) -> float:
    """Factor against dents in the raceways, s₀ = C₀/P₀: 1 for quiet running, 2 under shock.

    Parameters
    ----------
    static_rating, peak_load
        Static rating C₀ and the largest load P₀, N.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    ISO 76:2006; values common practice.

    Examples
    --------
    >>> round(static_factor(3.7e3, 1.8e3), 2)
    2.06
    """
    require_positive(static_rating=static_rating, peak_load=peak_load)
    return static_rating / peak_load


def needed_rating(
    load: float,
    lives: float,
    reliability: float,
    *,
    least: float = 0.02,
    characteristic: float = 4.439,
    shape: float = 1.483,
    exponent: float = BALL,
) -> float:
    """Dynamic rating for a life, in multiples of 10⁶ turns, at a reliability, N.

    C = P (x_D/(x₀ + (θ - x₀) (ln 1/R)^(1/b)))^(1/p)

    Parameters
    ----------
    load
        Equivalent load P with its application factor, N.
    lives
        Wanted life x_D in rating lives (10⁶ turns).
    reliability
        R, 0.5 to 0.999.
    least, characteristic, shape
        Weibull x₀, θ - x₀ and b of the maker's tests.
    exponent
        p: `BALL` or `ROLLER`.

    Raises
    ------
    OutsideValidity
        If R is outside its range or a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 11-6.

    Examples
    --------
    >>> round(needed_rating(1.2 * 1898.0, 540.0, 0.90) / 1e3, 2)
    18.59
    """
    require_positive(load=load, lives=lives, characteristic=characteristic, shape=shape)
    require_within(0.5, 0.999, because="tests do not reach there", reliability=reliability)
    outlasted = least + characteristic * math.log(1 / reliability) ** (1 / shape)
    return math.number(load * (lives / outlasted) ** (1 / exponent))


def reliability_at(
    dynamic_rating: float,
    load: float,
    lives: float,
    *,
    least: float = 0.02,
    characteristic: float = 4.439,
    shape: float = 1.483,
    exponent: float = BALL,
) -> float:
    """Share of bearings that outlast a life at a load: R = exp(-((x - x₀)/(θ - x₀))^b).

    Here x is the life over the rating life, x = x_D (P/C)^p.

    Parameters
    ----------
    dynamic_rating
        Dynamic rating C, N.
    load, lives, least, characteristic, shape, exponent
        As `needed_rating`.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 11-4, 11-18.

    Examples
    --------
    >>> round(reliability_at(19.5e3, 1.2 * 1898.0, 540.0), 3)
    0.919
    """
    require_positive(dynamic_rating=dynamic_rating, load=load, lives=lives)
    require_positive(characteristic=characteristic, shape=shape)
    life = lives * (load / dynamic_rating) ** exponent
    return math.exp(-(max(0.0, (life - least) / characteristic) ** shape))
