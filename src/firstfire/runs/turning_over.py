"""Whether the starter brings the engine over its top, and how the shaft slows on the way there.

An estimate by energy: the gas and friction torque of a cycle cranked at a held speed work against
the shaft's inertia and a starter whose torque falls evenly from standstill to its idle speed. A
leaky engine asks less at the lower speed near the top, so this is rather too strict than too mild;
the greater friction of rings that have stood a while isn't counted. A model of the free shaft can
take the place of `turned_over`: it gives the same record.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from firstfire.engine.battery import torque_at_a_stand
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import OperatingPoint
from firstfire.runs.shaft import CYCLE, STEPS, Floats, Shaft

_MOST_CYCLES = 12
_SETTLED = 0.01
_PAST_TOP = math.radians(10)
_DOUBLINGS = 14
# A catalog row of one's own may say that a starter has no speed at all, rad/s.
_NO_SPEED = 1e-6


@dataclass(frozen=True)
class TurnOver:
    """What a starter makes of an engine.

    Attributes
    ----------
    mean_torque, peak_torque
        That turning it at the speed asked for takes, at the crank, N·m.
    stall_torque
        That the starter gives at a stand, at the crank, N·m.
    inertia
        Of flywheel, load and the starter's rotor, at the crank, kg·m².
    compression_energy
        Taken by the hardest way from bottom to firing top, J.
    stored_energy
        Of the shaft at the speed reached, J; at a stand there is none.
    over
        Whether it comes over the top at all, with the run-up a person can give it.
    from_rest
        Whether also from a standstill at the bottom before the hardest compression.
    lacking_torque
        What the starter lacks at a stand to come over with that run-up, N·m; 0 where it does.
    speed
        Mean speed reached, no more than was asked for, rad/s; 0 where it doesn't come over.
    slowest, at_top
        Least speed in a cycle then, and speed at the slowest firing top, rad/s.
    pulls
        Compressions that one pull of a rope brings it over; None for any other starter.
    angle, along
        Crank angle of a cycle after firing top centre of cylinder 1, rad, and speed there, rad/s;
        empty where it doesn't come over.
    """

    mean_torque: float
    peak_torque: float
    stall_torque: float
    inertia: float
    compression_energy: float
    stored_energy: float
    over: bool
    from_rest: bool
    lacking_torque: float
    speed: float
    slowest: float
    at_top: float
    pulls: int | None
    angle: Floats
    along: Floats


def turned_over(plain: PlainEngine, cranked: OperatingPoint) -> TurnOver:
    """What the engine's starter makes of it, from its cycle cranked at a held speed.

    Parameters
    ----------
    plain
        Plain numbers.
    cranked
        The point at which it is cranked.
    """
    shaft = _shaft(plain, cranked)
    tops = firing_angles(plain)
    taken = max(_taken(shaft, top) for top in tops)
    from_rest = all(_comes_over(shaft, top - math.pi, top, 0.0) for top in tops)
    over = _with_run_up(plain, shaft, tops)
    base = TurnOver(
        mean_torque=float(shaft.against.mean()),
        peak_torque=float(shaft.against.max()),
        stall_torque=shaft.stall,
        inertia=shaft.inertia,
        compression_energy=taken,
        stored_energy=0.0,
        over=over,
        from_rest=from_rest and over,
        lacking_torque=0.0,
        speed=0.0,
        slowest=0.0,
        at_top=0.0,
        pulls=None,
        angle=np.zeros(0),
        along=np.zeros(0),
    )
    if not over:
        return replace(base, lacking_torque=_lacking(plain, shaft, tops))
    return _running(shaft, tops, cranked.speed, base)


def _shaft(plain: PlainEngine, cranked: OperatingPoint) -> Shaft:
    curves, starter, ratio = cranked.fired.cycle.curves, plain.starter, plain.starter.ratio
    order = np.argsort(curves.angle % CYCLE)
    against = (cranked.friction.torque - curves.gas_torque)[order]
    steps = (np.arange(STEPS) + 0.5) * CYCLE / STEPS
    rotor = starter.inertia / ratio**2
    stroke = math.inf
    if starter.pull_length is not None and starter.drum_diameter is not None:
        stroke = 2 * starter.pull_length / starter.drum_diameter * ratio
    return Shaft(
        against=np.interp(steps, (curves.angle % CYCLE)[order], against, period=CYCLE),
        stall=torque_at_a_stand(starter) / ratio,
        free=max(starter.no_load_speed * ratio, _NO_SPEED),
        inertia=max(plain.flywheel.inertia + plain.load.inertia + rotor, 1e-9),
        stroke=stroke,
        overruns=starter.coupling == "one_way" or math.isfinite(stroke),
    )


def _taken(shaft: Shaft, top: float) -> float:
    """Energy that the half turn before a firing top takes, J."""
    step = CYCLE / STEPS
    first = round((top - math.pi) % CYCLE / step)
    half = [float(shaft.against[(first + at) % STEPS]) for at in range(STEPS // 4)]
    return max(math.fsum(half) * step, 0.0)


def _comes_over(shaft: Shaft, start: float, top: float, speed: float) -> bool:
    """Whether from an angle and speed it passes the next such top by a few degrees."""
    steps = math.ceil(((top - start) % CYCLE + _PAST_TOP) / (CYCLE / STEPS))
    return shaft.march(start, speed, steps)[1] == steps


def _with_run_up(plain: PlainEngine, shaft: Shaft, tops: tuple[float, ...]) -> bool:
    """Whether it comes over each top when turned back first until compression is felt behind.

    It then starts just past the firing top before. Let off, compression takes nothing until it is
    closed at the speed at which the starter carries the friction alone.
    """
    if shaft.free <= _NO_SPEED:
        return False
    if plain.starter.decompression:
        friction = float(np.clip(shaft.against, 0.0, None).mean())
        speed = shaft.free * max(1 - friction / max(shaft.stall, 1e-9), 0.0)
        # A rope is used up by its run-up: what is left is the shaft's own energy.
        closed = replace(shaft, stall=0.0) if math.isfinite(shaft.stroke) else shaft
        return speed > 0 and all(_comes_over(closed, top - math.pi, top, speed) for top in tops)
    ahead = sorted(tops)
    before = [ahead[-1] - CYCLE, *ahead[:-1]]
    return all(
        _comes_over(shaft, past + _PAST_TOP, top, 0.0)
        for past, top in zip(before, ahead, strict=True)
    )


def _lacking(plain: PlainEngine, shaft: Shaft, tops: tuple[float, ...]) -> float:
    """Torque at a stand that brings it over with its run-up, less what there is, N·m."""
    if shaft.free <= _NO_SPEED:
        return max(float(shaft.against.max()) - shaft.stall, 0.0)
    low, high = shaft.stall, max(2 * shaft.stall, 1e-3)
    while not _with_run_up(plain, replace(shaft, stall=high), tops) and high < 1e4:
        low, high = high, 2 * high
    for _ in range(_DOUBLINGS):
        middle = 0.5 * (low + high)
        enough = _with_run_up(plain, replace(shaft, stall=middle), tops)
        low, high = (low, middle) if enough else (middle, high)
    return high - shaft.stall


def _running(shaft: Shaft, tops: tuple[float, ...], asked: float, base: TurnOver) -> TurnOver:
    """The record with what the shaft does once it turns."""
    if math.isfinite(shaft.stroke):
        return _pulled(shaft, tops, base)
    free = shaft.free
    along = _settled(shaft, asked)
    for _ in range(4):
        mean = _mean(along)
        if mean <= asked * (1 + _SETTLED):
            break
        # More than was asked for: the trigger is let back, which lowers the speed it runs to.
        free *= asked / mean
        along = _settled(replace(shaft, free=free), asked)
    if not along.any():
        return replace(base, over=False, from_rest=False,
                       lacking_torque=max(shaft.against.max() - shaft.stall, 0.0))  # fmt: skip
    return _with_speeds(base, along, tops)


def _pulled(shaft: Shaft, tops: tuple[float, ...], base: TurnOver) -> TurnOver:
    """One pull of the rope, from behind the first firing top; its last whole cycle is told."""
    start = tops[0] + _PAST_TOP
    steps = math.ceil(shaft.stroke / (CYCLE / STEPS)) + 4 * STEPS
    along, done = shaft.march(start, 0.0, steps)
    step = CYCLE / STEPS
    passed = 0
    for top in tops:
        first = math.ceil(((top - start) % CYCLE) / step)
        passed += len(range(first, done, STEPS))
    pulled = min(round(shaft.stroke / step), done)
    whole = np.zeros(STEPS)
    first = round(start % CYCLE / step)
    for at in range(max(pulled - STEPS, 0), pulled):
        whole[(first + at) % STEPS] = along[at]
    return replace(_with_speeds(base, whole, tops), pulls=passed)


def _settled(shaft: Shaft, speed: float) -> Floats:
    """Speed along the cycle that repeats, from a speed it has; zeros where it comes to a stand."""
    before = 0.0
    for _ in range(_MOST_CYCLES):
        along, done = shaft.march(0.0, speed, STEPS)
        if done < STEPS:
            return np.zeros(STEPS)
        if abs(_mean(along) / before - 1) < _SETTLED if before else False:
            break
        before, speed = _mean(along), float(along[-1])
    return along


def _mean(along: Floats) -> float:
    """Mean speed in time over the steps that were made."""
    made = along[along > 0]
    return float(len(made) / np.sum(1 / made)) if len(made) else 0.0


def _with_speeds(base: TurnOver, along: Floats, tops: tuple[float, ...]) -> TurnOver:
    step = CYCLE / STEPS
    mean, made = _mean(along), along[along > 0]
    at_tops = [float(along[round(top % CYCLE / step) % STEPS]) for top in tops]
    turned = [speed for speed in at_tops if speed > 0]
    return replace(
        base,
        speed=mean,
        slowest=float(made.min()) if len(made) else 0.0,
        at_top=min(turned) if turned else mean,
        stored_energy=0.5 * base.inertia * mean**2,
        angle=np.array((np.arange(STEPS) + 0.5) * step, dtype=np.float64),
        along=along,
    )


def speed_before_top(plain: PlainEngine, cranked: OperatingPoint) -> float:
    """Crank speed left at the firing top, rad/s; as asked for where it doesn't come over.

    What doesn't come over is judged as if something stronger turned it.
    """
    over = turned_over(plain, cranked)
    return over.at_top if over.over else cranked.speed
