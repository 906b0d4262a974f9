"""The heat network of one cylinder of an engine."""

from __future__ import annotations

from firstfire.engine.resolve import PlainEngine
from firstfire.heat.crown import crown_stack
from firstfire.heat.head import head_stack, port_stack, seats, valve_stack
from firstfire.heat.liner import bands, liner_stack
from firstfire.heat.network import Network
from firstfire.heat.piston_body import piston_links, piston_lumps
from firstfire.heat.stack import Stack


def network(engine: PlainEngine, cylinder: int) -> Network:
    """Walls, small parts and links of one cylinder.

    Parameters
    ----------
    engine
        Resolved.
    cylinder
        Its place in ``engine.cylinders``, from 0.
    """
    parts = engine.cylinders[cylinder]
    bore_bands = bands(engine, parts)
    crown, head = crown_stack(engine, parts), head_stack(engine, parts)
    valves = valve_stack(engine, parts)
    seat, seat_links = seats(engine, parts, valves, head)
    return Network(
        stacks=(
            crown,
            head,
            valves,
            *(liner_stack(engine, parts, band) for band in bore_bands),
            port_stack(engine, parts),
        ),
        lumps=(*piston_lumps(engine, parts), seat),
        links=(*piston_links(engine, parts, crown, bore_bands), *seat_links),
    )


def stacks(engine: PlainEngine, cylinder: int) -> tuple[Stack, ...]:
    """The walls of one cylinder alone: crown, head, valves, liner (in bands), exhaust port."""
    return network(engine, cylinder).stacks
