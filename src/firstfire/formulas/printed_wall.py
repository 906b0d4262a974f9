"""How much of a printed wall is plastic."""

from __future__ import annotations


def plastic_share(walls: float, line_width: float, infill: float, thickness: float) -> float:
    """Share of a printed wall's section that is plastic: lines at both faces, infill between.

    Parameters
    ----------
    walls, line_width
        Lines side by side at each face, and the width of one, m.
    infill
        Between them, 0 to 1.
    thickness
        Of the wall, m.

    Examples
    --------
    Six lines of 0.45 mm at each face fill a wall of 5 mm, and not one of 8:

    >>> plastic_share(6, 0.45e-3, 0.4, 5e-3), round(plastic_share(6, 0.45e-3, 0.4, 8e-3), 3)
    (1.0, 0.805)

    References
    ----------
    Areas side by side.
    """
    if thickness <= 0:
        return 1.0
    return 1 - (1 - infill) * max(0.0, 1 - 2 * walls * line_width / thickness)
