"""How loud a sampled sound is, and which notes it is made of.

References
----------
ISO 1683 (reference of levels, from memory). A. V. Oppenheim, R. W. Schafer, *Discrete-Time Signal
Processing*, 3rd ed. 2010, chapters 2 (Parseval) and 10 (Hann's window; from memory).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from firstfire.formulas.firing import CYCLE
from firstfire.formulas.hermite import Floats
from firstfire.formulas.validity import require_positive, require_within

HEARING = 20e-6
"""Pressure that levels are counted from, Pa: ISO 1683."""


class Sound(NamedTuple):
    """Sound pressure at one place, evenly sampled.

    Attributes
    ----------
    start
        When the first sample is heard, s on the clock of the mass flow.
    rate
        Samples a second, 1/s.
    pressure
        Above the pressure of the air, Pa, shape (samples,).
    """

    start: float
    rate: float
    pressure: Floats


def sound_level(pressure: Floats) -> float:
    """Level of a sound over all its frequencies alike, dB re 20 µPa.

    Parameters
    ----------
    pressure
        Evenly sampled, Pa.

    Raises
    ------
    OutsideValidity
        For silence, which has no level.

    Examples
    --------
    >>> round(sound_level(np.array([1.0, -1.0])), 2)
    93.98
    """
    root = float(np.sqrt(np.mean(np.square(pressure))))
    require_positive(sound_pressure=root)
    return 20.0 * math.log10(root / HEARING)


def firing_frequency(speed: float, cylinders: int = 1) -> float:
    """Firings a second of a four-stroke, Hz.

    Parameters
    ----------
    speed
        Of the crank, rad/s.
    cylinders
        That fire evenly into one exhaust; for an uneven order 1, since only the cycle returns.

    Examples
    --------
    >>> round(firing_frequency(3000 * math.pi / 30, 2), 6)
    50.0
    """
    return abs(speed) / CYCLE * cylinders


def tone_pressures(sound: Sound, frequency: float, count: int) -> Floats:
    """Root mean square pressure of a note and its overtones, Pa, (count,).

    Each is what a Hann window finds at its frequency, so the note must be steady and last for
    four periods or more.

    Parameters
    ----------
    sound
        Evenly sampled.
    frequency
        Of the first, Hz, such as :func:`firing_frequency`.
    count
        Of the row: the note itself, its double and so on.

    Raises
    ------
    OutsideValidity
        For fewer than four periods, or overtones beyond half the sample rate.

    Examples
    --------
    >>> at = np.arange(8000) / 8000
    >>> hum = Sound(0.0, 8000.0, 0.2 * np.sin(2 * np.pi * 50 * at))
    >>> tone_pressures(hum, 50.0, 2).round(4).tolist()
    [0.1414, 0.0]
    """
    size = len(sound.pressure)
    require_within(
        4.0, math.inf, because="a note needs its time", periods=size * frequency / sound.rate
    )
    require_within(
        0.0, 0.5, because="samples hold no higher note", share=count * frequency / sound.rate
    )
    window = 0.5 - 0.5 * np.cos(2.0 * np.pi * (np.arange(size) + 0.5) / size)
    waved = window * sound.pressure
    turns = -2j * np.pi * frequency / sound.rate * np.arange(size)
    found = [abs(np.dot(waved, np.exp(turns * order))) for order in range(1, count + 1)]
    roots: Floats = np.array(found) * (math.sqrt(2.0) / float(window.sum()))
    return roots


def spectrum(sound: Sound) -> tuple[Floats, Floats]:
    """Lines of a sound: their frequencies, Hz, and the mean square pressure of each, Pa².

    The mean squares of all lines add up to that of the samples (Parseval).

    Examples
    --------
    >>> at = np.arange(1000) / 1000
    >>> hum = Sound(0.0, 1000.0, 0.2 * np.sin(2 * np.pi * 50 * at))
    >>> lines, squares = spectrum(hum)
    >>> lines[np.argmax(squares)].item(), squares.max().round(6).item()
    (50.0, 0.02)
    """
    size = len(sound.pressure)
    power = np.abs(np.fft.rfft(sound.pressure)) ** 2 / size**2
    twice = np.full(len(power), 2.0)
    twice[0] = 1.0
    if size % 2 == 0:
        twice[-1] = 1.0
    lines: Floats = np.arange(len(power), dtype=np.float64) * (sound.rate / size)
    return lines, twice * power
