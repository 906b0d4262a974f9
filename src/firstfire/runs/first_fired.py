"""A first combustion from cranking, as a bout with cold walls."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from firstfire.cycle.friction_along import friction_along
from firstfire.engine.records import GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.bout import Bout, at_rest
from firstfire.runs.point import OperatingPoint, displacement_of
from firstfire.runs.start.first_combustion import FirstCombustion, first_combustions
from firstfire.runs.traces import gas_cycles
from firstfire.runs.walls import cold

_RPM = math.pi / 30


def first_fired(
    plain: PlainEngine,
    name: str = "",
    *,
    event: str = "first_fire",
    quicker: float = 1.0,
    stop: Callable[[], bool] | None = None,
) -> Bout:
    """One combustion of each cylinder from cranking, with cold walls.

    Its point has the cycle that cylinder 1 is lit first in; figures, peaks, burns and gas of each
    cylinder are those of the cycle that it is lit first in itself.

    Parameters
    ----------
    plain
        Plain numbers.
    name
        Of the point; "" for the event and its speed before top.
    event
        That it belongs to.
    quicker
        Times the starter's torque and speed, as it happens to turn.
    stop
        Asked at least every 0.1 s.
    """
    each = first_combustions(plain, quicker=quicker, stop=stop)
    fired = each[0].fired
    cycle = replace(
        fired.cycle,
        cylinders=tuple(one.fired.cycle.cylinders[row] for row, one in enumerate(each)),
    )
    slowest = min(each, key=lambda one: one.speed)
    point = OperatingPoint(
        event=event,
        name=name or f"{event.replace('_', ' ')} at {slowest.speed / _RPM:.0f} rpm before top",
        speed=slowest.speed,
        walls=cold(plain),
        spark=slowest.spark,
        fired=replace(
            fired, cycle=cycle, burns=tuple(one.fired.burns[row] for row, one in enumerate(each))
        ),
        peaks=tuple(one.peaks for one in each),
        friction=friction_along(plain, fired.spec, fired.cycle.curves),
        displacement=displacement_of(fired.spec),
        walls_worked_out=True,
    )
    gases = tuple(_gas(plain, point, row, one) for row, one in enumerate(each))
    return replace(at_rest(plain, point, horizon=0.0), gases=gases)


def _gas(plain: PlainEngine, point: OperatingPoint, row: int, lit: FirstCombustion) -> GasCycle:
    """A cylinder's gas, as that meets a shaft of the speed it has at the spark.

    The combustion throws the shaft on, and the end of its cycle, laid against its beginning, would
    be a blow that is none. A slower piston takes less from the gas's force.
    """
    gas = gas_cycles(replace(point, fired=lit.fired), plain)[row]
    return replace(gas, speed=np.full_like(gas.speed, lit.speed))
