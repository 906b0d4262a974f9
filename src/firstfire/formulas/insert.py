"""A brass insert set hot into a print: the pull that draws it out, the torque that turns it."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive, require_within


def pull_out_load(
    outer_diameter: float, length: float, shear_strength: float, *, grip: float = 0.4
) -> float:
    """Short-time pull at which an insert leaves the plastic, N: F = g τ π D L.

    Parameters
    ----------
    outer_diameter, length
        Diameter D over the knurl and length L of the insert, m.
    shear_strength
        Shear strength τ of the plastic round it, Pa.
    grip
        Share g of the knurled cylinder that shears at full strength, 0.2 to 1: grooves,
        voids and a wall of few perimeters take the rest.

    Raises
    ------
    OutsideValidity
        If g is outside 0.2 to 1, the length outside 0.5 to 3 diameters, or a quantity is not
        above zero.

    References
    ----------
    Shear of the enclosing cylinder; g drawn through makers' and print services' pull-out
    figures (from memory, low confidence): M3 by 4 to 6 mm 0.3 to 1.0 kN, M4 by 6 to 8 mm 0.7
    to 1.8 kN, M5 by 8 to 10 mm 1.2 to 2.8 kN.

    Examples
    --------
    An M4 insert of 5.6 by 7 mm in a plastic of 20 MPa shear strength:

    >>> round(pull_out_load(5.6e-3, 7e-3, 20e6))
    985
    """
    require_positive(outer_diameter=outer_diameter, shear_strength=shear_strength)
    require_within(0.2, 1.0, because="it is a share of the knurled cylinder", grip=grip)
    require_within(
        0.5,
        3.0,
        because="inserts are not made so, and the load would not spread evenly",
        length_over_diameter=length / outer_diameter,
    )
    return grip * shear_strength * math.pi * outer_diameter * length
