"""Friction of metal engines, as mean effective pressure: the whole, and its parts one by one.

All constants are of oil-lubricated car engines with metal rings; the parts are ±20 % there. A
plastic engine with O-rings is another animal (:mod:`firstfire.formulas.oring_friction`,
:mod:`firstfire.formulas.bearing_friction`). Arguments in SI; the constants, fitted in mm, rpm and
kPa, are converted inside. All return Pa.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 13.6, after M. L.
Barnes-Moss, 1975; K. J. Patton, R. G. Nitschke, J. B. Heywood, SAE paper 890836, 1989 (constants
of both from memory).
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_within

_KILOPASCAL = 1e3


def barnes_moss(speed: float) -> float:
    """Total motored friction of four-cylinder car engines at full throttle, Pa.

    ``0.97 + 0.15 (n/1000) + 0.05 (n/1000)²`` bar. It contains pumping: not to be added to a
    computed pumping loop.

    Parameters
    ----------
    speed
        Crank speed, rad/s.

    Raises
    ------
    OutsideValidity
        Outside 500 to 7000 rpm.

    Examples
    --------
    >>> round(barnes_moss(100 * math.pi) / 1e5, 3)
    1.87
    """
    rpm = _rpm(speed)
    require_within(500.0, 7000.0, because="it was fitted to car engines", speed_in_rpm=rpm)
    thousands = 1e-3 * rpm
    return 1e5 * (0.97 + 0.15 * thousands + 0.05 * thousands**2)


def crankshaft_seals(journal: float, bore: float, stroke: float, cylinders: int = 1) -> float:
    """Patton's crankshaft seals: ``1.22e5 D_b/(B² S n)`` kPa (mm).

    Parameters
    ----------
    journal, bore, stroke
        Main journal diameter, bore and stroke, m.
    cylinders
        Number sharing the two seals.

    Examples
    --------
    >>> round(crankshaft_seals(0.025, 0.068, 0.045) / 1e3, 2)
    14.66
    """
    return _KILOPASCAL * 1.22e5 * 1e-6 * journal / (bore**2 * stroke * cylinders)


def journal_bearings(
    speed: float, journal: float, width: float, count: int, swept_per_bore: tuple[float, float]
) -> float:
    """Patton's group of plain journal bearings: ``3.03e-4 n D_b³ L_b n_b/(B² S n_c)`` kPa.

    Parameters
    ----------
    speed
        Crank speed, rad/s.
    journal, width
        Of each bearing of the group, m.
    count
        Bearings of the group over cylinders of the engine.
    swept_per_bore
        Bore and stroke, m.

    Examples
    --------
    >>> round(journal_bearings(120 * math.pi, 0.025, 0.015, 2, (0.068, 0.045)) / 1e3, 3)
    2.457
    """
    bore, stroke = swept_per_bore
    term = 3.03e-4 * _rpm(speed) * journal**3 * width * count / (bore**2 * stroke)
    # mm³ mm / (mm² mm) leaves mm.
    return _KILOPASCAL * 1e3 * term


def turbulent_dissipation(speed: float, journal: float, bearings_per_cylinder: float) -> float:
    """Patton's loss of oil pumped through the bearings: ``1.35e-10 D_b² n² n_b/n_c`` kPa.

    Examples
    --------
    >>> round(turbulent_dissipation(120 * math.pi, 0.025, 2) / 1e3, 3)
    2.187
    """
    return _KILOPASCAL * 1.35e-10 * 1e6 * journal**2 * _rpm(speed) ** 2 * bearings_per_cylinder


def piston_skirt(mean_piston_speed: float, bore: float) -> float:
    """Patton's piston skirt: ``294 S_p/B`` kPa (mm).

    Examples
    --------
    >>> round(piston_skirt(5.4, 0.068) / 1e3, 2)
    23.35
    """
    return _KILOPASCAL * 294.0 * 1e-3 * mean_piston_speed / bore


def piston_rings(speed: float, bore: float) -> float:
    """Patton's metal rings without gas load: ``4.06e4 (1 + 1000/n)/B²`` kPa (mm).

    Raises
    ------
    OutsideValidity
        Below 100 rpm, where the term grows without limit.

    Examples
    --------
    >>> round(piston_rings(120 * math.pi, 0.068) / 1e3, 2)
    11.22
    """
    rpm = _rpm(speed)
    require_within(100.0, 10_000.0, because="the ring term was fitted to engines", rpm=rpm)
    return _KILOPASCAL * 4.06e4 * 1e-6 * (1.0 + 1000.0 / rpm) / bore**2


def ring_gas_load(
    intake_pressure: float, ambient_pressure: float, compression_ratio: float, piston_speed: float
) -> float:
    """Patton's rings pressed by the gas, Pa.

    ``6.89 (p_i/p_a) [0.088 CR + 0.182 CR^(1.33 - 0.0238 S_p)]`` kPa.

    Examples
    --------
    >>> round(ring_gas_load(1e5, 1e5, 8.5, 5.4) / 1e3, 2)
    21.56
    """
    power = 1.33 - 0.0238 * piston_speed
    bracket = 0.088 * compression_ratio + 0.182 * compression_ratio**power
    return float(_KILOPASCAL * 6.89 * intake_pressure / ambient_pressure * bracket)


def _rpm(speed: float) -> float:
    return speed * 30.0 / math.pi
