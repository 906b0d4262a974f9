"""The voltage a spark gap asks for, and the least energy that lights a charge.

Flat electrodes and clean air: sharp or hot electrodes lower the demand, worn and fouled ones
raise it; against a real plug ±30 %.

References
----------
E. Kuffel, W. S. Zaengl, J. Kuffel, *High Voltage Engineering: Fundamentals*, 2nd ed., Newnes 2000,
breakdown in uniform fields (from memory); J. S. Townsend's criterion with the constants of air
15 /(cm Torr) and 365 V/(cm Torr).
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive, require_within

TORR = 101_325.0 / 760.0
"""One torr, Pa."""


def breakdown_voltage(gap: float, pressure: float, temperature: float) -> float:
    """Voltage at which air between flat electrodes breaks down, V.

    ``V = 24.22 kV d + 6.08 kV √d`` with d the gap in cm times the density of air relative to
    1 atm and 20 °C. Fitted to 0.05 cm and more; down to 0.013 cm it still agrees with
    :func:`townsend_voltage` within 5 %.

    Parameters
    ----------
    gap
        m.
    pressure, temperature
        Of the gas in the gap, Pa and K.

    Raises
    ------
    OutsideValidity
        If the gap at normal density would be outside 0.13 to 50 mm.

    Examples
    --------
    A 0.7 mm plug at 8 bar and 550 K:

    >>> round(breakdown_voltage(0.7e-3, 8e5, 550.0) / 1e3, 2)
    10.43
    """
    reduced = _reduced_gap_cm(gap, pressure, temperature)
    return 24.22e3 * reduced + 6.08e3 * math.sqrt(reduced)


def breakdown_voltage_rival(gap: float, pressure: float, temperature: float) -> float:
    """The same by a rival fit, 24.36 kV/(bar cm) and 6.72 kV/(bar cm)^½: about 6 % more.

    Examples
    --------
    >>> round(breakdown_voltage_rival(1e-3, 101_325.0, 293.15) / 1e3, 3)
    4.607
    """
    reduced = 1.01325 * _reduced_gap_cm(gap, pressure, temperature)
    return 24.36e3 * reduced + 6.72e3 * math.sqrt(reduced)


def widest_gap(voltage: float, pressure: float, temperature: float) -> float:
    """Gap that a voltage just breaks down, m: `breakdown_voltage` turned round.

    ``√x = (-b + √(b² + 4 a V))/2a`` with x the gap in cm at normal density.

    Parameters
    ----------
    voltage
        V.
    pressure, temperature
        Of the gas in the gap, Pa and K.

    Raises
    ------
    OutsideValidity
        If that gap at normal density would be outside 0.13 to 50 mm.

    Examples
    --------
    >>> round(1e3 * widest_gap(10.43e3, 8e5, 550.0), 3)
    0.7
    """
    require_positive(voltage=voltage, pressure=pressure, temperature=temperature)
    root = (-6.08e3 + math.sqrt(6.08e3**2 + 4.0 * 24.22e3 * voltage)) / (2.0 * 24.22e3)
    gap = 1e-2 * root**2 * (101_325.0 / pressure) * (temperature / 293.15)
    _reduced_gap_cm(gap, pressure, temperature)
    return gap


def townsend_voltage(pressure_times_gap: float, secondary_emission: float = 0.01) -> float:
    """Breakdown voltage of air by Townsend's criterion, V; the curve with Paschen's minimum.

    ``V = B pd/(ln(A pd) - ln ln(1 + 1/γ))``. The constants hold while the field over pressure
    is 100 to 800 V/(cm Torr), that is up to a few Torr cm.

    Parameters
    ----------
    pressure_times_gap
        Pa m, at room temperature.
    secondary_emission
        Electrons freed from the cathode per ion, γ.

    Raises
    ------
    OutsideValidity
        Left of the curve's vertical branch, where no voltage breaks the gap by this criterion,
        or beyond 12 Torr cm, where the constants fail.

    Examples
    --------
    >>> round(townsend_voltage(0.836e-2 * TORR), 1)
    305.3
    """
    product = 100.0 * pressure_times_gap / TORR
    branch = math.log(1.0 + 1.0 / secondary_emission) / 15.0
    require_within(
        branch * 1.0001,
        12.0,
        because="Townsend's constants for air hold in between",
        pressure_times_gap_in_torr_cm=product,
    )
    return 365.0 * product / math.log(product / branch)


def ignition_energy(energy_at_one_atmosphere: float, pressure: float) -> float:
    """Least spark energy that lights a still mixture at another pressure, J: falls as p^-2.

    At best mixture, room temperature and 1 atm: propane 0.25 mJ, methanol 0.14, ethanol 0.23 to
    0.65, petrol 0.2 to 0.3. A factor of two either way; gap, flow, residual and a mixture off
    its best ask for 10 to 100 times as much, which is why coils give tens of millijoules.

    Raises
    ------
    OutsideValidity
        Outside 0.2 to 5 bar; the square law was measured below 1 atm and is stretched above.

    References
    ----------
    A. J. Metzler, NACA RM E53H31, 1953 (power of pressure); B. Lewis, G. von Elbe, *Combustion,
    Flames and Explosions of Gases* (energies; from memory).

    Examples
    --------
    >>> round(1e3 * ignition_energy(0.25e-3, 50_662.5), 2)
    1.0
    """
    require_within(0.2e5, 5e5, because="the energy was measured near 1 bar", pressure=pressure)
    return energy_at_one_atmosphere * (101_325.0 / pressure) ** 2


def _reduced_gap_cm(gap: float, pressure: float, temperature: float) -> float:
    require_positive(gap=gap, pressure=pressure, temperature=temperature)
    reduced = 100.0 * gap * (pressure / 101_325.0) * (293.15 / temperature)
    require_within(
        0.013,
        5.0,
        because="the breakdown formula was fitted in between",
        gap_in_cm_at_normal_density=reduced,
    )
    return reduced
