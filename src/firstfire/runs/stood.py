"""An engine that has stood, and is cold: O-rings that stick until they have moved, thick oil."""

from __future__ import annotations

import math
from copy import copy
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.assembly import network
from firstfire.cycle.friction_along import friction_along
from firstfire.cycle.layout import Records
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import bearing_friction
from firstfire.formulas.oil_viscosity import walther
from firstfire.formulas.oring_break_away import break_away
from firstfire.runs.walls import cold

Floats = NDArray[np.float64]

_LOOSE_AFTER = math.pi
"""Turned so far, every piston has made a stroke's way, rad."""
_SET = 1.0
"""An oil that has set is no thicker than this here, m²/s: a million times water. Common practice,
no source."""
_STEPS = 91
_CREEPS = 1e-6
_PER_SPEED = 1e3
"""A speed at which Palmgren's law holds for any oil, rad/s."""


def sticks(plain: PlainEngine, stood: float) -> float:
    """Friction of its rings at the first movement over that of running ones; 1: nothing sticks.

    Parameters
    ----------
    plain
        Plain numbers.
    stood
        s.
    """
    if not any(one.rings.kind == "o_ring" and one.rings.count for one in plain.cylinders):
        return 1.0
    return 1.0 + plain.doubt.friction.stuck * (break_away(stood) - 1.0)


def oil_now(plain: PlainEngine) -> float:
    """Viscosity of a cold engine's oil, or its grease's base oil, m²/s.

    Parameters
    ----------
    plain
        Plain numbers.
    """
    case, cold_at = plain.case, plain.surroundings.air_temperature
    try:
        return min(walther(case.viscosity_40, case.viscosity_100, cold_at), _SET)
    except OutsideValidity:
        return _SET


def thicken(engines: Records, plain: PlainEngine) -> None:
    """Let bearings drag through oil as thick as it is in a cold engine.

    Parameters
    ----------
    engines
        The kernel's record, in which it rubs already; changed.
    plain
        Plain numbers.
    """
    crank = plain.crank
    mean = (crank.main_bearing_bore + crank.main_bearing_outside) / 2
    at_one = bearing_friction.viscous_torque(
        _PER_SPEED, mean, oil_now(plain), bearing_friction.LUBRICATION_GREASE
    )
    drag = crank.main_bearings * at_one / _PER_SPEED ** (2 / 3)
    engines[0]["shaft_rubbing"]["bearing_drag"] = drag


class Stood:
    """Rings of one engine's record that stick, until every piston has made a stroke.

    Parameters
    ----------
    plain
        Plain numbers.
    engines
        The kernel's record, in which it rubs already; changed until they are loose.
    begins
        Where it stands, rad.
    acts
        Whether it stands at all.
    """

    def __init__(
        self, plain: PlainEngine, engines: Records, begins: float, *, acts: bool = True
    ) -> None:
        self.engines, self.begins = engines, begins
        self.factor = sticks(plain, plain.use.stood) if acts else 1.0
        self.acts = self.factor > 1.0
        self.doubts = [
            float(engines[0]["rubbing"]["ring_doubt"][row]) for row in range(len(plain.cylinders))
        ]
        for row, one in enumerate(plain.cylinders):
            if self.acts and one.rings.kind == "o_ring":
                engines[0]["rubbing"]["ring_doubt"][row] = self.factor * self.doubts[row]

    @property
    def until(self) -> float:
        """Angle, going forwards, at which they are loose, rad; infinite once they are."""
        return self.begins + _LOOSE_AFTER if self.acts else math.inf

    def of(self, engines: Records) -> Stood:
        """The same for another record."""
        other = copy(self)
        other.engines = engines
        return other

    def feel(self, angle: float) -> None:
        """Be loose where the shaft has come far enough, either way, rad."""
        if self.acts and abs(angle - self.begins) >= _LOOSE_AFTER - 1e-6:
            for row, doubt in enumerate(self.doubts):
                self.engines[0]["rubbing"]["ring_doubt"][row] = doubt
            self.acts = False


@dataclass(frozen=True)
class BreakLoose:
    """What breaking an engine loose takes, at the crank.

    Attributes
    ----------
    stood
        How long it has stood, s.
    factor
        Friction of its rings at the first movement over that of running ones.
    asks, gives
        Most torque of friction within the first half turn, with no pressure over the pistons, and
        what the starter gives at a stand, N·m.
    """

    stood: float
    factor: float
    asks: float
    gives: float

    @property
    def lacks(self) -> float:
        """Torque that the starter lacks, N·m; 0 where it breaks it loose."""
        return max(self.asks - self.gives, 0.0)


def break_loose(
    plain: PlainEngine, shaft: ShaftSpec, begins: float, stood: float | None = None
) -> BreakLoose:
    """What breaking an engine loose takes, and what its starter gives.

    Parameters
    ----------
    plain
        Plain numbers.
    shaft
        What turns it.
    begins
        Where it stands, rad after firing top centre of cylinder 1.
    stood
        How long, s; None: as the file has it.
    """
    stood = plain.use.stood if stood is None else stood
    factor = sticks(plain, stood)
    way = math.copysign(1.0, shaft.starter_stall)
    angle = begins + way * np.linspace(0.0, _LOOSE_AFTER, _STEPS)
    torque = _creeping(_stuck(plain, factor), angle)
    return BreakLoose(stood, factor, float(torque.max()) + shaft.friction, abs(shaft.starter_stall))


def _stuck(plain: PlainEngine, factor: float) -> PlainEngine:
    """The same with rings that hold so many times more."""
    ring = plain.doubt.friction.ring * factor
    friction = plain.doubt.friction.model_copy(update={"ring": ring})
    return plain.model_copy(update={"doubt": plain.doubt.model_copy(update={"friction": friction})})


def _creeping(plain: PlainEngine, angle: Floats) -> Floats:
    """Friction of an engine that hardly moves, the air around on both sides of its pistons, N·m."""
    spec = network(plain, cold(plain), (None,) * len(plain.cylinders))
    rooms = len(spec.cylinders) + len(spec.volumes)
    air = np.full((len(angle), rooms), plain.surroundings.air_pressure)
    still: Any = SimpleNamespace(
        angle=angle, speed=np.full(len(angle), _CREEPS), pressure=air
    )  # all that friction asks of a cycle
    return friction_along(plain, spec, still).torque
