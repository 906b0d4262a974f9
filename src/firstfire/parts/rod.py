"""The con rod: torn at its eyes, buckled in its shank, crushed at its ends."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import CylinderLoads, Line, Raise, Way
from firstfire.formulas import beam, column, plain_bearing, rod_eye
from firstfire.parts import raising, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.lines import STRENGTH, projected
from firstfire.parts.rod_ends import under_the_skin
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE, PRESSED

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
)  # fmt: skip

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
)

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
    working=(projected("force", "crank.crankpin_diameter", "rod.big_end_width"), STRENGTH),
)

SMALL_END_CRUSHES = Failure(
    id="rod.small_end.crush",
    part="small end of the rod",
    failure="is pounded oval",
    unit="Pa",
    formula=BIG_END_CRUSHES.formula.replace("crankpin", "pin"),
    source=BIG_END_CRUSHES.source,
    during=TURNING,
    working=(projected("force", "pin.diameter", "rod.small_end_width"), STRENGTH),
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


@judges(TEARS)
def tears(moment: Moment) -> Way:
    """Largest pull in the rod against its weakest section.

    The peak beside the hole is counted in full: no notch length of prints is known.
    """
    pull = max(-float(_own(moment).rod.min()), 0.0)
    places = _sections(moment)
    weakest = min(places, key=lambda place: place.holds)
    return TEARS.way(
        moment,
        demand=pull,
        capacity=weakest.holds,
        governs=weakest.governs,
        temperature=weakest.temperature,
        inputs={"pull": pull, **{place.name: place.holds for place in places}, **weakest.inputs},
        working=weakest.working,
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
    thrust = max(float(_own(moment).rod.max()), 0.0)
    if bears.value <= 0:
        return BUCKLES.way(moment, demand=thrust, capacity=0.0, governs="temperature",
                           temperature=warm_at)  # fmt: skip
    stiff = strength.stiffness(rod, material, warm_at, ALONG_BORE) * solid
    area = rod.shank_width * rod.shank_thickness
    planes = (
        (beam.rectangle_second_moment(rod.shank_thickness, rod.shank_width), column.PINNED),
        (beam.rectangle_second_moment(rod.shank_width, rod.shank_thickness), 1.2),
    )
    loads = [
        column.critical_load(rod.length, area, second, stiff, bears.value, end_condition=ends)
        for second, ends in planes
    ]
    slender = min(loads) < area * bears.value / 2
    weaker = loads.index(min(loads))
    second, ends = planes[weaker]
    euler = rod.length / column.radius_of_gyration(second, area) >= column.transition_slenderness(
        stiff, bears.value, ends
    )
    return BUCKLES.way(
        moment,
        demand=thrust,
        capacity=min(loads),
        governs="buckling" if slender else bears.governs,
        temperature=warm_at,
        inputs={"thrust": thrust, "modulus": stiff, "rod.length": rod.length,
                "rod.shank_width": rod.shank_width, "rod.shank_thickness": rod.shank_thickness,
                "end_condition": ends, _PLANES[weaker][0]: loads[weaker],
                _PLANES[1 - weaker][0]: loads[1 - weaker], **bears.inputs},
        first=bears.line,
        working=_buckling(weaker, euler=euler),
        raise_by=(
            raising.thicker("rod.shank_thickness", rod.shank_thickness, "the rod's shank {} thick",
                            "reprint_rod"),
            *raising.other_plastic("rod.material", material, "rod", "modulus_in_plane"),
        ),
    )  # fmt: skip


@judges(BIG_END_CRUSHES, where=lambda moment: moment.parts.rod.big_end in ("plain", "bush"))
def big_end_crushes(moment: Moment) -> Way:
    """Peak pressure of the crankpin in the rod."""
    rod, crank = moment.parts.rod, moment.engine.crank
    return _crush_way(
        BIG_END_CRUSHES, moment, float(_own(moment).crankpin.max()),
        ("crank.crankpin_diameter", crank.crankpin_diameter),
        ("rod.big_end_width", rod.big_end_width), under_the_skin(moment, "big_end"),
    )  # fmt: skip


@judges(SMALL_END_CRUSHES, where=lambda moment: moment.parts.rod.small_end in ("plain", "bush"))
def small_end_crushes(moment: Moment) -> Way:
    """Peak pressure of the piston pin in the rod."""
    rod, pin = moment.parts.rod, moment.parts.pin
    rod_force = _own(moment).rod
    force = max(float(rod_force.max()), -float(rod_force.min()))
    return _crush_way(
        SMALL_END_CRUSHES, moment, force, ("pin.diameter", pin.diameter),
        ("rod.small_end_width", rod.small_end_width), under_the_skin(moment, "small_end"),
    )  # fmt: skip


cap_opens = not_judged(
    CAP_OPENS,
    "the engine file does not say which screws hold the cap",
    lambda moment: moment.parts.rod.split,
)


class _Section(NamedTuple):
    """A section of the rod: its name, what pull it holds, N, what governs, and its warmth, K.

    Attributes
    ----------
    inputs, working
        Numbers and lines behind what it holds.
    """

    name: str
    holds: float
    governs: str
    temperature: float
    inputs: dict[str, float]
    working: tuple[Line, ...]


_PULL = Line("demand", "pull", "N", "largest pull in the rod")
_OTHERS = Line("capacity", "min(small_eye, big_eye, shank)", "N", "the least of eyes and shank")
_NET = (
    Line("across", "eye_hole + 2 * rod.eye_wall", "m", "width of the eye across the rod"),
    Line("hole_share", "eye_hole / across", "", "hole over that width"),
    Line("peak", "12.882 - 52.714 * hole_share + 89.762 * hole_share**2 - 51.667 * hole_share**3",
         "", "peak of the stress beside the hole over its mean"),
    Line("net", "strength * (across - eye_hole) * eye_width / peak", "N",
         "pull at which the eye tears beside its hole"),
    strength.SHEAR,
    Line("out", "shear_strength * 2 * rod.eye_wall * eye_width", "N",
         "pull at which the pin tears out lengthwise"),
)  # fmt: skip
_EYES = {
    name: (*_NET, Line(name, "min(net, out)", "N", f"what the {name[:-4]} eye holds"), _PULL,
           _OTHERS)
    for name in ("small_eye", "big_eye")
}  # fmt: skip
_SHANK = (
    Line("shank", "strength * rod.shank_width * rod.shank_thickness", "N", "what the shank holds"),
    _PULL,
    _OTHERS,
)
_PLANES = (
    ("load_across_the_pins", "rod.shank_thickness * rod.shank_width**3 / 12", "across the pins"),
    ("load_along_the_pins", "rod.shank_width * rod.shank_thickness**3 / 12", "along the pins"),
)
_EULER = "end_condition * pi**2 * modulus * area / slenderness**2"
_JOHNSON = "area * (strength - (strength * slenderness / (2 * pi))**2 / (end_condition * modulus))"


@cache
def _buckling(plane: int, *, euler: bool) -> tuple[Line, ...]:
    """Working of the shank as a column in the plane in which it buckles first."""
    name, second, where = _PLANES[plane]
    law = "slender: Euler" if euler else "stout: Johnson's parabola"
    return (
        Line("area", "rod.shank_width * rod.shank_thickness", "m^2", "section of the shank"),
        Line("second_moment", second, "m^4", f"second moment of area {where}"),
        Line("slenderness", "rod.length / sqrt(second_moment / area)", "", "slenderness"),
        Line("limit", "sqrt(2 * pi**2 * end_condition * modulus / strength)", "",
             "slenderness from which Euler's law holds"),
        Line(name, _EULER if euler else _JOHNSON, "N", f"thrust that bends it out ({law})"),
        Line("demand", "thrust", "N", "largest thrust in the rod"),
        Line("capacity", "min(load_across_the_pins, load_along_the_pins)", "N",
             "the lesser of both planes"),
    )  # fmt: skip


def _sections(moment: Moment) -> tuple[_Section, ...]:
    rod = moment.parts.rod
    ends = (
        ("small_eye", moment.parts.pin.diameter, rod.small_end_width, warmth.small_end(moment)),
        ("big_eye", moment.engine.crank.crankpin_diameter, rod.big_end_width,
         warmth.big_end(moment)),
    )  # fmt: skip
    material = moment.engine.materials[rod.material]
    found = []
    for name, hole, width, warm_at in ends:
        wall = rod.eye_wall
        eye = _pulled(moment, warm_at, min(wall, width))
        across = hole + 2 * wall
        net = eye.value / (rod_eye.net_stress(1.0, hole, across, width)
                           * rod_eye.peak_factor(hole, across))  # fmt: skip
        out = strength.shear(material, eye) / rod_eye.tear_out_stress(1.0, wall, width)
        told = {"eye_hole": hole, "rod.eye_wall": wall, "eye_width": width,
                "shear_of_tensile": strength.shear_share(material), **eye.inputs}  # fmt: skip
        found.append(
            _Section(name, min(net, out), eye.governs, warm_at, told, eye.line + _EYES[name])
        )
    warm_at = warmth.shank(moment)
    shank = _pulled(moment, warm_at, min(rod.shank_width, rod.shank_thickness))
    holds = shank.value * rod.shank_width * rod.shank_thickness
    told = {"rod.shank_width": rod.shank_width, "rod.shank_thickness": rod.shank_thickness,
            **shank.inputs}  # fmt: skip
    return (*found, _Section("shank", holds, shank.governs, warm_at, told, shank.line + _SHANK))


def _pulled(moment: Moment, temperature: float, wall: float) -> strength.Strength:
    rod = moment.parts.rod
    warm = strength_left(moment.engine.materials[rod.material], temperature)
    return strength.of(moment, rod, pull=ALONG_BORE, warm=warm, section=pulled_share(rod, wall))


def _crush_way(
    failure: Failure,
    moment: Moment,
    force: float,
    diameter: tuple[str, float],
    width: tuple[str, float],
    temperature: float,
) -> Way:
    """Pressure of a pin in its bearing: diameter and width with their paths."""
    path, size = width
    rod = moment.parts.rod
    material = moment.engine.materials[rod.material]
    bears = strength.of(
        moment, rod, pull=PRESSED, warm=strength_left(material, temperature), load="pressed",
        section=pulled_share(rod, rod.eye_wall),
    )  # fmt: skip
    return failure.way(
        moment,
        demand=plain_bearing.projected_pressure(force, diameter[1], size),
        capacity=bears.value,
        governs=bears.governs,
        temperature=temperature,
        inputs={"force": force, diameter[0]: diameter[1], path: size, **bears.inputs},
        first=bears.line,
        raise_by=(
            *_wider_bearing(path, size, diameter[1]),
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
