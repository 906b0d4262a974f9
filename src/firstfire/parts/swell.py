"""Whether a warm piston still has room in its bore, at every height and both ways across."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import mathematics as math
from firstfire.formulas import thick_cylinder
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, strength, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.piston import across_the_bore, weighed_mean
from firstfire.parts.softness import is_metal
from firstfire.parts.strength import ROUND_THE_BORE
from firstfire.parts.worked import swell as worked
from firstfire.parts.written import mm

SWELLS = Failure(
    id="piston.swell",
    part="piston",
    failure="swells and seizes",
    unit="m",
    formula=(
        "piston × (expansion × rise + swelling) - (bore × its expansion × its rise + what the body "
        "round it pulls it open), at the skirt, its top, along the pin or at the lands, against "
        "the cold clearance there"
    ),
    source="linear expansion, shared by stiffness where a metal liner is pressed in metal; bare "
           "plastic pistons end so: press reports of nylon ones, 2021",
    during=WARM,
    demand_is="clearance that warmth takes",
    capacity_is="clearance when cold",
    examples=(worked.TOP_OF_A_WET_SKIRT, worked.SKIRT, worked.LANDS_IN_IRON_IN_ALUMINIUM,
              worked.ALONG_THE_PIN_ONCE_THE_FIT_IS_LOOSE, worked.WET_SKIRT_UNDER_A_METAL_CROWN),
)  # fmt: skip


class Place(NamedTuple):
    """Where a piston may touch.

    Attributes
    ----------
    name
        The place.
    rise, clearance
        K, and cold clearance there, m.
    path
        What the clearance is said by.
    material
        What the piston is of there.
    """

    name: str
    rise: float
    clearance: float
    path: str
    material: Material


@judges(SWELLS)
def swells(moment: Moment) -> Way:
    """Growth of piston over bore against the cold clearance, where most of it is taken.

    The top of the skirt is as warm as the mean of skirt and crown, the lands of a metal piston
    as the crown. A warm skin pulls with its own stiffness only: the crown's rise is weighed by
    its modulus. Lands of plastic are not counted: a soft one gives way.
    """
    opened = _bore_grows(moment)
    takes = [(place, _taken(moment, place, opened)) for place in _places(moment)]
    place, taken = max(takes, key=lambda one: one[1] / max(one[0].clearance, 1e-6))
    return SWELLS.way(
        moment,
        demand=taken,
        capacity=place.clearance,
        governs=place.name,
        temperature=warmth.ambient(moment) + float(place.rise),
        raise_by=_more_room(moment, place, place.clearance - taken),
    )


def _taken(moment: Moment, place: Place, opened: float) -> float:
    """Clearance that warmth takes at a place where the bore has grown so much, m."""
    piston = moment.parts.piston
    expansion = moment.given("piston_expansion", across_the_bore(piston, place.material))
    rise = found("rise_there", place.rise, "K", "piston's rise there")
    strain = _soaked(moment, place.material) + expansion * rise
    grown = (moment.parts.cylinder.bore - place.clearance) * strain
    grown = found("piston_grows", grown, "m", "what the piston grows across, there")
    return math.most(grown - opened, 0.0)


def _places(moment: Moment) -> tuple[Place, ...]:
    piston, materials = moment.parts.piston, moment.engine.materials
    top, below = materials[piston.material], materials[piston.skirt_material or piston.material]
    skirt = warmth.rise(moment, warmth.mean(moment, "skirt", "crown"))
    skirt = moment.given("skirt_rise", skirt)
    crown = moment.given("crown_rise", warmth.rise(moment, _working_mean(moment, top)))
    boss = warmth.rise(moment, warmth.mean(moment, "boss", "skirt", "crown"))
    boss = moment.given("boss_rise", boss)
    places = [
        Place("skirt", skirt, piston.skirt_clearance, "piston.skirt_clearance", below),
        Place("top of the skirt", (skirt + crown) / 2, piston.top_clearance,
              "piston.top_clearance", below),
    ]  # fmt: skip
    if is_metal(top):
        along = piston.skirt_clearance + piston.ovality
        places += [
            Place("skirt along the pin", math.most(boss, skirt), along, "piston.ovality", below),
            Place("lands", crown, piston.land_clearance, "piston.land_clearance", top),
        ]
    return tuple(places)


def _bore_grows(moment: Moment) -> float:
    """What the bore grows across, m.

    A liner pressed into a metal body is squeezed less as the body outgrows it, until the fit has
    come loose; a body of plastic is too soft to pull.
    """
    parts, engine = moment.parts, moment.engine
    liner, shell = engine.materials[parts.liner.material], engine.materials[parts.body.material]
    opens = moment.given("bore_expansion", across_the_bore(parts.liner, liner))
    inner = moment.given("bore_rise", warmth.rise(moment, warmth.mean(moment, "liner")))
    fit, interface = parts.liner.fit_interference, parts.liner.outside_diameter
    grows = parts.cylinder.bore * opens * inner
    pulls = _body_pulls(moment, liner, shell) if fit > 0 else 0.0
    if pulls > 0:
        spreads = moment.given("body_expansion", across_the_bore(parts.body, shell))
        warm = warmth.mean(moment, "body", "liner")
        outer = moment.given("body_rise", warmth.rise(moment, warm))
        outgrows = found("body_outgrows", interface * (spreads * outer - opens * inner), "m",
                         "what the body's hole would grow more than the liner")  # fmt: skip
        grows = grows + pulls * math.least(outgrows, fit)
    return found("bore_grows", grows, "m", "what the bore grows across")


def _body_pulls(moment: Moment, liner: Material, shell: Material) -> float:
    """Share of a metal body's growth that it hands to the liner: its stiffness over both."""
    parts = moment.parts
    interface, outside = parts.liner.outside_diameter, parts.body.outside_diameter
    if not is_metal(shell) or outside <= interface:
        return 0.0
    tube = strength.stiffness(parts.liner, liner, warmth.mean(moment, "liner"), ROUND_THE_BORE)
    block = strength.stiffness(parts.body, shell, warmth.mean(moment, "body"), ROUND_THE_BORE)
    yields = thick_cylinder.shrinking_of_outside(
        1.0, parts.cylinder.bore, interface, moment.given("liner_modulus", tube),
        moment.given("liner_poisson", liner["poisson"]),
    )  # fmt: skip
    opens = thick_cylinder.growth_of_bore(
        1.0, interface, outside, moment.given("body_modulus", block),
        moment.given("body_poisson", shell["poisson"]),
    )  # fmt: skip
    yields = found("liner_gives", yields, "m/Pa", "what the liner gives way, for each MPa")
    opens = found("body_gives", opens, "m/Pa", "what the body gives way, for each MPa")
    share = yields / (yields + opens)
    return found("body_pulls", share, "", "share of its growth that the body hands to the liner")


def _working_mean(moment: Moment, material: Material) -> float:
    """Mean of the crown's temperature, each depth counted by the stiffness it still has, K."""
    heat = warmth.part(moment, "crown")
    return warmth.ambient(moment) if heat is None else weighed_mean(heat, material)


def _soaked(moment: Moment, material: Material) -> float:
    """Swelling by water since it was measured, as a strain: only what is left wet swells."""
    if moment.engine.printing.moisture != "wet" or is_metal(material):
        return 0.0
    each = moment.given("swelling_per_uptake", assumed.SWELLING_PER_UPTAKE)
    soaked = each * moment.given("water_uptake", material["water_uptake"])
    return found("swelling", soaked, "", "swelling by water")


def _more_room(moment: Moment, place: Place, left: float) -> tuple[Raise, ...]:
    piston, material = moment.parts.piston, place.material
    if left >= place.clearance:
        return ()
    raised = [_freed(moment, place)]
    if is_metal(material):
        return tuple(raised)
    if piston.shield.thickness == 0:
        raised.append(
            Raise("Screw a 1 mm aluminium shield on the crown",
                  {"piston.shield.thickness": "1 mm"}, "crown_shield")
        )  # fmt: skip
    if across_the_bore(piston, material) > 50e-6:
        raised.append(
            Raise("Print the piston in PA12 with short carbon fibre",
                  {"piston.material": "pa12_cf"}, "other_material")
        )  # fmt: skip
    return tuple(raised)


def _freed(moment: Moment, place: Place) -> Raise:
    """More room where it is taken."""
    piston = moment.parts.piston
    if place.path == "piston.ovality":
        more = mm(piston.ovality + 0.4 * place.clearance, 0.01)
        return Raise(f"Turn the skirt oval, {more} smaller along the pin",
                     {place.path: more}, "more_clearance")  # fmt: skip
    room = mm(1.4 * place.clearance, 0.01)
    if place.path == "piston.skirt_clearance" or piston.top_clearance == piston.skirt_clearance:
        return Raise(f"Sand the piston to {room} of clearance", {"piston.skirt_clearance": room},
                     "more_clearance")  # fmt: skip
    where = "lands" if place.name == "lands" else "top of the skirt"
    return Raise(f"Turn the {where} to {room} of clearance", {place.path: room}, "more_clearance")


JUDGEMENTS = (swells,)
"""What `firstfire.parts.all` lists."""
