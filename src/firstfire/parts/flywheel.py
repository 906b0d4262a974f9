"""The flywheel: whether speed pulls it apart; and what sits beside it on the shaft."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.formulas import flywheel
from firstfire.parts import strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.lines import STRENGTH
from firstfire.parts.softness import strength_left
from firstfire.parts.written import mm_down, rpm

BURSTS = Failure(
    id="flywheel.burst",
    part="flywheel",
    failure="bursts",
    unit="Pa",
    formula="density × speed² × radius² × ((3+ν) + (1-ν)(bore/diameter)²)/4, against strength",
    source="S. P. Timoshenko, J. N. Goodier, Theory of Elasticity, 3rd ed., art. 32",
    depends_on=("flywheel.material", "flywheel.diameter", "flywheel.bore", "spark.limit_speed"),
    hazard=True,
    shared=True,
    during=TURNING,
)

COMES_OFF = Failure(
    id="flywheel.hub.slip",
    part="flywheel",
    failure="comes loose on the shaft",
    unit="N*m",
    formula="torque of its hub",
    source="none",
    depends_on=("flywheel.bore", "crank.main_journal_diameter"),
    hazard=True,
    shared=True,
    during=TURNING,
)

BLADE_FLIES = Failure(
    id="load.blade.throw",
    part="propeller or fan",
    failure="throws a blade",
    unit="Pa",
    formula="pull at the blade's root",
    source="none",
    depends_on=("load.kind", "load.diameter", "load.mass"),
    hazard=True,
    shared=True,
    during=TURNING,
)

_RIM = Line("rim_speed", "speed * flywheel.diameter / 2", "m/s", "speed of its rim")
_HOLED = (
    _RIM,
    Line("demand",
         "density * rim_speed**2 / 4 * (3 + poisson + (1 - poisson) * (flywheel.bore / "
         "flywheel.diameter)**2)", "Pa", "pull round its hole"),
    STRENGTH,
)  # fmt: skip
_FULL = (
    _RIM,
    Line("demand", "density * rim_speed**2 * (3 + poisson) / 8", "Pa", "pull in its middle"),
    STRENGTH,
)


def has_wheel(moment: Moment) -> bool:
    """Whether there is a flywheel besides what the engine drives."""
    return moment.engine.flywheel.thickness > 0


def has_blades(moment: Moment) -> bool:
    """Whether it turns a propeller or fan."""
    return moment.engine.load.kind in ("propeller", "fan")


@judges(BURSTS, where=has_wheel)
def bursts(moment: Moment) -> Way:
    """Largest hoop stress in the turning disc against its strength."""
    wheel = moment.engine.flywheel
    material = moment.engine.materials[wheel.material]
    stress = flywheel.disc_stress(
        wheel.diameter, material["density"], material["poisson"], moment.speed, wheel.bore
    )
    bears = strength.of_material(
        moment, material, warm=strength_left(material, warmth.ambient(moment)), load="once"
    )
    slower = rpm(0.8 * moment.speed)
    smaller = mm_down(0.85 * wheel.diameter, 1.0)
    return BURSTS.way(
        moment,
        demand=stress,
        capacity=bears.value,
        governs=bears.governs,
        temperature=warmth.ambient(moment),
        inputs={"speed": moment.speed, "flywheel.diameter": wheel.diameter,
                "flywheel.bore": wheel.bore, "density": material["density"],
                "poisson": material["poisson"], **bears.inputs},
        first=bears.line,
        working=_HOLED if wheel.bore > 0 else _FULL,
        raise_by=(
            Raise(f"Limit the speed to {slower} by spark",
                  {"spark.limit_speed": slower, "spark.limited_by": "spark"}, "limit_speed"),
            Raise(f"Make the flywheel {smaller} in diameter", {"flywheel.diameter": smaller},
                  "heavier_flywheel"),
        ),
    )  # fmt: skip


comes_off = not_judged(
    COMES_OFF, "the engine file does not say what holds the flywheel on its shaft", has_wheel
)
blade_flies = not_judged(
    BLADE_FLIES, "the engine file does not say of what and how thick its blades are", has_blades
)

JUDGEMENTS = (bursts, comes_off, blade_flies)
