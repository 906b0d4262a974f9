"""Piston, shield, rings, pin and con rod."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Length,
    Mass,
    MaterialName,
    ORingName,
    Pressure,
    Ratio,
    Section,
    said,
)
from firstfire.engine.sections.make import Filled, Made


class Shield(Section):
    """A sheet of metal on the crown (none where the thickness is 0)."""

    material: MaterialName = said("its material, a row of the catalog")
    thickness: Length = said(
        "thickness; 0 where there is none", low="0 mm", high="6 mm", example="1 mm"
    )
    diameter: Length = said("diameter", low="5 mm", high="120 mm")
    screws: int = said("screws that hold it (0: bonded)", low="0", high="12")
    air_gap: Length = said("gap of still air behind it", low="0 mm", high="5 mm", example="0.5 mm")


class Piston(Made):
    """The piston."""

    crown_thickness: Length = said(
        "thickness of the crown", low="0.5 mm", high="40 mm", example="5 mm"
    )
    length: Length = said("overall length", low="6 mm", high="200 mm")
    compression_height: Length = said("pin axis to crown", low="4 mm", high="150 mm")
    skirt_clearance: Length = said(
        "cold clearance on diameter between skirt and bore",
        low="0 mm",
        high="2 mm",
        example="0.24 mm",
    )
    top_clearance: Length = said(
        "cold clearance on diameter at the top of the skirt",
        low="0 mm",
        high="3 mm",
        example="0.24 mm",
    )
    land_clearance: Length = said(
        "cold clearance on diameter of the lands",
        low="0 mm",
        high="4 mm",
        example="0.24 mm",
    )
    ovality: Length = said(
        "how much smaller the skirt is along the pin than across it",
        low="0 mm",
        high="2 mm",
        example="0.1 mm",
    )
    skirt_material: MaterialName | None = said(
        "skirt's material where it is another than the crown's", optional=True
    )
    skirt_thickness: Length = said(
        "thickness of the skirt", low="0.5 mm", high="20 mm", example="3 mm"
    )
    top_land: Length = said(
        "height of the land above the first ring", low="0.5 mm", high="30 mm", example="5 mm"
    )
    boss_width: Length = said("length of pin borne by the two bosses", low="2 mm", high="100 mm")
    mass: Mass = said("mass without rings and pin", low="0.5 g", high="3 kg", example="35 g")
    coating: Literal["none", "epoxy", "resin", "ceramic_paint", "metal_foil"] = said(
        "what shields a bare crown"
    )
    boss: Filled
    shield: Shield


class Rings(Section):
    """Piston rings, all alike."""

    kind: Literal["o_ring", "metal", "ptfe", "none"] = said("what seals the piston")
    count: int = said("how many", low="0", high="5", example="1")
    material: MaterialName = said("their material, a row of the catalog")
    oring: ORingName | None = said("O-ring, a row of the catalog", optional=True)
    section: Length = said(
        "O-ring: section; other rings: radial width",
        low="0.5 mm",
        high="12 mm",
        row=("oring", "section"),
        example="2.62 mm",
    )
    inside_diameter: Length = said(
        "O-ring: inside diameter as bought", low="5 mm", high="150 mm", row=("oring", "inside")
    )
    axial_height: Length = said(
        "metal or PTFE: height along the bore", low="0.4 mm", high="12 mm", example="1.5 mm"
    )
    squeeze: Ratio = said("O-ring: how far its section is squeezed, 0 to 1", low="0", high="0.6")
    hardness: Ratio = said("O-ring: hardness in Shore A", low="40", high="95", example="70")
    groove_depth: Length = said("depth of the groove", low="0.2 mm", high="12 mm", example="2.2 mm")
    groove_width: Length = said(
        "width of the groove along the bore", low="0.5 mm", high="15 mm", example="3.6 mm"
    )
    gap: Length = said(
        "metal or PTFE: cold gap at the ring's ends", low="0 mm", high="5 mm", example="0.2 mm"
    )
    wall_pressure: Pressure = said(
        "metal or PTFE: how hard the ring presses by its own spring", low="0 bar", high="20 bar"
    )


class Pin(Section):
    """The piston pin."""

    material: MaterialName = said("its material, a row of the catalog")
    diameter: Length = said("outside diameter", low="2 mm", high="40 mm", example="10 mm")
    inside_diameter: Length = said(
        "hole through it (0: solid)", low="0 mm", high="38 mm", example="6 mm"
    )
    length: Length = said("length", low="4 mm", high="120 mm")
    retention: Literal["circlips", "buttons", "press", "screw", "none"] = said(
        "what keeps it from touching the bore"
    )


class Rod(Made):
    """The con rod."""

    length: Length = said("centre to centre", low="10 mm", high="300 mm", example="72 mm")
    shank_width: Length = said(
        "width of the shank, across the crank axis", low="1 mm", high="120 mm"
    )
    shank_thickness: Length = said(
        "thickness of the shank, along the crank axis", low="1 mm", high="80 mm"
    )
    big_end: Literal["plain", "bush", "needle", "ball"] = said("bearing at the crank")
    small_end: Literal["plain", "bush", "needle", "ball"] = said("bearing at the pin")
    split: bool = said("whether the big end opens")
    big_end_width: Length = said("length of the big-end bearing", low="2 mm", high="80 mm")
    small_end_width: Length = said("length of the small-end bearing", low="2 mm", high="80 mm")
    eye_wall: Length = said("wall around the eyes", low="1 mm", high="40 mm", example="4 mm")
    mass: Mass = said("mass, both ends", low="0.5 g", high="5 kg")
    reciprocating_fraction: Ratio = said(
        "share of the mass that goes up and down with the piston", low="0.1", high="0.6"
    )
