"""Spring retainers and tappets of the valves: small parts that may be of plastic."""

from __future__ import annotations

from collections.abc import Callable

from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, Judgement, judges, not_judged
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.worked import valve_gear as worked

_EXAMPLES = {
    "inlet": (worked.INLET_OF_PLASTIC, worked.INLET_OF_METAL),
    "exhaust": (worked.EXHAUST_OF_PLASTIC,),
}


def _pulls_through(which: str) -> Failure:
    return Failure(
        id=f"valves.{which}.retainer",
        part=f"{which} valve",
        failure="pulls its stem through the spring retainer",
        unit="Pa",
        formula=(
            "spring force at full lift/(π × stem × height), against the warm retainer's shear "
            "strength; a retainer is taken 1.5 stems high"
        ),
        source="shear on the collet's circle; height common practice, no source",
        during=TURNING,
        demand_is="shear round the collets",
        examples=_EXAMPLES[which],
    )


def _retainer(which: str) -> Judgement:
    failure = _pulls_through(which)

    @judges(failure)
    def pulls_through(moment: Moment) -> Way:
        """Spring force at full lift in shear through the retainer."""
        valve = getattr(moment.parts.valves, which)
        material = moment.engine.materials[valve.retainer_material]
        warm_at = max(warmth.outer_face(moment, "head"), warmth.ambient(moment))
        bears = strength.of_material(moment, material, warm=strength_left(material, warm_at))
        force = found("spring_force", valve.spring_preload + valve.spring_rate * valve.lift, "N",
                      "spring force at full lift")  # fmt: skip
        height = moment.given("retainer_height", assumed.RETAINER_HEIGHT)
        return failure.way(
            moment,
            demand=force / (math.pi * valve.stem_diameter * height * valve.stem_diameter),
            capacity=strength.shear(material, bears),
            governs=bears.governs,
            temperature=warm_at,
            raise_by=raising.other_plastic(f"valves.{which}.retainer_material", material,
                                           "retainer", "strength_in_plane", "other_material"),
        )  # fmt: skip

    return pulls_through


def _tappet(which: str) -> Judgement:
    wears = Failure(
        id=f"valves.{which}.tappet",
        part=f"{which} valve",
        failure="loses its tappet to wear under the cam",
        unit="m",
        formula="wear of a plastic under a sliding cam",
        source="none",
        during=TURNING,
    )
    return not_judged(
        wears,
        "how a plastic tappet wears under its cam is not modelled, and no file says how wide it is",
        _of_plastic(which),
    )


def _of_plastic(which: str) -> Callable[[Moment], bool]:
    def plastic(moment: Moment) -> bool:
        key = getattr(moment.parts.valves, which).tappet_material
        return not is_metal(moment.engine.materials[key])

    return plastic


JUDGEMENTS = tuple(make(which) for make in (_retainer, _tappet) for which in ("inlet", "exhaust"))
"""What `firstfire.parts.all` lists."""
