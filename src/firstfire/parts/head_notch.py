"""The head bent between its bolts and its gasket, cracked at its holes: tightened, and under gas.

Bolts press the head on a ring that lies inside their circle, so that it bends before any gas does.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import annular_plate, bolt, flange, notch, plate, stress_concentration
from firstfire.parts import notched, rows, strength, warmth
from firstfire.parts.events import GAS, TIGHTENING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head import (
    counted_thickness,
    has_plate,
    is_plastic,
    material_of,
    thicker,
)
from firstfire.parts.head_joint import (
    head_joint,
    tightened_preload,
)
from firstfire.parts.lines import STRENGTH
from firstfire.parts.once import once
from firstfire.parts.section import bent_share, folded_share
from firstfire.parts.strength import ROUND_THE_BORE
from firstfire.parts.written import newton_metre

_PLATE_SOURCE = (
    "Roark 7, Table 11.2, case 9a; Timoshenko, Theory of Plates and Shells, 2nd ed., section 16; "
    f"{notched.SOURCE}; holes: Whitney, Nuismer, J. Composite Materials 8 (1974) 253"
)

_SHAPE = (
    Line("support_radius", "head.fasteners.circle_diameter / 2", "m",
         "radius of the circle its fasteners stand on"),
    Line("seal_radius", "(gasket.inside_diameter + gasket.width) / 2", "m",
         "radius of the ring it is pressed on"),
    Line("thickness", "min(head.thickness, support_radius / 2)", "m", "thickness that counts"),
    Line("share_left_by_holes",
         "(support_radius - (valves.inlet.throat_diameter + valves.exhaust.throat_diameter) / "
         "2) / support_radius", "", "share of the section that the valve holes leave"),
    Line("share", "seal_radius / support_radius", "", "ring's radius over the fasteners'"),
    Line("ring_bracket",
         "(1 + poisson) / 2 * log(1 / share) + (1 - poisson) / 4 * (1 - share**2)", "",
         "what the plate's law makes of it (natural logarithm)"),
    Line("middle_each", "6 * ring_bracket / (2 * pi) / thickness**2", "1/m^2",
         "bending in the middle, for each N of pull"),
    Line("rim_each", "6 * (1 - poisson) / (4 * pi) * (1 - share**2) / thickness**2", "1/m^2",
         "bending at the bolts, for each N of pull"),
)  # fmt: skip
_BRITTLE = (
    Line("most", "max(1, thickness / yields_below)**2", "",
         "most that a hole may raise: no weaker than a thinner head that yields"),
    Line("largest_hole", "max(valves.inlet.throat_diameter, valves.exhaust.throat_diameter)", "m",
         "larger valve hole"),
    Line("middle_holes",
         "max(1 / share_left_by_holes, min(most, 1 + (largest_hole / (largest_hole + "
         "notch_length))**2))", "", "what the valve holes raise it by, as felt"),
    Line("hole_near", "clearance_hole / (clearance_hole + notch_length)", "",
         "nearness to a bolt hole's edge"),
    Line("rim_holes",
         "max(1 / share_left_at_bolts, min(most, (2 + hole_near**2 + 3 * hole_near**4) / 2 * "
         "edge_raises))", "", "what a bolt hole raises it by, as felt"),
)  # fmt: skip
_DUCTILE = (
    Line("middle_holes", "1 / share_left_by_holes", "",
         "what the valve holes raise it by: it yields before it cracks"),
    Line("rim_holes", "1 / share_left_at_bolts", "",
         "what a bolt hole raises it by: it yields before it cracks"),
)  # fmt: skip
_WORST = "max({0} * middle_each * middle_holes, {0} * rim_each * rim_holes)"

CRACKS_TIGHT = Failure(
    id="head.tighten.crack",
    part="head",
    failure="cracks while its bolts are tightened",
    unit="Pa",
    formula=(
        "6/thickness² × bending moment of all preload between bolt circle and gasket, the worse of"
        " middle × what valve holes raise and bolt circle × what bolt holes raise, as far as "
        "brittle material feels it, against the cold head's strength"
    ),
    source=_PLATE_SOURCE,
    during=TIGHTENING | GAS,
    working=(
        *_SHAPE,
        Line("pressed_on", "head.fasteners.count * preload", "N", "pull of all fasteners"),
    ),
)  # fmt: skip
CRACKS = Failure(
    id="head.crack",
    part="head",
    failure="cracks at its holes",
    unit="Pa",
    formula=(
        "swing of stress by gas + share left by cycles × stress by preload (Goodman), each 6/"
        "thickness² × bending moment × what holes raise as brittle material feels it, against the "
        "warm head's strength; not asked of heads that yield first"
    ),
    source=f"{_PLATE_SOURCE}; Goodman: Shigley 9, Eq. 6-46",
    hazard=True,
    during=GAS,
    working=(
                *_SHAPE,
        Line("gas_bracket",
             "(1 + poisson) * log(1 / share) + 1 - (1 - poisson) * share**2 / 4", "",
             "the same of pressure inside the ring"),
        Line("gas_middle", "6 * gas_pressure * seal_radius**2 / 4 * gas_bracket / thickness**2",
             "Pa", "bending by gas in the middle"),
        Line("gas_rim",
             "6 * gas_force * (1 - poisson) / (4 * pi) * (1 - share**2 / 2) / thickness**2", "Pa",
             "bending by gas at the bolts"),
        Line("steady_pull", "head.fasteners.count * preload_left", "N",
             "pull of all fasteners, without gas"),
        Line("load_each",
             "max(preload_left + load_share * gas_force / head.fasteners.count, gas_force / "
             "head.fasteners.count)", "N", "pull at the peak of the gas, of one fastener"),
        Line("ring_left", "max(head.fasteners.count * load_each - gas_force, 0)", "N",
             "what still presses on the ring at the peak"),
    ),
)  # fmt: skip
_BY_GAS = (
    Line("middle_swing", "max(gas_middle + (ring_left - steady_pull) * middle_each, 0)", "Pa",
         "swing in the middle"),
    Line("rim_swing", "max(gas_rim + (ring_left - steady_pull) * rim_each, 0)", "Pa",
         "swing at the bolts"),
    Line("demand",
         "max((middle_swing + steady_counts * steady_pull * middle_each) * middle_holes, "
         "(rim_swing + steady_counts * steady_pull * rim_each) * rim_holes)", "Pa",
         "worse of middle and bolts, steady part by Goodman"),
    STRENGTH,
)  # fmt: skip


class _Head(NamedTuple):
    """Shape of the head as a plate, and how it feels its holes.

    Attributes
    ----------
    bolts, ring, thickness, poisson
        Radii, m, thickness that counts, m, and Poisson's ratio.
    middle_each, rim_each
        Bending stress for each N of pull, 1/m².
    feels
        How it feels notches.
    middle_holes, rim_holes
        What its holes raise.
    inputs, working
        Numbers put in, and the lines for the holes.
    """

    bolts: float
    ring: float
    thickness: float
    poisson: float
    middle_each: float
    rim_each: float
    feels: notched.Notched
    middle_holes: float
    rim_holes: float
    inputs: dict[str, float]
    working: tuple[Line, ...]


def brittle(moment: Moment) -> bool:
    """Whether holes crack this head before it yields; so too where nobody knows."""
    try:
        feels = notched.notched(
            moment, moment.parts.head, pull=ROUND_THE_BORE, thickness=counted_thickness(moment)
        )
    except OutsideValidity:
        return True
    return feels.decides


@judges(CRACKS_TIGHT)
def cracks_tight(moment: Moment) -> Way:
    """Bending by the preload as tightened, of a cold head that bears it through the night."""
    shape, preload = _head(moment), tightened_preload(moment)
    head, joint = moment.parts.head, moment.parts.head.fasteners
    pressed = joint.count * preload
    bears = strength.of(
        moment, head, pull=ROUND_THE_BORE, warm=1.0, load="lasting",
        section=bent_share(head, counted_thickness(moment)),
    )  # fmt: skip
    return CRACKS_TIGHT.way(
        moment,
        demand=pressed * max(
            shape.middle_each * shape.middle_holes, shape.rim_each * shape.rim_holes
        ),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warmth.ambient(moment),
        raise_by=(_gentler(moment), *_sturdier(moment)),
    )  # fmt: skip


@judges(CRACKS, where=brittle)
def cracks(moment: Moment) -> Way:
    """Bending by preload and gas together, of a head whose holes crack it.

    A ductile head's preload eases as it yields: `head.break` asks it of gas alone.
    """
    shape, joint, head = _head(moment), head_joint(moment), moment.parts.head
    warm = folded_share(material_of(moment), warmth.part(moment, "head"), head.thickness)
    bears = strength.of(
        moment, head, pull=ROUND_THE_BORE, warm=warm,
        section=bent_share(head, counted_thickness(moment)),
    )  # fmt: skip
    steady, counts = joint.number * joint.left, bears.shares.get("fatigue", 1.0)
    each = bolt.bolt_load(joint.left, joint.gas_force / joint.number, joint.share)
    eased = max(joint.number * each - joint.gas_force, 0.0) - steady
    gas = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    middle = plate.supported_centre_stress(
        gas, shape.bolts, shape.thickness, shape.poisson, loaded_radius=shape.ring
    )
    rim = 6 * flange.rim_moment(joint.gas_force, shape.bolts, shape.ring / math.sqrt(2),
                                shape.poisson) / shape.thickness**2  # fmt: skip
    swings = (max(middle + eased * shape.middle_each, 0.0),
              max(rim + eased * shape.rim_each, 0.0))  # fmt: skip
    return CRACKS.way(
        moment,
        demand=max(
            (swings[0] + counts * steady * shape.middle_each) * shape.middle_holes,
            (swings[1] + counts * steady * shape.rim_each) * shape.rim_holes,
        ),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warmth.mean(moment, "head"),
        raise_by=_sturdier(moment),
    )  # fmt: skip


@once
def _head(moment: Moment) -> _Head:
    parts, head, poisson = moment.parts, moment.parts.head, material_of(moment)["poisson"]
    seal = moment.parts.gasket
    bolts, ring = head.fasteners.circle_diameter / 2, (seal.inside_diameter + seal.width) / 2
    thickness = counted_thickness(moment)
    feels = notched.notched(moment, head, pull=ROUND_THE_BORE, thickness=thickness)
    throats = parts.valves.inlet.throat_diameter, parts.valves.exhaust.throat_diameter
    left = annular_plate.ligament_efficiency(bolts, sum(throats) / 2)
    hole = rows.thread(head.fasteners.thread).clearance_hole
    edge = max(head.diameter - 2 * bolts, 1.2 * hole)
    at_bolts, raised = 1 - hole / edge, _edge_raises(hole, edge)
    middle_holes, rim_holes, told = 1 / left, 1 / at_bolts, {"share_left_at_bolts": at_bolts}
    if feels.decides:
        told |= {"edge_raises": raised, "clearance_hole": hole}
        most = feels.most(thickness, 2)
        felt = notch.hole_pulled(hole / 2, feels.length) * raised
        middle_holes = max(
            middle_holes, min(most, notch.hole_stretched(max(throats) / 2, feels.length))
        )
        rim_holes = max(rim_holes, min(most, felt))
    return _Head(
        bolts, ring, thickness, poisson,
        6 * flange.middle_moment(1.0, bolts, ring, poisson) / thickness**2,
        6 * flange.rim_moment(1.0, bolts, ring, poisson) / thickness**2,
        feels, middle_holes, rim_holes,
        {"head.fasteners.circle_diameter": 2 * bolts,
         "gasket.inside_diameter": seal.inside_diameter, "gasket.width": seal.width,
         "head.thickness": head.thickness, "poisson": poisson,
         "valves.inlet.throat_diameter": throats[0],
         "valves.exhaust.throat_diameter": throats[1], **told, **feels.inputs},
        _BRITTLE if feels.decides else _DUCTILE,
    )  # fmt: skip


def _edge_raises(hole: float, strip: float) -> float:
    """What the head's edge beside a bolt hole adds to a hole in a wide plate: Peterson's strip."""
    return stress_concentration.hole_in_strip(hole, strip) / (1 - hole / strip) / 3


def _gentler(moment: Moment) -> Raise:
    torque = newton_metre(0.7 * moment.parts.head.fasteners.torque)
    return Raise(f"Tighten to {torque}", {"head.fasteners.torque": torque}, "retighten")


def _sturdier(moment: Moment) -> tuple[Raise, ...]:
    if not is_plastic(moment) or has_plate(moment):
        return thicker(moment)
    metal = Raise("Make the head of aluminium",
                  {"head.material": "aluminium_6061_t6", "head.made": "bought"},
                  "machined_head")  # fmt: skip
    return *thicker(moment), metal


JUDGEMENTS = (cracks_tight, cracks)
