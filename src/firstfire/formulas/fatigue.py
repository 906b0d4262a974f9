"""Fatigue: the line of stress against cycles, mean stress, and damage added up."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive, require_within


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
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 6-13.

    Examples
    --------
    >>> round(stress_for_cycles(line_through(40e6, 0.2), 1e6) / 1e6, 6)
    8.0
    """
    require_within(1.0, math.inf, because="a part is loaded at least once", cycles=cycles)
    return math.number(line.coefficient * cycles**line.exponent)
