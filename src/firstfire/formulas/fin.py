"""How much of a fin's face counts: straight and round fins of even thickness."""

from __future__ import annotations

import math

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_positive


def straight_efficiency(film: float, conductivity: float, thickness: float, length: float) -> float:
    """Efficiency of a straight fin: tanh(m L_c)/(m L_c), m = √(2h/(k t)), L_c = L + t/2.

    Parameters
    ----------
    film, conductivity
        h over its faces, W/(m² K), and its own conductivity k, W/(m K).
    thickness, length
        t and how far it stands out L, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Eq. 3.89.

    Examples
    --------
    >>> round(straight_efficiency(50.0, 186.0, 6e-3, 20e-3), 3)
    0.984
    """
    require_positive(film=film, conductivity=conductivity, thickness=thickness, length=length)
    slope = math.sqrt(2.0 * film / (conductivity * thickness)) * (length + 0.5 * thickness)
    return math.tanh(slope) / slope


def round_efficiency(
    film: float, conductivity: float, thickness: float, root: float, length: float
) -> float:
    """Efficiency of a round fin on a cylinder: tanh(m r φ)/(m r φ).

    φ = (R/r - 1)(1 + 0.35 ln(R/r)) with R = r + L + t/2; within a per cent of the exact
    solution in Bessel functions where the fin is better than a half.

    Parameters
    ----------
    film, conductivity
        h over its faces, W/(m² K), and its own conductivity k, W/(m K).
    thickness, length
        t and how far it stands out L, m.
    root
        Radius of the cylinder it stands on r, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    T. E. Schmidt, *Refrigerating Engineering* 57 (1949) 351-357 (from memory); exact form:
    *Incropera*, 6th ed., Eq. 3.91 and Example 3.10 (from memory).

    Examples
    --------
    A motorcycle's cylinder of 50 mm with fins of 6 × 20 mm; the book reads 0.95 off a chart.

    >>> round(round_efficiency(50.0, 186.0, 6e-3, 25e-3, 20e-3), 3)
    0.977
    """
    require_positive(
        film=film, conductivity=conductivity, thickness=thickness, root=root, length=length
    )
    ratio = (root + length + 0.5 * thickness) / root
    slope = math.sqrt(2.0 * film / (conductivity * thickness)) * root
    slope *= (ratio - 1.0) * (1.0 + 0.35 * math.log(ratio))
    return math.tanh(slope) / slope


def stream_coefficient(speed: float, length: float, pitch: float) -> float:
    """Film coefficient over the fins of a cylinder across a free stream, W/(m² K).

    h = 241.7 (0.0247 - 0.00148 L^0.8/p^0.4) u^0.73, L and p in mm, u in km/h.

    Parameters
    ----------
    speed
        Of the stream before it meets the cylinder u, m/s.
    length, pitch
        How far the fins stand out L and from one to the next p, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero; where fins stand so close that the law gives nothing.

    References
    ----------
    A. H. Gibson, *Proc. Institution of Automobile Engineers* 14 (1920) 243, in metric form as
    quoted by M. Yoshida and others, "Air-Cooling Effects of Fins on a Motorcycle Engine", *JSME
    International Journal* B 49 (2006) 869, Eq. 1.

    Examples
    --------
    >>> round(stream_coefficient(40 / 3.6, 30e-3, 10e-3), 1)
    56.2
    """
    require_positive(speed=speed, length=length, pitch=pitch)
    shape = 0.0247 - 0.00148 * float((1e3 * length) ** 0.8 / (1e3 * pitch) ** 0.4)
    if shape <= 0.003:
        raise OutsideValidity(
            "The law of a stream over finned cylinders ends where fins stand closer than about a "
            "fifteenth of their length: no air gets between them."
        )
    return 241.7 * shape * float((3.6 * speed) ** 0.73)


def rising_coefficient(
    rayleigh_number: float, gap: float, height: float, conductivity: float
) -> float:
    """Film coefficient of air that rises by itself between fins, W/(m² K).

    Nu = (576/(Ra S/H)² + 2.87/√(Ra S/H))^(-½), Nu and Ra on the gap S.

    Parameters
    ----------
    rayleigh_number
        Ra on the gap.
    gap, height
        Between two fins S and the way the air rises along them H, m.
    conductivity
        Of the air, W/(m K).

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    A. Bar-Cohen, W. M. Rohsenow, *J. Heat Transfer* 106 (1984) 116: channels of two faces at one
    temperature; *Incropera*, 6th ed., Eq. 9.47 and Table 9.3 (from memory).

    Examples
    --------
    >>> round(rising_coefficient(300.0, 6e-3, 0.1, 0.03), 2)
    3.19
    """
    require_positive(
        rayleigh_number=rayleigh_number, gap=gap, height=height, conductivity=conductivity
    )
    channel = rayleigh_number * gap / height
    nusselt = 1.0 / math.sqrt(576.0 / channel**2 + 2.87 / math.sqrt(channel))
    return nusselt * conductivity / gap
