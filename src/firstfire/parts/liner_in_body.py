"""Liner and body as one compound cylinder: how they fit, give way and press on each other."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line
from firstfire.formulas import thick_cylinder
from firstfire.formulas.interference import interference_when_warm
from firstfire.parts import strength, warmth
from firstfire.parts.once import once
from firstfire.parts.piston import across_the_bore
from firstfire.parts.section import pulled_share, stretched_share
from firstfire.parts.softness import stress_left
from firstfire.parts.strength import ROUND_THE_BORE

WARM_FIT = Line(
    "fit_warm",
    "liner.fit_interference + liner.outside_diameter * body_rise * (liner_expansion - "
    "body_expansion)", "m", "warm fit of liner in body (less than 0: loose)",
)  # fmt: skip
GIVE = (
    Line("liner_gives",
         "liner.outside_diameter / liner_modulus * ((liner.outside_diameter**2 + "
         "cylinder.bore**2) / (liner.outside_diameter**2 - cylinder.bore**2) - liner_poisson)",
         "m/Pa", "what the liner gives way, for each MPa between them"),
    Line("body_gives",
         "liner.outside_diameter / body_modulus * ((body.outside_diameter**2 + "
         "liner.outside_diameter**2) / (body.outside_diameter**2 - liner.outside_diameter**2) + "
         "body_poisson)", "m/Pa", "what the body gives way, for each MPa"),
)  # fmt: skip
PASSED_ON = (
    WARM_FIT,
    Line("fit", "max(fit_warm, 0) * fit_left_by_creep + min(fit_warm, 0)", "m",
         "fit left by creep"),
    Line("liner_grows",
         "liner.outside_diameter * 2 * cylinder.bore**2 * gas_pressure / (liner_modulus * "
         "(liner.outside_diameter**2 - cylinder.bore**2))", "m",
         "what gas alone would widen the liner"),
    *GIVE,
    Line("pressure_on_body", "max(0, (liner_grows + fit) / (liner_gives + body_gives))", "Pa",
         "pressure between liner and body"),
)  # fmt: skip


class Pressed(NamedTuple):
    """Pressure between liner and body, Pa, and the numbers put in for it."""

    interface: float
    inputs: dict[str, float]


class Touching(NamedTuple):
    """Liner and body as they touch: their stiffness and warmth, and how they fit when warm.

    Attributes
    ----------
    liner_modulus, body_modulus, liner_poisson, body_poisson
        Round the bore, warm; Pa.
    spreads, opens
        Expansion of each round the bore, 1/K.
    liner_at, liner_left, body_at
        Mean temperature of each, K, and what it leaves of the liner's strength.
    rise
        Of the body over the air, K.
    fit_warm
        Interference on diameter when warm, before creep, m; negative for a gap.
    """

    liner_modulus: float
    liner_poisson: float
    body_modulus: float
    body_poisson: float
    spreads: float
    opens: float
    liner_at: float
    liner_left: float
    body_at: float
    rise: float
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

    def inputs(self, moment: Moment) -> dict[str, float]:
        """Numbers put in."""
        parts = moment.parts
        return {
            "cylinder.bore": parts.cylinder.bore,
            "liner.outside_diameter": parts.liner.outside_diameter,
            "body.outside_diameter": parts.body.outside_diameter,
            "liner.fit_interference": parts.liner.fit_interference, "body_rise": self.rise,
            "liner_expansion": self.spreads, "body_expansion": self.opens,
            "liner_modulus": self.liner_modulus, "liner_poisson": self.liner_poisson,
            "body_modulus": self.body_modulus, "body_poisson": self.body_poisson,
        }  # fmt: skip


@once
def touching(moment: Moment) -> Touching:
    """Liner and body at this moment."""
    parts, engine = moment.parts, moment.engine
    liner, body = parts.liner, parts.body
    tube, shell = engine.materials[liner.material], engine.materials[body.material]
    liner_at, body_at = warmth.mean(moment, "liner"), warmth.mean(moment, "body")
    spreads, opens = across_the_bore(liner, tube), across_the_bore(body, shell)
    wall = (liner.outside_diameter - parts.cylinder.bore) / 2
    solid = pulled_share(body, (body.outside_diameter - liner.outside_diameter) / 2)
    rise = warmth.rise(moment, body_at)
    return Touching(
        liner_modulus=strength.stiffness(liner, tube, liner_at, ROUND_THE_BORE),
        liner_poisson=tube["poisson"],
        body_modulus=strength.stiffness(body, shell, body_at, ROUND_THE_BORE) * solid,
        body_poisson=shell["poisson"],
        spreads=spreads,
        opens=opens,
        liner_at=liner_at,
        liner_left=stretched_share(tube, warmth.part(moment, "liner"), wall),
        body_at=body_at,
        rise=rise,
        fit_warm=interference_when_warm(
            liner.fit_interference, liner.outside_diameter, rise, spreads, opens
        ),
    )


@once
def between(moment: Moment) -> Pressed:
    """Pressure between liner and body: what gas and fit make, after creep and warming."""
    both = touching(moment)
    shell = moment.engine.materials[moment.parts.body.material]
    kept = stress_left(shell, moment.resting_hours, both.body_at)
    fit = both.fit_warm
    pressure = thick_cylinder.pressure_passed_on(
        moment.gas_pressure, gap=-fit * kept if fit > 0 else -fit, **both.sizes(moment)
    )
    return Pressed(pressure, {
        "gas_pressure": moment.gas_pressure, **both.inputs(moment), "fit_left_by_creep": kept,
        "pressure_on_body": pressure,
    })  # fmt: skip
