"""What is laid over the section: forces where it presses most, lines of one temperature."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np
from markupsafe import Markup

from firstfire.drawing.forces import forces_at
from firstfire.drawing.isotherms import Isotherm, Wall, isotherm_words
from firstfire.engine.resolve import PlainEngine
from firstfire.heat.history import HeatHistory
from firstfire.heat.liner import bands
from firstfire.runs.bout import Bout
from firstfire.runs.moments import loads_at
from firstfire.verdict.words import captions

_ZERO = 273.15
_STEPS = (10.0, 25.0, 50.0, 100.0, 200.0, 400.0)
_MOST = 5
"""Lines in one wall."""
OVER = ("forces", "warm")


def laid_over(
    over: tuple[str, ...], plain: PlainEngine, bout: Bout, seconds: float
) -> dict[str, Any]:
    """What `firstfire.drawing.section.section` takes of a bout, as far as it is wanted.

    Parameters
    ----------
    over
        Of ``forces`` and ``warm``.
    plain, bout
        The engine, and what was run of it.
    seconds
        Into the bout: forces come again with every cycle, warmth grows.
    """
    found: dict[str, Any] = {}
    if "forces" in over and bout.point.peaks:
        angle = bout.point.peaks[0].angle
        felt = loads_at(bout, plain, [one.mean for one in bout.point.peaks])
        found |= {"crank_angle": angle, "forces": forces_at(felt, plain, angle)}
    if "warm" in over:
        found["warm"] = [
            tuple(warm_lines(plain, number, history, seconds))
            for number, history in enumerate(bout.histories)
        ]
    return found


def over_words(over: Mapping[str, Any], bout: Bout, pointed: str = "") -> Markup:
    """What the lines and arrows are, in words below the drawing.

    Parameters
    ----------
    over, bout
        What is laid over, and what was run.
    pointed
        What is said of the line of the ledger that is pointed at; "" where none is.
    """
    told = [pointed] if pointed else []
    if "forces" in over and over["forces"].path is None:
        own = over["forces"].cylinders[0]
        told.append(captions.pushing(bout.point, over["crank_angle"], own.gas, own.rod, own.side))
    for number, lines in enumerate(over.get("warm", ()), start=1):
        of = f" of cylinder {number}" if len(over["warm"]) > 1 else ""
        words = isotherm_words(lines) or "all at one temperature"
        told.append(f"In the walls{of}, from the fire outwards: {words}.")
    if "warm" in over:
        told.append("Heat is reckoned straight through each wall; an estimate.")
    return Markup("").join(Markup('<p class="quiet">{}</p>').format(one) for one in told)


def warm_lines(
    plain: PlainEngine, number: int, history: HeatHistory, seconds: float
) -> Iterator[Isotherm]:
    """Lines of one temperature in crown, head and bore of a cylinder at a second."""
    at = min(seconds, float(history.seconds[-1]))
    nodes = [float(np.interp(at, history.seconds, own)) for own in history.temperatures.T]
    heights = {band.name: band for band in bands(plain, plain.cylinders[number])}
    first = history.network.first_cells
    for stack in history.network.stacks:
        band = heights.get(stack.name)
        wall: Wall | None = "liner" if band else _WALLS.get(stack.name)
        if wall is None:
            continue
        own = np.asarray(nodes[first[stack.name] : first[stack.name] + stack.cells]) - _ZERO
        for level in levels(float(own.min()), float(own.max())):
            depth = _crossing(own, stack.depth, level)
            top, bottom = (band.top, band.bottom) if band else (0.0, 0.0)
            yield Isotherm(wall, level, depth, top, bottom)


_WALLS: dict[str, Wall] = {"crown": "crown", "head": "head"}


def levels(low: float, high: float) -> list[float]:
    """Round temperatures between two, °C, five at most.

    Examples
    --------
    >>> levels(20.0, 180.0), levels(20.0, 20.3)
    ([50.0, 100.0, 150.0], [])
    """
    step = next((one for one in _STEPS if (high - low) / one <= _MOST), _STEPS[-1])
    count = range(math.floor(low / step) + 1, math.ceil(high / step))
    return [step * number for number in count]


def _crossing(temperatures: Any, depths: Any, level: float) -> float:
    """Depth at which a wall first has a temperature, m."""
    above = temperatures > level
    place = int(np.argmax(above[1:] != above[:-1]))
    a, b = temperatures[place : place + 2]
    share = (level - a) / (b - a)
    return float(depths[place] + share * (depths[place + 1] - depths[place]))
