"""The profile of a cam of the engine file: how it lifts what rides on it, and its outline."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from firstfire.engine.description import CylinderParts
from firstfire.engine.records import Array
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import cam_curvature, cam_law, cam_lobe, cam_path
from firstfire.formulas.cam_lobe import Lobe
from firstfire.loads.cam_drive import timed

Which = Literal["inlet", "exhaust"]
PLACES = 721


@dataclass(frozen=True)
class Profile:
    """One cam, by its own angle from the nose, rad, from the first ramp's foot to the last's.

    Attributes
    ----------
    which, valve
        Whose it is.
    opens, shuts
        Crank angles after the firing top centre that bound the valve's lift, rad.
    angle
        Of the cam, 0 at the nose; `before` and `after` it the flanks end, rad.
    rise, slope, second, third
        Of what rides on the cam, m, and its derivatives by cam angle.
    """

    which: Which
    valve: CamValve
    opens: float
    shuts: float
    before: float
    after: float
    angle: Array
    rise: Array
    slope: Array
    second: Array
    third: Array

    @property
    def ratio(self) -> float:
        """Lift of the valve over that of the cam."""
        return ratio(self.valve)

    @property
    def valve_lift(self) -> Array:
        """Lift of the valve with its lash as the file has it, m."""
        return np.maximum(self.ratio * self.rise - self.valve.lash, 0.0)

    @property
    def centre(self) -> float:
        """Crank angle of the nose after the firing top centre, rad."""
        return self.opens + 2 * self.before


def ratio(valve: CamValve) -> float:
    """Lift of a valve over that of its cam; 1 without a rocker."""
    return valve.rocker_ratio if valve.rocker == "rocker" else 1.0


def profile(parts: CylinderParts, which: Which, places: int = PLACES) -> Profile:
    """The cam that the file describes; `places` is how finely it is looked at."""
    valve, opens, shuts = timed(parts)[0 if which == "inlet" else 1]
    before, after = _flanks(valve, (shuts - opens) / 2)
    ramp = valve.cam_ramp / 2
    angle = np.linspace(-before - ramp, after + ramp, places)
    motion = _by_table(valve, angle, before, ramp) if _has_table(valve) else _by_law(
        valve, angle, before, after, ramp
    )  # fmt: skip
    return Profile(which, valve, opens, shuts, before, after, angle, *motion)


def _has_table(valve: CamValve) -> bool:
    return valve.cam_law == "table" and valve.lift_table is not None


def _flanks(valve: CamValve, open_for: float) -> tuple[float, float]:
    """How far its lift begins before the nose and ends behind it, rad of the cam."""
    if not _has_table(valve):
        return open_for / 2, open_for / 2
    place, lift = np.array(valve.lift_table, dtype=np.float64).T
    highest = np.flatnonzero(lift >= lift.max() - 1e-9)
    nose = float(place[highest].mean()) / 2
    return nose, float(place[-1]) / 2 - nose


def _by_law(
    valve: CamValve, angle: Array, before: float, after: float, ramp: float
) -> tuple[Array, ...]:
    law: cam_law.RiseLaw = getattr(cam_law, valve.cam_law)
    lobe = Lobe(law, valve.lift / ratio(valve), before, after, ramp, valve.lash / ratio(valve))
    found = np.array([cam_lobe.lobe_motion(lobe, float(place)) for place in angle])
    return tuple(found.T)


def _by_table(valve: CamValve, angle: Array, before: float, ramp: float) -> tuple[Array, ...]:
    """A lift table as a curve through its rows, on the ramps that take up the lash."""
    from scipy.interpolate import make_interp_spline

    place, lift = np.array(valve.lift_table, dtype=np.float64).T
    curve = make_interp_spline(place / 2 - before, lift / ratio(valve), k=5 if len(lift) > 8 else 3)
    low, high = place[0] / 2 - before, place[-1] / 2 - before
    inside = (angle > low) & (angle < high)
    lobe = Lobe(cam_law.polynomial_4567, 1.0, -low, high, ramp, valve.lash / ratio(valve))
    ramps = np.array([cam_lobe.lobe_motion(lobe, float(a)) for a in angle]).T
    ways = [np.where(inside, curve(angle, order), ramps[order]) for order in range(4)]
    ways[0] = np.where(inside, np.maximum(ways[0], 0.0) + lobe.ramp_rise, ramps[0])
    return tuple(ways)


def paths(made: Profile) -> list[cam_path.Path]:
    """Where a round follower's centre is at each angle of a profile."""
    valve = made.valve
    prime = valve.base_radius + valve.follower_radius
    columns = (made.rise.tolist(), made.slope.tolist(), made.second.tolist())
    if valve.rocker == "rocker":
        return [
            cam_path.swinging_path(prime, valve.rocker_arm, *row)
            for row in zip(*columns, strict=True)
        ]
    return [cam_path.radial_path(prime, *row) for row in zip(*columns, strict=True)]


def radii(made: Profile) -> Array:
    """Radius of curvature of the cam's edge at each angle, m; negative in a hollow."""
    valve = made.valve
    if valve.follower == "flat":
        return cam_curvature.flat_follower_radius(valve.base_radius, made.rise, made.second)  # type: ignore[arg-type,return-value]
    return np.array([cam_path.path_radius(one) - valve.follower_radius for one in paths(made)])


def outline(made: Profile) -> Array:
    """Edge of the cam, m: x and y about its axis, one row a place, once round; turns clockwise.

    The nose points along x; the base circle closes it.
    """
    valve = made.valve
    if valve.follower == "flat":
        rows = zip(
            made.rise.tolist(), made.slope.tolist(), made.angle.tolist(), strict=True
        )  # fmt: skip
        edge = [cam_path.flat_outline(valve.base_radius, *row) for row in rows]
    else:
        edge = [
            cam_path.round_outline(path, angle, valve.follower_radius)
            for path, angle in zip(paths(made), made.angle.tolist(), strict=True)
        ]
    first, last = float(made.angle[0]), float(made.angle[-1])
    round_it = np.linspace(last, first + 2 * math.pi, 181)[1:-1]
    base = valve.base_radius * np.exp(1j * round_it)
    closed = np.concatenate([np.array(edge), base])
    return np.column_stack([closed.real, closed.imag])
