"""How far a number is known before it is measured."""

from __future__ import annotations

from firstfire.engine.engine import Engine
from firstfire.engine.unknowns import unknowns

_USUAL = (0.7, 1.4)
"""Where the list of unknowns has no such number (estimate)."""


def span_of(engine: Engine, path: str) -> tuple[float, float]:
    """5 and 95 % of a number over its centre."""
    found = next((one for one in unknowns(engine) if one.path == path), None)
    if found is None or found.centre <= 0:
        return _USUAL
    return found.low / found.centre, found.high / found.centre


def is_uncertain(engine: Engine, path: str) -> bool:
    """Whether a layer may say low and high of it."""
    return any(one.path == path for one in unknowns(engine))
