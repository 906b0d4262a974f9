"""The opening of a poppet valve: geometric passage by lift, and how much of it really flows.

The geometric passage grows in three stages: at first the frustum between the seat faces, then
the frustum from the seat's edge, at last the port itself. The discharge coefficients refer to
the plain curtain ``π D L``, not to that passage, and belong to metal engines of 30 mm valves and
more with rounded ports: take ±10 % for those, ±20 % for shop-made valves and printed ports.

Only :mod:`math`; :func:`valve_area` and :func:`effective_area` call no other function and do
not raise, so that they can be compiled.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 6.7 to 6.9 for the
passage (from memory). W. J. D. Annand, G. E. Roe, *Gas Flow in the Internal Combustion Engine*,
Foulis 1974, for the coefficients: outflow as quoted in D. Crolla (ed.), *Automotive Engineering:
Powertrain, Chassis System and Vehicle Body*, 2009, section 22.1 (0.7 up to a lift of 0.2 head
diameters, falling to 0.5 at 0.4); inflow from memory.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_ordered, require_within


def valve_area(
    lift: float,
    head_diameter: float,
    seat_width: float,
    seat_angle: float,
    stem_diameter: float,
) -> float:
    """Smallest geometric passage of a poppet valve, m².

    Parameters
    ----------
    lift
        m; 0 or less is shut.
    head_diameter, seat_width, stem_diameter
        m; the seat's width measured along the radius, so that the port is the head less two
        seat widths.
    seat_angle
        Of the seat face to the plane of the head, rad; usually 45°.

    Examples
    --------
    An 18 mm valve at 1 mm lift:

    >>> round(1e6 * valve_area(1e-3, 18e-3, 1e-3, math.radians(45), 5e-3), 2)
    36.65
    """
    if lift <= 0.0:
        return 0.0
    sine, cosine = math.sin(seat_angle), math.cos(seat_angle)
    port_diameter = head_diameter - 2.0 * seat_width
    port = 0.25 * math.pi * (port_diameter**2 - stem_diameter**2)
    if lift * sine * cosine < seat_width:
        curtain = math.pi * lift * cosine * (port_diameter + lift * sine * cosine)
    else:
        past = lift - seat_width * sine / cosine
        curtain = math.pi * (head_diameter - seat_width) * math.sqrt(past**2 + seat_width**2)
    return min(curtain, port)


def inflow_coefficient(lift_ratio: float) -> float:
    """Discharge coefficient into the cylinder, on the curtain ``π D L``.

    0.66 while the jet clings to the seat (to a lift of 0.12 head diameters), then falling to
    0.40 at 0.40; beyond, the port alone counts and the effective area stays.

    Examples
    --------
    >>> round(inflow_coefficient(0.25), 3)
    0.539
    """
    if lift_ratio <= 0.12:
        return 0.66
    if lift_ratio <= 0.40:
        return 0.66 - 0.26 * (lift_ratio - 0.12) / 0.28
    return 0.16 / lift_ratio


def outflow_coefficient(lift_ratio: float) -> float:
    """Discharge coefficient out of the cylinder, on the curtain ``π D L``.

    0.70 up to a lift of 0.2 head diameters, falling to 0.50 at 0.4; beyond, the effective area
    stays.

    Examples
    --------
    >>> round(outflow_coefficient(0.3), 3)
    0.6
    """
    if lift_ratio <= 0.2:
        return 0.7
    if lift_ratio <= 0.4:
        return 0.7 - (lift_ratio - 0.2)
    return 0.2 / lift_ratio


def effective_area(
    lift: float, head_diameter: float, port_area: float, into_cylinder: bool
) -> float:
    """Effective area of a poppet valve: curtain times coefficient, never above the port, m².

    Parameters
    ----------
    lift, head_diameter
        m.
    port_area
        Of the port less the stem, m².
    into_cylinder
        Direction of the flow through either valve.

    Examples
    --------
    >>> round(1e6 * effective_area(3e-3, 18e-3, 181.4e-6, True), 1)
    104.6
    """
    if lift <= 0.0:
        return 0.0
    ratio = lift / head_diameter
    if into_cylinder:
        if ratio <= 0.12:
            coefficient = 0.66
        elif ratio <= 0.40:
            coefficient = 0.66 - 0.26 * (ratio - 0.12) / 0.28
        else:
            coefficient = 0.16 / ratio
    elif ratio <= 0.2:
        coefficient = 0.7
    elif ratio <= 0.4:
        coefficient = 0.9 - ratio
    else:
        coefficient = 0.2 / ratio
    return min(coefficient * math.pi * head_diameter * lift, port_area)


def port_passage(head_diameter: float, seat_width: float, stem_diameter: float) -> float:
    """Area of the port under the seat less the stem, m²."""
    return 0.25 * math.pi * ((head_diameter - 2.0 * seat_width) ** 2 - stem_diameter**2)


def mean_inlet_mach(
    bore: float, mean_piston_speed: float, mean_effective_area: float, sound_speed: float
) -> float:
    """Mean inlet Mach index: piston area times speed over mean effective area times sound speed.

    Parameters
    ----------
    bore, mean_piston_speed
        m and m/s.
    mean_effective_area
        Effective inlet area averaged over the time the valve is open, m².
    sound_speed
        In the inlet, m/s.

    Notes
    -----
    Filling falls off above about 0.5: C. F. Taylor, *The Internal Combustion Engine in Theory
    and Practice*, vol. 1, MIT Press 1985, chapter 6.

    Examples
    --------
    >>> round(mean_inlet_mach(0.044, 5.3, 60e-6, 343.0), 3)
    0.392
    """
    return 0.25 * math.pi * bore**2 * mean_piston_speed / (mean_effective_area * sound_speed)


def valve_area_range(
    head_diameter: float, seat_width: float, seat_angle: float, stem_diameter: float
) -> None:
    """Refuse a valve that the formulas here do not describe.

    Raises
    ------
    OutsideValidity
        If the stem fills the port, or the seat angle is outside 10° to 60°.
    """
    port_diameter = head_diameter - 2.0 * seat_width
    require_ordered(stem_diameter=stem_diameter, port_diameter=port_diameter)
    require_within(
        10.0,
        60.0,
        because="the seat faces are taken as a frustum",
        seat_angle_in_degrees=math.degrees(seat_angle),
    )
