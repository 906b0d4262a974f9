"""What doesn't work of a venturi and its jets, each with the nearest that does."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import Problem
from firstfire.setup.fuel.drawn import Stop
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.mixer import MixerFacts
from firstfire.setup.fuel.nearest import nearest_bore
from firstfire.setup.fuel.venturi import venturis


def mixer_faults(
    engine: Engine, plain: PlainEngine, fuel: Liquid, facts: MixerFacts, stop: Stop = None
) -> Iterator[Problem]:
    """What doesn't work with this venturi and these jets, each with the nearest that does."""
    path = f"{'gas_mixer' if fuel.gas else 'carburettor'}.venturi_diameter"
    fault = _venturi_fault(facts)
    if fault:
        said = write_quantity(facts.venturi, "length", digits=3)
        nearest = nearest_bore(engine, path, lambda at, full: venturis(at, fuel, full), stop)
        cure = (
            "None of this throttle works: ask for less between use.full_throttle_speeds."
            if nearest is None
            else f'The nearest that works is "{nearest}".'
        )
        yield Problem(path, f'is "{said}": {fault}', cure)
    yield from _jet_faults(plain, fuel, facts)


def _venturi_fault(facts: MixerFacts) -> str:
    """What is wrong with a venturi; "" where nothing is."""
    if facts.venturi < facts.narrowest:
        return "too narrow, it chokes full power"
    if facts.venturi > facts.widest:
        return "so wide that it hardly draws fuel at its slowest full throttle"
    return ""


def _jet_faults(plain: PlainEngine, fuel: Liquid, facts: MixerFacts) -> Iterator[Problem]:
    told = (
        (("gas_mixer.orifice", plain.gas_mixer.orifice, facts.wanted),)
        if fuel.gas
        else (
            ("carburettor.main_jet", plain.carburettor.main_jet, facts.wanted),
            ("carburettor.idle_jet", plain.carburettor.idle_jet, facts.idle_wanted),
        )
    )
    for path, said, wanted in told:
        if said is None or wanted is None:
            continue
        area = (said / wanted) ** 2
        if abs(area - 1.0) > 0.15:
            yield Problem(
                path,
                f'is "{write_quantity(said, "length", digits=3)}": it gives {100 * area:.0f} % of '
                "the fuel wanted there",
                f'The nearest that works is "{_mm(wanted)}".',
            )


def _mm(length: float) -> str:
    return write_quantity(length, "length", digits=3)
