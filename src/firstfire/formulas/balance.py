"""Shaking force of any layout: two vectors, one turning with the crank and one against it.

A piston's inertia along its bore is the sum of a vector turning forwards and one turning
backwards, each half as long; the vectors of all cylinders add. The largest shaking force is the
sum of the two lengths, the least their difference. Forces come in multiples of ``m r ω²`` of one
cylinder (primary) or of ``m r ω² r/l`` (secondary, turning twice as fast), with the reciprocating
mass m; rods are lumped at their ends. Directions as in :mod:`firstfire.formulas.firing`.

References
----------
J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter
on balancing;
the rotating-vector form is due to F. W. Lanchester.
"""

from __future__ import annotations

import cmath
from collections.abc import Sequence
from typing import NamedTuple

from firstfire.formulas.firing import Layout


class ShakingForce(NamedTuple):
    """Two vectors turning against each other, complex numbers in the plane of the bores.

    The real axis is the bore of cylinder 1, outwards; the imaginary axis a quarter turn on in
    the direction of rotation.

    Attributes
    ----------
    forward
        At crank angle 0, turning with the crank.
    backward
        At crank angle 0, turning against it.
    order
        Turns of the vectors in a turn of the crank: 1 primary, 2 secondary.
    """

    forward: complex
    backward: complex
    order: int

    @property
    def largest(self) -> float:
        """Largest length of the sum over a turn."""
        return abs(self.forward) + abs(self.backward)

    @property
    def smallest(self) -> float:
        """Least length of the sum over a turn."""
        return abs(abs(self.forward) - abs(self.backward))

    @property
    def direction_of_largest(self) -> float:
        """Direction in which the largest force acts (either way), rad from the bore of cylinder 1.

        0 where no direction stands out.
        """
        product = self.forward * self.backward
        return 0.5 * cmath.phase(product) if abs(product) > 1e-12 else 0.0

    def at(self, crank_angle: float) -> complex:
        """Force at a crank angle (rad)."""
        turned = cmath.exp(1j * self.order * crank_angle)
        return self.forward * turned + self.backward / turned


def primary(
    layout: Layout,
    counterweight: complex = 0.0,
    positions: Sequence[float] | None = None,
) -> ShakingForce:
    """First-order shaking force, in multiples of ``m r ω²``; or moment, with positions.

    Parameters
    ----------
    layout
        Directions of bores and pins.
    counterweight
        Counterweight beyond what balances the rotating masses, in multiples of the
        reciprocating ``m r`` of one cylinder, placed opposite to the pin of cylinder 1; a
        complex number turns it in the direction of rotation.
    positions
        Places of the cylinders along the shaft, m. Given, the result is the shaking moment
        about the origin, in multiples of ``m r ω²`` times m; the counterweight then stands
        for its own moment.

    Examples
    --------
    A 90° V on a common pin is balanced by a counterweight of one piston:

    >>> from firstfire.formulas.firing import v_twin
    >>> round(primary(v_twin(cmath.pi / 2), counterweight=1.0).largest, 9)
    0.0
    """
    arms = positions if positions is not None else [1.0] * len(layout.banks)
    forward, backward = -complex(counterweight), 0j
    for bank, pin, arm in zip(layout.banks, layout.pins, arms, strict=True):
        forward += 0.5 * arm * cmath.exp(1j * pin)
        backward += 0.5 * arm * cmath.exp(1j * (2.0 * bank - pin))
    return ShakingForce(forward, backward, 1)


def secondary(layout: Layout, positions: Sequence[float] | None = None) -> ShakingForce:
    """Second-order shaking force, in multiples of ``m r ω² r/l``; or moment, with positions.

    Examples
    --------
    >>> from firstfire.formulas.firing import v_twin
    >>> round(secondary(v_twin(cmath.pi / 2)).largest, 4)
    1.4142
    """
    arms = positions if positions is not None else [1.0] * len(layout.banks)
    forward, backward = 0j, 0j
    for bank, pin, arm in zip(layout.banks, layout.pins, arms, strict=True):
        forward += 0.5 * arm * cmath.exp(1j * (2.0 * pin - bank))
        backward += 0.5 * arm * cmath.exp(1j * (3.0 * bank - 2.0 * pin))
    return ShakingForce(forward, backward, 2)


def best_counterweight(layout: Layout) -> complex:
    """Counterweight that makes the largest primary force least, as `counterweight` of `primary`.

    It cancels the forward vector; the backward one no turning weight can touch.

    Examples
    --------
    >>> from firstfire.formulas.firing import single
    >>> best_counterweight(single()).real
    0.5
    """
    return primary(layout).forward
