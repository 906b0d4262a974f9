"""An injector: a valve that passes fuel at a steady rate between a dead time and its shutting.

It opens later than it shuts, so that a pulse gives ``m = ṁ (t − t_dead)``; by how much depends on
its voltage. Its flow goes with the square root of the pressure over it. Below some time the needle
has not come to rest before it is let go, and what it gives scatters.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 7.3 (from
memory); the offset and linear range are those that SAE J1832 measures (from memory).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

SPRAY = 0.8
"""Speed of a spray over what its pressure would give it. Common practice, no source."""


def mass_flow(volume_flow: float, told_at: float, pressure: float, densities: float) -> float:
    """Fuel through an injector held open, kg/s: ``q √(ρ_told ρ) √(Δp/Δp_told)``.

    Parameters
    ----------
    volume_flow, told_at
        Of the liquid it was told with, m³/s, and pressure over it then, Pa.
    pressure
        Over it now, Pa.
    densities
        Geometric mean of the densities of that liquid and of the fuel, kg/m³.

    Raises
    ------
    OutsideValidity
        For a pressure more than five times or less than a fifth of what it was told at.

    Examples
    --------
    A hundred cm³/min of petrol told at 3 bar, and what is left of it at 2.5 bar, g/s:

    >>> [round(1e3 * mass_flow(100e-6 / 60, 3e5, at, 745.0), 3) for at in (3e5, 2.5e5)]
    [1.242, 1.133]
    """
    require_positive(volume_flow=volume_flow, told_at=told_at, densities=densities)
    require_within(
        0.2 * told_at, 5.0 * told_at, because="it was told at another", pressure=pressure
    )
    return volume_flow * densities * math.sqrt(pressure / told_at)


def pulse(mass: float, flow: float, dead_time: float) -> float:
    """How long an injector is switched on for a mass of fuel, s.

    Parameters
    ----------
    mass
        kg; nothing takes no time.
    flow, dead_time
        kg/s held open, and s.

    Examples
    --------
    >>> round(1e6 * pulse(3e-6, 1.2e-3, 1.2e-3))
    3700
    """
    require_not_negative(mass=mass, dead_time=dead_time)
    require_positive(flow=flow)
    return mass / flow + dead_time if mass > 0.0 else 0.0


def mass_given(on: float, flow: float, dead_time: float) -> float:
    """Fuel of a pulse, kg; nothing up to its dead time.

    Parameters
    ----------
    on, flow, dead_time
        s, kg/s held open, and s.

    Examples
    --------
    >>> round(1e6 * mass_given(3.7e-3, 1.2e-3, 1.2e-3), 6), mass_given(1e-3, 1.2e-3, 1.2e-3)
    (3.0, 0.0)
    """
    require_not_negative(on=on, dead_time=dead_time)
    require_positive(flow=flow)
    return flow * max(on - dead_time, 0.0)


def flow_wanted(mass: float, seconds: float, dead_time: float) -> float:
    """Least flow with which a mass is in within a time, kg/s.

    Parameters
    ----------
    mass, seconds, dead_time
        kg; s that there is for it, dead time included.

    Raises
    ------
    OutsideValidity
        Where the dead time takes all of it.

    Examples
    --------
    >>> round(1e3 * flow_wanted(3e-6, 24e-3, 1.2e-3), 4)
    0.1316
    """
    require_positive(mass=mass, time_left_to_flow=seconds - dead_time)
    return mass / (seconds - dead_time)


def largest_flow(mass: float, smallest: float) -> float:
    """Largest flow with which a mass still takes as long as an injector repeats, kg/s.

    Parameters
    ----------
    mass, smallest
        kg, and the shortest time that it flows and repeats, s.

    Examples
    --------
    >>> round(1e3 * largest_flow(1.2e-6, 0.6e-3), 6)
    2.0
    """
    require_positive(mass=mass, smallest=smallest)
    return mass / smallest


def dead_time(voltage: float, told: Sequence[tuple[float, float]]) -> float:
    """Time by which an injector opens later than it shuts, s: straight between what was told.

    Parameters
    ----------
    voltage
        At it, V.
    told
        Pairs of voltage, V, and time, s, with rising voltage; one pair serves its voltage only.

    Raises
    ------
    OutsideValidity
        Outside of them: below, an injector may not open at all.

    Examples
    --------
    >>> round(1e3 * dead_time(11.0, [(10.0, 1.9e-3), (12.0, 1.3e-3)]), 6)
    1.6
    """
    volts = [row[0] for row in told]
    if not told or any(after <= before for before, after in itertools.pairwise(volts)):
        raise OutsideValidity("Dead times have at least one pair, and their voltages rise.")
    require_within(volts[0], volts[-1], because="dead times are told so far", voltage=voltage)
    for (low, slow), (high, quick) in itertools.pairwise(told):
        if voltage <= high:
            return slow + (quick - slow) * (voltage - low) / (high - low)
    return told[-1][1]


def spray_speed(pressure: float, density: float) -> float:
    """Speed at which a spray leaves, m/s: Bernoulli's, less :data:`SPRAY`.

    Parameters
    ----------
    pressure, density
        Over the injector, Pa, and of the fuel, kg/m³.

    Examples
    --------
    >>> round(spray_speed(3e5, 745.0), 1)
    22.7
    """
    require_positive(pressure=pressure, density=density)
    return SPRAY * math.sqrt(2.0 * pressure / density)


def regulator_for(wanted: float, flow: float, pressure: float) -> float:
    """Pressure over an injector at which it passes what is wanted, Pa: with the square of it.

    Parameters
    ----------
    wanted
        kg/s.
    flow, pressure
        What it passes at a pressure, kg/s and Pa.

    Examples
    --------
    >>> round(regulator_for(1.2e-3, 1e-3, 3e5) / 1e5, 2)
    4.32
    """
    require_positive(wanted=wanted, flow=flow, pressure=pressure)
    return pressure * (wanted / flow) ** 2
