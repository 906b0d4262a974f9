"""The largest circle of a round plate that neither its rim nor two pillars below it support."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_positive


def free_radius(radius: float, half_gap: float, half_width: float) -> float:
    """Radius of the largest circle inside a round plate that clears two pillars under it, m.

    Parameters
    ----------
    radius
        Of the plate, m.
    half_gap
        From the middle to the inner face of either pillar, m.
    half_width
        Half of a pillar's width across the line that joins them, m.

    Returns
    -------
    float
        m; the plate's own radius where the pillars stand too far out to matter. With m the larger
        of ``radius - half_width`` and ``half_gap`` it is ``(m² + half_gap²)/(2 m)``: a circle that
        touches the rim and the near corners of both pillars, or fits between them.

    Raises
    ------
    OutsideValidity
        For sizes not above 0.

    References
    ----------
    Plane geometry: a point on the axis between the pillars is as far from the rim,
    ``radius - y``, as from their corners, ``√(half_gap² + (y - half_width)²)``.

    Examples
    --------
    >>> round(1e3 * free_radius(40e-3, 14e-3, 21.6e-3), 2)
    14.53
    >>> free_radius(10e-3, 12e-3, 5e-3)
    0.01
    """
    require_positive(radius=radius, half_gap=half_gap, half_width=half_width)
    beside = found("beside", math.most(radius - half_width, half_gap), "m",
                   "room between pillar and rim, or pillars")  # fmt: skip
    return math.least((beside**2 + half_gap**2) / (2 * beside), radius)
