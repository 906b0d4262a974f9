"""The head bent between its bolts and its gasket, cracked at its holes: tightened, and under gas.

Bolts press the head on a ring that lies inside their circle, so that it bends before any gas does.
"""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import bolt, flange, notch, plate, stress_concentration
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import notched, rows, strength, warmth
from firstfire.parts.events import GAS, TIGHTENING
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head import (
    counted_thickness,
    has_plate,
    is_plastic,
    left_by_valves,
    material_of,
    poisson_of,
    support_radius,
    thicker,
)
from firstfire.parts.head_joint import (
    HeadJoint,
    gas_over_air,
    head_joint,
    tightened_preload,
)
from firstfire.parts.once import once
from firstfire.parts.section import bent_share, folded_share
from firstfire.parts.strength import ROUND_THE_BORE
from firstfire.parts.worked import head_notch as worked
from firstfire.parts.written import newton_metre

_PLATE_SOURCE = (
    "Roark 7, Table 11.2, case 9a; Timoshenko, Theory of Plates and Shells, 2nd ed., section 16; "
    f"{notched.SOURCE}; holes: Whitney, Nuismer, J. Composite Materials 8 (1974) 253"
)

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
    demand_is="worse of middle and bolts",
    capacity_is="its strength here and now",
    examples=worked.CRACKS_TIGHT,
)
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
    demand_is="worse of middle and bolts, steady part by Goodman",
    capacity_is="its strength here and now",
    examples=worked.CRACKS,
)


class _Head(NamedTuple):
    """Shape of the head as a plate, and how it feels its holes.

    Attributes
    ----------
    bolts, ring, thickness, poisson
        Radii, m, thickness that counts, m, and Poisson's ratio.
    middle_each, rim_each
        Bending stress for each N of pull, 1/m².
    middle_holes, rim_holes
        What its holes raise.
    """

    bolts: float
    ring: float
    thickness: float
    poisson: float
    middle_each: float
    rim_each: float
    middle_holes: float
    rim_holes: float


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
    shape, head = _head(moment), moment.parts.head
    count = moment.given("head.fasteners.count", head.fasteners.count)
    pressed = found("pressed_on", count * tightened_preload(moment), "N", "pull of all fasteners")
    bears = strength.of(
        moment, head, pull=ROUND_THE_BORE, warm=1.0, load="lasting",
        section=bent_share(head, counted_thickness(moment)),
    )  # fmt: skip
    return CRACKS_TIGHT.way(
        moment,
        demand=pressed * math.most(
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
    steady = joint.number * joint.left
    steady = found("steady_pull", steady, "N", "pull of all fasteners, without gas")
    middle, rim = _swings(moment, shape, joint, steady)
    counts = moment.given("steady_counts", bears.shares.get("fatigue", 1.0))
    return CRACKS.way(
        moment,
        demand=math.most(
            (middle + counts * steady * shape.middle_each) * shape.middle_holes,
            (rim + counts * steady * shape.rim_each) * shape.rim_holes,
        ),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warmth.mean(moment, "head"),
        raise_by=_sturdier(moment),
    )


def _swings(moment: Moment, shape: _Head, joint: HeadJoint, steady: float) -> tuple[float, float]:
    """Swing of stress by the gas, in the middle and at the bolts, Pa: it eases the ring's press."""
    each = bolt.bolt_load(joint.left, joint.gas_force / joint.number, joint.share)
    each = found("load_each", each, "N", "pull at the peak of the gas, of one fastener")
    pressing = math.most(joint.number * each - joint.gas_force, 0.0)
    pressing = found("ring_left", pressing, "N", "what still presses on the ring at the peak")
    eased = pressing - steady
    middle = plate.supported_centre_stress(
        gas_over_air(moment), shape.bolts, shape.thickness, shape.poisson, loaded_radius=shape.ring
    )
    middle = found("gas_middle", middle, "Pa", "bending by gas in the middle")
    rim = 6 * flange.rim_moment(joint.gas_force, shape.bolts, shape.ring / math.sqrt(2),
                                shape.poisson) / shape.thickness**2  # fmt: skip
    rim = found("gas_rim", rim, "Pa", "bending by gas at the bolts")
    return (
        found("middle_swing", math.most(middle + eased * shape.middle_each, 0.0), "Pa",
              "swing in the middle"),
        found("rim_swing", math.most(rim + eased * shape.rim_each, 0.0), "Pa",
              "swing at the bolts"),
    )  # fmt: skip


@once
def _head(moment: Moment) -> _Head:
    seal, bolts, poisson = moment.parts.gasket, support_radius(moment), poisson_of(moment)
    ring = found("seal_radius", (seal.inside_diameter + seal.width) / 2, "m",
                 "radius of the ring it is pressed on")  # fmt: skip
    thickness = counted_thickness(moment)
    middle = 6 * flange.middle_moment(1.0, bolts, ring, poisson) / thickness**2
    rim = 6 * flange.rim_moment(1.0, bolts, ring, poisson) / thickness**2
    middle_holes, rim_holes = _holes(moment, bolts, thickness)
    return _Head(
        bolts, ring, thickness, poisson,
        found("middle_each", middle, "1/m^2", "bending in the middle, for each N of pull"),
        found("rim_each", rim, "1/m^2", "bending at the bolts, for each N of pull"),
        middle_holes, rim_holes,
    )  # fmt: skip


def _holes(moment: Moment, bolts: float, thickness: float) -> tuple[float, float]:
    """What valve holes raise in the middle, and bolt holes at the rim."""
    head = moment.parts.head
    feels = notched.notched(moment, head, pull=ROUND_THE_BORE, thickness=thickness)
    hole = moment.given("clearance_hole", rows.thread(head.fasteners.thread).clearance_hole)
    edge = found("edge_strip", math.most(head.diameter - 2 * bolts, 1.2 * hole), "m",
                 "strip between the bolts and the head's edge")  # fmt: skip
    at_bolts = found("share_left_at_bolts", 1 - hole / edge, "",
                     "share of the section that a bolt hole leaves")  # fmt: skip
    middle, rim, how = 1 / left_by_valves(moment), 1 / at_bolts, "it yields before it cracks"
    if feels.decides:
        middle, rim = _felt(moment, feels, thickness, (middle, rim), (hole, edge, at_bolts))
        how = "as felt"
    joined = ", " if feels.decides else ": "
    return (
        found("middle_holes", middle, "", f"what the valve holes raise it by{joined}{how}"),
        found("rim_holes", rim, "", f"what a bolt hole raises it by{joined}{how}"),
    )


def _felt(
    moment: Moment,
    feels: notched.Notched,
    thickness: float,
    at_least: tuple[float, float],
    bolt_hole: tuple[float, float, float],
) -> tuple[float, float]:
    """As brittle material feels them, at least what they take of the section.

    A bolt hole is given with the strip it lies in, m, and the share of it that it leaves.
    """
    valves, hole = moment.parts.valves, bolt_hole[0]
    most = feels.most(thickness, 2)
    largest = math.most(valves.inlet.throat_diameter, valves.exhaust.throat_diameter)
    largest = found("largest_hole", largest, "m", "larger valve hole")
    stretched = notch.hole_stretched(largest / 2, feels.length)
    pulled = notch.hole_pulled(hole / 2, feels.length) * _edge_raises(*bolt_hole)
    return (
        math.most(at_least[0], math.least(most, stretched)),
        math.most(at_least[1], math.least(most, pulled)),
    )


def _edge_raises(hole: float, strip: float, left: float) -> float:
    """What the head's edge beside a bolt hole adds to a hole in a wide plate: Peterson's strip."""
    raised = stress_concentration.hole_in_strip(hole, strip) / left / 3
    return found("edge_raises", raised, "", "what the edge beside a bolt hole adds")


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
