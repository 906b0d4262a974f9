"""What befalls a start on its way: false edges, a controller that resets, a joint that slips."""

from __future__ import annotations

import math
from copy import copy, deepcopy

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.layout import Records
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.crank_layout import throws
from firstfire.loads.masses import rotating_inertia
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.slip import Joint, Slip, cam_later, gas_torque_along, opens_at, slipped

_BOOTS = 0.1
"""From when its voltage is back until a controller looks at its sensor, s. Common practice, no
source."""
_STREAM = 77
_TIME, _ANGLE, _SPEED, _ROTOR, _PRESSURES = 0, 1, 2, 3, 4
# Columns of a start's rows.
_WORTH = 1e-4
"""What a joint has slipped further is handed on from so much, rad."""


class Mishaps:
    """What befalls an engine while it is started.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How it is started; its seed is that of the false edges too.
    engines
        The kernel's record, whose cams come later where a joint slips.
    shaft
        What turns it.
    """

    def __init__(
        self, plain: PlainEngine, asked: Asked, engines: Records, shaft: ShaftSpec
    ) -> None:
        wrong = asked.wrong
        self.asked, self.engines, self.shaft = asked, engines, shaft
        self.air = plain.surroundings.air_pressure
        self.cylinders = len(plain.cylinders)
        self.chance = np.random.default_rng([_STREAM, asked.seed or 0])
        self.next_stray = math.inf
        self.another_stray(0.0)
        self.lost_at = -math.inf
        self.slip, self.handed_on = Slip(), 0.0
        self.opens, self.last = opens_at(engines), np.empty((0, 0))
        own = sum(rotating_inertia(plain, throw.cylinders) for throw in throws(plain))
        self.joint = Joint(wrong.slips_at, own, max(shaft.inertia - own, own))

    def of(self, engines: Records) -> Mishaps:
        """The same for another record, going on from here by itself."""
        other = copy(self)
        other.engines, other.chance = engines, deepcopy(self.chance)
        return other

    @property
    def slipped(self) -> float:
        """By how much what times it comes later than the pistons, rad."""
        return self.handed_on

    def another_stray(self, now: float) -> None:
        """Draw when the next false edge comes."""
        rate = self.asked.wrong.stray
        self.next_stray = now + float(self.chance.exponential(1.0 / rate)) if rate else math.inf

    def awake(self, now: float) -> bool:
        """Whether a controller's voltage has been enough for long enough."""
        return now - self.lost_at > _BOOTS

    def feel_starter(self, rows: NDArray[np.float64]) -> None:
        """Note when the starter last drew so much that the controller lost its voltage.

        Parameters
        ----------
        rows
            Of the last steps: time, angle, speed, rotor and pressures.
        """
        turns = rows[:, _ROTOR] if self.shaft.rotor > 0.0 else rows[:, _SPEED]
        low = np.flatnonzero(1.0 - turns / self.shaft.starter_free >= self.asked.wrong.resets_at)
        if low.size:
            self.lost_at = float(rows[low[-1], _TIME])

    def feel_joint(self, rows: NDArray[np.float64]) -> bool:
        """Let the joint slip along the last steps; whether what it times comes elsewhere now.

        Parameters
        ----------
        rows
            As `feel_starter` has them.
        """
        if math.isinf(self.joint.holds) or not len(rows):
            return False
        rows = np.concatenate([self.last, rows]) if len(self.last) else rows
        self.last = rows[-1:]
        pressure = rows[:, _PRESSURES : _PRESSURES + self.cylinders]
        torque = gas_torque_along(self.engines, rows[:, _ANGLE], pressure, self.air)
        self.slip = slipped(self.joint, self.slip, rows[:, _TIME], torque)
        if abs(self.slip.angle - self.handed_on) < _WORTH:
            return False
        self.handed_on = self.slip.angle
        cam_later(self.engines, self.opens, self.handed_on)
        return True
