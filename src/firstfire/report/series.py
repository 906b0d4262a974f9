"""Curves that the charts draw, taken from a result's records."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.bout import Bout
from firstfire.runs.moments import judged_peak, loads_at
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.result import Result

Floats = NDArray[np.float64]
Span = tuple[float, float]
_CYCLE = 4 * math.pi
_FLOWING = 0.02
"""A valve that suction opens counts as open above this share of its largest flow."""


@dataclass(frozen=True)
class Held:
    """An event of a result with the one of its bouts that is shown."""

    event: EventResult
    number: int

    @property
    def bout(self) -> Bout:
        """The bout."""
        return self.event.bouts[self.number]


def strongest_held(result: Result) -> Held | None:
    """The full-throttle bout of most power; None where nothing fires."""
    event = next((e for e in result.events if e.event == "full_throttle"), None)
    if event is None or not event.bouts:
        return None
    power = [bout.point.brake_power for bout in event.bouts]
    return Held(event, power.index(max(power)))


def found_bout(result: Result, margin: Margin) -> Bout:
    """The bout that a margin was judged in."""
    event = next(e for e in result.events if e.event == margin.event)
    return next(b for b in event.bouts if b.point.name == margin.point)


def open_spans(bout: Bout, cylinder: int, inlet: bool) -> list[Span]:
    """When a cylinder's inlet or exhaust valves are open, rad about its firing top centre.

    Parameters
    ----------
    bout
        Fired or turned.
    cylinder
        From 0.
    inlet
        Whether its inlet valves are asked for, or its exhaust valves.
    """
    fired = bout.point.fired
    spec = fired.spec.cylinders[cylinder]
    spans: list[Span] = []
    for number, valve in enumerate(fired.spec.valves):
        if valve.cylinder != spec.name or valve.name.startswith("inlet") is not inlet:
            continue
        if valve.opens is not None and valve.closes is not None:
            spans += wrapped(valve.opens - spec.phase, valve.closes - spec.phase)
        else:
            flow = np.abs(fired.cycle.curves.flow[:, number])
            local = (fired.cycle.curves.angle - spec.phase + _CYCLE / 2) % _CYCLE - _CYCLE / 2
            order = np.argsort(local)
            spans += stretches(local[order], flow[order] > _FLOWING * float(flow.max()))
    return spans


def wrapped(start: float, end: float) -> list[Span]:
    """A span of crank angle within -2π to 2π, in two where it runs over the end.

    Examples
    --------
    >>> [tuple(round(a, 3) for a in span) for span in wrapped(6.0, 7.0)]
    [(6.0, 6.283), (-6.283, -5.566)]
    """
    half = _CYCLE / 2
    first = (start + half) % _CYCLE - half
    last = first + (end - start)
    if last <= half:
        return [(first, last)]
    return [(first, half), (-half, last - _CYCLE)]


def stretches(x: Floats, wanted: NDArray[np.bool_]) -> list[Span]:
    """Stretches of x along which something holds.

    Examples
    --------
    >>> stretches(np.array([0.0, 1.0, 2.0, 3.0]), np.array([False, True, True, False]))
    [(1.0, 2.0)]
    """
    edges = np.diff(np.concatenate([[False], wanted, [False]]).astype(int))
    begins, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1) - 1
    return [(float(x[a]), float(x[b])) for a, b in zip(begins, ends, strict=True)]


@dataclass(frozen=True)
class TorqueCurves:
    """Torques on the shaft over two turns, N·m, against shaft angle from 0 to 4π.

    Attributes
    ----------
    angle
        rad.
    gas, friction
        Of all cylinders' gas; of all that rubs, negative.
    shaft
        Both, with what the moving parts take and give back.
    """

    angle: Floats
    gas: Floats
    friction: Floats
    shaft: Floats


def torque_curves(bout: Bout, plain: PlainEngine) -> TorqueCurves:
    """Torques of the mean cycle of a bout."""
    curves, point = bout.point.fired.cycle.curves, bout.point
    felt = loads_at(bout, plain, [peaks.mean for peaks in point.peaks])
    turn = curves.angle % _CYCLE
    gas = np.interp(felt.shaft_angle, turn, curves.gas_torque, period=_CYCLE)
    friction = -np.interp(felt.shaft_angle, turn, point.friction.torque, period=_CYCLE)
    return TorqueCurves(felt.shaft_angle, gas, friction, felt.torque + friction)


@dataclass(frozen=True)
class JointCurves:
    """Twist of each crank joint under the cycle a margin was judged by, N·m over shaft angle."""

    angle: Floats
    twists: dict[str, Floats]
    worst: str


def joint_curves(bout: Bout, plain: PlainEngine, margin: Margin) -> JointCurves:
    """Twists of a bout's joints at the margin's second."""
    peaks = [judged_peak(bout, row, margin.at_seconds) for row in range(len(bout.gases))]
    felt = loads_at(bout, plain, peaks)
    twists = {name: np.asarray(twist) for name, twist in felt.joint_twists.items()}
    worst = max(twists, key=lambda name: float(np.max(np.abs(twists[name]))))
    return JointCurves(felt.shaft_angle, twists, worst)
