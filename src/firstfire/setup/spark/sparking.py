"""All of an engine's spark in one record."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firstfire.engine.coils import paired
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.runs.cranking import Cranked, cranked
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.start.kick_back import kick_back
from firstfire.runs.walls import assumed_warm
from firstfire.setup.spark.advance_table import advance_table, start_angle
from firstfire.setup.spark.angles import STALLS, cranked_angle, running_angle
from firstfire.setup.spark.circuit import GIVES_MOST, Circuit, circuit
from firstfire.setup.spark.edge_below import edge_below
from firstfire.setup.spark.facts import SparkFacts
from firstfire.setup.spark.faults import faults
from firstfire.setup.spark.leads import leads
from firstfire.setup.spark.plug import Gas, Jump, cranked_gas, jump, running_gas
from firstfire.setup.spark.supplied import left_at_cranking
from firstfire.setup.spark.triggers import points_set, sensor_set
from firstfire.setup.spark.wasted import wasted

Stop = Callable[[], bool]
_TURN = 2.0 * np.pi
_RPM = np.pi / 30


@dataclass(frozen=True)
class Sparking(SparkFacts):
    """What fires an engine, and when; prints well, and gives JSON."""

    def __str__(self) -> str:
        from firstfire.setup.spark.text import spark_text

        return spark_text(self)

    def to_json(self) -> str:
        """As ``firstfire.spark/1``: SI, units in field names."""
        from firstfire.setup.spark.contract import spark_json

        return spark_json(self)


def spark(engine: Engine, *, table: bool = True, stop: Stop | None = None) -> Sparking:
    """All about the spark of `engine`: estimates.

    Parameters
    ----------
    engine
        As written down.
    table
        Whether advance is worked out over speed and load too.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    FirstfireError
        Where the engine can't be turned or fired as the file says.
    Stopped
        If `stop` said so.
    """
    plain = resolve(engine)
    feeds = circuit(plain)
    trigger = points_set(plain, feeds) if plain.spark.source == "points" else sensor_set(plain)
    turned = cranked(plain, stop=stop)
    left = left_at_cranking(plain, turned)
    kick = kick_back(plain, turned.shaft, stop)
    points, notes = _points(plain, stop)
    angles = (cranked_angle(plain, turned), *(running_angle(plain, p, p.name) for p in points))
    jumps = (_cranked_jump(plain, feeds, turned, left), *(
        _running_jump(plain, feeds, point) for point in points
    ))  # fmt: skip
    worked = advance_table(engine, plain, kick, stop=stop) if table else None
    most = max(GIVES_MOST * feeds.gives(10.0, feeds.voltage), 1.0)
    return Sparking(
        engine=engine, plain=plain, trigger=trigger, angles=angles,
        edge_below=edge_below(plain, stop), circuit=feeds, left=left, jumps=jumps,
        wasted=wasted(plain), leads=leads(plain, min(most, feeds.clamp * feeds.turns)), kick=kick,
        start=start_angle(plain, kick), cranked=turned, table=worked,
        faults=faults(feeds, jumps, trigger),
        notes=notes if worked is None else (*notes, *worked.notes),
    )  # fmt: skip


def _points(plain: PlainEngine, stop: Stop | None) -> tuple[list[OperatingPoint], tuple[str, ...]]:
    """Its held points at full throttle, and what can't be held."""
    found, notes = list[OperatingPoint](), list[str]()
    for speed in plain.use.full_throttle_speeds:
        name = f"{speed / _RPM:.0f} rpm"
        try:
            found.append(
                operating_point(plain, "full_throttle", name, speed, assumed_warm(plain),
                                spark_angle(plain, speed, starting=False), with_peaks=False,
                                stop=stop)
            )  # fmt: skip
        except OutsideValidity as why:
            notes.append(f"{name} is not judged: {why}")
    return found, tuple(notes)


def _cranked_jump(plain: PlainEngine, feeds: Circuit, turned: Cranked, left: float) -> Jump:
    around = plain.surroundings
    other = Gas(around.air_pressure, around.air_temperature) if paired(plain) else None
    gap = max(parts.plug.gap for parts in plain.cylinders)
    why = "" if turned.over else f"{STALLS}."
    gas = cranked_gas(plain, turned)
    return jump("cranked", turned.mean_speed, gap, gas, other, feeds, left, why)


def _running_jump(plain: PlainEngine, feeds: Circuit, point: OperatingPoint) -> Jump:
    after = spark_angle(plain, point.speed, starting=False)
    gas = running_gas(plain, point, after)
    other = running_gas(plain, point, after, _TURN) if paired(plain) else None
    gap = max(parts.plug.gap for parts in plain.cylinders)
    return jump(point.name, point.speed, gap, gas, other, feeds, feeds.voltage)
