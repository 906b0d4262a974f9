"""What the gas side needs to know about an engine, in the trade's terms and plain SI.

Angles are crank angles in radians; a shaft angle of 0 is the firing top centre of cylinder 1.
Volumes are known by name. A cylinder's name is the name of its volume.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.fuel import Fuel


@dataclass(frozen=True)
class WallSpec:
    """Temperatures of the four surfaces gas sees in a cylinder, and how heat gets to them.

    Attributes
    ----------
    crown, head, valves, liner
        K.
    correlation
        "woschni", "hohenberg", "annand" or None for no heat.
    scale
        Doubt multiplier on the correlation.
    """

    crown: float = 400.0
    head: float = 400.0
    valves: float = 450.0
    liner: float = 380.0
    correlation: str | None = "woschni"
    scale: float = 1.0


@dataclass(frozen=True)
class BurnSpec:
    """When and how a cylinder burns.

    Attributes
    ----------
    start, duration
        Crank angle of the start after firing top centre, and of the whole burn, rad.
    wiebe_a, wiebe_m
        Parameters of Wiebe's law.
    seconds
        How long the whole burn takes, s, where it goes by the clock; 0: by the angle.
    heat
        Put into what has burned by the same law, J, beside what its fuel gives.
    """

    start: float
    duration: float
    wiebe_a: float = 5.0
    wiebe_m: float = 2.0
    seconds: float = 0.0
    heat: float = 0.0


@dataclass(frozen=True)
class CylinderSpec:
    """A cylinder and its mechanism.

    Attributes
    ----------
    name
        Of the cylinder and its volume.
    bore, throw, rod, offset
        m; as in :mod:`firstfire.formulas.slider_crank`.
    clearance_volume
        m³ at top centre.
    phase
        Crank angle of its firing top centre, 0 to 4π, rad.
    walls, burn
        Its walls; its burn, or None: not fired.
    crankcase
        Name of the volume under the piston, or None: open to still air.
    burns
        Share of a charge that the flame reaches; the rest leaves unburned.
    vented
        Name of a volume whose gas it is full of, at once, whenever one of its valves is open; None:
        it breathes through them.
    reciprocating_mass
        That goes up and down, kg; felt by a free shaft only.
    crown_area, head_area, valves_area
        m²; None takes the bore's area for crown and head. The head's is without the valves'.
    """

    name: str
    bore: float
    throw: float
    rod: float
    clearance_volume: float
    offset: float = 0.0
    phase: float = 0.0
    walls: WallSpec = field(default_factory=WallSpec)
    burn: BurnSpec | None = None
    crankcase: str | None = None
    burns: float = 1.0
    vented: str | None = None
    reciprocating_mass: float = 0.0
    crown_area: float | None = None
    head_area: float | None = None
    valves_area: float = 0.0


@dataclass(frozen=True)
class VolumeSpec:
    """A port, plenum, crankcase or exhaust stub, or the surroundings.

    Attributes
    ----------
    name
        Any, each once.
    volume
        m³; of a crankcase with all pistons at top centre; of surroundings anything.
    fixed
        True: never changes (the surroundings).
    pressure, temperature
        To begin with, Pa and K.
    equivalence_ratio, burned_fraction
        To begin with: fuel/air over stoichiometric of what is fresh, and mass fraction of burned
        gas. The surroundings of a carburettor's mouth hold mixture: fuel enters there.
    wall_area, wall_temperature, wall_coefficient
        m², K, W/(m² K).
    """

    name: str
    volume: float = 1.0
    fixed: bool = False
    pressure: float = 101325.0
    temperature: float = 298.15
    equivalence_ratio: float = 0.0
    burned_fraction: float = 0.0
    wall_area: float = 0.0
    wall_temperature: float = 298.15
    wall_coefficient: float = 0.0


@dataclass(frozen=True)
class PassageSpec:
    """A throttle, port, leak, breather or other opening between two volumes.

    Attributes
    ----------
    name
        Any, each once.
    start, end
        Names of volumes; flow from start to end counts positive.
    area
        m², geometric.
    coefficient
        Of discharge.
    one_way
        True: flows from start to end only (a breather with a reed).
    """

    name: str
    start: str
    end: str
    area: float
    coefficient: float = 1.0
    one_way: bool = False


@dataclass(frozen=True)
class ValveSpec:
    """A poppet valve between a cylinder and a port, worked by a cam or opened by suction.

    Attributes
    ----------
    name
        Any, each once.
    cylinder, port
        Names of volumes. Flow into the cylinder counts positive.
    head_diameter, throat_diameter, stem_diameter
        m.
    max_lift
        m.
    seat_angle
        From the plane of the head, rad.
    opens, closes
        Cam-worked: shaft angles, rad; closes after opens, both in the shaft's own count. None
        for a valve opened by suction.
    lift_law
        Lift over max_lift at even steps from opening to closing, first and last 0; None takes
        the smooth law of :func:`firstfire.cycle.cam.polynomial_lift`.
    coefficients
        Discharge coefficient of the smaller of curtain and throat, at lift over head diameter 0,
        0.05 … 0.4.
    scale
        Doubt multiplier on the area.
    mass, spring_rate, preload, restitution, damping
        Of a valve opened by suction: kg, N/m, N, share of speed kept when it hits seat or stop,
        N s/m.
    """

    name: str
    cylinder: str
    port: str
    head_diameter: float
    throat_diameter: float
    stem_diameter: float
    max_lift: float
    seat_angle: float = 0.7853981633974483
    opens: float | None = None
    closes: float | None = None
    lift_law: NDArray[np.float64] | None = None
    coefficients: tuple[float, ...] = (0.68, 0.68, 0.67, 0.66, 0.64, 0.62, 0.60, 0.58, 0.56)
    scale: float = 1.0
    mass: float = 0.0
    spring_rate: float = 0.0
    preload: float = 0.0
    restitution: float = 0.3
    damping: float = 0.0


@dataclass(frozen=True)
class SteppingSpec:
    """How finely time is cut.

    Attributes
    ----------
    relative_error
        Allowed a step in pressure, temperature and mass.
    largest_angle, largest_time
        Longest step, rad and s.
    flow_band
        Relative pressure drop below which flow is laminar (:mod:`firstfire.formulas.nozzle_flow`).
    """

    relative_error: float = 3e-5
    largest_angle: float = 0.026
    largest_time: float = 0.01
    flow_band: float = 2e-5


@dataclass(frozen=True)
class ShaftSpec:
    """A shaft that is free, what turns it and what holds it back.

    Attributes
    ----------
    inertia
        Of all that turns, at the crank, kg·m².
    starter_stall, starter_free
        Torque of the starter at a stand, N·m, and speed at which it gives none, rad/s, both at the
        crank; between and beyond them it falls in a straight line.
    starter_one_way
        True: it never brakes.
    friction, friction_per_speed
        N·m against the turning, which also holds what stands, and N·m s.
    load_square
        Torque of a fan or propeller over the square of speed, N·m s².
    rotor
        Inertia at the crank of a starter's rotor that a one-way clutch leaves behind when the shaft
        is faster, kg·m², beside `inertia`; 0: what it has is within `inertia`.
    """

    inertia: float
    starter_stall: float = 0.0
    starter_free: float = 1.0
    starter_one_way: bool = False
    friction: float = 0.0
    friction_per_speed: float = 0.0
    load_square: float = 0.0
    rotor: float = 0.0


@dataclass(frozen=True)
class EngineSpec:
    """An engine as a network of volumes and passages.

    Attributes
    ----------
    fuel, equivalence_ratio
        Of the catalog; mixture whose burned gas the properties are worked out for, 0.2 to 2.
    cylinders, volumes, passages, valves
        The network.
    stepping
        How finely time is cut.
    ambient_pressure, ambient_temperature
        Of the air that volumetric efficiency is reckoned by, and that stands under a piston
        without crankcase; Pa, K.
    water
        Mole fraction of steam in all air.
    shaft
        Where it is free; None: it turns at the speed it is given.
    """

    fuel: str | Fuel
    equivalence_ratio: float
    cylinders: tuple[CylinderSpec, ...]
    volumes: tuple[VolumeSpec, ...] = ()
    passages: tuple[PassageSpec, ...] = ()
    valves: tuple[ValveSpec, ...] = ()
    stepping: SteppingSpec = field(default_factory=SteppingSpec)
    ambient_pressure: float = 101325.0
    ambient_temperature: float = 298.15
    water: float = 0.0
    shaft: ShaftSpec | None = None
