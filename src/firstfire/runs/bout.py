"""One operating point held for a while: the gas and the walls it warms, until they agree."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from weakref import ref

import numpy as np

from firstfire.cycle.layout import State
from firstfire.cycle.scatter import peaks
from firstfire.engine.climb import Climb
from firstfire.engine.events import EVENTS
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import GasCycle, Loads, Walls
from firstfire.engine.resolve import PlainEngine
from firstfire.heat.advance import advance
from firstfire.heat.answers import walls as walls_of
from firstfire.heat.assumed import FLOODED
from firstfire.heat.cylinder import network as heat_network
from firstfire.heat.exhaust_flow import exhaust_side
from firstfire.heat.gas_side import GasSide
from firstfire.heat.history import HeatHistory, cold
from firstfire.heat.running import running
from firstfire.runs.free_rev import highest
from firstfire.runs.gas_change import GasChange
from firstfire.runs.idling import Idle
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.traces import gas_cycles
from firstfire.runs.walls import assumed_warm
from firstfire.runs.walls import cold as cold_walls

# The gas of a run is computed with its walls as they are after this long: most of the way to
# where metal stays, and long past the first skin of plastic. An idle is about minutes.
_TYPICAL_THROTTLED = 60.0
_TYPICAL = 10.0
_AGREED_KELVIN = 10.0
# A hold longer than that of an event, of a metal engine say: gas and walls agree after this part.
_USUAL_HORIZON, _LONG_SHARE = 600.0, 1 / 4
_MOST_ROUNDS = 3
# Loads that a bout keeps: of the mean and the rare cycle, and of some seconds judged last.
_FELT = 6
Felt = tuple[ref[PlainEngine], tuple[float, ...], Loads]
# Exhaust gas that a port's law covers, K.
_COOLEST_EXHAUST, _HOTTEST_EXHAUST = 500.0, 1800.0


@dataclass(frozen=True)
class Bout:
    """An operating point held from cold for a horizon.

    Attributes
    ----------
    point
        The gas, its peaks and friction.
    gases
        Each cylinder's cycle on its own angles.
    histories
        How each cylinder's walls warm; at the air's temperature throughout where no fire does.
    horizon
        s.
    climbs, rare_climbs
        Of each cylinder's 1-in-20 and 1-in-1000 first combustion, where those are followed to top.
    felt
        The last few loads that were asked of it, with their engine and peaks; see
        :func:`firstfire.runs.moments.loads_at`. A bout made of another begins without.
    """

    point: OperatingPoint
    gases: tuple[GasCycle, ...]
    histories: tuple[HeatHistory, ...]
    horizon: float
    climbs: tuple[Climb, ...] = ()
    rare_climbs: tuple[Climb, ...] = ()
    felt: deque[Felt] = field(
        init=False, repr=False, compare=False, default_factory=lambda: deque(maxlen=_FELT)
    )


def held(
    plain: PlainEngine,
    event: str,
    name: str,
    speed: float,
    spark: float,
    horizon: float,
    *,
    start: State | None = None,
    stop: Callable[[], bool] | None = None,
) -> Bout:
    """A fired point held from cold, gas and walls agreeing to 10 K after ten seconds.

    An idle is held at the throttle that just turns it, gas and walls agreeing after a minute; a
    hold of more than ten minutes is about where it settles: they agree after a quarter of it. A
    free rev is as warm as its own seconds make it, and no faster than the engine's limiter.

    Parameters
    ----------
    plain
        Plain numbers.
    event, name, speed, spark
        As `operating_point` takes them.
    horizon
        How long it is followed, s.
    start, stop
        As `operating_point` takes them.

    Raises
    ------
    OutsideValidity
        Where it can't idle; where a model doesn't hold.
    """
    how = EVENTS[event].how
    if how == "let go" and speed > highest(plain):
        speed = highest(plain)
        spark = spark_angle(plain, speed, starting=False)
    idle = Idle(plain, name, speed, spark, stop) if how == "throttled" else None

    def settled(walls: Sequence[Walls], near: OperatingPoint | None) -> OperatingPoint:
        if idle is not None:
            return idle.point(walls, near=near, start=start)
        state, guess = (near.fired.cycle.state, near.fired.burns) if near else (start, None)
        return operating_point(
            plain, event, name, speed, walls, spark,
            start=state, guess=guess, with_peaks=False, stop=stop,
        )  # fmt: skip

    walls = assumed_warm(plain)
    point = settled(walls, None)
    typical = _typical(event, horizon)
    for more in range(_MOST_ROUNDS - 1, -1, -1):
        gases = gas_cycles(point, plain)
        histories = warmed(plain, point, gases, horizon, stop=stop)
        found = tuple(_bounded(walls_of(history, typical)) for history in histories)
        if not more or _apart(walls, found) < _AGREED_KELVIN:
            break
        walls = found
        point = settled(walls, point)
    topped = peaks(point.fired, firing_angles(plain), plain.fuel)
    return Bout(replace(point, peaks=topped, walls_worked_out=True), gases, histories, horizon)


def _typical(event: str, horizon: float) -> float:
    """When gas and walls have to agree, s."""
    if horizon > _USUAL_HORIZON:
        return _LONG_SHARE * horizon
    throttled = EVENTS[event].how == "throttled"
    return min(_TYPICAL_THROTTLED if throttled else _TYPICAL, horizon)


def _bounded(walls: Walls) -> Walls:
    """No wall the gas sees is hotter than 900 K: what would be has melted or charred."""
    return Walls(*(min(getattr(walls, w), 900.0) for w in ("crown", "head", "valves", "liner")))


def _apart(before: Sequence[Walls], after: Sequence[Walls]) -> float:
    apart = [
        abs(float(getattr(a, wall)) - float(getattr(b, wall)))
        for a, b in zip(before, after, strict=True)
        for wall in ("crown", "head", "valves", "liner")
    ]
    return max(apart)


def warmed(
    plain: PlainEngine,
    point: OperatingPoint,
    gases: Sequence[GasCycle],
    horizon: float,
    *,
    heat: float = 1.0,
    exhausts: Sequence[GasSide | None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> tuple[HeatHistory, ...]:
    """How each cylinder's walls warm from the air's temperature under a point's gas.

    Parameters
    ----------
    plain, point, gases
        The engine, and its running point.
    horizon
        s.
    heat
        Multiplier on the coefficient from gas to wall.
    exhausts
        What each cylinder's exhaust port feels; None: what the point's own gas makes it feel.
    stop
        Asked now and then.
    """
    power = {name: t * point.speed / len(gases) for name, t in point.friction.by_contact.items()}
    found = []
    for row, gas in enumerate(gases):
        walls = heat_network(plain, row)
        big, small = point.friction.rod_ends[row]
        exposure = running(
            plain,
            row,
            walls,
            replace(gas, coefficient=gas.coefficient * heat),
            ring_power=power["rings"],
            skirt_power=power["skirts"],
            pin_power=small * point.speed,
            big_end_power=big * point.speed,
            case_power=_carried(plain, power["bearings"] - (big + small) * point.speed),
            exhaust=exhaust_felt(plain, point, row) if exhausts is None else exhausts[row],
        )
        begun = cold(walls, plain.surroundings.air_temperature)
        found.append(advance(begun, exposure, horizon, stop=stop))
    return tuple(found)


def _carried(plain: PlainEngine, bearings: float) -> float:
    """Heat of the bearings that oil carries into the case, W; dry ends keep theirs."""
    return bearings if plain.case.lubrication in FLOODED else 0.0


def exhaust_felt(plain: PlainEngine, point: OperatingPoint, row: int) -> GasSide | None:
    """What the exhaust port feels: mean flow out and its flow-weighted temperature."""
    curves, cycle = point.fired.cycle.curves, point.fired.cycle
    flow = curves.flow[:, cycle.passages.index(f"exhaust {row + 1}")]
    out = np.maximum(-flow, 0.0)
    mass = float(np.trapezoid(out, curves.time))
    if mass <= 0:
        return None
    carried = float(np.trapezoid(out * curves.temperature[:, row], curves.time)) / mass
    period = float(curves.time[-1] - curves.time[0])
    temperature = min(max(carried, _COOLEST_EXHAUST), _HOTTEST_EXHAUST)
    felt = exhaust_side(mass / period, temperature, plain.cylinders[row].stub.diameter)
    return replace(felt, coefficient=felt.coefficient * plain.doubt.port_film)


def exhaust_over(
    bout: Bout, moved: OperatingPoint, plain: PlainEngine, row: int, of: int | None = None
) -> tuple[float, float]:
    """What the exhaust port feels of the moved gas over what it felt: coefficient, temperature.

    `of` is the moved gas's cylinder where it isn't that of `row`.
    """
    old = exhaust_felt(plain, bout.point, row)
    new = exhaust_felt(plain, moved, row if of is None else of)
    if old is None or new is None:
        return 1.0, 1.0
    return (
        new.mean_coefficient / old.mean_coefficient,
        new.mean_temperature / old.mean_temperature,
    )


def exhaust_changed(
    plain: PlainEngine, point: OperatingPoint, changes: Sequence[GasChange]
) -> list[GasSide | None]:
    """What each exhaust port feels once each cylinder's gas is changed; no changes: as it is."""
    found = [exhaust_felt(plain, point, row) for row in range(len(plain.cylinders))]
    for row, (felt, change) in enumerate(zip(found, changes, strict=False)):
        if felt is not None:
            film, warmth = change.exhaust
            found[row] = replace(
                felt, coefficient=felt.coefficient * film, temperature=felt.temperature * warmth
            )
    return found


def turned(
    plain: PlainEngine,
    name: str,
    speed: float,
    *,
    event: str = "cranking",
    start: State | None = None,
    stop: Callable[[], bool] | None = None,
) -> Bout:
    """Turned by the starter without fuel: nothing warms in its ten seconds."""
    point = operating_point(
        plain, event, name, speed, cold_walls(plain), None, start=start, stop=stop
    )
    return at_rest(plain, replace(point, walls_worked_out=True), horizon=EVENTS[event].horizon)


def at_rest(plain: PlainEngine, point: OperatingPoint, horizon: float) -> Bout:
    """A point whose walls stay as warm as the air."""
    histories = tuple(
        cold(heat_network(plain, row), plain.surroundings.air_temperature)
        for row in range(len(plain.cylinders))
    )
    return Bout(point, gas_cycles(point, plain), histories, horizon)
