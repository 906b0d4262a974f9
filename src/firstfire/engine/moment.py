"""One moment of one event, as a part sees it when it is judged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from firstfire.engine.climb import Climb
from firstfire.engine.description import CylinderParts
from firstfire.engine.records import Loads, Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.recorded import put_in


@dataclass(frozen=True)
class Breath:
    """How a cylinder breathed in the cycle judged.

    Attributes
    ----------
    inlet_shut
        Crank angle after bottom centre at which the inlet was shut for compression, rad.
    spat_back
        Share of what flowed in through the inlet valve that flowed out there again.
    """

    inlet_shut: float
    spat_back: float


@dataclass(frozen=True)
class Moment:
    """What a part is judged under. Plain numbers only; doubt and spread stay outside.

    Attributes
    ----------
    engine
        Plain numbers; its `doubt` multipliers are to be applied where they belong.
    event
        Id of the event, as ``first_fire``.
    seconds
        Into the event.
    cycles
        Of the engine so far in this event, 1 at least.
    cylinder
        Place of the cylinder judged, from 0.
    peak_pressure
        Peak gas pressure of the cycle judged, absolute, Pa.
    crankcase_pressure
        Pa.
    speed
        Mean crank speed, rad/s.
    loads
        Of the cycle judged.
    temperatures
        Of this cylinder's parts.
    breath
        How this cylinder breathed; None where its gas was not traced.
    climb
        What the shaft has at the spark of this cylinder's first combustion, and what its way to top
        takes; None where that was not followed.
    resting_hours
        Since assembly, for what creeps and relaxes.
    recorded
        Whether its numbers know how they are found (see `firstfire.engine.working`).
    instead
        Numbers by name that stand in for what is given in a recorded moment: of a worked example.
    """

    engine: PlainEngine
    event: str
    seconds: float
    cycles: float
    cylinder: int
    peak_pressure: float
    crankcase_pressure: float
    speed: float
    loads: Loads
    temperatures: Temperatures
    resting_hours: float = 12.0
    breath: Breath | None = None
    climb: Climb | None = None
    recorded: bool = False
    instead: Mapping[str, float] = field(default_factory=dict)

    @property
    def parts(self) -> CylinderParts:
        """Parts of the cylinder judged."""
        return self.engine.cylinders[self.cylinder]

    @property
    def gas_pressure(self) -> float:
        """Peak gas pressure above the crankcase, Pa; never negative."""
        above = max(self.peak_pressure - self.crankcase_pressure, 0.0)
        return self.given("gas_pressure", above)

    def given(self, name: str, value: float) -> float:
        """A number that a working begins from: the same, and where it is recorded, with its name.

        Parameters
        ----------
        name
            A path of the engine file, or what `firstfire.parts.inputs` lists.
        value
            SI.
        """
        return put_in(name, self.instead.get(name, value)) if self.recorded else value
