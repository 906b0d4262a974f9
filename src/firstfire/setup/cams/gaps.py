"""The least gaps of a cylinder's valves, as drawn and when something is not as drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.runs import valve_gaps
from firstfire.runs.side_gaps import beside_gap, roof_gap, side_roof
from firstfire.runs.start.faults.fault import a_tooth
from firstfire.runs.tooth_off import TEETH, gaps_to_piston
from firstfire.runs.valve_gaps import TIGHT, Gap
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
    later
        By how much the cam has come late, rad of crank.
    lash
        As measured, m; None: as the file has it.
    thrown_at
        Crank speed at which it floats, rad/s; None: it stays on its cam.
    """

    id: str
    words: str
    gap: Gap
    later: float = 0.0
    lash: float | None = None
    thrown_at: float | None = None


def cases(
    plain: PlainEngine, cylinder: int, lash: float | None = None, *, bridge_said: bool = False
) -> tuple[Case, ...]:
    """Every gap that matters, of one cylinder.

    Parameters
    ----------
    plain, cylinder
        The engine, and which from 0.
    lash
        As measured, m; None: nothing was.
    bridge_said
        Whether the file says how far apart valves beside the bore stand.
    """
    found = tuple(_cases(plain, cylinder, lash))
    if bridge_said and plain.cylinders[cylinder].valves.placed == "side":
        between = Case("drawn_between", "valve to valve, side by side", beside_gap(plain, cylinder))
        found = (*found, between)
    return found


def _cases(plain: PlainEngine, cylinder: int, lash: float | None) -> Iterator[Case]:
    if plain.cylinders[cylinder].valves.placed == "side":
        yield from _beside(plain, cylinder, lash)
        return
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
                       f"{gap.what}, lash {1e3 * lash:.2g} mm", gap, 0.0, lash)  # fmt: skip
    for teeth in TEETH:
        yield from _a_tooth_off(plain, cylinder, teeth)
    yield from _floating(plain, cylinder)


def _beside(plain: PlainEngine, cylinder: int, lash: float | None) -> Iterator[Case]:
    """Of valves beside the bore: those under the roof that clear it however it is shaped."""
    for made in valve_gaps.worked(plain.cylinders[cylinder]):
        speed = valve_gaps.float_speed_shown(made, top_speed(plain))
        found = [
            Case(f"drawn_{made.which}", f"{made.which} valve and roof, as drawn",
                 roof_gap(plain, cylinder, made)),
            Case(f"floating_{made.which}", _floats(made.which, speed),
                 roof_gap(plain, cylinder, made, None, speed), thrown_at=speed),
        ]  # fmt: skip
        if lash is not None:
            gap = roof_gap(plain, cylinder, made, lash)
            told = f"{made.which} valve and roof, lash {1e3 * lash:.2g} mm"
            found.insert(1, Case(f"lash_{made.which}", told, gap, 0.0, lash))
        yield from (case for case in found if case.gap.gap > 0.0)


def unjudged(plain: PlainEngine, cylinder: int, *, bridge_said: bool) -> tuple[str, ...]:
    """What of the gaps can't be told, a sentence each, with what would tell it."""
    parts = plain.cylinders[cylinder]
    if parts.valves.placed != "side":
        return ()
    found = [
        "Valves stand beside the bore: no piston reaches them, with the cam any number of teeth "
        "out. Their room to the bore's edge is not judged: the file doesn't say how far off they "
        "stand. Measure it."
    ]
    roof = 1e3 * side_roof(parts)
    for made in valve_gaps.worked(parts):
        if roof <= 1e3 * made.valve.lift:
            found.append(
                f"The {made.which} valve and the roof are not judged: the file has the chamber's "
                f"volume and not its shape. Flat over bore and valves it would be {roof:.2g} mm "
                f"high; over this valve it has to be {1e3 * (made.valve.lift + TIGHT):.2g} mm."
            )
    if not bridge_said:
        found.append(
            "The two valves to each other are not judged: head.valve_bridge, what is between "
            "their seats, is not said. They open side by side and keep it."
        )
    return tuple(found)


def _floats(which: str, speed: float) -> str:
    return f"{which} floating at {round(speed * 30 / math.pi, -1):.0f} rpm"


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
        yield Case(ident, f"{told}: {least.what}", least, later)


def _floating(plain: PlainEngine, cylinder: int) -> Iterator[Case]:
    for made in valve_gaps.worked(plain.cylinders[cylinder]):
        speed = valve_gaps.float_speed_shown(made, top_speed(plain))
        gap = valve_gaps.piston_gap(plain, cylinder, made, thrown_at=speed)
        if gap is not None:
            told = _floats(made.which, speed)
            yield Case(f"floating_{made.which}", told, gap, thrown_at=speed)
        hung = valve_gaps.hung_gap(plain, cylinder, made)
        if hung is not None:
            yield Case(f"hung_{made.which}", f"{made.which} hung open at the top", hung)
