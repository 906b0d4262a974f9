"""Tables of an engine's controller as they go into its folder, or why there are none."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, OutsideValidity
from firstfire.setup.fuel.drawn import Stop
from firstfire.setup.tables.grid import Tell
from firstfire.setup.tables.tables import TableSet, no_controller, tables


@dataclass(frozen=True)
class Held:
    """What a controller is to hold.

    Attributes
    ----------
    found
        Its tables; None where there are none.
    why_not
        Why, as a sentence; "" where there are.
    """

    found: TableSet | None
    why_not: str = ""


def held(engine: Engine, *, stop: Stop = None, tell: Tell | None = None) -> Held:
    """An engine's tables, or why it has none: no controller, or one that can't do what is asked.

    Parameters
    ----------
    engine
        As written down.
    stop, tell
        Asked at least every 0.1 s; told what is run and the share done.
    """
    why = no_controller(resolve(engine))
    if why:
        return Held(None, f"No tables: {engine.name} has {why}")
    try:
        return Held(tables(engine, stop=stop, tell=tell))
    except EngineFileError as refused:
        said = "; ".join(f"{one.path} {one.fault}. {one.cure}" for one in refused.problems)
        return Held(None, f"No tables, as its injector can't do what is asked of it: {said}")
    except OutsideValidity as beyond:
        return Held(None, f"No tables, not judged: {beyond}")
