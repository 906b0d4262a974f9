"""The piston below its crown: its bosses pounded, its pin bent."""

from __future__ import annotations

import numpy as np

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import PartTemperature, Raise, Way
from firstfire.engine.sections.make import Made
from firstfire.engine.shapes import BOSS_OUTSIDE
from firstfire.formulas import plain_bearing, shaft
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import modulus_left, strength_left
from firstfire.parts.strength import PRESSED
from firstfire.parts.worked import piston as worked

_SHIGLEY = "R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed."

BOSSES_CRUSH = Failure(
    id="piston.boss.crush",
    part="pin bosses",
    failure="are pounded oval",
    unit="Pa",
    formula=(
        "force/(pin diameter × bosses' width), against the warm piston's strength when pressed"
    ),
    source=f"{_SHIGLEY}, section 12-5: strengths are quoted against the mean",
    during=TURNING,
    demand_is="pressure on the bearing's rectangle",
    examples=(worked.BOSSES_CRUSH,),
)

PIN_BENDS = Failure(
    id="pin.bend",
    part="piston pin",
    failure="bends or breaks",
    unit="Pa",
    formula=(
        "32 × bending moment × outside/(π (outside⁴ - inside⁴)), moment = force × (span/4 - eye "
        "width/8), against yield or fatigue"
    ),
    source=f"beam on two supports; {_SHIGLEY}, Eq. 3-24",
    during=TURNING,
    demand_is="bending stress",
    examples=(worked.PIN_BENDS,),
)

PIN_WALKS = Failure(
    id="pin.walk",
    part="piston pin",
    failure="walks into the bore",
    unit="m",
    formula="way of a pin that nothing holds",
    source="none",
    during=TURNING,
)


@judges(BOSSES_CRUSH)
def bosses_crush(moment: Moment) -> Way:
    """Peak pressure of the pin in both bosses, as full as they are laid round its holes."""
    piston, pin = moment.parts.piston, moment.parts.pin
    force, warm_at = _largest(moment), warmth.mean(moment, "boss", "skirt", "crown")
    material = moment.engine.materials[piston.material]
    wall = (BOSS_OUTSIDE - 1) / 2 * pin.diameter
    bears = strength.of(
        moment, piston, pull=PRESSED, warm=strength_left(material, warm_at), load="pressed",
        section=pulled_share(piston.filled_as(piston.boss), wall),
    )  # fmt: skip
    return BOSSES_CRUSH.way(
        moment,
        demand=plain_bearing.projected_pressure(force, pin.diameter, piston.boss_width),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(
            raising.thicker("piston.boss_width", piston.boss_width, "the bosses {} wide together",
                            "reprint_piston"),
            _thicker_pin(moment),
            *raising.other_plastic("piston.material", material, "piston", "strength_in_plane",
                                   "reprint_piston"),
        ),
    )  # fmt: skip


@judges(PIN_BENDS)
def pin_bends(moment: Moment) -> Way:
    """Bending of the piston pin between its bosses."""
    parts = moment.parts
    pin, eye = parts.pin, parts.rod.small_end_width
    force, material = _largest(moment), moment.engine.materials[pin.material]
    play = moment.given("support_play", assumed.SUPPORT_PLAY)
    span = found("span", eye + parts.piston.boss_width / 2 + play, "m",
                 "span between the middles of the bosses")  # fmt: skip
    bent = found("bending_moment", plain_bearing.pin_bending_moment(force, span, eye), "N*m",
                 "bending moment in its middle")  # fmt: skip
    warm_at = warmth.mean(moment, "boss", "skirt", "crown")
    bears = strength.of_material(moment, material, warm=strength_left(material, warm_at))
    larger = _thicker_pin(moment)
    ground = Raise("Make the piston pin of ground silver steel", {"pin.material": "silver_steel"},
                   "steel_pin")  # fmt: skip
    return PIN_BENDS.way(
        moment,
        demand=shaft.bending_stress(bent, pin.diameter, pin.inside_diameter),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(larger,) if pin.material == "silver_steel" else (ground, larger),
    )  # fmt: skip


pin_walks = not_judged(
    PIN_WALKS,
    "how far a pin walks that nothing holds is not modelled; it scores the bore",
    lambda moment: moment.parts.pin.retention == "none",
)


def across_the_bore(made: Made, material: Material) -> float:
    """Expansion of a diameter, 1/K: across the layers where these do not lie flat to the bore."""
    upright = made.made != "printed" or made.layers_stacked == "along_bore"
    return material.along_or_across("expansion", across=not upright)


def weighed_mean(heat: PartTemperature, material: Material) -> float:
    """Mean temperature through a wall, weighed by what stiffness each depth still has, K."""
    depths = np.linspace(heat.depth[0], heat.depth[-1], 9)
    temperatures = np.interp(depths, heat.depth, heat.profile).tolist()
    weights = [modulus_left(material, t) for t in temperatures]
    pairs = zip(weights, temperatures, strict=True)
    return float(sum(w * t for w, t in pairs) / sum(weights))


def _largest(moment: Moment) -> float:
    force = moment.loads.cylinders[moment.cylinder].rod
    return moment.given("force", max(float(force.max()), -float(force.min())))


def _thicker_pin(moment: Moment) -> Raise:
    now = moment.parts.pin.diameter
    return raising.thicker("pin.diameter", now, "the piston pin {} thick", "reprint_piston", 1.2)


JUDGEMENTS = (bosses_crush, pin_bends, pin_walks)
