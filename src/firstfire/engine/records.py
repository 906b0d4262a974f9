"""The small frozen records that rooms hand each other. Plain SI; arrays over one cycle."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Walls:
    """Temperatures of the four surfaces that gas sees in one cylinder, K."""

    crown: float
    head: float
    valves: float
    liner: float


@dataclass(frozen=True)
class GasCycle:
    """What the gas of one cylinder does over one cycle of 720°, sampled evenly enough to integrate.

    Attributes
    ----------
    angle
        Crank angle after the cylinder's firing top centre, rad, rising, from -2π to 2π.
    speed
        Crank speed at each, rad/s.
    pressure, volume
        Pa, m³.
    gas_temperature
        Mass-mean, K.
    coefficient
        Heat transfer coefficient to every wall, W/(m² K).
    crankcase_pressure
        Under the piston, Pa.
    leak_to_crankcase
        Past the rings, kg/s (negative: into the cylinder).
    """

    angle: Array
    speed: Array
    pressure: Array
    volume: Array
    gas_temperature: Array
    coefficient: Array
    crankcase_pressure: Array
    leak_to_crankcase: Array

    @cached_property
    def mean_crankcase_pressure(self) -> float:
        """Pa."""
        return float(self.crankcase_pressure.mean())


@dataclass(frozen=True)
class Peaks:
    """Peak pressures of one cylinder at one operating point, Pa.

    Attributes
    ----------
    mean, strong, rare
        Of the mean cycle, the 1-in-20 and the 1-in-1000 cycle.
    angle
        Of the mean cycle's peak after firing top centre, rad.
    """

    mean: float
    strong: float
    rare: float
    angle: float


@dataclass(frozen=True)
class CylinderLoads:
    """Forces of one cylinder over one cycle, N, on the angles of its `GasCycle`.

    Attributes
    ----------
    angle
        Crank angle after its firing top centre, rad.
    gas
        Gas force on the piston, down positive.
    inertia
        Of what goes up and down, up-bore positive where it unloads the rod (``-m a``).
    along_bore
        Gas and inertia together, down positive.
    rod
        In the rod, compression positive.
    side
        Of the piston on the wall, towards the thrust side positive.
    torque
        On the crank about its axis, N·m, driving positive.
    crankpin
        Size of the force on the crankpin, rod's rotating mass included.
    """

    angle: Array
    gas: Array
    inertia: Array
    along_bore: Array
    rod: Array
    side: Array
    torque: Array
    crankpin: Array


@dataclass(frozen=True)
class JournalLoad:
    """What one main journal feels over one cycle of 720° of shaft angle.

    Attributes
    ----------
    name
        In words: ``flywheel end``.
    length
        From its cheek to its bearing's middle, m.
    torque
        That passes towards the flywheel, N·m, driving positive.
    bending
        Size of the bending moment where it meets the cheek, N·m.
    """

    name: str
    length: float
    torque: Array
    bending: Array


@dataclass(frozen=True)
class Loads:
    """What the mechanism feels over one cycle of 720° of shaft angle.

    Attributes
    ----------
    cylinders
        Each cylinder's own forces.
    shaft_angle
        Crank angle after the firing top centre of cylinder 1, rad, 0 to 4π.
    torque
        Of all cylinders on the shaft, N·m.
    joint_torques
        Torque through each crank joint by name, N·m over `shaft_angle`; its sign changes where
        a joint is reversed.
    joint_twists
        Twist that each joint must hold about its own pin's axis, N·m over `shaft_angle`: what
        its fit, spline or pin is judged by.
    main_bearings
        Size of the force on each main bearing, N over `shaft_angle`.
    shaking_force, shaking_moment
        Largest of either over the cycle, N and N·m.
    journals
        What each main journal feels, from the flywheel on; none where that can't be told.
    """

    cylinders: tuple[CylinderLoads, ...]
    shaft_angle: Array
    torque: Array
    joint_torques: Mapping[str, Array]
    joint_twists: Mapping[str, Array]
    main_bearings: tuple[Array, ...]
    shaking_force: float
    shaking_moment: float
    journals: tuple[JournalLoad, ...] = ()


@dataclass(frozen=True)
class PartTemperature:
    """Of one part at one moment, K.

    Attributes
    ----------
    surface
        Mean over the cycle where the fire is.
    peak
        Largest within the cycle there.
    depth, profile
        m from the hot face, and K at each: cycle-mean.
    """

    surface: float
    peak: float
    depth: Array
    profile: Array

    def at(self, depth: float) -> float:
        """Temperature at a depth below the hot face, K."""
        return float(np.interp(depth, self.depth, self.profile))

    @cached_property
    def mean(self) -> float:
        """Mean through the thickness, K."""
        depth, profile = self.depth, self.profile
        if depth[-1] <= depth[0]:
            return float(profile[0])
        area = (profile[1:] + profile[:-1]) @ (depth[1:] - depth[:-1]) / 2
        return float(area / (depth[-1] - depth[0]))


@dataclass(frozen=True)
class Temperatures:
    """Of the parts of one cylinder at one moment of a run, by part name.

    Parts: ``crown``, ``shield``, ``head``, ``chamber_plate``, ``liner``, ``body``, ``ring``,
    ``skirt``, ``boss``, ``exhaust_port``; a part the engine doesn't have is left out.
    """

    seconds: float
    parts: Mapping[str, PartTemperature]


Change = Mapping[str, str]


@dataclass(frozen=True)
class Raise:
    """A change a person can make.

    Attributes
    ----------
    text
        In words, as an order: *six M5 through-bolts*.
    set
        Written values by path, as ``--set`` takes them.
    effort
        Key of the catalog's effort row.
    """

    text: str
    set: Change
    effort: str


@dataclass(frozen=True)
class Line:
    """One line of a working that can be followed with a pocket calculator.

    Attributes
    ----------
    name
        What it finds, for later lines; the last two of a working are ``demand`` and ``capacity``.
    expression
        Arithmetic in SI over names of inputs and earlier lines (see
        `firstfire.engine.arithmetic`); numbers in it have no unit.
    unit
        SI unit of what it finds; "" for a pure number.
    words
        What it finds, in words.
    """

    name: str
    expression: str
    unit: str
    words: str


@dataclass(frozen=True)
class Way:
    """One way a part can fail, at one event and moment, for one set of plain numbers.

    Attributes
    ----------
    id
        Fixed: ``crank.joint.slip``, for a twin with ``#2`` behind it for cylinder 2.
    part, failure
        In the trade's words: *crank joint*, *slips*.
    demand, capacity, unit
        In one SI unit; `demand` counts above nothing, a temperature above ambient.
    hazard
        Whether it throws, bursts or burns.
    governs
        What decides: ``section``, ``layers``, ``temperature``, ``creep``, ``fatigue``,
        ``friction``, ``buckling`` ...
    temperature
        Of the part where it fails, K; None where it doesn't matter.
    formula, source
        What was computed, readable, and the book it is from.
    inputs
        Numbers put in by path or name, SI, of a way judged in a recorded moment.
    raise_by
        Changes that would raise it, best guess first; run before they are offered.
    judged, why_not
        False with a reason where no model holds; demand and capacity are then NaN.
    working
        Lines from `inputs` to demand and capacity.
    """

    id: str
    part: str
    failure: str
    demand: float
    capacity: float
    unit: str
    hazard: bool
    governs: str
    temperature: float | None
    formula: str
    source: str
    inputs: Mapping[str, float] = field(default_factory=dict)
    raise_by: tuple[Raise, ...] = ()
    judged: bool = True
    why_not: str = ""
    working: tuple[Line, ...] = ()

    @property
    def factor(self) -> float:
        """Capacity over demand; infinite where nothing is demanded."""
        return self.capacity / self.demand if self.demand > 0 else float("inf")
