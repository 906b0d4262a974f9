"""Running one event: its bouts, resumable, stoppable, with progress."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from firstfire.cycle.assembly import network
from firstfire.cycle.layout import State
from firstfire.engine.engine import Engine
from firstfire.engine.events import EVENTS, LIFE
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import FirstfireError
from firstfire.runs.at import bout_at
from firstfire.runs.bout import Bout
from firstfire.runs.climb_spread import climb_spread
from firstfire.runs.ensemble import COUNT, Ensemble, ensembles
from firstfire.runs.falling_short import slower
from firstfire.runs.free_rev import FreeSpeed, free_speed
from firstfire.runs.idling import OPENED, throttled
from firstfire.runs.point import OperatingPoint
from firstfire.runs.spread import FLOW, Changes, Spread, Trials, spread
from firstfire.runs.uneven import uneven

Progress = Callable[[str, float], None]
_RPM = math.pi / 30


@dataclass(frozen=True)
class EventResult:
    """What one event came to.

    Attributes
    ----------
    event
        Its id.
    engine
        Plain numbers it was run for.
    bouts
        Each operating point with its walls.
    spreads
        For each bout the slopes of its ways to fail; empty where they weren't asked for.
    gas_changes
        What each uncertain input, moved by a deviation, does to each cylinder's gas, by its path:
        a like event takes it over.
    notes
        What isn't answered of it: subject, and why.
    ensembles
        For each bout, what became of the engines drawn; empty where none were asked for.
    answers
        For each bout, what `gas_changes` has of the strongest one.
    """

    event: str
    engine: PlainEngine
    bouts: tuple[Bout, ...]
    spreads: tuple[Spread, ...] = ()
    gas_changes: Changes = field(default_factory=dict)
    notes: tuple[tuple[str, str], ...] = ()
    ensembles: tuple[Ensemble, ...] = ()
    answers: tuple[Changes, ...] = field(default=(), repr=False)

    @property
    def points(self) -> tuple[OperatingPoint, ...]:
        """The operating points; none of what only follows that of another event."""
        if EVENTS[self.event].how == "climbs":
            return ()
        return tuple(bout.point for bout in self.bouts)


def events(engine: Engine) -> tuple[str, ...]:
    """Ids of the events that this version computes for `engine`, in the order they happen."""
    return LIFE if engine.cylinders else ()


def run(
    engine: Engine,
    event: str,
    start_from: EventResult | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
    *,
    speeds: Sequence[float] | None = None,
    trials: Trials | None = None,
    drawn: int = COUNT,
) -> EventResult:
    """Run one event of an engine.

    Parameters
    ----------
    engine
        As written down.
    event
        Id of the event.
    start_from
        An earlier result of a like engine: its states are started from. Full throttle also serves
        an idle and a free rev: how its peaks move with what is uncertain is taken over from it.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.
    on_progress
        Told what is being run and the share done, 0 to 1.
    speeds
        rad/s, instead of those the file names.
    trials
        The engine's uncertain inputs, made once for several events; None leaves the spread out
        of nothing: it is made here.
    drawn
        How many engines like it are followed through the event, for its spans, times and odds.

    Raises
    ------
    FirstfireError
        For an unknown event or one this version doesn't compute.
    OutsideValidity
        Where a model doesn't hold.
    Stopped
        If ``stop`` said so.
    """
    _known(event)
    trials = trials or Trials(engine)
    plain = trials.centre
    told = on_progress or _silent
    words = event.replace("_", " ")
    known = start_from.bouts if start_from else ()
    notes: tuple[tuple[str, str], ...] = ()
    free = EVENTS[event].how == "let go"
    if free:
        told(words, 0.0)
        reached = _free(plain, known, stop)
        asked: tuple[float, ...] = (reached.speed,)
        notes = _goes_on(reached)
    else:
        asked = _asked(plain, event, speeds)
    bouts: list[Bout] = []
    for number, speed in enumerate(asked):
        told(f"{words} {speed / _RPM:.0f} rpm", number / (len(asked) + 1))
        start = _nearest(plain, event, speed, (*bouts, *known))
        bouts.append(bout_at(plain, event, speed, start=start, stop=stop))
    told(f"spread of {words}", len(asked) / (len(asked) + 1))
    spreads, changes, strongest = _spreads(
        trials, bouts, _changes_of(start_from, event, plain), stop
    )
    drawing = len(asked) / (len(asked) + 1)

    def further(share: float) -> None:
        told(f"{words}, other engines like it", drawing + (1 - drawing) * share)

    below = slower(plain, bouts[0], known) if free else None
    found = ensembles(
        trials, bouts, changes, slower=below, stop=stop, on_progress=further, count=drawn
    )
    told("", 1.0)
    return EventResult(
        event, plain, tuple(bouts), spreads, changes[strongest], notes, found, tuple(changes)
    )


def _silent(what: str, share: float) -> None:
    """Progress that nobody asked for."""


def _known(event: str) -> None:
    if event not in EVENTS:
        raise FirstfireError(f'There is no event "{event}". Events are: {", ".join(EVENTS)}.')
    if not EVENTS[event].computed:
        raise FirstfireError(f'"{event}" is not computed in this version; {", ".join(LIFE)} are.')


def _asked(plain: PlainEngine, event: str, speeds: Sequence[float] | None) -> tuple[float, ...]:
    how = EVENTS[event].how
    if how == "held":
        return tuple(speeds or plain.use.full_throttle_speeds)
    return (plain.use.idle_speed if how == "throttled" else plain.use.cranking_speed,)


def _free(plain: PlainEngine, known: Sequence[Bout], stop: Callable[[], bool] | None) -> FreeSpeed:
    """The free speed, sought from the full-throttle points of this very engine."""
    points = [b.point for b in known if _at_full(b.point) and _fits(b.point, plain)]
    return free_speed(plain, points, stop)


def _at_full(point: OperatingPoint) -> bool:
    return EVENTS[point.event].how == "held"


def _goes_on(reached: FreeSpeed) -> tuple[tuple[str, str], ...]:
    """What isn't known of a free rev that passes the fastest speed covered."""
    if reached.why != "beyond":
        return ()
    rpm = f"{reached.speed / _RPM:.0f} rpm"
    why = (
        f"with nothing to drive it still gains speed at {rpm}, where it is judged, and goes beyond"
    )
    return (("free rev in full", why),)


def _changes_of(start_from: EventResult | None, event: str, plain: PlainEngine) -> Changes | None:
    """How the gas moves with what is uncertain, where an earlier result of this engine knows."""
    if start_from is None or not EVENTS[event].after:
        return None
    same = start_from.event == EVENTS[event].after and start_from.engine.sha256 == plain.sha256
    return start_from.gas_changes or None if same else None


def _spreads(
    trials: Trials, bouts: Sequence[Bout], like: Changes | None, stop: Callable[[], bool] | None
) -> tuple[tuple[Spread, ...], list[Changes], int]:
    """Slopes of each bout, how its gas changes, and the place of the point with the highest peak.

    The gas's part is run there, and elsewhere only what does something else at another speed; but
    nothing is taken over of or for a point whose cylinders don't breathe alike.

    An idle and a free rev may take over the gas's part of full throttle. It is the wider one for an
    idle: that gets the charge it needs whatever the doubt about heat, burn or flow.
    """
    if EVENTS[bouts[0].point.event].how == "climbs":
        return tuple(climb_spread(trials, one, stop) for one in bouts), [{} for _ in bouts], 0
    odd = [uneven(trials.centre, bout.point.fired.cycle.cylinders) for bout in bouts]
    strongest = max(
        range(len(bouts)), key=lambda n: (not odd[n], max(p.rare for p in bouts[n].point.peaks))
    )
    at = EVENTS[bouts[0].point.event].judged_at
    opening = bouts[strongest].point.throttle
    trials = trials if opening is None else Throttled(trials, opening)
    first = spread(trials, bouts[strongest], at, like=like, stop=stop)
    each = [
        first
        if n == strongest
        else spread(trials, bout, at, like=None if odd[n] else first[1], stop=stop)
        for n, bout in enumerate(bouts)
    ]
    return tuple(slopes for slopes, _ in each), [changes for _, changes in each], strongest


class Throttled(Trials):
    """Trials of an engine with its throttle held where it idles."""

    def __init__(self, trials: Trials, opening: float) -> None:
        self.engine, self.unknowns = trials.engine, trials.unknowns
        self.centre = throttled(trials.centre, opening)
        self._trials, self._opening = trials, opening

    def moved(
        self, unknown: Unknown, *, half: float | None = None, back: bool = False
    ) -> PlainEngine:
        """As `Trials.moved`, throttled; more or less flow is more or less throttle."""
        if unknown.path == FLOW:
            opening = self._opening * (1 / OPENED if back else OPENED)
            return throttled(self._trials.centre, min(opening, 1.0))
        return throttled(self._trials.moved(unknown, half=half, back=back), self._opening)


def _nearest(plain: PlainEngine, event: str, speed: float, known: Sequence[Bout]) -> State | None:
    fit = [b.point for b in known if _alike(b.point.event, event) and _fits(b.point, plain)]
    nearest = min(fit, key=lambda p: abs(p.speed - speed), default=None)
    return nearest.fired.cycle.state if nearest else None


def _alike(one: str, other: str) -> bool:
    """Whether a point of one event can start a point of the other: both are warm and fired."""
    warm = [EVENTS[event].how in ("held", "throttled", "let go") for event in (one, other)]
    return one == other or all(warm)


def _fits(point: OperatingPoint, plain: PlainEngine) -> bool:
    """Whether a point's state can start this engine: its network is the same."""
    if len(point.walls) != len(plain.cylinders):
        return False
    spec, old = network(plain, point.walls, [None] * len(point.walls)), point.fired.spec
    return [v.name for v in spec.volumes] == [v.name for v in old.volumes] and [
        p.name for p in spec.passages
    ] == [p.name for p in old.passages]
