"""A hole that lets compression off while an engine is started, until it turns fast enough."""

from __future__ import annotations

import math
from collections.abc import Sequence
from copy import copy
from dataclasses import replace

import numpy as np

from firstfire.cycle.layout import Records
from firstfire.cycle.records import EngineSpec, PassageSpec
from firstfire.cycle.ways import lay_ways
from firstfire.engine.resolve import PlainEngine

_TURN, _CYCLE = 2 * math.pi, 4 * math.pi
_COEFFICIENT = 0.7
"""Of discharge of a drilled hole with a seat behind it; sharp orifices have 0.61, rounded ones up
to 1. Common practice, no source."""


def with_holes(spec: EngineSpec, plain: PlainEngine) -> EngineSpec:
    """A network with a hole to the open air in each cylinder, where compression is let off.

    Parameters
    ----------
    spec
        The engine's network.
    plain
        Plain numbers of the same engine.
    """
    if not plain.starter.decompression:
        return spec
    area = math.pi / 4 * plain.starter.decompression_diameter**2
    holes = tuple(
        PassageSpec(_name(row), cylinder.name, "outside", area, _COEFFICIENT)
        for row, cylinder in enumerate(spec.cylinders)
    )
    return replace(spec, passages=(*spec.passages, *holes))


def _name(row: int) -> str:
    return f"decompression {row + 1}"


def whole_turn(passed: Sequence[tuple[float, float]], now: float, angle: float) -> float:
    """Mean speed of the last whole turn, rad/s, either way; 0 before there was one.

    Parameters
    ----------
    passed
        Moments and angles before now, s and rad, the last few turns of them at least.
    now, angle
        s and rad.

    Examples
    --------
    >>> round(whole_turn([(0.0, 0.0), (0.1, 2.0), (0.3, 6.0)], 0.35, 7.0), 3)
    20.0
    """
    if abs(angle - passed[0][1]) < _TURN:
        return 0.0
    times, back = zip(*((one[0], abs(angle - one[1])) for one in reversed(passed)), strict=True)
    return _TURN / (now - float(np.interp(_TURN, back, times)))


class Decompression:
    """The holes of one engine's record, opened and shut as it turns.

    Parameters
    ----------
    plain
        Plain numbers.
    spec
        Its network, holes among it.
    engines
        The kernel's record of that, changed as they shut.
    acts
        Whether it is being started; else they are shut from the beginning.

    Notes
    -----
    Held open all along, a hole is open from the first compression to the last before it lets go,
    while a charge is drawn in too. One that `shuts` before top is open from each bottom before a
    compression up to there, as a pin that a cam pushes at a valve, or a hole in the bore that the
    piston passes. It lets go once, where the last turn was fast enough; then nothing opens it
    before the next start.
    """

    def __init__(
        self, plain: PlainEngine, spec: EngineSpec, engines: Records, *, acts: bool = True
    ) -> None:
        starter = plain.starter
        self.engines, self.until = engines, starter.decompression_until
        self.acts = starter.decompression
        self.let_go_at: float | None = None
        self.shuts = starter.decompression_shuts if self.acts else 0.0
        names = [one.name for one in spec.valves] + [one.name for one in spec.passages]
        self.rows = [names.index(_name(row)) for row in range(len(spec.cylinders)) if self.acts]
        self.areas = [float(engines[0]["passages"]["area"][row]) for row in self.rows]
        if not acts:
            self.feel(math.inf, 0.0)

    def of(self, engines: Records) -> Decompression:
        """The same for another record."""
        other = copy(self)
        other.engines = engines
        return other

    def stands_at(self, angle: float, phases: Sequence[float]) -> None:
        """Open or shut each hole as it is where the shaft stands.

        Parameters
        ----------
        angle
            rad, unwrapped.
        phases
            Firing top centre of each cylinder, rad.
        """
        if not (self.acts and self.shuts > 0.0):
            return
        for row, phase in enumerate(phases):
            to_top = (phase - angle) % _CYCLE
            self.turn(row, opens=self.shuts < to_top <= math.pi)

    def turn(self, row: int, *, opens: bool) -> None:
        """Open or shut the hole of a cylinder, if they still act.

        Parameters
        ----------
        row
            Of the cylinder.
        opens
            Whether it opens.
        """
        if self.acts:
            self._set(row, self.areas[row] if opens else 0.0)
            lay_ways(self.engines[0])

    def let_off(self, angle: float, phases: Sequence[float]) -> bool:
        """Whether an open hole lets off whatever is compressed at an angle.

        Parameters
        ----------
        angle
            rad, unwrapped.
        phases
            Firing top centre of each cylinder, rad.
        """
        if not self.acts:
            return False
        pressed = (row for row, phase in enumerate(phases) if (phase - angle) % _CYCLE <= math.pi)
        areas = self.engines[0]["passages"]["area"]
        return all(areas[self.rows[row]] > 0.0 for row in pressed)

    def feel(self, speed: float, now: float) -> None:
        """Let go of all of them for good where the last turn was fast enough.

        Parameters
        ----------
        speed
            Of the last turn, rad/s.
        now
            s since the start began.
        """
        if self.acts and speed >= self.until:
            for row in range(len(self.rows)):
                self._set(row, 0.0)
            lay_ways(self.engines[0])
            self.acts, self.let_go_at = False, now

    def _set(self, row: int, area: float) -> None:
        self.engines[0]["passages"]["area"][self.rows[row]] = area
