"""The sphere in a flat chamber against known solids, SciPy's quadrature and plain chance."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad
from scipy.optimize import brentq

from firstfire.errors import OutsideValidity
from firstfire.formulas.flame_shape import (
    enflamed_volume,
    front_area,
    front_area_table,
    greatest_radius,
)

BORE, WALL = 44e-3, 22e-3

# radius, offset, depth, height: within the bore; across its edge; right around it; at the wall.
FLAMES = [
    (9e-3, 8e-3, 2e-3, 8e-3),
    (20e-3, 8e-3, 2e-3, 8e-3),
    (24e-3, 5e-3, 0.0, 40e-3),
    (35e-3, 8e-3, 2e-3, 40e-3),
    (30e-3, 22e-3, 3e-3, 12e-3),
    (23e-3, 1e-3, 4e-3, 9e-3),
]


def test_before_it_meets_a_wall_it_is_a_sphere() -> None:
    radius = 4e-3
    assert enflamed_volume(radius, BORE, 8e-3, 5e-3, 30e-3) == pytest.approx(
        4 / 3 * math.pi * radius**3, rel=1e-12
    )
    assert front_area(radius, BORE, 8e-3, 5e-3, 30e-3) == pytest.approx(
        4 * math.pi * radius**2, rel=1e-12
    )


def test_under_a_plug_in_the_face_it_is_half_a_sphere() -> None:
    radius = 7e-3
    assert enflamed_volume(radius, BORE, 8e-3, 0.0, 8e-3) == pytest.approx(
        2 / 3 * math.pi * radius**3, rel=1e-12
    )
    assert front_area(radius, BORE, 8e-3, 0.0, 8e-3) == pytest.approx(
        2 * math.pi * radius**2, rel=1e-12
    )


def test_between_two_planes_it_is_a_sphere_without_its_caps() -> None:
    # A cap of height k: volume pi k² (3 R - k)/3, area 2 pi R k (any book of solid geometry).
    radius, depth, height = 10e-3, 2e-3, 8e-3
    caps = (radius - depth, radius - (height - depth))
    volume = 4 / 3 * math.pi * radius**3 - sum(math.pi * k**2 * (3 * radius - k) / 3 for k in caps)
    area = 4 * math.pi * radius**2 - sum(2 * math.pi * radius * k for k in caps)
    assert enflamed_volume(radius, BORE, 5e-3, depth, height) == pytest.approx(volume, rel=1e-12)
    assert front_area(radius, BORE, 5e-3, depth, height) == pytest.approx(area, rel=1e-12)


def test_round_the_axis_it_is_a_sphere_with_a_hole_filled() -> None:
    # A ball less a napkin ring: cylinder of the bore and two caps. Known in closed form.
    radius, height = 30e-3, 100e-3
    half_ring = math.sqrt(radius**2 - WALL**2)
    cap = radius - half_ring
    volume = 2 * math.pi * WALL**2 * half_ring + 2 * math.pi * cap**2 * (3 * radius - cap) / 3
    found = enflamed_volume(radius, BORE, 0.0, 50e-3, height)
    assert found == pytest.approx(volume, rel=1e-12)
    assert found == pytest.approx(
        4 / 3 * math.pi * radius**3 - math.pi / 6 * (2 * half_ring) ** 3, rel=1e-12
    )
    assert front_area(radius, BORE, 0.0, 50e-3, height) == pytest.approx(
        4 * math.pi * radius * cap, rel=1e-12
    )


def test_with_the_plug_at_the_wall_it_is_the_solid_of_viviani() -> None:
    # Sphere of radius R and a cylinder of half that radius through its centre: volume
    # (2 pi/3 - 8/9) R³, sphere's surface inside (2 pi - 4) R² (V. Viviani, 1692).
    radius = BORE
    volume = (2 * math.pi / 3 - 8 / 9) * radius**3
    area = (2 * math.pi - 4) * radius**2
    assert enflamed_volume(radius, BORE, WALL, 50e-3, 100e-3) == pytest.approx(volume, rel=1e-9)
    assert front_area(radius, BORE, WALL, 50e-3, 100e-3) == pytest.approx(area, rel=1e-6)


@pytest.mark.parametrize(("radius", "offset", "depth", "height"), FLAMES)
def test_volume_is_that_of_its_columns(
    radius: float, offset: float, depth: float, height: float
) -> None:
    # Summed the other way: columns along the bore over its disc, not discs along the bore.
    def column(around: float, out: float) -> float:
        aside = out**2 + offset**2 - 2 * out * offset * math.cos(around)
        half = math.sqrt(max(radius**2 - aside, 0.0))
        return out * (min(half, depth) + min(half, height - depth))

    half_volume = dblquad(column, 0.0, WALL, 0.0, math.pi, epsabs=1e-12, epsrel=1e-6)[0]
    found = enflamed_volume(radius, BORE, offset, depth, height)
    # The columns have edges that SciPy can only close in upon.
    assert found == pytest.approx(2 * half_volume, rel=2e-5)


@pytest.mark.parametrize(("radius", "offset", "depth", "height"), FLAMES)
def test_front_is_the_share_of_directions_that_meet_no_wall(
    radius: float, offset: float, depth: float, height: float
) -> None:
    number = 1_000_000
    way = np.random.default_rng(5).normal(size=(number, 3))
    x, y, z = radius * (way / np.linalg.norm(way, axis=1, keepdims=True)).T
    inside = np.hypot(x + offset, y) < WALL
    inside &= (z + depth > 0.0) & (z + depth < height)
    share = np.mean(inside)
    found = front_area(radius, BORE, offset, depth, height) / (4 * math.pi * radius**2)
    assert abs(found - share) < 4 * math.sqrt(share * (1 - share) / number)


@given(st.floats(1e-3, 0.045), st.floats(0.0, 22e-3), st.floats(0.0, 1.0), st.floats(4e-3, 45e-3))
def test_volume_grows_by_the_front(radius: float, offset: float, part: float, h: float) -> None:
    depth, step = part * h, 1e-5
    ends = [enflamed_volume(radius + s * step, BORE, offset, depth, h) for s in (-1, 1)]
    fronts = [front_area(radius + s * step, BORE, offset, depth, h) for s in (-1, 0, 1)]
    # The mean front over the step lies among those at its ends and middle.
    slope = (ends[1] - ends[0]) / (2 * step)
    slack = 1e-6 * WALL**2
    assert min(fronts) - slack <= slope <= max(fronts) + slack


@given(st.floats(0.0, 0.05), st.floats(0.0, 22e-3), st.floats(0.0, 1.0), st.floats(4e-3, 45e-3))
def test_turned_upside_down_it_is_the_same(r: float, offset: float, part: float, h: float) -> None:
    depth = part * h
    upright = enflamed_volume(r, BORE, offset, depth, h)
    assert upright == pytest.approx(enflamed_volume(r, BORE, offset, h - depth, h), rel=1e-9)
    assert 0.0 <= upright <= math.pi * WALL**2 * h * (1 + 1e-12)


@pytest.mark.parametrize("offset", [0.0, 1e-6, 8e-3, 22e-3])
def test_farthest_corner_is_reached_last(offset: float) -> None:
    depth, height = 2e-3, 12e-3
    last, room = greatest_radius(BORE, offset, depth, height), math.pi * WALL**2 * height
    assert last == pytest.approx(math.hypot(WALL + offset, 10e-3))
    assert enflamed_volume(last, BORE, offset, depth, height) == pytest.approx(room, rel=1e-12)
    assert enflamed_volume(0.98 * last, BORE, offset, depth, height) < room * (1 - 1e-6)
    assert front_area(1.001 * last, BORE, offset, depth, height) == 0.0


def test_a_plug_in_the_middle_has_the_larger_front_and_the_shorter_way() -> None:
    shares = np.linspace(0.02, 0.8, 40)
    middle, aside = (front_area_table(BORE, r, 1e-3, [8e-3], shares)[0] for r in (0.0, 12e-3))
    assert np.all(middle >= aside * (1 - 1e-9))
    assert np.max(middle / aside) > 1.4
    assert greatest_radius(BORE, 0.0, 1e-3, 8e-3) < greatest_radius(BORE, 12e-3, 1e-3, 8e-3)


@pytest.mark.parametrize("offset", [0.0, 8e-3, 22e-3])
def test_table_holds_the_front_at_each_share(offset: float) -> None:
    depth, heights, shares = 2e-3, [6e-3, 15e-3, 46e-3], np.linspace(0.0, 1.0, 12) ** 3
    table = front_area_table(BORE, offset, depth, heights, shares)
    assert table.shape == (3, 12)
    assert np.all(table[:, [0, -1]] == 0.0)
    for row, height in zip(table, heights, strict=True):
        last, room = greatest_radius(BORE, offset, depth, height), math.pi * WALL**2 * height
        for found, share in zip(row[1:-1], shares[1:-1], strict=True):

            def over(r: float, h: float = height, wanted: float = share * room) -> float:
                return enflamed_volume(r, BORE, offset, depth, h) - wanted

            radius = brentq(over, 0.0, last, xtol=1e-14, rtol=1e-13)
            expected = front_area(radius, BORE, offset, depth, height)
            assert found == pytest.approx(expected, rel=1e-6)


def test_it_may_be_carried_to_any_size() -> None:
    small = front_area_table(BORE, 8e-3, 2e-3, [9e-3], [0.1, 0.5, 0.9])
    large = front_area_table(2 * BORE, 16e-3, 4e-3, [18e-3], [0.1, 0.5, 0.9])
    assert large == pytest.approx(4 * small, rel=1e-9)


def test_a_plug_outside_the_chamber_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="plug offset"):
        enflamed_volume(1e-3, BORE, 23e-3, 0.0, 8e-3)
    with pytest.raises(OutsideValidity, match="plug depth"):
        front_area(1e-3, BORE, 0.0, 9e-3, 8e-3)
    with pytest.raises(OutsideValidity, match="plug depth"):
        front_area_table(BORE, 0.0, 9e-3, [40e-3, 8e-3], [0.5])
    with pytest.raises(OutsideValidity, match="share"):
        front_area_table(BORE, 0.0, 1e-3, [8e-3], [1.1])
    with pytest.raises(OutsideValidity, match="radius"):
        front_area(-1e-3, BORE, 0.0, 1e-3, 8e-3)
