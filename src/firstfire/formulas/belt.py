"""Toothed belts: size, length, teeth in mesh, torque, and the tension that stops jumping."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def pulley_pitch_diameter(teeth: float, pitch: float) -> float:
    """Pitch diameter of a toothed pulley, m: d = z P/π, outside its rim.

    Parameters
    ----------
    teeth
        Number z of teeth.
    pitch
        Tooth pitch P, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    ISO 5294; ISO 5296 for inch pitches.

    Examples
    --------
    >>> round(pulley_pitch_diameter(20, 2e-3) * 1e3, 3)
    12.732
    """
    require_positive(teeth=teeth, pitch=pitch)
    return teeth * pitch / math.pi


def belt_length(small_diameter: float, large_diameter: float, centre_distance: float) -> float:
    """Length of an open belt round two pulleys, m.

    L = 2C cos φ + π (D + d)/2 + φ (D - d), sin φ = (D - d)/2C

    Parameters
    ----------
    small_diameter, large_diameter
        Pitch diameters d ≤ D, m.
    centre_distance
        Distance C of the axes, m.

    Raises
    ------
    OutsideValidity
        If the pulleys overlap, or d is more than D.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 17-2.

    Examples
    --------
    >>> d, D = pulley_pitch_diameter(18, 3e-3), pulley_pitch_diameter(36, 3e-3)
    >>> round(belt_length(d, D, 75e-3) * 1e3, 2)
    231.99
    """
    tilt = _tilt(small_diameter, large_diameter, centre_distance)
    rims = math.pi * (large_diameter + small_diameter) / 2
    rims += tilt * (large_diameter - small_diameter)
    return 2 * centre_distance * math.cos(tilt) + rims


def wrap_on_small(small_diameter: float, large_diameter: float, centre_distance: float) -> float:
    """Angle over which the belt embraces the small pulley, rad: π - 2φ.

    Parameters
    ----------
    small_diameter, large_diameter, centre_distance
        As `belt_length`.

    Raises
    ------
    OutsideValidity
        As `belt_length`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 17-1.

    Examples
    --------
    >>> d, D = pulley_pitch_diameter(18, 3e-3), pulley_pitch_diameter(36, 3e-3)
    >>> round(math.degrees(wrap_on_small(d, D, 75e-3)), 1)
    166.8
    """
    return math.pi - 2 * _tilt(small_diameter, large_diameter, centre_distance)


def centre_distance_for(small_diameter: float, large_diameter: float, length: float) -> float:
    """Distance of the axes that suits a belt of a given length, m.

    Parameters
    ----------
    small_diameter, large_diameter
        Pitch diameters d ≤ D, m.
    length
        Pitch length of the belt, m.

    Raises
    ------
    OutsideValidity
        If the belt is too short for the pulleys.

    References
    ----------
    `belt_length`, turned round by halving.

    Examples
    --------
    >>> d, D = pulley_pitch_diameter(18, 3e-3), pulley_pitch_diameter(36, 3e-3)
    >>> round(centre_distance_for(d, D, 231.99e-3) * 1e3, 2)
    75.0
    """
    low, high = (small_diameter + large_diameter) / 2, length / 2
    require_within(
        belt_length(small_diameter, large_diameter, low),
        math.inf,
        because="a shorter belt does not go round both pulleys",
        belt_length=length,
    )
    for _ in range(60):
        middle = (low + high) / 2
        if belt_length(small_diameter, large_diameter, middle) < length:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def teeth_in_mesh(teeth: float, wrap: float) -> float:
    """Teeth of a pulley that the belt embraces: z × wrap/2π; at least 6 wanted.

    Parameters
    ----------
    teeth
        Number z of teeth of that pulley.
    wrap
        Angle of wrap, rad, above 0 to 2π.

    Raises
    ------
    OutsideValidity
        If the wrap is outside its range.

    References
    ----------
    Geometry; at least six: common practice of belt makers.

    Examples
    --------
    >>> round(teeth_in_mesh(18, math.radians(166.8)), 2)
    8.34
    """
    require_positive(teeth=teeth, wrap=wrap)
    require_within(0.0, 2 * math.pi, because="a belt goes round once", wrap=wrap)
    return teeth * wrap / (2 * math.pi)


def mesh_factor(meshing_teeth: float) -> float:
    """Share of the rated pull with few teeth in mesh: 1 from six, less 0.2 for each missing.

    Parameters
    ----------
    meshing_teeth
        `teeth_in_mesh`, 2 or more; a started tooth does not count.

    Raises
    ------
    OutsideValidity
        If fewer than two teeth mesh.

    References
    ----------
    Belt makers' handbooks and ISO 5295, from memory.

    Examples
    --------
    >>> mesh_factor(8.3), round(mesh_factor(4.9), 1)
    (1.0, 0.6)
    """
    require_within(2.0, math.inf, because="such a drive is not rated", teeth_in_mesh=meshing_teeth)
    return math.least(1.0, 1 - 0.2 * (6 - math.floor(meshing_teeth)))


def effective_pull(torque: float, pitch_diameter: float) -> float:
    """Difference of tension between the tight and the slack side, N: F = 2T/d.

    Parameters
    ----------
    torque, pitch_diameter
        Peak torque T, N·m, and pulley pitch diameter d, m.

    Raises
    ------
    OutsideValidity
        If the diameter is not above zero.

    References
    ----------
    Equilibrium.

    Examples
    --------
    >>> round(effective_pull(0.6, 17.19e-3), 1)
    69.8
    """
    require_positive(pitch_diameter=pitch_diameter)
    return 2 * abs(torque) / pitch_diameter


def _tilt(small: float, large: float, centre_distance: float) -> float:
    require_positive(small_diameter=small, centre_distance=centre_distance)
    require_not_negative(large_beyond_small=large - small)
    require_within(
        (small + large) / 2,
        math.inf,
        because="closer, the pulleys overlap",
        centre_distance=centre_distance,
    )
    return math.asin((large - small) / (2 * centre_distance))
