"""Plain engines with one uncertain input moved, each made once."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from firstfire.engine.engine import Engine
from firstfire.engine.events import EVENTS
from firstfire.engine.fields import Section
from firstfire.engine.grammar import split
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.start_set import ONLY_WHEN_STARTED
from firstfire.engine.unknowns import Unknown, unknowns
from firstfire.formulas.normal import NINETY
from firstfire.runs.bout import Bout

_NEITHER = ("leak.",)
_FIT_BEGINS = 800 * math.pi / 30
_FITTED = (0.7, 1.4)
"""Burn duration within the speeds its law was fitted on, 5-95 % of its doubt."""
_TRAVELLING = (0.5, 2.0)
"""The same of a flame that travels, whatever the speed: two published laws of it differ by a third
while an engine is cranked, and a car engine's first tenth comes up to a half later than published
(:mod:`firstfire.formulas.turbulent_flame`); at thousands of rpm it burns up to twice as long as the
fitted law, which half its duration reaches."""

_DOWN = ("doubt.burn_duration", "doubt.burn_phase", "doubt.combustion_loss")
"""A faster, an earlier and a fuller burn press harder: moved to where parts give way."""

Part = TypeVar("Part", bound=Section)


def direction(path: str) -> int:
    """Whether an unknown is moved up (1) or down (-1)."""
    return -1 if path in _DOWN else 1


def one_up(unknown: Unknown) -> tuple[float, float]:
    """The unknown a standard deviation above its centre, and that deviation.

    Examples
    --------
    >>> up, size = one_up(Unknown("doubt.flow", "normal", 1.0, 0.9, 1.1, "", ""))
    >>> round(up, 3), round(size, 3)
    (1.061, 0.061)
    """
    if unknown.distribution in ("lognormal", "loguniform") and unknown.low > 0:
        size = math.log(unknown.high / unknown.low) / (2 * NINETY)
        return unknown.centre * math.exp(size), size
    size = (unknown.high - unknown.low) / (2 * NINETY)
    return unknown.centre + size, size


def value_at(unknown: Unknown, deviations: float) -> float:
    """The unknown so many standard deviations above its centre.

    Examples
    --------
    >>> half = Unknown("doubt.wall_heat", "lognormal", 1.0, 0.5, 2.0, "", "")
    >>> round(value_at(half, -1.6449), 3)
    0.5
    """
    up, size = one_up(unknown)
    if unknown.distribution in ("lognormal", "loguniform") and unknown.low > 0:
        return unknown.centre * math.exp(deviations * size)
    return max(unknown.centre + deviations * (up - unknown.centre), _least(unknown))


def _least(unknown: Unknown) -> float:
    """No size, pressure or mass falls below a twentieth of what it should be; a fit may."""
    bounded = unknown.centre > 0 and not unknown.either_sign
    return 0.05 * unknown.centre if bounded else -math.inf


def one_step(unknown: Unknown, *, back: bool = False) -> float:
    """The unknown a standard deviation from its centre, up or down as `direction` says, or back."""
    if back:
        return value_at(unknown, -direction(unknown.path))
    up, size = one_up(unknown)
    if direction(unknown.path) > 0:
        return up
    return 2 * unknown.centre - up if unknown.distribution == "normal" else up * math.exp(-2 * size)


class Trials:
    """Plain engines with one unknown moved by a standard deviation, each made once."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self.centre = resolve(engine)
        self.unknowns = tuple(u for u in unknowns(engine) if _matters(u.path))
        self._plain: dict[str, PlainEngine] = {}

    @property
    def of_a_check(self) -> tuple[Unknown, ...]:
        """Those that more hangs on than a start."""
        return tuple(u for u in self.unknowns if not u.path.startswith(ONLY_WHEN_STARTED))

    def for_bout(self, bout: Bout) -> tuple[Unknown, ...]:
        """Those of a check, with the burn's doubt as wide as its law is sure at that speed."""
        known = self.of_a_check
        travels = EVENTS[bout.point.event].burning == "travelling"
        if bout.point.speed < _FIT_BEGINS and not travels:
            return known
        share = _TRAVELLING if travels else _FITTED
        return tuple(
            replace(u, low=u.centre * share[0], high=u.centre * share[1], extrapolated=travels)
            if u.path == "doubt.burn_duration" and (travels or u.extrapolated)
            else u
            for u in known
        )

    def moved(
        self, unknown: Unknown, *, half: float | None = None, back: bool = False
    ) -> PlainEngine:
        """The engine with `unknown` moved; `half` overrides its 5-95 % half width, upwards.

        `back` moves it to the other side.
        """
        key = f"{unknown.path} {half} {unknown.high} {back}"
        if key not in self._plain:
            to = one_step(unknown, back=back)
            if half is not None:
                to = unknown.centre + (-half if back else half) / NINETY
            self._plain[key] = with_one(self.engine, self.centre, unknown.path, to)
        return self._plain[key]


def with_one(engine: Engine, centre: PlainEngine, path: str, value: float) -> PlainEngine:
    """``resolve(engine, {path: value}, as_built=True)``, cheaply where nothing follows from that.

    Nothing follows from a doubt, nor from a property of a material other than its density; but
    the doubt about softening is in the materials' own curves.

    Parameters
    ----------
    engine, centre
        As written down, and resolved.
    path, value
        What is moved; SI.
    """
    names = path.split(".")
    if path.startswith("doubt.") and path != "doubt.softening":
        moved = _with(centre, names, value)
    elif names[0] == "materials" and names[1] in centre.materials and names[2] != "density":
        old = centre.materials[names[1]]
        new = replace(old, properties={**old.properties, names[2]: value}, yours=True)
        moved = centre.model_copy(update={"materials": {**centre.materials, names[1]: new}})
    else:
        return resolve(engine, {path: value}, as_built=True)
    told = hashlib.sha256(f"{centre.sha256} {path} = {value!r}".encode()).hexdigest()
    return moved.model_copy(update={"sha256": told})


def _with(part: Part, names: Sequence[str], value: float) -> Part:
    """The part with one value of it, or of a part in it, exchanged."""
    name, *deeper = names
    new = _with(getattr(part, name), deeper, value) if deeper else value
    return part.model_copy(update={name: new})


def _matters(path: str) -> bool:
    _, plain = split(path)
    return plain == "leak.ring" or not plain.startswith(_NEITHER)
