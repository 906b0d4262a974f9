"""Whether a spark lights a charge: energy, gap, and whether the flame then lives.

Everything goes by the flame's thickness δ = α/S_L. A ball of hot gas must grow to some 10 δ before
its flame outruns its loss; two plates nearer than some 40 δ put a flame out; and turbulence tears
a flame apart that is too thick and too slow for it.

Two theories of the least energy stand side by side, one as a hot ball of the critical diameter,
one as the heat of a flame over a patch as wide as the plates' distance. At one state the second
asks for 3.06 times the first, and of methane, ethane, ethylene, propane, methanol and hydrogen
(stoichiometric in air, room conditions) the measured energies lie from one to the other:
1.5 to 2.9 times the first, 0.5 to 1.0 of the second. Distances of plates are met within 40 %.

Both are for a gap wide enough, for a spark that is short, and for fuel and oxygen that diffuse
alike: heavy fuels light easiest rich of stoichiometric, which neither knows. How the need rises
in a gap narrower than the plates' distance is not published as a law; two bounds are given.

A small petrol engine at its spark, cranked: 6 bar, 500 K, a tenth of burned gas, 0.3 m/s of
turbulence, flame of 0.35 m/s, 0.6 mm gap, spark of 2 mJ in the gas. The plates' distance is wider
than the gap: wide electrodes would put it out. A thin one has ten times what the dearer asks:

>>> density = 6e5 / (287.0 * 500.0)
>>> flame = flame_thickness(thermal_diffusivity(500.0, density), 0.35)
>>> round(1e3 * quenching_distance(flame), 2), round(1e3 * critical_diameter(flame, 0.86), 2)
(1.0, 0.29)
>>> heat = density * 1050.0 * 1800.0
>>> least = kernel_energy(heat, critical_diameter(flame, 0.86))
>>> most = flame_energy(heat, flame, quenching_distance(flame))
>>> round(1e3 * least, 2), round(1e3 * most, 2)
(0.1, 0.2)

References
----------
D. R. Ballal, A. H. Lefebvre, *Proc. R. Soc. Lond. A* 357, 1977, 163-181, and 18th Symposium
(International) on Combustion, 1981, 1737-1746; A. H. Lefebvre, *Gas Turbine Combustion*, chapter
on ignition (from memory). F. A. Williams, *Combustion Theory*, 2nd ed. 1985, section 8.1, Eqs. 3
and 4, after B. Lewis and G. von Elbe (read). R. G. Abdel-Gayed, D. Bradley, *Combustion and Flame*
62, 1985, 61-68 (from memory). C. R. Ferguson, J. C. Keck, *Combustion and Flame* 28, 1977, 197-205
(from memory). R. Maly, M. Vogel, 17th Symposium, 1979, 821-831, as in J. B. Heywood, *Internal
Combustion Engine Fundamentals*, McGraw-Hill 1988, section 9.5.1 and Table 9.5 (from memory).
"""

from __future__ import annotations

import math

from firstfire.formulas import gas_transport
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

PRANDTL = 0.70
"""Of air and fresh charge."""

TWO_PLATES = 40.0
"""Peclet number at which two parallel plates put a flame out (Williams, "approximately 40")."""

HEAD_ON = 8.0
"""Peclet number of a flame that runs head on into one wall (Ferguson and Keck: a fifth of that
of two plates); later computed flames come nearer, 3 to 4 (C. K. Westbrook and others, 1981;
T. Poinsot and others, 1993). All from memory."""

BREAKDOWN, GLOW_LEAST, GLOW_MOST = 0.94, 0.10, 0.30
"""Part of a spark's energy that reaches the gas: of its breakdown; of its glow in an engine's
plug, least and most (the most under ideal conditions: the rest heats electrodes)."""

STRONGEST_STRETCH = 1.5
"""Karlovitz number times Lewis number at which turbulence puts a flame out (Abdel-Gayed and
Bradley)."""


def thermal_diffusivity(temperature: float, density: float) -> float:
    """Thermal diffusivity of fresh charge, m²/s: viscosity over Prandtl number and density.

    As air's, within 10 % of hydrocarbons' mixtures with air, 300 to 900 K.

    Examples
    --------
    >>> round(1e6 * thermal_diffusivity(300.0, 1.18), 2)
    21.65
    """
    require_positive(temperature=temperature, density=density)
    return gas_transport.viscosity(temperature) / (PRANDTL * density)


def flame_thickness(diffusivity: float, laminar_speed: float) -> float:
    """Thickness of a laminar flame, δ = α/S_L, m; infinite where nothing burns.

    Parameters
    ----------
    diffusivity
        Thermal, of the unburned gas, m²/s.
    laminar_speed
        m/s.

    Examples
    --------
    >>> round(1e6 * flame_thickness(2.05e-5, 0.41), 3)
    50.0
    """
    require_positive(diffusivity=diffusivity)
    require_not_negative(laminar_speed=laminar_speed)
    return diffusivity / laminar_speed if laminar_speed > 0.0 else math.inf


def quenching_distance(thickness: float, peclet: float = TWO_PLATES) -> float:
    """Distance at which cold walls put a flame out, m.

    With :data:`TWO_PLATES` that between two parallel walls, as of wide electrodes or a crevice:
    a gap of wide flat electrodes below it lights nothing, however strong the spark, and thin
    electrodes ask for more energy. With :data:`HEAD_ON` the layer that one wall leaves unburned.

    Examples
    --------
    >>> round(1e3 * quenching_distance(50e-6), 3)
    2.0
    """
    require_positive(thickness=thickness, peclet=peclet)
    return peclet * thickness


def least_speed_between_walls(diffusivity: float, distance: float) -> float:
    """Slowest laminar flame that lives between two walls, m/s.

    Parameters
    ----------
    diffusivity
        Thermal, of the unburned gas, m²/s.
    distance
        Between the walls, such as head and piston, m.

    Examples
    --------
    >>> round(100 * least_speed_between_walls(8.6e-6, 11.5e-3), 2)
    2.99
    """
    require_positive(diffusivity=diffusivity, distance=distance)
    return TWO_PLATES * diffusivity / distance


def critical_diameter(thickness: float, intensity_over_laminar: float = 0.0) -> float:
    """Diameter from which a ball of flame grows by itself, m: ``10 α/(S_L - 0.16 u')``.

    A gap narrower than this lights nothing at all.

    Parameters
    ----------
    thickness
        Of the flame, m.
    intensity_over_laminar
        Turbulence intensity over laminar speed, u'/S_L.

    Raises
    ------
    OutsideValidity
        Above 2 intensities to a laminar speed. Ballal and Lefebvre have another law there, by the
        turbulent burning velocity; whether the flame lives at all is :func:`stretch`'s matter.

    Examples
    --------
    >>> round(1e3 * critical_diameter(50e-6), 3), round(1e3 * critical_diameter(50e-6, 2.0), 3)
    (0.5, 0.735)
    """
    require_positive(thickness=thickness)
    require_within(
        0.0,
        2.0,
        because="the law is that of weak turbulence",
        intensity_over_laminar_speed=intensity_over_laminar,
    )
    return 10.0 * thickness / (1.0 - 0.16 * intensity_over_laminar)


def kernel_energy(heat: float, diameter: float) -> float:
    """Least energy that lights, as heat in a ball of the critical diameter, J: the lower theory.

    Parameters
    ----------
    heat
        ``ρ cp (T_b - T_u)`` of the unburned gas, J/m³; T_b the adiabatic flame's.
    diameter
        Of :func:`critical_diameter`, m.

    Examples
    --------
    Propane, stoichiometric, 25 °C, 1 atm: 0.13 mJ, against 0.305 measured.

    >>> round(1e3 * kernel_energy(1.204 * 1050.0 * 1968.0, 0.467e-3), 3)
    0.133
    """
    require_positive(heat=heat, diameter=diameter)
    return math.pi / 6.0 * heat * diameter**3


def flame_energy(heat: float, thickness: float, distance: float) -> float:
    """Least energy that lights, as heat in a flame's patch, J: the upper theory.

    ``d² λ (T_b - T_u)/S_L``, a square as wide as the distance of quenching plates.

    Parameters
    ----------
    heat
        As of :func:`kernel_energy`, J/m³.
    thickness
        Of the flame, m.
    distance
        Of :func:`quenching_distance`, m.

    Examples
    --------
    >>> round(1e3 * flame_energy(1.204 * 1050.0 * 1968.0, 46.7e-6, 1.87e-3), 3)
    0.406
    """
    require_positive(heat=heat, thickness=thickness, distance=distance)
    return heat * thickness * distance**2


def energy_into_gas(
    coil_energy: float, breakdown_voltage: float, capacitance: float, glow_part: float
) -> float:
    """Energy of a spark that reaches the gas, J; none where the coil can't break the gap.

    The plug's and lead's capacity gives its charge at once, nearly all into the gas; what is left
    in the coil glows for a millisecond or two. A kernel lives or dies within a tenth of that, so
    of a long glow less counts.

    Parameters
    ----------
    coil_energy
        That the coil sends to the plug, J.
    breakdown_voltage
        Of the gap, V (:func:`firstfire.formulas.spark_gap.breakdown_voltage`).
    capacitance
        Of plug and lead, F; 10 to 50 pF.
    glow_part
        Part of the glow that reaches the gas, :data:`GLOW_LEAST` to :data:`GLOW_MOST`.

    Examples
    --------
    A coil of 40 mJ, 10 kV and 20 pF:

    >>> round(1e3 * energy_into_gas(40e-3, 10e3, 20e-12, GLOW_LEAST), 2)
    4.84
    """
    require_not_negative(coil_energy=coil_energy, breakdown_voltage=breakdown_voltage)
    require_positive(capacitance=capacitance)
    require_within(0.0, 1.0, because="it is a part of a whole", glow_part=glow_part)
    at_once = 0.5 * capacitance * breakdown_voltage**2
    if at_once > coil_energy:
        return 0.0
    return BREAKDOWN * at_once + glow_part * (coil_energy - at_once)


def stretch(intensity: float, laminar_speed: float, length: float, viscosity: float) -> float:
    """How hard turbulence tears at a flame, Karlovitz number: ``0.157 (u'/S_L)² Re^-½``.

    With ``Re = u' L/ν``. Times the Lewis number of the scarcer of fuel and oxygen it puts flames
    out from :data:`STRONGEST_STRETCH` up. Infinite where nothing burns.

    Parameters
    ----------
    intensity, length
        Of the turbulence, m/s, and its integral scale, m.
    laminar_speed
        m/s.
    viscosity
        Kinematic, of the unburned gas, m²/s.

    Examples
    --------
    >>> round(stretch(2.0, 0.5, 2e-3, 6.25e-6), 4)
    0.0993
    """
    require_positive(length=length, viscosity=viscosity)
    require_not_negative(intensity=intensity, laminar_speed=laminar_speed)
    if intensity == 0.0:
        return 0.0
    if laminar_speed == 0.0:
        return math.inf
    ratio = intensity / laminar_speed
    return 0.157 * ratio**2 / math.sqrt(intensity * length / viscosity)
