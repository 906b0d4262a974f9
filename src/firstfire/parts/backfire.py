"""What a fire outside the cylinder can do; none of it is modelled yet, and each says so."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.parts.events import BACKFIRE
from firstfire.parts.failure import Failure, Where, not_judged

_WHY = "the pressure of a fire outside the cylinder is not modelled"


def _bursts(ident: str, part: str) -> Failure:
    return Failure(
        id=ident,
        part=part,
        failure="bursts",
        unit="Pa",
        formula="pressure of the fire in it",
        source="none",
        hazard=True,
        shared=True,
        during=BACKFIRE,
    )


def during(event: str) -> Where:
    """Only in one event."""

    def holds(moment: Moment) -> bool:
        return moment.event == event

    return holds


intake_bursts = not_judged(
    _bursts("intake.burst", "intake"), _WHY,
    during("spit_back"),
)  # fmt: skip
exhaust_bursts = not_judged(_bursts("exhaust.burst", "exhaust"), _WHY, during("after_fire"))
case_bursts = not_judged(
    _bursts("case.burst", "crankcase"), _WHY,
    during("case_fire"),
)  # fmt: skip

JUDGEMENTS = (intake_bursts, exhaust_bursts, case_bursts)
