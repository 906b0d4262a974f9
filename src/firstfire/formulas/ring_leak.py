"""What gets past piston rings as an area: an O-ring by its squeeze, a split ring by its gap.

An O-ring that presses all round leaves only what roughness keeps open, micrometres or less; where
piston and bore let it go slack on one side it leaves a crescent. A split ring leaks through its
gap, over the land's clearance.

References
----------
Film between rubber and a rough wall: B. N. J. Persson, *Phys. Rev. Lett.* 99 (2007) 125502, for
elastic contact (law and constants from memory). A gap is plain geometry. Neither counts oil, which
closes a film, nor the gas that presses the ring on.
"""

from __future__ import annotations

import math

from firstfire.formulas.leak import annular_area, in_series, ring_gap_area
from firstfire.formulas.oring_contact import peak_contact_pressure
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

_SHARE_OF_HEIGHT = 0.4
_STIFFNESS_OF_SLOPE = 0.5
_POISSON = 0.5
# Lindley's fit ends there; more squeeze closes no more.
_MOST_SQUEEZE = 0.35
_ROUND = 72


def rubber_film(pressure: float, modulus: float, height: float, wavelength: float) -> float:
    """Mean gap that roughness keeps open under rubber, m.

    u = 0.4 h ln(1 + 0.5 q h E'/p), with q = 2π/λ and E' = E/(1 - ν²).

    Parameters
    ----------
    pressure
        Of the rubber on the wall, p, Pa.
    modulus
        Young's modulus of the rubber, E, Pa.
    height, wavelength
        Root-mean-square height h and longest wavelength λ of the roughness, m.

    Raises
    ------
    OutsideValidity
        If one is not more than zero.

    Notes
    -----
    Persson's law, u = u₀ ln(βE'/p), holds for light contact; the 1 carries it on to full contact,
    where it falls as 1/p.

    Examples
    --------
    A turned and polished bore, and a printed one:

    >>> round(1e6 * rubber_film(1.2e6, 6.9e6, 0.5e-6, 0.1e-3), 3)
    0.023
    >>> round(1e6 * rubber_film(1.2e6, 6.9e6, 15e-6, 0.2e-3), 1)
    6.2
    """
    require_positive(pressure=pressure, modulus=modulus, height=height, wavelength=wavelength)
    stiff = modulus / (1 - _POISSON**2)
    reach = _STIFFNESS_OF_SLOPE * 2 * math.pi / wavelength * height * stiff
    return _SHARE_OF_HEIGHT * height * math.log1p(reach / pressure)


def oring_leak_area(
    bore: float,
    section: float,
    squeeze: float,
    modulus: float,
    *,
    height: float,
    wavelength: float,
    off_centre: float = 0.0,
    ovality: float = 0.0,
) -> float:
    """Area that one O-ring leaves open round its bore, m².

    Round the bore the squeeze rises and falls with the piston's side step; where it is more than
    nothing the film of `rubber_film` is left, where it is less, the gap itself.

    Parameters
    ----------
    bore, section
        m; the section as stretched on its groove.
    squeeze
        Of the section when the piston stands in the middle; negative where it doesn't touch.
    modulus
        Young's modulus of the rubber, Pa.
    height, wavelength
        As `rubber_film`.
    off_centre
        How far the piston stands to one side: half its clearance on diameter, m.
    ovality
        Largest less smallest diameter of the bore, m.

    Raises
    ------
    OutsideValidity
        If a size is wrong, or the squeeze is outside -1 to 1.

    Examples
    --------
    One ring of 2.62 mm, 10 % squeezed, in a smooth bore of 44 mm; the same with 2 % and a piston
    that rattles by 0.15 mm, mm²:

    >>> smooth = {"height": 0.5e-6, "wavelength": 0.1e-3}
    >>> round(1e6 * oring_leak_area(0.044, 2.6e-3, 0.10, 6.9e6, **smooth), 4)
    0.003
    >>> round(1e6 * oring_leak_area(0.044, 2.6e-3, 0.02, 6.9e6, off_centre=0.15e-3, **smooth), 1)
    3.5
    """
    require_positive(bore=bore, section=section)
    require_not_negative(off_centre=off_centre, ovality=ovality)
    require_within(-1.0, 1.0, because="it is a share of the section", squeeze=squeeze)
    area = 0.0
    for step in range(_ROUND):
        angle = 2 * math.pi * (step + 0.5) / _ROUND
        aside = off_centre * math.cos(angle) + ovality / 4 * math.cos(2 * angle)
        pressed = squeeze - aside / section
        # Hardly touching, it leaves no more than the heights of the roughness.
        gap = 3 * height + max(-pressed, 0.0) * section
        if pressed > 0.0:
            force = peak_contact_pressure(min(pressed, _MOST_SQUEEZE), modulus)
            gap = min(rubber_film(max(force, 1.0), modulus, height, wavelength), gap)
        area += annular_area(bore, gap) / _ROUND
    return area


def split_rings_leak_area(gap: float, land_clearance: float, count: int) -> float:
    """Area of the end gaps of rings in a row, m².

    Parameters
    ----------
    gap
        End gap, m.
    land_clearance
        Radial, piston land to bore, m.
    count
        Rings one behind the other.

    Raises
    ------
    OutsideValidity
        If a size is negative or there is no ring.

    Examples
    --------
    >>> round(1e6 * split_rings_leak_area(0.2e-3, 0.1e-3, 2), 4)
    0.0141
    """
    require_positive(count=count)
    return in_series(*[ring_gap_area(gap, land_clearance)] * count)
