"""Lash of a warm exhaust valve: a stem that outgrows what holds it stands on its cam, open."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.valve_seats import beside, holder
from firstfire.parts.worked import valve_lash as worked
from firstfire.parts.written import mm

RIDES_OPEN = Failure(
    id="valves.exhaust.lash.close",
    part="exhaust valve",
    failure="takes up its lash and rides open",
    unit="m",
    formula=(
        "growth of the valve's length over what it stands in, from seat to cam, against the lash "
        "set cold; a stem is on the mean a third of the way from the head's warmth to the valve's"
    ),
    source="linear expansion; length and warmth of the stem common practice, no source",
    during=WARM,
    demand_is="what the valve grows over what holds it",
    capacity_is="lash, set cold",
    examples=(worked.IN_A_HEAD, worked.IN_A_BODY, worked.OUTGROWN),
)


@judges(RIDES_OPEN)
def rides_open(moment: Moment) -> Way:
    """Growth of valve over head, or over the body that side valves stand in.

    The inlet is cooled by what comes in; if it has the same lash it is not the first.
    """
    valve, around = moment.parts.valves.exhaust, holder(moment)
    wall = "body" if beside(moment) else "head"
    held = moment.given("holder_rise", warmth.rise(moment, warmth.mean(moment, wall)))
    hot = moment.given("valve_rise", warmth.rise(moment, warmth.mean(moment, "valves", wall)))
    stem = held + moment.given("stem_warmth", assumed.STEM_WARMTH) * (hot - held)
    stem = found("stem_rise", stem, "K", "rise of the stem on the mean")
    expansion = moment.engine.materials[valve.material]["expansion"]
    own = moment.given("valve_expansion", expansion) * stem
    other = moment.given("holder_expansion", around["expansion"]) * held
    length = moment.given("valve_lengths", assumed.VALVE_LENGTHS) * valve.head_diameter
    grown = math.most(length * (own - other), 0.0)
    wider = mm(max(1.5 * valve.lash, 0.1e-3), 0.01)
    return RIDES_OPEN.way(
        moment,
        demand=grown,
        capacity=valve.lash,
        governs="expansion",
        temperature=warmth.ambient(moment) + stem,
        raise_by=(
            Raise(f"Set {wider} of lash, cold", {"valves.exhaust.lash": wider}, "set_lash"),
        ) if grown > 0 else (),
    )  # fmt: skip


JUDGEMENTS = (rides_open,)
