"""Spring retainers and tappets of the valves: small parts that may be of plastic."""

from __future__ import annotations

import math
from collections.abc import Callable

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Way
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, Judgement, judges, not_judged
from firstfire.parts.softness import is_metal, strength_left


def _pulls_through(which: str) -> Failure:
    here = f"valves.{which}"
    return Failure(
        id=f"{here}.retainer",
        part=f"{which} valve",
        failure="pulls its stem through the spring retainer",
        unit="Pa",
        formula=(
            "spring force at full lift/(π × stem × height), against the warm retainer's shear "
            "strength; a retainer is taken 1.5 stems high"
        ),
        source="shear on the collet's circle; height common practice, no source",
        during=TURNING,
        working=(
            strength.SHEAR,
            Line("spring_force", f"{here}.spring_preload + {here}.spring_rate * {here}.lift", "N",
                 "spring force at full lift"),
            Line("demand",
                 f"spring_force / (pi * {here}.stem_diameter * retainer_height * "
                 f"{here}.stem_diameter)", "Pa", "shear round the collets"),
            Line("capacity", "shear_strength", "Pa", "what it bears"),
        ),
    )  # fmt: skip


def _retainer(which: str) -> Judgement:
    failure = _pulls_through(which)

    @judges(failure)
    def pulls_through(moment: Moment) -> Way:
        """Spring force at full lift in shear through the retainer."""
        valve = getattr(moment.parts.valves, which)
        material = moment.engine.materials[valve.retainer_material]
        warm_at = max(warmth.outer_face(moment, "head"), warmth.ambient(moment))
        bears = strength.of_material(moment, material, warm=strength_left(material, warm_at))
        force = valve.spring_preload + valve.spring_rate * valve.lift
        height = assumed.RETAINER_HEIGHT
        here = f"valves.{which}"
        return failure.way(
            moment,
            demand=force / (math.pi * valve.stem_diameter * height * valve.stem_diameter),
            capacity=strength.shear(material, bears),
            governs=bears.governs,
            temperature=warm_at,
            inputs={f"{here}.spring_preload": valve.spring_preload,
                    f"{here}.spring_rate": valve.spring_rate, f"{here}.lift": valve.lift,
                    f"{here}.stem_diameter": valve.stem_diameter, "retainer_height": height,
                    "shear_of_tensile": strength.shear_share(material), **bears.inputs},
            first=bears.line,
            raise_by=raising.other_plastic(f"{here}.retainer_material", material, "retainer",
                                           "strength_in_plane", "other_material"),
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
