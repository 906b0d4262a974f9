"""Fatigue: the line of stress against cycles, mean stress, and damage added up."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


class StressLifeLine(NamedTuple):
    """A straight line of log stress over log cycles, σ = a N^b.

    Attributes
    ----------
    coefficient
        a, Pa: the stress of one cycle on the line.
    exponent
        b, negative.
    """

    coefficient: float
    exponent: float


def steel_line(
    tensile_strength: float, endurance_limit: float, strength_fraction: float
) -> StressLifeLine:
    """Line of a steel between 10³ cycles at f S_ut and 10⁶ at its endurance limit.

    a = (f S_ut)²/S_e, b = -⅓ log₁₀(f S_ut/S_e)

    Parameters
    ----------
    tensile_strength, endurance_limit
        S_ut and S_e of the part, Pa.
    strength_fraction
        f, 0.76 to 0.9.

    Raises
    ------
    OutsideValidity
        If f is outside 0.7 to 1, or f S_ut is not above S_e.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 6-14,
    6-15.

    Examples
    --------
    >>> line = steel_line(551e6, 276e6, 0.9)
    >>> round(line.coefficient / 1e6, 1), round(line.exponent, 6)
    (891.0, -0.084828)
    """
    require_within(0.7, 1.0, because="the charts end there", strength_fraction=strength_fraction)
    require_positive(endurance_limit=endurance_limit)
    low_cycle = strength_fraction * tensile_strength
    require_positive(fall_to_the_limit=low_cycle - endurance_limit)
    exponent = -math.log10(low_cycle / endurance_limit) / 3
    return StressLifeLine(low_cycle**2 / endurance_limit, exponent)


def line_through(strength: float, fraction: float, cycles: float = 1e6) -> StressLifeLine:
    """Line of a plastic from its strength at one cycle to a fraction of it at many.

    b = log(fraction)/log(cycles). Plastics have no endurance limit: the line goes on.

    Parameters
    ----------
    strength
        Short-time strength, Pa.
    fraction
        Share of it, as maximum stress of a pulsating load, borne for `cycles`.
    cycles
        Cycles of that point, 10³ or more.

    Raises
    ------
    OutsideValidity
        If the fraction is not between 0 and 1, or the cycles too few.

    References
    ----------
    Basquin's form; O. H. Ezeh, L. Susmel, *Int. J. Fatigue* 126 (2019) 319 for printed PLA.

    Examples
    --------
    >>> round(line_through(40e6, 0.2).exponent, 4)
    -0.1165
    """
    require_positive(strength=strength, fraction=fraction)
    require_within(0.0, 0.999, because="it falls with cycles", fraction=fraction)
    require_within(1e3, math.inf, because="too few to draw a line by", cycles=cycles)
    return StressLifeLine(strength, math.log(fraction) / math.log(cycles))


def line_of_slope(stress: float, cycles: float, inverse_slope: float) -> StressLifeLine:
    """Line through a point with a known inverse slope, N ∝ σ^-k.

    Parameters
    ----------
    stress, cycles
        Stress, Pa, and cycles of the point.
    inverse_slope
        k, 2 to 30.

    Raises
    ------
    OutsideValidity
        If k is outside 2 to 30 or a quantity is not above zero.

    References
    ----------
    Basquin's form. Printed PLA: k 5.5 through 0.1 of strength at 2·10⁶ (Ezeh, Susmel; from
    memory).

    Examples
    --------
    >>> line = line_of_slope(5e6, 2e6, 5.5)
    >>> round(cycles_to_failure(line, 10e6))
    44194
    """
    require_positive(stress=stress, cycles=cycles)
    require_within(2.0, 30.0, because="no material falls so", inverse_slope=inverse_slope)
    return StressLifeLine(stress * cycles ** (1 / inverse_slope), -1 / inverse_slope)


def cycles_to_failure(line: StressLifeLine, stress: float) -> float:
    """Cycles that a stress is borne, N = (σ/a)^(1/b); infinite for no stress.

    Parameters
    ----------
    line
        Stress-life line.
    stress
        Reversed (or pulsating, as the line is) stress σ, Pa, up to a.

    Raises
    ------
    OutsideValidity
        If the stress is negative, or above a: it breaks at once.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 6-16.

    Examples
    --------
    >>> round(cycles_to_failure(steel_line(551e6, 276e6, 0.9), 358.5e6), -2)
    45800.0
    """
    require_not_negative(stress=stress)
    require_within(
        0.0, 1.0, because="it breaks at once", stress_over_strength=stress / line.coefficient
    )
    if stress == 0:
        return math.inf
    return math.number((stress / line.coefficient) ** (1 / line.exponent))


def stress_for_cycles(line: StressLifeLine, cycles: float) -> float:
    """Stress that is borne for a number of cycles, Pa: σ = a N^b.

    Parameters
    ----------
    line
        Stress-life line.
    cycles
        Cycles N, 1 or more.

    Raises
    ------
    OutsideValidity
        If N is below 1.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 6-13.

    Examples
    --------
    >>> round(stress_for_cycles(line_through(40e6, 0.2), 1e6) / 1e6, 6)
    8.0
    """
    require_within(1.0, math.inf, because="a part is loaded at least once", cycles=cycles)
    return math.number(line.coefficient * cycles**line.exponent)


def damage(cycles: Sequence[float], lives: Sequence[float]) -> float:
    """Damage of blocks of cycles added up, Σ nᵢ/Nᵢ; the part is used up at about 1.

    Parameters
    ----------
    cycles
        Cycles nᵢ run at each stress.
    lives
        Cycles to failure Nᵢ at each.

    Raises
    ------
    OutsideValidity
        If a count is negative or a life not above zero.

    References
    ----------
    M. A. Miner 1945; *Shigley's*, 9th ed., Eq. 6-57. Sums at failure scatter from 0.3 to 3.

    Examples
    --------
    >>> line = line_through(1.0, 0.2)
    >>> lives = [cycles_to_failure(line, 0.35), cycles_to_failure(line, 0.25)]
    >>> round(damage([1e4, 1e5], lives), 3)
    1.899
    """
    total = 0.0
    for count, life in zip(cycles, lives, strict=True):
        require_not_negative(cycles=count)
        require_positive(life=life)
        total += count / life
    return total
