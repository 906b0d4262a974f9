"""What is found of an engine's timing, for whatever tells it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.belt_teeth import BeltTeeth
from firstfire.setup.timing.places import Place
from firstfire.setup.timing.tooth import Shifted


@dataclass(frozen=True)
class TimingFacts:
    """When everything happens, and where to see it.

    Attributes
    ----------
    engine, plain
        As written down, and its plain numbers.
    order, intervals
        Cylinders counted from 1 in the order in which they fire, and crank angle from each firing
        to the next, rad.
    fires
        Crank angle of each cylinder's firing top, rad.
    places
        Every event, in the order in which the crank meets them.
    tooth
        What one tooth of the cam's wheel is worth at the crank, rad.
    tooth_on_rim
        The same along the flywheel's rim, m; None without a flywheel.
    teeth
        For each cylinder, its valves with the cam two teeth early to two teeth late.
    overlaps
        Crank angle with both valves off their seats, rad, a cylinder; None where suction opens
        the inlet.
    belt
        Its teeth; None for gears.
    """

    engine: Engine
    plain: PlainEngine
    order: tuple[int, ...]
    intervals: tuple[float, ...]
    fires: tuple[float, ...]
    places: tuple[Place, ...]
    tooth: float
    tooth_on_rim: float | None
    teeth: tuple[tuple[Shifted, ...], ...]
    overlaps: tuple[float | None, ...]
    belt: BeltTeeth | None
