"""The path of the load that one line of the ledger is judged by: when, and through what."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from firstfire.drawing.forces import Forces, forces_at
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import Array, Loads, Way
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.all import judged_during
from firstfire.runs.bout import Bout
from firstfire.runs.moments import judged_peak, loads_at
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.judge import Opened
from firstfire.verdict.facts.margin import Margin, named
from firstfire.verdict.words import captions

_CYCLE = 4 * math.pi
_SAME = 1e-6
"""Share by which a number put in may miss the load that it was taken from."""

Felt = tuple[Array, Array]
"""Angles after the firing top centre of cylinder 1, rad, and the size of what is felt at each."""


@dataclass(frozen=True)
class _Place:
    """Where loads are looked for: those of one cylinder, or of all where a part serves all.

    Attributes
    ----------
    felt
        All loads over the cycle judged.
    late
        Firing top centre of each cylinder after that of the first, rad.
    cylinders
        Places of those that are looked at, from 0.
    """

    felt: Loads
    late: tuple[float, ...]
    cylinders: tuple[int, ...]

    def own(self, name: str, sign: float = 1.0) -> Iterator[Felt]:
        """A force of these cylinders; sign 0 for its size either way."""
        for place in self.cylinders:
            loads = self.felt.cylinders[place]
            values: Array = getattr(loads, name)
            yield loads.angle + self.late[place], sign * values if sign else np.abs(values)

    def shaft(self, *each: Array) -> Iterator[Felt]:
        """What is felt over the shaft's angle, in size."""
        yield from ((self.felt.shaft_angle, np.abs(one)) for one in each)


_Where = Callable[[_Place], Iterable[Felt]]
_PUSH, _PIN = ("gas", "inertia", "rod"), ("rod", "crankpin")
_JOURNALS: _Where = lambda at: at.shaft(*(one.bending for one in at.felt.journals))  # noqa: E731
_BEARINGS: _Where = lambda at: at.shaft(*at.felt.main_bearings)  # noqa: E731
_PATHS: Mapping[str, tuple[tuple[str, ...], _Where]] = {
    "thrust": (_PUSH, lambda at: at.own("rod")),
    "pull": (_PUSH, lambda at: at.own("rod", -1.0)),
    "force": (_PUSH, lambda at: (*at.own("rod", 0.0), *at.own("crankpin"))),
    "largest_inertia": (("inertia",), lambda at: at.own("inertia")),
    "crankpin_force": (_PIN, lambda at: at.own("crankpin")),
    "crankpin_force_there": (_PIN, lambda at: at.own("crankpin")),
    "bearing_force": (_PIN, _BEARINGS),
    "journal_moment": (_PIN, _JOURNALS),
    "largest_moment": (_PIN, _JOURNALS),
    "twist": (_PIN, lambda at: at.shaft(*at.felt.joint_twists.values())),
    "largest_torque": (_PIN, lambda at: at.shaft(
        at.felt.torque, *at.felt.joint_torques.values(), *(one.torque for one in at.felt.journals)
    )),
}  # fmt: skip
"""What a way puts in, the forces on its path, and what it was the largest of: the first counts."""
_AT_MOST: Mapping[str, tuple[tuple[str, ...], _Where]] = {
    "gas_pressure": (("gas",), lambda at: at.own("gas")),
    "cubic_mean_force": (_PIN, _BEARINGS),
}
"""Those that are no load of one moment themselves: the path is shown when it is felt most."""


@dataclass(frozen=True)
class LoadPath:
    """When and through what a line's load goes.

    Attributes
    ----------
    words
        What it is, with its forces.
    forces
        At that angle, on that path; None where no force of the mechanism decides the line.
    """

    words: str
    forces: Forces | None = None


def load_path(plain: PlainEngine, bout: Bout, margin: Margin) -> LoadPath:
    """The path of the load of a margin of a bout.

    Parameters
    ----------
    plain, bout
        The engine, and what was run of it.
    margin
        One of those that are shown.
    """
    what = named(plain, margin.way)
    what = what[:1].upper() + what[1:]
    if not margin.way.judged:
        return LoadPath(f"{what}: not judged, so no load of it is drawn.")
    seconds = min(margin.at_seconds, bout.horizon)
    peaks = [judged_peak(bout, row, seconds) for row in range(len(bout.gases))]
    way = Opened([EventResult(margin.event, plain, (bout,))]).way(margin)
    late = tuple(firing_angles(plain))
    place = _Place(loads_at(bout, plain, peaks), late, _cylinders(way, margin.event, len(late)))
    found = _found(way, place)
    if found is None:
        return LoadPath(f"{what}: none of the forces that can be drawn here decides it.")
    names, angle = found
    path = frozenset((number + 1, name) for number in place.cylinders for name in names)
    forces = forces_at(place.felt, plain, angle, path)
    return LoadPath(_words(what, bout, place, forces, names), forces)


def _words(what: str, bout: Bout, place: _Place, forces: Forces, names: tuple[str, ...]) -> str:
    """The forces of the cylinder that bears most then, and its crank angle."""
    worst = max(place.cylinders, key=lambda one: forces.cylinders[one].crankpin)
    own = forces.cylinders[worst]
    sizes = {name: abs(getattr(own, name)) for name in names}
    angle = _turned(forces.crank_angle - place.late[worst])
    return captions.pointed(what, bout.point, (worst + 1, len(place.late)), angle, sizes)


def _cylinders(way: Way, event: str, count: int) -> tuple[int, ...]:
    """The cylinder that a way is of; all of them where its part serves all."""
    base, _, number = way.id.partition("#")
    if any(judge.failure.shared for judge in judged_during(event) if judge.failure.id == base):
        return tuple(range(count))
    return (int(number or 1) - 1,)


def _found(way: Way, place: _Place) -> tuple[tuple[str, ...], float] | None:
    """Names on the path, and the crank angle at which the load that was put in is felt."""
    for name, (names, where) in _PATHS.items():
        if name in way.inputs and (angle := _when(where(place), way.inputs[name])) is not None:
            return names, angle
    for name, (names, where) in _AT_MOST.items():
        if name in way.inputs:
            angles, values = max(where(place), key=lambda felt: float(felt[1].max()))
            return names, _turned(float(angles[int(values.argmax())]))
    return None


def _when(each: Iterable[Felt], wanted: float) -> float | None:
    """The angle at which one of some loads is what is wanted; None where none is."""
    if wanted <= 0.0:
        return None
    for angles, values in each:
        place = int(np.abs(values - wanted).argmin())
        if abs(float(values[place]) - wanted) <= _SAME * wanted:
            return _turned(float(angles[place]))
    return None


def _turned(angle: float) -> float:
    """The same angle within the cycle about the firing top centre of cylinder 1."""
    return (angle + _CYCLE / 2) % _CYCLE - _CYCLE / 2
