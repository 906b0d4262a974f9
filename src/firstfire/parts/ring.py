"""Piston rings: an O-ring that leaks, jams or overheats; a split ring whose gap closes."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.formulas import compression_set, expansion, oring_gland
from firstfire.parts import assumed, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.lands import has_rings
from firstfire.parts.lines import AIR, rises
from firstfire.parts.once import once
from firstfire.parts.piston import across_the_bore
from firstfire.parts.piston_crown import shielded
from firstfire.parts.written import mm, mm_down

_HANDBOOKS = "geometry of the gland; seal handbooks; Gas Engine Magazine, O-ring Ramblings, 2004"

_DEPTH = (
    Line("groove", "cylinder.bore - piston.skirt_clearance - 2 * rings.groove_depth", "m",
         "groove's floor"),
    Line("groove_warm", "groove * (1 + piston_expansion * ring_rise)", "m", "warm groove's floor"),
    Line("bore_warm", "cylinder.bore * (1 + bore_expansion * bore_rise)", "m", "warm bore"),
    Line("gland_depth_warm", "(bore_warm - groove_warm) / 2", "m", "warm room for the ring"),
    Line("section_warm",
         "rings.section * sqrt((rings.inside_diameter + rings.section) / (groove_warm + "
         "rings.section)) * (1 + ring_expansion * ring_rise)", "m",
         "warm section of the ring, stretched on its groove"),
)  # fmt: skip
_SQUEEZE = (
    *_DEPTH,
    Line("squeeze_warm", "1 - gland_depth_warm / section_warm", "", "warm squeeze"),
)

LEAKS = Failure(
    id="ring.leak",
    part="O-ring",
    failure="loses its squeeze and leaks",
    unit="",
    formula="2 %, against (1 - gland depth/section) warm × (1 - share that has set)",
    source=f"{_HANDBOOKS}; set: ISO 815-1 (catalog row), ageing from memory",
    during=WARM,
    working=(
        *_SQUEEZE,
        Line(
            "squeeze_set",
            "min(1, tested_set * sqrt(seconds / test_seconds * 2**((ring - continuous_use) / "
            "ten_kelvin)))",
            "",
            "share of the squeeze that has set by now",
        ),
        Line("demand", "least_squeeze", "", "squeeze that still touches all round"),
        Line("capacity", "squeeze_warm * (1 - squeeze_set)", "", "squeeze that is left"),
    ),
)
ROLLS = Failure(
    id="ring.roll",
    part="O-ring",
    failure="is squeezed until it rolls or tears",
    unit="",
    formula="1 - gland depth/section, warm, against 30 %",
    source=_HANDBOOKS,
    during=WARM,
    working=(
        *_SQUEEZE,
        Line("demand", "max(squeeze_warm, 0)", "", "squeeze"),
        Line("capacity", "most_squeeze", "", "most that a running ring stands"),
    ),
)
FILLS = Failure(
    id="ring.fill",
    part="O-ring",
    failure="fills its groove and jams",
    unit="",
    formula="π/4 × section²/(gland depth × groove width), warm, against 1",
    source=_HANDBOOKS,
    during=WARM,
    working=(
        *_DEPTH,
        Line(
            "width_warm",
            "rings.groove_width * (1 + piston_expansion * ring_rise)",
            "m",
            "warm width of the groove",
        ),
        Line(
            "demand",
            "pi / 4 * section_warm**2 / (gland_depth_warm * width_warm)",
            "",
            "share of the groove that the ring takes",
        ),
        Line("capacity", "1", "", "a full groove"),
    ),
)
OVERHEATS = Failure(
    id="ring.overheat",
    part="piston ring",
    failure="is hotter than it may be held",
    unit="K",
    formula="ring, against the continuous use of its material; both as rises over the air",
    source="continuous use of the material (catalog row)",
    during=WARM,
    working=rises("ring", "continuous_use", "the ring", "its material may be held"),
)  # fmt: skip
GAP_CLOSES = Failure(
    id="ring.gap.close",
    part="piston ring",
    failure="closes its gap and seizes",
    unit="m",
    formula="π × bore × (ring's expansion × its rise - bore's × its rise), against the cold gap",
    source="linear expansion of the ring's circumference",
    during=WARM,
    working=(
        Line(
            "ring_grows",
            "pi * cylinder.bore * ring_expansion * ring_rise",
            "m",
            "what the ring grows round",
        ),
        Line(
            "bore_grows",
            "pi * cylinder.bore * bore_expansion * bore_rise",
            "m",
            "what the bore grows round",
        ),
        Line("demand", "max(ring_grows - bore_grows, 0)", "m", "gap that warmth takes"),
        Line("capacity", "rings.gap", "m", "gap when cold"),
    ),
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
    gland, rings = _gland(moment), moment.parts.rings
    material = moment.engine.materials[rings.material]
    lost = compression_set.squeeze_lost(
        material["compression_set"], material["continuous_use"], assumed.TEST_SECONDS,
        gland.temperature, moment.seconds,
    )  # fmt: skip
    left = gland.squeeze * (1 - lost)
    shallower = mm_down(rings.groove_depth - 0.04 * rings.section)
    return LEAKS.way(
        moment,
        demand=assumed.LEAST_SQUEEZE,
        capacity=left,
        governs="compression set" if lost > 0.1 else "squeeze",
        temperature=gland.temperature,
        inputs={**gland.inputs, "squeeze_set": lost, "squeeze_left": left,
                "ring": gland.temperature, "seconds": moment.seconds,
                "tested_set": material["compression_set"],
                "continuous_use": material["continuous_use"],
                "test_seconds": assumed.TEST_SECONDS, "ten_kelvin": 10.0,
                "least_squeeze": assumed.LEAST_SQUEEZE},
        raise_by=(
            Raise(f"Cut the ring's groove only {shallower} deep",
                  {"rings.groove_depth": shallower}, "reprint_piston"),
            *(_heat_proof(moment) if lost > 0.1 else ()),
        ),
    )  # fmt: skip


@judges(ROLLS, where=has_oring)
def rolls(moment: Moment) -> Way:
    """Squeeze when warm against the most that a running ring stands."""
    gland, rings = _gland(moment), moment.parts.rings
    deeper = mm(rings.groove_depth + 0.04 * rings.section, 0.01)
    return ROLLS.way(
        moment,
        demand=max(gland.squeeze, 0.0),
        capacity=assumed.MOST_SQUEEZE,
        governs="squeeze",
        temperature=gland.temperature,
        inputs={**gland.inputs, "most_squeeze": assumed.MOST_SQUEEZE},
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
        temperature=gland.temperature,
        inputs=gland.inputs,
        raise_by=(Raise(f"Cut the ring's groove {wider} wide", {"rings.groove_width": wider},
                        "reprint_piston"),),
    )  # fmt: skip


@judges(OVERHEATS, where=has_rings)
def overheats(moment: Moment) -> Way:
    """Rise of the ring against what its material may be held at."""
    limit = moment.engine.materials[moment.parts.rings.material]["continuous_use"]
    air, hot = warmth.ambient(moment), warmth.mean(moment, "ring", "crown")
    return OVERHEATS.way(
        moment,
        demand=warmth.rise(moment, hot),
        capacity=limit - air,
        governs="temperature",
        temperature=hot,
        inputs={"ring": hot, "continuous_use": limit, AIR: air},
        raise_by=(*_heat_proof(moment), *shielded(moment)),
    )


@judges(GAP_CLOSES, where=has_split_ring)
def gap_closes(moment: Moment) -> Way:
    """Growth of the ring in its bore against its cold gap."""
    parts, engine = moment.parts, moment.engine
    rings, bore = parts.rings, parts.cylinder.bore
    hot = warmth.mean(moment, "ring", "crown")
    warmer = warmth.rise(moment, warmth.mean(moment, "liner")), warmth.rise(moment, hot)
    bore_expansion = across_the_bore(parts.liner, engine.materials[parts.liner.material])
    ring_expansion = engine.materials[rings.material]["expansion"]
    left = expansion.ring_gap_when_warm(
        rings.gap, bore, bore_rise=warmer[0], ring_rise=warmer[1],
        bore_expansion=bore_expansion, ring_expansion=ring_expansion,
    )  # fmt: skip
    wider = mm(max(2 * rings.gap, 0.01 * bore), 0.05)
    return GAP_CLOSES.way(
        moment,
        demand=max(rings.gap - left, 0.0),
        capacity=rings.gap,
        governs="expansion",
        temperature=hot,
        inputs={"rings.gap": rings.gap, "cylinder.bore": bore, "bore_rise": warmer[0],
                "ring_rise": warmer[1], "bore_expansion": bore_expansion,
                "ring_expansion": ring_expansion, "gap_left": left},
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
    """Squeeze and fill of the warm O-ring; its temperature, K; the numbers."""

    squeeze: float
    fill: float
    temperature: float
    inputs: dict[str, float]


@once
def _gland(moment: Moment) -> _Gland:
    parts, engine = moment.parts, moment.engine
    rings, piston, bore = parts.rings, parts.piston, parts.cylinder.bore
    hot = warmth.mean(moment, "ring", "crown")
    rise = warmth.rise(moment, hot)
    bore_rise = warmth.rise(moment, warmth.mean(moment, "liner"))
    plastic, liner = engine.materials[piston.material], engine.materials[parts.liner.material]
    groove = bore - piston.skirt_clearance - 2 * rings.groove_depth
    spreads, opens = across_the_bore(piston, plastic), across_the_bore(parts.liner, liner)
    grown, swells_by = 1 + spreads * rise, engine.materials[rings.material]["expansion"]
    depth = (bore * (1 + opens * bore_rise) - groove * grown) / 2
    fitted = oring_gland.stretched_section(rings.section, rings.inside_diameter, groove * grown)
    warm = fitted * (1 + swells_by * rise)
    squeeze = oring_gland.squeeze(warm, depth)
    fill = oring_gland.fill(warm, depth, rings.groove_width * grown)
    told = {"cylinder.bore": bore, "piston.skirt_clearance": piston.skirt_clearance,
            "rings.groove_depth": rings.groove_depth, "rings.groove_width": rings.groove_width,
            "rings.section": rings.section, "rings.inside_diameter": rings.inside_diameter,
            "ring_rise": rise, "bore_rise": bore_rise, "piston_expansion": spreads,
            "bore_expansion": opens, "ring_expansion": swells_by,
            "section_warm": warm, "gland_depth_warm": depth, "squeeze_warm": squeeze,
            "fill_warm": fill}  # fmt: skip
    return _Gland(squeeze, fill, hot, told)


def _heat_proof(moment: Moment) -> tuple[Raise, ...]:
    rings = moment.parts.rings
    if rings.kind != "o_ring" or rings.material == "fkm":
        return ()
    return (Raise("Fit FKM in place of this O-ring", {"rings.material": "fkm"}, "swap_ring"),)


JUDGEMENTS = (leaks, rolls, fills, overheats, gap_closes, swells, no_ring_leaks)
