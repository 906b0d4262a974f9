"""What all joints share: pin and hub, their strengths, and what would hold more.

*Pin* is what sits inside: a crankpin, a journal, the shaft's end. *Hub* is what it sits in: a
cheek, a plate screwed to it, a wheel.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from firstfire.engine.joint_room import no_room
from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise
from firstfire.engine.sections import joint as said
from firstfire.parts import strength
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import Load, Strength

SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."
ROLOFF = "H. Wittel and others, Roloff/Matek Maschinenelemente (from memory)"
_WRITTEN_FOR = "crank.joint."


@dataclass(frozen=True)
class Hold:
    """What a joint holds.

    Attributes
    ----------
    torque
        N·m.
    governs, formula, source, inputs, raise_by, working
        As the record of a way to fail has them.
    """

    torque: float
    governs: str
    formula: str
    source: str
    inputs: Mapping[str, float]
    raise_by: tuple[Raise, ...] = ()
    working: tuple[Line, ...] = ()


def holds(expression: str, words: str = "torque that the joint holds") -> Line:
    """The last line of a joint's own law: the torque it holds."""
    return Line("joint_holds", expression, "N*m", words)


CRUSHING = Line(
    "bearing_strength", "min(hub_strength, pin_strength)", "Pa", "the weaker of pin and hub"
)


@dataclass(frozen=True)
class Hub:
    """What the pin sits in; two are the same if sizes and material's name are.

    Attributes
    ----------
    material, key, metal, printed
        Of what, its key, whether that is a metal, and whether it is a print.
    length
        Engaged, m.
    outside
        Its diameter, or the width that stands for it, m.
    share
        How much of a print's wall round the pin bears.
    """

    material: Material = field(compare=False)
    key: str
    metal: bool
    printed: bool
    length: float
    outside: float
    share: float = 1.0


@dataclass(frozen=True)
class Seat:
    """One joint with what it joins; two are the same if sizes and names of materials are.

    Attributes
    ----------
    prefix
        Its path with a dot behind it: ``crank.joint.``.
    joint
        As the engine file has it.
    pin, key
        Material inside, and its key.
    layered
        Whether that is a print whose layers a twist slides.
    rod
        Steel rod inside the pin, m.
    hub
        What it sits in.
    words
        What pin and hub are called: *crankpin*, *cheek*.
    pin_path
        Path of the pin's material.
    temperature
        Of what both meet in, K.
    most_plate
        Thickest plate that goes on the hub, m; 0 where none does.
    pin_share
        How much of a printed pin's section bears.
    """

    prefix: str
    joint: said.Seat
    pin: Material = field(compare=False)
    key: str
    layered: bool
    rod: float
    hub: Hub
    words: tuple[str, str]
    pin_path: str
    temperature: float
    most_plate: float = 0.0
    pin_share: float = 1.0

    @property
    def metal(self) -> bool:
        """Whether pin and hub both are of metal."""
        return self.hub.metal and is_metal(self.pin)

    def told(self, **values: float) -> dict[str, float]:
        """Fields of the joint as numbers put in."""
        return {self.prefix + name: value for name, value in values.items()}

    def lines(self, *lines: Line) -> tuple[Line, ...]:
        """Lines written for the crankpin's joint, for this one."""
        return _for(lines, self.prefix)

    def fits(self, count: int, size: float, length: float | None = None) -> bool:
        """Whether so many pins or keys of this size go into it."""
        long = self.hub.length if length is None else length
        return no_room(self.joint, long, self.hub.outside, count, size) is None


@lru_cache(maxsize=128)
def _for(lines: tuple[Line, ...], prefix: str) -> tuple[Line, ...]:
    return tuple(
        replace(line, expression=line.expression.replace(_WRITTEN_FOR, prefix)) for line in lines
    )


@dataclass(frozen=True)
class Bears:
    """What hub and pin of a joint bear: in plane, and the pin across its layers."""

    hub: Strength
    pin: Strength
    layered: Strength


def bears(moment: Moment, seat: Seat) -> Bears:
    """What both sides of a joint bear here and now."""
    pin = pin_strength(moment, seat, across=False)
    layered = pin_strength(moment, seat, across=True) if seat.layered else pin
    return Bears(hub_strength(moment, seat), pin, layered)


def hub_strength(moment: Moment, seat: Seat, load: Load = "pulse") -> Strength:
    """Of the hub pressed on: in plane."""
    body = seat.hub
    warm = strength_left(body.material, seat.temperature)
    return strength.of_material(
        moment, body.material, warm=warm, printed=body.printed, load=load, section=body.share
    )


def pin_strength(moment: Moment, seat: Seat, *, across: bool) -> Strength:
    """Of the pin; across its layers where it has them, if asked."""
    warm = strength_left(seat.pin, seat.temperature)
    printed = seat.layered or not is_metal(seat.pin)
    return strength.of_material(
        moment,
        seat.pin,
        warm=warm,
        printed=printed,
        across=across and seat.layered,
        section=seat.pin_share,
    )


def both_lines(in_hub: Strength, in_pin: Strength) -> tuple[Line, ...]:
    """Lines of both strengths."""
    return in_hub.line_as("hub_", "hub_strength") + in_pin.line_as("pin_", "pin_strength")


def said_lines(seat: Seat, in_hub: Strength, in_pin: Strength, law: Sequence[Line]
               ) -> tuple[Line, ...]:  # fmt: skip
    """Lines of both strengths, and of a law for this joint."""
    return both_lines(in_hub, in_pin) + seat.lines(*law)
