"""The crankcase between head bolts and main bearings: gas pulls it apart along the bore.

Gas pushes the head up and the piston down: bolts lead the one, bearings the other into the case,
and its walls hold both together.
"""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import notch, rod_eye
from firstfire.parts import assumed, notched, raising, strength, warmth
from firstfire.parts.events import GAS, TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.lines import STRENGTH
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE

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
    working=(
        Line("turns_in", "cylinder.stroke / 2 + max(crank.crankpin_diameter / 2 + rod.eye_wall, "
             "crank.cheek_width / 2)", "m", "radius of what turns in the case"),
        Line("width", "min(2 * (turns_in + case_room + case.wall), crank.main_bearing_outside / "
             "0.15)", "m", "width of the wall that holds a bearing"),
        Line("stress", "bearing_force / ((width - crank.main_bearing_outside) * case.wall)", "Pa",
             "pull beside the bearing"),
    ),
)  # fmt: skip
_FELT = (
    Line("hole_share", "crank.main_bearing_outside / width", "", "bearing over that width"),
    Line("peak", "12.882 - 52.714 * hole_share + 89.762 * hole_share**2 - 51.667 * hole_share**3",
         "", "what its hole raises, at its very edge"),
    Line("edge_share",
         "crank.main_bearing_outside / 2 / (crank.main_bearing_outside / 2 + notch_length)", "",
         "nearness to that edge"),
    Line("most", "max(1, case.wall / yields_below)", "",
         "most that it may raise: no weaker than a thinner wall that yields"),
    Line("felt", "min(most, max(1, peak * sqrt(edge_share) * (1 + edge_share) / 2))", "",
         "what it raises as felt"),
    Line("demand", "stress * felt", "Pa", "pull at the hole's edge, as felt"),
    STRENGTH,
)  # fmt: skip
_NET = (
    Line("demand", "stress", "Pa", "pull beside the bearing: it yields before it cracks"),
    STRENGTH,
)


@judges(TEARS)
def tears(moment: Moment) -> Way:
    """Pull of one bearing through the case's wall that holds it."""
    engine, parts = moment.engine, moment.parts
    crank, case = engine.crank, engine.case
    force = max((float(one.max()) for one in moment.loads.main_bearings), default=0.0)
    if force <= 0:
        raise OutsideValidity("No force on the main bearings is known.")
    width = min(2 * (_turns_in(moment) + assumed.CASE_ROOM + case.wall),
                crank.main_bearing_outside / _NARROWEST)  # fmt: skip
    if crank.main_bearing_outside > 0.75 * width:
        raise OutsideValidity(
            f"A bearing of {crank.main_bearing_outside * 1e3:.3g} mm leaves too little of a case "
            f"{width * 1e3:.3g} mm wide for the law of a hole in a strip."
        )
    stress = rod_eye.net_stress(force, crank.main_bearing_outside, width, case.wall)
    feels = notched.notched(moment, case, pull=ALONG_BORE, thickness=case.wall)
    felt = 1.0
    if feels.decides:
        peak = rod_eye.peak_factor(crank.main_bearing_outside, width)
        felt = min(
            feels.most(case.wall, 1),
            notch.notch_felt(peak, crank.main_bearing_outside / 2, feels.length),
        )
    material, warm_at = engine.materials[case.material], warmth.mean(moment, "case")
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
        inputs={"bearing_force": force, "cylinder.stroke": parts.cylinder.stroke,
                "crank.crankpin_diameter": crank.crankpin_diameter,
                "rod.eye_wall": parts.rod.eye_wall, "crank.cheek_width": crank.cheek_width,
                "case_room": assumed.CASE_ROOM, "case.wall": case.wall,
                "crank.main_bearing_outside": crank.main_bearing_outside, **feels.inputs,
                **bears.inputs},
        first=(*feels.first, *bears.line),
        working=(*TEARS.working, *(_FELT if feels.decides else _NET)),
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


def _turns_in(moment: Moment) -> float:
    crank, parts = moment.engine.crank, moment.parts
    pin = crank.crankpin_diameter / 2 + parts.rod.eye_wall
    return parts.cylinder.stroke / 2 + max(pin, crank.cheek_width / 2)


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
