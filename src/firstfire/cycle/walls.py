"""Heat from the gas to crown, head, valves and liner, within a step.

The coefficient is one of the published correlations at the mass-mean gas temperature, times a
doubt factor. Each surface has its own temperature; the liner counts as far as it is exposed.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 12.4; its
viscosity of air, Eq. 4.53, and a Prandtl number of 0.7 feed Annand (from memory).
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import ANNAND, HOHENBERG, NO_WALL_HEAT, WOSCHNI
from firstfire.formulas import wall_heat

woschni_gas_speed = kernel(wall_heat.woschni_gas_speed)
hohenberg = kernel(wall_heat.hohenberg)
annand = kernel(wall_heat.annand)
annand_radiation = kernel(wall_heat.annand_radiation)

C1_OPEN = wall_heat.WOSCHNI_GAS_EXCHANGE[0]
C1_CLOSED = wall_heat.WOSCHNI_CLOSED[0]
C2_BURNING = wall_heat.WOSCHNI_BURNING[1]

ANNAND_INTENSITY = 0.49
"""Annand's a, between 0.35 and 0.8."""

PRANDTL = 0.7


@kernel_part
def motored_pressure(cylinder: Any, event: Any, volume: float) -> float:
    """Pressure without burning: a polytrope from the closing of the last valve, Pa."""
    rise = cylinder.motored_exponent * math.log(event.reference_volume / volume)
    pressure: float = event.reference_pressure * math.exp(rise)
    return pressure


@kernel
def wall_coefficient(
    cylinder: Any,
    event: Any,
    volume: float,
    pressure: float,
    temperature: float,
    mass: float,
    heat_capacity: float,
    piston_speed: float,
) -> float:
    """Coefficient of heat to the walls by the cylinder's chosen correlation, W/(m² K).

    Parameters
    ----------
    cylinder, event
        Its engine, and what happened at its last events.
    volume, pressure, temperature, mass
        Of all its gas; m³, Pa, K (mass mean), kg.
    heat_capacity
        Of all its gas at constant pressure, J/K.
    piston_speed
        Mean piston speed, m/s.
    """
    if cylinder.wall_law == NO_WALL_HEAT:
        return 0.0
    coefficient = 0.0
    if cylinder.wall_law == WOSCHNI:
        c1 = C1_CLOSED if event.closed == 1 else C1_OPEN
        c2 = 0.0
        motored = pressure
        if event.fired == 1:
            c2 = C2_BURNING
            motored = motored_pressure(cylinder, event, volume)
        gas_speed = woschni_gas_speed(
            c1,
            c2,
            piston_speed,
            cylinder.displacement,
            event.reference_temperature,
            event.reference_pressure,
            event.reference_volume,
            pressure,
            motored,
        )
        # woschni() of formulas/wall_heat: (p w)^0.8 T^-0.55 as the twentieth root of one number.
        driven = (pressure * gas_speed) ** 16 / temperature**11
        coefficient = cylinder.woschni_scale * math.exp(0.05 * math.log(driven))
    elif cylinder.wall_law == HOHENBERG:
        coefficient = hohenberg(volume, pressure, temperature, piston_speed)
    elif cylinder.wall_law == ANNAND:
        viscosity = 3.3e-7 * temperature**0.7
        conductivity = viscosity * heat_capacity / mass / PRANDTL
        coefficient = annand(
            cylinder.bore, mass / volume, viscosity, conductivity, piston_speed, ANNAND_INTENSITY
        )
    scaled: float = cylinder.wall_doubt * coefficient
    return scaled


@kernel_part
def radiated_flux(cylinder: Any, event: Any, temperature: float, wall_temperature: float) -> float:
    """Radiation to a wall, W/m²: with Annand's correlation from the start of burning on."""
    if cylinder.wall_law != ANNAND or event.fired == 0:
        return 0.0
    flux: float = cylinder.wall_doubt * annand_radiation(temperature, wall_temperature, 0.075)
    return flux


@kernel_part
def exposed_liner(cylinder: Any, volume: float) -> float:
    """Liner area the gas sees, m²: that of a plain cylinder of this bore and volume."""
    area: float = math.pi * cylinder.bore * volume / cylinder.piston_area
    return area
