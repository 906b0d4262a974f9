"""Fuel on a port's wall: what lands there, how long it stays, how near to saturated air leaves it.

Aquino's model: a share X of the fuel lands in a film, which empties with a time constant τ,
``dm/dt = X ṁ − m/τ``; the engine gets ``(1 − X) ṁ + m/τ``. Both can be a fit of warm engines, or
follow from how fast vapour leaves a wet pipe: heat and mass go alike (Chilton and Colburn), so a
pipe's Sherwood number is its Nusselt number with Schmidt's in the place of Prandtl's.

References
----------
C. F. Aquino, SAE paper 810494, 1981. E. Hendricks and others, SAE paper 930856, 1993: fit of X and
τ (read in two programs that follow it, of a control study, and from memory). F. P. Incropera and
others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Wiley 2007, section 6.7, Eqs. 8.21, 8.57
and 8.62 (from memory). J. Crank, *The Mathematics of Diffusion*, 2nd ed., Oxford 1975, Eq. 5.23
(cylinder; from memory).
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive, require_within

ZEROS = (
    2.404825557695773,
    5.520078110286311,
    8.653727912911013,
    11.791534439014281,
    14.930917708487787,
    18.071063967910924,
    21.21163662987926,
    24.352471530749302,
    27.493479132040253,
    30.634606468431976,
)
"""Of Bessel's function J0."""
_LAMINAR, _TURBULENT = 2300.0, 4000.0
_AIR_VISCOSITY = 1.8e-5
_SHORT = 0.005
_ROOT_PI = math.sqrt(math.pi)


def after_pulse(
    film: float, fed: float, landing: float, time_constant: float, seconds: float
) -> tuple[float, float]:
    """Film after a cycle and what the cycle gets, kg: fuel that comes at once at its beginning.

    Exact: the film is ``(m + X m_inj) e^(−t/τ)`` after the time t.

    Parameters
    ----------
    film
        Before, kg.
    fed
        Fuel of this cycle, kg.
    landing
        Share X of it that lands on the wall.
    time_constant
        τ, s.
    seconds
        A cycle, s.

    Raises
    ------
    OutsideValidity
        For a share outside of 0 to 1, no time constant, or less than nothing.

    Examples
    --------
    >>> film, got = after_pulse(10.0, 1.0, 0.6, 1.0, 0.1)
    >>> round(film, 3), round(got, 3)
    (9.591, 1.409)
    """
    _possible(film, landing, time_constant, seconds)
    require_not_negative(fed=fed)
    gone = -(film + landing * fed) * math.expm1(-seconds / time_constant)
    after = max(film + landing * fed - gone, 0.0)
    return after, film + fed - after


def after_feed(
    film: float, feed: float, landing: float, time_constant: float, seconds: float
) -> tuple[float, float]:
    """Film after a time and what has left, kg: fuel that comes evenly.

    Exact: the film goes to ``X ṁ τ`` as ``e^(−t/τ)``.

    Parameters
    ----------
    film
        Before, kg.
    feed
        Fuel in a second, kg/s.
    landing, time_constant, seconds
        As of :func:`after_pulse`.

    Examples
    --------
    >>> film, got = after_feed(0.0, 1.0, 0.5, 2.0, 2.0)
    >>> round(film, 3), round(got, 3)
    (0.632, 1.368)
    """
    _possible(film, landing, time_constant, seconds)
    require_not_negative(feed=feed)
    settled = landing * feed * time_constant
    after = settled + (film - settled) * math.exp(-seconds / time_constant)
    return after, film + feed * seconds - after


def landing_share_warm(speed: float, pressure: float) -> float:
    """Share X of the fuel that lands on the wall of a warm engine's manifold.

    ``−0.277 p − 0.055 n + 0.68`` with bar and 1000 rpm; a 1.3 to 1.6-litre engine, injection into
    the throttle body or ports, warmed up. A cold engine's is more.

    Parameters
    ----------
    speed
        Of the crankshaft, rad/s; 800 to 6000 rpm.
    pressure
        In the manifold, Pa; 0.25 to 1 bar.

    Examples
    --------
    >>> round(landing_share_warm(209.44, 0.5e5), 3)
    0.431
    """
    thousand, bar = _fitted(speed, pressure)
    return -0.277 * bar - 0.055 * thousand + 0.68


def time_constant_warm(speed: float, pressure: float) -> float:
    """Time constant τ of the film in a warm engine's manifold, s.

    ``1.35 (1.68 − 0.672 n)(p − 0.825)² + (0.15 − 0.06 n) + 0.56``; as :func:`landing_share_warm`.

    Parameters
    ----------
    speed, pressure
        As of :func:`landing_share_warm`.

    Raises
    ------
    OutsideValidity
        Outside of those, and fast under deep vacuum, where it would be less than 0.1 s.

    Examples
    --------
    >>> round(time_constant_warm(209.44, 0.5e5), 3)
    0.638
    """
    thousand, bar = _fitted(speed, pressure)
    tau = 1.35 * (1.68 - 0.672 * thousand) * (bar - 0.825) ** 2 + (0.15 - 0.06 * thousand) + 0.56
    require_within(0.1, 2.0, because="the fit fails fast and throttled", time_constant=tau)
    return tau


def pipe_sherwood(reynolds: float, schmidt: float, length_to_diameter: float) -> float:
    """Mean Sherwood number of a wet pipe that air enters without vapour.

    Laminar ``3.66 + 0.0668 Gz/(1 + 0.04 Gz^⅔)`` with ``Gz = Re Sc d/L`` (Hausen); turbulent
    Gnielinski's law with ``1 + (d/L)^⅔`` for the entry; in a straight line between Re 2300 and
    4000.

    Parameters
    ----------
    reynolds
        On the diameter; up to 5e6.
    schmidt
        Of the vapour in air, 0.5 to 2000.
    length_to_diameter
        Of the wet length.

    Raises
    ------
    OutsideValidity
        Outside those ranges.

    Examples
    --------
    >>> round(pipe_sherwood(500.0, 1.8, 1e9), 2), round(pipe_sherwood(12_000.0, 1.8, 2.5), 1)
    (3.66, 83.3)
    """
    require_positive(reynolds=reynolds, length_to_diameter=length_to_diameter)
    require_within(0.5, 2000.0, because="laws were tried so far", schmidt=schmidt)
    require_within(0.0, 5e6, because="laws were tried so far", reynolds=reynolds)
    if reynolds <= _LAMINAR:
        return _laminar(reynolds, schmidt, length_to_diameter)
    if reynolds >= _TURBULENT:
        return _turbulent(reynolds, schmidt, length_to_diameter)
    slow = _laminar(_LAMINAR, schmidt, length_to_diameter)
    fast = _turbulent(_TURBULENT, schmidt, length_to_diameter)
    part = (reynolds - _LAMINAR) / (_TURBULENT - _LAMINAR)
    return slow + part * (fast - slow)


def flowing_contact(
    diameter: float, length: float, flow: float, diffusivity: float, viscosity: float
) -> float:
    """Share of the air through a wet pipe that comes to equilibrium with its film, 0 to 1.

    ``1 − e^−N`` with ``N = Sh D π L/Q`` transfer units: as if that share of the air were saturated
    and the rest had no vapour at all.

    Parameters
    ----------
    diameter, length
        Of the wet pipe, m.
    flow
        Of the air while it flows, m³/s.
    diffusivity, viscosity
        Of the vapour in air, and kinematic of the air, m²/s.

    Examples
    --------
    A 16 mm port 40 mm long, 2.2 litres a second: a small engine's intake stroke.

    >>> round(flowing_contact(16e-3, 40e-3, 2.2e-3, 8e-6, 15e-6), 3)
    0.037
    """
    require_positive(diameter=diameter, length=length, flow=flow)
    require_positive(diffusivity=diffusivity, viscosity=viscosity)
    reynolds = 4.0 * flow / (math.pi * diameter * viscosity)
    sherwood = pipe_sherwood(reynolds, viscosity / diffusivity, length / diameter)
    return -math.expm1(-sherwood * diffusivity * math.pi * length / flow)


def standing_contact(diameter: float, diffusivity: float, seconds: float) -> float:
    """Share of the air standing in a wet pipe that has come to equilibrium with its film, 0 to 1.

    Diffusion into a round rod, ``1 − Σ 4/j_n² e^(−j_n² Dt/R²)``.

    Parameters
    ----------
    diameter
        Of the pipe, m.
    diffusivity
        Of the vapour, m²/s.
    seconds
        That the air has stood, s.

    Examples
    --------
    While a small port is shut at cranking speed:

    >>> round(standing_contact(16e-3, 8e-6, 0.15), 2)
    0.29
    """
    require_positive(diameter=diameter, diffusivity=diffusivity)
    require_not_negative(seconds=seconds)
    spread = diffusivity * seconds / (0.5 * diameter) ** 2
    if spread < _SHORT:
        # the sum needs ever more terms; what goes in as if the wall were flat, and its curvature
        root = math.sqrt(spread)
        return float(4.0 * root / _ROOT_PI - spread - spread * root / (3.0 * _ROOT_PI))
    return 1.0 - sum(4.0 / zero**2 * math.exp(-(zero**2) * spread) for zero in ZEROS)


def film_time_constant(
    thickness: float, liquid_density: float, sherwood: float, diameter: float, carried: float,
    spalding: float,
) -> float:  # fmt: skip
    """Time constant of a film that evaporates from a pipe's wall, s.

    ``τ = ρ_l δ/(h_m ρ ln(1 + B))`` with ``h_m ρ = Sh ρD/d``: of a film that spreads or shrinks at
    one thickness, as Aquino's law has it. A film that thins out evenly is gone after τ.

    Parameters
    ----------
    thickness
        δ, m. Films in ports are 20 to 200 µm thick. Common practice, no source.
    liquid_density
        kg/m³.
    sherwood
        Mean over the time, of :func:`pipe_sherwood`.
    diameter
        Of the pipe, m.
    carried
        Density of the gas times the vapour's diffusivity, ρD, kg/(m s).
    spalding
        Spalding's number of its surface.

    Examples
    --------
    Hexane at 20 °C, 50 µm thick:

    >>> round(film_time_constant(50e-6, 659.0, 40.0, 16e-3, 1e-5, 0.58), 2)
    2.88
    """
    require_positive(thickness=thickness, liquid_density=liquid_density, sherwood=sherwood)
    require_positive(diameter=diameter, carried=carried, spalding=spalding)
    flux = sherwood * carried / diameter * math.log1p(spalding)
    return liquid_density * thickness / flux


def dragged(
    thickness: float, length: float, flow: float, diameter: float, air_density: float,
    liquid_viscosity: float, seconds: float,
) -> float:  # fmt: skip
    """Share of a film that the air drags out of a pipe's end as liquid.

    Couette flow under the air's shear ``τ_w = f/8 ρ u²``: the film's mean speed is
    ``τ_w δ/(2 μ_l)``; f of a smooth pipe, ``64/Re`` or Petukhov's, whichever is more.

    Parameters
    ----------
    thickness
        Of the film, m.
    length, diameter
        Of the wet pipe, m.
    flow
        Of the air while it flows, m³/s.
    air_density, liquid_viscosity
        kg/m³ and Pa s.
    seconds
        That it flows, s.

    Examples
    --------
    >>> round(dragged(50e-6, 40e-3, 2.2e-3, 16e-3, 1.2, 0.5e-3, 27e-3), 3)
    0.018
    """
    require_positive(thickness=thickness, length=length, diameter=diameter, flow=flow)
    require_positive(air_density=air_density, liquid_viscosity=liquid_viscosity)
    require_not_negative(seconds=seconds)
    speed = 4.0 * flow / (math.pi * diameter**2)
    reynolds = speed * diameter * air_density / _AIR_VISCOSITY
    friction = max(64.0 / reynolds, (0.790 * math.log(max(reynolds, 3000.0)) - 1.64) ** -2)
    shear = friction / 8.0 * air_density * speed**2
    return min(0.5 * shear * thickness / liquid_viscosity * seconds / length, 1.0)


def _possible(film: float, landing: float, time_constant: float, seconds: float) -> None:
    require_not_negative(film=film, seconds=seconds)
    require_positive(time_constant=time_constant)
    require_within(0.0, 1.0, because="it is a share", landing=landing)


def _fitted(speed: float, pressure: float) -> tuple[float, float]:
    """Thousands of rpm, and bar, within what was fitted."""
    thousand, bar = 30e-3 / math.pi * speed, 1e-5 * pressure
    require_within(0.8, 6.0, because="engines were tried so", thousand_rpm=thousand)
    require_within(0.25, 1.05, because="engines were tried so", manifold_bar=bar)
    return thousand, bar


def _laminar(reynolds: float, schmidt: float, length_to_diameter: float) -> float:
    graetz = reynolds * schmidt / length_to_diameter
    return float(3.66 + 0.0668 * graetz / (1.0 + 0.04 * graetz ** (2.0 / 3.0)))


def _turbulent(reynolds: float, schmidt: float, length_to_diameter: float) -> float:
    friction = (0.790 * math.log(reynolds) - 1.64) ** -2 / 8.0
    smooth = friction * (reynolds - 1000.0) * schmidt
    smooth /= 1.0 + 12.7 * math.sqrt(friction) * (schmidt ** (2.0 / 3.0) - 1.0)
    return float(smooth * (1.0 + length_to_diameter ** (-2.0 / 3.0)))
