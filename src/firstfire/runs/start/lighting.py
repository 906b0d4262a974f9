"""What a spark finds in a cylinder, whether that lights, and how it then burns."""

from __future__ import annotations

from copy import deepcopy

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.build import volumes_at
from firstfire.cycle.burn_plan import (
    Charge,
    burn_plan,
)
from firstfire.cycle.flame_plan import Flame, flame_of
from firstfire.cycle.layout import Records, State
from firstfire.cycle.scatter import DELAY_SPREAD, DURATION_SPREAD, stretched
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked, Missed
from firstfire.runs.start.lit import not_lit


def charge_now(engines: Records, state: State, row: int) -> Charge:
    """State of a cylinder's charge at this moment."""
    engine = engines[0]
    at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
    gas = state.values[at : at + layout.VOLUME_SIZE]
    air, fuel, burned = (float(mass) for mass in gas[layout.AIR : layout.BURNED + 1])
    stoichiometric = float(engine["gas"]["stoichiometric_air_fuel_ratio"])
    angle = float(state.values[layout.ANGLE])
    return Charge(
        pressure=float(gas[layout.PRESSURE]),
        temperature=float(gas[layout.TEMPERATURE]),
        volume=float(volumes_at(engines, angle)[row]),
        burned_fraction=burned / (air + fuel + burned),
        equivalence_ratio=fuel / air * stoichiometric if air > 0.0 else 0.0,
    )


class Lighting:
    """Lights charges as they are, cycle by cycle, each burn a little different from the mean.

    Parameters
    ----------
    plain
        Plain numbers.
    engines
        The kernel's record, changed as burns are planned.
    asked
        How it is started.
    """

    def __init__(self, plain: PlainEngine, engines: Records, asked: Asked) -> None:
        self.plain, self.engines, self.asked = plain, engines, asked
        self.drawn = None if asked.seed is None else np.random.default_rng(asked.seed)

    def of(self, engines: Records) -> Lighting:
        """The same for another record, drawing on from here by itself."""
        other = Lighting(self.plain, engines, self.asked)
        other.drawn = deepcopy(self.drawn)
        return other

    def quicker(self) -> tuple[float, float]:
        """Multipliers of this burn's delay and duration."""
        delay, duration = (0.0, 0.0) if self.drawn is None else self.drawn.standard_normal(2)
        strong = self.asked.strong
        return (
            stretched(DELAY_SPREAD, float(delay), strong),
            stretched(DURATION_SPREAD, float(duration), strong),
        )

    def travelling(
        self, row: int, charge: Charge, energy: float, intake_seconds: float
    ) -> Flame | Missed:
        """The flame that a spark lights, or why it lights none.

        Parameters
        ----------
        row
            Of the cylinder.
        charge
            At the spark.
        energy
            Of the coil, J.
        intake_seconds
            How long the piston took to draw it in, s.
        """
        parts = self.plain.cylinders[row]
        delay, _ = self.quicker()
        flame = flame_of(self.plain, parts, charge, intake_seconds, 1.0 / delay)
        why = not_lit(
            self.plain, parts, charge, energy, flame.flame_intensity, flame.flame_length
        )  # fmt: skip
        return flame if why is None else why

    def by_law(
        self, row: int, charge: Charge, angle: float, speed: float
    ) -> tuple[float, float] | None:
        """Wait and length of a burn by Wiebe's law, s; None where it doesn't burn.

        The speed is that of the last turn: it stirred the charge.
        """
        parts = self.plain.cylinders[row]
        burn = burn_plan(self.plain, parts, speed, angle, charge)
        if burn is None:
            return None
        delay, stretch = self.quicker()
        shift = (delay - 1.0) * burn.development
        wait = max(burn.spec.start - angle + shift, 0.0) / speed
        return wait, burn.spec.duration * stretch / speed
