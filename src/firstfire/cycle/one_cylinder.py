"""One cylinder of perfect gas on a free shaft: checked, built, and run from spark to spark."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.advance import advance
from firstfire.cycle.build import build_engine, put_gas, start_state
from firstfire.cycle.kernel import FAILED, REACHED
from firstfire.cycle.layout import State
from firstfire.cycle.perfect_gas import perfect_gas
from firstfire.cycle.records import (
    BurnSpec,
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    ShaftSpec,
    SteppingSpec,
    ValveSpec,
    VolumeSpec,
    WallSpec,
)
from firstfire.cycle.run import steady_factors
from firstfire.cycle.validity import refuse_below_zero, refuse_outside
from firstfire.errors import FirstfireError, OutsideValidity
from firstfire.formulas import slider_crank

Floats = NDArray[np.float64]

TURN, CYCLE = 2.0 * math.pi, 4.0 * math.pi
_ROWS = 4000
_STEPPING = SteppingSpec(relative_error=1e-6)


class Started(NamedTuple):
    """An engine, where it is, and what was seen of it on the way: time, angle, speed, pressure."""

    engines: layout.Records
    state: State
    seen: list[Floats]


@dataclass(frozen=True)
class Asked:
    """What is run, checked."""

    spec: EngineSpec
    constant: float
    gammas: tuple[float, float]
    start_angle: float
    start_speed: float
    seconds: float


def checked(given: dict[str, float | None]) -> Asked:
    """The engine, if its numbers can be."""
    number: dict[str, float] = {name: value for name, value in given.items() if value is not None}
    refuse_outside(
        {
            "bore": (number["bore"], 0.0, math.inf),
            "compression_ratio": (number["compression_ratio"], 1.0, 30.0),
            "inlet_closing": (-number["inlet_closing"], 0.0, TURN),
            "exhaust_opening": (number["exhaust_opening"], 0.0, TURN),
            "inertia": (number["inertia"], 0.0, math.inf),
            "starter_free_speed": (number["starter_free_speed"], 0.0, math.inf),
            "ratio_of_heats": (number["ratio_of_heats"], 1.0, 2.0),
            "ratio_of_heats_burned": (number["ratio_of_heats_burned"], 1.0, 2.0),
            "gas_constant": (number["gas_constant"], 0.0, math.inf),
            "ambient_pressure": (number["ambient_pressure"], 1e3, 1e6),
            "ambient_temperature": (number["ambient_temperature"], 200.0, 1000.0),
            "crankcase_pressure": (number["crankcase_pressure"], 1e3, 1e6),
            "start_angle": (number["start_angle"], -math.inf, math.inf),
            "start_speed": (number["start_speed"], -math.inf, math.inf),
            "seconds": (number["seconds"], 0.0, 3600.0),
        }
    )
    refuse_below_zero(
        {
            name: number[name]
            for name in ("starter_stall_torque", "friction_constant", "friction_per_speed",
                         "leak_area", "heat")
        }
    )  # fmt: skip
    burn = _checked_burn(given, number["heat"]) if given["fire_at_seconds"] is not None else None
    return Asked(
        spec=_spec(number, burn),
        constant=number["gas_constant"],
        gammas=(number["ratio_of_heats"], number["ratio_of_heats_burned"]),
        start_angle=number["start_angle"],
        start_speed=number["start_speed"],
        seconds=number["seconds"],
    )


def _checked_burn(given: dict[str, float | None], heat: float) -> BurnSpec:
    spark, lasts, at = given["spark"], given["burn_seconds"], given["fire_at_seconds"]
    closing, opening = given["inlet_closing"], given["exhaust_opening"]
    if at is None or at < 0.0:
        raise OutsideValidity(f"fire_at_seconds is {at}: it must be 0 or more.")
    if spark is None or closing is None or opening is None or not closing <= spark < opening:
        raise OutsideValidity(
            f"spark is {spark}: a burn needs it between inlet_closing ({closing:.4g} rad) and "
            f"exhaust_opening ({opening:.4g} rad)."
        )
    if lasts is None or not 0.0 < lasts < math.inf:
        raise OutsideValidity(f"burn_seconds is {lasts}: a burn needs it above 0, s.")
    a, m = given["wiebe_a"] or 0.0, given["wiebe_m"] or 0.0
    refuse_outside({"wiebe_a": (a, 0.0, 100.0), "wiebe_m": (m, -math.inf, 20.0)})
    refuse_below_zero({"wiebe_m": m})  # a burn that begins at once has no first step
    return BurnSpec(spark, TURN, a, m, lasts, heat)


def _spec(number: dict[str, float], burn: BurnSpec | None) -> EngineSpec:
    bore, throw, rod, offset = (number[name] for name in ("bore", "throw", "rod", "offset"))
    swept = math.pi / 4.0 * bore**2 * slider_crank.stroke(throw, rod, offset)
    cylinder = CylinderSpec(
        "cylinder", bore, throw, rod, swept / (number["compression_ratio"] - 1.0), offset,
        walls=WallSpec(correlation=None), burn=burn, crankcase="crankcase", vented="outside",
    )  # fmt: skip
    shut = ValveSpec(
        "any valve", "cylinder", "outside", bore, bore, 0.0, 0.0,
        opens=number["exhaust_opening"], closes=CYCLE + number["inlet_closing"],
    )  # fmt: skip
    warm = number["ambient_temperature"]
    return EngineSpec(
        fuel="", equivalence_ratio=1.0, cylinders=(cylinder,),
        volumes=(
            VolumeSpec("outside", 1.0, True, number["ambient_pressure"], warm, 1.0),
            VolumeSpec("crankcase", 1.0, True, number["crankcase_pressure"], warm, 1.0),
        ),
        passages=(PassageSpec("leak", "cylinder", "crankcase", number["leak_area"]),),
        valves=(shut,),
        stepping=_STEPPING,
        shaft=ShaftSpec(
            number["inertia"], number["starter_stall_torque"], number["starter_free_speed"],
            bool(number["starter_one_way"]), number["friction_constant"],
            number["friction_per_speed"],
        ),
    )  # fmt: skip


def begun(asked: Asked) -> Started:
    """The engine at its start, with still air in its cylinder and no burn to come."""
    gas = perfect_gas(asked.constant, *asked.gammas)
    engines = build_engine(asked.spec, gas)
    charge = replace(asked.spec.volumes[0], name="")
    state = start_state(asked.spec, engines, asked.start_angle, asked.start_speed, [charge])
    state.cylinders["burns_left"] = 0
    return Started(engines, state, [_row(state)])


def _row(state: State) -> Floats:
    return np.concatenate([state.time, state.values])[None, :_SEEN]


PRESSURE_AT = layout.SHAFT_SIZE + layout.PRESSURE
_SEEN = 2 + PRESSURE_AT
"""Time, and values up to the cylinder's pressure: what is kept of each step."""


def run_on(
    started: Started,
    until: float,
    enough: Callable[[Started], bool] = lambda _: False,
    until_angle: float = math.inf,
) -> Started:
    """Further on, to a time and angle, or until what is seen is enough."""
    engines, state, seen = started
    factors, count = steady_factors(engines), state.cylinders.size
    end = -1
    while end != REACHED and not enough(Started(engines, state, seen)):
        rows = np.empty((_ROWS, 1 + state.values.size))
        events = np.empty((_ROWS, count), layout.CYLINDER_EVENT)
        state, filled, end = advance(
            state, engines, factors, until, until_angle, rows, events, _ROWS
        )
        seen = [*seen, rows[:filled, :_SEEN].copy()]
        if end == FAILED:
            raise FirstfireError(
                f"The shaft could not be followed beyond {state.time[0]:.4g} s: no step was small "
                "enough. Look for an absurd inertia, torque or leak."
            )
    return Started(engines, state, seen)


def turned_round(started: Started) -> bool:
    """Whether the shaft was seen turning backwards."""
    return any(bool((rows[:, 1 + layout.SPEED] < 0.0).any()) for rows in started.seen)


def with_spark(started: Started, spark: float) -> Started:
    """The same with the next spark elsewhere."""
    cylinders = started.state.cylinders.copy()
    angle = float(started.state.values[layout.ANGLE])
    cylinders["cycle"] = math.ceil((angle - spark) / CYCLE - 1e-9)
    cylinders["next_burn"] = spark + CYCLE * cylinders["cycle"]
    return started._replace(state=started.state._replace(cylinders=cylinders))


def fired(
    asked: Asked,
    before: Started,
    until: float,
    enough: Callable[[Started], bool] = lambda _: False,
) -> Started:
    """On to the next spark, and beyond with a burn of the heat that is asked for."""
    spark = float(before.state.cylinders["next_burn"][0])
    there = before
    while float(there.state.time[0]) < until and not enough(there):
        angle = float(there.state.values[layout.ANGLE])
        if spark - angle <= 1e-9:
            break
        there = run_on(there, until, enough, spark)
    warm = float(there.state.values[layout.SHAFT_SIZE + layout.TEMPERATURE])
    engines = there.engines.copy()
    there = with_spark(there, spark)  # which was met on arriving, with nothing to burn
    cylinders = there.state.cylinders.copy()
    put_gas(engines, perfect_gas(asked.constant, *asked.gammas, warm))
    cylinders["burns_left"] = 1
    state = there.state._replace(cylinders=cylinders)
    return run_on(Started(engines, state, there.seen), until, enough)
