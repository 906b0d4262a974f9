"""A flame that travels: it takes in eddies at its front, and they burn up behind it.

The law is Tabaczynski's, of :mod:`firstfire.formulas.turbulent_flame`, followed step by step with
the front's area from a table of the chamber. (Blizard and Keck's burns eddies up in a time that no
speed changes: their engine is not burned by 130° after top at 3000 rpm, where real ones are.)
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import FRONT_HEIGHTS, FRONT_SHARES
from firstfire.formulas import gas_transport, laminar_speed, turbulent_flame
from firstfire.formulas.laminar_speed import PowerLaw

rates_of_flame = kernel_part(turbulent_flame.tabaczynski_rates)
intensity_now = kernel_part(turbulent_flame.pressed_intensity)
length_now = kernel_part(turbulent_flame.pressed_length)
microscale = kernel_part(turbulent_flame.taylor_microscale)
laminar_now = kernel_part(laminar_speed.power_law_speed)
viscosity_of = kernel_part(gas_transport.viscosity)


@kernel_part
def front_area(cylinder: Any, volume: float, behind: float) -> float:
    """Area of a flame front within a chamber of some volume, with so much of it behind, m²."""
    part = min(max(behind / volume, 0.0), 1.0)
    size, rest = part ** (1.0 / 3.0), (1.0 - part) ** (1.0 / 3.0)
    along = size / (size + rest) * (FRONT_SHARES - 1)
    share = min(int(along), FRONT_SHARES - 2)
    along -= share
    height = volume / cylinder.piston_area
    up = math.log(max(height / cylinder.front_least, 1.0)) / cylinder.front_step
    row = min(int(up), FRONT_HEIGHTS - 2)
    up = min(up - row, 1.0)
    low = (1.0 - along) * cylinder.front[row, share] + along * cylinder.front[row, share + 1]
    row += 1
    high = (1.0 - along) * cylinder.front[row, share] + along * cylinder.front[row, share + 1]
    area: float = ((1.0 - up) * low + up * high) * size * size * rest * volume ** (2.0 / 3.0)
    return area


@kernel
def travel(engine: Any, work: Any, event: Any, row: int, within: float) -> tuple[float, float]:
    """How fast a travelling flame burns, and by how much what is within it grows, kg/s.

    Parameters
    ----------
    engine, work, event, row
        As :func:`firstfire.cycle.rates.settle_burning` has them.
    within
        Unburned within the front, kg.
    """
    cylinder, here, hot = (
        engine.cylinders[row],
        work.zone[row],
        work.zone[engine.volume_count + row],
    )
    left = here.mass - (1.0 - event.amount) * (here.mass + hot.mass)
    if left <= 0.0:
        return 0.0, 0.0
    density = here.mass / here.volume
    pressure = here.mass * here.specific / here.volume
    law = PowerLaw(
        event.flame_speed, event.flame_temperature_power, event.flame_pressure_power
    )  # fmt: skip
    laminar = laminar_now(law, here.temperature, pressure)
    intensity = intensity_now(event.flame_intensity, density, event.flame_density)
    length = length_now(event.flame_length, density, event.flame_density)
    finest = microscale(length, intensity, viscosity_of(here.temperature, 0.0) / density)
    caught = min(max(within, 0.0), left)
    area = front_area(cylinder, hot.volume + left / density, hot.volume + caught / density)
    burning, growth = rates_of_flame(caught, density, area, laminar, intensity, finest)
    return burning, growth
