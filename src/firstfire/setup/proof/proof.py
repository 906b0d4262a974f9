"""Proving before the first fire: cylinders by liquid, the crank's joint by a bar and a scale."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import NamedTuple

from firstfire.engine.resolve import PlainEngine
from firstfire.parts import crank_joint
from firstfire.parts.fasteners import lifts
from firstfire.parts.seal import opens
from firstfire.runs.at import bout_at
from firstfire.runs.bout import Bout
from firstfire.runs.moments import loads_at, moment
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.standing import NIGHT, standing

OVER = 1.3
"""Of the strong peak: what is proved over what is met."""
BAR = 0.5
"""Length of the bar, m."""
HOLD = 60.0
"""How long the pressure is held, s (common practice, no source)."""


class CylinderProof(NamedTuple):
    """Of one cylinder.

    Attributes
    ----------
    number
        From 1.
    strong
        Peak of a strong first combustion, 1 in 20, over the air, Pa.
    pressure
        To prove with, on a gauge, Pa.
    opens_at
        Gauge pressure at which head or gasket is reckoned to give, Pa; None where that is not
        judged.
    what
        What that is.
    push
        Of the liquid on the piston, N: what holds the crank has to bear it.
    """

    number: int
    strong: float
    pressure: float
    opens_at: float | None
    what: str
    push: float

    @property
    def passes(self) -> bool:
        """Whether it is reckoned to hold."""
        return self.opens_at is None or self.opens_at >= self.pressure


class JointProof(NamedTuple):
    """Of the crank's joint, or of its pin where both are one piece.

    Attributes
    ----------
    what
        *crank joint* or *crankpin*.
    twist
        Largest of a strong first combustion, N·m.
    torque
        To prove with, N·m.
    kilograms
        On a luggage scale at the end of the bar.
    holds
        What it is reckoned to hold cold, N·m; None where that is not judged.
    """

    what: str
    twist: float
    torque: float
    kilograms: float
    holds: float | None

    @property
    def passes(self) -> bool:
        """Whether it is reckoned to hold."""
        return self.holds is None or self.holds >= self.torque


class Proof(NamedTuple):
    """All that is proved before the first fire."""

    cylinders: tuple[CylinderProof, ...]
    joint: JointProof


def proof(plain: PlainEngine) -> Proof:
    """What to prove this engine with: one strong first combustion is run for it.

    Raises
    ------
    OutsideValidity
        Where a first combustion can't be run.
    """
    bout = bout_at(plain, "first_fire", plain.use.cranking_speed)
    return Proof(
        tuple(_cylinder(plain, bout, place) for place in range(len(plain.cylinders))),
        _joint(plain, bout),
    )


def _cylinder(plain: PlainEngine, bout: Bout, place: int) -> CylinderProof:
    air = plain.surroundings.air_pressure
    strong = bout.point.peaks[place].strong - air
    pressure, size = OVER * strong, plain.cylinders[place].cylinder.bore
    at, what = _opens(plain, place, pressure)
    return CylinderProof(place + 1, strong, pressure, at, what, pressure * math.pi / 4 * size**2)


def _opens(plain: PlainEngine, place: int, pressure: float) -> tuple[float | None, str]:
    """Where head or gasket gives, as a part judges it once, cold and after a night."""
    there = replace(
        standing(plain, place, hours=NIGHT),
        peak_pressure=plain.surroundings.air_pressure + pressure,
    )
    found = []
    for what, way in (("the head lifts", lifts), ("the gasket opens", opens)):
        judged = way(there)
        if judged.judged and judged.demand > 0:
            found.append((pressure * judged.capacity / judged.demand, what))
    return min(found, default=(None, ""), key=lambda one: one[0] or 0.0)


def _joint(plain: PlainEngine, bout: Bout) -> JointProof:
    felt = loads_at(bout, plain, [one.strong for one in bout.point.peaks])
    there = moment(bout, plain, 0, 0.0, [one.strong for one in bout.point.peaks], felt)
    solid = plain.crank.joint.kind == "solid"
    judge = crank_joint.twists if solid else crank_joint.slips
    way, twist = judge(there), crank_joint.largest_twist(there)
    torque = OVER * twist
    return JointProof(
        "crankpin" if solid else "crank joint", twist, torque, torque / (BAR * GRAVITY),
        way.capacity if way.judged else None,
    )  # fmt: skip
