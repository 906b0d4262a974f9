"""The end of the crank that a starter turns: twisted by what turning it over compression takes."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Way
from firstfire.formulas import shaft
from firstfire.parts import seats, strength
from firstfire.parts.events import STARTED
from firstfire.parts.failure import Failure, judges
from firstfire.parts.joint_parts import SHIGLEY, pin_strength
from firstfire.parts.journal import SHARE, moduli, own_share, stronger

_ROUND = "(pi * (crank.main_journal_diameter**4 - crank.journal.rod_diameter**4))"

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
)  # fmt: skip


_TWIST = (
    Line("at_a_stand", "starter.stall_torque / starter.ratio", "N*m",
         "what the starter gives the crank at a stand"),
    Line("twist", "min(at_a_stand, largest_torque)", "N*m", "through its end"),
)  # fmt: skip
_HOLDS = Line("capacity", "shear_of_tensile * strength", "Pa", "strength in shear")


def _stress(own: str) -> Line:
    told = f"16 * twist{own} * crank.main_journal_diameter / {_ROUND}"
    return Line("demand", told, "Pa", "twisting stress at its rim")


_PLAIN = (*_TWIST, _stress(""), _HOLDS)
_SHARED = (*_TWIST, SHARE, _stress(" * own_share"), _HOLDS)


@judges(STARTER_TWISTS)
def twists_off(moment: Moment) -> Way:
    """Torsion of the journal's end by the starter against its strength in shear."""
    engine, seat = moment.engine, seats.journal(moment)
    crank, starter = engine.crank, engine.starter
    largest = float(abs(moment.loads.torque).max())
    bears = pin_strength(moment, seat, across=True)
    twist = min(starter.stall_torque / starter.ratio, largest)
    own = own_share(moment)
    diameter, rod = crank.main_journal_diameter, crank.journal.rod_diameter
    return STARTER_TWISTS.way(
        moment,
        demand=shaft.torsion_stress(twist * own, diameter, rod),
        capacity=strength.shear(seat.pin, bears),
        governs=bears.governs,
        temperature=seat.temperature,
        inputs={
            "starter.stall_torque": starter.stall_torque, "starter.ratio": starter.ratio,
            "largest_torque": largest, **moduli(moment),
            "crank.main_journal_diameter": diameter, "crank.journal.rod_diameter": rod,
            "shear_of_tensile": strength.shear_share(seat.pin), **bears.inputs,
        },
        first=bears.line,
        working=_SHARED if rod > 0 else _PLAIN,
        raise_by=stronger(moment, seat),
    )  # fmt: skip


JUDGEMENTS = (twists_off,)
