"""One start with everything of every step kept, for what is asked of it afterwards."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.build import volumes_at
from firstfire.cycle.layout import Records
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked, Lived
from firstfire.runs.start.life import Life

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Gas:
    """What a volume holds at a step, beside a burned zone.

    Attributes
    ----------
    pressure, temperature
        Pa and K.
    air, fuel, burned
        kg.
    volume
        m³.
    """

    pressure: float
    temperature: float
    air: float
    fuel: float
    burned: float
    volume: float

    @property
    def mass(self) -> float:
        """All of it, kg."""
        return self.air + self.fuel + self.burned

    def mixture(self, stoichiometric: float) -> float:
        """Fuel over air against just enough; 0 where there is no air."""
        return self.fuel / self.air * stoichiometric if self.air > 0.0 else 0.0


@dataclass(frozen=True)
class Seen:
    """A start with every step's whole state.

    Attributes
    ----------
    life
        Whose it was.
    lived
        What is told of it.
    rows
        Time and all values at each step.
    events
        What had happened at events before, (rows, cylinders).
    """

    life: Life
    lived: Lived
    rows: Floats
    events: Records

    @property
    def time(self) -> Floats:
        """s."""
        return np.asarray(self.rows[:, 0], dtype=np.float64)

    def place(self, row: int, step: int) -> float:
        """Where a cylinder is at a step, rad after its firing top centre, -2π to 2π."""
        turned = float(self.rows[step, 1 + layout.ANGLE]) - self.life.phases[row]
        return (turned + 2 * np.pi) % (4 * np.pi) - 2 * np.pi

    def speed(self, step: int) -> float:
        """rad/s."""
        return float(self.rows[step, 1 + layout.SPEED])

    def of(self, name: str, steps: slice | int, what: int) -> Floats:
        """One thing of a volume along some steps."""
        at = 1 + layout.SHAFT_SIZE + self._row(name) * layout.VOLUME_SIZE + what
        return np.asarray(self.rows[steps, at], dtype=np.float64)

    def passed(self, name: str) -> Floats:
        """What went through a passage by each step, from its start to its end, kg."""
        spec = self.life.spec
        names = [one.name for one in spec.valves] + [one.name for one in spec.passages]
        at = 1 + int(self.life.engines[0]["passage_sums_at"]) + layout.PASSED_MASS
        column = at + names.index(name) * layout.PASSAGE_SUMS
        return np.asarray(self.rows[:, column], dtype=np.float64)

    def zone(self, row: int, steps: slice | int) -> Floats:
        """Mass of a cylinder's burned zone along some steps, kg."""
        at = 1 + int(self.life.engines[0]["cylinders_at"]) + row * layout.CYLINDER_SIZE
        masses = [self.rows[steps, at + n] for n in (1, 2, 3)]
        return np.asarray(masses[0] + masses[1] + masses[2], dtype=np.float64)

    def gas(self, name: str, step: int) -> Gas:
        """What a volume holds at a step."""
        angle = float(self.rows[step, 1 + layout.ANGLE])
        room = float(volumes_at(self.life.engines, angle)[self._row(name)])
        what = layout.PRESSURE, layout.TEMPERATURE, layout.AIR, layout.FUEL, layout.BURNED
        held = [float(self.of(name, step, one)) for one in what]
        return Gas(held[0], held[1], held[2], held[3], held[4], room)

    def openings(self, row: int) -> Iterator[int]:
        """The last step before each moment at which a shut cylinder opens."""
        shut = self.events["closed"][:, row]
        yield from (int(step) for step in np.flatnonzero((shut[:-1] == 1) & (shut[1:] == 0)))

    def _row(self, name: str) -> int:
        spec = self.life.spec
        names = [one.name for one in spec.cylinders] + [one.name for one in spec.volumes]
        return names.index(name)


class _Watched(Life):
    """One that keeps every step whole."""

    def __init__(self, plain: PlainEngine, asked: Asked, shaft: ShaftSpec | None) -> None:
        self.whole: list[Floats] = []
        self.happened: list[Records] = []
        super().__init__(plain, asked, shaft)

    def _keep(self, rows: Floats, events: Records) -> None:
        super()._keep(rows, events)
        self.whole.append(rows.copy())
        self.happened.append(events.copy())


def seen(
    plain: PlainEngine,
    asked: Asked,
    shaft: ShaftSpec | None = None,
    stop: Callable[[], bool] | None = None,
) -> Seen:
    """Live a start and keep all of it.

    Parameters
    ----------
    plain, asked, shaft
        As `Life` has them.
    stop
        Asked at each step.

    Raises
    ------
    Stopped
        If `stop` said so.
    """
    life = _Watched(plain, asked, shaft)
    lived = life.lived(stop)
    return Seen(life, lived, np.concatenate(life.whole), np.concatenate(life.happened))
