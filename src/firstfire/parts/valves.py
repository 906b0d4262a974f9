"""Valves: whether the spring keeps them on their cam, and what a suction inlet gives back."""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

import numpy as np

from firstfire.engine.moment import Moment
from firstfire.engine.records import Array, Raise, Way
from firstfire.engine.sections.valves import CamValve
from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_law, valve_float
from firstfire.formulas.recorded import found
from firstfire.parts import warmth
from firstfire.parts.events import TURNING, WARM
from firstfire.parts.failure import Example, Failure, judges
from firstfire.parts.lines import rises_are
from firstfire.parts.worked import valves as worked
from firstfire.parts.written import newton, newton_per_mm, rpm

_NORTON = "R. L. Norton, Cam Design and Manufacturing Handbook, 2nd ed., force-closed follower"


def _floats(which: str, *examples: Example) -> Failure:
    return Failure(
        id=f"valves.{which}.float",
        part=f"{which} valve",
        failure="floats off its cam",
        unit="rad/s",
        formula=(
            "crank speed, against the least over the lift of √((preload + rate × lift)/(mass × "
            "deceleration by angle))"
        ),
        source=_NORTON,
        during=TURNING,
        demand_is="crank speed",
        capacity_is="speed at which the spring just follows",
        examples=examples,
    )


INLET_FLOATS = _floats("inlet", worked.INLET_FLOATS, worked.INLET_FLOATS_BY_ITS_TABLE)
EXHAUST_FLOATS = _floats("exhaust", worked.EXHAUST_FLOATS)

CLOSES_LATE = Failure(
    id="valves.inlet.late",
    part="suction inlet valve",
    failure="shuts late and spits the charge back",
    unit="",
    formula=(
        "what flows out again through the inlet over what flowed in, as the gas and the valve were "
        "traced together; against a tenth"
    ),
    source="the traced cycle: a mass on a spring between seat and stop, moved by the gas; the "
           "limit: what one notices as power, common practice, no source",
    reported=True,
    during=TURNING,
    demand_is="what flows out again over what flowed in",
    capacity_is="share that one notices as lost power",
    examples=(worked.CLOSES_LATE,),
)  # fmt: skip
_NOTICED = 0.1


OVERHEATS = Failure(
    id="valves.exhaust.overheat",
    part="exhaust valve",
    failure="is hotter than its material may be held",
    unit="K",
    formula="valves' heads, against the continuous use of the material; both as rises over the air",
    source="continuous use of the material (catalog row)",
    during=WARM,
    **rises_are("the valves' heads", "their material may be held"),
    examples=(worked.OVERHEATS,),
)


def by_cam(moment: Moment) -> bool:
    """Whether the inlet is worked by a cam."""
    return moment.parts.valves.inlet.worked == "cam"


@judges(INLET_FLOATS, where=by_cam)
def inlet_floats(moment: Moment) -> Way:
    """Speed at which the inlet leaves its cam against the engine's."""
    valve = moment.parts.valves.inlet
    opening = math.pi + valve.opens_before_top + valve.closes_after_bottom
    return _float_way(INLET_FLOATS, moment, valve, opening, "inlet")


@judges(EXHAUST_FLOATS)
def exhaust_floats(moment: Moment) -> Way:
    """Speed at which the exhaust valve leaves its cam against the engine's."""
    valve = moment.parts.valves.exhaust
    opening = math.pi + valve.opens_before_bottom + valve.closes_after_top
    return _float_way(EXHAUST_FLOATS, moment, valve, opening, "exhaust")


@judges(CLOSES_LATE, where=lambda moment: not by_cam(moment))
def closes_late(moment: Moment) -> Way:
    """What a suction inlet gives back of its charge, as the gas was traced: a loss of power."""
    breath = moment.breath
    if breath is None:
        raise OutsideValidity("How it breathes is not traced here.")
    valve = moment.parts.valves.inlet
    lighter = f"{0.7e3 * valve.mass:.2g} g"
    return CLOSES_LATE.way(
        moment,
        demand=moment.given("spat_back", breath.spat_back),
        capacity=moment.given("noticed", _NOTICED),
        governs="breathing",
        raise_by=(
            _stiffer("inlet", valve),
            Raise(f"Lighten the inlet valve to {lighter}", {"valves.inlet.mass": lighter},
                  "lap_valves"),
        ),
    )  # fmt: skip


@judges(OVERHEATS)
def overheats(moment: Moment) -> Way:
    """Rise of the valves' heads, both taken as one, against what their material may be held at."""
    key = moment.parts.valves.exhaust.material
    limit = moment.given("continuous_use", moment.engine.materials[key]["continuous_use"])
    if warmth.part(moment, "valves") is None:
        raise OutsideValidity("How warm the valves are is not followed here.")
    air = warmth.ambient(moment)
    hot = moment.given("valves", warmth.mean(moment, "valves"))
    change = Raise("Fit an exhaust valve of stainless steel",
                   {"valves.exhaust.material": "stainless_304"}, "lap_valves")  # fmt: skip
    return OVERHEATS.way(
        moment,
        demand=warmth.rise(moment, hot),
        capacity=limit - air,
        governs="temperature",
        temperature=hot,
        raise_by=(change,) if limit < 870 else (),
    )


def _float_way(
    failure: Failure, moment: Moment, valve: CamValve, opening: float, which: str
) -> Way:
    place = _worst(valve, opening)
    lift = moment.given("lift_there", place.lift)
    slowing = moment.given("deceleration_by_angle", place.curvature)
    force = found("spring_force_there", valve.spring_preload + valve.spring_rate * lift, "N",
                  "spring force where the valve first leaves its cam")  # fmt: skip
    floats = valve_float.float_speed(1.0, force, valve.mass, slowing)
    slower = rpm(min(0.85 * moment.speed, 0.95 * floats))
    harder = newton(1.5 * valve.spring_preload)
    return failure.way(
        moment,
        demand=moment.speed,
        capacity=floats,
        governs="spring",
        raise_by=(
            Raise(f"Preload the {which} spring to {harder}",
                  {f"valves.{which}.spring_preload": harder}, "stiffer_spring"),
            _stiffer(which, valve),
            Raise(f"Limit the speed to {slower} by spark",
                  {"spark.limit_speed": slower, "spark.limited_by": "spark"}, "limit_speed"),
        ),
    )  # fmt: skip


def _stiffer(which: str, valve: CamValve) -> Raise:
    rate = newton_per_mm(1.5 * valve.spring_rate)
    return Raise(f"Fit an {which} spring of {rate}", {f"valves.{which}.spring_rate": rate},
                 "stiffer_spring")  # fmt: skip


class _Place(NamedTuple):
    """Where a valve first leaves its cam: lift, m, spring force, N, and -x'', m/rad²."""

    lift: float
    force: float
    curvature: float


def _worst(valve: CamValve, opening: float) -> _Place:
    lift, slowing = _flank(valve, opening)
    force = valve.spring_preload + valve.spring_rate * lift
    place = int(np.argmin(force / slowing))
    return _Place(float(lift[place]), float(force[place]), float(slowing[place]))


def _flank(valve: CamValve, opening: float) -> tuple[Array, Array]:
    """Lift, m, and deceleration by crank angle, m/rad², where the spring has to slow the valve."""
    if valve.cam_law == "table" and valve.lift_table is not None:
        place, lift = np.array(valve.lift_table, dtype=np.float64).T
        slowing = -np.gradient(np.gradient(lift, place), place)
        kept = slowing > 1e-3 * float(slowing.max())
        if not kept.any() or slowing.max() <= 0:
            raise OutsideValidity("Its lift table nowhere slows the valve down.")
        return lift[kept], slowing[kept]
    rise, slowing = _slowing_half(valve.cam_law)
    return valve.lift * rise, valve.lift / (opening / 2) ** 2 * slowing


@cache
def _slowing_half(law: str) -> tuple[Array, Array]:
    """Rise and deceleration of a law of lift 1 and duration 1 where it decelerates."""
    chosen: cam_law.RiseLaw = getattr(cam_law, law)
    values = np.array([chosen(float(x)) for x in np.linspace(1e-3, 1 - 1e-9, 91)])
    kept = values[:, 2] < -1e-3
    return values[kept, 0], -values[kept, 2]


JUDGEMENTS = (inlet_floats, exhaust_floats, closes_late, overheats)
