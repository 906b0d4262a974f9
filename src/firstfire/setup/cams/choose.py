"""Cams that fill an engine best at chosen speeds, of those that can be made and hold."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import EngineFileError, OutsideValidity, Stopped
from firstfire.loads.cam_profile import Which, profile
from firstfire.runs.point import operating_point, spark_angle
from firstfire.runs.walls import assumed_warm
from firstfire.setup.cams import makeable
from firstfire.setup.cams.events import LAWS
from firstfire.setup.cams.numbers import numbers, top_speed
from firstfire.setup.cams.spring import needed_line, winding

Move = tuple[str, float]
_STEPS = (8.0, 4.0)  # degrees, or per cent of the lift
_MOST = 64
_GAIN = 1e-3  # of filling: less is noise
_PLACES = 241


@dataclass(frozen=True)
class Point:
    """A pair of cams: angles as the file has them, degrees; lifts in m; one law for both."""

    law: str
    angles: Mapping[str, float]
    lifts: Mapping[Which, float]

    def moved(self, name: str, by: float) -> Point:
        """With an angle more by degrees, or a lift by per cent."""
        if name in ("inlet", "exhaust"):
            lifts = {
                which: lift * (1.0 + by / 100.0 if which == name else 1.0)
                for which, lift in self.lifts.items()
            }
            return Point(self.law, self.angles, lifts)
        return Point(self.law, {**self.angles, name: self.angles[name] + by}, self.lifts)


@dataclass(frozen=True)
class Chosen:
    """What was found.

    Attributes
    ----------
    values
        Values of the engine file that give it, by path; none where nothing better was found.
    before, after
        Mean filling at the speeds, as the file is and with it; None where the file's own cams
        can't be run.
    speeds
        rad/s.
    tried, refused
        How many pairs of cams were run, and how many could not be made or would not hold.
    finished
        Whether it was not stopped.
    """

    values: dict[str, object]
    before: float | None
    after: float
    speeds: tuple[float, ...]
    tried: int
    refused: int
    finished: bool


@dataclass
class _Search:
    engine: Engine
    speeds: Sequence[float]
    stop: Callable[[], bool]
    told: Callable[[str, float], None]
    tried: int = 0
    refused: int = 0
    best: tuple[float, dict[str, object]] = (-math.inf, {})
    seen: dict[str, float] = field(default_factory=dict)

    def worth(self, point: Point) -> float:
        """Mean filling of a pair of cams; minus infinity where it can't be made or held."""
        if self.stop():  # a run that is over in no time doesn't ask
            raise Stopped("The search was stopped.")
        put = _sprung(self.engine, _values(point))
        key = repr(put)
        if key in self.seen:
            return self.seen[key]
        self.told("trying cams", min((self.tried + self.refused) / _MOST, 0.99))
        found = -math.inf
        if put is not None:
            plain = resolve(with_values(self.engine, put))
            found = filling(plain, self.speeds, self.stop)
            if found > self.best[0]:
                self.best = found, put
        self.tried, self.refused = self.tried + math.isfinite(found), self.refused + (put is None)
        self.seen[key] = found
        return found


def choose(
    engine: Engine,
    speeds: Sequence[float] | None = None,
    *,
    stop: Callable[[], bool] = lambda: False,
    on_progress: Callable[[str, float], None] = lambda _what, _share: None,
) -> Chosen:
    """The best cams found for an engine, with springs that hold them.

    It goes from the file's cams by one change at a time, each kept if it fills better: law, the
    inlet's two angles and lift, the closing and lift of the exhaust. When the exhaust opens stays:
    that costs work, not filling.

    Parameters
    ----------
    engine
        As written.
    speeds
        At which it shall fill, rad/s; None: the file's full throttle speeds.
    stop
        Asked at least every 0.1 s; true ends it with the best so far.
    on_progress
        Told what is done and the share.

    Raises
    ------
    OutsideValidity
        Where no pair of cams near the file's can be made.
    """
    plain = resolve(engine)
    at = tuple(speeds or plain.use.full_throttle_speeds)
    search = _Search(engine, at, stop, on_progress)
    before, finished = None, True
    try:
        before = filling(plain, at, stop)
        _climb(search, _start(plain))
    except Stopped:
        finished = False
    if not search.best[1] and finished:
        raise OutsideValidity(
            "No cams near the file's can be made and hold. See `firstfire cam` without --choose: "
            "it says what stands in the way of each, and the nearest that can be made."
        )
    better = before is None or search.best[0] > before
    return Chosen(
        search.best[1] if better else {},
        before if before is None or math.isfinite(before) else None,
        search.best[0] if better or before is None else before,
        at, search.tried, search.refused, finished,
    )  # fmt: skip


def filling(plain: PlainEngine, speeds: Sequence[float], stop: Callable[[], bool]) -> float:
    """Mean filling of all cylinders at speeds, fired at full throttle with warm walls."""
    found = []
    for speed in speeds:
        try:
            point = operating_point(
                plain, "full_throttle", "cams", speed, assumed_warm(plain),
                spark_angle(plain, speed, starting=False), with_peaks=False, stop=stop,
            )  # fmt: skip
        except OutsideValidity:
            return -math.inf
        found += [one.filling_trapped for one in point.fired.cycle.cylinders]
    return sum(found) / len(found)


def _start(plain: PlainEngine) -> Point:
    valves = plain.cylinders[0].valves
    law = LAWS[0] if "table" in (valves.inlet.cam_law, valves.exhaust.cam_law) else (
        valves.inlet.cam_law if valves.inlet.worked == "cam" else valves.exhaust.cam_law
    )  # fmt: skip
    angles = {"exhaust.closes_after_top": math.degrees(valves.exhaust.closes_after_top)}
    lifts: dict[Which, float] = {"exhaust": valves.exhaust.lift}
    if valves.inlet.worked == "cam":
        lifts["inlet"] = valves.inlet.lift
        for name in ("opens_before_top", "closes_after_bottom"):
            angles[f"inlet.{name}"] = math.degrees(getattr(valves.inlet, name))
    return Point(law, angles, lifts)


def _climb(search: _Search, start: Point) -> None:
    """By single changes, coarse and then fine, until none helps or enough were tried."""
    points = {
        law: Point(law, start.angles, start.lifts) for law in dict.fromkeys((start.law, *LAWS))
    }
    here = max(points.values(), key=search.worth)
    worth = search.worth(here)
    for step in _STEPS:
        moved = True
        while moved and search.tried + search.refused < _MOST:
            moved = False
            for name, by in _moves(here, step):
                there = here.moved(name, by)
                found = search.worth(there)
                if found > worth + _GAIN:
                    here, worth, moved = there, found, True


def _moves(here: Point, step: float) -> Iterator[Move]:
    for name in (*here.angles, *here.lifts):
        yield name, step
        yield name, -step


def _values(point: Point) -> dict[str, object]:
    put: dict[str, object] = {
        f"valves.{name}": f"{value:.1f} deg" for name, value in point.angles.items()
    }
    for which, lift in point.lifts.items():
        put[f"valves.{which}.cam_law"] = point.law
        put[f"valves.{which}.lift"] = f"{1e3 * lift:.2f} mm"
    return put


def _sprung(engine: Engine, put: dict[str, object]) -> dict[str, object] | None:
    """The same with springs that hold them; None where they can't be made or something gives."""
    try:
        plain = resolve(with_values(engine, put))
        which: tuple[Which, ...] = tuple(
            name for name in ("inlet", "exhaust")
            if getattr(plain.cylinders[0].valves, name).worked == "cam"
        )  # fmt: skip
        for name in which:
            made = profile(plain.cylinders[0], name, _PLACES)
            line = needed_line(made, top_speed(plain))
            winding(made, line, top_speed(plain))
            put = {
                **put,
                f"valves.{name}.spring_preload": f"{math.ceil(1.02 * line.preload)} N",
                f"valves.{name}.spring_rate": f"{math.ceil(1.02 * line.rate / 50) * 0.05:.2f} N/mm",
            }
        plain = resolve(with_values(engine, put))
        return put if all(_holds(plain, name) for name in which) else None
    except (EngineFileError, OutsideValidity):
        return None


def _holds(plain: PlainEngine, which: Which) -> bool:
    if makeable.faults(plain, which):
        return False
    made = profile(plain.cylinders[0], which, _PLACES)
    return all(one.holds for one in numbers(plain, made, makeable.line_width(plain)))
