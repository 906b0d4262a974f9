"""How tight a belt is, by the pitch of its plucked span or by how far a finger presses it in."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.formulas.validity import require_not_negative, require_positive, require_within

_CONCERT_PITCH = 440.0
_NAMES = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
_A_ABOVE_C0 = 57


class Note(NamedTuple):
    """A note of the equal-tempered scale.

    Attributes
    ----------
    name
        ``A4`` is the A above middle C.
    frequency
        Hz.
    cents
        How far the pitch asked for lies above it, hundredths of a semitone, -50 to 50.
    """

    name: str
    frequency: float
    cents: float


def span_length(small_diameter: float, large_diameter: float, centre_distance: float) -> float:
    """Free length of a belt between two pulleys, m: L = √(C² - ((D - d)/2)²).

    Parameters
    ----------
    small_diameter, large_diameter
        Pitch diameters d ≤ D, m.
    centre_distance
        Distance C of the axes, m.

    Raises
    ------
    OutsideValidity
        If the pulleys overlap.

    References
    ----------
    The common tangent of two circles.

    Examples
    --------
    >>> round(span_length(17.19e-3, 34.38e-3, 75e-3) * 1e3, 2)
    74.51
    """
    require_positive(small_diameter=small_diameter, large_diameter=large_diameter)
    require_within(
        (small_diameter + large_diameter) / 2,
        math.inf,
        because="closer, the pulleys overlap",
        centre_distance=centre_distance,
    )
    lean = (large_diameter - small_diameter) / 2
    return math.sqrt(centre_distance**2 - lean**2)


def plucked_pitch(tension: float, span: float, mass_per_length: float) -> float:
    """Pitch of a plucked span, Hz: f = √(T/m')/(2 L), that of a string.

    Parameters
    ----------
    tension
        Tension T of the span, N.
    span
        Its free length L, m.
    mass_per_length
        Of the belt m', kg/m.

    Raises
    ------
    OutsideValidity
        If length or mass is not above zero, or the tension negative.

    Notes
    -----
    A belt is stiff too and rings somewhat higher, the more so the shorter its span: below about
    20 times its thickness belt makers don't trust it.

    References
    ----------
    String of M. Mersenne; belt makers' sonic tension meters go by it.

    Examples
    --------
    A string of 0.65 m and 0.4 g/m under 73.5 N is the top one of a guitar, E4:

    >>> round(plucked_pitch(73.5, 0.65, 0.4e-3), 1)
    329.7
    """
    require_not_negative(tension=tension)
    require_positive(span=span, mass_per_length=mass_per_length)
    return math.sqrt(tension / mass_per_length) / (2 * span)


def pressed_in(tension: float, span: float, force: float) -> float:
    """How far a force at the middle of a span presses it in, m: y = F L/(4 T), while it is small.

    Parameters
    ----------
    tension, span
        T, N, and free length L, m.
    force
        F across the span, N, up to a third of the tension.

    Raises
    ------
    OutsideValidity
        If tension or span is not above zero, or the force beyond that: the belt is then stretched.

    References
    ----------
    Equilibrium of the middle, small angles.

    Examples
    --------
    >>> round(pressed_in(30.0, 74.5e-3, 3.0) * 1e3, 2)
    1.86
    """
    require_positive(tension=tension, span=span)
    require_within(
        0.0, tension / 3, because="harder, the belt itself is stretched", force_across=force
    )
    return force * span / (4 * tension)


def nearest_note(frequency: float) -> Note:
    """The note nearest to a pitch, with A4 at 440 Hz.

    Parameters
    ----------
    frequency
        Hz, above 16 to 16 000.

    Raises
    ------
    OutsideValidity
        If nobody would hear it.

    References
    ----------
    ISO 16:1975, standard tuning frequency; equal temperament.

    Examples
    --------
    >>> nearest_note(261.6)
    Note(name='C4', frequency=261.6255653005986, cents=-0.1691794967271676)
    """
    require_within(16.0, 16000.0, because="nobody hears it as a note", frequency=frequency)
    steps = 12 * math.log2(frequency / _CONCERT_PITCH)
    whole = round(steps)
    octave, place = divmod(whole + _A_ABOVE_C0, 12)
    exact = _CONCERT_PITCH * 2 ** (whole / 12)
    return Note(f"{_NAMES[place]}{octave}", exact, 100 * (steps - whole))
