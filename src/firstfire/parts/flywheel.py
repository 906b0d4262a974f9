"""The flywheel: whether speed pulls it apart; and what sits beside it on the shaft."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import flywheel
from firstfire.parts import joint_hold, seats, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.joint_parts import SHIGLEY
from firstfire.parts.softness import strength_left
from firstfire.parts.worked import bonded_joints, flywheels, keyed_joints, pressed_joints
from firstfire.parts.written import mm_down, rpm

BURSTS = Failure(
    id="flywheel.burst",
    part="flywheel",
    failure="bursts",
    unit="Pa",
    formula="density × speed² × radius² × ((3+ν) + (1-ν)(bore/diameter)²)/4, against strength",
    source="S. P. Timoshenko, J. N. Goodier, Theory of Elasticity, 3rd ed., art. 32",
    hazard=True,
    shared=True,
    during=TURNING,
    examples=(
        flywheels.HOLED,
        flywheels.FULL,
    ),
    capacity_is="its strength here and now",
)

COMES_OFF = Failure(
    id="flywheel.hub.slip",
    part="flywheel",
    failure="comes loose on the shaft",
    unit="N*m",
    formula="largest torque of all cylinders, of either sign, against what its seat holds",
    source=SHIGLEY,
    hazard=True,
    shared=True,
    during=TURNING,
    examples=(
        pressed_joints.IN_METAL,
        bonded_joints.BOND_HOLDS_MORE,
        bonded_joints.KEYS_HOLD_MORE,
        keyed_joints.KEYWAYS_CRUSH,
    ),
    demand_is="largest torque through its seat",
    capacity_is="torque that the joint holds",
)  # fmt: skip

LOAD_COMES_OFF = Failure(
    id="load.hub.slip",
    part="propeller or fan",
    failure="comes loose on the shaft",
    unit="N*m",
    formula="torque of its hub",
    source="none",
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
    hazard=True,
    shared=True,
    during=TURNING,
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
        wheel.diameter,
        moment.given("density", material["density"]),
        moment.given("poisson", material["poisson"]),
        moment.speed,
        wheel.bore,
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
        demand_is="pull round its hole" if wheel.bore > 0 else "pull in its middle",
        raise_by=(
            Raise(f"Limit the speed to {slower} by spark",
                  {"spark.limit_speed": slower, "spark.limited_by": "spark"}, "limit_speed"),
            Raise(f"Make the flywheel {smaller} in diameter", {"flywheel.diameter": smaller},
                  "heavier_flywheel"),
        ),
    )  # fmt: skip


@judges(COMES_OFF, where=has_wheel)
def comes_off(moment: Moment) -> Way:
    """Torque of the first crank joint, which passes all, against what holds the wheel."""
    torques = next(iter(moment.loads.joint_torques.values()), None)
    if torques is None:
        raise OutsideValidity("The torque on the flywheel is not known: no crank joint is listed.")
    torque = moment.given("largest_torque", float(abs(torques).max()))
    held = joint_hold.hold(moment, seats.flywheel(moment), torque)
    return COMES_OFF.way(
        moment,
        demand=torque,
        capacity=held.torque,
        governs=held.governs,
        temperature=warmth.ambient(moment),
        raise_by=held.raise_by,
        formula=held.formula.replace("twist", "torque", 1),
        source=held.source,
    )


load_comes_off = not_judged(
    LOAD_COMES_OFF, "the engine file does not say what holds it on the shaft",
    lambda moment: has_blades(moment) and not has_wheel(moment),
)  # fmt: skip
blade_flies = not_judged(
    BLADE_FLIES, "the engine file does not say of what and how thick its blades are", has_blades
)

JUDGEMENTS = (bursts, comes_off, load_comes_off, blade_flies)
