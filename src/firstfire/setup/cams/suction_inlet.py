"""An inlet that suction opens: what it does from cranking to top speed, and what to change."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from firstfire.cycle.build import build_engine
from firstfire.cycle.fired import Fired
from firstfire.cycle.layout import ANGLE, LIFT, SUCTION_SIZE
from firstfire.cycle.run import run_traced
from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.records import Array
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import Stopped
from firstfire.formulas import suction_valve
from firstfire.runs.point import operating_point
from firstfire.runs.walls import cold
from firstfire.setup.cams.suction_gas import drawn_in, flow_area, hovering

LATEST = math.radians(60.0)
"""Latest that it may shut past bottom centre, rad: common practice of gentle cams, no source."""
SPAT = 0.1  # of the charge: what one notices as power, as the check has it
_FILLED = 0.7  # of the swept volume at cranking: less is too little to fire
_REOPENS = 0.2  # of its lift: less is a bounce on its seat
_SHUT = 0.03
_QUIET = 0.05  # filling that is given up for one opening less


@dataclass(frozen=True)
class AtSpeed:
    """What it does at a speed.

    Attributes
    ----------
    speed
        rad/s.
    filling
        Air kept over displacement full of ambient air.
    shuts
        Crank angle past bottom centre at which it is shut for good, rad; negative: before.
    back
        Share of what came in that goes out again.
    openings
        How often it leaves its seat in an intake stroke: more than once, it dances.
    """

    speed: float
    filling: float
    shuts: float
    back: float
    openings: int

    @property
    def well(self) -> bool:
        """Whether it shuts in time and gives hardly anything back."""
        return self.shuts <= LATEST and self.back <= SPAT

    @property
    def dances(self) -> bool:
        """Whether it leaves its seat more than once in a stroke."""
        return self.openings > 1


@dataclass(frozen=True)
class SuctionInlet:
    """A suction-opened inlet.

    Attributes
    ----------
    opens_at
        Suction at which it leaves its seat, Pa.
    shutting
        Time from its stop to its seat under its spring, s.
    shutting_angle
        What the crank turns in that at top speed, rad.
    swing
        Frequency at which it swings on its spring, Hz.
    gas_push, spring_on_stop
        What the gas pushes at the middle of the stroke at top speed, and the spring on the stop, N.
    hovers
        Lift at which gas and spring balance in the middle of the stroke at top speed, m; beyond its
        stop it rests there.
    dances_at
        Frequency at which it swings about that, Hz; 0 where it rests on its stop.
    speeds
        What it does at each speed, slowest first.
    well_to
        Highest of those up to which all is well, rad/s; 0: at none.
    advice
        What to change, a sentence each.
    """

    opens_at: float
    shutting: float
    shutting_angle: float
    swing: float
    gas_push: float
    spring_on_stop: float
    hovers: float
    dances_at: float
    speeds: tuple[AtSpeed, ...]
    well_to: float
    advice: tuple[str, ...]


def suction_inlet(plain: PlainEngine, stop: Callable[[], bool] | None = None) -> SuctionInlet:
    """What a suction-opened inlet does, traced with the gas, turned cold without fuel."""
    valve = plain.cylinders[0].valves.inlet
    top = max(plain.use.full_throttle_speeds)
    slow = plain.use.cranking_speed
    steps = [slow, *np.linspace(slow, top, 7)[1:].tolist()]
    speeds = tuple(at_speed(plain, speed, stop) for speed in steps)
    throat = math.pi / 4 * (valve.throat_diameter**2 - valve.stem_diameter**2)
    shutting = suction_valve.shutting_time(
        valve.mass, valve.spring_rate, valve.spring_preload, valve.lift
    )
    hovers = hovering(plain, top)
    good = [one.speed for one in _unbroken(speeds)]
    found = SuctionInlet(
        opens_at=suction_valve.opening_suction(valve.spring_preload, throat),
        shutting=shutting,
        shutting_angle=shutting * top,
        swing=suction_valve.swing_frequency(valve.mass, valve.spring_rate),
        gas_push=_push(plain, top, throat),
        spring_on_stop=valve.spring_preload + valve.spring_rate * valve.lift,
        hovers=hovers,
        dances_at=0.0
        if hovers >= valve.lift
        else suction_valve.dance_frequency(
            valve.mass, valve.spring_rate, valve.spring_preload, hovers
        ),
        speeds=speeds,
        well_to=max(good, default=0.0),
        advice=(),
    )
    return SuctionInlet(**{**found.__dict__, "advice": tuple(_advice(plain, found, top))})


def at_speed(plain: PlainEngine, speed: float, stop: Callable[[], bool] | None = None) -> AtSpeed:
    """What it does at one speed, rad/s."""
    point = operating_point(
        plain, "cranking", "suction inlet", speed, cold(plain), None, with_peaks=False, stop=stop
    )
    figures = point.fired.cycle.cylinders[0]
    lift = lift_traced(point.fired, stop)
    times = openings(lift, plain.cylinders[0].valves.inlet.lift)
    return AtSpeed(speed, figures.filling_trapped, figures.inlet_shut, figures.spat_back, times)


def lift_traced(fired: Fired, stop: Callable[[], bool] | None = None) -> Array:
    """Lift of the first inlet over one more cycle, m, step by step."""
    engines, state = build_engine(fired.spec), fired.cycle.state
    end = float(state.values[ANGLE]) + 4 * math.pi
    _, trace = run_traced(engines, state, end, stop=stop)
    row = next(i for i, one in enumerate(fired.spec.valves) if one.name == "inlet 1")
    at = int(engines[0]["suctions_at"]) + int(engines[0]["valves"][row]["suction"]) * SUCTION_SIZE
    lift: Array = trace.values[:, at + LIFT]
    return lift


def openings(lift: Array, most: float) -> int:
    """How often a valve opens in a cycle: from all but shut to a fifth of its lift or more.

    Examples
    --------
    >>> openings(np.array([0.0, 1.0, 3.0, 0.05, 0.5, 2.0, 0.0]), 4.0)
    2
    """
    times, shut = 0, True
    for now in lift.tolist():
        if shut and now > _REOPENS * most:
            times, shut = times + 1, False
        elif now < _SHUT * most:
            shut = True
    return times


def _unbroken(speeds: tuple[AtSpeed, ...]) -> Iterator[AtSpeed]:
    """Those from the slowest up that are well."""
    for one in speeds:
        if not one.well:
            return
        yield one


def _push(plain: PlainEngine, speed: float, throat: float) -> float:
    """Push of the gas where the piston draws fastest, N."""
    drawn, density = drawn_in(plain, speed)
    return suction_valve.gas_push(drawn, flow_area(plain), throat, density)


def _advice(plain: PlainEngine, found: SuctionInlet, top: float) -> Iterator[str]:
    valve = plain.cylinders[0].valves.inlet
    first = found.speeds[0]
    if first.filling < _FILLED:
        yield (
            f"It hardly opens at cranking speed: it wants {found.opens_at / 100:.0f} mbar of "
            f"suction. Take {0.5 * valve.spring_preload:.2g} N of preload."
        )
    late = [one for one in found.speeds if one.shuts > LATEST or one.back > SPAT]
    if late:
        rate = _rate_for(valve.mass, top)
        lighter = 1e3 * valve.mass * valve.spring_rate / rate
        yield (
            f"From {late[0].speed * 30 / math.pi:.0f} rpm it shuts too late. A spring of "
            f"{rate / 1e3:.2g} N/mm shuts it within 60° of crank at "
            f"{top * 30 / math.pi:.0f} rpm; so does {lighter:.2g} g on the one it has, or "
            "anything between."
        )
    if any(one.dances for one in found.speeds):
        yield (
            f"It dances{_about(found)}. At {top * 30 / math.pi:.0f} rpm the gas pushes it with "
            f"{found.gas_push:.2g} N, and on its stop the spring pushes back with "
            f"{found.spring_on_stop:.2g} N: it rests there only where the gas pushes more. "
            f"{1e3 * 0.7 * valve.lift:.2g} mm of lift, or a lighter valve instead of a stiffer "
            "spring, quietens it. At low speeds every such valve dances a little; seat and stop "
            "have to bear it."
        )


def _about(found: SuctionInlet) -> str:
    if not found.dances_at:
        return ""
    return (
        f" about {1e3 * found.hovers:.2g} mm, where gas and spring balance, some "
        f"{found.dances_at:.2g} times a second at top speed"
    )


def _rate_for(mass: float, speed: float) -> float:
    """Rate that shuts it within `LATEST` of crank at a speed without preload, N/m."""
    return mass * (0.5 * math.pi * speed / LATEST) ** 2


def chosen(
    engine: Engine,
    stop: Callable[[], bool] | None = None,
    on_progress: Callable[[str, float], None] | None = None,
) -> tuple[dict[str, object], SuctionInlet]:
    """Spring and mass that reach the highest speed, and what the inlet then does.

    Lighter valves before stiffer springs; it stops at the first that is well to top speed.
    """
    here, valve = "valves.inlet.", resolve(engine).cylinders[0].valves.inlet
    trials = [
        (mass, rate, preload)
        for mass in (1.0, 0.7, 0.5)
        for rate in (1.0, 2.0, 4.0, 8.0)
        for preload in (1.0, 0.5, 2.0)
    ]
    best: tuple[float, dict[str, object]] = (-1.0, {})
    for count, (mass, rate, preload) in enumerate(trials):
        if stop is not None and stop():
            break
        if on_progress is not None:
            on_progress("trying springs and masses", count / len(trials))
        put: dict[str, object] = {
            here + "mass": f"{1e3 * mass * valve.mass:.3g} g",
            here + "spring_rate": f"{1e-3 * rate * valve.spring_rate:.3g} N/mm",
            here + "spring_preload": f"{preload * valve.spring_preload:.3g} N",
        }
        try:
            score, well = _score(resolve(with_values(engine, put)), stop)
        except Stopped:  # what is finished is kept
            break
        if score > best[0]:
            best = score, put
        if well:
            break
    plain = resolve(with_values(engine, best[1]) if best[1] else engine)
    return best[1], suction_inlet(plain)


def _score(plain: PlainEngine, stop: Callable[[], bool] | None) -> tuple[float, bool]:
    """How far up it is well, with the least filling; and whether it is everywhere, and quiet."""
    slow, top = plain.use.cranking_speed, max(plain.use.full_throttle_speeds)
    speeds = tuple(at_speed(plain, s, stop) for s in np.linspace(slow, top, 4).tolist())
    reached = len(list(_unbroken(speeds)))
    dance = sum(one.openings - 1 for one in speeds) / len(speeds)
    score = reached + min(one.filling for one in speeds) - _QUIET * dance
    return score, reached == len(speeds) and dance <= 0
