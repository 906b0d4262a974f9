"""The nearest bore that works: tried on the engine, since a wider one lets more air through."""

from __future__ import annotations

from collections.abc import Callable

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import write_quantity
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import FirstfireError
from firstfire.runs.breathed import breathed
from firstfire.setup.fuel.drawn import Drawn, Stop

_TRIES = 8
_BEYOND = 1.01

Bounds = Callable[[PlainEngine, tuple[Drawn, ...]], tuple[float, float, float]]
"""A bore as it then is, and the narrowest and widest that would do, m."""


def nearest_bore(engine: Engine, path: str, bounds: Bounds, stop: Stop = None) -> str | None:
    """The nearest bore with which an engine's full throttle keeps it within its bounds.

    Parameters
    ----------
    engine, path
        As written down, and the bore that is changed.
    bounds
        Of it, as the engine then breathes.
    stop
        Asked at least every 0.1 s.

    Returns
    -------
    str or None
        As a file has it; None where none of some tries does.
    """
    tried, written = engine, None
    for _ in range(_TRIES):
        plain = resolve(tried)
        bore, narrow, wide = bounds(plain, full_throttle(plain, stop))
        if narrow <= bore <= wide:
            return written
        if narrow > wide:
            return None
        better = _BEYOND * narrow if bore < narrow else wide / _BEYOND
        written = write_quantity(better, "length", digits=3)
        try:
            tried = with_values(engine, {path: written})
        except FirstfireError:
            return None
    return None


def full_throttle(plain: PlainEngine, stop: Stop) -> tuple[Drawn, ...]:
    """What it draws at full throttle at each of its speeds."""
    opening = plain.intake.throttle_opening
    return tuple(
        Drawn("full", "", breathed(plain, speed, opening, stop=stop))
        for speed in sorted(plain.use.full_throttle_speeds)
    )
