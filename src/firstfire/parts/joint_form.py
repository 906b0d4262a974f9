"""Crank joints that hold by their shape: keys, cross pins, polygons, splines, one piece."""

from __future__ import annotations

import math

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise
from firstfire.formulas import cross_pin, key, polygon_joint, shaft, spline
from firstfire.parts import assumed, strength
from firstfire.parts.joint_parts import (
    CRUSHING,
    JOINT,
    ROLOFF,
    SHIGLEY,
    Hold,
    cross_pinned,
    holds,
    hub,
    hub_strength,
    one_more,
    pin_material,
    pin_strength,
)
from firstfire.parts.softness import is_metal
from firstfire.parts.written import mm

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
_PINNED = (
    Line("hub_wall", "(crank.cheek_width - crank.joint.diameter) / 2", "m",
         "wall of the cheek round the pin"),
    Line("torque_shears_cross_pin",
         "pin_shear * pi / 4 * crank.joint.cross_pin_diameter**2 * crank.joint.diameter", "N*m",
         "torque that shears one cross pin"),
    Line("torque_crushes_crankpin",
         "pin_strength * crank.joint.cross_pin_diameter * crank.joint.diameter**2 / 6", "N*m",
         "torque at which it crushes the crankpin"),
    Line("torque_crushes_cheek",
         "hub_strength * crank.joint.cross_pin_diameter * hub_wall * (crank.joint.diameter + "
         "hub_wall)", "N*m", "torque at which it crushes the cheek"),
    holds("crank.joint.cross_pins * min(torque_shears_cross_pin, torque_crushes_crankpin, "
          "torque_crushes_cheek)"),
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
_SOLID = (
    strength.SHEAR,
    holds("shear_strength * pi / 16 * crank.crankpin_diameter**3", "torque that twists it off"),
)


def keyed(moment: Moment) -> Hold:
    """Square keys between pin and cheek."""
    joint, body = moment.engine.crank.joint, hub(moment)
    width = joint.cross_pin_diameter
    in_hub, in_pin = hub_strength(moment, body), pin_strength(moment, across=False)
    crushing = min(in_hub.value, in_pin.value)
    sheared = assumed.CROSS_PIN_SHEAR / key.shear_stress(1.0, joint.diameter, width, body.length)
    crushed = crushing / key.bearing_stress(1.0, joint.diameter, width, body.length)
    return Hold(
        joint.cross_pins * min(sheared, crushed),
        "section" if sheared < crushed else "bearing",
        "twist, against keys × the lesser of shear strength × width × length × diameter/2 and "
        "bearing strength × half the width × length × diameter/2",
        f"{SHIGLEY}, Example 7-6",
        {"crank.joint.cross_pins": joint.cross_pins, "crank.joint.cross_pin_diameter": width,
         "crank.joint.diameter": joint.diameter, "engaged": body.length,
         "pin_shear": assumed.CROSS_PIN_SHEAR, "bearing_strength": crushing,
         "torque_shears_key": sheared, "torque_crushes_keyway": crushed,
         **in_hub.inputs_as("hub_"), **in_pin.inputs_as("pin_")},
        (JOINT + "cross_pins", JOINT + "cross_pin_diameter", *strength.PATHS),
        (*one_more(joint.cross_pins, "key"), *cross_pinned(moment)),
        _both(in_hub, in_pin) + _KEYED,
    )  # fmt: skip


def pinned(moment: Moment) -> Hold:
    """Pins across the crankpin, through the cheek on both sides."""
    joint, body = moment.engine.crank.joint, hub(moment)
    size, across = joint.cross_pin_diameter, joint.diameter
    in_hub = hub_strength(moment, body)
    in_pin = pin_strength(moment, across=False)
    wall = (body.outside - across) / 2
    each = {
        "torque_shears_cross_pin":
            assumed.CROSS_PIN_SHEAR / cross_pin.shear_stress(1.0, across, size),
        "torque_crushes_crankpin":
            in_pin.value / cross_pin.shaft_bearing_stress(1.0, across, size),
        "torque_crushes_cheek":
            in_hub.value / cross_pin.hub_bearing_stress(1.0, across, size, wall),
    }  # fmt: skip
    weakest = min(each, key=each.__getitem__)
    most = min(1.34 * size, 0.4 * across)
    thicker = mm(most)
    raised = one_more(joint.cross_pins, "cross pin")
    if most > 1.05 * size:
        raised += (Raise(f"Drill for cross pins of {thicker}",
                         {JOINT + "cross_pin_diameter": thicker}, "cross_pin"),)  # fmt: skip
    plated = () if body.metal and is_metal(pin_material(moment)) else cross_pinned(moment)
    return Hold(
        joint.cross_pins * each[weakest],
        "bearing" if "crushes" in weakest else "section",
        "twist, against pins × the least of shear strength × π/4 × cross pin² × diameter, "
        "crankpin strength × cross pin × diameter²/6 and hub strength × cross pin × wall × "
        "(diameter + wall)",
        f"equilibrium; form of {ROLOFF}",
        {"crank.joint.cross_pins": joint.cross_pins, "crank.joint.cross_pin_diameter": size,
         "crank.joint.diameter": across, "crank.cheek_width": body.outside,
         "pin_shear": assumed.CROSS_PIN_SHEAR, **each, **in_hub.inputs_as("hub_"),
         **in_pin.inputs_as("pin_")},
        (JOINT + "cross_pins", JOINT + "cross_pin_diameter", "crank.cheek_width",
         *strength.PATHS),
        (*raised, *plated),
        _both(in_hub, in_pin) + _PINNED,
    )  # fmt: skip


def polygon(moment: Moment) -> Hold:
    """A prism in a matching hole."""
    joint, body = moment.engine.crank.joint, hub(moment)
    in_hub, in_pin = hub_strength(moment, body), pin_strength(moment, across=False)
    crushing = min(in_hub.value, in_pin.value)
    unit = polygon_joint.corner_pressure(1.0, joint.flats, joint.diameter, body.length)
    larger = mm(1.25 * joint.diameter)
    return Hold(
        crushing / unit,
        "bearing",
        "twist, against bearing strength × flats × length × side²/12, the pressure rising to the "
        "corners",
        "equilibrium; same form of assumption as DIN 32711 and 32712 (from memory)",
        {"crank.joint.flats": joint.flats, "crank.joint.diameter": joint.diameter,
         "engaged": body.length, "bearing_strength": crushing, **in_hub.inputs_as("hub_"),
         **in_pin.inputs_as("pin_")},
        (JOINT + "flats", *strength.PATHS),
        (Raise(f"Make the polygon {larger} across its flats", {JOINT + "diameter": larger},
               "reprint_crank"), *cross_pinned(moment)),
        _both(in_hub, in_pin) + _POLYGON,
    )  # fmt: skip


def splined(moment: Moment) -> Hold:
    """Straight teeth in a matching hole."""
    joint, body = moment.engine.crank.joint, hub(moment)
    pitch = math.pi * joint.diameter / joint.flats
    root = joint.diameter - 2 * assumed.SPLINE_DEPTH * pitch
    metal = body.metal and is_metal(pin_material(moment))
    bearing = assumed.SPLINE_BEARING_MACHINED if metal else assumed.SPLINE_BEARING_PRINTED
    in_hub, in_pin = hub_strength(moment, body), pin_strength(moment, across=False)
    crushing = min(in_hub.value, in_pin.value)
    crushed = crushing / spline.tooth_pressure(
        1.0, teeth=joint.flats, root_diameter=root, outside_diameter=joint.diameter,
        length=body.length, bearing_share=bearing,
    )  # fmt: skip
    width = math.pi * root / (2 * joint.flats)
    sheared = min(
        strength.shear(body.material, in_hub), strength.shear(pin_material(moment), in_pin)
    ) / spline.tooth_root_shear(
        1.0, teeth=joint.flats, root_diameter=root, tooth_width=width, length=body.length
    )
    larger = mm(1.25 * joint.diameter)
    return Hold(
        min(crushed, sheared),
        "bearing" if crushed < sheared else "shear",
        "twist, against the lesser of bearing share × teeth × mean diameter × depth × length × "
        "strength/2 and teeth × root diameter × tooth width × length × shear strength/2",
        f"common form for splined shafts; φ from {ROLOFF}, printed: common practice, no source",
        {"crank.joint.flats": joint.flats, "crank.joint.diameter": joint.diameter,
         "engaged": body.length, "spline_depth": assumed.SPLINE_DEPTH, "root_diameter": root,
         "bearing_share": bearing, "torque_crushes_teeth": crushed,
         "torque_shears_teeth": sheared,
         "hub_shear_share": strength.shear_share(body.material),
         "pin_shear_share": strength.shear_share(pin_material(moment)),
         **in_hub.inputs_as("hub_"), **in_pin.inputs_as("pin_")},
        (JOINT + "flats", *strength.PATHS),
        (Raise(f"Make the spline {larger} in diameter", {JOINT + "diameter": larger},
               "reprint_crank"), *cross_pinned(moment)),
        _both(in_hub, in_pin) + _SPLINED,
    )  # fmt: skip


def solid(moment: Moment) -> Hold:
    """Pin and cheek in one piece: the pin twists off at its root."""
    crank = moment.engine.crank
    pin = pin_strength(moment, across=True)
    unit = shaft.torsion_stress(1.0, crank.crankpin_diameter)
    larger = mm(1.2 * crank.crankpin_diameter)
    raised = [Raise(f"Make the crankpin {larger} thick", {"crank.crankpin_diameter": larger},
                    "reprint_crank")]  # fmt: skip
    if not is_metal(pin_material(moment)):
        raised.append(
            Raise("Make the crankpin of ground steel bar",
                  {"crank.crankpin_material": "silver_steel"}, "steel_pin")
        )  # fmt: skip
    return Hold(
        strength.shear(pin_material(moment), pin) / unit,
        pin.governs,
        "twist, against shear strength × π/16 × diameter³ of the pin",
        f"{SHIGLEY}, Eq. 3-37",
        {"crank.crankpin_diameter": crank.crankpin_diameter,
         "shear_of_tensile": strength.shear_share(pin_material(moment)), **pin.inputs},
        ("crank.crankpin_diameter", *strength.PATHS),
        tuple(raised),
        pin.line + _SOLID,
    )  # fmt: skip


def _both(in_hub: strength.Strength, in_pin: strength.Strength) -> tuple[Line, ...]:
    """Lines of both strengths."""
    return in_hub.line_as("hub_", "hub_strength") + in_pin.line_as("pin_", "pin_strength")
