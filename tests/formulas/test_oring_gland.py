"""O-ring glands: what must hold for every ring."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import oring_gland as gland

sections = st.floats(1.5e-3, 6e-3)
ratios = st.floats(6.0, 30.0)
stretches = st.floats(0.0, 0.10)


def volume(section: float, inside_diameter: float) -> float:
    return math.pi**2 / 4 * section**2 * (inside_diameter + section)


@given(sections, ratios, stretches)
def test_stretching_keeps_the_volume(section: float, ratio: float, stretch: float) -> None:
    inside = ratio * section
    groove = inside * (1 + stretch)
    fitted = gland.stretched_section(section, inside, groove)
    assert fitted <= section
    # 0.4 %: the law leaves out the thinning inside its own root (w'/2D of at most 5 %).
    assert volume(fitted, groove) == pytest.approx(volume(section, inside), rel=8e-3)


@given(sections, st.floats(0.0, 0.4))
def test_the_depth_for_a_squeeze_gives_that_squeeze(section: float, squeeze: float) -> None:
    depth = gland.gland_depth_for_squeeze(section, squeeze)
    assert gland.squeeze(section, depth) == pytest.approx(squeeze, abs=1e-12)


@given(sections, ratios, st.floats(0.05, 0.25), st.floats(0.0, 0.05))
def test_the_groove_for_a_squeeze_gives_that_squeeze(
    section: float, ratio: float, squeeze: float, looseness: float
) -> None:
    inside = ratio * section
    bore = (inside + 2 * section) * (1 + looseness)
    groove = gland.groove_diameter_for_squeeze(bore, inside, section, squeeze)
    fitted = gland.stretched_section(section, inside, groove)
    assert gland.squeeze(fitted, (bore - groove) / 2) == pytest.approx(squeeze, abs=1e-8)


def test_a_ring_that_does_not_touch_has_no_squeeze() -> None:
    assert gland.squeeze(2.62e-3, 2.62e-3) == 0
    assert gland.squeeze(2.62e-3, 3e-3) < 0


def test_what_is_no_gland_is_refused_with_a_reason() -> None:
    with pytest.raises(OutsideValidity, match="stretched by 32"):
        gland.stretched_section(2.62e-3, 37.77e-3, 50e-3)
    with pytest.raises(OutsideValidity, match="more than zero"):
        gland.fill(2.62e-3, 0.0, 3e-3)
    with pytest.raises(OutsideValidity, match="outside 0 to 50"):
        gland.gland_depth_for_squeeze(2.62e-3, 0.7)
