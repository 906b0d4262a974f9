"""The crankcase between head bolts and main bearings: gas pulls it apart along the bore.

Gas pushes the head up and the piston down: bolts lead the one, bearings the other into the case,
and its walls hold both together.
"""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math
from firstfire.formulas import notch, rod_eye
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, notched, raising, strength, warmth
from firstfire.parts.events import GAS, TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE
from firstfire.parts.worked import case as worked

_NARROWEST = 0.15
TEARS = Failure(
    id="case.tear",
    part="crankcase",
    failure="is torn between head bolts and bearings",
    unit="Pa",
    formula=(
        "largest bearing force/((width of the case - bearing's outside) × wall) × what the "
        "bearing's hole raises as brittle material feels it, against strength along the bore"
    ),
    source=f"equilibrium; hole: Roark 7, Table 17.1 (from memory); {notched.SOURCE}",
    hazard=True,
    shared=True,
    during=GAS | TURNING,
    demand_is="pull at the hole's edge, as felt",
    capacity_is="its strength here and now",
    examples=worked.TEARS,
)


@judges(TEARS)
def tears(moment: Moment) -> Way:
    """Pull of one bearing through the case's wall that holds it."""
    crank, case = moment.engine.crank, moment.engine.case
    force = max((float(one.max()) for one in moment.loads.main_bearings), default=0.0)
    if force <= 0:
        raise OutsideValidity("No force on the main bearings is known.")
    force, width = moment.given("bearing_force", force), _width(moment)
    if crank.main_bearing_outside > 0.75 * width:
        raise OutsideValidity(
            f"A bearing of {crank.main_bearing_outside * 1e3:.3g} mm leaves too little of a case "
            f"{width * 1e3:.3g} mm wide for the law of a hole in a strip."
        )
    feels = notched.notched(moment, case, pull=ALONG_BORE, thickness=case.wall)
    stress = rod_eye.net_stress(force, crank.main_bearing_outside, width, case.wall)
    yields = "" if feels.decides else ": it yields before it cracks"
    stress = found("stress", stress, "Pa", f"pull beside the bearing{yields}")
    felt = _felt(moment, feels, width) if feels.decides else 1.0
    material, warm_at = moment.engine.materials[case.material], warmth.mean(moment, "case")
    bears = strength.of(
        moment, case, pull=ALONG_BORE, warm=strength_left(material, warm_at),
        section=pulled_share(case, case.wall),
    )  # fmt: skip
    return TEARS.way(
        moment,
        demand=stress * felt,
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=_sturdier(moment, feels, felt),
    )  # fmt: skip


def _loaded(ident: str, part: str, failure: str, *, hazard: bool = False) -> Failure:
    return Failure(id=ident, part=part, failure=failure, unit="N", formula="force through it",
                   source="none", hazard=hazard, shared=True,
                   during=GAS)  # fmt: skip


case_flange = not_judged(
    _loaded("case.flange.break", "crankcase", "breaks at its flange under the bolts",
            hazard=True),
    "The file has no size of the flange that the head's long bolts, or the foot's screws, pull on. "
    "Make it as thick as the head.",
)  # fmt: skip
case_joint = not_judged(
    _loaded("case.joint.open", "crankcase", "opens at the joint of its halves"),
    "The file does not say what holds the halves of the case together.",
)  # fmt: skip
mount = not_judged(
    _loaded("case.mount.break", "crankcase", "breaks or shakes loose at its mount"),
    "The file does not say how the engine is held down, nor by what: shaking force and the load's "
    "torque go through it.",
)  # fmt: skip


def _width(moment: Moment) -> float:
    """Width of the wall that holds a bearing, m, as far as the law of a hole in a strip reaches."""
    crank, parts = moment.engine.crank, moment.parts
    pin = crank.crankpin_diameter / 2 + parts.rod.eye_wall
    turns_in = parts.cylinder.stroke / 2 + math.most(pin, crank.cheek_width / 2)
    turns_in = found("turns_in", turns_in, "m", "radius of what turns in the case")
    room = moment.given("case_room", assumed.CASE_ROOM)
    width = math.least(2 * (turns_in + room + moment.engine.case.wall),
                       crank.main_bearing_outside / _NARROWEST)  # fmt: skip
    return found("width", width, "m", "width of the wall that holds a bearing")


def _felt(moment: Moment, feels: notched.Notched, width: float) -> float:
    """What the bearing's hole raises, as brittle material feels it."""
    hole, wall = moment.engine.crank.main_bearing_outside, moment.engine.case.wall
    peak = found("peak", rod_eye.peak_factor(hole, width), "",
                 "what its hole raises, at its very edge")  # fmt: skip
    felt = math.least(feels.most(wall, 1), notch.notch_felt(peak, hole / 2, feels.length))
    return found("felt", felt, "", "what it raises as felt")


def _sturdier(moment: Moment, feels: notched.Notched, felt: float) -> tuple[Raise, ...]:
    case = moment.engine.case
    raised = []
    # Up to where a notch is felt in full, a thicker wall that cracks bears no more.
    if 1.5 * case.wall <= feels.yields_below or felt < 0.99 * feels.most(case.wall, 1):
        raised.append(raising.thicker("case.wall", case.wall, "the case's wall {} thick",
                                      "reprint_crankcase", times=1.5))  # fmt: skip
    if case.made == "printed" and case.layers_stacked == "along_bore":
        raised.append(Raise("Print the case so that no layer is pulled from the next",
                            {"case.layers_stacked": "along_crank"},
                            "reprint_crankcase"))  # fmt: skip
    more = raising.other_plastic(
        "case.material", moment.engine.materials[case.material], "crankcase", "strength_in_plane",
        "reprint_crankcase",
    )  # fmt: skip
    return (*raised, *more)


JUDGEMENTS = (tears, case_flange, case_joint, mount)
