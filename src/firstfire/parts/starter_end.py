"""The end of the crank that a starter turns: twisted by what turning it over compression takes."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.formulas import mathematics as math
from firstfire.formulas import shaft
from firstfire.formulas.recorded import found
from firstfire.parts import seats, strength
from firstfire.parts.events import STARTED
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY, pin_strength
from firstfire.parts.journal import own_share, stronger
from firstfire.parts.worked import starter_end as worked

STARTER_TWISTS = Failure(
    id="crank.starter_end.twist",
    part="main journal",
    failure="is twisted off where the starter turns it",
    unit="Pa",
    formula=(
        "16 × torque/(π diameter³) against strength in shear; the torque is what turning it over "
        "takes at the most, or all that the starter gives at a stand if that is less. Held round "
        "its whole diameter: turned down for a nut or filed flat for a bit it holds less"
    ),
    source=f"{SHIGLEY}, Eq. 3-37, 5-21",
    shared=True,
    during=STARTED,
    demand_is="twisting stress at its rim",
    capacity_is="strength in shear",
    examples=(worked.STARTER_STALLS, worked.PRINT_WITH_A_ROD),
)


@judges(STARTER_TWISTS)
def twists_off(moment: Moment) -> Way:
    """Torsion of the journal's end by the starter against its strength in shear."""
    engine, seat = moment.engine, seats.journal(moment)
    crank, starter = engine.crank, engine.starter
    largest = moment.given("largest_torque", float(abs(moment.loads.torque).max()))
    bears = pin_strength(moment, seat, across=True)
    stall = found("at_a_stand", starter.stall_torque / starter.ratio, "N*m",
                  "what the starter gives the crank at a stand")  # fmt: skip
    twist = found("twist", math.least(stall, largest), "N*m", "through its end")
    own = own_share(moment)
    diameter, rod = crank.main_journal_diameter, crank.journal.rod_diameter
    return STARTER_TWISTS.way(
        moment,
        demand=shaft.torsion_stress(twist * own, diameter, rod),
        capacity=strength.shear(seat.pin, bears),
        governs=bears.governs,
        temperature=seat.temperature,
        raise_by=stronger(moment, seat),
    )


JUDGEMENTS = (twists_off,)
