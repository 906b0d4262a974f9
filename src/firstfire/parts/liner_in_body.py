"""Liner and body as one compound cylinder: how they fit, give way and press on each other."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.formulas import thick_cylinder
from firstfire.formulas.interference import interference_when_warm
from firstfire.formulas.recorded import found
from firstfire.parts import strength, warmth
from firstfire.parts.once import once
from firstfire.parts.piston import across_the_bore
from firstfire.parts.section import pulled_share, stretched_share
from firstfire.parts.softness import stress_left
from firstfire.parts.strength import ROUND_THE_BORE


class Touching(NamedTuple):
    """Liner and body as they touch: their stiffness and warmth, and how they fit when warm.

    Attributes
    ----------
    liner_modulus, body_modulus, liner_poisson, body_poisson
        Round the bore, warm; Pa.
    liner_at, liner_left, body_at
        Mean temperature of each, K, and what it leaves of the liner's strength.
    fit_warm
        Interference on diameter when warm, before creep, m; negative for a gap.
    """

    liner_modulus: float
    liner_poisson: float
    body_modulus: float
    body_poisson: float
    liner_at: float
    liner_left: float
    body_at: float
    fit_warm: float

    def sizes(self, moment: Moment) -> dict[str, float]:
        """Arguments of `thick_cylinder.pressure_passed_on` that do not change with the load."""
        parts = moment.parts
        return {
            "bore": parts.cylinder.bore, "interface": parts.liner.outside_diameter,
            "outer_diameter": parts.body.outside_diameter, "liner_modulus": self.liner_modulus,
            "liner_poisson": self.liner_poisson, "body_modulus": self.body_modulus,
            "body_poisson": self.body_poisson,
        }  # fmt: skip


@once
def touching(moment: Moment) -> Touching:
    """Liner and body at this moment."""
    parts, engine = moment.parts, moment.engine
    liner, body = parts.liner, parts.body
    tube, shell = engine.materials[liner.material], engine.materials[body.material]
    liner_at, body_at = warmth.mean(moment, "liner"), warmth.mean(moment, "body")
    spreads = moment.given("liner_expansion", across_the_bore(liner, tube))
    opens = moment.given("body_expansion", across_the_bore(body, shell))
    wall = (liner.outside_diameter - parts.cylinder.bore) / 2
    rise = moment.given("body_rise", warmth.rise(moment, body_at))
    fit = interference_when_warm(
        liner.fit_interference, liner.outside_diameter, rise, spreads, opens
    )
    stiff = strength.stiffness(liner, tube, liner_at, ROUND_THE_BORE)
    return Touching(
        liner_modulus=moment.given("liner_modulus", stiff),
        liner_poisson=moment.given("liner_poisson", tube["poisson"]),
        body_modulus=_body_modulus(moment, shell, body_at),
        body_poisson=moment.given("body_poisson", shell["poisson"]),
        liner_at=liner_at,
        liner_left=stretched_share(tube, warmth.part(moment, "liner"), wall),
        body_at=body_at,
        fit_warm=found("fit_warm", fit, "m", "warm fit of liner in body (less than 0: loose)"),
    )


def _body_modulus(moment: Moment, shell: Material, warm_at: float) -> float:
    """Stiffness of the body round the bore, Pa, as full as it is laid."""
    body, inside = moment.parts.body, moment.parts.liner.outside_diameter
    whole = strength.stiffness(body, shell, warm_at, ROUND_THE_BORE)
    filled = pulled_share(body, (body.outside_diameter - inside) / 2)
    modulus = moment.given("body_modulus", whole)
    if filled == 1:
        return modulus
    modulus = modulus * moment.given("body_filled", filled)
    return found("body_modulus_left", modulus, "Pa", "stiffness of the body as full as it is laid")


@once
def between(moment: Moment) -> float:
    """Pressure between liner and body, Pa: what gas and fit make, after creep and warming."""
    both = touching(moment)
    shell = moment.engine.materials[moment.parts.body.material]
    left = stress_left(shell, moment.resting_hours, both.body_at)
    fit = both.fit_warm
    if fit > 0:
        kept = moment.given("fit_left_by_creep", left)
        fit = found("fit", fit * kept, "m", "fit left by creep")
    pressure = thick_cylinder.pressure_passed_on(
        moment.gas_pressure, interference=fit, **both.sizes(moment)
    )
    return found("pressure_on_body", pressure, "Pa", "pressure between liner and body")
