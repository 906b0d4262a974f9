"""All of an engine's fuel: what meters it, how much, how it gets there, and what doesn't work."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import Problem
from firstfire.setup.fuel.cold import cold_facts, with_pulse
from firstfire.setup.fuel.drawn import Stop, points, silent
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.feed import FeedFacts, feed_facts, feed_faults
from firstfire.setup.fuel.injector import InjectorFacts, injector_facts
from firstfire.setup.fuel.injector_faults import injector_faults, over_faults, voltage_fault
from firstfire.setup.fuel.liquid import Liquid, liquid
from firstfire.setup.fuel.mixer import MixerFacts, mixer_facts
from firstfire.setup.fuel.mixer_faults import mixer_faults

Tell = Callable[[str, float], None]


@dataclass(frozen=True)
class FuelSheet(FuelFacts):
    """An engine's fuel; prints well, and gives JSON."""

    def __str__(self) -> str:
        from firstfire.setup.fuel.text import fuel_text

        return fuel_text(self)

    def to_json(self) -> str:
        """As ``firstfire.fuel/1``: SI, units in field names."""
        from firstfire.setup.fuel.contract import fuel_json

        return fuel_json(self)


def fuel_sheet(engine: Engine, *, stop: Stop = None, tell: Tell | None = None) -> FuelSheet:
    """Size all that an engine's fuel goes through, and say what doesn't work.

    Parameters
    ----------
    engine
        As written down.
    stop, tell
        Asked at least every 0.1 s; told what is run and the share done.

    Raises
    ------
    OutsideValidity, Stopped
        As a run does.
    """
    plain = resolve(engine)
    said = tell or silent
    fuel = liquid(engine, plain)
    found = points(plain, stop, lambda what, share: said(what, 0.5 * share))
    early = tuple(_cannot_be(plain, fuel))
    injected = plain.intake.mixture_by == "injector"
    injector = injector_facts(plain, fuel, found) if injected and not early else None
    mixer = None if injected or early else mixer_facts(plain, fuel, found)
    feed = feed_facts(plain, fuel, found)
    said("cold starts", 0.5)
    cold = cold_facts(plain, found, stop)
    if injector is not None:
        crank = injector.pulses[0]
        cold = with_pulse(cold, fuel.density, crank.flow, crank.dead_time)
    faults = (*early, *_faults(engine, plain, fuel, injector, mixer, feed, stop))
    return FuelSheet(engine, plain, fuel, found, injector, mixer, feed, cold, faults)


def _cannot_be(plain: PlainEngine, fuel: Liquid) -> Iterator[Problem]:
    """What leaves nothing to reckon."""
    by = plain.intake.mixture_by
    if fuel.gas != (by == "gas_mixer"):
        nearest = "gas_mixer" if fuel.gas else "carburettor"
        yield Problem(
            "intake.mixture_by",
            f'is "{by}", and {fuel.name} comes as a {"gas" if fuel.gas else "liquid"}',
            f'The nearest that works is "{nearest}".',
        )
    elif by == "injector":
        yield from voltage_fault(plain)
        yield from over_faults(plain)


def _faults(
    engine: Engine, plain: PlainEngine, fuel: Liquid, injector: InjectorFacts | None,
    mixer: MixerFacts | None, feed: FeedFacts, stop: Stop,
) -> Iterator[Problem]:  # fmt: skip
    if injector is not None:
        yield from injector_faults(plain, fuel, injector)
    if mixer is not None:
        yield from mixer_faults(engine, plain, fuel, mixer, stop)
    yield from feed_faults(engine, plain, fuel, feed, stop)
