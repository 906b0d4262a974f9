"""All that happens in a cycle, and at which crank angle: centres, valves, sparks, edges, fuel."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfire.engine.cam_lift import bottom_after_top, nose_at, spans, valve_of
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import firing_angles
from firstfire.engine.injection import arrives
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.trigger import trigger
from firstfire.formulas.firing import CYCLE, TURN

Kind = Literal["centre", "valve", "spark", "edge", "fuel"]


@dataclass(frozen=True)
class Happening:
    """One event of one cylinder.

    Attributes
    ----------
    id
        Fixed: ``inlet-opens``.
    cylinder
        Counted from 1.
    name
        In words: *inlet opens*.
    kind
        What sort.
    own
        Crank angle after its own cylinder's firing top centre, rad, from -π/2 to below 7π/2.
    crank
        After cylinder 1's, rad, from 0 to below 4π.
    assumed
        What it stands on where the file doesn't say it; else "".
    """

    id: str
    cylinder: int
    name: str
    kind: Kind
    own: float
    crank: float
    assumed: str = ""

    @property
    def turn(self) -> float:
        """Place on the flywheel after the mark for cylinder 1's top, rad, from -π to below π."""
        return (self.crank + math.pi) % TURN - math.pi


def happenings(plain: PlainEngine) -> tuple[Happening, ...]:
    """Every event of every cylinder, in the order in which the crank meets them.

    Raises
    ------
    OutsideValidity
        Where cylinder 2 can't fire when the file says.
    """
    found = [
        _placed(index, fires, *said)
        for index, (parts, fires) in enumerate(
            zip(plain.cylinders, firing_angles(plain), strict=True)
        )
        for said in _own(plain, parts)
    ]
    order = {"centre": 0, "valve": 1, "edge": 2, "spark": 3, "fuel": 4}
    return tuple(sorted(found, key=lambda one: (round(one.crank, 9), one.cylinder,
                                                order[one.kind])))  # fmt: skip


def _placed(
    index: int, fires: float, ident: str, name: str, kind: Kind, own: float, assumed: str = ""
) -> Happening:
    own = (own + 0.5 * math.pi) % CYCLE - 0.5 * math.pi
    crank = (own + fires) % CYCLE
    # a hair below a full cycle is rounding of its start
    crank = 0.0 if CYCLE - crank < 1e-9 else crank
    return Happening(ident, index + 1, name, kind, own, crank, assumed)


def _own(
    plain: PlainEngine, parts: CylinderParts
) -> Iterator[tuple[str, str, Kind, float] | tuple[str, str, Kind, float, str]]:
    bottom = bottom_after_top(parts)
    yield "firing-top", "firing top", "centre", 0.0
    yield "bottom-after-firing", "bottom after firing", "centre", bottom
    yield "overlap-top", "overlap top", "centre", TURN
    yield "bottom-after-intake", "bottom after intake", "centre", TURN + bottom
    for which, span in spans(parts).items():
        yield f"{which}-opens", f"{which} opens", "valve", span.opens
        yield (
            f"{which}-full",
            f"{which} at full lift",
            "valve",
            nose_at(valve_of(parts, which), span),
        )
        yield f"{which}-closes", f"{which} closes", "valve", span.shuts
    yield from _sparks(plain)
    if plain.intake.mixture_by == "injector" and parts.valves.inlet.worked == "cam":
        yield (
            "injection-ends", "injection ends", "fuel", arrives(plain, parts), _INJECTED,
        )  # fmt: skip


_INJECTED = (
    "its last fuel is at the valve as injector.ends has it; it is switched off earlier by its "
    "flight, which `firstfire fuel` says"
)
_EDGES = {
    "points": (("points-close", "points close"), ("points-open", "points open")),
    "sensor": (("edge-leading", "first edge"), ("edge-trailing", "last edge")),
}
_ASSUMED = {
    "points": "points are shut for as much of the crank as spark.points.shut_angle has",
    "sensor": "edges as a run takes them: earliest and latest spark, or 20° ahead where timed",
}


def _sparks(
    plain: PlainEngine,
) -> Iterator[tuple[str, str, Kind, float] | tuple[str, str, Kind, float, str]]:
    spark, passes = plain.spark, trigger(plain)
    turns = ((0.0, ""), (TURN, " (wasted)")) if spark.wasted else ((0.0, ""),)
    for later, words in turns:
        mark = "-wasted" if words else ""
        for (ident, name), before in zip(
            _EDGES[spark.source], (passes.leading, passes.trailing), strict=True
        ):
            yield ident + mark, name + words, "edge", later - before, _ASSUMED[spark.source]
        yield f"start-spark{mark}", f"start spark{words}", "spark", later - spark.start_angle
        yield f"running-spark{mark}", f"running spark{words}", "spark", later - spark.running_angle
