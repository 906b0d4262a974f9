"""The least gaps of a cylinder's valves, as drawn and when something is not as drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.runs import valve_gaps
from firstfire.runs.start.faults.fault import a_tooth
from firstfire.runs.tooth_off import TEETH, gaps_to_piston
from firstfire.runs.valve_gaps import Gap
from firstfire.setup.cams.numbers import top_speed


@dataclass(frozen=True)
class Case:
    """One way that it may be put together or run.

    Attributes
    ----------
    id, words
        Fixed, and as a person says it.
    gap
        The least gap then, and where.
    """

    id: str
    words: str
    gap: Gap


def cases(plain: PlainEngine, cylinder: int, lash: float | None = None) -> tuple[Case, ...]:
    """Every gap that matters, of one cylinder.

    Parameters
    ----------
    plain, cylinder
        The engine, and which from 0.
    lash
        As measured, m; None: nothing was.
    """
    return tuple(_cases(plain, cylinder, lash))


def _cases(plain: PlainEngine, cylinder: int, lash: float | None) -> Iterator[Case]:
    for gap in gaps_to_piston(plain, cylinder):
        yield Case(f"drawn_{gap.what.split()[0]}", f"{gap.what}, as drawn", gap)
    between = valve_gaps.between_gap(plain, cylinder)
    if between is not None:
        yield Case("drawn_between", "valve to valve, as drawn", between)
    wall = valve_gaps.wall_gap(plain, cylinder)
    if wall is not None:
        yield Case("drawn_wall", "valve to bore", wall)
    if lash is not None:
        for gap in gaps_to_piston(plain, cylinder, 0.0, lash):
            yield Case(f"lash_{gap.what.split()[0]}",
                       f"{gap.what}, lash {1e3 * lash:.2g} mm", gap)  # fmt: skip
    for teeth in TEETH:
        yield from _a_tooth_off(plain, cylinder, teeth)
    yield from _floating(plain, cylinder)


def _a_tooth_off(plain: PlainEngine, cylinder: int, teeth: int) -> Iterator[Case]:
    later = teeth * a_tooth(plain)
    told = f"{'one tooth' if abs(teeth) == 1 else 'two teeth'} {'late' if teeth > 0 else 'early'}"
    ident = f"tooth_{'late' if teeth > 0 else 'early'}_{abs(teeth)}"
    gaps = list(gaps_to_piston(plain, cylinder, later))
    between = valve_gaps.between_gap(plain, cylinder, later)
    if between is not None and between.gap <= 0.0:  # nothing to tell where they pass each other
        gaps.append(between)
    if gaps:
        least = min(gaps, key=lambda one: one.gap)
        yield Case(ident, f"{told}: {least.what}", least)


def _floating(plain: PlainEngine, cylinder: int) -> Iterator[Case]:
    for made in valve_gaps.worked(plain.cylinders[cylinder]):
        speed = valve_gaps.float_speed_shown(made, top_speed(plain))
        told = f"{made.which} floating at {round(speed * 30 / math.pi, -1):.0f} rpm"
        gap = valve_gaps.piston_gap(plain, cylinder, made, thrown_at=speed)
        if gap is not None:
            yield Case(f"floating_{made.which}", told, gap)
        hung = valve_gaps.hung_gap(plain, cylinder, made)
        if hung is not None:
            yield Case(f"hung_{made.which}", f"{made.which} hung open at the top", hung)
