"""A cam that someone asks for: when it opens and shuts its valve, and how high."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import cam_law, cam_lobe
from firstfire.loads.cam_profile import Which

EVENTS = {
    "inlet": ("opens_before_top", "closes_after_bottom"),
    "exhaust": ("opens_before_bottom", "closes_after_top"),
}
EARLIEST, LATEST = math.radians(60.0), math.radians(120.0)  # as an engine file may have them
LAWS = ("polynomial_4567", "polynomial_345", "modified_sine", "cycloidal")
"""Families by their smoothness, smoothest first."""


@dataclass(frozen=True)
class Wanted:
    """A cam that someone asks for; angles of the crank, rad.

    Attributes
    ----------
    which
        Inlet or exhaust.
    opens, closes
        As in the engine file: before and after the dead centres of that valve.
    at_lift
        Lift at which these are stated, m; 0 as it leaves its seat.
    lift
        Greatest lift, m.
    law
        Of the flanks, by its name in the engine file.
    centre
        Of the lobe from the top centre between exhaust and intake: after it for an inlet, before
        it for an exhaust; None: midway.
    """

    which: Which
    opens: float
    closes: float
    at_lift: float
    lift: float
    law: str
    centre: float | None = None


def as_it_is(plain: PlainEngine, which: Which, law: str | None = None) -> Wanted:
    """What the file has, as something asked for; a table asks for the smoothest law."""
    valve = getattr(plain.cylinders[0].valves, which)
    opens, closes = (float(getattr(valve, name)) for name in EVENTS[which])
    kept = LAWS[0] if valve.cam_law == "table" else valve.cam_law
    return Wanted(which, opens, closes, 0.0, float(valve.lift), law or kept)


def apart(asked: Wanted) -> tuple[float, float]:
    """Crank angle from the opening to the nose, and from there to the closing."""
    span = asked.opens + math.pi + asked.closes
    if asked.centre is None:
        return span / 2, span / 2
    if asked.which == "inlet":
        return asked.opens + asked.centre, span - asked.opens - asked.centre
    return span - asked.closes - asked.centre, asked.closes + asked.centre


def flanks(asked: Wanted) -> tuple[float, float]:
    """Length of the flank up and of the flank down, crank, rad."""
    law: cam_law.RiseLaw = getattr(cam_law, asked.law)
    early, late = apart(asked)
    up, down = (
        cam_lobe.flank_for_event(law, asked.lift, asked.at_lift, away) for away in (early, late)
    )
    return up, down


def seat(asked: Wanted) -> tuple[float, float]:
    """When it leaves its seat and is back, as the engine file has them, rad."""
    early, late = apart(asked)
    up, down = flanks(asked)
    return asked.opens + up - early, asked.closes + down - late


def in_a_file(opens: float, closes: float) -> bool:
    """Whether an engine file may say that its valve leaves its seat and is back then."""
    return min(opens, closes) >= -EARLIEST and max(opens, closes) <= LATEST
