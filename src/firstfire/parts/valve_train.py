"""What turns and pushes the valves and has no size in the engine file: named, with what lacks."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, Judgement, not_judged


def _of_a_valve(which: str) -> tuple[Judgement, ...]:
    here = f"valves.{which}"

    def has_rocker(moment: Moment) -> bool:
        valve = getattr(moment.parts.valves, which)
        return bool(valve.rocker == "rocker")

    def is_pushed(moment: Moment) -> bool:
        return which == "exhaust" or moment.parts.valves.inlet.worked != "suction"

    spring = Failure(
        id=f"{here}.spring.break", part=f"{which} valve", failure="has its spring break",
        unit="Pa", formula="shear in the wire at full lift", source="none",
    during=TURNING,
    )  # fmt: skip
    rocker = Failure(
        id=f"{here}.rocker.break", part=f"{which} valve", failure="has its rocker break",
        unit="Pa", formula="bending over its pivot by spring and inertia", source="none",
    during=TURNING,
    )  # fmt: skip
    return (
        not_judged(
            spring,
            "The file gives the spring's rate and preload, but not its wire, coils or length: take "
            "one whose maker allows the lift.",
            is_pushed,
        ),
        not_judged(
            rocker,
            "The file gives the rocker's ratio, but no size of it, nor of its pivot.",
            has_rocker,
        ),
    )


CAMSHAFT = Failure(
    id="cam.shaft.twist", part="cam", failure="has its shaft bend or twist off", unit="Pa",
    formula="bending and torsion by springs and drive", source="none",
    shared=True, during=TURNING,
)  # fmt: skip
camshaft_twists = not_judged(
    CAMSHAFT,
    "The file does not say how thick the cam shaft is, of what, nor how far apart it is borne.",
)

JUDGEMENTS = (*_of_a_valve("inlet"), *_of_a_valve("exhaust"), camshaft_twists)
