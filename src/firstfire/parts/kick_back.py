"""The crank thrown back into its starter: a first combustion before top that the shaft can't pass.

A rigid drill is then torn round in the hands, a rope out of them, a clutch holds what it must.
"""

from __future__ import annotations

import math

from firstfire.engine.climb import Climb
from firstfire.engine.moment import Moment
from firstfire.engine.quantity import write_quantity
from firstfire.engine.records import Raise, Way
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas.flywheel import stored_energy
from firstfire.formulas.recorded import found
from firstfire.parts.events import CLIMBING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.inputs import Input
from firstfire.parts.worked import kick_back as worked
from firstfire.parts.written import rpm

_WAY = "the slowest shaft that just gets over its top"
KICKS = Failure(
    id="crank.kick_back",
    part="crank",
    failure="is thrown back into its starter",
    unit="J",
    formula=(
        "½ inertia × speed² at the spark and what the starter adds, against the work of "
        "compression, early burn and friction from there to top, of the slowest shaft that just "
        "gets over. Less than 1: it stops before top, or is thrown back"
    ),
    source="energy of a turning shaft: J. J. Uicker, G. R. Pennock, J. E. Shigley, Theory of "
    "Machines and Mechanisms, chapter on flywheels",
    hazard=True,
    during=CLIMBING,
    demand_is="energy it takes to get over its top",
    capacity_is="energy there is for it",
    examples=(worked.TWENTY_DEGREES,),
    numbers={
        "turning_inertia": Input("inertia of all that turns", "inertia",
                                 by="flywheel, crank, rotor of the starter"),
        "spark_speed": Input("shaft's speed at the spark", "speed",
                             by="the shaft as its starter turns it"),
        "starter_adds": Input("work of the starter to the top", "energy", by=_WAY),
        "gas_takes": Input("work against gas", "energy", by=_WAY),
        "friction_takes": Input("work against friction", "energy", by=_WAY),
    },
)  # fmt: skip

_NOT_FOLLOWED = "the way of its shaft to top was not followed"
_LATER, _LATEST = 0.5, math.radians(2.0)
_FASTER = 1.4
_HEAVIER = 2.0


@judges(KICKS)
def kicks(moment: Moment) -> Way:
    """Energy that a shaft has for its way to top against what that way takes."""
    climb = moment.climb or Climb(why_not="" if moment.instead else _NOT_FOLLOWED)
    if climb.why_not:
        raise OutsideValidity(climb.why_not)
    has = stored_energy(
        moment.given("turning_inertia", climb.inertia), moment.given("spark_speed", climb.speed)
    )
    turning = found("energy_at_spark", has, "J", "energy of all that turns, at the spark")
    takes = moment.given("gas_takes", climb.gas) + moment.given("friction_takes", climb.rubbed)
    return KICKS.way(
        moment,
        demand=takes,
        capacity=turning + moment.given("starter_adds", climb.helped),
        governs="speed",
        raise_by=tuple(_changes(moment.engine)),
    )


def _changes(plain: PlainEngine) -> list[Raise]:
    """A later spark, a faster crank, a heavier wheel: as far as there is room for each."""
    return [*_later(plain), *_faster(plain), _heavier(plain)]


def _later(plain: PlainEngine) -> list[Raise]:
    """Half as early; of points the only spark there is."""
    now = plain.spark.start_angle
    if now <= _LATEST:
        return []
    angle = f"{max(math.floor(math.degrees(now * _LATER)), 2)} deg"
    changed = {"spark.start_angle": angle}
    if plain.spark.source == "points":
        changed["spark.running_angle"] = angle
    return [Raise(f"Set the spark for starting to {angle} before top", changed, "change_spark")]


def _faster(plain: PlainEngine) -> list[Raise]:
    """Its trigger pulled further where it runs faster than asked, or geared up."""
    starter, asked = plain.starter, float(plain.use.cranking_speed)
    wanted, free = _FASTER * asked, float(starter.no_load_speed * starter.ratio)
    if free > wanted:
        speed = rpm(wanted)
        return [Raise(f"Crank it at {speed}", {"use.cranking_speed": speed}, "other_starter")]
    if starter.pull_force is not None:
        return []
    ratio = f"{_FASTER * starter.ratio:.2g}"
    text = f"Gear the starter to {ratio} turns of the crank for one of its own"
    return [Raise(text, {"starter.ratio": ratio, "use.cranking_speed": rpm(wanted)},
                  "other_starter")]  # fmt: skip


def _heavier(plain: PlainEngine) -> Raise:
    inertia = write_quantity(float(f"{_HEAVIER * plain.flywheel.inertia:.2g}"), "inertia")
    return Raise(f"Fit a flywheel of {inertia}", {"flywheel.inertia": inertia}, "heavier_flywheel")


JUDGEMENTS = (kicks,)
