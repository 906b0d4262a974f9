"""Cams that fill an engine best at chosen speeds, of those that can be made and hold."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import EngineFileError, OutsideValidity, Stopped
from firstfire.loads.cam_profile import Which, profile
from firstfire.runs.point import operating_point, spark_angle
from firstfire.runs.walls import assumed_warm
from firstfire.setup.cams import makeable
from firstfire.setup.cams.chosen import Breath, Chosen, Opening, Point
from firstfire.setup.cams.events import LAWS
from firstfire.setup.cams.numbers import numbers, top_speed
from firstfire.setup.cams.spring import needed_line, winding

Move = tuple[str, float]
_STEPS = (8.0, 4.0)  # degrees, or per cent of the lift
_MOST = 64
_MOST_OPENINGS = 8
_GAIN = 1e-3  # of filling: less is noise
_PAYS = 2e-3  # of the work of a cycle: less is noise
_OPENS = "exhaust.opens_before_bottom"
_PLACES = 241


_NONE = Breath(-math.inf, -math.inf)


@dataclass
class _Search:
    engine: Engine
    speeds: Sequence[float]
    stop: Callable[[], bool]
    told: Callable[[str, float], None]
    tried: int = 0
    refused: int = 0
    best: tuple[float, dict[str, object]] = (-math.inf, {})
    seen: dict[str, tuple[Breath, dict[str, object]]] = field(default_factory=dict)

    def worth(self, point: Point) -> float:
        """Mean filling of a pair of cams; minus infinity where it can't be made or held."""
        found, put = self.run(point)
        if found.filling > self.best[0]:
            self.best = found.filling, put
        return found.filling

    def run(self, point: Point) -> tuple[Breath, dict[str, object]]:
        """What a pair of cams is worth, and the values that give it, springs and all."""
        if self.stop():  # a run that is over in no time doesn't ask
            raise Stopped("The search was stopped.")
        put = _sprung(self.engine, _values(point))
        key = repr(put)
        if key in self.seen:
            return self.seen[key]
        share = (self.tried + self.refused) / (_MOST + _MOST_OPENINGS)
        self.told("trying cams", min(share, 0.99))
        found = _NONE
        if put is not None:
            plain = resolve(with_values(self.engine, put))
            found = breathing(plain, self.speeds, self.stop)
        self.tried += math.isfinite(found.filling)
        self.refused += put is None
        self.seen[key] = found, put or {}
        return self.seen[key]


def choose(
    engine: Engine,
    speeds: Sequence[float] | None = None,
    *,
    stop: Callable[[], bool] = lambda: False,
    on_progress: Callable[[str, float], None] = lambda _what, _share: None,
) -> Chosen:
    """The best cams found for an engine, with springs that hold them.

    It goes from the file's cams by one change at a time, each kept if it fills better: law, the
    inlet's two angles and lift, the closing and lift of the exhaust. When the exhaust opens hardly
    changes the filling: it is chosen last, by the work of a cycle, where that pays and no filling
    is lost.

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
    before, opening, finished = None, None, True
    try:
        before = filling(plain, at, stop)
        opening = _open(search, _climb(search, _start(plain)), before)
    except Stopped:
        finished = False
    if not search.best[1] and finished:
        raise OutsideValidity(
            "No cams near the file's can be made and hold. See `firstfire cam` without --choose: "
            "it says what stands in the way of each, and the nearest that can be made."
        )
    better = before is None or search.best[0] > before or _moved(opening)
    return Chosen(
        search.best[1] if better else {},
        before if before is None or math.isfinite(before) else None,
        search.best[0] if better or before is None else before,
        at, search.tried, search.refused, finished, opening,
    )  # fmt: skip


def filling(plain: PlainEngine, speeds: Sequence[float], stop: Callable[[], bool]) -> float:
    """Mean filling of all cylinders at speeds, fired at full throttle with warm walls."""
    return breathing(plain, speeds, stop).filling


def breathing(plain: PlainEngine, speeds: Sequence[float], stop: Callable[[], bool]) -> Breath:
    """Mean filling and work of all cylinders at speeds, fired at full throttle with warm walls."""
    found = []
    for speed in speeds:
        try:
            point = operating_point(
                plain, "full_throttle", "cams", speed, assumed_warm(plain),
                spark_angle(plain, speed, starting=False), with_peaks=False, stop=stop,
            )  # fmt: skip
        except OutsideValidity:
            return _NONE
        found += [Breath(one.filling_trapped, one.imep_net)
                  for one in point.fired.cycle.cylinders]  # fmt: skip
    filled, worked = (sum(each) / len(found) for each in zip(*found, strict=True))
    return Breath(filled, worked)


def _moved(opening: Opening | None) -> bool:
    return opening is not None and opening.after != opening.before


def _start(plain: PlainEngine) -> Point:
    valves = plain.cylinders[0].valves
    law = LAWS[0] if "table" in (valves.inlet.cam_law, valves.exhaust.cam_law) else (
        valves.inlet.cam_law if valves.inlet.worked == "cam" else valves.exhaust.cam_law
    )  # fmt: skip
    angles = {
        _OPENS: math.degrees(valves.exhaust.opens_before_bottom),
        "exhaust.closes_after_top": math.degrees(valves.exhaust.closes_after_top),
    }
    lifts: dict[Which, float] = {"exhaust": valves.exhaust.lift}
    if valves.inlet.worked == "cam":
        lifts["inlet"] = valves.inlet.lift
        for name in ("opens_before_top", "closes_after_bottom"):
            angles[f"inlet.{name}"] = math.degrees(getattr(valves.inlet, name))
    return Point(law, angles, lifts)


def _climb(search: _Search, start: Point) -> Point:
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
    return here


def _open(search: _Search, here: Point, before: float) -> Opening | None:
    """When the exhaust opens, by the work of a cycle, of those with which no filling is lost.

    The gas that an early one lets go has pushed less; what a late one leaves has to be pushed out.
    """
    least = max(search.best[0], before) - _GAIN
    first = here.angles[_OPENS]
    (best, _), angle, tried = search.run(here), first, list[float]()
    if not math.isfinite(best.work):
        return None
    start = best.work
    for step in _STEPS:
        for way in (-step, step):
            while len(tried) < _MOST_OPENINGS:
                there = here.moved(_OPENS, way)
                found, put = search.run(there)
                tried.append(math.radians(there.angles[_OPENS]))
                if found.work <= best.work * (1.0 + _PAYS) or found.filling < least:
                    break
                here, best, angle = there, found, there.angles[_OPENS]
                search.best = max(found.filling, search.best[0]), put
    return Opening(math.radians(first), math.radians(angle), start, best.work, tuple(tried))


def _moves(here: Point, step: float) -> Iterator[Move]:
    for name in (*(one for one in here.angles if one != _OPENS), *here.lifts):
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
