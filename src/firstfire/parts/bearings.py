"""Main bearings and the seats the case holds them in."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from firstfire.engine.geometry import mechanism
from firstfire.engine.joint_room import no_room
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import bearing_life, plain_bearing
from firstfire.parts import raising, rows, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import PRESSED
from firstfire.parts.worked import bearings as worked
from firstfire.parts.written import mm

_NEXT_UP = {
    "608": "6001", "6000": "6200", "6001": "6201", "6002": "6202", "6003": "6203", "6200": "6201",
    "6201": "6202", "6202": "6203", "6203": "6204", "6204": "6205", "R8": "6202",
}  # fmt: skip

DENTS = Failure(
    id="crank.bearing.dent",
    part="main bearing",
    failure="dents its races",
    unit="N",
    formula="largest bearing force, against the static rating: beyond it quiet running ends",
    source="ISO 76:2006",
    shared=True,
    during=TURNING,
    demand_is="largest force on a main bearing",
    capacity_is="static rating of the bearing",
    examples=(worked.DENTED,),
)

WEARS_OUT = Failure(
    id="crank.bearing.life",
    part="main bearing",
    failure="wears out",
    unit="",
    formula="turns in this event, against 10⁶ × (dynamic rating/cubic mean force)³",
    source="ISO 281:2007, Eq. 1; cubic mean: Shigley 9, Eq. 11-14",
    shared=True,
    during=TURNING,
    demand_is="turns of the crank, two a cycle",
    capacity_is="turns that nine in ten such bearings outlast",
    examples=(worked.WORN_OUT,),
)

SEAT_POUNDED = Failure(
    id="case.bearing_seat.crush",
    part="bearing seat in the case",
    failure="is pounded oval",
    unit="Pa",
    formula="bearing force/(outside × width), against the case's strength when pressed",
    source="Shigley 9, section 12-5: strengths are quoted against the mean",
    shared=True,
    during=TURNING,
    demand_is="pressure on the bearing's rectangle",
    capacity_is="its strength here and now",
    examples=(worked.SEAT_POUNDED,),
)


@judges(DENTS)
def dents(moment: Moment) -> Way:
    """Largest force on any main bearing against its static rating."""
    return DENTS.way(
        moment,
        demand=_largest(moment),
        capacity=moment.engine.crank.main_bearing_static_load,
        governs="load",
        raise_by=larger_bearing(moment),
    )


@judges(WEARS_OUT)
def wears_out(moment: Moment) -> Way:
    """Turns of this event so far against the life that nine in ten bearings outlast."""
    rating = moment.engine.crank.main_bearing_dynamic_load
    load = max((_cubic_mean(force) for force in moment.loads.main_bearings), default=0.0)
    if load <= 0:
        raise OutsideValidity("No force on the main bearings is known.")
    life = bearing_life.rating_life(rating, moment.given("cubic_mean_force", load))
    way = WEARS_OUT.way(
        moment,
        demand=2 * moment.cycles,
        capacity=life,
        governs="fatigue",
        raise_by=larger_bearing(moment),
    )
    # told beside: no line asks for it, and a person thinks in hours
    hours = float(life) * 2 * math.pi / max(float(moment.speed), 1e-9) / 3600
    return replace(way, inputs={**way.inputs, "life_hours": hours})


@judges(SEAT_POUNDED)
def seat_pounded(moment: Moment) -> Way:
    """Peak pressure of the bearing's outside on the print that holds it."""
    engine = moment.engine
    crank, case = engine.crank, engine.case
    warm_at, material = warmth.mean(moment, "case"), engine.materials[case.material]
    seat = strength.of(
        moment, case, pull=PRESSED, warm=strength_left(material, warm_at), load="pressed",
        section=pulled_share(case, case.wall),
    )  # fmt: skip
    return SEAT_POUNDED.way(
        moment,
        demand=plain_bearing.projected_pressure(
            _largest(moment), crank.main_bearing_outside, crank.main_bearing_width
        ),
        capacity=seat.value,
        governs=seat.governs,
        temperature=warm_at,
        raise_by=(
            *larger_bearing(moment),
            *raising.other_plastic("case.material", material, "crankcase", "strength_in_plane",
                                   "reprint_crankcase"),
        ),
    )  # fmt: skip


def _cubic_mean(force: np.ndarray) -> float:
    return float(np.mean(force**3) ** (1 / 3))


def _largest(moment: Moment) -> float:
    """Largest force on any main bearing, N."""
    most = max((float(force.max()) for force in moment.loads.main_bearings), default=0.0)
    return moment.given("bearing_force", most)


def larger_bearing(moment: Moment, *, thicker: bool = False) -> tuple[Raise, ...]:
    """The next bearing up, with journals that fit it, where those leave a wall in the cheek.

    Parameters
    ----------
    moment
        Of the engine.
    thicker
        Whether a thicker journal is what is wanted.
    """
    crank = moment.engine.crank
    following = _NEXT_UP.get(crank.main_bearing)
    while thicker and following and rows.bearing_bore(following) <= crank.main_journal_diameter:
        following = _NEXT_UP.get(following)
    if following is None:
        return ()
    bore = rows.bearing_bore(following)
    change: dict[str, str] = {"crank.main_bearing": following}
    if abs(bore - crank.main_journal_diameter) > 1e-6:
        if not _has_room(moment, bore):
            return ()
        change |= _fitted(moment, bore)
    return (Raise(f"Fit {following} main bearings", change, "reprint_crankcase"),)


def _has_room(moment: Moment, bore: float) -> bool:
    """Whether holes for thicker journals leave a wall to the crankpins' and to the cheek's edge."""
    crank, throw = moment.engine.crank, mechanism(moment.parts)[0]
    solid = "solid" in (crank.joint.kind, crank.journal.joint.kind)
    beside = solid or throw - (bore + crank.crankpin_diameter) / 2 > 1e-3
    joint = crank.journal.joint.model_copy(update={"diameter": bore})
    length = joint.plate_thickness or joint.length
    return (
        beside
        and crank.cheek_width > bore + 4e-3
        and no_room(joint, length, crank.cheek_width) is None
    )


def _fitted(moment: Moment, bore: float) -> dict[str, str]:
    """Sizes that go with a journal of another diameter."""
    crank, wheel = moment.engine.crank, moment.engine.flywheel
    size = mm(bore, 0.001)
    change = {"crank.main_journal_diameter": size, "crank.journal.joint.diameter": size}
    if abs(wheel.bore - crank.main_journal_diameter) < 1e-6:
        change |= {"flywheel.bore": size, "flywheel.joint.diameter": size}
    return change


JUDGEMENTS = (dents, wears_out, seat_pounded)
