"""What gets past rings: by squeeze, play and roughness, by gap and land."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas.ring_leak import oring_leak_area, rubber_film, split_rings_leak_area

SMOOTH = {"height": 0.5e-6, "wavelength": 0.1e-3}
PRINTED = {"height": 15e-6, "wavelength": 0.2e-3}
RUBBER = 6.9e6


def area(squeeze=0.10, bore=0.044, section=2.6e-3, **more):
    return 1e6 * oring_leak_area(bore, section, squeeze, RUBBER, **{**SMOOTH, **more})


def test_one_model_builders_oring_seals_better_than_iron_rings():
    """Bores of 19-25 mm, section 1.78, squeeze 16 %, play 0.03-0.05 mm: "works very well".

    Gas Engine Magazine, O-ring Ramblings, 2004. Iron rings of that size: gap 0.1-0.25 mm (service
    manual of a small engine, read), land some hundredths of a mm: 0.01 mm² and more.
    """
    found = area(0.16, bore=0.022, section=1.78e-3, off_centre=0.02e-3)
    iron = 1e6 * split_rings_leak_area(0.15e-3, 0.05e-3, 1)
    assert found < iron / 3


def test_a_slack_ring_leaks_the_gap_all_round():
    """Not touching at all, no side step: circumference times what is missing; 1 % of roughness."""
    gap = 0.05 * 2.6e-3
    assert area(-0.05) == pytest.approx(1e6 * math.pi * 0.044 * (gap + 1.5e-6), rel=1e-9)


def test_a_crescent_where_the_piston_leans_away():
    """No squeeze, side step e: half the bore has a gap e cos φ, so 2 e R; roughness adds 2 %."""
    aside = 0.1e-3
    crescent = 1e6 * 2 * aside * 0.022
    assert area(0.0, off_centre=aside) == pytest.approx(crescent, rel=0.03)


@given(st.floats(0.0, 0.34), st.floats(0.0, 0.2e-3))
def test_more_squeeze_never_leaks_more(squeeze, off_centre):
    less = area(squeeze, off_centre=off_centre)
    assert area(squeeze + 0.01, off_centre=off_centre) <= less * (1 + 1e-9)


@given(st.floats(0.02, 0.3), st.floats(0.2e-6, 20e-6))
def test_a_rougher_bore_never_leaks_less(squeeze, height):
    smoother = area(squeeze, height=height)
    assert area(squeeze, height=1.2 * height) >= smoother
    assert area(squeeze, **PRINTED) >= area(squeeze)


@given(st.floats(0.02, 0.3), st.floats(0.0, 0.3e-3))
def test_an_oval_bore_and_play_cost_sealing(squeeze, ovality):
    round_one = area(squeeze)
    assert area(squeeze, ovality=ovality) >= round_one * (1 - 1e-9)
    assert area(squeeze, off_centre=ovality) >= round_one * (1 - 1e-9)


def test_film_falls_with_pressure_and_softness():
    film = [rubber_film(p, RUBBER, 1e-6, 1e-4) for p in (0.1e6, 1e6, 10e6)]
    assert film == sorted(film, reverse=True)
    assert rubber_film(1e6, 3e6, 1e-6, 1e-4) < film[1]


def test_two_split_rings_leak_less_than_one():
    one, two = (split_rings_leak_area(0.2e-3, 0.1e-3, n) for n in (1, 2))
    assert two == pytest.approx(one / math.sqrt(2))
    with pytest.raises(OutsideValidity):
        split_rings_leak_area(0.2e-3, 0.1e-3, 0)
