"""The ring lands: broken off by gas pressure, or dented by the ring, as they soften.

The top groove is judged: it lies nearest the fire and feels the whole pressure.
"""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import raising, strength, warmth
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.piston_crown import shielded
from firstfire.parts.section import bent_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE, PRESSED
from firstfire.parts.worked import piston as worked

BREAKS = Failure(
    id="piston.land.break",
    part="ring land",
    failure="breaks off",
    unit="Pa",
    formula=(
        "gas pressure, against the lesser of shear strength × height/depth and strength × "
        "height²/(3 depth²) of the warm land"
    ),
    source="a ring held at its root under even pressure, as a cantilever: Shigley 9, Table A-9",
    during=GAS,
    demand_is="gas pressure",
    capacity_is="the lesser of both",
    examples=(worked.LOW_LAND_BREAKS, worked.HIGH_LAND_BREAKS, worked.METAL_LAND_BREAKS),
)

SINKS = Failure(
    id="piston.land.sink",
    part="ring land",
    failure="lets the ring sink in",
    unit="Pa",
    formula=(
        "gas pressure × ring's width/width borne, against the warm land's strength when pressed"
    ),
    source="gas force on the ring over what of it the land bears; that lands end so: press reports "
           "of nylon pistons, 2021",
    during=GAS,
    demand_is="pressure of the ring on its land",
    examples=(worked.RING_SINKS, worked.HARDLY_BORNE_RING_SINKS),
)  # fmt: skip


def has_rings(moment: Moment) -> bool:
    """Whether there is a ring to bear on a land."""
    return moment.parts.rings.kind != "none" and moment.parts.rings.count > 0


@judges(BREAKS, where=has_rings)
def breaks(moment: Moment) -> Way:
    """Gas pressure on the ring against the land below it, taken as high as the top land."""
    piston, rings = moment.parts.piston, moment.parts.rings
    height, depth = piston.top_land, rings.groove_depth
    warm_at = warmth.mean(moment, "groove", "land", "crown")
    material = moment.engine.materials[piston.material]
    # lines run round it: as deep as they are, its root is solid whatever is behind
    solid = 1.0 if piston.walls * piston.line_width >= depth else bent_share(piston, height)
    bears = strength.of(
        moment, piston, pull=ALONG_BORE, warm=strength_left(material, warm_at), section=solid
    )
    sheared = found("pressure_shears", strength.shear(material, bears) * height / depth, "Pa",
                    "pressure that shears it off")  # fmt: skip
    bent = found("pressure_bends", bears.value * height**2 / (3 * depth**2), "Pa",
                 "pressure that bends it off")  # fmt: skip
    return BREAKS.way(
        moment,
        demand=moment.gas_pressure,
        capacity=math.least(sheared, bent),
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(
            raising.thicker("piston.top_land", height, "the lands {} high", "reprint_piston", 1.15),
            *(shielded(moment) if bears.governs == "temperature" else ()),
            *raising.other_plastic("piston.material", material, "piston", "strength_across",
                                   "reprint_piston"),
        ),
    )  # fmt: skip


@judges(SINKS, where=has_rings)
def sinks(moment: Moment) -> Way:
    """Pressure of the ring on its land against what the warm land bears when pressed."""
    piston, rings = moment.parts.piston, moment.parts.rings
    warm_at = warmth.mean(moment, "groove", "land", "crown")
    material = moment.engine.materials[piston.material]
    bears = strength.of(
        moment, piston, pull=PRESSED, warm=strength_left(material, warm_at), load="pressed"
    )
    borne = math.most(rings.section - piston.skirt_clearance / 2, 0.1 * rings.section)
    borne = found("width_borne", borne, "m", "width of the ring that the land bears")
    return SINKS.way(
        moment,
        demand=moment.gas_pressure * rings.section / borne,
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        raise_by=(
            *(shielded(moment) if bears.governs == "temperature" else ()),
            *raising.other_plastic("piston.material", material, "piston", "strength_in_plane",
                                   "reprint_piston"),
        ),
    )  # fmt: skip


JUDGEMENTS = (breaks, sinks)
