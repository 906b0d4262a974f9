"""A body that carries the head's pull: cracked along its foot, split round the head's screws."""

from __future__ import annotations

import math

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import bolt, flange, notch
from firstfire.parts import assumed, notched, raising, strength, warmth
from firstfire.parts.events import GAS, TIGHTENING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.head_joint import (
    head_joint,
    hole_in_body,
)
from firstfire.parts.liner import ends_in_body
from firstfire.parts.lines import STRENGTH
from firstfire.parts.section import bent_share, pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ROUND_THE_BORE
from firstfire.parts.written import mm, newton_metre

FOOT_CRACKS = Failure(
    id="body.foot.crack",
    part="body round the liner",
    failure="cracks along its foot",
    unit="Pa",
    formula=(
        "6/thickness² × gas force/2π × ((1+ν)/2 ln(screws' radius/wall's radius) + (1-ν)/4 (1 - "
        "wall's²/screws'²))/(½ (1 + ν + (1 - ν) wall's²/screws'²)) × what the corner raises as "
        "brittle material feels it, against strength"
    ),
    source=(
        "Roark 7, Table 11.2, case 1b; corner: Peterson, fit of Norton, Machine Design, appendix "
        f"C; {notched.SOURCE}; Creager, Paris, Int. J. Fracture Mechanics 3 (1967) 247"
    ),
    hazard=True,
    during=GAS,
    working=(
            Line("share", "body.outside_diameter / body.foot.circle_diameter", "",
             "wall's radius over the screws'"),
        Line("bracket",
             "((1 + poisson) / 2 * log(1 / share) + (1 - poisson) / 4 * (1 - share**2)) / ((1 + "
             "poisson + (1 - poisson) * share**2) / 2)", "",
             "what the plate's law makes of it (natural logarithm)"),
        Line("stress", "6 * gas_force / (2 * pi) * bracket / body.foot.thickness**2", "Pa",
             "bending at the foot's root"),
    ),
)  # fmt: skip
_SHARP = (
    Line("corner",
         "0.9072 * max(body.foot.fillet / body.foot.thickness, 0.01)**(-0.33333)", "",
         "what the corner raises it by, at its very edge"),
    Line("corner_share", "body.foot.fillet / (body.foot.fillet + notch_length)", "",
         "nearness to that edge"),
    Line("most", "max(1, body.foot.thickness / yields_below)**2", "",
         "most that it may raise: no weaker than a thinner foot that yields"),
    Line("corner_felt",
         "min(most, max(1, corner * sqrt(corner_share) * (1 + corner_share) / 2))", "",
         "what it raises as felt"),
    Line("demand", "stress * corner_felt", "Pa", "stress in the corner, as felt"),
    STRENGTH,
)  # fmt: skip
_BLUNT = (
    Line("demand", "stress", "Pa", "stress at the root: it yields before its corner cracks"),
    STRENGTH,
)  # fmt: skip
BOSS_SPLITS = Failure(
    id="body.boss.split",
    part="body round the liner",
    failure="splits round a head screw",
    unit="Pa",
    formula=(
        "screw's pull × tan 30°/(π × hole × length of thread) × (boss² + hole²)/(boss² - hole²) × "
        "what a knurl raises as brittle material feels it, against strength; boss: to the nearest "
        "edge"
    ),
    source=f"equilibrium of 60° flanks; Lamé: Shigley 9, Eq. 3-50; {notched.SOURCE}",
    during=GAS | TIGHTENING,
)  # fmt: skip
_PULL = (
    Line("load_each",
         "max(preload, preload_left + load_share * gas_force / head.fasteners.count, gas_force / "
         "head.fasteners.count)", "N", "largest pull of one fastener"),
)  # fmt: skip
_TIGHT = (Line("load_each", "preload", "N", "pull as tightened, of one fastener"),)
_WEDGED = (
    Line("boss_outside",
         "2 * min((max(head.diameter, body.outside_diameter) - head.fasteners.circle_diameter) / "
         "2, (head.fasteners.circle_diameter - liner.outside_diameter) / 2)", "m",
         "what stands round the hole, as a disc"),
    Line("wedged", "load_each * flank_tangent / (pi * hole * thread_length)", "Pa",
         "pressure by which the flanks wedge it open"),
    Line("hoop", "wedged * (boss_outside**2 + hole**2) / (boss_outside**2 - hole**2)", "Pa",
         "pull round the hole"),
)  # fmt: skip
_KNURLED = (
    Line("groove_share", "groove_root / (groove_root + notch_length)", "",
         "nearness to a groove's root"),
    Line("most", "max(1, (boss_outside - hole) / 2 / yields_below)", "",
         "most that they may raise: no weaker than a thinner wall that yields"),
    Line("groove_felt",
         "min(most, max(1, (1 + 2 * sqrt(groove_depth / groove_root)) * sqrt(groove_share) * (1 + "
         "groove_share) / 2))", "", "what the grooves raise as felt"),
    Line("demand", "hoop * groove_felt", "Pa", "stress at a groove, as felt"),
    STRENGTH,
)  # fmt: skip
_SMOOTH = (Line("demand", "hoop", "Pa", "pull round the hole"), STRENGTH)


@judges(FOOT_CRACKS, where=ends_in_body)
def foot_cracks(moment: Moment) -> Way:
    """Bending of the foot between its screws and the wall that the gas pulls off them."""
    body, foot, joint = moment.parts.body, moment.parts.body.foot, head_joint(moment)
    material = moment.engine.materials[body.material]
    feels = notched.notched(moment, body, pull=ROUND_THE_BORE, thickness=foot.thickness)
    stress = 6 / foot.thickness**2 * flange.foot_moment(
        joint.gas_force, foot.circle_diameter / 2, body.outside_diameter / 2, material["poisson"]
    )  # fmt: skip
    felt = 1.0
    if feels.decides:
        corner = notch.corner_in_bending(foot.fillet, foot.thickness)
        felt = min(
            feels.most(foot.thickness, 2), notch.notch_felt(corner, foot.fillet, feels.length)
        )
    warm_at = warmth.outer_face(moment, "body")
    bears = strength.of(
        moment, body, pull=ROUND_THE_BORE, warm=strength_left(material, warm_at),
        section=bent_share(body, foot.thickness),
    )  # fmt: skip
    return FOOT_CRACKS.way(
        moment,
        demand=stress * felt,
        capacity=bears.value,
        governs="notch" if felt > 1.0 and bears.governs == "strength" else bears.governs,
        temperature=warm_at,
        raise_by=_stouter_foot(moment, sharp=felt > 1.0),
    )  # fmt: skip


@judges(BOSS_SPLITS, where=ends_in_body)
def boss_splits(moment: Moment) -> Way:
    """Wedging of a screw's flanks, or of an insert's, in what stands round its hole.

    What stresses melting an insert in leaves behind are not known and not in it.
    """
    parts, joint = moment.parts, head_joint(moment)
    body, circle = parts.body, parts.head.fasteners.circle_diameter
    hole, length = hole_in_body(moment)
    boss = 2 * min((max(parts.head.diameter, body.outside_diameter) - circle) / 2,
                   (circle - parts.liner.outside_diameter) / 2)  # fmt: skip
    if boss <= 1.02 * hole:
        raise OutsideValidity(
            f"The head's screws stand at the very edge of the body: {boss / 2 * 1e3:.3g} mm from "
            f"their middle, of a hole of {hole * 1e3:.3g} mm. No law holds for so little."
        )
    feels = notched.notched(moment, body, pull=ROUND_THE_BORE, thickness=(boss - hole) / 2)
    felt = 1.0
    if feels.decides:
        felt = min(feels.most((boss - hole) / 2, 1), _groove_felt(feels.length))
    tight = moment.event == "overtighten"
    gas = joint.gas_force / joint.number
    load = joint.tightened if tight else max(
        joint.tightened, bolt.bolt_load(joint.left, gas, joint.share)
    )  # fmt: skip
    warm_at = warmth.mean(moment, "body")
    bears = strength.of(
        moment, body, pull=ROUND_THE_BORE, load="lasting",
        section=pulled_share(body, (boss - hole) / 2),
        warm=strength_left(moment.engine.materials[body.material], warm_at),
    )  # fmt: skip
    return BOSS_SPLITS.way(
        moment,
        demand=felt * flange.thread_hoop(load, hole, length, boss),
        capacity=bears.value,
        governs="notch" if felt > 1.0 and bears.governs == "strength" else bears.governs,
        temperature=warm_at,
        raise_by=_gentler_screws(moment),
    )  # fmt: skip


FOOT_HOLDS = Failure(
    id="body.foot.hold",
    part="body round the liner",
    failure="comes off the case by its foot's screws",
    unit="N",
    formula="pull of the foot's screws",
    source="none",
    hazard=True,
    during=GAS,
)
foot_holds = not_judged(
    FOOT_HOLDS,
    "The file does not say which screws hold the body's foot, nor what they are screwed into. All "
    "together they feel the gas force on the head, as its own do.",
    where=ends_in_body,
)


def _groove_felt(length: float) -> float:
    sharp = 1 + 2 * math.sqrt(assumed.KNURL_DEPTH / assumed.KNURL_ROOT)
    return notch.notch_felt(sharp, assumed.KNURL_ROOT, length)


def _stouter_foot(moment: Moment, *, sharp: bool) -> tuple[Raise, ...]:
    body = moment.parts.body
    foot, material = body.foot, moment.engine.materials[body.material]
    through = Raise("Hold the head by long through-bolts to the crankcase",
                    {"head.fasteners.kind": "through_bolts"}, "through_bolts")  # fmt: skip
    rounded = mm(max(2 * foot.fillet, 0.2 * foot.thickness), 0.1)
    raised = [raising.thicker("body.foot.thickness", foot.thickness, "the foot {} thick",
                              "reprint_body", times=1.5)]  # fmt: skip
    if sharp and max(2 * foot.fillet, 0.2 * foot.thickness) < 0.28 * foot.thickness:
        raised.append(Raise(f"Round the foot's corner by {rounded}", {"body.foot.fillet": rounded},
                            "reprint_body"))  # fmt: skip
    more = raising.other_plastic("body.material", material, "body", "strength_in_plane",
                                 "reprint_body")  # fmt: skip
    return (*raised, through, *more)


def _gentler_screws(moment: Moment) -> tuple[Raise, ...]:
    torque = newton_metre(0.7 * moment.parts.head.fasteners.torque)
    through = Raise("Hold the head by long through-bolts to the crankcase",
                    {"head.fasteners.kind": "through_bolts"}, "through_bolts")  # fmt: skip
    return Raise(f"Tighten to {torque}", {"head.fasteners.torque": torque}, "retighten"), through


JUDGEMENTS = (foot_cracks, boss_splits, foot_holds)
