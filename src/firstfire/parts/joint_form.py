"""Joints that hold by their shape: keys, pins, polygons, splines, one piece."""

from __future__ import annotations

import math

from firstfire.engine.joint_room import edge, is_across
from firstfire.engine.records import Line
from firstfire.formulas import cross_pin, key, polygon_joint, spline
from firstfire.parts import assumed, strength
from firstfire.parts.joint_parts import (
    CRUSHING,
    ROLOFF,
    SHIGLEY,
    Bears,
    Hold,
    Seat,
    holds,
    said_lines,
)
from firstfire.parts.strength import Strength

_KEYED = (
    CRUSHING,
    Line("torque_shears_key",
         "pin_shear * crank.joint.diameter / 2 * crank.joint.cross_pin_diameter * engaged", "N*m",
         "torque that shears one key"),
    Line("torque_crushes_keyway",
         "bearing_strength * crank.joint.diameter / 2 * crank.joint.cross_pin_diameter / 2 * "
         "engaged", "N*m", "torque that crushes one keyway"),
    holds("crank.joint.cross_pins * min(torque_shears_key, torque_crushes_keyway)"),
)  # fmt: skip
_ACROSS = (
    Line("hub_wall", "(hub_outside - crank.joint.diameter) / 2", "m",
         "wall of the hub round the pin"),
    Line("torque_shears_pins",
         "crank.joint.cross_pins * pin_shear * pi / 4 * crank.joint.cross_pin_diameter**2 * "
         "crank.joint.diameter", "N*m", "torque that shears the cross pins"),
    Line("torque_crushes_pin",
         "crank.joint.cross_pins * pin_strength * crank.joint.cross_pin_diameter * "
         "crank.joint.diameter**2 / 6", "N*m", "torque at which they crush their holes in the pin"),
    Line("torque_crushes_hub",
         "crank.joint.cross_pins * hub_strength * crank.joint.cross_pin_diameter * hub_wall * "
         "(crank.joint.diameter + hub_wall)", "N*m",
         "torque at which they crush their holes in the hub"),
    Line("torque_tears_hub",
         "hub_strength * (engaged - crank.joint.cross_pins * crank.joint.cross_pin_diameter) * "
         "hub_wall * (crank.joint.diameter + hub_wall)", "N*m",
         "torque that tears what they leave of the hub"),
    holds("min(torque_shears_pins, torque_crushes_pin, torque_crushes_hub, torque_tears_hub)"),
)  # fmt: skip
_LENGTHWISE = (
    CRUSHING,
    Line("hub_edge", "(hub_outside - crank.joint.diameter - crank.joint.cross_pin_diameter) / 2",
         "m", "edge of the hub outside the pins"),
    Line("torque_shears_pins",
         "crank.joint.cross_pins * pin_shear * crank.joint.diameter * "
         "crank.joint.cross_pin_diameter * engaged / 2", "N*m", "torque that shears the pins"),
    Line("torque_crushes_holes",
         "crank.joint.cross_pins * bearing_strength * crank.joint.diameter * "
         "crank.joint.cross_pin_diameter * engaged / 4", "N*m",
         "torque at which they crush their half holes"),
    Line("torque_tears_edge",
         "crank.joint.cross_pins * hub_strength * engaged * hub_edge * crank.joint.diameter / 2",
         "N*m", "torque that tears the edge outside them"),
    holds("min(torque_shears_pins, torque_crushes_holes, torque_tears_edge)"),
)  # fmt: skip
_POLYGON = (
    CRUSHING,
    Line("side", "crank.joint.diameter * tan(pi / crank.joint.flats)", "m",
         "side of the polygon (tangent of an angle in radians)"),
    holds("bearing_strength * crank.joint.flats * engaged * side**2 / 12"),
)  # fmt: skip
_SPLINED = (
    Line("root_diameter",
         "crank.joint.diameter - 2 * spline_depth * pi * crank.joint.diameter / crank.joint.flats",
         "m", "diameter at the teeth's roots"),
    CRUSHING,
    Line("torque_crushes_teeth",
         "bearing_strength * bearing_share * crank.joint.flats * (root_diameter + "
         "crank.joint.diameter) / 2 * (crank.joint.diameter - root_diameter) / 2 * engaged / 2",
         "N*m", "torque that crushes the teeth's flanks"),
    Line("tooth_width", "pi * root_diameter / (2 * crank.joint.flats)", "m",
         "width of a tooth at its root"),
    Line("torque_shears_teeth",
         "min(hub_shear_share * hub_strength, pin_shear_share * pin_strength) * "
         "crank.joint.flats * root_diameter * tooth_width * engaged / 2", "N*m",
         "torque that shears the teeth off"),
    holds("min(torque_crushes_teeth, torque_shears_teeth)"),
)  # fmt: skip


def keyed(seat: Seat, sides: Bears) -> Hold:
    """Square keys between pin and hub."""
    joint, long = seat.joint, seat.hub.length
    width = joint.cross_pin_diameter
    in_hub, in_pin = sides.hub, sides.pin
    crushing = min(in_hub.value, in_pin.value)
    sheared = assumed.CROSS_PIN_SHEAR / key.shear_stress(1.0, joint.diameter, width, long)
    crushed = crushing / key.bearing_stress(1.0, joint.diameter, width, long)
    return Hold(
        joint.cross_pins * min(sheared, crushed),
        "section" if sheared < crushed else "bearing",
        "twist, against keys × the lesser of shear strength × width × length × diameter/2 and "
        "bearing strength × half the width × length × diameter/2",
        f"{SHIGLEY}, Example 7-6",
        {**seat.told(cross_pins=joint.cross_pins, cross_pin_diameter=width,
                     diameter=joint.diameter), "engaged": long,
         "pin_shear": assumed.CROSS_PIN_SHEAR, "bearing_strength": crushing,
         "torque_shears_key": sheared, "torque_crushes_keyway": crushed,
         **in_hub.inputs_as("hub_"), **in_pin.inputs_as("pin_")},
        (),
        said_lines(seat, in_hub, in_pin, _KEYED),
    )  # fmt: skip


def pinned(seat: Seat, sides: Bears) -> Hold:
    """Pins across pin and hub, or lengthwise half in each."""
    in_hub, in_pin = sides.hub, sides.pin
    law = _across if is_across(seat.joint) else _lengthwise
    each, inputs, formula, lines = law(seat, in_hub, in_pin)
    weakest = min(each, key=each.__getitem__)
    joint = seat.joint
    return Hold(
        each[weakest],
        "bearing" if "crushes" in weakest else "section",
        formula,
        f"equilibrium; form of {ROLOFF}",
        {**seat.told(cross_pins=joint.cross_pins, cross_pin_diameter=joint.cross_pin_diameter,
                     diameter=joint.diameter), "hub_outside": seat.hub.outside,
         "engaged": seat.hub.length, "pin_shear": assumed.CROSS_PIN_SHEAR, **each, **inputs,
         **in_hub.inputs_as("hub_"), **in_pin.inputs_as("pin_")},
        (),
        said_lines(seat, in_hub, in_pin, lines),
    )  # fmt: skip


_Law = tuple[dict[str, float], dict[str, float], str, tuple[Line, ...]]
"""Torque by what gives way; further numbers put in; formula; lines."""


def _across(seat: Seat, in_hub: Strength, in_pin: Strength) -> _Law:
    joint, long = seat.joint, seat.hub.length
    size, count, across = joint.cross_pin_diameter, joint.cross_pins, joint.diameter
    wall = (seat.hub.outside - across) / 2
    sheared = assumed.CROSS_PIN_SHEAR / cross_pin.shear_stress(1.0, across, size)
    in_hole = in_pin.value / cross_pin.shaft_bearing_stress(1.0, across, size)
    crushed = in_hub.value / cross_pin.hub_bearing_stress(1.0, across, size, wall)
    each = {
        "torque_shears_pins": count * sheared,
        "torque_crushes_pin": count * in_hole,
        "torque_crushes_hub": count * crushed,
        # as a hole in bearing, over what the holes leave in place of their own width
        "torque_tears_hub": crushed * (long - count * size) / size,
    }
    return each, {}, (
        "twist, against the least of pins × shear strength × π/4 × cross pin² × diameter, pins × "
        "strength × cross pin × diameter²/6, pins × hub strength × cross pin × wall × (diameter "
        "+ wall) and hub strength × (length - pins × cross pin) × wall × (diameter + wall)"
    ), _ACROSS  # fmt: skip


def _lengthwise(seat: Seat, in_hub: Strength, in_pin: Strength) -> _Law:
    joint, long = seat.joint, seat.hub.length
    size, count, across = joint.cross_pin_diameter, joint.cross_pins, joint.diameter
    crushing = min(in_hub.value, in_pin.value)
    pressed = cross_pin.lengthwise_bearing_stress(1.0, across, size, long)
    left = edge(joint, seat.hub.outside)
    each = {
        "torque_shears_pins": count * assumed.CROSS_PIN_SHEAR / (pressed / 2),
        "torque_crushes_holes": count * crushing / pressed,
        "torque_tears_edge": count * in_hub.value * long * left * across / 2,
    }
    return each, {"bearing_strength": crushing, "hub_edge": left}, (
        "twist, against pins × the least of shear strength × diameter × pin × length/2, bearing "
        "strength × diameter × pin × length/4 and hub strength × edge × length × diameter/2"
    ), _LENGTHWISE  # fmt: skip


def polygon(seat: Seat, sides: Bears) -> Hold:
    """A prism in a matching hole."""
    joint, body = seat.joint, seat.hub
    in_hub, in_pin = sides.hub, sides.pin
    crushing = min(in_hub.value, in_pin.value)
    unit = polygon_joint.corner_pressure(1.0, joint.flats, joint.diameter, body.length)
    return Hold(
        crushing / unit,
        "bearing",
        "twist, against bearing strength × flats × length × side²/12, the pressure rising to the "
        "corners",
        "equilibrium; same form of assumption as DIN 32711 and 32712 (from memory)",
        {**seat.told(flats=joint.flats, diameter=joint.diameter), "engaged": body.length,
         "bearing_strength": crushing, **in_hub.inputs_as("hub_"),
         **in_pin.inputs_as("pin_")},
        (),
        said_lines(seat, in_hub, in_pin, _POLYGON),
    )  # fmt: skip


def splined(seat: Seat, sides: Bears) -> Hold:
    """Straight teeth in a matching hole."""
    joint, body = seat.joint, seat.hub
    pitch = math.pi * joint.diameter / joint.flats
    root = joint.diameter - 2 * assumed.SPLINE_DEPTH * pitch
    metal = seat.metal
    bearing = assumed.SPLINE_BEARING_MACHINED if metal else assumed.SPLINE_BEARING_PRINTED
    in_hub, in_pin = sides.hub, sides.pin
    crushing = min(in_hub.value, in_pin.value)
    crushed = crushing / spline.tooth_pressure(
        1.0, teeth=joint.flats, root_diameter=root, outside_diameter=joint.diameter,
        length=body.length, bearing_share=bearing,
    )  # fmt: skip
    width = math.pi * root / (2 * joint.flats)
    sheared = min(
        strength.shear(body.material, in_hub), strength.shear(seat.pin, in_pin)
    ) / spline.tooth_root_shear(
        1.0, teeth=joint.flats, root_diameter=root, tooth_width=width, length=body.length
    )
    return Hold(
        min(crushed, sheared),
        "bearing" if crushed < sheared else "shear",
        "twist, against the lesser of bearing share × teeth × mean diameter × depth × length × "
        "strength/2 and teeth × root diameter × tooth width × length × shear strength/2",
        f"common form for splined shafts; φ from {ROLOFF}, printed: common practice, no source",
        {**seat.told(flats=joint.flats, diameter=joint.diameter), "engaged": body.length,
         "spline_depth": assumed.SPLINE_DEPTH, "root_diameter": root,
         "bearing_share": bearing, "torque_crushes_teeth": crushed,
         "torque_shears_teeth": sheared,
         "hub_shear_share": strength.shear_share(body.material),
         "pin_shear_share": strength.shear_share(seat.pin),
         **in_hub.inputs_as("hub_"), **in_pin.inputs_as("pin_")},
        (),
        said_lines(seat, in_hub, in_pin, _SPLINED),
    )  # fmt: skip
