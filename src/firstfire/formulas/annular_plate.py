"""A round plate with a hole in its middle, or pierced by many: a head with its plug and valves."""

from __future__ import annotations

from firstfire.formulas.validity import require_positive, require_within


def ligament_efficiency(hole_pitch: float, hole_diameter: float) -> float:
    """Share of a pierced plate left between neighbouring holes: η = (P - d)/P.

    Divide the solid plate's stress by it. Around a single small hole in a plate bent alike in
    all directions the stress doubles, which is an efficiency of one half.

    Parameters
    ----------
    hole_pitch, hole_diameter
        Distance P of centres and diameter d, m.

    Raises
    ------
    OutsideValidity
        If the holes meet.

    References
    ----------
    ASME BPVC section VIII-1, UG-53 (form, from memory).

    Examples
    --------
    >>> ligament_efficiency(20.0, 15.0)
    0.25
    """
    require_positive(hole_pitch=hole_pitch, hole_diameter=hole_diameter)
    require_within(
        0.0, 0.999, because="the holes meet", diameter_over_pitch=hole_diameter / hole_pitch
    )
    return (hole_pitch - hole_diameter) / hole_pitch
