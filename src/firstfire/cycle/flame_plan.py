"""What a travelling flame starts with: its chamber, its charge's speed, how that was stirred."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.burn_plan import Charge, flame_speed, with_steam
from firstfire.cycle.layout import FRONT_HEIGHTS, FRONT_SHARES, Records
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import flame_shape, laminar_speed, turbulent_flame

Floats = NDArray[np.float64]

_DEEP = 3e-3
"""How far a plug's gap reaches into the chamber, m, up to half of its height. Common practice, no
source."""
_ROUND = (36.0 * math.pi) ** (1.0 / 3.0)


@dataclass(frozen=True)
class Flame:
    """What a flame goes by from its spark on, by the names of the kernel's record."""

    flame_speed: float
    flame_temperature_power: float
    flame_pressure_power: float
    flame_intensity: float
    flame_length: float
    flame_density: float

    def put_in(self, events: Records, row: int) -> None:
        """Write it into what happened last in a cylinder."""
        events["flame"][row] = 1
        for one in fields(self):
            events[one.name][row] = getattr(self, one.name)


def let_travel(engines: Records, plain: PlainEngine) -> None:
    """Give each cylinder of an engine's record the table of its flame's front.

    Parameters
    ----------
    engines
        Record of the engine's network; changed.
    plain
        Plain numbers of the same engine.
    """
    for row, parts in enumerate(plain.cylinders):
        bore = parts.cylinder.bore
        swept = swept_volume(parts)
        least = swept / (parts.cylinder.compression_ratio - 1) / (math.pi / 4 * bore**2)
        form, step = _front(bore, parts.plug.offset, least, parts.cylinder.compression_ratio)
        record = engines[0]["cylinders"]
        record["front"][row] = form
        record["front_least"][row] = least
        record["front_step"][row] = step


@lru_cache(maxsize=64)
def _front(bore: float, offset: float, least: float, most: float) -> tuple[Floats, float]:
    """Form of a flame's front by height and share, and step of the logarithm of height.

    Parameters
    ----------
    bore, offset, least
        Of the chamber, of its plug, and its height at top, m.
    most
        Greatest height over that.
    """
    along = np.linspace(0.0, 1.0, FRONT_SHARES)
    shares = along**3 / (along**3 + (1.0 - along) ** 3)
    heights = np.geomspace(least, most * least, FRONT_HEIGHTS)
    front = flame_shape.front_area_table(bore, offset, min(_DEEP, 0.5 * least), heights, shares)
    volumes = (heights * (math.pi / 4 * bore**2))[:, None] ** (2.0 / 3.0)
    # Where nothing has burned yet the flame is a sphere; what is left at the end is a sliver at the
    # far wall, as high as the chamber: its front goes with the cube root of its volume.
    form = np.full((FRONT_HEIGHTS, FRONT_SHARES), _ROUND)
    inner = slice(1, -1)
    flat = np.cbrt(shares[inner]) ** 2 * np.cbrt(1.0 - shares[inner])
    form[:, inner] = front[:, inner] / (volumes * flat)
    form[:, -1] = form[:, -2]
    return form, math.log(most) / (FRONT_HEIGHTS - 1)


def flame_of(
    plain: PlainEngine,
    parts: CylinderParts,
    charge: Charge,
    intake_seconds: float,
    quicker: float = 1.0,
) -> Flame:
    """The flame that a charge would burn with.

    Parameters
    ----------
    plain, parts
        Plain numbers.
    charge
        At the spark.
    intake_seconds
        How long its piston took for the way down that drew it in, s.
    quicker
        How much faster than the mean this one is, all of it.
    """
    diluted = with_steam(plain, charge)

    def fit(_: float, temperature: float, pressure: float) -> float:
        return flame_speed(plain.fuel, diluted, temperature, pressure)

    law = laminar_speed.power_law(fit, charge.equivalence_ratio, 1.0)
    quick = quicker / plain.doubt.burn_duration
    piston_speed = parts.cylinder.stroke / intake_seconds
    clearance = swept_volume(parts) / (parts.cylinder.compression_ratio - 1)
    height = clearance / (math.pi / 4 * parts.cylinder.bore**2)
    return Flame(
        flame_speed=law.speed * quick,
        flame_temperature_power=law.temperature_power,
        flame_pressure_power=law.pressure_power,
        flame_intensity=quick * turbulent_flame.intensity_at_top(piston_speed),
        flame_length=turbulent_flame.integral_length_at_top(height),
        flame_density=charge.pressure / (287.0 * charge.temperature),
    )
