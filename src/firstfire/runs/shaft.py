"""A shaft that a starter turns against the torque of a cycle, marched by its energy."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

CYCLE = 4 * math.pi
STEPS = 360
"""Even steps of one cycle: 2° each."""


@dataclass(frozen=True)
class Shaft:
    """What turns and what holds back, on even steps of one cycle from its beginning, 0 to 4π.

    Attributes
    ----------
    against
        Torque that gas and friction take at each step, N·m.
    stall, free
        Starter at the crank: torque at a stand, N·m, and speed at which it gives none, rad/s.
    inertia
        kg·m².
    stroke
        Angle through which it pulls, rad; infinite but for a rope.
    overruns
        Whether the crank may turn faster than it; else it brakes.
    """

    against: Floats
    stall: float
    free: float
    inertia: float
    stroke: float
    overruns: bool

    def march(self, start: float, speed: float, steps: int) -> tuple[Floats, int]:
        """Speed after each step from an angle, and how many steps it makes before it stands.

        Each step solves ½ I (ω² - ω₀²) = (T(1 - ω/ω_f) - R) dθ for the new ω: it stands where even
        the torque at a stand doesn't carry it on.
        """
        step = CYCLE / STEPS
        first = round(start % CYCLE / step)
        found = np.zeros(steps)
        gain = 2 * step / self.inertia
        for at in range(steps):
            against = float(self.against[(first + at) % STEPS])
            pulls = at * step < self.stroke
            alone = speed**2 - gain * against
            left = alone + gain * self.stall if pulls else alone
            if left <= 0.0:
                return found, at
            slope = 0.5 * gain * self.stall / self.free if pulls else 0.0
            driven = math.sqrt(slope**2 + left) - slope
            if pulls and driven > self.free and self.overruns:
                driven = max(self.free, math.sqrt(max(alone, 0.0)))
            speed = found[at] = driven
        return found, steps
