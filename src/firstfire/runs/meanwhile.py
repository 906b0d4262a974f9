"""A held bout's gas run anew before its walls are: a first answer while somebody waits."""

from __future__ import annotations

from dataclasses import replace

from firstfire.engine.resolve import PlainEngine
from firstfire.heat.cylinder import network
from firstfire.heat.network import Network
from firstfire.runs.bout import Bout
from firstfire.runs.point import operating_point, spark_angle
from firstfire.runs.together import Stop
from firstfire.runs.traces import gas_cycles


def meanwhile(
    plain: PlainEngine, bout: Bout, speed: float, stop: Stop | None = None
) -> Bout | None:
    """A bout of a like engine with this one's own gas and peaks, its walls as warm as that's.

    Parameters
    ----------
    plain
        Plain numbers.
    bout
        Of a like engine, settled with its walls, at full throttle.
    speed
        rad/s.
    stop
        Asked at least every 0.1 s.

    Returns
    -------
    Bout or None
        None where that engine's walls are made of other layers, so that how warm they are says
        nothing of these.

    Raises
    ------
    OutsideValidity
        Where a model doesn't hold.
    Stopped
        If ``stop`` said so.
    """
    own = [_made_of(network(plain, row)) for row in range(len(plain.cylinders))]
    if own != [_made_of(history.network) for history in bout.histories]:
        return None
    old = bout.point
    point = operating_point(
        plain, old.event, old.name, speed, old.walls, spark_angle(plain, speed, starting=False),
        start=old.fired.cycle.state, guess=old.fired.burns, stop=stop,
    )  # fmt: skip
    return replace(bout, point=point, gases=gas_cycles(point, plain))


def _made_of(walls: Network) -> tuple[object, ...]:
    """What a network's nodes stand for."""
    stacks = tuple((stack.name, stack.parts) for stack in walls.stacks)
    return (*stacks, *(lump.name for lump in walls.lumps))
