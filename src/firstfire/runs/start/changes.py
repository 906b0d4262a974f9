"""Changes that may better the odds of a start, each tried on the same engines."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstfire.engine.battery import battery_of
from firstfire.engine.engine import Engine
from firstfire.engine.quantity import write_quantity
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import Stopped
from firstfire.runs.cranking import OILED
from firstfire.runs.moved import Trials
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.odds import Tried, odds
from firstfire.runs.start.vapour import LIGHTS_WELL, warm_enough
from firstfire.runs.stood import sticks

_COUNT, _TRIES = 16, 2
_HEAVIER = (2.0, 5.0)
_FASTER, _RICHER = 1.5, 1.15
_WIDER = (1.0, 2.0)
"""Holes that are tried, over the one of the rule."""
_STICKS = 1.2
"""Times the friction of running rings."""
_SAGS = 0.9
"""Of its torque at a stand: a battery that leaves more is none to change."""
_ANOTHER_SPARK = math.radians(2.0)


@dataclass(frozen=True)
class Change:
    """A change that was tried.

    Attributes
    ----------
    text
        What to do.
    values
        What it sets in the engine file.
    starts
        Share of the engines that start with it, and as they are.
    before
        The same engines without it.
    """

    text: str
    values: Mapping[str, str]
    starts: float
    before: float


def changes(
    engine: Engine,
    asked: Asked,
    best: float,
    *,
    stop: Callable[[], bool] | None = None,
    on_progress: Callable[[float], None] | None = None,
) -> tuple[Change, ...]:
    """What helps a start, the best first; nothing that doesn't.

    Parameters
    ----------
    engine
        The engine with its unknowns.
    asked
        How it is started.
    best
        Spark before top centre that suits its starting best, rad.
    stop, on_progress
        Asked every 0.05 s; told the share done.
    """
    listed = list(_candidates(engine, best))
    now = _tried(Trials(engine), asked, range(_COUNT), stop)
    each = {number: one.started_at is not None for number, one in now.items()}
    before = sum(each.values())
    if any(one.why in ("torque", "spark") for one in now.values()):
        listed += _eased(resolve(engine))
    found = []
    for number, (text, values) in enumerate(listed, start=1):
        if on_progress is not None:
            on_progress(number / (len(listed) + 1))
        after = _after(Trials(with_values(engine, dict(values))), asked, each, stop)
        if after > before:
            found.append(Change(text, values, after / _COUNT, before / _COUNT))
    return tuple(sorted(found, key=lambda change: -change.starts))


def _tried(
    trials: Trials, asked: Asked, numbers: Sequence[int], stop: Callable[[], bool] | None
) -> dict[int, Tried]:
    """What becomes of some engines, by their numbers."""
    found = odds(trials, asked, _COUNT, tries=_TRIES, stop=stop, numbers=numbers)
    if found.stopped:
        raise Stopped("The start was stopped.")
    return dict(zip(numbers, found.each, strict=True))


def _after(
    trials: Trials, asked: Asked, before: Mapping[int, bool], stop: Callable[[], bool] | None
) -> int:
    """How many start with a change; 0 where it mends none, and the others needn't be tried."""
    failed = [number for number, starts in before.items() if not starts]
    mended = _count(_tried(trials, asked, failed, stop))
    if mended == 0:
        return 0
    started = [number for number, starts in before.items() if starts]
    return mended + _count(_tried(trials, asked, started, stop))


def _count(each: Mapping[int, Tried]) -> int:
    return sum(one.started_at is not None for one in each.values())


def _eased(plain: PlainEngine) -> Iterator[tuple[str, Mapping[str, str]]]:
    """What helps a starter that doesn't turn it past its compression, or leaves no spark."""
    starter, battery = plain.starter, battery_of(plain.starter)
    if sticks(plain, plain.use.stood) > _STICKS:
        yield "Turn it by hand just before it is started", {"use.stood": "0 s"}
    if battery is not None and battery.share < _SAGS:
        less = write_quantity(0.5 * battery.added, "resistance", digits=2)
        yield (
            f"A larger or fresher battery with thicker leads, {less} in all",
            {"starter.battery_resistance": less},
        )
    if starter.decompression:
        return
    until = write_quantity(starter.decompression_until, "speed", digits=2)
    for share in _WIDER:
        hole = write_quantity(share * starter.decompression_diameter, "length", digits=2)
        yield (
            f"Let compression off by a hole of {hole} until it turns at {until}",
            {"starter.decompression": "true", "starter.decompression_diameter": hole},
        )


def _candidates(engine: Engine, best: float) -> Iterator[tuple[str, Mapping[str, str]]]:
    plain = resolve(engine)
    rings = {parts.leak.ring for parts in plain.cylinders}
    if max(rings) > 0.0:
        area = write_quantity(float(f"{OILED * max(rings):.2g}"), "area")
        yield f"Oil the rings, so that they leak no more than {area}", {"leak.ring": area}
    for share in _HEAVIER:
        inertia = float(f"{max(plain.flywheel.inertia, 1e-4) * share:.2g}")
        written = write_quantity(inertia, "inertia")
        yield f"Fit a flywheel of {written}", {"flywheel.inertia": written}
    if abs(plain.spark.start_angle - best) > _ANOTHER_SPARK:
        written = write_quantity(best, "angle")
        yield f"Start with the spark {written} before top", {"spark.start_angle": written}
    warm = warm_enough(plain, LIGHTS_WELL)
    if warm is not None and warm > plain.surroundings.air_temperature:
        written = write_quantity(math.ceil(warm - 273.15) + 273.15, "temperature")
        yield (
            f"Warm engine, fuel and air to {written} before it is started",
            {"surroundings.air_temperature": written},
        )
    faster = write_quantity(_FASTER * plain.use.cranking_speed, "speed")
    geared = f"{_FASTER * plain.starter.ratio:.3g}"
    yield (
        f"Crank at {faster}, the starter geared {geared} to 1",
        {"use.cranking_speed": faster, "starter.ratio": geared},
    )
    rich = f"{_RICHER * plain.intake.equivalence_ratio:.3g}"
    yield f"Richen it to {rich} for starting", {"intake.equivalence_ratio": rich}
