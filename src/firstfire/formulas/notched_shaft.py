"""What pins and keys leave of a shaft's strength in torsion."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_ordered, require_positive


def share_beside_cross_holes(diameter: float, hole: float) -> float:
    """Share of the torsion modulus that a hole across a shaft leaves: 1 - 8 d_p/(3 π d).

    From the net modulus π d³/16 - d_p d²/6.

    Parameters
    ----------
    diameter, hole
        Shaft d and hole d_p, m.

    Raises
    ------
    OutsideValidity
        If the hole is not smaller than the shaft.

    References
    ----------
    R. E. Peterson, *Stress Concentration Factors*, nominal stress of a round bar with a
    transverse hole, as in R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering
    Design*, 9th ed., Fig. A-15-10 and A-15-11 (from memory).

    Examples
    --------
    >>> round(share_beside_cross_holes(12e-3, 4e-3), 3)
    0.717
    """
    require_ordered(zero=0.0, hole=hole, diameter=diameter)
    return math.most(0.0, 1 - 8 * hole / (3 * math.pi * diameter))


def share_beside_keyways(diameter: float, width: float, depth: float, count: float = 1) -> float:
    """Share of a shaft's torsional strength that keyways leave: (1 - 0.2 w/d - 1.1 h/d)^n.

    Moore's tests were of one keyway; each further one is taken to leave as much again of what is
    left. Three half-round grooves a third of the shaft wide then leave 0.42, where the net
    section by Saint-Venant's A⁴/(40 J) leaves 0.66 before any notch effect.

    Parameters
    ----------
    diameter, width, depth
        Shaft d, keyway's width w and depth h in the shaft, m.
    count
        How many stand round it.

    Raises
    ------
    OutsideValidity
        If a size is not above zero, or so deep that Moore's line leaves nothing.

    References
    ----------
    H. F. Moore, *The Effect of Keyways on the Strength of Shafts*, University of Illinois
    Engineering Experiment Station, Bulletin 42, 1909 (from memory).

    Examples
    --------
    >>> round(share_beside_keyways(15e-3, 5e-3, 2.5e-3), 3)
    0.75
    """
    require_positive(diameter=diameter, width=width, depth=depth)
    one = 1 - 0.2 * width / diameter - 1.1 * depth / diameter
    require_not_negative(share_left=one)
    return math.number(one**count)
