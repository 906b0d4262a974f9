"""Layout, crank, bearings, case and flywheel."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Angle,
    BearingName,
    Force,
    Inertia,
    Length,
    Mass,
    MaterialName,
    Ratio,
    Section,
    Speed,
    Torque,
    Viscosity,
    Volume,
    said,
)
from firstfire.engine.sections.joint import Joint, Journal, Seat
from firstfire.engine.sections.make import Laid, Made


class Layout(Section):
    """How the cylinders stand."""

    kind: Literal["single", "parallel_twin", "v_twin", "opposed_twin"] = said(
        "single, parallel_twin, v_twin or opposed_twin"
    )
    v_angle: Angle = said("V-twin: angle between the bores", low="0 deg", high="180 deg")
    crank_offset: Angle = said(
        "angle between the two crankpins (0: one common pin)", low="0 deg", high="360 deg"
    )
    cylinder_spacing: Length = said(
        "distance of the bores along the crank", low="0 mm", high="400 mm"
    )
    rotation: Literal["clockwise", "anticlockwise"] = said(
        "direction of turning, looking at the flywheel"
    )
    second_fires_after: Angle | None = said(
        "when cylinder 2 fires after cylinder 1, where not the most even choice",
        low="0 deg",
        high="720 deg",
        optional=True,
    )


class Crank(Made):
    """The crank."""

    built: Literal["one_piece", "built_up"] = said("from one piece, or pins joined into cheeks")
    crankpin_diameter: Length = said("crankpin diameter", low="3 mm", high="60 mm")
    crankpin_length: Length = said(
        "free length of crankpin between cheeks", low="2 mm", high="200 mm"
    )
    crankpin_material: MaterialName = said("crankpin material, a row of the catalog")
    through_rod_diameter: Length = said(
        "steel rod inside a printed pin (0: none)", low="0 mm", high="60 mm"
    )
    cheek_thickness: Length = said("thickness of a cheek", low="1 mm", high="60 mm")
    cheek_width: Length = said("width of a cheek", low="5 mm", high="200 mm")
    main_journal_diameter: Length = said("main journal diameter", low="3 mm", high="60 mm")
    main_bearing: BearingName = said("main bearing, a row of the catalog", example="6202")
    main_bearing_bore: Length = said(
        "its bore", low="1 mm", high="120 mm", row=("main_bearing", "bore")
    )
    main_bearing_outside: Length = said(
        "its outside", low="3 mm", high="260 mm", row=("main_bearing", "outside")
    )
    main_bearing_width: Length = said(
        "its width", low="1 mm", high="80 mm", row=("main_bearing", "width")
    )
    main_bearing_dynamic_load: Force = said(
        "its dynamic load rating C",
        low="10 N",
        high="500000 N",
        row=("main_bearing", "dynamic_load"),
        example="7800 N",
    )
    main_bearing_static_load: Force = said(
        "its static load rating C0", low="10 N", high="500000 N",
        row=("main_bearing", "static_load"), example="3750 N",
    )  # fmt: skip
    main_bearings: int = said("how many", low="1", high="6")
    bearing_span: Length = said("between the middles of the main bearings", low="5 mm", high="1 m")
    balance_factor: Ratio = said(
        "share of the reciprocating mass the counterweight carries", low="0", high="1.5"
    )
    crankpin: Laid
    joint: Joint
    journal: Journal


class Case(Made):
    """The crankcase."""

    wall: Length = said("wall thickness", low="0.8 mm", high="60 mm")
    volume: Volume = said("volume inside with the piston at top centre", low="1 cm^3", high="50 l")
    breather: Literal["open", "hole", "hose", "one_way_valve", "closed"] = said(
        "how the crankcase breathes"
    )
    breather_diameter: Length = said("bore of the breather", low="0.3 mm", high="60 mm")
    shaft_seals: int = said("rubbing seals on the crank", low="0", high="6")
    lubrication: Literal["dry", "grease", "oil_in_fuel", "splash", "drip"] = said(
        "how the running gear is lubricated"
    )
    viscosity_40: Viscosity = said(
        "of its oil, or of its bearings' grease's base oil, at 40 degC",
        low="5 mm^2/s", high="500 mm^2/s", example="100 mm^2/s",
    )  # fmt: skip
    viscosity_100: Viscosity = said(
        "the same at 100 degC", low="2 mm^2/s", high="60 mm^2/s", example="11 mm^2/s"
    )


class Flywheel(Section):
    """The flywheel."""

    material: MaterialName = said("its material, a row of the catalog")
    diameter: Length = said("diameter", low="10 mm", high="600 mm")
    thickness: Length = said("thickness", low="0 mm", high="150 mm")
    bore: Length = said("hole in it", low="0 mm", high="100 mm")
    inertia: Inertia = said(
        "its moment of inertia", low="0 kg*m^2", high="2 kg*m^2", example="1.2e-3 kg*m^2"
    )
    joint: Seat


class Load(Section):
    """What the engine drives."""

    kind: Literal["none", "brake", "fan", "propeller", "generator", "pump"] = said("what it drives")
    diameter: Length = said("propeller or fan: diameter", low="10 mm", high="1.5 m")
    pitch: Length = said("propeller: pitch", low="0 mm", high="1 m")
    torque: Torque = said(
        "brake, generator or pump: torque at the speed below", low="0 N*m", high="500 N*m"
    )
    torque_at: Speed = said("speed at which that torque holds", low="50 rpm", high="20000 rpm")
    inertia: Inertia = said("moment of inertia", low="0 kg*m^2", high="2 kg*m^2")
    mass: Mass = said("mass on the shaft", low="0 g", high="50 kg")
