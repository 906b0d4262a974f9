"""The intake's elbow or manifold: softened by the air round it, folded in by suction."""

from __future__ import annotations

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import pressed_ring
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.lines import rises_are
from firstfire.parts.softness import modulus_left, softens_at
from firstfire.parts.worked import intake as worked
from firstfire.parts.written import mm

SOFTENS = Failure(
    id="intake.soften",
    part="intake",
    failure="softens in the warm air round it",
    unit="K",
    formula="air round it, against where half of its strength is left; both as rises over the air",
    source="strength curve of the material (catalog); the half is our own choice; that intakes end "
           "so: AAIB report G-BYLZ, 2025",
    shared=True,
    during=WARM,
    **rises_are("the air round it", "half of its strength is left"),
    examples=(worked.SOFTENS_IN_A_BAY, worked.STAYS_COOL_IN_A_BAY),
)  # fmt: skip

FOLDS = Failure(
    id="intake.fold",
    part="intake",
    failure="is folded in by suction",
    unit="Pa",
    formula=(
        "largest suction, against warm stiffness/(4 (1-ν²)) × (wall/middle radius)³ of a tube as "
        "wide as the throttle"
    ),
    source="M. Bresse; Timoshenko, Gere, Theory of Elastic Stability, 2nd ed., section 7.5",
    shared=True,
    during=WARM,
    demand_is="suction",
    capacity_is="suction that folds it",
    examples=(worked.FOLDS,),
)


@judges(SOFTENS)
def softens(moment: Moment) -> Way:
    """Air round the intake against where its strength is halved: all of it gets as warm."""
    limit = moment.given("softens_at", softens_at(_material(moment), assumed.SOFT))
    air, bay = warmth.ambient(moment), moment.given("bay", _bay(moment))
    return SOFTENS.way(
        moment,
        demand=warmth.rise(moment, bay),
        capacity=limit - air,
        governs="temperature",
        temperature=bay,
        raise_by=() if bay <= air else (
            Raise("Make the intake of aluminium", {"intake.material": "aluminium_6061_t6"},
                  "other_material"),
        ),
    )  # fmt: skip


@judges(FOLDS)
def folds(moment: Moment) -> Way:
    """Suction against what folds the warm tube."""
    intake, material = moment.engine.intake, _material(moment)
    cold = material["modulus_in_plane"]
    modulus = moment.given("intake_modulus", cold * modulus_left(material, _bay(moment)))
    poisson = moment.given("poisson", material["poisson"])
    radius = found("middle_radius", 0.5 * (intake.throttle_diameter + intake.wall), "m",
                   "radius of the middle of its wall")  # fmt: skip
    bears = pressed_ring.folding_pressure(modulus, poisson, intake.wall, radius)
    thicker = mm(1.5 * intake.wall)
    return FOLDS.way(
        moment,
        demand=intake.suction,
        capacity=bears,
        governs="temperature" if modulus < 0.8 * cold else "wall",
        temperature=_bay(moment),
        raise_by=(Raise(f"Make the intake's wall {thicker}", {"intake.wall": thicker},
                        "thicker_walls"),),
    )  # fmt: skip


def _material(moment: Moment) -> Material:
    return moment.engine.materials[moment.engine.intake.material]


def _bay(moment: Moment) -> float:
    """Air round the intake, K."""
    said = moment.engine.intake.bay_temperature
    return warmth.ambient(moment) if said is None else said


JUDGEMENTS = (softens, folds)
"""What `firstfire.parts.all` lists."""
