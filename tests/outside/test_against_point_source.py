"""Sound of an exhaust against the field of a point source.

Sources: Dowling & Ffowcs Williams, *Sound and Sources of Sound*, chapter 2 (from memory): a mass
flow m sin ωt gives p = ω m cos(ω(t - r/c))/(4π r), so ω m/(4π r √2) root mean square. ISO 1683:
94 dB is 1 Pa (93.98). Derivatives of a smooth puff by hand; the filter by `scipy.signal`.
Tolerances: the filter's 0.1 % in band.
"""

import math

import numpy as np
import pytest
from scipy import signal
from scipy.interpolate import CubicSpline

from firstfire.errors import OutsideValidity
from firstfire.formulas import exhaust_sound as sound
from firstfire.formulas import sound_level

RATE = 8000.0


def uneven(lasts, count, seed=1):
    """Steps as a stepper takes them: short and long by turns, four to one."""
    steps = np.random.default_rng(seed).uniform(0.4, 1.6, count)
    time = np.concatenate([[0.0], np.cumsum(steps)])
    return lasts * time / time[-1]


def hum(frequency, amplitude=2e-3, *, distance=1.0, lasts=0.5, rate=RATE, **more):
    time = uneven(lasts, round(lasts * 100e3))
    flow = 5e-3 + amplitude * np.sin(2 * np.pi * frequency * time)
    return sound.exhaust_sound(time, flow, distance=distance, rate=rate, **more)


def inner(heard):
    return heard.pressure[100:-100]


@pytest.mark.parametrize("frequency", [25.0, 400.0, 1900.0, 2800.0])
@pytest.mark.parametrize("distance", [1.0, 7.5])
def test_a_sinusoidal_flow_is_a_sinusoidal_sound(frequency, distance):
    heard = hum(frequency, distance=distance)
    when = heard.start + np.arange(len(heard.pressure)) / heard.rate
    omega = 2 * np.pi * frequency
    exact = omega * 2e-3 / (4 * np.pi * distance) * np.cos(omega * (when - distance / 343.0))
    off = inner(heard) - exact[100:-100]
    assert np.abs(off).max() < 2e-3 * np.abs(exact).max()
    root = np.sqrt(np.mean(exact**2))
    assert sound_level.sound_level(exact) == pytest.approx(20 * math.log10(root / 20e-6))


def test_root_mean_square_over_whole_periods():
    heard = hum(200.0)
    whole = heard.pressure[400 : 400 + 40 * 50]
    wanted = 2 * np.pi * 200 * 2e-3 / (4 * np.pi * math.sqrt(2))
    assert np.sqrt(np.mean(whole**2)) == pytest.approx(wanted, rel=1e-3)


def test_six_decibels_fewer_at_twice_the_distance_and_more_by_hard_ground():
    near, far = hum(300.0), hum(300.0, distance=2.0)
    fall = sound_level.sound_level(near.pressure) - sound_level.sound_level(far.pressure)
    assert fall == pytest.approx(6.0206, abs=1e-3)
    assert far.start - near.start == pytest.approx(1 / 343.0)
    assert hum(300.0, speed_of_sound=331.0).start == pytest.approx(1 / 331.0)
    ground = hum(300.0, reflection=2.0)
    assert ground.pressure == pytest.approx(2 * near.pressure)


def test_one_pascal_is_94_decibels():
    assert sound_level.sound_level(np.ones(10)) == pytest.approx(93.979, abs=1e-3)
    assert sound_level.sound_level(np.full(7, 20e-6)) == pytest.approx(0.0, abs=1e-12)
    with pytest.raises(OutsideValidity):
        sound_level.sound_level(np.zeros(10))


def test_a_puff_is_heard_as_its_slope():
    # A bell of 2 ms: at 48 kHz nothing of it is filtered away.
    time = uneven(0.1, 4000)
    bell = 3e-3 * np.exp(-(((time - 0.05) / 2e-3) ** 2))
    heard = sound.exhaust_sound(time, bell, distance=3.0, rate=48e3)
    left = heard.start + np.arange(len(heard.pressure)) / 48e3 - 3.0 / 343.0 - 0.05
    slope = -2 * left / 2e-3**2 * 3e-3 * np.exp(-((left / 2e-3) ** 2))
    exact = slope / (4 * np.pi * 3.0)
    assert heard.pressure == pytest.approx(exact, abs=2e-3 * exact.max())
    # What is pushed is pulled again: the flow ends where it began.
    assert heard.pressure.sum() == pytest.approx(0.0, abs=1e-6 * np.abs(heard.pressure).sum())


def test_hot_gas_pushes_away_as_much_air_as_fills_its_room():
    # 1 g/s at 1 bar and 900 K takes R T/p = 2.583 m³/kg: 2.583 l/s; air of 300 K: 1.1614 kg/m³.
    pushed = sound.displaced_flow(np.array([1e-3, -1e-3, 0.0]), np.full(3, 900.0), 300.0)
    assert pushed == pytest.approx([2.583e-3 * 1.1614, -1e-3, 0.0], rel=1e-3)


def test_a_steady_flow_makes_no_sound():
    heard = sound.exhaust_sound(uneven(0.2, 300), np.full(301, 0.02), distance=1.0, rate=RATE)
    assert np.abs(heard.pressure).max() < 1e-9


@pytest.mark.parametrize("frequency", [4100.0, 5200.0, 7900.0])
def test_what_samples_cannot_hold_is_gone(frequency):
    loud = 2 * np.pi * frequency * 2e-3 / (4 * np.pi)
    assert np.abs(inner(hum(frequency))).max() < 1e-3 * loud


def test_the_filter_is_a_differentiator_by_scipys_reckoning():
    apart = 1 / (8 * RATE)
    weights = sound._rising_filter(apart, RATE)
    frequency, response = signal.freqz(weights, worN=4096, fs=8 * RATE)
    inside = frequency < 0.35 * RATE
    # The filter's middle is its time zero, so its response is iω but for half its length.
    middle = np.exp(2j * np.pi * frequency * apart * (len(weights) // 2))
    ideal = 2j * np.pi * frequency
    assert np.abs(response * middle - ideal)[inside].max() < 1e-3 * 2 * np.pi * 0.35 * RATE
    gone = frequency > 0.5 * RATE
    assert np.abs(response)[gone].max() < 1e-3 * 2 * np.pi * 0.5 * RATE


def test_the_filter_is_the_slope_of_scipys_windowed_sinc():
    apart = 1 / (8 * RATE)
    weights = sound._rising_filter(apart, RATE)
    time = apart * np.arange(-256, 257)
    shape = 0.84 * RATE * np.sinc(0.84 * RATE * time) * signal.windows.blackman(513)
    slope = CubicSpline(time, shape).derivative()(time) * apart
    # A spline's own slope at this step is good to 3e-4 of its top.
    assert weights == pytest.approx(slope, abs=3e-4 * slope.max())


@pytest.mark.parametrize("size", [4000, 4001])
def test_mean_squares_of_all_lines_are_that_of_the_samples(size):
    heard = sound_level.Sound(0.0, RATE, np.random.default_rng(3).normal(0.1, 2.0, size))
    frequency, squares = sound_level.spectrum(heard)
    assert squares.sum() == pytest.approx(np.mean(heard.pressure**2))
    theirs = signal.periodogram(heard.pressure, RATE, detrend=False, scaling="spectrum")
    assert frequency == pytest.approx(theirs[0])
    assert squares == pytest.approx(theirs[1])


def test_the_firing_note_stands_out():
    # 2400 rpm, one cylinder: a puff every 50 ms, 20 Hz and its overtones, falling as a bell's do.
    speed = 2400 * math.pi / 30
    assert sound_level.firing_frequency(speed) == pytest.approx(20.0)
    assert sound_level.firing_frequency(-speed, 2) == pytest.approx(40.0)
    time, width = uneven(2.0, 60000), 4e-3
    beyond = np.mod(time + 0.025, 0.05) - 0.025
    flow = 4e-3 * np.exp(-((beyond / width) ** 2))
    heard = sound.exhaust_sound(time, flow, distance=2.0, rate=RATE)
    frequency, squares = sound_level.spectrum(heard)
    assert set(np.round(frequency[np.argsort(squares)[-6:]])) <= {20, 40, 60, 80, 100, 120, 140}
    order = np.arange(1, 8)
    omega = 2 * np.pi * 20.0 * order
    bell = 2 * 4e-3 * width * math.sqrt(math.pi) / 0.05 * np.exp(-((omega * width / 2) ** 2))
    wanted = omega * bell / (4 * np.pi * 2.0 * math.sqrt(2))
    assert sound_level.tone_pressures(heard, 20.0, 7) == pytest.approx(wanted, rel=3e-3)


def test_notes_too_short_or_too_high_are_refused():
    heard = hum(100.0, lasts=0.1)
    with pytest.raises(OutsideValidity, match="periods"):
        sound_level.tone_pressures(heard, 30.0, 1)
    with pytest.raises(OutsideValidity, match="no higher note"):
        sound_level.tone_pressures(heard, 1000.0, 5)


def test_what_has_no_sound_is_refused():
    time = np.array([0.0, 1.0])
    with pytest.raises(OutsideValidity, match="distance"):
        sound.exhaust_sound(time, time, distance=0.0, rate=RATE)
    with pytest.raises(OutsideValidity, match="less than a sample"):
        sound.exhaust_sound(1e-5 * time, time, distance=1.0, rate=RATE)
    with pytest.raises(OutsideValidity, match="rise"):
        sound.exhaust_sound(np.array([0.0, 1.0, 1.0]), np.ones(3), distance=1.0, rate=RATE)
    with pytest.raises(OutsideValidity, match="reflection"):
        sound.monopole_pressure(1.0, 1.0, 3.0)
