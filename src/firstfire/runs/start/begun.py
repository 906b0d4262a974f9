"""What a start begins with: the engine's cold network and the sparks it asks for."""

from __future__ import annotations

import math
from dataclasses import replace

from firstfire.cycle.assembly import network
from firstfire.cycle.records import EngineSpec, ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.decompression import with_holes
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.vapour import richest
from firstfire.runs.walls import cold

_LEANEST, _RICHEST = 0.4, 1.8


def network_of(plain: PlainEngine, asked: Asked, shaft: ShaftSpec) -> EngineSpec:
    """Volumes and passages of a cold engine that draws its mixture in, as rich as that can be."""
    wanted = plain.intake.equivalence_ratio if asked.mixture is None else asked.mixture
    can_be = math.inf if asked.in_time or not asked.evaporated else richest(plain)
    if wanted != plain.intake.equivalence_ratio or can_be < wanted:
        intake = plain.intake.model_copy(update={"equivalence_ratio": min(wanted, can_be)})
        plain = plain.model_copy(update={"intake": intake})
    nothing = (None,) * len(plain.cylinders)
    spec = network(plain, cold(plain), nothing, asked.throttle, first=True)
    # What burns does so by tables of one mixture, which no mixture out of an engine's reach has.
    burns = min(max(spec.equivalence_ratio, _LEANEST), _RICHEST)
    return with_holes(replace(spec, shaft=shaft, equivalence_ratio=burns), plain)


def without_fuel(spec: EngineSpec) -> EngineSpec:
    """The same with nothing but air before its cylinders."""
    return replace(
        spec, volumes=tuple(replace(volume, equivalence_ratio=0.0) for volume in spec.volumes)
    )


def spark_at(plain: PlainEngine, advance: float | None) -> PlainEngine:
    """The engine with its spark set to one angle before top centre, rad; None: as it is."""
    if advance is None:
        return plain
    held = {"start_angle": advance, "running_angle": advance, "advance_table": None}
    return plain.model_copy(update={"spark": plain.spark.model_copy(update=held)})
