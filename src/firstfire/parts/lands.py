"""The ring lands: broken off by gas pressure, or dented by the ring, as they soften.

The top groove is judged: it lies nearest the fire and feels the whole pressure.
"""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Way
from firstfire.parts import raising, strength, warmth
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.lines import STRENGTH
from firstfire.parts.piston_crown import shielded
from firstfire.parts.section import bent_share
from firstfire.parts.softness import strength_left
from firstfire.parts.strength import ALONG_BORE, PRESSED

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
    working=(
        strength.SHEAR,
        Line("demand", "gas_pressure", "Pa", "gas pressure"),
        Line(
            "pressure_shears",
            "shear_strength * piston.top_land / rings.groove_depth",
            "Pa",
            "pressure that shears it off",
        ),
        Line(
            "pressure_bends",
            "strength * piston.top_land**2 / (3 * rings.groove_depth**2)",
            "Pa",
            "pressure that bends it off",
        ),
        Line("capacity", "min(pressure_shears, pressure_bends)", "Pa", "the lesser of both"),
    ),
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
    working=(
        Line("width_borne", "max(rings.section - piston.skirt_clearance / 2, 0.1 * rings.section)",
             "m", "width of the ring that the land bears"),
        Line("demand", "gas_pressure * rings.section / width_borne", "Pa",
             "pressure of the ring on its land"),
        STRENGTH,
    ),
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
    sheared = strength.shear(material, bears) * height / depth
    bent = bears.value * height**2 / (3 * depth**2)
    return BREAKS.way(
        moment,
        demand=moment.gas_pressure,
        capacity=min(sheared, bent),
        governs=bears.governs,
        temperature=warm_at,
        inputs={"gas_pressure": moment.gas_pressure, "piston.top_land": height,
                "rings.groove_depth": depth, "pressure_shears": sheared, "pressure_bends": bent,
                "shear_of_tensile": strength.shear_share(material), **bears.inputs},
        first=bears.line,
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
    borne = max(rings.section - piston.skirt_clearance / 2, 0.1 * rings.section)
    return SINKS.way(
        moment,
        demand=moment.gas_pressure * rings.section / borne,
        capacity=bears.value,
        governs=bears.governs,
        temperature=warm_at,
        inputs={"gas_pressure": moment.gas_pressure, "rings.section": rings.section,
                "piston.skirt_clearance": piston.skirt_clearance, "width_borne": borne,
                **bears.inputs},
        first=bears.line,
        raise_by=(
            *(shielded(moment) if bears.governs == "temperature" else ()),
            *raising.other_plastic("piston.material", material, "piston", "strength_in_plane",
                                   "reprint_piston"),
        ),
    )  # fmt: skip


JUDGEMENTS = (breaks, sinks)
