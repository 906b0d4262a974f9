"""What all crank joints share: pin and cheek, their strengths, and what would hold more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise
from firstfire.parts import strength, warmth
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.strength import Load, Strength
from firstfire.parts.written import mm

SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."
ROLOFF = "H. Wittel and others, Roloff/Matek Maschinenelemente (from memory)"
JOINT = "crank.joint."


@dataclass(frozen=True)
class Hold:
    """What a joint holds.

    Attributes
    ----------
    torque
        N·m.
    governs, formula, source, inputs, depends_on, raise_by, working
        As the record of a way to fail has them.
    """

    torque: float
    governs: str
    formula: str
    source: str
    inputs: Mapping[str, float]
    depends_on: tuple[str, ...] = ()
    raise_by: tuple[Raise, ...] = ()
    working: tuple[Line, ...] = ()


def holds(expression: str, words: str = "torque that the joint holds") -> Line:
    """The last line of a joint's working: the torque it holds."""
    return Line("capacity", expression, "N*m", words)


CRUSHING = Line(
    "bearing_strength", "min(hub_strength, pin_strength)", "Pa", "the weaker of pin and cheek"
)


@dataclass(frozen=True)
class Hub:
    """What the pin sits in: the cheek, or a plate screwed to it.

    Attributes
    ----------
    material, metal
        Of what, and whether that is a metal.
    length
        Engaged, m.
    outside
        Diameter that stands for the cheek's width, m.
    """

    material: Material
    metal: bool
    length: float
    outside: float


def hub(moment: Moment) -> Hub:
    """What the pin sits in."""
    crank = moment.engine.crank
    joint = crank.joint
    if joint.plate is not None and joint.plate_thickness > 0:
        material = moment.engine.materials[joint.plate]
        length = min(joint.length, joint.plate_thickness)
        return Hub(material, is_metal(material), length, crank.cheek_width)
    material = moment.engine.materials[crank.material]
    return Hub(material, is_metal(material), joint.length, crank.cheek_width)


def hub_strength(moment: Moment, body: Hub, load: Load = "pulse") -> Strength:
    """Of the hub pressed on: in plane."""
    warm = strength_left(body.material, warmth.ambient(moment))
    printed = not body.metal and moment.engine.crank.made == "printed"
    return strength.of_material(moment, body.material, warm=warm, printed=printed, load=load)


def pin_strength(moment: Moment, *, across: bool) -> Strength:
    """Of the crankpin's material; printed pins stand with their layers as the cheeks do."""
    crank = moment.engine.crank
    material = moment.engine.materials[crank.crankpin_material]
    printed = not is_metal(material) and crank.made == "printed"
    across = across and printed and crank.layers_stacked == "along_crank"
    warm = strength_left(material, warmth.ambient(moment))
    return strength.of_material(moment, material, warm=warm, printed=printed, across=across)


def pin_material(moment: Moment) -> Material:
    """Material of the crankpin."""
    return moment.engine.materials[moment.engine.crank.crankpin_material]


def cross_pinned(moment: Moment, size: float = 4e-3) -> tuple[Raise, ...]:
    """The proven joint: a steel pin cross-pinned into steel plates on the cheeks."""
    crank = moment.engine.crank
    change = {
        JOINT + "kind": "pinned",
        JOINT + "plate": "steel_mild",
        JOINT + "plate_thickness": "5 mm",
        JOINT + "length": "5 mm",
        JOINT + "cross_pins": "2",
        JOINT + "cross_pin_diameter": mm(min(size, 0.35 * crank.joint.diameter)),
    }
    words = "Pin the joint across, twice, into 5 mm steel plates screwed to the cheeks"
    if not is_metal(pin_material(moment)):
        change["crank.crankpin_material"] = "silver_steel"
        words = f"Make the crankpin of ground steel bar; {words[0].lower()}{words[1:]}"
    return (Raise(words, change, "steel_plates"),)


def one_more(count: int, what: str) -> tuple[Raise, ...]:
    """One more key or cross pin, up to three."""
    if count >= 3:
        return ()
    change = {JOINT + "cross_pins": str(count + 1)}
    return (Raise(f"Set {count + 1} {what}s into each cheek", change, "cross_pin"),)
