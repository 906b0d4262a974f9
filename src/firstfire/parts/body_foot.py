"""A body that carries the head's pull: cracked along its foot, split round the head's screws."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import bolt, flange, notch
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, notched, raising, strength, warmth
from firstfire.parts.events import GAS, TIGHTENING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.head_joint import HeadJoint, head_joint, hole_in_body
from firstfire.parts.liner import ends_in_body
from firstfire.parts.section import bent_share, pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ROUND_THE_BORE
from firstfire.parts.worked import body_foot as worked
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
    demand_is="stress in the corner, as felt",
    capacity_is="its strength here and now",
    examples=worked.FOOT_CRACKS,
)

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
    demand_is="stress at a groove, as felt",
    capacity_is="its strength here and now",
    examples=worked.BOSS_SPLITS,
)


@judges(FOOT_CRACKS, where=ends_in_body)
def foot_cracks(moment: Moment) -> Way:
    """Bending of the foot between its screws and the wall that the gas pulls off them."""
    body, foot = moment.parts.body, moment.parts.body.foot
    material = moment.engine.materials[body.material]
    feels = notched.notched(moment, body, pull=ROUND_THE_BORE, thickness=foot.thickness)
    stress = 6 / foot.thickness**2 * flange.foot_moment(
        head_joint(moment).gas_force, foot.circle_diameter / 2, body.outside_diameter / 2,
        moment.given("poisson", material["poisson"]),
    )  # fmt: skip
    yields = "" if feels.decides else ": it yields before its corner cracks"
    stress = found("stress", stress, "Pa", f"bending at the foot's root{yields}")
    felt = _corner_felt(moment, feels) if feels.decides else 1.0
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
    )


@judges(BOSS_SPLITS, where=ends_in_body)
def boss_splits(moment: Moment) -> Way:
    """Wedging of a screw's flanks, or of an insert's, in what stands round its hole.

    What stresses melting an insert in leaves behind are not known and not in it.
    """
    body, load = moment.parts.body, _largest_pull(moment, head_joint(moment))
    hole, length = hole_in_body(moment)
    boss = _boss(moment, hole)
    wall = (boss - hole) / 2
    feels = notched.notched(moment, body, pull=ROUND_THE_BORE, thickness=wall)
    felt = _groove_felt(moment, feels, wall) if feels.decides else 1.0
    hoop = flange.thread_hoop(load, hole, length, boss, flank_tangent=_flanks(moment))
    warm_at = warmth.mean(moment, "body")
    bears = strength.of(
        moment, body, pull=ROUND_THE_BORE, load="lasting", section=pulled_share(body, wall),
        warm=strength_left(moment.engine.materials[body.material], warm_at),
    )  # fmt: skip
    return BOSS_SPLITS.way(
        moment,
        demand=felt * found("hoop", hoop, "Pa", "pull round the hole"),
        capacity=bears.value,
        governs="notch" if felt > 1.0 and bears.governs == "strength" else bears.governs,
        temperature=warm_at,
        raise_by=_gentler_screws(moment),
    )


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


def _corner_felt(moment: Moment, feels: notched.Notched) -> float:
    """What the foot's corner raises, as brittle material feels it."""
    foot = moment.parts.body.foot
    corner = found("corner", notch.corner_in_bending(foot.fillet, foot.thickness), "",
                   "what the corner raises it by, at its very edge")  # fmt: skip
    felt = math.least(
        feels.most(foot.thickness, 2), notch.notch_felt(corner, foot.fillet, feels.length)
    )
    return found("corner_felt", felt, "", "what it raises as felt")


def _boss(moment: Moment, hole: float) -> float:
    """What stands round a screw's hole, as a disc: its diameter, m, to the nearest edge.

    Raises
    ------
    OutsideValidity
        If hardly anything does.
    """
    parts, circle = moment.parts, moment.parts.head.fasteners.circle_diameter
    outside = math.most(parts.head.diameter, parts.body.outside_diameter)
    boss = 2 * math.least((outside - circle) / 2, (circle - parts.liner.outside_diameter) / 2)
    if boss <= 1.02 * hole:
        raise OutsideValidity(
            f"The head's screws stand at the very edge of the body: {boss / 2 * 1e3:.3g} mm from "
            f"their middle, of a hole of {hole * 1e3:.3g} mm. No law holds for so little."
        )
    return found("boss_outside", boss, "m", "what stands round the hole, as a disc")


def _largest_pull(moment: Moment, joint: HeadJoint) -> float:
    """Largest pull of one screw, N: as tightened, or at the peak of the gas."""
    if moment.event == "overtighten":
        return joint.tightened
    under_gas = bolt.bolt_load(joint.left, joint.gas_force / joint.number, joint.share)
    most = math.most(joint.tightened, under_gas)
    return found("load_each", most, "N", "largest pull of one fastener")


def _flanks(moment: Moment) -> float:
    return moment.given("flank_tangent", flange.FLANK_TANGENT)


def _groove_felt(moment: Moment, feels: notched.Notched, wall: float) -> float:
    """What the grooves of a knurl raise, as brittle material feels them."""
    root = moment.given("groove_root", assumed.KNURL_ROOT)
    sharp = 1 + 2 * math.sqrt(moment.given("groove_depth", assumed.KNURL_DEPTH) / root)
    sharp = found("groove", sharp, "", "what a groove raises, at its very root")
    felt = math.least(feels.most(wall, 1), notch.notch_felt(sharp, root, feels.length))
    return found("groove_felt", felt, "", "what the grooves raise as felt")


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
