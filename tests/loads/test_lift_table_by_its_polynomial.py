"""A known lift sampled into a table: the cam that is made of it has that lift and that slope.

The lift is ``64 L u³ (1 - u)³``, u from 0 to 1 over the opening: at rest at both ends, its greatest
in the middle. A clamped cubic spline through rows that stand h apart misses it by at most
``5/384 h⁴ max|s''''|`` and its slope by at most ``1/24 h³ max|s''''|`` (C. A. Hall, W. W. Meyer,
"Optimal error bounds for cubic spline interpolation", *Journal of Approximation Theory* 16, 1976,
pp. 105-122; from memory). For 5 degrees that is 2 micrometres a radian, of 3.7 millimetres.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from numpy.polynomial import Polynomial

from firstfire.engine.cam_lift import Span, valve_motion
from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.loads.cam_profile import Profile, outline, profile_of

WREN = Path(__file__).parents[2] / "engines" / "wren.toml"
OPEN, LIFT, SPACING = math.radians(240.0), 4.5e-3, math.radians(5.0)
U = Polynomial([0.0, 1.0 / OPEN])
LAW = 64.0 * LIFT * U**3 * (1.0 - U) ** 3
ROUGHEST = float(np.abs(LAW.deriv(4)(np.linspace(0.0, OPEN, 2001))).max())
LIFT_OFF, SLOPE_OFF = 5 / 384 * SPACING**4 * ROUGHEST, 1 / 24 * SPACING**3 * ROUGHEST
SPAN = Span(math.radians(-20.0), math.radians(220.0))
ROUNDED = 1e-12


def made(**changes: object) -> Profile:
    """Wren's inlet cam with the sampled table, without lash, so without a ramp's lift."""
    rows = tuple((float(at), float(LAW(at))) for at in np.linspace(0.0, OPEN, 49))
    valve = resolve(read(WREN)).cylinders[0].valves.inlet.model_copy(
        update={"cam_law": "table", "lift_table": rows, "lift": LIFT, "lash": 0.0,
                "rocker": "direct", "base_radius": 34e-3, **changes}
    )  # fmt: skip
    return profile_of("inlet", valve, SPAN, 1441)


def known(cam: Profile) -> tuple[np.ndarray, np.ndarray]:
    """Rise, m, and its slope by cam angle, m/rad, of the polynomial itself."""
    crank = 2.0 * (cam.angle + cam.before)
    inside = (crank > 0.0) & (crank < OPEN)
    return np.where(inside, LAW(crank), 0.0), np.where(inside, 2.0 * LAW.deriv()(crank), 0.0)


def test_the_bound_is_far_below_two_hundredths_of_the_slope() -> None:
    """Steepest by hand where u = (5 - √5)/10: 192 u² (1 - u)² (1 - 2u) = 3.4346, times L/D."""
    steepest = float(np.abs(LAW.deriv()(np.linspace(0.0, OPEN, 2001))).max())
    assert steepest == pytest.approx(3.4346 * LIFT / OPEN, rel=1e-4)
    assert 1e-3 * steepest > SLOPE_OFF
    assert 1e-4 * LIFT > LIFT_OFF


@pytest.mark.parametrize("degrees", range(-10, 112, 7))
def test_valve_lift_and_slope(degrees: int) -> None:
    cam = made()
    found = valve_motion(cam.valve, SPAN, math.radians(degrees))
    crank = 2.0 * math.radians(degrees) - SPAN.opens
    shut = not 0.0 < crank < OPEN
    assert found.rise == pytest.approx(0.0 if shut else LAW(crank), abs=LIFT_OFF + ROUNDED)
    want = 0.0 if shut else 2.0 * LAW.deriv()(crank)
    assert found.slope == pytest.approx(want, abs=2.0 * SLOPE_OFF + ROUNDED)


def test_under_a_flat_foot_the_edge_lies_as_far_aside_as_the_lift_is_steep() -> None:
    """Each place of the edge: base and rise along the follower, the slope across it."""
    cam = made(follower="flat")
    rise, slope = known(cam)
    edge = outline(cam)[: len(cam.angle)]
    seen = (edge[:, 0] + 1j * edge[:, 1]) * np.exp(-1j * cam.angle)
    assert np.abs(seen.real - 34e-3 - rise).max() < LIFT_OFF + ROUNDED
    assert np.abs(seen.imag - slope).max() < 2.0 * SLOPE_OFF + ROUNDED


def test_under_a_roller_the_edge_lies_square_to_the_way_of_its_centre() -> None:
    """The edge is the roller's radius from its centre, at right angles to that one's own path."""
    roller = 6e-3
    cam = made(follower="roller", follower_radius=roller)
    rise, slope = known(cam)
    reach = 34e-3 + roller + rise
    way = slope + 1j * reach
    want = (reach + roller * 1j * way / np.abs(way)) * np.exp(1j * cam.angle)
    edge = outline(cam)[: len(cam.angle)]
    off = np.abs(edge[:, 0] + 1j * edge[:, 1] - want)
    turned = roller * (2.0 * SLOPE_OFF + LIFT_OFF) / (34e-3 + roller)
    assert off.max() < LIFT_OFF + turned + ROUNDED


@pytest.mark.parametrize("lash", [0.05e-3, 0.2e-3])
def test_a_valve_lifts_by_what_its_lash_leaves_and_stays_shut_within_it(lash: float) -> None:
    """The nose lifts by lift and lash, so that the valve has its lift; a ramp takes up the lash."""
    found = made(cam_law="cycloidal", lash=lash)
    assert float(found.rise.max()) == pytest.approx(LIFT + lash, rel=1e-6)
    assert float(found.valve_lift.max()) == pytest.approx(LIFT, rel=1e-6)
    shut = found.rise < lash
    assert shut.any()
    assert not found.valve_lift[shut].any()
