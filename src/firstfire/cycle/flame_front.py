"""A flame that travels: it takes in eddies at its front, and they burn up behind it.

With m the mass burned, μ what stands unburned within the front, A the front's area, ρ the density
of unburned gas, S its laminar speed, u the speed and ℓ the size of the eddies taken in ::

    dm/dt = ρ A S + μ/τ       dμ/dt = ρ A u (1 − e^−∫dt/τ) − μ/τ       τ = ℓ/S

As the charge is pressed, u grows with ρ^½ and ℓ shrinks with ρ^−¾.

References
----------
J. C. Keck, "Turbulent flame structure and speed in spark-ignition engines", 19th Symposium
(International) on Combustion, 1982, 1451-1466, as in J. B. Heywood, *Internal Combustion Engine
Fundamentals*, McGraw-Hill 1988, section 14.4.2 (from memory).
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import FRONT_HEIGHTS, FRONT_SHARES

STIRRING_POWER, EDDY_POWER = 0.5, -0.75
"""With which powers of density the speed and the size of eddies go."""


@kernel_part
def front_area(cylinder: Any, volume: float, behind: float) -> float:
    """Area of a flame front within a chamber of some volume, with so much of it behind, m²."""
    size = min(max(behind / volume, 0.0), 1.0) ** (1.0 / 3.0)
    along = size * (FRONT_SHARES - 1)
    share = min(int(along), FRONT_SHARES - 2)
    along -= share
    height = volume / cylinder.piston_area
    up = math.log(max(height / cylinder.front_least, 1.0)) / cylinder.front_step
    row = min(int(up), FRONT_HEIGHTS - 2)
    up = min(up - row, 1.0)
    low = (1.0 - along) * cylinder.front[row, share] + along * cylinder.front[row, share + 1]
    row += 1
    high = (1.0 - along) * cylinder.front[row, share] + along * cylinder.front[row, share + 1]
    area: float = ((1.0 - up) * low + up * high) * size * size * volume ** (2.0 / 3.0)
    return area


@kernel
def travel(
    engine: Any, work: Any, event: Any, row: int, within: float, grown: float
) -> tuple[float, float, float]:
    """How fast a travelling flame burns, by what stands unburned within its front.

    Parameters
    ----------
    engine, work, event, row
        As :func:`firstfire.cycle.rates.settle_burning` has them.
    within
        Unburned within the front, kg.
    grown
        ∫ dt/τ since the spark.

    Returns
    -------
    burning, within, grown
        kg/s: burned, and by which what is within grows; 1/τ, 1/s.
    """
    cylinder, here, hot = engine.cylinders[row], work.zone[row], work.zone[engine.volume_count + row]
    kept = (1.0 - event.amount) * (here.mass + hot.mass)
    left = here.mass - kept
    density = here.mass / here.volume
    pressure = here.mass * here.specific / here.volume
    warmer = math.log(here.temperature / event.flame_temperature) * event.flame_temperature_power
    pressed = math.log(pressure / event.flame_pressure) * event.flame_pressure_power
    laminar = event.flame_speed * math.exp(warmer + pressed)
    denser = math.log(density / event.flame_density)
    stirring = event.stirring * math.exp(STIRRING_POWER * denser)
    rate = laminar / (event.eddy * math.exp(EDDY_POWER * denser))
    if left <= 0.0:
        return 0.0, -within * rate, rate
    caught = min(max(within, 0.0), left)
    open_to_it = hot.volume + left / density
    front = density * front_area(cylinder, open_to_it, hot.volume + caught / density)
    burning = front * laminar + caught * rate
    return burning, front * stirring * -math.expm1(-grown) - within * rate, rate
