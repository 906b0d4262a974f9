"""A valve that suction opens and a spring shuts: when it opens, how fast it shuts, where it dances.

A mass on a spring between seat and stop, pushed by what the gas loses as it goes through. A
spring too stiff for the gas to press the valve against its stop lets it dance; one too soft, or
a valve too heavy, shuts it long after bottom centre, and the charge goes back.

References
----------
The balance of gas, spring and mass of self-acting valves: M. Costagliola, "The Theory of
Spring-Loaded Valves for Reciprocating Compressors", *Journal of Applied Mechanics* 17, 1950,
pp. 415-420 (from memory); a mass on a spring from any book on vibrations.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive


def opening_suction(preload: float, throat_area: float) -> float:
    """Suction at which it leaves its seat, Pa: preload over the area of its throat.

    Raises
    ------
    OutsideValidity
        If the area is not above zero or the preload below it.

    Examples
    --------
    >>> round(opening_suction(0.5, 113.1e-6))
    4421
    """
    require_not_negative(preload=preload)
    require_positive(throat_area=throat_area)
    return preload / throat_area


def shutting_time(mass: float, rate: float, preload: float, lift: float) -> float:
    """Time from its stop to its seat under its spring alone, s: √(m/k) arccos(F₀/(F₀ + k L)).

    Raises
    ------
    OutsideValidity
        If mass, rate or lift is not above zero, or the preload below it.

    Examples
    --------
    Without preload it is a quarter of its own swing:

    >>> round(1e3 * shutting_time(6e-3, 150.0, 0.0, 3.5e-3), 3)
    9.935
    """
    require_positive(mass=mass, rate=rate, lift=lift)
    require_not_negative(preload=preload)
    return math.sqrt(mass / rate) * math.acos(preload / (preload + rate * lift))


def swing_frequency(mass: float, rate: float) -> float:
    """Frequency at which it swings on its spring, Hz: √(k/m)/2π.

    Examples
    --------
    >>> round(swing_frequency(6e-3, 150.0), 2)
    25.16
    """
    require_positive(mass=mass, rate=rate)
    return math.sqrt(rate / mass) / (2.0 * math.pi)


def gas_push(volume_rate: float, flow_area: float, throat_area: float, density: float) -> float:
    """Push of the gas on the open valve, N: ½ ρ (V̇/A)² on the area of its throat.

    Parameters
    ----------
    volume_rate
        Volume that the piston draws in, m³/s.
    flow_area
        Effective area of the valve there, coefficient included, m².
    throat_area
        On which the pressure that is lost acts, m².
    density
        Of the charge, kg/m³.

    Raises
    ------
    OutsideValidity
        If an area or density is not above zero.

    Examples
    --------
    >>> round(gas_push(3e-3, 60e-6, 113.1e-6, 1.2), 3)
    0.17
    """
    require_positive(flow_area=flow_area, throat_area=throat_area, density=density)
    return 0.5 * density * (volume_rate / flow_area) ** 2 * throat_area


def hovering_lift(
    preload: float, rate: float, volume_rate: float, edge: float, head_area: float, density: float
) -> float:
    """Lift at which gas and spring balance, m: ``½ ρ (V̇/(e x))² A = F₀ + k x``.

    The piston draws its volume through whatever gap there is; a narrower one costs more pressure,
    which opens it. Beyond the stop's lift it rests on the stop.

    Parameters
    ----------
    preload, rate
        Of the spring, N and N/m.
    volume_rate
        Volume that the piston draws in, m³/s.
    edge
        Width of the gap for its lift, m: circumference, slant of the seat and coefficient.
    head_area
        On which the pressure that is lost acts, m².
    density
        Of the charge, kg/m³.

    Raises
    ------
    OutsideValidity
        If anything but the preload is not above zero, or the preload below it.

    References
    ----------
    The steady balance of M. Costagliola, as above: plate, spring and gap as an orifice.

    Examples
    --------
    >>> round(1e3 * hovering_lift(0.0, 150.0, 1e-3, 24e-3, 160e-6, 1.2), 3)
    1.036
    """
    require_positive(
        rate=rate, volume_rate=volume_rate, edge=edge, head_area=head_area, density=density
    )
    require_not_negative(preload=preload)
    push = 0.5 * density * (volume_rate / edge) ** 2 * head_area  # N m²
    low, high = 0.0, math.cbrt(push / rate)  # without preload: the most
    for _ in range(60):
        middle = 0.5 * (low + high)
        if push > (preload + rate * middle) * middle**2:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def dance_frequency(mass: float, rate: float, preload: float, lift: float) -> float:
    """Frequency at which it swings about a lift where gas and spring balance, Hz.

    The gas pushes with ``(F₀ + k x)``, which falls as the square of the lift rises: with its slope,
    ``2 (F₀ + k x)/x``, it is a second spring beside the first. ``√((3 k + 2 F₀/x)/m)/2π``, for
    small swings; hops off the seat and on to the stop are up to a fifth slower or quicker.

    Raises
    ------
    OutsideValidity
        If mass, rate or lift is not above zero, or the preload below it.

    References
    ----------
    Linearised from the balance above.

    Examples
    --------
    >>> round(dance_frequency(6e-3, 150.0, 0.5, 1.15e-3), 1)
    74.6
    """
    require_positive(mass=mass, rate=rate, lift=lift)
    require_not_negative(preload=preload)
    return math.sqrt((3.0 * rate + 2.0 * preload / lift) / mass) / (2.0 * math.pi)
