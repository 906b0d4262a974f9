"""Faults of the fuel: none, or too much."""

from __future__ import annotations

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.faults.fault import (
    DoesNotApplyError,
    Fault,
    Layer,
    Obeyed,
    obeys,
    sized,
)


def _injected(plain: PlainEngine) -> None:
    if plain.intake.mixture_by != "injector":
        has = plain.intake.mixture_by.replace("_", " ")
        raise DoesNotApplyError(f"it has a {has} and no injector")


def _shut(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    _injected(plain)
    return {}, {"mixture": 0.0}


def _open(plain: PlainEngine, size: float) -> tuple[Layer, Obeyed]:
    _injected(plain)
    return {}, {"mixture": size}


_MIXTURE = "fuel metered, against just enough"

FUEL: tuple[Fault, ...] = (
    Fault("no_fuel", "no fuel", "a dry plug, and nothing but air", obeys(mixture=0.0)),
    Fault("too_much_fuel", "too much fuel", "a wet, black plug",
          sized("mixture"), _MIXTURE, "ratio", "5", "0", "50"),
    Fault("injector_shut", "an injector that stays shut", "it does not click; a dry plug", _shut),
    Fault("injector_open", "an injector that stays open",
          "a wet plug; the line loses its pressure at rest", _open, _MIXTURE, "ratio", "10",
          "1", "50"),
)  # fmt: skip
"""In the order in which they are listed."""
