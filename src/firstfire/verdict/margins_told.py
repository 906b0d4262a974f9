"""Margins, run times and the verdict in their JSON contract."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves, split
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.records import Way
from firstfire.verdict.contract import (
    DependenceTold,
    EffortTold,
    EnderTold,
    MarginTold,
    RaiseTold,
    RunCurveTold,
    RunTimeTold,
    WorkingTold,
)
from firstfire.verdict.lasting import Lasting
from firstfire.verdict.margin import Margin, Raised, RunTime


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None


def told_margin(margin: Margin, way: Way, engine: Engine, read: Sequence[str]) -> MarginTold:
    """One margin as the contract has it, with its way opened and the paths that it reads."""
    return MarginTold(
        id=way.id,
        part=way.part,
        failure=way.failure,
        event=margin.event,
        point=margin.point,
        at_seconds=margin.at_seconds,
        demand=_finite(way.demand),
        capacity=_finite(way.capacity),
        unit=way.unit,
        factor=_finite(margin.factor),
        factor_low=_finite(margin.factor_low),
        factor_high=_finite(margin.factor_high),
        word=margin.word,
        survival_probability=margin.survival,
        ends_fraction=margin.ends,
        hazard=way.hazard,
        reported=margin.reported,
        governs=way.governs,
        temperature_k=_finite(way.temperature),
        formula=way.formula,
        source=way.source,
        inputs={name: _finite(value) for name, value in way.inputs.items()},
        working=[
            WorkingTold(
                name=line.name, expression=line.expression, unit=line.unit, words=line.words
            )
            for line in way.working
        ],
        depends_on=_dependences(margin, engine, read),
        raise_by=[_raise(raised) for raised in margin.raise_by],
        judged=way.judged,
        why_not=way.why_not,
    )


def _dependences(margin: Margin, engine: Engine, read: Sequence[str]) -> list[DependenceTold]:
    """What moves it, largest first, then the rest of what its way reads."""
    moving = {d.path: d.elasticity for d in margin.depends_on}
    paths = [*moving, *(path for path in read if path not in moving)]
    return [_dependence(path, moving.get(path), engine) for path in paths]


def _dependence(path: str, elasticity: float | None, engine: Engine) -> DependenceTold:
    cylinder, plain = split(path)
    leaf = leaves().get(plain)
    if leaf is not None:
        entry = engine.values(cylinder or 1).spoken(plain)
        unit = DIMENSIONS[leaf.dimension].si if leaf.dimension else ""
        number = isinstance(entry.value, int | float) and not isinstance(entry.value, bool)
        return DependenceTold(
            path=path,
            value=float(entry.value) if number else None,
            unit=unit,
            origin=f"{entry.layer}, {entry.kind}",
            source=entry.source,
            elasticity=elasticity,
        )
    if plain.startswith("materials.") and plain.count(".") == 2:
        _, key, prop = plain.split(".")
        datum = engine.catalog.row("material", key)[prop]
        said = engine.stack.top(plain)
        return DependenceTold(
            path=path,
            value=float(said.value) if said else datum.si,
            unit=datum.unit,
            origin=f"{said.layer}, {said.kind}" if said else "catalog, catalog",
            source=said.source if said else f"{datum.source} ({datum.sure})",
            elasticity=elasticity,
        )
    return DependenceTold(
        path=path, value=None, unit="", origin="computed", source="", elasticity=elasticity
    )


def _raise(raised: Raised) -> RaiseTold:
    return RaiseTold(
        text=raised.text,
        set=raised.set,
        factor_after=raised.factor_after,
        next_to_fail=raised.next_to_fail,
        effort=EffortTold(
            print_hours=raised.print_hours, hand_hours=raised.hand_hours, parts=raised.parts
        ),
    )


def told_run_time(limit: RunTime) -> RunTimeTold:
    """One run-time limit as the contract has it."""
    return RunTimeTold(
        event=limit.event,
        point=limit.point,
        id=limit.way.id,
        part=limit.way.part,
        limit=limit.way.failure,
        seconds=limit.seconds,
        seconds_low=limit.seconds_low,
        seconds_high=limit.seconds_high,
        depth_m=limit.depth,
        strength_left=limit.strength_left,
        reported=limit.reported,
        chance_not_reached=limit.chance_not_reached,
    )


def told_lasting(one: Lasting) -> RunCurveTold:
    """How long an event lasts, as the contract has it."""
    return RunCurveTold(
        event=one.event,
        engines_drawn=one.engines,
        horizon_s=one.horizon,
        seconds=list(one.seconds),
        probability=list(one.chance),
        seconds_19_in_20=one.nineteen,
        seconds_even=one.even,
        seconds_1_in_20=one.one,
        takes_away=[
            EnderTold(
                id=ender.id,
                part=ender.part,
                limit=ender.failure,
                probability=ender.share,
                seconds=ender.seconds,
            )
            for ender in one.takes
        ],
    )
