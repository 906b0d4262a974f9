"""Questions to a history: how warm is each part at a moment, and when was it first so warm."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Literal

import numpy as np

from firstfire.engine.records import PartTemperature, Temperatures, Walls
from firstfire.heat.char import char_depth
from firstfire.heat.history import HeatHistory
from firstfire.heat.profiles import Profiles, Rows, all_rows, row_at, rows_at, surface

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Place = Literal["surface", "peak", "mean", "back"]


def temperatures_at(history: HeatHistory, seconds: float) -> Temperatures:
    """Of every part at a moment of a run, straight between the moments kept.

    Besides the parts of `Temperatures` there are ``land`` (the ring belt), ``valves``, ``seats``
    and, in a bore that conducts badly, ``liner_low`` and ``body_low`` under the hot top band.

    Parameters
    ----------
    history
        Of one cylinder.
    seconds
        Since the run began.

    Raises
    ------
    OutsideValidity
        For a moment the history does not have.
    """
    return Temperatures(seconds, _Parts(Profiles(row_at(history, seconds)), 0))


class _Parts(Mapping[str, PartTemperature]):
    """Every part at one of the moments of some profiles, worked out as it is asked for."""

    def __init__(self, profiles: Profiles, row: int) -> None:
        self._profiles, self._row = profiles, row
        self._known: dict[str, PartTemperature] = {}

    def __getitem__(self, name: str) -> PartTemperature:
        found = self._known.get(name)
        if found is None:
            whole, row = self._profiles[name], self._row
            temperature = whole.temperature[row]
            found = self._known[name] = PartTemperature(
                surface=float(temperature[0]),
                peak=float(whole.peak[row]),
                depth=whole.depth,
                profile=temperature,
            )
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._profiles)

    def __len__(self) -> int:
        return len(self._profiles)


def temperatures_through(
    history: HeatHistory, seconds: Sequence[float]
) -> Callable[[int], Temperatures]:
    """As `temperatures_at`, of many moments at once: what gives the one asked for, by its place.

    Moments before the history begins or after it ends are taken at its ends.

    Parameters
    ----------
    history
        Of one cylinder.
    seconds
        Rising.
    """
    found: dict[int, tuple[Profiles, int]] = {}
    for places, rows in rows_at(history, seconds):
        known = Profiles(rows)
        found |= {place: (known, row) for row, place in enumerate(places)}

    def at(place: int) -> Temperatures:
        return Temperatures(seconds[place], _Parts(*found[place]))

    return at


def walls(history: HeatHistory, seconds: float) -> Walls:
    """Surface temperatures the gas sees at a moment, mean over a cycle, K.

    Raises
    ------
    OutsideValidity
        For a moment the history does not have.
    """
    rows = row_at(history, seconds)
    surfaces = {stack.name: float(surface(rows, stack)[0]) for stack in history.network.stacks}
    gas = rows.phase.exposure.gas if rows.phase else {}
    bands = [name for name in surfaces if name.startswith("liner")]
    weights = [
        gas[name].mean_coefficient * history.network.stack(name).fire_area if name in gas else 1.0
        for name in bands
    ]
    liner = float(np.average([surfaces[name] for name in bands], weights=weights))
    return Walls(surfaces["crown"], surfaces["head"], surfaces["valves"], liner)


def char_depths(history: HeatHistory, seconds: float) -> dict[str, float]:
    """How deep each part has been above its decomposition temperature so far, m.

    Parts that have not are left out. Peaks within the cycle count: it is a skin first.

    Raises
    ------
    OutsideValidity
        For a moment the history does not have.
    """
    charred = row_at(history, seconds).charred[0]
    depths: dict[str, float] = {}
    for (name, place), count in zip(history.network.charring, charred, strict=True):
        if count:
            stack = history.network.stack(name)
            depths[stack.layers[place].part] = char_depth(stack, place, int(count))
    return depths


def swelling_temperature(temperatures: Temperatures) -> float:
    """Temperature that decides how far a piston has grown, K: mean of crown and skirt.

    A ring belt that is hotter than both is not counted: it has more clearance.
    """
    crown, skirt = temperatures.parts["crown"], temperatures.parts["skirt"]
    return 0.5 * (crown.mean + skirt.mean)


def time_to(
    history: HeatHistory, part: str, place: Place | float, temperature: float
) -> float | None:
    """When a part was first so warm, s; None if it never was in this history.

    Parameters
    ----------
    history
        Of one cylinder.
    part
        By name, as `temperatures_at` has it.
    place
        ``"surface"`` (mean over the cycle), ``"peak"`` (within the cycle), ``"mean"`` (through
        the thickness), ``"back"``, or a depth below the part's hot face, m.
    temperature
        K.

    Raises
    ------
    KeyError
        If there is no such part.
    """
    series = part_series(history, part, place)
    above = np.flatnonzero(series >= temperature)
    if not above.size:
        return None
    index = int(above[0])
    if index == 0:
        return float(history.seconds[0])
    low, high = series[index - 1], series[index]
    part_way = (temperature - low) / (high - low)
    before, after = history.seconds[index - 1], history.seconds[index]
    return float(before + part_way * (after - before))


def part_series(history: HeatHistory, part: str, place: Place | float) -> Floats:
    """Temperature of a part at every moment kept, K; arguments as `time_to`."""
    return np.concatenate([_series(rows, part, place) for rows in all_rows(history)])


def _series(rows: Rows, part: str, place: Place | float) -> Floats:
    found = Profiles(rows)[part]
    if place == "surface":
        return found.temperature[:, 0]
    if place == "peak":
        return found.peak
    if place == "back":
        return found.temperature[:, -1]
    if place == "mean":
        whole = np.trapezoid(found.temperature, found.depth, axis=1)
        return np.asarray(whole / (found.depth[-1] - found.depth[0]), dtype=np.float64)
    return np.array([np.interp(place, found.depth, one) for one in found.temperature])
