"""Joints that hold by friction or glue: pressed, bonded, clamped."""

from __future__ import annotations

import math

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise
from firstfire.formulas import bonded_joint, clamp, interference, press_fit
from firstfire.parts import assumed, strength
from firstfire.parts.joint_parts import ROLOFF, SHIGLEY, Hold, Seat, holds, hub_strength
from firstfire.parts.softness import modulus_left, strength_left, stress_left
from firstfire.parts.written import mm, newton

_RUBBING = Line("friction", "friction_said * doubt.press_friction", "", "friction as it may be")
_PRESSED = (
    Line("working_interference",
         "crank.joint.interference - 0.8 * (pin_roughness + hole_roughness)", "m",
         "interference left once ripples are pressed flat"),
    Line("hub_gives",
         "((hub_outside**2 + crank.joint.diameter**2) / (hub_outside**2 - "
         "crank.joint.diameter**2) + hub_poisson) / (hub_modulus * stress_left_by_creep)", "1/Pa",
         "what the cheek gives way, after creep"),
    Line("pin_gives", "(1 - pin_poisson) / pin_modulus", "1/Pa", "what the pin gives way"),
    Line("pressure_by_fit",
         "max(working_interference, 0) / (crank.joint.diameter * (hub_gives + pin_gives))", "Pa",
         "pressure that the fit makes"),
    Line("pressure_at_yield",
         "hub_strength * (1 - (crank.joint.diameter / hub_outside)**2) / 2", "Pa",
         "pressure at which the cheek yields"),
    Line("pressure", "min(pressure_by_fit, pressure_at_yield)", "Pa", "the lesser of both"),
    _RUBBING,
    holds("friction * pressure * pi * crank.joint.diameter * engaged * crank.joint.diameter / 2"),
)  # fmt: skip
_BONDED = (holds("shear_strength * pi * crank.joint.diameter**2 * engaged / 2"),)
_CLAMPED = (
    Line("screw_force_left", "crank.joint.clamp_screw_force * stress_left_by_creep", "N",
         "screw pull that creep leaves"),
    _RUBBING,
    holds("closeness * friction * screw_force_left * crank.joint.diameter"),
)  # fmt: skip


def press(moment: Moment, seat: Seat) -> Hold:
    """A pin pressed into its hole, its pressure relaxed by creep and capped by the hub's yield."""
    joint, body, pin = seat.joint, seat.hub, seat.pin
    rough = assumed.ROUGHNESS_METAL if body.metal else assumed.ROUGHNESS_PRINTED
    working = interference.interference_after_smoothing(
        joint.interference, assumed.ROUGHNESS_METAL, rough
    )
    warm_at = seat.temperature
    kept = stress_left(body.material, moment.resting_hours, warm_at, press_fit=True)
    stiff = body.material["modulus_in_plane"] * modulus_left(body.material, warm_at) * body.share
    pressure = press_fit.contact_pressure(
        working,
        joint.diameter,
        hub_outer_diameter=body.outside,
        hub_modulus=stiff * kept,
        hub_poisson=body.material["poisson"],
        shaft_modulus=pin["modulus_in_plane"],
        shaft_poisson=pin["poisson"],
    )
    lasting = hub_strength(moment, seat, "lasting")
    most = press_fit.hub_yield_pressure(joint.diameter, body.outside, lasting.value)
    gripped, rubbing = min(pressure, most), _friction(moment, seat)
    return Hold(
        press_fit.slip_torque(gripped, joint.diameter, body.length, rubbing),
        "section" if pressure > most else ("creep" if kept < 0.9 else "friction"),
        "twist, against friction × pressure × π/2 × diameter² × length; pressure = working "
        "interference/(diameter × (hub + pin compliance)), not above the hub's yield",
        f"{SHIGLEY}, Eq. 3-56, 7-49; smoothing DIN 7190-1 (from memory)",
        {
            **seat.told(interference=joint.interference, diameter=joint.diameter),
            "pin_roughness": assumed.ROUGHNESS_METAL,
            "hole_roughness": rough,
            "working_interference": working,
            "hub_outside": body.outside,
            "hub_modulus": stiff,
            "hub_poisson": body.material["poisson"],
            "pin_modulus": pin["modulus_in_plane"],
            "pin_poisson": pin["poisson"],
            "stress_left_by_creep": kept,
            "pressure": gripped,
            "pressure_at_yield": most,
            **_friction_inputs(moment, seat),
            "engaged": body.length,
            **lasting.inputs_as("hub_"),
        },
        _tighter(seat),
        lasting.line_as("hub_", "hub_strength") + seat.lines(*_PRESSED),
    )


def _tighter(seat: Seat) -> tuple[Raise, ...]:
    good = (0.0015 if seat.hub.metal else 0.008) * seat.joint.diameter
    if seat.joint.interference >= 0.8 * good:
        return ()
    value = mm(good, 0.01)
    return (Raise(f"Make the {seat.words[0]} {value} larger than its hole",
                  {seat.prefix + "interference": value}, "reprint_crank"),)  # fmt: skip


def bonded(moment: Moment, seat: Seat) -> Hold:
    """A pin glued into its hole."""
    joint, body = seat.joint, seat.hub
    bond = moment.engine.materials[joint.bond]
    on_plastic = not seat.metal
    said = bond.get("shear_strength_on_plastic" if on_plastic else "shear_strength")
    glue = strength.of_material(
        moment, bond, warm=strength_left(bond, seat.temperature), load="pulse"
    )
    stuck = strength.sticking(glue, said or 0.0)
    sticks = stuck.value
    unit = bonded_joint.mean_torsion_shear(1.0, joint.diameter, body.length)
    most = min(1.5 * joint.length, 2 * moment.engine.crank.cheek_thickness)
    longer = mm(most)
    raised: tuple[Raise, ...] = ()
    if on_plastic and joint.bond != "epoxy":
        raised += (Raise("Bond the joint with two-part epoxy, roughened",
                         {seat.prefix + "bond": "epoxy"}, "bond_joint"),)  # fmt: skip
    if seat.most_plate > 0 and not body.metal and most > 1.1 * joint.length:
        raised += (Raise(f"Bond over {longer} of length", {seat.prefix + "length": longer},
                         "reprint_crank"),)  # fmt: skip
    return Hold(
        sticks / unit,
        "layers" if on_plastic else glue.governs,
        "twist, against shear strength of the glue × π/2 × diameter² × length",
        "equilibrium; strength from lap-shear tests, which are means over the lap too",
        {"shear_strength": sticks, **seat.told(diameter=joint.diameter),
         "engaged": body.length, **stuck.inputs_as("glue_")},
        raised,
        stuck.line_as("glue_", "shear_strength") + seat.lines(*_BONDED),
    )  # fmt: skip


def clamped(moment: Moment, seat: Seat) -> Hold:
    """A split cheek drawn onto its pin by screws."""
    joint, body = seat.joint, seat.hub
    kept = stress_left(body.material, moment.resting_hours, seat.temperature)
    rubbing = _friction(moment, seat)
    # A print gives way until it embraces the pin; a stiff hub is taken to touch along two lines.
    close = 1.0 if body.metal else math.pi / 2
    pull = joint.clamp_screw_force * kept
    more = newton(1.5 * joint.clamp_screw_force)
    return Hold(
        clamp.slip_torque(pull, joint.diameter, rubbing, closeness=close),
        "creep" if kept < 0.9 else "friction",
        "twist, against closeness × friction × screw force left by creep × diameter",
        ROLOFF,
        {**seat.told(clamp_screw_force=joint.clamp_screw_force, diameter=joint.diameter),
         "screw_force_left": pull,
         "stress_left_by_creep": kept, **_friction_inputs(moment, seat), "closeness": close},
        (Raise(f"Clamp with {more} of screw pull", {seat.prefix + "clamp_screw_force": more},
               "thicker_screws"),),
        seat.lines(*_CLAMPED),
    )  # fmt: skip


def _friction(moment: Moment, seat: Seat) -> float:
    return _friction_said(seat) * moment.engine.doubt.press_friction


def _friction_said(seat: Seat) -> float:
    return assumed.FRICTION_ON_METAL if seat.metal else assumed.FRICTION_ON_PLASTIC


def _friction_inputs(moment: Moment, seat: Seat) -> dict[str, float]:
    """Numbers put in for the friction."""
    return {"friction_said": _friction_said(seat),
            "doubt.press_friction": moment.engine.doubt.press_friction,
            "friction": _friction(moment, seat)}  # fmt: skip
