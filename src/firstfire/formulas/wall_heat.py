"""Heat from cylinder gas to its walls: three published correlations.

All three come from metal engines of 0.3 litre a cylinder and more, most of them Diesel, and
differ by ±30 % and more at one state: the spread is to be carried, not averaged away. None
knows a small plastic cylinder. All hold for gas between about 0.3 and 150 bar and 250 and
3000 K; none raises, because each is called in every step (:mod:`math` only, no calls within).

References
----------
G. Woschni, SAE paper 670931, 1967; G. F. Hohenberg, SAE paper 790825, 1979;
W. J. D. Annand, *Proc. IMechE* 177, 1963, 973-996. Forms and constants as in J. B. Heywood,
*Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 12.4 (from memory, except
Woschni's two gas-speed constants).
"""

from __future__ import annotations

STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan-Boltzmann constant, W/(m² K⁴) (CODATA 2018)."""

WOSCHNI_GAS_EXCHANGE = (6.18, 0.0)
"""Woschni's constants c1 (-) and c2 (m/(s K)) while a valve is open."""

WOSCHNI_CLOSED = (2.28, 0.0)
"""The same while both valves are closed, before burning."""

WOSCHNI_BURNING = (2.28, 3.24e-3)
"""The same during burning and expansion."""


def woschni(bore: float, pressure: float, temperature: float, gas_speed: float) -> float:
    """Convective coefficient after Woschni, W/(m² K).

    ``h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8`` with p in kPa (Heywood Eq. 12.19). Another printed
    form has 130 with p in bar and T^-0.53, and gives about 17 % more; it is not used here.

    Parameters
    ----------
    bore
        Cylinder bore, m.
    pressure, temperature
        Of the cylinder gas, mass mean, Pa and K.
    gas_speed
        From :func:`woschni_gas_speed`, m/s, at least 0.

    Examples
    --------
    >>> round(woschni(0.050, 100e3, 400.0, 27.81), 1)
    125.2
    """
    return float(3.26 * bore**-0.2 * (1e-3 * pressure * gas_speed) ** 0.8 * temperature**-0.55)


def woschni_gas_speed(
    c1: float,
    c2: float,
    mean_piston_speed: float,
    displacement: float,
    reference_temperature: float,
    reference_pressure: float,
    reference_volume: float,
    pressure: float,
    motored_pressure: float,
) -> float:
    """Mean gas speed in Woschni's correlation, m/s (Heywood Eq. 12.37).

    ``w = c1 Sp + c2 Vd Tr (p - p_mot)/(pr Vr)``; a pressure below the motored one adds nothing
    (it would cool the wall by burning).

    Parameters
    ----------
    c1, c2
        ``WOSCHNI_GAS_EXCHANGE``, ``WOSCHNI_CLOSED`` or ``WOSCHNI_BURNING``; - and m/(s K).
    mean_piston_speed
        Twice the stroke times revolutions a second, m/s.
    displacement
        Swept volume, m³.
    reference_temperature, reference_pressure, reference_volume
        State of the charge at a moment of no burning, usually inlet closing; K, Pa, m³.
    pressure, motored_pressure
        Cylinder pressure now, and what it would be without burning, Pa.

    Examples
    --------
    >>> round(woschni_gas_speed(2.28, 3.24e-3, 4.5, 88.357e-6, 330.0, 100e3, 103.084e-6,
    ...                         2500e3, 900e3), 2)
    24.92
    """
    rise = max(pressure - motored_pressure, 0.0)
    per_pascal = displacement * reference_temperature / (reference_pressure * reference_volume)
    return c1 * mean_piston_speed + c2 * per_pascal * rise


def hohenberg(
    volume: float, pressure: float, temperature: float, mean_piston_speed: float
) -> float:
    """Convective coefficient after Hohenberg, W/(m² K).

    ``h = 130 V^-0.06 p^0.8 T^-0.4 (Sp + 1.4)^0.8`` with p in bar. Fitted to direct-injection
    Diesel engines; contains their radiation.

    Parameters
    ----------
    volume
        Of the cylinder at this moment, m³.
    pressure, temperature
        Of the cylinder gas, Pa and K.
    mean_piston_speed
        m/s.

    Examples
    --------
    >>> round(hohenberg(20e-6, 25e5, 2200.0, 4.5), 1)
    622.2
    """
    return float(
        130.0
        * volume**-0.06
        * (1e-5 * pressure * (mean_piston_speed + 1.4)) ** 0.8
        * temperature**-0.4
    )


def annand(
    bore: float,
    density: float,
    viscosity: float,
    conductivity: float,
    mean_piston_speed: float,
    intensity: float,
) -> float:
    """Convective coefficient after Annand, W/(m² K): ``a (k/B) Re^0.7``, ``Re = ρ Sp B/μ``.

    Parameters
    ----------
    bore
        m.
    density, viscosity, conductivity
        Of the cylinder gas, kg/m³, Pa s, W/(m K).
    mean_piston_speed
        m/s.
    intensity
        Annand's a, 0.35 (little motion) to 0.8 (much).

    Examples
    --------
    >>> round(annand(0.050, 3.9185, 7.0e-5, 0.13, 4.5, 0.49), 1)
    944.7
    """
    reynolds = density * mean_piston_speed * bore / viscosity
    return float(intensity * conductivity / bore * reynolds**0.7)


def annand_radiation(temperature: float, wall_temperature: float, fraction: float = 0.075) -> float:
    """Radiated flux after Annand, W/m²: ``c (T⁴ - Tw⁴)`` with c a fraction of a black body's.

    Parameters
    ----------
    temperature, wall_temperature
        Of the gas and of the wall, K.
    fraction
        0.075 for spark ignition from ignition on, 0 before it (about 0.6 in a Diesel).

    Examples
    --------
    >>> round(annand_radiation(2200.0, 450.0) / 1e3, 2)
    99.45
    """
    return fraction * STEFAN_BOLTZMANN * (temperature**4 - wall_temperature**4)
