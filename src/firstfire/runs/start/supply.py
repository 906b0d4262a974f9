"""What a starter leaves of its battery for a coil that hangs on it."""

from __future__ import annotations

import math

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.battery import Battery, battery_of
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.ignition_coil import energy_at


class Supply:
    """What feeds an engine's sparks while its starter turns it.

    Parameters
    ----------
    plain
        Plain numbers.
    shaft
        What turns it.

    Notes
    -----
    A coil is charged within a few milliseconds before its spark, in which the shaft's speed, and
    with it the current, hardly change: the voltage at the spark counts.
    """

    def __init__(self, plain: PlainEngine, shaft: ShaftSpec) -> None:
        shared = plain.spark.coil_on == "starter_battery"
        self.battery: Battery | None = battery_of(plain.starter) if shared else None
        self.free = shaft.starter_free

    def energy(self, energy: float, turns: float, *, on: bool) -> float:
        """Energy of a spark, J.

        Parameters
        ----------
        energy
            That it would have of a battery without current, J.
        turns
            Speed of the starter's rotor as the crank would have it, rad/s.
        on
            Whether the starter draws current.
        """
        if self.battery is None or not on or energy <= 0.0:
            return energy
        left = self.battery.left(math.copysign(1.0, self.free) * turns, abs(self.free))
        return energy_at(energy, left, self.battery.voltage)
