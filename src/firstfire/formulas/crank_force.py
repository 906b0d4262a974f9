"""Forces of one slider-crank from the force along its bore: in the rod, on the wall, on the crank.

Counted as in :mod:`firstfire.formulas.slider_crank`: crank angle and rod angle in rad, the rod
angle positive after top dead centre. A force along the bore is positive towards the crank.
Only :mod:`math`, no calls within: each can be compiled.

References
----------
J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter
on dynamics of
reciprocating engines.
"""

from __future__ import annotations

import math


def rod_force(force_along_bore: float, rod_angle: float) -> float:
    """Force in the rod, N; positive in compression.

    Examples
    --------
    >>> round(rod_force(3618.0, math.asin(0.02 / 0.07 * math.sin(math.radians(20)))))
    3635
    """
    return force_along_bore / math.cos(rod_angle)


def side_force(force_along_bore: float, rod_angle: float) -> float:
    """Force of the piston on the wall, N; positive on the side opposite to the crankpin.

    Examples
    --------
    >>> round(side_force(3618.0, math.asin(0.02 / 0.07 * math.sin(math.radians(20)))), 1)
    355.3
    """
    return force_along_bore * math.tan(rod_angle)


def crank_torque(
    force_along_bore: float, crank_angle: float, rod_angle: float, throw: float
) -> float:
    """Torque on the crank, N m, in the direction of rotation: ``F r sin(θ + φ)/cos φ``.

    Examples
    --------
    >>> rod_angle = math.asin(0.02 / 0.07 * math.sin(math.radians(20)))
    >>> round(crank_torque(3618.0, math.radians(20), rod_angle, 0.020), 1)
    31.4
    """
    return force_along_bore * throw * math.sin(crank_angle + rod_angle) / math.cos(rod_angle)


def radial_force(force_along_bore: float, crank_angle: float, rod_angle: float) -> float:
    """Force on the crankpin along the throw, N; positive towards the crank axis."""
    return force_along_bore * math.cos(crank_angle + rod_angle) / math.cos(rod_angle)
