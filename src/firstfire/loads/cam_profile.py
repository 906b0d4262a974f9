"""The profile of a cam of the engine file: how it lifts what rides on it, and its outline."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from firstfire.engine import cam_lift
from firstfire.engine.cam_lift import Span
from firstfire.engine.description import CylinderParts
from firstfire.engine.records import Array
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import cam_curvature, cam_path
from firstfire.formulas.cam_lobe import Motion
from firstfire.formulas.cam_path import Path
from firstfire.loads.cam_drive import timed

Which = Literal["inlet", "exhaust"]
PLACES = 721
_ROUND = 721  # of the base circle: two a degree or more


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
        return cam_lift.ratio(self.valve)

    @property
    def valve_lift(self) -> Array:
        """Lift of the valve with its lash as the file has it, m."""
        return np.maximum(self.ratio * self.rise - self.valve.lash, 0.0)

    @property
    def centre(self) -> float:
        """Crank angle of the nose after the firing top centre, rad."""
        return self.opens + 2 * self.before


def profile(parts: CylinderParts, which: Which, places: int = PLACES) -> Profile:
    """The cam that the file describes; `places` is how finely it is looked at."""
    valve, opens, shuts = timed(parts)[0 if which == "inlet" else 1]
    return profile_of(which, valve, Span(opens, shuts), places)


def profile_of(which: Which, valve: CamValve, span: Span, places: int = PLACES) -> Profile:
    """The cam of a valve that is open so."""
    at = cam_lift.flanks(valve, span)
    ramp = valve.cam_ramp / 2
    angle = np.linspace(at.begins - at.nose - ramp, at.ends - at.nose + ramp, places)
    motion = np.array([cam_lift.about_nose(valve, at, place) for place in angle.tolist()]).T
    return Profile(which, valve, *span, at.nose, at.ends - at.nose, angle, *motion)


def motions(made: Profile) -> list[Motion]:
    """How what rides on it moves at each angle."""
    rows = zip(made.rise.tolist(), made.slope.tolist(), made.second.tolist(), made.third.tolist(),
               strict=True)  # fmt: skip
    return [Motion(*row) for row in rows]


def paths(made: Profile) -> list[Path]:
    """Where a round follower's centre is at each angle of a profile."""
    return [cam_lift.rider_path(made.valve, motion) for motion in motions(made)]


def radii(made: Profile) -> Array:
    """Radius of curvature of the cam's edge at each angle, m; negative in a hollow."""
    valve = made.valve
    if valve.follower == "flat" and valve.rocker == "rocker":
        return np.array([cam_lift.flat_touch(valve, one).radius for one in motions(made)])
    if valve.follower == "flat":
        return cam_curvature.flat_follower_radius(valve.base_radius, made.rise, made.second)  # type: ignore[arg-type,return-value]
    return np.array([cam_path.path_radius(one) - valve.follower_radius for one in paths(made)])


def foot(made: Profile) -> Array:
    """How far along a flat foot the cam touches it at each angle, m, from where it does shut."""
    if made.valve.rocker == "rocker":
        return np.array([cam_lift.flat_touch(made.valve, one).aside for one in motions(made)])
    return made.slope


def sharpest(made: Profile) -> float:
    """Least radius of the edge where it is convex, m; what undercuts counts as negative."""
    bends = radii(made)
    if made.valve.follower == "flat":
        return float(bends.min())
    path = np.array([cam_path.path_radius(one) for one in paths(made)])
    return float(bends[path > 0.0].min())


def outline(made: Profile) -> Array:
    """Edge of the cam, m: x and y about its axis, one row a place, once round; turns clockwise.

    The nose points along x; the base circle closes it.
    """
    valve = made.valve
    edge = [
        cam_lift.edge_place(valve, motion, angle)
        for motion, angle in zip(motions(made), made.angle.tolist(), strict=True)
    ]
    first, last = float(made.angle[0]), float(made.angle[-1])
    round_it = np.linspace(last, first + 2 * math.pi, _ROUND)[1:-1]
    base = valve.base_radius * np.exp(1j * round_it)
    closed = np.concatenate([np.array(edge), base])
    return np.column_stack([closed.real, closed.imag])
