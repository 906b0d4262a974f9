"""The valve seats: rings that come loose in a metal hole, or in a print that softens."""

from __future__ import annotations

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head import has_plate, material_of, metal_plate
from firstfire.parts.lines import rises_are
from firstfire.parts.softness import is_metal, softens_at
from firstfire.parts.worked import valve_seats as worked
from firstfire.parts.written import mm

HALF = "strength curve of the material (catalog); the half is our own choice"
"""Source of a softening limit."""

SEATS_LOOSEN = Failure(
    id="head.seat.loosen",
    part="head",
    failure="lets go of its valve seats",
    unit="K",
    formula=(
        "print round the seats, against where half of its strength is left; both as rises over "
        "the air"
    ),
    source=HALF,
    during=WARM,
    **rises_are("the print round the seats", "half of its strength is left"),
    examples=(
        worked.BARE_HEAD_LETS_GO,
        worked.HEAD_BEHIND_ITS_PLATE_LETS_GO,
        worked.BODY_LETS_GO,
    ),
)
SEATS_FALL = Failure(
    id="head.seat.fall",
    part="head",
    failure="lets a metal seat come loose in its hole",
    unit="m",
    formula=(
        "seat ring × (expansion of what holds it × its rise - own expansion × own rise), against "
        "the cold interference"
    ),
    source="linear expansion; ring outside taken as 1.1 × the valve's head (common practice)",
    during=WARM,
    demand_is="what its hole grows more than the ring",
    capacity_is="interference when cold",
    examples=(
        worked.STEEL_FALLS_FROM_A_HEAD,
        worked.BRONZE_FALLS_FROM_A_BODY,
        worked.HOT_RING_STAYS,
    ),
)


@judges(SEATS_FALL, where=lambda moment: is_metal(holder(moment)))
def seats_fall(moment: Moment) -> Way:
    """Growth of a metal hole over its seat ring against the cold fit; the hotter valve's.

    The metal round a ring is as warm as the wall it is in; the ring as warm as it is followed.
    """
    valve, metal = moment.parts.valves.exhaust, holder(moment)
    ring = moment.engine.materials[valve.seat_material]
    wall = "body" if beside(moment) else "head"
    there = warmth.rise(moment, warmth.mean(moment, wall, "liner"))
    there = moment.given("holder_rise", there)
    own = moment.given("seat_rise", warmth.rise(moment, warmth.mean(moment, "seats", wall)))
    hole = moment.given("holder_expansion", metal["expansion"]) * there
    seat = moment.given("seat_expansion", ring["expansion"]) * own
    outside = found("ring_diameter", 1.1 * valve.head_diameter, "m", "ring's outside")
    grown = outside * (hole - seat)
    tighter = mm(1.5 * valve.seat_interference, 0.01)
    return SEATS_FALL.way(
        moment,
        demand=math.most(grown, 0.0),
        capacity=valve.seat_interference,
        governs="expansion",
        temperature=warmth.ambient(moment) + there,
        raise_by=(
            Raise(f"Press seat rings {tighter} larger than their holes",
                  {"valves.exhaust.seat_interference": tighter}, "machined_head"),
        ),
    )  # fmt: skip


@judges(SEATS_LOOSEN, where=lambda moment: not is_metal(holder(moment)))
def seats_loosen(moment: Moment) -> Way:
    """The print round the seat rings, against where its strength is halved."""
    limit = moment.given("softens_at", softens_at(holder(moment), assumed.SOFT))
    there = moment.given("round_the_seats", _round_the_seats(moment))
    return SEATS_LOOSEN.way(
        moment,
        demand=warmth.rise(moment, there),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=there,
        raise_by=(
            *metal_plate(moment),
            *raising.other_plastic("head.material", material_of(moment), "head", "hdt_180",
                                   "reprint_head"),
        ),
    )  # fmt: skip


def beside(moment: Moment) -> bool:
    """Whether the valves stand beside the bore."""
    return moment.parts.valves.placed == "side"


def holder(moment: Moment) -> Material:
    """What the seats are pressed into."""
    parts = moment.parts
    return moment.engine.materials[(parts.body if beside(moment) else parts.head).material]


def _round_the_seats(moment: Moment) -> float:
    """Plastic that touches a steel ring is as warm as the ring; K.

    Behind a chamber plate, or where the rings are not followed, as warm as 2 mm below the face.
    """
    followed = warmth.part(moment, "seats") is not None
    if followed and (beside(moment) or not has_plate(moment)):
        return warmth.mean(moment, "seats")
    return warmth.below(moment, assumed.SEAT_DEPTH, "head")


JUDGEMENTS = (seats_fall, seats_loosen)
"""What `firstfire.parts.all` lists."""
