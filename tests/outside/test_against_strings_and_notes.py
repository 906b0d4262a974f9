"""A plucked belt against the wave equation solved by SciPy, and against the frequencies of a piano.

Notes: table of piano keys in equal temperament with A4 at 440 Hz (ISO 16:1975), from memory: any
textbook of acoustics prints it to a hundredth of a hertz.
"""

import math

import numpy as np
import pytest
from scipy.linalg import eigh_tridiagonal
from scipy.optimize import brentq

from firstfire.errors import OutsideValidity
from firstfire.formulas.belt_pluck import nearest_note, plucked_pitch, pressed_in, span_length

PIANO = {
    "A0": 27.50, "C2": 65.41, "G2": 98.00, "A2": 110.00, "A#2": 116.54, "C4": 261.63,
    "F#4": 369.99, "A4": 440.00, "B5": 987.77, "C8": 4186.01,
}  # fmt: skip


def test_the_first_mode_of_a_row_of_masses() -> None:
    # 400 masses on a string: the lowest eigenvalue is within (pi/800)²/12 of the continuum's.
    tension, length, mass, many = 27.0, 0.1748, 0.0225, 400
    step = length / (many + 1)
    stiff = tension / step / (mass * step)
    lowest = eigh_tridiagonal(
        np.full(many, 2 * stiff), np.full(many - 1, -stiff), select="i", select_range=(0, 0)
    )[0][0]
    exact = math.sqrt(lowest) / (2 * math.pi)
    assert plucked_pitch(tension, length, mass) == pytest.approx(exact, rel=1e-5)


def test_pressing_in_by_the_triangle_itself() -> None:
    # Exact: F = 2 T sin(lean), with the lean of half a span pressed in by y.
    tension, length, force = 27.0, 0.1748, 2.7
    exact = brentq(lambda y: 2 * tension * y / math.hypot(y, length / 2) - force, 0.0, length / 4)
    # small angles: off by half the square of the lean, (0.05)²/2
    assert pressed_in(tension, length, force) == pytest.approx(exact, rel=2e-3)
    with pytest.raises(OutsideValidity):
        pressed_in(tension, length, 0.4 * tension)


@pytest.mark.parametrize("name", PIANO)
def test_notes_of_a_piano(name: str) -> None:
    note = nearest_note(PIANO[name] * 2 ** (0.3 / 12))
    assert note.name == name
    assert note.frequency == pytest.approx(PIANO[name], abs=0.006)
    assert note.cents == pytest.approx(30.0, abs=0.4)  # rounding of the table's 27.50 and 65.41


def test_half_a_semitone_either_way_and_what_nobody_hears() -> None:
    assert nearest_note(440.0 * 2 ** (0.49 / 12)).name == "A4"
    assert nearest_note(440.0 * 2 ** (0.51 / 12)).name == "A#4"
    with pytest.raises(OutsideValidity):
        nearest_note(12.0)


def test_a_span_is_the_tangent_of_two_circles() -> None:
    # 3-4-5: axes 50 mm apart, radii 30 mm different.
    assert span_length(20e-3, 80e-3, 50e-3 + 1e-12) == pytest.approx(40e-3, rel=1e-6)
    with pytest.raises(OutsideValidity):
        span_length(20e-3, 80e-3, 49e-3)
