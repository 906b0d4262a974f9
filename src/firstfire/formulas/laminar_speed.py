"""Laminar burning velocity of fuel and air, by three published fits, each with its own dilution.

The fits disagree by up to 1.8 times near room conditions, so a number means something only with
the name of its fit. Which dilution goes with which: Metghalchi and Keck 1 - 2.1 f, Rhodes and
Keck 1 - 2.06 x^0.77, Gülder 1 - 2.3 f. All speeds are of the flame into still unburned gas, m/s;
none is negative. Pressure in Pa, temperature of the unburned gas in K, `phi` the fuel-air
equivalence ratio. None raises; :func:`laminar_speed_range` does.

References
----------
M. Metghalchi, J. C. Keck, *Combustion and Flame* 48, 1982, 191-210 (iso-octane, methanol) and 38,
1980, 143-154 (propane); D. B. Rhodes, J. C. Keck, SAE paper 850047, 1985; Ö. L. Gülder, SAE paper
841000, 1984. Constants as in J. B. Heywood, *Internal Combustion Engine Fundamentals*,
McGraw-Hill 1988, Table 9.3, Eq. 9.33 and 9.34 (from memory), and for Gülder from memory.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from firstfire.formulas.validity import require_within

ATMOSPHERE = 101_325.0
"""One standard atmosphere, Pa."""

ROOM = 300.0
"""Temperature at which a power law's own speed holds, K."""

# A pressed charge, where the powers of a mixture of fuels are taken, and the steps to its sides.
_HOT, _PRESSED, _ASIDE = 600.0, 10.0 * ATMOSPHERE, 1.25


class MetghalchiKeck(NamedTuple):
    """Constants of Metghalchi and Keck: speed ``best + bend (phi - phi_best)²`` at 298 K, 1 atm."""

    phi_best: float
    best: float  # m/s
    bend: float  # m/s


METGHALCHI_KECK_METHANOL = MetghalchiKeck(1.11, 0.369, -1.405)
METGHALCHI_KECK_PROPANE = MetghalchiKeck(1.08, 0.342, -1.387)
METGHALCHI_KECK_ISO_OCTANE = MetghalchiKeck(1.13, 0.263, -0.847)


class Gulder(NamedTuple):
    """Constants of Gülder: speed ``level phi^lean exp(-width (phi - 1.075)²)`` at 300 K, 1 atm."""

    level: float  # m/s
    lean: float
    width: float
    temperature_power: float
    pressure_power: float
    by_root_phi: float  # 1 where the power of pressure is divided by the root of phi


GULDER_ISO_OCTANE = Gulder(0.4658, -0.326, 4.48, 1.56, -0.22, 0.0)
GULDER_PROPANE = Gulder(0.446, 0.12, 4.95, 1.77, -0.20, 0.0)
GULDER_METHANOL = Gulder(0.492, 0.25, 5.11, 1.75, -0.17, 1.0)
GULDER_ETHANOL = Gulder(0.465, 0.25, 6.34, 1.75, -0.17, 1.0)


def metghalchi_keck(phi: float, temperature: float, pressure: float, fuel: MetghalchiKeck) -> float:
    """Laminar speed after Metghalchi and Keck, undiluted, m/s.

    Fitted for phi 0.8-1.5, 298-700 K, 0.4-50 atm; the fit is ±10 % of their data.

    Examples
    --------
    >>> round(metghalchi_keck(1.0, 600.0, 10e5, METGHALCHI_KECK_PROPANE), 4)
    1.0619
    """
    standard = max(fuel.best + fuel.bend * (phi - fuel.phi_best) ** 2, 0.0)
    warmer = (temperature / 298.0) ** (2.18 - 0.8 * (phi - 1.0))
    denser = (pressure / ATMOSPHERE) ** (-0.16 + 0.22 * (phi - 1.0))
    return float(standard * warmer * denser)


def metghalchi_keck_dilution(burned_fraction: float) -> float:
    """Factor on Metghalchi and Keck's speed for burned gas: ``1 - 2.1 f``; fitted to f = 0.2.

    `burned_fraction` is the authors' f, of diluent in the unburned mixture, by mass.

    Examples
    --------
    >>> round(metghalchi_keck_dilution(0.1), 3)
    0.79
    """
    return max(1.0 - 2.1 * burned_fraction, 0.0)


def rhodes_keck_petrol(phi: float, temperature: float, pressure: float) -> float:
    """Laminar speed of petrol (indolene) after Rhodes and Keck, undiluted, m/s.

    Fitted for phi 0.7-1.6, 350-550 K, 0.4-12 atm (range from memory).

    Examples
    --------
    >>> round(rhodes_keck_petrol(1.0, 600.0, 10e5), 4)
    0.7581
    """
    standard = max(0.305 - 0.549 * (phi - 1.21) ** 2, 0.0)
    warmer = (temperature / 298.0) ** (2.4 - 0.271 * phi**3.51)
    denser = (pressure / ATMOSPHERE) ** (-0.357 + 0.14 * phi**2.77)
    return float(standard * warmer * denser)


def rhodes_keck_dilution(burned_mole_fraction: float) -> float:
    """Factor on Rhodes and Keck's speed for burned gas: ``1 - 2.06 x^0.77``, zero from 0.391 up.

    Examples
    --------
    >>> round(rhodes_keck_dilution(0.1), 4)
    0.6502
    """
    return float(max(1.0 - 2.06 * max(burned_mole_fraction, 0.0) ** 0.77, 0.0))


def gulder(phi: float, temperature: float, pressure: float, fuel: Gulder) -> float:
    """Laminar speed after Gülder, undiluted, m/s.

    Fitted for phi about 0.7-1.4, 300-600 K, 1-8 atm (range from memory).

    Examples
    --------
    >>> round(gulder(1.0, 300.0, 1e5, GULDER_ISO_OCTANE), 4)
    0.4555
    """
    standard = fuel.level * phi**fuel.lean * math.exp(-fuel.width * (phi - 1.075) ** 2)
    power = fuel.pressure_power
    if fuel.by_root_phi > 0.5:
        power /= math.sqrt(phi)
    warmer = (temperature / 300.0) ** fuel.temperature_power
    return float(standard * warmer * (pressure / ATMOSPHERE) ** power)


def gulder_dilution(burned_fraction: float) -> float:
    """Factor on Gülder's speed for burned gas: ``1 - 2.3 f``; fitted to about f = 0.2.

    Examples
    --------
    >>> round(gulder_dilution(0.1), 3)
    0.77
    """
    return max(1.0 - 2.3 * burned_fraction, 0.0)


class PowerLaw(NamedTuple):
    """A fit at one mixture and dilution: ``speed (T/300 K)^temperature_power (p/1 atm)^...``."""

    speed: float  # m/s
    temperature_power: float
    pressure_power: float


def power_law(fit: Callable[[float, float, float], float], phi: float, dilution: float) -> PowerLaw:
    """The power law that a fit is at one mixture and dilution, for code that is compiled.

    Each of the fits above is such a law exactly, and so is what comes back. A mean of several
    (a mixture of fuels) is not quite: it is met at 600 K and 10 atm, and near there.

    Parameters
    ----------
    fit
        Undiluted speed, m/s, by phi, temperature of the unburned gas, K, and pressure, Pa.
    phi
        Equivalence ratio.
    dilution
        Factor of the fit's own dilution law.

    Returns
    -------
    PowerLaw
        All zeros where the mixture doesn't burn.

    Examples
    --------
    >>> law = power_law(rhodes_keck_petrol, 1.0, rhodes_keck_dilution(0.1))
    >>> round(law.speed, 4), round(law.temperature_power, 3), round(law.pressure_power, 3)
    (0.1852, 2.129, -0.217)
    """
    here = dilution * fit(phi, _HOT, _PRESSED)
    if here <= 0.0:
        return PowerLaw(0.0, 0.0, 0.0)
    hotter = dilution * fit(phi, _HOT * _ASIDE, _PRESSED)
    denser = dilution * fit(phi, _HOT, _PRESSED * _ASIDE)
    by_temperature = math.log(hotter / here) / math.log(_ASIDE)
    by_pressure = math.log(denser / here) / math.log(_ASIDE)
    at_room = (ROOM / _HOT) ** by_temperature * (ATMOSPHERE / _PRESSED) ** by_pressure
    return PowerLaw(here * at_room, by_temperature, by_pressure)


def power_law_speed(law: PowerLaw, temperature: float, pressure: float) -> float:
    """Laminar speed by a power law, m/s; temperature of the unburned gas in K, pressure in Pa.

    Examples
    --------
    >>> round(power_law_speed(PowerLaw(0.3, 2.0, -0.25), 600.0, 16 * ATMOSPHERE), 6)
    0.6
    """
    warmer = (temperature / ROOM) ** law.temperature_power
    return float(law.speed * warmer * (pressure / ATMOSPHERE) ** law.pressure_power)


def laminar_speed_range(
    phi: float, temperature: float, pressure: float, burned_fraction: float
) -> None:
    """Refuse a state beyond what the three fits together can be stretched to.

    Raises
    ------
    OutsideValidity
        Outside phi 0.6-1.6, 250-1000 K, 0.2-50 bar, burned gas 0-0.39.
    """
    require_within(0.6, 1.6, because="no fit of laminar speed reaches so far", phi=phi)
    require_within(
        250.0, 1000.0, because="no fit of laminar speed reaches so far", temperature=temperature
    )
    require_within(0.2e5, 50e5, because="no fit of laminar speed reaches so far", pressure=pressure)
    require_within(
        0.0, 0.39, because="a charge with so much burned gas does not burn", burned=burned_fraction
    )
