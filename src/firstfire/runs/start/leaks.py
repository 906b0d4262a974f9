"""How tight each cylinder is at a stand, and where it leaks: what tests without fuel would show."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal, get_args

import numpy as np

from firstfire.engine.description import CylinderParts
from firstfire.engine.engine import Engine
from firstfire.engine.geometry import mechanism
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknown import Unknown
from firstfire.engine.unknowns import unknowns
from firstfire.formulas.effective_compression import effective_compression_ratio
from firstfire.formulas.leak_down import DISCHARGE, ORIFICE, SUPPLY, held_pressure, seconds_to_fall
from firstfire.formulas.normal import NINETY
from firstfire.runs.cranking import OILED
from firstfire.runs.drawn import SEED, strata
from firstfire.runs.moved import value_at

Path = Literal["ring", "inlet_seat", "exhaust_seat", "gasket", "plug", "wall"]
PATHS: tuple[Path, ...] = get_args(Path)
_DRAWS = 2000
_HALF = 0.5


@dataclass(frozen=True)
class LeakPath:
    """One way out of a cylinder.

    Attributes
    ----------
    path
        Which.
    area
        Effective, m².
    share
        Of all of them.
    """

    path: Path
    area: float
    share: float


@dataclass(frozen=True)
class Tightness:
    """What a cylinder shows that stands at its firing top centre, cold and without fuel.

    Attributes
    ----------
    cylinder
        From 1.
    area, low, high
        All its leaks together, and 5 to 95 % of what is known of them, m².
    loss, loss_low, loss_high, loss_oiled
        Share of the supply's pressure that a leak-down tester loses; with oil on the rings.
    thumb_begins
        Above the air, that a quick turn by hand brings its charge to, Pa.
    thumb, thumb_oiled
        How long until half of that has leaked out from under a thumb, s; infinite: it holds.
    paths
        The largest first.
    """

    cylinder: int
    area: float
    low: float
    high: float
    loss: float
    loss_low: float
    loss_high: float
    loss_oiled: float
    thumb_begins: float
    thumb: float
    thumb_oiled: float
    paths: tuple[LeakPath, ...]


def tightness(engine: Engine, plain: PlainEngine) -> tuple[Tightness, ...]:
    """What leak tests of each cylinder would show.

    Parameters
    ----------
    engine
        With what is uncertain of its leaks.
    plain
        Its plain numbers.
    """
    return tuple(_of(engine, plain, row) for row in range(len(plain.cylinders)))


def _of(engine: Engine, plain: PlainEngine, row: int) -> Tightness:
    parts, air = plain.cylinders[row], plain.surroundings.air_pressure
    areas = {path: float(getattr(parts.leak, path)) for path in PATHS}
    total = math.fsum(areas.values())
    low, high = _span(engine, row, total)
    oil = (1.0 - OILED) * areas["ring"]
    begins = air * (_pressed_together(parts) - 1.0)

    def loss(area: float) -> float:
        return 1.0 - held_pressure(SUPPLY, _open(), area, air) / SUPPLY

    def thumb(area: float) -> float:
        # a thumb is where the plug would be
        area = max(area - areas["plug"], 0.0)
        warm, volume = plain.surroundings.air_temperature, _top_volume(parts)
        return seconds_to_fall(begins, _HALF * begins, volume, area, air, warm)

    paths = [LeakPath(path, area, area / total) for path, area in areas.items() if area > 0.0]
    return Tightness(
        cylinder=row + 1,
        area=total,
        low=low,
        high=high,
        loss=loss(total),
        loss_low=loss(low),
        loss_high=loss(high),
        loss_oiled=loss(total - oil),
        thumb_begins=begins,
        thumb=thumb(total),
        thumb_oiled=thumb(total - oil),
        paths=tuple(sorted(paths, key=lambda one: -one.area)),
    )


def _open() -> float:
    """Effective area of a tester's orifice, m²."""
    return DISCHARGE * math.pi / 4 * ORIFICE**2


def _top_volume(parts: CylinderParts) -> float:
    """What is shut in at top centre, m³."""
    swept = math.pi / 4 * parts.cylinder.bore**2 * parts.cylinder.stroke
    return swept / (parts.cylinder.compression_ratio - 1.0)


def _pressed_together(parts: CylinderParts) -> float:
    """Volume as the inlet shuts over that at top centre, turned so slowly that suction shuts it at
    the bottom; slow compression keeps the walls' temperature, so that pressure rises as much."""
    inlet = parts.valves.inlet
    late = inlet.closes_after_bottom if inlet.worked == "cam" else 0.0
    return effective_compression_ratio(parts.cylinder.compression_ratio, late, *mechanism(parts))


def _span(engine: Engine, row: int, total: float) -> tuple[float, float]:
    """5 and 95 % of all leaks of a cylinder together, m²; both the total where all are known."""
    own = f"cylinders.{row + 1}.leak." if engine.cylinders > 1 else "leak."
    known = [one for one in unknowns(engine) if one.path.startswith(own)]
    if not known:
        return total, total
    shares = strata(_DRAWS, [one.path for one in known], SEED)
    drawn = np.zeros(_DRAWS)
    for column, one in enumerate(known):
        drawn += [_value(one, share) for share in shares[:, column].tolist()]
    low, high = np.percentile(drawn, (5.0, 95.0))
    return min(float(low), total), max(float(high), total)


def _value(unknown: Unknown, share: float) -> float:
    if unknown.distribution == "loguniform":  # spans exactly from low to high
        return value_at(unknown, NINETY * (2.0 * share - 1.0))
    return value_at(unknown, NormalDist().inv_cdf(share))
