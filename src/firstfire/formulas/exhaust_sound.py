"""Sound of an exhaust from what it puffs out: its open end as one point of source.

``p(r, t) = 1/(4π r) · dṁ/dt`` at the time that the sound left, ``t - r/c``, with the mass of
outside air that is pushed away: of a hot gas more than its own (:func:`displaced_flow`). It holds
for an open end that is small beside the wave (ω a/c below about 1: 5 kHz of a pipe of 20 mm) and
a listener some diameters away or more. What whistles in the jet, what the walls radiate and what
waves within the pipe do to its flow is not in it.

References
----------
A. P. Dowling, J. E. Ffowcs Williams, *Sound and Sources of Sound*, Ellis Horwood 1983, chapter 2
(field of a point source; that the volume counts where the gas is lighter); M. J. Lighthill,
*Waves in Fluids*, Cambridge 1978, section 1.4; A. V. Oppenheim, R. W. Schafer, *Discrete-Time
Signal Processing*, 3rd ed. 2010, section 7.5 (windowed sinc). All from memory.
"""

from __future__ import annotations

import math

import numpy as np

from firstfire.errors import OutsideValidity
from firstfire.formulas.hermite import Floats, interpolated
from firstfire.formulas.sound_level import Sound
from firstfire.formulas.validity import require_positive, require_within

_FINER = 8
"""Steps of the fine grid a sample."""
_REACH = 32
"""Samples that the filter looks to either side."""
_CUT = 0.42
"""Its middle, as a share of the sample rate; it passes to 0.37 and stops from 0.47."""


def monopole_pressure(flow_rise: float, distance: float, reflection: float = 1.0) -> float:
    """Sound pressure where the mass flow rises by so much a second, Pa.

    Parameters
    ----------
    flow_rise
        Of the source as the sound left it, kg/s².
    distance
        m.
    reflection
        1 in the open; 2 where source and listener are close to hard ground.

    Raises
    ------
    OutsideValidity
        For no distance, or a reflection outside 1 to 2.

    Examples
    --------
    >>> round(monopole_pressure(10.0, 1.0), 4)
    0.7958
    """
    require_positive(distance=distance)
    require_within(1.0, 2.0, because="ground at most doubles a sound", reflection=reflection)
    return reflection * flow_rise / (4.0 * math.pi * distance)


def displaced_flow(mass_flow: Floats, temperature: Floats, air_temperature: float) -> Floats:
    """Mass flow of outside air that a gas pushes away, kg/s.

    Its volume flow times the density of that air, both gases at one pressure and with about one
    gas constant. What flows back in is taken as outside air.

    Parameters
    ----------
    mass_flow
        Out of the open end, kg/s, shape (rows,).
    temperature
        Of the gas that leaves it, K, (rows,).
    air_temperature
        Outside, K.

    Raises
    ------
    OutsideValidity
        For an outside without warmth.

    Examples
    --------
    >>> displaced_flow(np.array([2e-3, -1e-3]), np.array([900.0, 900.0]), 300.0).tolist()
    [0.006, -0.001]
    """
    require_positive(air_temperature=air_temperature)
    swollen: Floats = mass_flow * np.where(mass_flow > 0.0, temperature / air_temperature, 1.0)
    return swollen


def exhaust_sound(
    time: Floats,
    mass_flow: Floats,
    *,
    distance: float,
    rate: float,
    reflection: float = 1.0,
    speed_of_sound: float = 343.0,
) -> Sound:
    """Sound of a mass flow that is known at uneven steps, sampled evenly.

    The flow is joined by cubics, and taken to stay as it is before and after its record.
    Derived and freed of what the samples could not hold in one convolution: true within 0.1 %
    of its top to 0.35 of the sample rate, 60 dB down from 0.5 on. The filter has no delay.

    Parameters
    ----------
    time
        s, not falling, shape (rows,).
    mass_flow
        Of air pushed away at the open end, kg/s, (rows,).
    distance
        m.
    rate
        Samples a second, 1/s.
    reflection
        As :func:`monopole_pressure` has it.
    speed_of_sound
        In the air between, m/s.

    Raises
    ------
    OutsideValidity
        For a record shorter than a sample, or a distance, rate or reflection that can't be.

    Examples
    --------
    A flow that swells by 10 kg/s² is heard as a steady push, a metre off and 2.9 ms later:

    >>> t = np.array([0.0, 0.013, 0.1])
    >>> heard = exhaust_sound(t, 10.0 * t, distance=1.0, rate=8000.0)
    >>> round(heard.start, 4), heard.pressure[400].round(4).item()
    (0.0029, 0.7958)
    """
    require_positive(rate=rate, speed_of_sound=speed_of_sound)
    scale = monopole_pressure(1.0, distance, reflection)
    samples = math.floor((time[-1] - time[0]) * rate + 1e-9) + 1
    if samples < 2:
        raise OutsideValidity("A flow that lasts less than a sample has no sound.")
    apart = 1.0 / (rate * _FINER)
    reach = _REACH * _FINER
    at = time[0] + apart * np.arange(-reach, (samples - 1) * _FINER + reach + 1)
    flow = interpolated(np.clip(at, time[0], time[-1]), time, mass_flow, _slopes(time, mass_flow))
    rises = _convolved(flow, _rising_filter(apart, rate))[::_FINER]
    return Sound(float(time[0]) + distance / speed_of_sound, rate, scale * rises)


def _slopes(time: Floats, value: Floats) -> Floats:
    """Slope at each row, of the parabola through it and its neighbours."""
    if np.any(np.diff(time) <= 0.0):
        raise OutsideValidity("The time of a mass flow must rise from row to row.")
    slopes: Floats = np.gradient(value, time, edge_order=2 if len(time) > 2 else 1)
    return slopes


def _rising_filter(apart: float, rate: float) -> Floats:
    """Slope of a sinc in Blackman's window, such that an even rise comes out as its rise."""
    steps = np.arange(-_REACH * _FINER, _REACH * _FINER + 1)
    time, turn = apart * steps, math.pi * steps / (_REACH * _FINER)
    across = 2.0 * _CUT * rate * time
    sinc, window = np.sinc(across), 0.42 + 0.5 * np.cos(turn) + 0.08 * np.cos(2.0 * turn)
    falls = -(0.5 * np.sin(turn) + 0.16 * np.sin(2.0 * turn)) * math.pi / (_REACH / rate)
    with np.errstate(invalid="ignore"):
        leans = 2.0 * _CUT * rate * (np.cos(math.pi * across) - sinc) / across
    leans[steps == 0] = 0.0
    slope = window * leans + falls * sinc
    weights: Floats = slope / -np.sum(slope * time)
    return weights


def _convolved(signal: Floats, weights: Floats) -> Floats:
    """Where the weights lie wholly within the signal, by way of the spectrum."""
    length = 1 << (len(signal) + len(weights) - 2).bit_length()
    product = np.fft.rfft(signal, length) * np.fft.rfft(weights, length)
    whole: Floats = np.fft.irfft(product, length)
    return whole[len(weights) - 1 : len(signal)]
