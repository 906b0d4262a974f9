"""Fuel of a start, charge by charge: what is metered, what of it is vapour, what wets the plug.

Whoever starts it, or a controller's map, is taken to do well: each charge is metered what brings
its vapour to the mixture asked for, with at most so many times a warm engine's fuel.
The first is set for dry walls, so that what was primed or is left from a try before comes on top;
later ones make up for what the last one lacked or had too much. Once three in a row came to it, the
rest do. Heat that evaporation takes from the air is left out (all of a petrol's, 20 K of a charge).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from firstfire.cycle.assembly import venturi_area
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import fuel_mix
from firstfire.formulas.distillation import volume
from firstfire.formulas.priming import equivalence_ratio
from firstfire.runs.fuel_path import FuelPath, Supply, of
from firstfire.runs.fuelled import (
    FuelState,
    mixture,
    next_cycle,
    piston_stopped,
    primed,
    wet_plug,
)
from firstfire.runs.start.asked import Asked, Fed
from firstfire.runs.start.vapour import components

_CHOKE = 0.2
"""What a closed choke leaves of a venturi's area. Common practice, no source."""
_AIR = 287.04
_STEPS = 7
_AS_WANTED, _IN_A_ROW = 0.03, 3
_QUICKEST = 4.0 / 3.0
"""By which a hand or a map changes the fuel from one charge to the next. Common practice, no
source."""
_LEAST_AIR, _LEAST_GAIN = 0.05, 1e-3
_LONGEST = 2.0
"""A cycle in which fuel has so long to evaporate as it has at most, s: turned by hand."""


@dataclass(frozen=True)
class _Feed:
    """Fuel of one cylinder between two charges."""

    path: FuelPath
    state: FuelState
    metered: float = 0.0
    gain: float = 0.0
    air: float = 0.0
    met: int = 0


class Fuelling:
    """Fuel of all cylinders of a start.

    Parameters
    ----------
    plain
        Plain numbers of an engine on a liquid fuel.
    asked
        How it is started.
    wet
        Fuel that a try before left; none: dry, but for what it is primed with.
    """

    def __init__(self, plain: PlainEngine, asked: Asked, wet: Sequence[FuelState] = ()) -> None:
        self.plain, self.asked = plain, asked
        self.fuel = components(plain.fuel)
        self.wanted = plain.intake.equivalence_ratio if asked.mixture is None else asked.mixture
        self.most = asked.enriched * self.wanted
        atoms = fuel_mix.Atoms(plain.fuel.carbon, plain.fuel.hydrogen, plain.fuel.oxygen)
        self.air_fuel = fuel_mix.air_fuel_ratio(atoms)
        before = wet or [
            primed(FuelState(), self.fuel, asked.prime * pulse(plain, parts))
            for parts in plain.cylinders
        ]
        self.feeds = [
            _Feed(path_of(plain, parts), state, air=_full(plain, parts))
            for parts, state in zip(plain.cylinders, before, strict=True)
        ]

    def again(self) -> Fuelling:
        """One that goes on from here by itself."""
        other = Fuelling(self.plain, self.asked, self.left)
        other.feeds = list(self.feeds)
        return other

    @property
    def left(self) -> tuple[FuelState, ...]:
        """Fuel in each cylinder and its port."""
        return tuple(feed.state for feed in self.feeds)

    @property
    def held(self) -> float:
        """Mixture of the charges that a try before left, in the mean."""
        each = [equivalence_ratio(feed.state.vapour, feed.air) for feed in self.feeds]
        return sum(each) / len(each)

    def drew(self, row: int, air: float) -> None:
        """A cylinder's charge was so much air, kg: the next is metered for as much."""
        least = _LEAST_AIR * _full(self.plain, self.plain.cylinders[row])
        self.feeds[row] = replace(self.feeds[row], air=max(air, least))

    def charge(self, row: int, now: float, seconds: float, pressure: float) -> Fed:
        """The next charge of a cylinder.

        Parameters
        ----------
        row
            Of the cylinder.
        now
            s since it began.
        seconds
            Of a cycle at this speed, s.
        pressure
            In the port while the last one was drawn, Pa.
        """
        feed = self.feeds[row]
        if feed.met >= _IN_A_ROW:
            return self._told(row, now, self.wanted)
        around = (min(seconds, _LONGEST), pressure)
        if self.asked.mixture is not None:
            feed = replace(feed, metered=self.asked.mixture)
        elif feed.gain == 0.0:
            feed = self._set(feed, around)
        after, phi = self._next(feed, feed.metered, around)
        met = abs(phi - self.wanted) <= _AS_WANTED * self.wanted and self.asked.mixture is None
        self.feeds[row] = replace(
            feed, state=after, met=feed.met + 1 if met else 0,
            metered=self._made_up(feed, phi),
        )  # fmt: skip
        return self._told(row, now, phi)

    def _made_up(self, feed: _Feed, phi: float) -> float:
        """What to meter next, after a charge that came to this mixture."""
        if feed.gain <= 0.0:
            return feed.metered
        most = min(feed.metered * _QUICKEST, self.most)
        better = feed.metered + (self.wanted - phi) / feed.gain
        return min(max(better, feed.metered / _QUICKEST), most)

    def _set(self, feed: _Feed, around: tuple[float, float]) -> _Feed:
        """With the first charge's fuel found, and how much richer more of it makes a charge."""
        metered, gain = _first(
            feed.path, tuple(self.fuel.items()), feed.air, self._warm, around, self.air_fuel,
            (self.wanted, self.most),
        )  # fmt: skip
        return replace(feed, metered=metered, gain=gain)

    @property
    def _warm(self) -> float:
        """Of the air, and of walls that nothing has run yet, K."""
        return self.plain.surroundings.air_temperature

    def _next(
        self, feed: _Feed, times: float, around: tuple[float, float]
    ) -> tuple[FuelState, float]:
        """Fuel after a charge metered so many times what its air just burns, and its mixture."""
        return _cycle(
            feed.state, feed.path, self.fuel, feed.air, self._warm, around,
            times * feed.air / self.air_fuel,
        )  # fmt: skip

    def _told(self, row: int, now: float, phi: float) -> Fed:
        feed = self.feeds[row]
        return Fed(
            row, now, phi, volume(feed.state.inside),
            wet=wet_plug(feed.state, feed.path), stopped=piston_stopped(feed.state, feed.path),
        )  # fmt: skip


def _cycle(
    state: FuelState, path: FuelPath, fuel: Mapping[str, float], air: float, warm: float,
    around: tuple[float, float], metered: float,
) -> tuple[FuelState, float]:  # fmt: skip
    """Fuel after a charge of so much air, kg, that was metered so much, kg; and its mixture."""
    seconds, pressure = around
    cycle = next_cycle(
        state, path, fuel=fuel, air_mass=air, port_temperature=warm, air_temperature=warm,
        air_pressure=pressure, cycle_seconds=seconds, metered_mass=metered,
    )  # fmt: skip
    return cycle.state, mixture(cycle, air)


# Of starts that differ only in what was primed, or in luck, the first charge is the same.
@lru_cache(maxsize=256)
def _first(
    path: FuelPath, fuel: tuple[tuple[str, float], ...], air: float, warm: float,
    around: tuple[float, float], air_fuel: float, aim: tuple[float, float],
) -> tuple[float, float]:  # fmt: skip
    """A first charge's fuel into a dry engine, and how much richer more of it makes the charge.

    Both against what the air just burns; aimed at a mixture with at most so much fuel.
    """
    wanted, most = aim

    def reached(times: float) -> float:
        return _cycle(FuelState(), path, dict(fuel), air, warm, around, times * air / air_fuel)[1]

    gain = max(reached(most) / most, _LEAST_GAIN)
    low, high = 0.0, most
    for _ in range(_STEPS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if reached(middle) < wanted else (low, middle)
    return high, gain


def path_of(plain: PlainEngine, parts: CylinderParts) -> FuelPath:
    """The way of the fuel into a cylinder; a carburettor's with its choke closed."""
    by: Supply = "injector" if plain.intake.mixture_by == "injector" else "carburettor"
    narrowest = _CHOKE * venturi_area(plain)
    cylinder = parts.cylinder
    return FuelPath(
        by, parts.runner.diameter, parts.runner.length, cylinder.bore, cylinder.stroke,
        cylinder.compression_ratio, narrowest,
    )  # fmt: skip


def pulse(plain: PlainEngine, parts: CylinderParts) -> float:
    """Fuel of one priming pulse, kg: what a full charge of this engine is metered when warm."""
    atoms = fuel_mix.Atoms(plain.fuel.carbon, plain.fuel.hydrogen, plain.fuel.oxygen)
    return plain.intake.equivalence_ratio * _full(plain, parts) / fuel_mix.air_fuel_ratio(atoms)


def _full(plain: PlainEngine, parts: CylinderParts) -> float:
    """Air that fills a cylinder, kg."""
    around = plain.surroundings
    return swept_volume(parts) * around.air_pressure / (_AIR * around.air_temperature)


def pulses_of(plain: PlainEngine, much: float) -> float:
    """Priming pulses that are so much fuel for each cylinder, m³."""
    return much / pulse_volume(plain)


def pulse_volume(plain: PlainEngine) -> float:
    """Liquid of one priming pulse, m³."""
    return volume(of(components(plain.fuel), pulse(plain, plain.cylinders[0])))
