"""The rod's eyes on their pins: pounded oval."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import plain_bearing
from firstfire.parts import raising, strength
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.rod_ends import under_the_skin
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import PRESSED
from firstfire.parts.worked import rod_ends as worked

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

BIG_END_CRUSHES = Failure(
    id="rod.big_end.crush",
    part="big end of the rod",
    failure="is pounded oval",
    unit="Pa",
    formula=(
        "force/(crankpin diameter × bearing's width), against the rod's strength when pressed, as "
        "warm as its eye under the skin"
    ),
    source=f"{_SHIGLEY}, section 12-5: strengths are quoted against the mean",
    during=TURNING,
    demand_is="pressure on the bearing's rectangle",
    capacity_is="its strength here and now",
    examples=(worked.BIG_END_POUNDED,),
)

SMALL_END_CRUSHES = Failure(
    id="rod.small_end.crush",
    part="small end of the rod",
    failure="is pounded oval",
    unit="Pa",
    formula=BIG_END_CRUSHES.formula.replace("crankpin", "pin"),
    source=BIG_END_CRUSHES.source,
    during=TURNING,
    demand_is=BIG_END_CRUSHES.demand_is,
    capacity_is=BIG_END_CRUSHES.capacity_is,
    examples=(worked.SMALL_END_POUNDED, worked.SMALL_END_POUNDED_BY_MASS),
)


@judges(BIG_END_CRUSHES, where=lambda moment: moment.parts.rod.big_end in ("plain", "bush"))
def big_end_crushes(moment: Moment) -> Way:
    """Peak pressure of the crankpin in the rod."""
    rod, crank = moment.parts.rod, moment.engine.crank
    force = float(moment.loads.cylinders[moment.cylinder].crankpin.max())
    return _crush_way(
        BIG_END_CRUSHES, moment, force, crank.crankpin_diameter,
        ("rod.big_end_width", rod.big_end_width), under_the_skin(moment, "big_end"),
    )  # fmt: skip


@judges(SMALL_END_CRUSHES, where=lambda moment: moment.parts.rod.small_end in ("plain", "bush"))
def small_end_crushes(moment: Moment) -> Way:
    """Peak pressure of the piston pin in the rod."""
    rod, pin = moment.parts.rod, moment.parts.pin
    rod_force = moment.loads.cylinders[moment.cylinder].rod
    force = max(float(rod_force.max()), -float(rod_force.min()))
    return _crush_way(
        SMALL_END_CRUSHES, moment, force, pin.diameter,
        ("rod.small_end_width", rod.small_end_width), under_the_skin(moment, "small_end"),
    )  # fmt: skip


def _crush_way(
    failure: Failure,
    moment: Moment,
    force: float,
    diameter: float,
    width: tuple[str, float],
    temperature: float,
) -> Way:
    """Pressure of a pin in its bearing: its width with the path."""
    path, size = width
    rod = moment.parts.rod
    material = moment.engine.materials[rod.material]
    bears = strength.of(
        moment, rod, pull=PRESSED, warm=strength_left(material, temperature), load="pressed",
        section=pulled_share(rod, rod.eye_wall),
    )  # fmt: skip
    return failure.way(
        moment,
        demand=plain_bearing.projected_pressure(moment.given("force", force), diameter, size),
        capacity=bears.value,
        governs=bears.governs,
        temperature=temperature,
        raise_by=(
            *_wider_bearing(path, size, diameter),
            *raising.other_plastic("rod.material", material, "rod", "strength_in_plane"),
        ),
    )


_WIDEST = 1.5
"""Width of a plain bearing over its pin: beyond, its edges alone bear a pin that bends. Common
practice, no source."""


def _wider_bearing(path: str, width: float, pin: float) -> tuple[Raise, ...]:
    """A bearing a quarter wider, as far as its pin lets all of it bear."""
    if raising.MORE * width > _WIDEST * pin:
        return ()
    return (raising.thicker(path, width, "that bearing {} wide", "reprint_rod"),)
