"""What an engine draws at a speed and a throttle, and the fuel that this air asks for."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firstfire.cycle.assembly import steam_share
from firstfire.cycle.gas_table import gas_tables
from firstfire.engine.geometry import swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import atmosphere
from firstfire.runs.idling import throttled
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.walls import assumed_warm

_CYCLE = 4.0 * math.pi


@dataclass(frozen=True)
class Breathed:
    """A steady point as whatever meters its fuel sees it.

    Attributes
    ----------
    speed, throttle
        rad/s, and opening, 0 to 1.
    air
        That each cylinder draws in a cycle, kg, with the steam in it.
    fuel
        That it asks for at the mixture of the file, kg.
    intake
        Mean pressure ahead of each inlet, Pa.
    light
        Whether every cylinder burns it.
    point
        The run.
    """

    speed: float
    throttle: float
    air: tuple[float, ...]
    fuel: tuple[float, ...]
    intake: tuple[float, ...]
    light: bool
    point: OperatingPoint

    @property
    def seconds(self) -> float:
        """Of a cycle, s."""
        return _CYCLE / self.speed

    @property
    def air_flow(self) -> float:
        """Of all cylinders, kg/s."""
        return math.fsum(self.air) / self.seconds

    @property
    def fuel_flow(self) -> float:
        """Of all cylinders, kg/s."""
        return math.fsum(self.fuel) / self.seconds


def breathed(
    plain: PlainEngine,
    speed: float,
    throttle: float,
    *,
    near: Breathed | None = None,
    stop: Callable[[], bool] | None = None,
) -> Breathed:
    """A steady point, its walls taken as those of a running engine.

    Parameters
    ----------
    plain, speed, throttle
        The engine; rad/s; opening, 0 to 1.
    near
        A neighbouring point, to start from.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    OutsideValidity, Stopped
        As :func:`firstfire.runs.point.operating_point`.
    """
    lit = near if near is not None and near.light else None
    point = operating_point(
        throttled(plain, throttle), "full_throttle", "breathing", speed, assumed_warm(plain),
        spark_angle(plain, speed, starting=False), with_peaks=False, stop=stop,
        start=lit.point.fired.cycle.state if lit else None,
        guess=lit.point.fired.burns if lit else None,
    )  # fmt: skip
    return of_point(plain, point, throttle)


def of_point(plain: PlainEngine, point: OperatingPoint, throttle: float) -> Breathed:
    """What a steady point draws.

    Parameters
    ----------
    plain, point, throttle
        The engine; a point of it; its opening, 0 to 1.
    """
    figures = point.fired.cycle.cylinders
    air = tuple(
        figure.volumetric_efficiency * full_of_air(plain, row) for row, figure in enumerate(figures)
    )
    share = fuel_share(plain)
    return Breathed(
        point.speed, throttle, air, tuple(share * mass for mass in air), _intakes(point),
        not point.misfires, point,
    )  # fmt: skip


def full_of_air(plain: PlainEngine, row: int) -> float:
    """Air around that fills the stroke of a cylinder, kg, with its steam."""
    around = plain.surroundings
    density = atmosphere.moist_air_density(
        around.air_pressure, around.air_temperature, around.humidity
    )
    return swept_volume(plain.cylinders[row]) * density


def fuel_share(plain: PlainEngine) -> float:
    """Fuel over air, by mass, of the mixture that the file asks for; the air with its steam."""
    mixture = plain.intake.equivalence_ratio
    gas = gas_tables(plain.fuel, mixture, steam_share(plain))
    return mixture / gas.stoichiometric_air_fuel_ratio


def _intakes(point: OperatingPoint) -> tuple[float, ...]:
    """Mean pressure of each runner, Pa."""
    names = [volume.name for volume in point.fired.spec.volumes]
    curves, count = point.fired.cycle.curves, len(point.fired.spec.cylinders)
    span = curves.angle[-1] - curves.angle[0]
    each = []
    for number in range(1, count + 1):
        pressure = curves.pressure[:, count + names.index(f"runner {number}")]
        each.append(float(np.trapezoid(pressure, curves.angle) / span))
    return tuple(each)
