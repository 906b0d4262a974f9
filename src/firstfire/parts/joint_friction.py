"""Joints that hold by friction or glue: pressed, bonded, clamped."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise
from firstfire.formulas import bonded_joint, clamp, interference, press_fit
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, strength
from firstfire.parts.joint_parts import ROLOFF, SHIGLEY, Hold, Seat, each, hub_strength
from firstfire.parts.softness import modulus_left, strength_left, stress_left
from firstfire.parts.strength import Strength
from firstfire.parts.written import mm, newton


class Pressed(NamedTuple):
    """A pin pressed into its hole.

    Attributes
    ----------
    by_fit
        Pressure that the fit makes, Pa, of which creep has kept so much.
    most
        Pressure at which the hub yields, Pa.
    kept
        Share of the hub's stress that creep has left.
    bears
        What the hub bears for as long as it has been pressed.
    """

    by_fit: float
    most: float
    kept: float
    bears: Strength

    @property
    def pressure(self) -> float:
        """What is between pin and hub, Pa: no more than the hub bears."""
        return found("pressure", math.least(self.by_fit, self.most), "Pa", "the lesser of both")


def pressed(moment: Moment, seat: Seat) -> Pressed:
    """Pressure of a pin in its hole, and what the hub bears of it."""
    kept = _stress_left(moment, seat, press_fit=True)
    by_fit = found("pressure_by_fit", _pressure_by_fit(moment, seat, kept), "Pa",
                   "pressure that the fit makes")  # fmt: skip
    bears = hub_strength(moment, seat, "lasting")
    most = press_fit.hub_yield_pressure(seat.joint.diameter, seat.hub.outside, bears.value)
    most = found("pressure_at_yield", most, "Pa", "pressure at which the hub yields")
    return Pressed(by_fit, most, kept, bears)


def press(moment: Moment, seat: Seat) -> Hold:
    """A pin pressed into its hole, its pressure relaxed by creep and capped by the hub's yield."""
    both = pressed(moment, seat)
    return Hold(
        press_fit.slip_torque(
            both.pressure, seat.joint.diameter, seat.hub.length, _friction(moment, seat)
        ),
        "section" if both.by_fit > both.most else ("creep" if both.kept < 0.9 else "friction"),
        "twist, against friction × pressure × π/2 × diameter² × length; pressure = working "
        "interference/(diameter × (hub + pin compliance)), not above the hub's yield",
        f"{SHIGLEY}, Eq. 3-56, 7-49; smoothing DIN 7190-1 (from memory)",
        _tighter(seat),
    )


def working_interference(moment: Moment, seat: Seat) -> float:
    """Interference left once the ripples of both surfaces are pressed flat, m."""
    rough = assumed.ROUGHNESS_METAL if seat.hub.metal else assumed.ROUGHNESS_PRINTED
    working = interference.interference_after_smoothing(
        seat.joint.interference,
        moment.given("pin_roughness", assumed.ROUGHNESS_METAL),
        moment.given("hole_roughness", rough),
    )
    return found("working_interference", working, "m",
                 "interference left once ripples are pressed flat")  # fmt: skip


def _pressure_by_fit(moment: Moment, seat: Seat, kept: float) -> float:
    """Pressure between pin and hub, of which creep has kept so much, Pa."""
    joint, body, pin = seat.joint, seat.hub, seat.pin
    left = modulus_left(body.material, seat.temperature)
    stiff = body.material["modulus_in_plane"] * left * body.share
    return press_fit.contact_pressure(
        working_interference(moment, seat),
        joint.diameter,
        hub_outer_diameter=body.outside,
        hub_modulus=moment.given("hub_modulus", stiff) * kept,
        hub_poisson=moment.given("hub_poisson", body.material["poisson"]),
        shaft_modulus=moment.given("pin_modulus", pin["modulus_in_plane"]),
        shaft_poisson=moment.given("pin_poisson", pin["poisson"]),
    )  # fmt: skip


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
    glue = strength.of_material(
        moment, bond, warm=strength_left(bond, seat.temperature), load="pulse",
        place="glue_", name="glue_strength",
    )  # fmt: skip
    sheared = each("glue_shear_each",
                   bonded_joint.mean_torsion_shear(1.0, joint.diameter, body.length),
                   "shear in the glue")  # fmt: skip
    return Hold(
        _sticks(moment, seat, glue) / sheared,
        glue.governs if seat.metal else "layers",
        "twist, against shear strength of the glue × π/2 × diameter² × length",
        "equilibrium; strength from lap-shear tests, which are means over the lap too",
        _better_bond(moment, seat),
    )


def _sticks(moment: Moment, seat: Seat, glue: Strength) -> float:
    """Shear strength of the glue on what it joins, Pa: falls as its own strength does."""
    bond = moment.engine.materials[seat.joint.bond]
    said = bond.get("shear_strength" if seat.metal else "shear_strength_on_plastic")
    own = moment.given("glue_strength_at_room", glue.at_room)
    at_room = moment.given("glue_shear_at_room", said or 0.0)
    sticks = strength.sticking(glue._replace(at_room=own), at_room).value
    return found("shear_strength", sticks, "Pa", "shear strength of the glue here and now")


def _better_bond(moment: Moment, seat: Seat) -> tuple[Raise, ...]:
    """Epoxy, where the bond is on a print; over more length."""
    joint = seat.joint
    most = min(1.5 * joint.length, 2 * moment.engine.crank.cheek_thickness)
    longer = mm(most)
    raised: tuple[Raise, ...] = ()
    if not seat.metal and joint.bond != "epoxy":
        raised += (Raise("Bond the joint with two-part epoxy, roughened",
                         {seat.prefix + "bond": "epoxy"}, "bond_joint"),)  # fmt: skip
    if seat.most_plate > 0 and not seat.hub.metal and most > 1.1 * joint.length:
        raised += (Raise(f"Bond over {longer} of length", {seat.prefix + "length": longer},
                         "reprint_crank"),)  # fmt: skip
    return raised


def clamped(moment: Moment, seat: Seat) -> Hold:
    """A split cheek drawn onto its pin by screws."""
    joint = seat.joint
    kept = _stress_left(moment, seat)
    # A print gives way until it embraces the pin; a stiff hub is taken to touch along two lines.
    close = moment.given("closeness", 1.0 if seat.hub.metal else math.pi / 2)
    pull = found("screw_force_left", joint.clamp_screw_force * kept, "N",
                 "screw pull that creep leaves")  # fmt: skip
    more = newton(1.5 * joint.clamp_screw_force)
    return Hold(
        clamp.slip_torque(pull, joint.diameter, _friction(moment, seat), closeness=close),
        "creep" if kept < 0.9 else "friction",
        "twist, against closeness × friction × screw force left by creep × diameter",
        ROLOFF,
        (Raise(f"Clamp with {more} of screw pull", {seat.prefix + "clamp_screw_force": more},
               "thicker_screws"),),
    )  # fmt: skip


def _stress_left(moment: Moment, seat: Seat, *, press_fit: bool = False) -> float:
    """Share of the hub's stress that creep has left."""
    kept = stress_left(
        seat.hub.material, moment.resting_hours, seat.temperature, press_fit=press_fit
    )
    return moment.given("stress_left_by_creep", kept)


def _friction(moment: Moment, seat: Seat) -> float:
    said = assumed.FRICTION_ON_METAL if seat.metal else assumed.FRICTION_ON_PLASTIC
    rubbing = moment.given("friction_said", said) * moment.engine.doubt.press_friction
    return found("friction", rubbing, "", "friction as it may be")
