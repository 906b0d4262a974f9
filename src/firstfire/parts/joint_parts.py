"""What all joints share: pin and hub, their strengths, and what would hold more.

*Pin* is what sits inside: a crankpin, a journal, the shaft's end. *Hub* is what it sits in: a
cheek, a plate screwed to it, a wheel.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from firstfire.engine.joint_room import no_room
from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise
from firstfire.engine.sections import joint as said
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import beside, found
from firstfire.parts import strength
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import Load, Strength

SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."
ROLOFF = "H. Wittel and others, Roloff/Matek Maschinenelemente (from memory)"


@dataclass(frozen=True)
class Hold:
    """What a joint holds.

    Attributes
    ----------
    torque
        N·m.
    governs, formula, source, raise_by
        As the record of a way to fail has them.
    """

    torque: float
    governs: str
    formula: str
    source: str
    raise_by: tuple[Raise, ...] = ()


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

    @property
    def pins(self) -> float:
        """How many pins or keys, for a law."""
        return self.beside(f"{self.prefix}cross_pins", self.joint.cross_pins)

    @property
    def flats(self) -> float:
        """How many flats or teeth, for a law."""
        return self.beside(f"{self.prefix}flats", self.joint.flats)

    def beside(self, name: str, value: float) -> float:
        """A number put in that is no size of the engine: recorded where its sizes are."""
        return beside(self.joint.diameter, name, value)

    def fits(self, count: int, size: float, length: float | None = None) -> bool:
        """Whether so many pins or keys of this size go into it."""
        long = self.hub.length if length is None else length
        return no_room(self.joint, long, self.hub.outside, count, size) is None


@dataclass(frozen=True)
class Bears:
    """What hub and pin of a joint bear: in plane, and the pin across its layers."""

    hub: Strength
    pin: Strength
    layered: Strength

    @property
    def crushing(self) -> float:
        """What hub and pin both bear where they press on each other, Pa."""
        weaker = math.least(self.hub.value, self.pin.value)
        return found("bearing_strength", weaker, "Pa", "the weaker of pin and hub")


def each(name: str, stress: float, words: str) -> float:
    """Stress that each newton-metre makes, Pa/(N·m), with a line of its own."""
    return found(name, stress, "Pa/(N*m)", f"{words} for each N·m")


def bears(moment: Moment, seat: Seat) -> Bears:
    """What both sides of a joint bear here and now."""
    pin = pin_strength(moment, seat, across=False, place="pin_")
    layered = pin_strength(moment, seat, across=True, place="layered_") if seat.layered else pin
    return Bears(hub_strength(moment, seat), pin, layered)


def hub_strength(moment: Moment, seat: Seat, load: Load = "pulse") -> Strength:
    """Of the hub pressed on: in plane."""
    body = seat.hub
    warm = strength_left(body.material, seat.temperature)
    return strength.of_material(
        moment, body.material, warm=warm, printed=body.printed, load=load, section=body.share,
        place="hub_", name="hub_strength",
    )  # fmt: skip


def pin_strength(moment: Moment, seat: Seat, *, across: bool, place: str = "") -> Strength:
    """Of the pin; across its layers where it has them, if asked; its names begin with `place`."""
    warm = strength_left(seat.pin, seat.temperature)
    printed = seat.layered or not is_metal(seat.pin)
    return strength.of_material(
        moment,
        seat.pin,
        warm=warm,
        printed=printed,
        across=across and seat.layered,
        section=seat.pin_share,
        place=place,
        name=f"{place}strength",
    )
