"""Gas through an opening: isentropic nozzle flow with choking, smooth where pressures meet.

The textbook law has an infinite slope at equal pressures. Real openings are laminar there; so is
this one, within a narrow band of pressure ratio below 1, where the root is replaced by the odd
polynomial that meets it with equal value, slope and curvature. Outside the band it is the
textbook law. At most one power is evaluated a call: choking is told from the temperature ratio
at the throat, and close to a ratio of 1 a series serves.

Only :mod:`math` is used and :func:`mass_flow` calls nothing else, so that it can be compiled.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Appendix C,
Eq. C.8 (below choking) and C.9 (choked).
"""

from __future__ import annotations

import math

BAND = 5e-4
"""Usual width of the smooth band, as a drop of pressure over upstream pressure."""


def mass_flow(
    area: float,
    pressure_up: float,
    temperature_up: float,
    gas_constant: float,
    gamma: float,
    pressure_down: float,
    band: float = BAND,
) -> float:
    """Mass flow through an opening, kg/s; zero unless the upstream pressure is the higher.

    Parameters
    ----------
    area
        Effective area (area times discharge coefficient), m².
    pressure_up, temperature_up
        Stagnation pressure, Pa, and temperature, K, on the side the gas comes from.
    gas_constant, gamma
        Of the gas on that side, J/(kg K) and ratio of heats, 1.02 < gamma < 5/3.
    pressure_down
        Static pressure behind the opening, Pa.
    band
        Width of the smooth band as a pressure drop over the upstream pressure, 1e-9 to 0.01.
        A stepper may widen it with its step; with the usual width, flow with 1 bar upstream is
        the textbook's from 50 Pa drop upwards.

    Examples
    --------
    >>> round(mass_flow(1.0, 1e5, 300.0, 287.0, 1.4, 0.9e5), 3)
    144.015
    >>> mass_flow(1.0, 1e5, 300.0, 287.0, 1.4, 1.1e5)
    0.0
    """
    drop = 1.0 - pressure_down / pressure_up
    if drop <= 0.0:
        return 0.0
    if drop < 0.01:
        # Expansion of the law below in the drop; the first term left out is of fourth order.
        over_gamma = drop / gamma
        square = 2.0 * drop * (1.0 - 1.5 * over_gamma + (7.0 - 5.0 * gamma) / 6.0 * over_gamma**2)
        coefficient = math.sqrt(square)
        if drop < band:
            # The root of s becomes s (15 - 10 s + 3 s²)/8 for s = drop/band.
            part = drop / band
            coefficient *= math.sqrt(part) * (15.0 - part * (10.0 - 3.0 * part)) / 8.0
    else:
        ratio = pressure_down / pressure_up
        # Every gas with gamma below 5/3 is choked below a ratio of 0.487.
        choked = ratio < 0.487
        density_ratio: float = 1.0
        if not choked:
            density_ratio = ratio ** (1.0 / gamma)
            choked = ratio * (gamma + 1.0) <= 2.0 * density_ratio
        if choked:
            throat = 2.0 / (gamma + 1.0)
            coefficient = math.sqrt(gamma) * throat ** (0.5 * (gamma + 1.0) / (gamma - 1.0))
        else:
            coefficient = math.sqrt(
                2.0 * gamma / (gamma - 1.0) * density_ratio * (density_ratio - ratio)
            )
    return area * pressure_up / math.sqrt(gas_constant * temperature_up) * coefficient
