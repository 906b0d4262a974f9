"""What a person read off the degree wheel, like *inlet opens=12 deg before top*, as angles."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.cam_lift import (
    Span,
    bottom_after_top,
    nose_at,
    spans,
    valve_of,
    valve_rise,
)
from firstfire.engine.happenings import happenings
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import EngineFileError, Problem
from firstfire.setup.timing.places import has_rim

TURN, CYCLE = 2.0 * math.pi, 4.0 * math.pi
_EXAMPLE = 'Write --measured "inlet opens=12 deg before top".'
_NAMES = {
    "full lift": "at full lift", "full": "at full lift", "shuts": "closes", "opening": "opens",
    "closing": "closes", "at greatest lift": "at full lift", "intake": "inlet",
}  # fmt: skip
_ANGLE = re.compile(
    r"^(?P<much>.+?)\s*(?P<side>before|after)\s+(?P<which>firing |overlap )?"
    r"(?P<centre>top|bottom)$"
)


@dataclass(frozen=True)
class Reading:
    """One event as it was found.

    Attributes
    ----------
    id, cylinder
        Which event, and whose.
    name
        In words.
    own
        Crank angle after its cylinder's firing top, rad; sure only to a multiple of `period`.
    period
        A cycle where the firing or the overlap top was named, else a turn, rad.
    drawn
        Where the engine file has it, rad after the same top.
    cam
        Whether the cam carries it, and not the crank.
    sense
        1 where lash makes it late (a valve opening), -1 where it makes it early, 0 else.
    written
        As it was typed.
    """

    id: str
    cylinder: int
    name: str
    own: float
    period: float
    drawn: float
    cam: bool
    sense: int
    written: str


@dataclass(frozen=True)
class Known:
    """An event that can be read: where it is drawn, rad after its cylinder's firing top."""

    id: str
    cylinder: int
    name: str
    drawn: float
    cam: bool
    sense: int


def known_events(plain: PlainEngine) -> tuple[Known, ...]:
    """Every event of valves, edges and sparks that a person can read."""
    found = []
    for one in happenings(plain):
        if one.kind in ("valve", "edge", "spark") and not one.id.endswith("-wasted"):
            sense = {"opens": 1, "closes": -1}.get(one.id.rsplit("-", 1)[-1], 0)
            cam = one.kind == "valve" or not plain.spark.wasted
            valve = one.kind == "valve"
            found.append(Known(one.id, one.cylinder, one.name, one.own, cam, sense if valve else 0))
    return tuple(found)


def readings(plain: PlainEngine, written: Sequence[str]) -> tuple[Reading, ...]:
    """What was typed as angles.

    Raises
    ------
    EngineFileError
        With everything that is no reading, and what would be one.
    """
    found: list[Reading] = []
    problems: list[Problem] = []
    for text in written:
        try:
            found.append(_reading(plain, text))
        except NotAQuantity as why:
            problems.append(Problem("", f'"{text}" {why.fault}', why.cure))
    problems += _twice(found)
    if problems:
        raise EngineFileError("--measured", problems)
    return tuple(found)


def _twice(found: Sequence[Reading]) -> list[Problem]:
    """The same event read at two places."""
    said: dict[tuple[str, int, float], Reading] = {}
    problems = []
    for one in found:
        key = one.id, one.cylinder, one.drawn
        other = said.setdefault(key, one)
        apart = (one.own - other.own + math.pi) % TURN - math.pi
        if other is not one and abs(apart) > math.radians(6):
            problems.append(
                Problem(
                    "",
                    f'"{one.written}" and "{other.written}" are the same event, '
                    f"{abs(math.degrees(apart)):.0f}° apart",
                    "Read it again and give it once.",
                )
            )
    return problems


def _reading(plain: PlainEngine, text: str) -> Reading:
    name, equals, much = text.partition("=")
    if not equals or not name.strip() or not much.strip():
        raise NotAQuantity("is no reading", _EXAMPLE)
    event = _event(plain, name)
    own, period = _angle(plain, event.cylinder, much)
    return Reading(
        event.id, event.cylinder, event.name, own, period, event.drawn, event.cam, event.sense, text
    )


def _event(plain: PlainEngine, text: str) -> Known:
    """The event of a name like *inlet opens*, *cylinder 2 inlet opens at 0.5 mm*."""
    words = " ".join(text.lower().replace("-", " ").split())
    cylinder = 1
    whose = re.search(r"\b(?:cylinder|no\.?|#)\s*(\d)\b", words) or re.match(r"^(\d)\b", words)
    if whose:
        cylinder = int(whose[1])
        words = " ".join((words[: whose.start()] + words[whose.end() :]).split())
    count = len(plain.cylinders)
    if not 1 <= cylinder <= count:
        raise NotAQuantity(
            f"is of cylinder {cylinder}", f"{plain.name} has {count}: count them from 1."
        )
    lifted = re.search(r"\s+at\s+(\S+\s*(?:mm|in|um))$", words)
    if lifted:
        words = words[: lifted.start()]
    for said, meant in _NAMES.items():
        words = re.sub(rf"(?<!at )\b{said}\b", meant, words)
    own = {one.name: one for one in known_events(plain) if one.cylinder == cylinder}
    if words not in own:
        _refuse_name(plain, cylinder, words, own)
    event = own[words]
    return _at_lift(plain, event, lifted[1]) if lifted else event


def _refuse_name(plain: PlainEngine, cylinder: int, words: str, own: dict[str, Known]) -> None:
    parts = plain.cylinders[cylinder - 1]
    if words.startswith("inlet") and parts.valves.inlet.worked == "suction":
        raise NotAQuantity(
            "is of an inlet that suction opens, at no angle of the crank",
            'Read the exhaust: "exhaust closes=10 deg after top".',
        )
    near = difflib.get_close_matches(words, own, n=1, cutoff=0.5)
    known = ", ".join(own)
    cure = f'Did you mean "{near[0]}"? ' if near else ""
    raise NotAQuantity("names no event of this engine", f"{cure}Events are: {known}.")


def _at_lift(plain: PlainEngine, event: Known, text: str) -> Known:
    """The same event at a stated lift of the valve, lash set."""
    if event.sense == 0:
        raise NotAQuantity("has a lift", "Only a valve that opens or closes is read at a lift.")
    which = event.id.split("-")[0]
    parts = plain.cylinders[event.cylinder - 1]
    valve, span = valve_of(parts, which), spans(parts)[which]
    lift = read_quantity(text, "length")
    if not 0 <= lift < valve.lift:
        most = f"{1e3 * valve.lift:.3g} mm"
        raise NotAQuantity(
            f"has a lift of {text}", f"The {which} lifts {most}: read it below half of that."
        )
    ends = (span.opens if event.sense > 0 else span.shuts, nose_at(valve, span))

    def short(angle: float) -> bool:
        return valve_rise(valve, span, angle) < lift

    low, high = ends
    for _ in range(50):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if short(middle) else (low, middle)
    name = f"{event.name} at {text}"
    return Known(event.id, event.cylinder, name, 0.5 * (low + high), event.cam, event.sense)


def _angle(plain: PlainEngine, cylinder: int, text: str) -> tuple[float, float]:
    """Angle after its cylinder's firing top, rad, and within which period it is sure."""
    words = " ".join(text.lower().replace("dead centre", "").replace("centre", "").split())
    words = re.sub(r"^at (top|bottom)$", r"0 deg after \1", words)
    words = words.replace("°", " deg ")
    match = _ANGLE.match(" ".join(words.split()))
    if match is None:
        raise NotAQuantity(
            "has no angle before or after top or bottom",
            'Write it like "12 deg before top", "40 deg after bottom" or "9.6 mm before top".',
        )
    much = _much(plain, match["much"])
    sign = 1.0 if match["side"] == "after" else -1.0
    bottom = bottom_after_top(plain.cylinders[cylinder - 1])
    if match["centre"] == "bottom":
        if match["which"]:
            raise NotAQuantity(
                f"says {match['which'].strip()} bottom", "Only a top is on firing or on overlap."
            )
        return bottom + sign * much, TURN
    start = TURN if match["which"] == "overlap " else 0.0
    return start + sign * much, CYCLE if match["which"] else TURN


def _much(plain: PlainEngine, text: str) -> float:
    """Degrees, or millimetres along the rim, as an angle, rad."""
    bare = text.replace(".", "", 1).isdecimal()
    if text.endswith(("mm", "cm", "in", '"')):
        if not has_rim(plain):
            raise NotAQuantity("is in mm, and there is no flywheel", "Give it in deg.")
        angle = 2.0 * read_quantity(text, "length") / plain.flywheel.diameter
    else:
        angle = read_quantity(f"{text} deg" if bare else text, "angle")
    if not 0 <= angle <= TURN:
        raise NotAQuantity(
            f"is {math.degrees(angle):.0f}° away from it",
            "Count from the nearest centre: 0 to 180 deg, before or after.",
        )
    return angle


__all__ = ["CYCLE", "TURN", "Known", "Reading", "Span", "known_events", "readings"]
