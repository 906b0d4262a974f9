"""The heat network of one cylinder of an engine."""

from __future__ import annotations

from firstfire.engine.resolve import PlainEngine
from firstfire.heat.case import case_lump, case_stack, foot
from firstfire.heat.crown import crown_stack, screw_links, screw_lump
from firstfire.heat.head import beside, head_stack, port_stack, seats, valve_stack
from firstfire.heat.joints import head_on_cylinder, port_in_metal
from firstfire.heat.liner import bands, liner_stack
from firstfire.heat.network import Network
from firstfire.heat.piston_body import piston_links, piston_lumps
from firstfire.heat.rod_ends import crank_lumps, rod_links, rod_stacks
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
    eyes = rod_stacks(engine, parts)
    liners = tuple(liner_stack(engine, parts, band) for band in bore_bands)
    holder = liners[0] if beside(parts) else head
    seat, seat_links = seats(engine, parts, valves, holder)
    port, case = port_stack(engine, parts), case_stack(engine)
    joints = [
        head_on_cylinder(engine, parts, head, liners[0]),
        foot(engine, parts, liners[-1], case),
    ]
    if port.layers[-1].metal:
        joints.append(port_in_metal(port, holder))
    return Network(
        stacks=(crown, head, valves, *liners, port, case, *eyes),
        lumps=(*piston_lumps(engine, parts), *screw_lump(parts), seat, case_lump(engine, parts),
               *crank_lumps(engine, parts), *(joint.lump for joint in joints)),
        links=(*piston_links(engine, parts, crown, bore_bands),
               *screw_links(engine, parts, crown), *seat_links, *rod_links(engine, parts, eyes),
               *(link for joint in joints for link in joint.links)),
    )  # fmt: skip


def stacks(engine: PlainEngine, cylinder: int) -> tuple[Stack, ...]:
    """The walls of one cylinder alone: crown, head, valves, liner (in bands), port, case, eyes."""
    return network(engine, cylinder).stacks
