"""What the fit alone does to a liner: the body presses it from outside, crushing and folding it.

Pressing opens no crack, so it is never set against tensile strength as a pull is.
"""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import pressed_ring, thick_cylinder
from firstfire.parts import assumed, strength
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.liner_in_body import GIVE, WARM_FIT, Touching, touching
from firstfire.parts.once import once
from firstfire.parts.softness import is_metal, stress_left
from firstfire.parts.written import mm, mm_down

_FIT_ALONE = (
    WARM_FIT,
    *GIVE,
    Line("fit_pressure", "max(0, fit_warm) / (liner_gives + body_gives)", "Pa",
         "pressure of the fresh fit, without gas"),
)  # fmt: skip
_CRUSHED = Line("strength_pressed", "strength * pressed_over_pulled", "Pa",
                "strength when pressed")  # fmt: skip

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
    working=(
        *_FIT_ALONE,
        Line("demand",
             "2 * fit_pressure * liner.outside_diameter**2 / (liner.outside_diameter**2 - "
             "cylinder.bore**2)", "Pa", "pressing round the bore"),
        _CRUSHED,
        Line("capacity", "strength_pressed", "Pa", "what it stands when pressed"),
    ),
)  # fmt: skip
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
    working=(
        *_FIT_ALONE,
        Line("demand", "fit_pressure", "Pa", "pressure of the fresh fit"),
        _CRUSHED,
        Line("wall", "(liner.outside_diameter - cylinder.bore) / 2", "m", "liner's wall"),
        Line("mean_radius", "(liner.outside_diameter + cylinder.bore) / 4", "m",
             "liner's mean radius"),
        Line("folds_at",
             "liner_modulus * liner_creep_leaves / 4 / (1 - liner_poisson**2) * (wall / "
             "mean_radius)**3", "Pa", "pressure that folds a round ring"),
        Line("yields_at", "strength_pressed * wall / mean_radius", "Pa",
             "pressure that crushes a round ring"),
        Line("half_sum", "(yields_at + (1 + 6 * out_of_round / wall) * folds_at) / 2", "Pa",
             "half of both, that of folding raised by being out of round"),
        Line("capacity", "half_sum - sqrt(half_sum**2 - yields_at * folds_at)", "Pa",
             "pressure at which it yields as an oval"),
    ),
)  # fmt: skip


class _Fit(NamedTuple):
    """Pressure of the fresh fit without gas, Pa, what it works on, and what the liner stands."""

    pressure: float
    touching: Touching
    bears: strength.Strength
    pressed: float


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
        demand=-hoop,
        capacity=fit.bears.value * fit.pressed,
        governs=fit.bears.governs,
        temperature=fit.touching.liner_at,
        inputs=_told(moment, fit),
        first=fit.bears.line,
        raise_by=_eased_fit(moment),
    )


@judges(OVALISES, where=pressed_in)
def ovalises(moment: Moment) -> Way:
    """Pressure of the fit against what squeezes a ring oval that was not quite round."""
    fit, liner, bore = _fit(moment), moment.parts.liner, moment.parts.cylinder.bore
    wall, mean_radius = (liner.outside_diameter - bore) / 2, (liner.outside_diameter + bore) / 4
    left, oval = _creep_leaves(moment, fit), _out_of_round(moment)
    folds = pressed_ring.folding_pressure(
        fit.touching.liner_modulus * left, fit.touching.liner_poisson, wall, mean_radius
    )
    yields = fit.bears.value * fit.pressed
    if yields <= 0:
        raise OutsideValidity("Heat has left the liner no strength: a ring has none to fold with.")
    return OVALISES.way(
        moment,
        demand=fit.pressure,
        capacity=pressed_ring.out_of_round_pressure(yields, folds, wall, mean_radius, oval),
        governs="ovality" if yields * wall / mean_radius > folds else fit.bears.governs,
        temperature=fit.touching.liner_at,
        inputs={**_told(moment, fit), "out_of_round": oval, "liner_creep_leaves": left},
        first=fit.bears.line,
        raise_by=(*_eased_fit(moment), _stouter(moment)),
    )


@once
def _fit(moment: Moment) -> _Fit:
    liner = moment.parts.liner
    both = touching(moment)
    if both.fit_warm <= 0:
        raise OutsideValidity("As warm as this the liner stands loose: nothing presses on it.")
    pressure = thick_cylinder.pressure_passed_on(
        0.0, gap=-both.fit_warm, **both.sizes(moment)
    )  # fmt: skip
    material = moment.engine.materials[liner.material]
    bears = strength.of(moment, liner, pull=strength.PRESSED, warm=both.liner_left, load="pressed")
    return _Fit(pressure, both, bears, strength.pressed_share(material))


def _told(moment: Moment, fit: _Fit) -> dict[str, float]:
    return {**fit.touching.inputs(moment), "pressed_over_pulled": fit.pressed, **fit.bears.inputs}


def _creep_leaves(moment: Moment, fit: _Fit) -> float:
    material = moment.engine.materials[moment.parts.liner.material]
    if is_metal(material):
        return 1.0
    return stress_left(material, moment.resting_hours, fit.touching.liner_at)


def _out_of_round(moment: Moment) -> float:
    """Half of what the hole's diameter differs from place to place, m."""
    printed = "printed" in (moment.parts.body.made, moment.parts.liner.made)
    return (moment.engine.printing.repeatability if printed else assumed.TUBE_OUT_OF_ROUND) / 2


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
