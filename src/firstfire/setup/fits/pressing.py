"""What a press fit asks and does, by the laws that the parts are judged with."""

from __future__ import annotations

import math

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import press_fit, thick_cylinder
from firstfire.formulas.interference import rise_that_frees
from firstfire.parts import assumed, joint_friction, liner_fit
from firstfire.parts.joint_friction import working_interference
from firstfire.parts.joint_parts import Seat
from firstfire.parts.liner import body_splits
from firstfire.parts.liner_in_body import between, touching
from firstfire.parts.softness import is_metal, softens_at
from firstfire.setup.fits.seat import Pressing
from firstfire.setup.standing import FRESH, NIGHT, standing


def pressing(plain: PlainEngine, seat: Seat, cylinder: int = 0) -> Pressing:
    """Of a pin in its hole.

    Parameters
    ----------
    plain
        The engine.
    seat
        As the parts see it.
    cylinder
        From 0.

    Raises
    ------
    OutsideValidity
        Where a material's row lacks what the law needs.
    """
    fresh, rested = (standing(plain, cylinder, hours=hours) for hours in (FRESH, NIGHT))
    now, later = joint_friction.press(fresh, seat), joint_friction.press(rested, seat)
    across = seat.joint.diameter
    # Of the two the fresh fit is the harder, and what bears it is asked for the night.
    first = joint_friction.pressed(fresh, seat).by_fit
    return Pressing(
        force=2 * now.torque / across,
        stress=press_fit.hub_hoop_stress(first, across, seat.hub.outside) + first,
        bears=joint_friction.pressed(rested, seat).bears.value,
        what=seat.words[1],
        night=later.torque / now.torque if now.torque > 0 else 0.0,
        frees=_frees(plain, working_interference(fresh, seat), across, seat.pin, seat.hub.material),
        softens=softens(seat.hub.material),
        ductile=seat.hub.metal,
    )


def _frees(
    plain: PlainEngine, tight: float, across: float, pin: Material, hub: Material
) -> float | None:
    rise = rise_that_frees(tight, across, pin["expansion"], hub["expansion"])
    return None if math.isinf(rise) else plain.surroundings.air_temperature + rise


def softens(material: Material) -> float | None:
    """Temperature at which half of a print's strength is left, K; None of a metal, or unknown."""
    try:
        return None if is_metal(material) else softens_at(material, assumed.SOFT)
    except OutsideValidity:
        return None


def liner_pressing(plain: PlainEngine, cylinder: int) -> Pressing:
    """Of a liner in its body: what crushes or ovals the liner, what splits the body.

    Raises
    ------
    OutsideValidity
        Where a material's row lacks what the laws need.
    """
    fresh = standing(plain, cylinder, hours=FRESH)
    rested = standing(plain, cylinder, hours=NIGHT)
    what, way = nearest_to_giving(fresh, rested)
    parts, both = plain.cylinders[cylinder], touching(fresh)
    liner, body = plain.materials[parts.liner.material], plain.materials[parts.body.material]
    pressure = both.fit_warm / thick_cylinder.give_of_both(**both.sizes(fresh))
    metal = is_metal(liner) and is_metal(body)
    rubs = assumed.FRICTION_ON_METAL if metal else assumed.FRICTION_ON_PLASTIC
    force = press_fit.slip_force(
        pressure, parts.liner.outside_diameter, parts.liner.length,
        rubs * plain.doubt.press_friction,
    )  # fmt: skip
    return Pressing(
        force=force,
        stress=way.demand,
        bears=way.capacity,
        what=what,
        night=between(rested) / between(fresh) if between(fresh) > 0 else 0.0,
        frees=_liner_frees(plain, cylinder),
        softens=softens(body),
        ductile=is_metal(body if what == "body" else liner),
    )


def nearest_to_giving(fresh: Moment, rested: Moment) -> tuple[str, Way]:
    """What the fit of a liner is nearest to breaking, and by how much.

    Raises
    ------
    OutsideValidity
        Where none of it is judged, with why.
    """
    ways = [
        ("body", body_splits(fresh)),
        ("liner", liner_fit.crushes(rested)),
        ("liner, squeezed oval", liner_fit.ovalises(rested)),
    ]
    judged = [(what, way) for what, way in ways if way.judged]
    if not judged:
        raise OutsideValidity(ways[0][1].why_not)
    return max(judged, key=lambda one: one[1].demand / one[1].capacity)


def _liner_frees(plain: PlainEngine, cylinder: int) -> float | None:
    """Where the fit as the parts see it when warm has gone; straight over temperature."""
    cold, warm = (touching(standing(plain, cylinder, rise=rise)).fit_warm for rise in (0.0, 10.0))
    if warm >= cold:
        return None
    return plain.surroundings.air_temperature + 10.0 * cold / (cold - warm)
