"""Cylinder, liner, body, gasket and head."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Angle,
    InsertName,
    Length,
    MaterialName,
    Ratio,
    Section,
    Temperature,
    ThreadName,
    Time,
    Torque,
    TubeName,
    Volume,
    said,
)
from firstfire.engine.sections.make import Made


class Cylinder(Section):
    """Bore, stroke and what is left above the piston."""

    bore: Length = said("bore", low="10 mm", high="120 mm", example="44 mm")
    stroke: Length = said(
        "what the piston travels from top to bottom (the throw follows, offset and all)",
        low="8 mm",
        high="120 mm",
        example="40 mm",
    )
    compression_ratio: Ratio = said(
        "largest over smallest volume above the piston", low="2", high="16", example="7"
    )
    chamber_volume: Volume = said(
        "volume above the piston at top centre, gasket and deck included",
        low="0.1 cm^3",
        high="500 cm^3",
        example="8 cm^3",
    )
    deck: Length = said(
        "gap from crown to the top of the cylinder at top centre",
        low="-3 mm",
        high="20 mm",
        example="0.5 mm",
    )
    offset: Length = said(
        "bore axis to the side of the crank axis (positive: towards the pin after top centre)",
        low="-30 mm",
        high="30 mm",
        example="0 mm",
    )


class Liner(Made):
    """What the piston runs in."""

    kind: Literal["tube", "bare_print", "metal"] = said(
        "a tube pressed into the body, the bare print, or a metal cylinder"
    )
    tube: TubeName | None = said("tube it is cut from, a row of the catalog", optional=True)
    outside_diameter: Length = said("outside diameter", low="10 mm", high="200 mm")
    length: Length = said("length", low="10 mm", high="400 mm")
    fit_interference: Length = said(
        "how much larger the liner is than the body's hole (negative: loose)",
        low="-1 mm",
        high="1 mm",
        example="0.05 mm",
    )
    bore_finish: Literal["smooth", "sanded", "as_cut", "as_printed"] = said("surface of the bore")
    coating: Literal["none", "epoxy", "resin", "ceramic_paint", "metal_foil"] = said(
        "what seals or shields a printed wall"
    )


class Fins(Section):
    """Cooling fins (none where the count is 0), of the material they stand on."""

    count: int = said("how many", low="0", high="80")
    length: Length = said("how far they stand out", low="1 mm", high="150 mm")
    thickness: Length = said("mean thickness of one", low="0.3 mm", high="20 mm", example="2 mm")
    gap: Length = said("free space from one to the next", low="0.5 mm", high="100 mm")


class Foot(Section):
    """The flange by which a body is screwed to the case, where the head's screws end in it."""

    thickness: Length = said("thickness of the flange", low="1 mm", high="60 mm", example="8 mm")
    fillet: Length = said(
        "radius in the corner of flange and wall", low="0.05 mm", high="20 mm", example="0.8 mm"
    )
    circle_diameter: Length = said(
        "diameter of the circle its screws stand on", low="12 mm", high="400 mm"
    )


class Body(Made):
    """What holds the liner and carries the head: a cylinder, or a spacer under it."""

    outside_diameter: Length = said("outside diameter, without fins", low="12 mm", high="300 mm")
    sealed: bool = said("whether printed walls are sealed against seeping")
    foot: Foot
    fins: Fins


class Gasket(Section):
    """Between head and cylinder."""

    kind: Literal["sheet", "cured_sealant", "o_ring", "metal", "none"] = said("what seals the head")
    material: MaterialName = said("its material, a row of the catalog")
    thickness: Length = said("thickness when clamped", low="0 mm", high="6 mm", example="0.8 mm")
    inside_diameter: Length = said("inside diameter", low="10 mm", high="200 mm")
    width: Length = said("width of the sealing ring", low="0.3 mm", high="60 mm")
    open_time: Time = said(
        "sealant: time from spreading it to closing the joint", low="0 s", high="1 day"
    )
    cure_time: Time = said(
        "sealant: time it was left to cure before it is fired", low="0 s", high="60 day"
    )
    cure_temperature: Temperature = said(
        "sealant: temperature it cured at", low="-20 °C", high="250 °C"
    )


class Fasteners(Section):
    """What holds the head down, a cylinder."""

    kind: Literal["through_bolts", "nutted_studs", "studs", "screws", "inserts"] = said(
        "long bolts through to the crankcase, studs with nuts at both ends, studs, screws into "
        "plastic, or heat-set inserts"
    )
    count: int = said("how many a cylinder", low="2", high="24", example="4")
    thread: ThreadName = said("thread, a row of the catalog", example="M5")
    property_class: Literal["4.8", "5.8", "8.8", "10.9", "12.9", "A2-70"] = said(
        "strength class stamped on the head"
    )
    insert: InsertName | None = said("heat-set insert, a row of the catalog", optional=True)
    engaged_length: Length = said("length of thread in what holds it", low="1 mm", high="200 mm")
    clamped_length: Length = said("length of bolt under load", low="1 mm", high="600 mm")
    circle_diameter: Length = said(
        "diameter of the circle they stand on", low="12 mm", high="400 mm"
    )
    torque: Torque = said("tightening torque", low="0 N*m", high="200 N*m", example="4 N*m")
    washer_diameter: Length = said(
        "outside diameter of the washer under the head", low="3 mm", high="80 mm"
    )

    @property
    def through(self) -> bool:
        """Whether they have nuts below and end in no thread in a part."""
        return self.kind in ("through_bolts", "nutted_studs")

    @property
    def stud(self) -> bool:
        """Whether they have a nut on the head instead of a head of their own."""
        return self.kind in ("nutted_studs", "studs")

    @property
    def long(self) -> bool:
        """Whether they clamp the cylinder too, down to the crankcase."""
        return self.through or self.kind == "studs"


class Head(Made):
    """The head: a plate that carries valves, plug and the gas pressure."""

    thickness: Length = said("thickness over the chamber, without fins", low="1 mm", high="100 mm")
    diameter: Length = said("outside diameter, without fins", low="12 mm", high="300 mm")
    chamber_plate: MaterialName | None = said(
        "plate that faces the fire, a material of the catalog", optional=True
    )
    chamber_plate_thickness: Length = said(
        "thickness of that plate (0: none)",
        low="0 mm",
        high="20 mm",
        example="3 mm",
    )
    valve_axis_angle: Angle = said(
        "angle of the valves to the bore", low="0 deg", high="60 deg", example="0 deg"
    )
    valve_bridge: Length = said(
        "least material left between the two valve seats",
        low="0.2 mm",
        high="30 mm",
        example="3 mm",
    )
    coating: Literal["none", "epoxy", "resin", "ceramic_paint", "metal_foil"] = said(
        "what seals or shields a printed chamber"
    )
    fins: Fins
    fasteners: Fasteners


class Plug(Section):
    """The spark plug."""

    thread: ThreadName = said("thread, a row of the catalog", example="M10x1")
    gap: Length = said("electrode gap", low="0.1 mm", high="2 mm", example="0.6 mm")
    offset: Length = said("from the bore's axis to its gap", low="0 mm", high="60 mm")
    return_lead: bool = said("a lead from the plug's shell back to the coil; plastic is no earth")
