"""The con rod: torn at its eyes, buckled in its shank."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import CylinderLoads, Raise, Way
from firstfire.formulas import beam, column, rod_eye
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import raising, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.rod_pounded import big_end_crushes, small_end_crushes
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE, PRESSED
from firstfire.parts.worked import rod as worked

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

TEARS = Failure(
    id="rod.tear",
    part="con rod",
    failure="is torn apart",
    unit="N",
    formula=(
        "pull, against the least of strength × (width - hole) × thickness/peak factor and 2 × "
        "shear strength × wall × thickness of both eyes, and strength × section of the shank"
    ),
    source=f"equilibrium; K: Roark 7, Table 17.1 (from memory); tear-out: {_SHIGLEY}, section 8-12",
    hazard=False,
    during=TURNING,
    demand_is="largest pull in the rod",
    capacity_is="the least of eyes and shank",
    examples=(worked.SMALL_EYE_TEARS, worked.BIG_EYE_TEARS, worked.SHANK_TEARS),
)

BUCKLES = Failure(
    id="rod.buckle",
    part="con rod",
    failure="buckles",
    unit="N",
    formula=(
        "thrust, against ends × π² × modulus × second moment/length² if slender, else Johnson's "
        "parabola; ends 1 across the pins, 1.2 along"
    ),
    source=f"{_SHIGLEY}, Eq. 4-43, 4-46",
    during=TURNING,
    demand_is="largest thrust in the rod",
    capacity_is="the lesser of both planes",
    examples=(
        worked.SLENDER_ACROSS,
        worked.SLENDER_ALONG,
        worked.STOUT_ACROSS,
        worked.STOUT_ALONG,
        worked.SOFT_SHANK,
    ),
)

CAP_OPENS = Failure(
    id="rod.cap.open",
    part="big end cap",
    failure="opens",
    unit="N",
    formula="pull on the cap's screws",
    source="none",
    during=TURNING,
)


_HELD_BY_PINS = 1.2
"""End condition along the pins, which hold the ends somewhat: Shigley 9, Table 4-2."""


@judges(TEARS)
def tears(moment: Moment) -> Way:
    """Largest pull in the rod against its weakest section.

    The peak beside the hole is counted in full: no notch length of prints is known.
    """
    places = _sections(moment)
    weakest = min(places, key=lambda place: place.holds)
    # The working follows the weakest; what the others hold is told.
    holds = (
        place.holds if place is weakest else moment.given(place.name, place.holds)
        for place in places
    )  # fmt: skip
    return TEARS.way(
        moment,
        demand=moment.given("pull", max(-float(_own(moment).rod.min()), 0.0)),
        capacity=math.least(*holds),
        governs=weakest.governs,
        temperature=weakest.temperature,
        raise_by=_wider(moment),
    )


@judges(BUCKLES)
def buckles(moment: Moment) -> Way:
    """Largest thrust against the column's critical load, in both planes."""
    rod = moment.parts.rod
    material = moment.engine.materials[rod.material]
    warm_at = warmth.shank(moment)
    solid = pulled_share(rod, min(rod.shank_width, rod.shank_thickness))
    bears = strength.of(
        moment,
        rod,
        pull=PRESSED,
        warm=strength_left(material, warm_at),
        section=solid,
        load="pressed",
    )
    thrust = moment.given("thrust", max(float(_own(moment).rod.max()), 0.0))
    if bears.value <= 0:
        return BUCKLES.way(moment, demand=thrust, capacity=0.0, governs="temperature",
                           temperature=warm_at,
                           capacity_is="nothing: heat has left no strength")  # fmt: skip
    stiff = moment.given("modulus", strength.stiffness(rod, material, warm_at, ALONG_BORE))
    if solid < 1:
        stiff = found("shank_modulus", stiff * moment.given("section_leaves", solid), "Pa",
                      "stiffness of the shank's whole section")  # fmt: skip
    loads = _critical_loads(moment, stiff, bears.value)
    slender = min(loads) < rod.shank_width * rod.shank_thickness * bears.value / 2
    return BUCKLES.way(
        moment,
        demand=thrust,
        capacity=math.least(*loads),
        governs="buckling" if slender else bears.governs,
        temperature=warm_at,
        raise_by=(
            raising.thicker("rod.shank_thickness", rod.shank_thickness, "the rod's shank {} thick",
                            "reprint_rod"),
            *raising.other_plastic("rod.material", material, "rod", "modulus_in_plane"),
        ),
    )  # fmt: skip


cap_opens = not_judged(
    CAP_OPENS,
    "the engine file does not say which screws hold the cap",
    lambda moment: moment.parts.rod.split,
)


class _Section(NamedTuple):
    """A section of the rod: its name, what pull it holds, N, what governs, and its warmth, K."""

    name: str
    holds: float
    governs: str
    temperature: float


def _sections(moment: Moment) -> tuple[_Section, ...]:
    rod, crank = moment.parts.rod, moment.engine.crank
    return (
        _eye(moment, "small_eye", moment.parts.pin.diameter, rod.small_end_width,
             warmth.small_end(moment)),
        _eye(moment, "big_eye", crank.crankpin_diameter, rod.big_end_width,
             warmth.big_end(moment)),
        _shank(moment),
    )  # fmt: skip


def _eye(moment: Moment, name: str, hole: float, width: float, warm_at: float) -> _Section:
    """An eye, torn beside its hole or the pin out of its end."""
    rod = moment.parts.rod
    wall = rod.eye_wall
    eye = _pulled(moment, warm_at, min(wall, width))
    across = found("across", hole + 2 * wall, "m", "width of the eye across the rod")
    mean = found("mean_stress", rod_eye.net_stress(1.0, hole, across, width), "1/m^2",
                 "mean stress beside the hole by each newton")  # fmt: skip
    peak = found("peak", rod_eye.peak_factor(hole, across), "",
                 "peak of the stress beside the hole over its mean")  # fmt: skip
    net = found("net", eye.value / (mean * peak), "N",
                "pull at which the eye tears beside its hole")  # fmt: skip
    sheared = found("shear_stress", rod_eye.tear_out_stress(1.0, wall, width), "1/m^2",
                    "shear stress at its end by each newton")  # fmt: skip
    shear = strength.shear(moment.engine.materials[rod.material], eye)
    out = found("out", shear / sheared, "N", "pull at which the pin tears out lengthwise")
    holds = found(name, math.least(net, out), "N", f"what the {name[:-4]} eye holds")
    return _Section(name, holds, eye.governs, warm_at)


def _shank(moment: Moment) -> _Section:
    rod = moment.parts.rod
    warm_at = warmth.shank(moment)
    shank = _pulled(moment, warm_at, min(rod.shank_width, rod.shank_thickness))
    holds = found("shank", shank.value * rod.shank_width * rod.shank_thickness, "N",
                  "what the shank holds")  # fmt: skip
    return _Section("shank", holds, shank.governs, warm_at)


def _critical_loads(moment: Moment, modulus: float, bears: float) -> tuple[float, float]:
    """Thrusts that bend the shank out across and along the pins, N.

    Parameters
    ----------
    moment
        Of the engine.
    modulus, bears
        Stiffness of the shank, and what it bears when pressed, Pa.
    """
    rod = moment.parts.rod
    area = found("area", rod.shank_width * rod.shank_thickness, "m^2", "section of the shank")
    across = beam.rectangle_second_moment(rod.shank_thickness, rod.shank_width)
    along = beam.rectangle_second_moment(rod.shank_width, rod.shank_thickness)
    loads = []
    for bent, where, ends in (
        (across, "across", column.PINNED),
        (along, "along", moment.given("end_condition", _HELD_BY_PINS)),
    ):
        second = found(f"second_moment_{where}", bent, "m^4",
                       f"second moment of area {where} the pins")  # fmt: skip
        load = column.critical_load(rod.length, area, second, modulus, bears, end_condition=ends)
        loads.append(found(f"load_{where}_the_pins", load, "N",
                           f"thrust that bends it out {where} the pins"))  # fmt: skip
    return loads[0], loads[1]


def _pulled(moment: Moment, temperature: float, wall: float) -> strength.Strength:
    rod = moment.parts.rod
    warm = strength_left(moment.engine.materials[rod.material], temperature)
    return strength.of(moment, rod, pull=ALONG_BORE, warm=warm, section=pulled_share(rod, wall))


def _wider(moment: Moment) -> tuple[Raise, ...]:
    rod = moment.parts.rod
    material = moment.engine.materials[rod.material]
    raised: tuple[Raise, ...] = ()
    if rod.made == "printed" and rod.layers_stacked == "along_bore":
        raised += (Raise("Print the rod lying flat", {"rod.layers_stacked": "along_crank"},
                         "other_layers"),)  # fmt: skip
    return (
        *raised,
        raising.thicker(
            "rod.eye_wall", rod.eye_wall, "the wall round the rod's eyes {}", "reprint_rod"
        ),
        *raising.other_plastic("rod.material", material, "rod", "strength_in_plane"),
    )


def _own(moment: Moment) -> CylinderLoads:
    return moment.loads.cylinders[moment.cylinder]


JUDGEMENTS = (tears, buckles, big_end_crushes, small_end_crushes, cap_opens)
