"""Piston rings: an O-ring that leaks, jams or overheats; a split ring whose gap closes."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.formulas import compression_set, expansion, oring_gland
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import assumed, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.lands import has_rings
from firstfire.parts.lines import rises_are
from firstfire.parts.once import once
from firstfire.parts.piston import across_the_bore
from firstfire.parts.piston_crown import shielded
from firstfire.parts.worked import ring as worked
from firstfire.parts.written import mm, mm_down

_HANDBOOKS = "geometry of the gland; seal handbooks; Gas Engine Magazine, O-ring Ramblings, 2004"

LEAKS = Failure(
    id="ring.leak",
    part="O-ring",
    failure="loses its squeeze and leaks",
    unit="",
    formula="2 %, against (1 - gland depth/section) warm × (1 - share that has set)",
    source=f"{_HANDBOOKS}; set: ISO 815-1 (catalog row), ageing from memory",
    during=WARM,
    demand_is="squeeze that still touches all round",
    capacity_is="squeeze that is left",
    examples=(worked.LEAKS,),
)
ROLLS = Failure(
    id="ring.roll",
    part="O-ring",
    failure="is squeezed until it rolls or tears",
    unit="",
    formula="1 - gland depth/section, warm, against 30 %",
    source=_HANDBOOKS,
    during=WARM,
    demand_is="squeeze",
    capacity_is="most that a running ring stands",
    examples=(worked.ROLLS,),
)
FILLS = Failure(
    id="ring.fill",
    part="O-ring",
    failure="fills its groove and jams",
    unit="",
    formula="π/4 × section²/(gland depth × groove width), warm, against 1",
    source=_HANDBOOKS,
    during=WARM,
    demand_is="share of the groove that the ring takes",
    capacity_is="a full groove",
    examples=(worked.FILLS,),
)
OVERHEATS = Failure(
    id="ring.overheat",
    part="piston ring",
    failure="is hotter than it may be held",
    unit="K",
    formula="ring, against the continuous use of its material; both as rises over the air",
    source="continuous use of the material (catalog row)",
    during=WARM,
    **rises_are("the ring", "its material may be held"),
    examples=(worked.OVERHEATS,),
)
GAP_CLOSES = Failure(
    id="ring.gap.close",
    part="piston ring",
    failure="closes its gap and seizes",
    unit="m",
    formula="π × bore × (ring's expansion × its rise - bore's × its rise), against the cold gap",
    source="linear expansion of the ring's circumference",
    during=WARM,
    demand_is="gap that warmth takes",
    capacity_is="gap when cold",
    examples=(worked.GAP_CLOSES,),
)
SWELLS = Failure(
    id="ring.swell",
    part="O-ring",
    failure="swells in fuel and oil",
    unit="",
    formula="swelling of the rubber in its fuel",
    source="none",
    during=WARM,
)
NO_RING = Failure(
    id="ring.none.leak",
    part="piston",
    failure="leaks without a ring",
    unit="kg/s",
    formula="gas past the skirt",
    source="none",
    during=WARM,
)


def has_oring(moment: Moment) -> bool:
    """Whether it has an O-ring."""
    return has_rings(moment) and moment.parts.rings.kind == "o_ring"


def has_split_ring(moment: Moment) -> bool:
    """Whether it has a ring with a gap."""
    return has_rings(moment) and moment.parts.rings.kind != "o_ring"


@judges(LEAKS, where=has_oring)
def leaks(moment: Moment) -> Way:
    """Squeeze that is left, against the least that still touches all round."""
    rings, lost = moment.parts.rings, _lost(moment)
    left = _gland(moment).squeeze * (1 - lost)
    shallower = mm_down(rings.groove_depth - 0.04 * rings.section)
    return LEAKS.way(
        moment,
        demand=moment.given("least_squeeze", assumed.LEAST_SQUEEZE),
        capacity=left,
        governs="compression set" if lost > 0.1 else "squeeze",
        temperature=_temperature(moment),
        raise_by=(
            Raise(f"Cut the ring's groove only {shallower} deep",
                  {"rings.groove_depth": shallower}, "reprint_piston"),
            *(_heat_proof(moment) if lost > 0.1 else ()),
        ),
    )  # fmt: skip


def _lost(moment: Moment) -> float:
    """Share of the squeeze that has set by now."""
    material = moment.engine.materials[moment.parts.rings.material]
    lost = compression_set.squeeze_lost(
        moment.given("tested_set", material["compression_set"]),
        moment.given("continuous_use", material["continuous_use"]),
        moment.given("test_seconds", assumed.TEST_SECONDS),
        _temperature(moment),
        moment.seconds,
    )
    return found("squeeze_set", lost, "", "share of the squeeze that has set by now")


@judges(ROLLS, where=has_oring)
def rolls(moment: Moment) -> Way:
    """Squeeze when warm against the most that a running ring stands."""
    gland, rings = _gland(moment), moment.parts.rings
    deeper = mm(rings.groove_depth + 0.04 * rings.section, 0.01)
    return ROLLS.way(
        moment,
        demand=math.most(gland.squeeze, 0.0),
        capacity=moment.given("most_squeeze", assumed.MOST_SQUEEZE),
        governs="squeeze",
        temperature=_temperature(moment),
        raise_by=(Raise(f"Cut the ring's groove {deeper} deep", {"rings.groove_depth": deeper},
                        "reprint_piston"),),
    )  # fmt: skip


@judges(FILLS, where=has_oring)
def fills(moment: Moment) -> Way:
    """Share of the groove that the warm ring takes."""
    gland, rings = _gland(moment), moment.parts.rings
    wider = mm(1.2 * rings.groove_width, 0.05)
    return FILLS.way(
        moment,
        demand=gland.fill,
        capacity=1.0,
        governs="fill",
        temperature=_temperature(moment),
        raise_by=(Raise(f"Cut the ring's groove {wider} wide", {"rings.groove_width": wider},
                        "reprint_piston"),),
    )  # fmt: skip


@judges(OVERHEATS, where=has_rings)
def overheats(moment: Moment) -> Way:
    """Rise of the ring against what its material may be held at."""
    limit = moment.engine.materials[moment.parts.rings.material]["continuous_use"]
    limit = moment.given("continuous_use", limit)
    air, hot = warmth.ambient(moment), _temperature(moment)
    return OVERHEATS.way(
        moment,
        demand=warmth.rise(moment, hot),
        capacity=limit - air,
        governs="temperature",
        temperature=hot,
        raise_by=(*_heat_proof(moment), *shielded(moment)),
    )


@judges(GAP_CLOSES, where=has_split_ring)
def gap_closes(moment: Moment) -> Way:
    """Growth of the ring in its bore against its cold gap."""
    rings, bore = moment.parts.rings, moment.parts.cylinder.bore
    left = expansion.ring_gap_when_warm(
        rings.gap, bore, bore_rise=_bore_rise(moment), ring_rise=_rise(moment),
        bore_expansion=_bore_expansion(moment), ring_expansion=_ring_expansion(moment),
    )  # fmt: skip
    left = found("gap_warm", left, "m", "gap once warm")
    wider = mm(max(2 * rings.gap, 0.01 * bore), 0.05)
    return GAP_CLOSES.way(
        moment,
        demand=math.most(rings.gap - left, 0.0),
        capacity=rings.gap,
        governs="expansion",
        temperature=_temperature(moment),
        raise_by=(Raise(f"File the ring's gap to {wider}", {"rings.gap": wider}, "swap_ring"),),
    )  # fmt: skip


swells = not_judged(
    SWELLS, "how much this rubber swells in this fuel is not in the catalog", has_oring
)
no_ring_leaks = not_judged(
    NO_RING,
    "there is no ring: what passes the bare skirt is a leak area, not a strength",
    lambda moment: not has_rings(moment),
)


class _Gland(NamedTuple):
    """Squeeze of the warm O-ring and the share of its groove that it fills."""

    squeeze: float
    fill: float


@once
def _gland(moment: Moment) -> _Gland:
    parts, rise = moment.parts, _rise(moment)
    rings, piston = parts.rings, parts.piston
    plastic = moment.engine.materials[piston.material]
    grown = 1 + moment.given("piston_expansion", across_the_bore(piston, plastic)) * rise
    floor = parts.cylinder.bore - piston.skirt_clearance - 2 * rings.groove_depth
    floor = found("groove", floor, "m", "groove's floor")
    floor = found("groove_warm", floor * grown, "m", "warm groove's floor")
    depth = found("gland_depth_warm", (_bore_warm(moment) - floor) / 2, "m",
                  "warm room for the ring")  # fmt: skip
    section = _section_warm(moment, floor, rise)
    width = found("width_warm", rings.groove_width * grown, "m", "warm width of the groove")
    squeeze = found("squeeze_warm", oring_gland.squeeze(section, depth), "", "warm squeeze")
    return _Gland(squeeze, oring_gland.fill(section, depth, width))


def _bore_warm(moment: Moment) -> float:
    grown = 1 + _bore_expansion(moment) * _bore_rise(moment)
    return found("bore_warm", moment.parts.cylinder.bore * grown, "m", "warm bore")


def _section_warm(moment: Moment, floor: float, rise: float) -> float:
    """Section of the ring on a groove with this floor, m, when so much warmer."""
    rings = moment.parts.rings
    fitted = oring_gland.stretched_section(rings.section, rings.inside_diameter, floor)
    warm = fitted * (1 + _ring_expansion(moment) * rise)
    return found("section_warm", warm, "m", "warm section of the ring, stretched on its groove")


def _temperature(moment: Moment) -> float:
    """Of the ring, K."""
    return moment.given("ring", warmth.mean(moment, "ring", "crown"))


def _rise(moment: Moment) -> float:
    hot = warmth.mean(moment, "ring", "crown")
    return moment.given("ring_rise", warmth.rise(moment, hot))


def _bore_rise(moment: Moment) -> float:
    return moment.given("bore_rise", warmth.rise(moment, warmth.mean(moment, "liner")))


def _bore_expansion(moment: Moment) -> float:
    liner = moment.parts.liner
    spreads = across_the_bore(liner, moment.engine.materials[liner.material])
    return moment.given("bore_expansion", spreads)


def _ring_expansion(moment: Moment) -> float:
    material = moment.engine.materials[moment.parts.rings.material]
    return moment.given("ring_expansion", material["expansion"])


def _heat_proof(moment: Moment) -> tuple[Raise, ...]:
    rings = moment.parts.rings
    if rings.kind != "o_ring" or rings.material == "fkm":
        return ()
    return (Raise("Fit FKM in place of this O-ring", {"rings.material": "fkm"}, "swap_ring"),)


JUDGEMENTS = (leaks, rolls, fills, overheats, gap_closes, swells, no_ring_leaks)
