"""The joint of journal and cheek: slipping under torque, rocking under the bearing's force."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import mathematics as math
from firstfire.formulas import press_fit
from firstfire.parts import joint_hold, seats, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY, Seat, pin_strength
from firstfire.parts.joint_raising import thicker_plate
from firstfire.parts.journal import is_held, loads_of
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import Strength
from firstfire.parts.worked import (
    clamped_joints,
    keyed_joints,
    pinned_joints,
    polygon_joints,
    pressed_joints,
    rocked_journals,
    splined_joints,
)
from firstfire.parts.written import mm

SLIPS = Failure(
    id="crank.journal.slip",
    part="main journal",
    failure="slips in its cheek",
    unit="N*m",
    formula="largest torque through a main journal, of either sign, against what its joint holds",
    source=SHIGLEY,
    shared=True,
    during=TURNING,
    examples=(
        pressed_joints.TO_YIELD,
        clamped_joints.METAL,
        keyed_joints.GROOVES_TWIST_OFF,
        pinned_joints.ACROSS_PIN_CRUSHES,
        pinned_joints.ALONG_HOLES_CRUSH,
        polygon_joints.TWISTED_OFF,
        polygon_joints.WITH_A_ROD,
        splined_joints.TEETH_SHEAR,
    ),
    demand_is="largest torque through it",
    capacity_is="torque that the joint holds",
)  # fmt: skip

ROCKS = Failure(
    id="crank.journal.rock",
    part="main journal",
    failure="is rocked loose in its cheek",
    unit="Pa",
    formula=(
        "12 × bending moment/(π × diameter × length²) of plate or of cheek, whichever stands it "
        "better, against strength of the weaker of journal and hub"
    ),
    source="equilibrium, the pressure as a cosine round the joint and linear along it",
    shared=True,
    during=TURNING,
    examples=(
        rocked_journals.IN_CHEEK,
        rocked_journals.IN_PLATE,
    ),
    demand_is="pressure at the ends of the joint",
    capacity_is="the weaker of both",
)  # fmt: skip


@judges(SLIPS, where=is_held)
def slips(moment: Moment) -> Way:
    """Largest torque through any journal against what its joint holds."""
    largest = max(float(abs(one.torque).max()) for one in loads_of(moment))
    torque = moment.given("largest_torque", largest)
    held = joint_hold.hold(moment, seats.journal(moment), torque)
    return SLIPS.way(
        moment,
        demand=torque,
        capacity=held.torque,
        governs=held.governs,
        temperature=warmth.web(moment),
        raise_by=held.raise_by,
        formula=held.formula.replace("twist", "torque", 1),
        source=held.source,
    )


@judges(ROCKS, where=is_held)
def rocks(moment: Moment) -> Way:
    """Bending moment at the root against the bearing strength of cheek or plate.

    A journal in a plate goes on through the printed cheek, which holds it over more length.
    """
    seat, engine = seats.journal(moment), moment.engine
    largest = max(float(one.bending.max()) for one in loads_of(moment))
    bending = moment.given("largest_moment", largest)
    pin = pin_strength(moment, seat, across=False, place="pin_")
    tried = []
    for length, hub in _lengths(moment, seat):
        pressure = press_fit.rocking_pressure(bending, seat.joint.diameter, length)
        tried.append((min(hub.value, pin.value) / max(pressure, 1e-9), pressure, length, hub))
    _, pressure, length, hub = max(tried, key=lambda one: one[0])
    thick = mm(1.25 * engine.crank.cheek_thickness)
    return ROCKS.way(
        moment,
        demand=pressure,
        capacity=math.least(hub.value, pin.value),
        governs=hub.governs if hub.value < pin.value else pin.governs,
        temperature=seat.temperature,
        raise_by=(
            Raise(f"Make the cheeks {thick} thick, the journals going through them",
                  {"crank.cheek_thickness": thick}, "reprint_crank"),
        ) if _is_cheek(length, moment) else thicker_plate(seat),
    )  # fmt: skip


def _is_cheek(length: float, moment: Moment) -> bool:
    return length == moment.engine.crank.cheek_thickness


def _lengths(moment: Moment, seat: Seat) -> list[tuple[float, Strength]]:
    """Lengths over which a journal is held, m, each with its hub's strength when pressed."""
    crank = moment.engine.crank
    own = seat.hub
    held = [(own.length, _pressed(moment, own.material.key, own.printed, own.share))]
    if own.length < crank.cheek_thickness:
        share = pulled_share(crank, (crank.cheek_width - seat.joint.diameter) / 2)
        printed = crank.made == "printed"
        held.append((crank.cheek_thickness, _pressed(moment, crank.material, printed, share)))
    return held


def _pressed(moment: Moment, key: str, printed: bool, share: float) -> Strength:
    material = moment.engine.materials[key]
    printed = printed and not is_metal(material)
    return strength.of_material(
        moment, material, warm=strength_left(material, warmth.web(moment)), load="pressed",
        printed=printed, section=share if printed else 1.0, place="hub_", name="hub_strength",
    )  # fmt: skip


JUDGEMENTS = (slips, rocks)
