"""The crankcase: what is in it as one lump, its wall as a stack, and what joins body to it.

Piston, rod and bore give their heat to the air, mist and oil in the case; the case's wall hands it
on to the air around. Each cylinder of a twin has its share.
"""

from __future__ import annotations

import math

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.heat import assumed
from firstfire.heat.joints import Joint, joined
from firstfire.heat.layers import layer
from firstfire.heat.network import Link, Lump, Network
from firstfire.heat.stack import Stack, flat_stack

INSIDE = "crankcase"
"""Name of the lump of air, mist and oil."""

WALL = "case"
"""Name of the wall's stack and its part."""

FED = ("crown", "land", "skirt", "boss", "big_end", "small_end", "crankpin", "webs")
"""What of an engine's parts hangs in the crankcase and gives it heat, besides the bore."""


def case_width(engine: PlainEngine) -> float:
    """Outside width of a case taken as a cube, m."""
    return float(engine.case.volume ** (1 / 3)) + 2.0 * engine.case.wall


def case_stack(engine: PlainEngine) -> Stack:
    """One cylinder's share of the wall: oil and mist inside, open air outside."""
    share = 1.0 / len(engine.cylinders)
    inside = 6.0 * float(engine.case.volume ** (2 / 3)) * share
    outside = 6.0 * case_width(engine) ** 2 * share
    wall = layer(WALL, engine.materials[engine.case.material], engine.case.wall,
                 made=engine.case, flow="radial")  # fmt: skip
    mean = 0.5 * (inside + outside)
    return flat_stack(WALL, (wall,), mean, fire_area=inside, back_area=outside)


def case_lump(engine: PlainEngine, parts: CylinderParts) -> Lump:
    """Air, and oil where there is some."""
    share = 1.0 / len(engine.cylinders)
    air = engine.case.volume * share * assumed.CASE_AIR_HEAT
    swept = math.pi / 4 * parts.cylinder.bore**2 * parts.cylinder.stroke
    oil = assumed.OIL_OF_SWEPT[engine.case.lubrication] * swept * assumed.OIL_HEAT
    return Lump(INSIDE, air + oil, 0.0, assumed.SHOWN)


def into_case(
    engine: PlainEngine, parts: CylinderParts, walls: Network, *, standing: bool
) -> tuple[Link, ...]:
    """Films between what hangs in the case and what fills it, and on to its wall.

    Parameters
    ----------
    engine, parts, walls
        Resolved, its cylinder, and that cylinder's network.
    standing
        Whether the engine stands: the air in it is still then.
    """
    film = assumed.STILL_FILM if standing else assumed.CRANKCASE_FILM[engine.case.lubrication]
    lumps = {lump.name: lump for lump in walls.lumps}
    stacks = {stack.name for stack in walls.stacks}
    links = []
    for name in FED:
        if name in lumps:
            links.append(Link(name, 0, INSIDE, film * lumps[name].area))
        elif name in stacks:
            stack = walls.stack(name)
            through = 1.0 / (film * stack.back_area) + float(stack.outer[-1])
            links.append(Link(name, stack.cells - 1, INSIDE, 1.0 / through))
    wall = walls.stack(WALL)
    links.append(Link(WALL, 0, INSIDE, _onto(wall, film, wall.fire_area)))
    # half of the stroke lies open to the case in the mean
    lowest = [stack for stack in walls.stacks if stack.name.startswith("liner")][-1]
    open_below = 0.5 * math.pi * parts.cylinder.bore * parts.cylinder.stroke
    links.append(Link(lowest.name, 0, INSIDE, _onto(lowest, film, open_below)))
    return tuple(links)


def _onto(wall: Stack, film: float, area: float) -> float:
    """Conductance of a film on a part of a wall's inner face to its first cell, W/K."""
    return 1.0 / (1.0 / (film * area) + float(wall.inner[0]) * wall.fire_area / area)


def foot(engine: PlainEngine, parts: CylinderParts, liner: Stack, case: Stack) -> Joint:
    """Where the body stands on the case: along half the body, over a face, into the case's wall."""
    body, shell = parts.body, engine.materials[parts.body.material]
    wall = engine.materials[engine.case.material]
    inside = max(parts.liner.outside_diameter, parts.cylinder.bore)
    section = math.pi / 4 * max(body.outside_diameter**2 - inside**2, 0.0)
    section = max(section, math.pi * inside * 1e-3)
    along = 0.5 * parts.liner.length / (shell["conductivity"] * section)
    spread = 0.25 * case_width(engine)
    on = spread / (wall["conductivity"] * math.pi * body.outside_diameter * engine.case.wall)
    metal = min(shell["conductivity"], wall["conductivity"]) > assumed.METAL
    face = (assumed.CONTACT_METAL_HELD if metal else assumed.CONTACT_HELD) / section
    return joined("foot", (liner, liner.cells - 1), (case, 0), 1.0 / (along + face + on))
