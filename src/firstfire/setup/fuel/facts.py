"""What is found of an engine's fuel, for whatever tells it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import Problem
from firstfire.setup.fuel.cold import ColdFacts
from firstfire.setup.fuel.drawn import Points
from firstfire.setup.fuel.feed import FeedFacts
from firstfire.setup.fuel.injector import InjectorFacts
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.mixer import MixerFacts


@dataclass(frozen=True)
class FuelFacts:
    """An engine's fuel.

    Attributes
    ----------
    engine, plain
        As written down, and its plain numbers.
    fuel, points
        What it burns, and the points it is sized by.
    injector, mixer
        What meters it: one of both; None too where a fault left nothing to reckon.
    feed, cold
        What brings it, and what cold does to it.
    faults
        What doesn't work, each with the nearest that does.
    """

    engine: Engine
    plain: PlainEngine
    fuel: Liquid
    points: Points
    injector: InjectorFacts | None
    mixer: MixerFacts | None
    feed: FeedFacts
    cold: ColdFacts
    faults: tuple[Problem, ...]
