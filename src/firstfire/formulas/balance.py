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
from typing import NamedTuple


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
