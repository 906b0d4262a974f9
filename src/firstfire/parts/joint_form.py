"""Joints that hold by their shape: keys, pins, polygons, splines, one piece."""

from __future__ import annotations

from firstfire.engine.joint_room import edge, is_across
from firstfire.formulas import cross_pin, key, polygon_joint, spline
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, strength
from firstfire.parts.joint_parts import ROLOFF, SHIGLEY, Bears, Hold, Seat, each


def keyed(seat: Seat, sides: Bears) -> Hold:
    """Square keys between pin and hub."""
    joint, long = seat.joint, seat.hub.length
    width = joint.cross_pin_diameter
    sheared_each = each("key_shear_each", key.shear_stress(1.0, joint.diameter, width, long),
                        "shear in a key")  # fmt: skip
    crushed_each = each("keyway_pressure_each",
                        key.bearing_stress(1.0, joint.diameter, width, long),
                        "pressure on a keyway")  # fmt: skip
    sheared = _torque("shears_key", _pin_shear(seat) / sheared_each, "shears one key")
    crushed = _torque("crushes_keyway", sides.crushing / crushed_each, "crushes one keyway")
    return Hold(
        seat.pins * math.least(sheared, crushed),
        "section" if sheared < crushed else "bearing",
        "twist, against keys × the lesser of shear strength × width × length × diameter/2 and "
        "bearing strength × half the width × length × diameter/2",
        f"{SHIGLEY}, Example 7-6",
    )


def pinned(seat: Seat, sides: Bears) -> Hold:
    """Pins across pin and hub, or lengthwise half in each."""
    across = is_across(seat.joint)
    torques = _across(seat, sides) if across else _lengthwise(seat, sides)
    weakest = min(torques, key=torques.__getitem__)
    return Hold(
        math.least(*torques.values()),
        "bearing" if "crushes" in weakest else "section",
        _ACROSS if across else _LENGTHWISE,
        f"equilibrium; form of {ROLOFF}",
    )


_ACROSS = (
    "twist, against the least of pins × shear strength × π/4 × cross pin² × diameter, pins × "
    "strength × cross pin × diameter²/6, pins × hub strength × cross pin × wall × (diameter "
    "+ wall) and hub strength × (length - pins × cross pin) × wall × (diameter + wall)"
)
_LENGTHWISE = (
    "twist, against pins × the least of shear strength × diameter × pin × length/2, bearing "
    "strength × diameter × pin × length/4 and hub strength × edge × length × diameter/2"
)


def _across(seat: Seat, sides: Bears) -> dict[str, float]:
    """Torque by what gives way."""
    joint, long, count = seat.joint, seat.hub.length, seat.pins
    size, across = joint.cross_pin_diameter, joint.diameter
    wall = found("hub_wall", (seat.hub.outside - across) / 2, "m", "wall of the hub round the pin")
    cut = each("pin_shear_each", cross_pin.shear_stress(1.0, across, size), "shear in a cross pin")
    in_pin = each("pin_pressure_each", cross_pin.shaft_bearing_stress(1.0, across, size),
                  "pressure on its hole in the pin")  # fmt: skip
    in_hub = each("hub_pressure_each", cross_pin.hub_bearing_stress(1.0, across, size, wall),
                  "pressure on its holes in the hub")  # fmt: skip
    crushed = sides.hub.value / in_hub
    # torn as a hole is crushed, over what the holes leave in place of their own width
    torn = crushed * (long - count * size) / size
    return {
        "shears": _torque("shears_pins", count * (_pin_shear(seat) / cut), "shears the cross pins"),
        "crushes_pin": _torque("crushes_pin", count * (sides.pin.value / in_pin),
                               "crushes the pin round their holes"),
        "crushes_hub": _torque("crushes_hub", count * crushed, "crushes the hub round their holes"),
        "tears_hub": _torque("tears_hub", torn, "tears what they leave of the hub"),
    }  # fmt: skip


def _lengthwise(seat: Seat, sides: Bears) -> dict[str, float]:
    """Torque by what gives way."""
    joint, long, count = seat.joint, seat.hub.length, seat.pins
    size, across = joint.cross_pin_diameter, joint.diameter
    pressed = each("hole_pressure_each",
                   cross_pin.lengthwise_bearing_stress(1.0, across, size, long),
                   "pressure on a pin's half holes")  # fmt: skip
    left = found("hub_edge", edge(joint, seat.hub.outside), "m", "edge of the hub outside the pins")
    return {
        "shears": _torque("shears_pins", count * _pin_shear(seat) / (pressed / 2),
                          "shears the pins, which take half of that pressure as shear"),
        "crushes": _torque("crushes_holes", count * sides.crushing / pressed,
                           "crushes their half holes"),
        "tears": _torque("tears_edge", count * sides.hub.value * long * left * across / 2,
                         "tears the edge outside them"),
    }  # fmt: skip


def polygon(seat: Seat, sides: Bears) -> Hold:
    """A prism in a matching hole."""
    joint, body = seat.joint, seat.hub
    corner = each(
        "corner_pressure_each",
        polygon_joint.corner_pressure(1.0, seat.flats, joint.diameter, body.length),
        "pressure in the corners",
    )
    return Hold(
        sides.crushing / corner,
        "bearing",
        "twist, against bearing strength × flats × length × side²/12, the pressure rising to the "
        "corners",
        "equilibrium; same form of assumption as DIN 32711 and 32712 (from memory)",
    )


def splined(seat: Seat, sides: Bears) -> Hold:
    """Straight teeth in a matching hole."""
    root = _root(seat)
    crushed = _torque("crushes_teeth", sides.crushing / _flank_pressure(seat, root),
                      "crushes the teeth's flanks")  # fmt: skip
    in_shear = math.least(
        strength.shear(seat.hub.material, sides.hub, "hub_"),
        strength.shear(seat.pin, sides.pin, "pin_"),
    )
    sheared = _torque("shears_teeth", in_shear / _root_shear(seat, root), "shears the teeth off")
    return Hold(
        math.least(crushed, sheared),
        "bearing" if crushed < sheared else "shear",
        "twist, against the lesser of bearing share × teeth × mean diameter × depth × length × "
        "strength/2 and teeth × root diameter × tooth width × length × shear strength/2",
        f"common form for splined shafts; φ from {ROLOFF}, printed: common practice, no source",
    )


def _root(seat: Seat) -> float:
    """Diameter at the roots of a spline's teeth, m."""
    joint = seat.joint
    pitch = math.pi * joint.diameter / seat.flats
    root = joint.diameter - 2 * seat.beside("spline_depth", assumed.SPLINE_DEPTH) * pitch
    return found("root_diameter", root, "m", "diameter at the teeth's roots")


def _flank_pressure(seat: Seat, root: float) -> float:
    """Pressure on a spline's flanks that each newton-metre makes, Pa/(N·m)."""
    share = assumed.SPLINE_BEARING_MACHINED if seat.metal else assumed.SPLINE_BEARING_PRINTED
    pressure = spline.tooth_pressure(
        1.0, teeth=seat.flats, root_diameter=root, outside_diameter=seat.joint.diameter,
        length=seat.hub.length, bearing_share=seat.beside("bearing_share", share),
    )  # fmt: skip
    return each("flank_pressure_each", pressure, "pressure on the teeth's flanks")


def _root_shear(seat: Seat, root: float) -> float:
    """Shear at the roots of a spline's teeth that each newton-metre makes, Pa/(N·m)."""
    width = found("tooth_width", math.pi * root / (2 * seat.flats), "m",
                  "width of a tooth at its root")  # fmt: skip
    shear = spline.tooth_root_shear(
        1.0, teeth=seat.flats, root_diameter=root, tooth_width=width, length=seat.hub.length
    )
    return each("tooth_shear_each", shear, "shear at the teeth's roots")


def _pin_shear(seat: Seat) -> float:
    """Shear strength of a pin or key, Pa."""
    return seat.beside("pin_shear", assumed.CROSS_PIN_SHEAR)


def _torque(name: str, value: float, words: str) -> float:
    """A torque at which one thing gives way, N·m, with a line of its own."""
    return found(f"torque_{name}", value, "N*m", f"torque that {words}")
