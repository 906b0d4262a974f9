"""Liner and body: burst by the gas, parted by the head's pull, softened by the fire."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import gasket, thick_cylinder
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, raising, strength, warmth
from firstfire.parts.events import GAS, WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.liner_in_body import between
from firstfire.parts.lines import rises_are
from firstfire.parts.section import pulled_share, stretched_share
from firstfire.parts.softness import is_metal, softens_at, strength_left
from firstfire.parts.strength import ALONG_BORE, ROUND_THE_BORE
from firstfire.parts.worked import liner as worked
from firstfire.parts.written import mm, mm_down

_LAME = "Lamé, compound cylinder; Shigley 9, Eq. 3-49; Timoshenko, Strength of Materials, part II"
BURSTS = Failure(
    id="liner.burst",
    part="liner",
    failure="bursts",
    unit="Pa",
    formula=(
        "pull round the bore by gas and fit together, the body taking its share, and the gas "
        "pressing beside it (no more than the pull), against strength"
    ),
    source=_LAME,
    hazard=True,
    during=GAS,
    demand_is="largest less smallest stress, as far as the bore is pulled",
    examples=(
        worked.TUBE_IS_PULLED,
        worked.TUBE_IS_PULLED_BY_LESS_THAN_THE_GAS,
        worked.IRON_IN_ALUMINIUM_IS_NOT_PULLED,
        worked.LOOSE_PRINT_IS_PULLED,
    ),
)
BODY_SPLITS = Failure(
    id="body.split",
    part="body round the liner",
    failure="splits",
    unit="Pa",
    formula=(
        "pressure on the body × ((outside² + bore²)/(outside² - bore²) + 1), against strength; "
        "gas and fit make the pressure"
    ),
    source=_LAME,
    hazard=True,
    during=GAS,
    demand_is="the pull and the pressure together",
    examples=(worked.BODY_SPLITS,),
)
BODY_PARTS = Failure(
    id="body.part",
    part="body round the liner",
    failure="is pulled apart between head and case",
    unit="N",
    formula=(
        "gas force on the head, against strength along the bore × π/4 × (outside² - liner²) × "
        "solid share"
    ),
    source="equilibrium: head screws that end in the body pull through it",
    hazard=True,
    during=GAS,
    demand_is="gas force on the head",
    capacity_is="pull that the section bears",
    examples=(worked.BODY_PARTS,),
)
BORE_SOFTENS = Failure(
    id="liner.bore.soften",
    part="bore of the liner",
    failure="softens under the ring",
    unit="K",
    formula=(
        "0.5 mm below the bore's face, against where half of its strength is left; both as rises "
        "over the air"
    ),
    source="strength curve of the material (catalog); the half is our own choice",
    during=WARM,
    **rises_are("the bore's wall, 0.5 mm down", "half of its strength is left"),
    examples=(worked.BORE_SOFTENS,),
)


def ends_in_body(moment: Moment) -> bool:
    """Whether the head's screws end in the body instead of passing it."""
    return not moment.parts.head.fasteners.through


@judges(BURSTS)
def bursts(moment: Moment) -> Way:
    """Pull at the bore, backed by the body, against the liner's strength.

    What the fit presses together opens nothing: that is asked of `firstfire.parts.liner_fit`.
    """
    liner, bore = moment.parts.liner, moment.parts.cylinder.bore
    pressed = between(moment)
    hoop = thick_cylinder.hoop_stress(
        moment.gas_pressure, bore, liner.outside_diameter, outside_pressure=pressed
    )
    hoop = found("hoop_at_bore", hoop, "Pa", "pull round the bore")
    warm_at = warmth.mean(moment, "liner")
    material = moment.engine.materials[liner.material]
    wall = (liner.outside_diameter - bore) / 2
    bears = strength.of(
        moment, liner, pull=ROUND_THE_BORE, section=pulled_share(liner, wall),
        warm=stretched_share(material, warmth.part(moment, "liner"), wall),
    )  # fmt: skip
    pull = found("pulled", math.most(hoop, 0.0), "Pa", "pull that opens the bore")
    return BURSTS.way(
        moment,
        demand=pull + math.least(pull, moment.gas_pressure),
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(*_metal_liner(moment), _thicker_liner(moment)) if pull > 0 else (),
    )  # fmt: skip


@judges(BODY_SPLITS)
def body_splits(moment: Moment) -> Way:
    """Hoop at the body's bore from what the liner passes on."""
    body, inside = moment.parts.body, moment.parts.liner.outside_diameter
    pressed = between(moment)
    hoop = thick_cylinder.hoop_stress(pressed, inside, body.outside_diameter)
    hoop = found("hoop", hoop, "Pa", "pull round the body's hole")
    warm_at = warmth.mean(moment, "body")
    material = moment.engine.materials[body.material]
    bears = strength.of(
        moment, body, pull=ROUND_THE_BORE, warm=strength_left(material, warm_at),
        section=pulled_share(body, (body.outside_diameter - inside) / 2),
    )  # fmt: skip
    return BODY_SPLITS.way(
        moment,
        demand=hoop + pressed,
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=_eased_body(moment),
    )  # fmt: skip


@judges(BODY_PARTS, where=ends_in_body)
def body_parts(moment: Moment) -> Way:
    """Gas force that the head's screws lead through the body along the bore."""
    body, inside = moment.parts.body, moment.parts.liner.outside_diameter
    warm_at = warmth.mean(moment, "body")
    material = moment.engine.materials[body.material]
    bears = strength.of(
        moment, body, pull=ALONG_BORE, warm=strength_left(material, warm_at),
        section=pulled_share(body, (body.outside_diameter - inside) / 2),
    )  # fmt: skip
    area = found("area", math.pi / 4 * (body.outside_diameter**2 - inside**2), "m^2",
                 "section of the body round the liner")  # fmt: skip
    gas = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    gas = moment.given("gas_pressure", gas)
    seal = moment.parts.gasket.inside_diameter
    through = Raise("Hold the head by long through-bolts to the crankcase",
                    {"head.fasteners.kind": "through_bolts"}, "through_bolts")  # fmt: skip
    return BODY_PARTS.way(
        moment,
        demand=gasket.end_force(gas, seal),
        capacity=bears.value * area,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(*_thicker_body(moment), through),
    )  # fmt: skip


@judges(BORE_SOFTENS)
def bore_softens(moment: Moment) -> Way:
    """Half a millimetre below the bore's face against where strength is halved.

    A ring rides over a thinner soft skin: acrylic cylinders run so for quite some time.
    """
    material = moment.engine.materials[moment.parts.liner.material]
    limit = moment.given("softens_at", softens_at(material, assumed.SOFT))
    air = warmth.ambient(moment)
    there = moment.given("below_the_face", warmth.below(moment, assumed.BORE_DEPTH, "liner"))
    return BORE_SOFTENS.way(
        moment,
        demand=warmth.rise(moment, there),
        capacity=limit - air,
        governs="temperature",
        temperature=there,
        raise_by=_metal_liner(moment),
    )


def _metal_liner(moment: Moment) -> tuple[Raise, ...]:
    parts = moment.parts
    if is_metal(moment.engine.materials[parts.liner.material]):
        return ()
    outside = mm(parts.cylinder.bore + 4e-3)
    change = {"liner.kind": "tube", "liner.made": "tube", "liner.material": "aluminium_6061_t6",
              "liner.outside_diameter": outside}  # fmt: skip
    return (Raise("Press an aluminium tube into the body as liner", change, "metal_liner"),)


def _thicker_liner(moment: Moment) -> Raise:
    bore, outside = moment.parts.cylinder.bore, moment.parts.liner.outside_diameter
    wider = mm(bore + 1.5 * (outside - bore))
    body = mm(moment.parts.body.outside_diameter + 0.5 * (outside - bore))
    change = {"liner.outside_diameter": wider, "body.outside_diameter": body}
    return Raise(f"Take a liner of {wider} outside", change, "metal_liner")


def _thicker_body(moment: Moment) -> tuple[Raise, ...]:
    body, inside = moment.parts.body, moment.parts.liner.outside_diameter
    material = moment.engine.materials[body.material]
    wider = mm(inside + 1.5 * (body.outside_diameter - inside))
    raised = [Raise(f"Make the body {wider} outside", {"body.outside_diameter": wider},
                    "reprint_body")]  # fmt: skip
    if body.made == "printed" and body.infill < 0.95:
        raised.insert(0, Raise("Print the body solid", {"body.infill": "1.0"}, "thicker_walls"))
    return (*raised, *raising.other_plastic("body.material", material, "body", "strength_across"))


def _eased_body(moment: Moment) -> tuple[Raise, ...]:
    """A lighter fit of the liner, or more plastic round it."""
    body, fit = moment.parts.body, moment.parts.liner.fit_interference
    raised: tuple[Raise, ...] = ()
    if fit > 0.015e-3:
        lighter = mm_down(0.5 * fit)
        raised = (Raise(f"Let the liner be only {lighter} larger than its hole",
                        {"liner.fit_interference": lighter}, "reprint_body"),)  # fmt: skip
    if body.made == "printed" and body.infill < 0.95:
        raised = (*raised, Raise("Print the body solid", {"body.infill": "1.0"}, "thicker_walls"))
    return raised


JUDGEMENTS = (bursts, body_splits, body_parts, bore_softens)
