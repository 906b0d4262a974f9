"""The event *cam drive one and two teeth out*: whether a valve then meets its piston."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.faults.fault import a_tooth
from firstfire.runs.valve_gaps import Gap, piston_gap, worked

TEETH = (-2, -1, 1, 2)
"""Teeth by which the cam drive is late; negative: early."""


def tooth_gaps(plain: PlainEngine) -> dict[int, Gap]:
    """Least gap of valve and piston of any cylinder, by how many teeth the cam drive is late.

    With 0 for as it is drawn. Nothing where valves stand beside the bore, or none is on a cam.
    """
    gaps: dict[int, list[Gap]] = {teeth: [] for teeth in (0, *TEETH)}
    for cylinder, parts in enumerate(plain.cylinders):
        for made, teeth in product(worked(parts), gaps):
            gap = piston_gap(plain, cylinder, made, teeth * a_tooth(plain))
            if gap is not None:
                gaps[teeth].append(gap)
    return {teeth: min(some, key=lambda one: one.gap) for teeth, some in gaps.items() if some}


def why_none(plain: PlainEngine) -> str:
    """Why there are no such gaps; "" where there are."""
    if all(parts.valves.placed == "side" for parts in plain.cylinders):
        return "beside the bore: no piston reaches them, a tooth out or not"
    return "" if any(map(worked, plain.cylinders)) else "not judged: no cam opens a valve"


def gaps_to_piston(
    plain: PlainEngine, cylinder: int, later: float = 0.0, lash: float | None = None
) -> Iterator[Gap]:
    """Least gap of each valve on a cam and the piston of one cylinder, from 0."""
    for made in worked(plain.cylinders[cylinder]):
        gap = piston_gap(plain, cylinder, made, later, lash)
        if gap is not None:
            yield gap
