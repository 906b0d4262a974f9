"""What the fit alone does to a liner: the body presses it from outside, crushing and folding it.

Pressing opens no crack, so it is never set against tensile strength as a pull is.
"""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import pressed_ring, thick_cylinder
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, strength
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.liner_in_body import Touching, touching
from firstfire.parts.once import once
from firstfire.parts.softness import is_metal, stress_left
from firstfire.parts.worked import liner_fit as worked
from firstfire.parts.written import mm, mm_down

CRUSHES = Failure(
    id="liner.crush",
    part="liner",
    failure="is crushed by its fit",
    unit="Pa",
    formula=(
        "2 × pressure of the fresh fit × outside²/(outside² - bore²), the pressing round the bore"
        " without gas, against strength when pressed"
    ),
    source="Lamé; Shigley 9, Eq. 3-49, 3-56; strength of grey iron when pressed: Table A-24",
    during=GAS,
    demand_is="pressing round the bore",
    examples=(worked.IRON_IS_CRUSHED, worked.PRINT_IS_CRUSHED),
)
OVALISES = Failure(
    id="liner.ovalise",
    part="liner",
    failure="is squeezed oval by its fit",
    unit="Pa",
    formula=(
        "pressure of the fresh fit, against the lesser root p of p² - (σ t/R + (1 + 6 w/t) p_f) p"
        " + σ p_f t/R = 0, p_f = modulus/(4 (1 - ν²)) × (t/R)³; σ strength when pressed, t wall, "
        "R mean radius, w out of round"
    ),
    source="Timoshenko, Gere, Theory of Elastic Stability, 2nd ed., sections 7.3 and 7.5 (from "
           "memory); Roark 7, Table 15.2",
    during=GAS,
    capacity_is="pressure at which it yields as an oval",
    examples=(worked.TUBE_IN_A_PRINT_GOES_OVAL, worked.PLASTIC_TUBE_GOES_OVAL),
)  # fmt: skip


class _Fit(NamedTuple):
    """Pressure of the fresh fit without gas, Pa, what it works on, and what the liner stands."""

    pressure: float
    touching: Touching
    bears: strength.Strength
    over_pulled: float

    @property
    def crushed_at(self) -> float:
        """Strength of the liner when pressed, Pa."""
        stands = self.bears.value * self.over_pulled
        return found("strength_pressed", stands, "Pa", "strength when pressed")


def pressed_in(moment: Moment) -> bool:
    """Whether a liner of its own is pressed into a body."""
    liner = moment.parts.liner
    return liner.kind != "bare_print" and liner.fit_interference > 0


@judges(CRUSHES, where=pressed_in)
def crushes(moment: Moment) -> Way:
    """Pressing round the bore by the fit alone, against strength when pressed."""
    fit, liner, bore = _fit(moment), moment.parts.liner, moment.parts.cylinder.bore
    hoop = thick_cylinder.hoop_stress(
        0.0, bore, liner.outside_diameter, outside_pressure=fit.pressure
    )
    return CRUSHES.way(
        moment,
        demand=-found("hoop_at_bore", hoop, "Pa", "pull round the bore"),
        capacity=fit.crushed_at,
        governs=fit.bears.governs,
        temperature=fit.touching.liner_at,
        raise_by=_eased_fit(moment),
    )


@judges(OVALISES, where=pressed_in)
def ovalises(moment: Moment) -> Way:
    """Pressure of the fit against what squeezes a ring oval that was not quite round."""
    fit, liner, bore = _fit(moment), moment.parts.liner, moment.parts.cylinder.bore
    wall = found("wall", (liner.outside_diameter - bore) / 2, "m", "liner's wall")
    mean_radius = found("mean_radius", (liner.outside_diameter + bore) / 4, "m",
                        "liner's mean radius")  # fmt: skip
    left, oval = _creep_leaves(moment, fit), _out_of_round(moment)
    folds = pressed_ring.folding_pressure(
        fit.touching.liner_modulus * left, fit.touching.liner_poisson, wall, mean_radius
    )
    folds = found("folds_at", folds, "Pa", "pressure that folds a round ring")
    yields = fit.crushed_at
    if yields <= 0:
        raise OutsideValidity("Heat has left the liner no strength: a ring has none to fold with.")
    return OVALISES.way(
        moment,
        demand=found("presses", fit.pressure, "Pa", "pressure of the fresh fit"),
        capacity=pressed_ring.out_of_round_pressure(yields, folds, wall, mean_radius, oval),
        governs="ovality" if yields * wall / mean_radius > folds else fit.bears.governs,
        temperature=fit.touching.liner_at,
        raise_by=(*_eased_fit(moment), _stouter(moment)),
    )


@once
def _fit(moment: Moment) -> _Fit:
    liner = moment.parts.liner
    both = touching(moment)
    if both.fit_warm <= 0:
        raise OutsideValidity("As warm as this the liner stands loose: nothing presses on it.")
    pressure = both.fit_warm / thick_cylinder.give_of_both(**both.sizes(moment))
    material = moment.engine.materials[liner.material]
    bears = strength.of(moment, liner, pull=strength.PRESSED, warm=both.liner_left, load="pressed")
    pressure = found("fit_pressure", pressure, "Pa", "pressure of the fresh fit, without gas")
    over_pulled = moment.given("pressed_over_pulled", strength.pressed_share(material))
    return _Fit(pressure, both, bears, over_pulled)


def _creep_leaves(moment: Moment, fit: _Fit) -> float:
    material = moment.engine.materials[moment.parts.liner.material]
    if is_metal(material):
        return 1.0
    left = stress_left(material, moment.resting_hours, fit.touching.liner_at)
    return moment.given("liner_creep_leaves", left)


def _out_of_round(moment: Moment) -> float:
    """Half of what the hole's diameter differs from place to place, m."""
    printed = "printed" in (moment.parts.body.made, moment.parts.liner.made)
    differs = moment.engine.printing.repeatability if printed else assumed.TUBE_OUT_OF_ROUND
    return moment.given("out_of_round", differs / 2)


def _eased_fit(moment: Moment) -> tuple[Raise, ...]:
    fit = moment.parts.liner.fit_interference
    if fit <= 0.015e-3:
        return ()
    lighter = mm_down(0.5 * fit)
    return (Raise(f"Let the liner be only {lighter} larger than its hole",
                  {"liner.fit_interference": lighter}, "reprint_body"),)  # fmt: skip


def _stouter(moment: Moment) -> Raise:
    parts = moment.parts
    more = 0.5 * (parts.liner.outside_diameter - parts.cylinder.bore)
    wider = mm(parts.liner.outside_diameter + more)
    change = {"liner.outside_diameter": wider,
              "body.outside_diameter": mm(parts.body.outside_diameter + more)}  # fmt: skip
    return Raise(f"Take a liner of {wider} outside", change, "metal_liner")


JUDGEMENTS = (crushes, ovalises)
