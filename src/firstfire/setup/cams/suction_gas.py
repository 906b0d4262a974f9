"""What the gas does to a suction-opened inlet in the middle of the stroke, reckoned steady."""

from __future__ import annotations

import math

import numpy as np

from firstfire.engine.geometry import mechanism
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank, suction_valve


def drawn_in(plain: PlainEngine, speed: float) -> tuple[float, float]:
    """Volume that the piston draws in where it is fastest, m³/s, and density of the air, kg/m³."""
    parts, air = plain.cylinders[0], plain.surroundings
    lengths = mechanism(parts)
    fastest = max(
        abs(slider_crank.piston_height_slope(a, *lengths)) for a in np.linspace(0.0, math.pi, 91)
    )
    drawn = fastest * speed * math.pi / 4 * parts.cylinder.bore**2
    return float(drawn), air.air_pressure / (287.05 * air.air_temperature)


def hovering(plain: PlainEngine, speed: float) -> float:
    """Lift at which gas and spring balance where the piston draws fastest, m.

    Gap and area as the run has them: the pressure that is lost acts on the whole head.
    """
    valve, (drawn, density) = plain.cylinders[0].valves.inlet, drawn_in(plain, speed)
    edge = 0.6 * valve.flow_coefficient * math.pi * valve.throat_diameter
    return suction_valve.hovering_lift(
        valve.spring_preload, valve.spring_rate, drawn, edge * math.cos(valve.seat_angle),
        math.pi / 4 * valve.head_diameter**2, density,
    )  # fmt: skip


def flow_area(plain: PlainEngine) -> float:
    """What a suction-opened inlet passes on its stop, m², coefficient included."""
    valve = plain.cylinders[0].valves.inlet
    throat = math.pi / 4 * (valve.throat_diameter**2 - valve.stem_diameter**2)
    curtain = math.pi * valve.throat_diameter * valve.lift * math.cos(valve.seat_angle)
    return 0.6 * valve.flow_coefficient * min(curtain, throat)  # 0.6: Heywood, section 6.3
