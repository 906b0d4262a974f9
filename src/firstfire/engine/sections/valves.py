"""Valves, cams and their drive."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Angle,
    BeltName,
    Force,
    Length,
    Mass,
    MaterialName,
    Ratio,
    Section,
    SpringRate,
    said,
)
from firstfire.engine.sections.joint import Seat

LiftTable = tuple[tuple[Angle, Length], ...]


class Valve(Section):
    """One valve and what works it."""

    worked: Literal["cam", "suction"] = said("opened by a cam, or by suction (inlet only)")
    made: Literal["bought", "shop_made"] = said("a bought valve, or one made in the shop")
    material: MaterialName = said("its material, a row of the catalog")
    head_diameter: Length = said("head diameter", low="4 mm", high="60 mm", example="18 mm")
    throat_diameter: Length = said("port bore under the seat", low="3 mm", high="58 mm")
    stem_diameter: Length = said("stem diameter", low="1.5 mm", high="12 mm", example="4 mm")
    seat_angle: Angle = said("angle of the seat to the head's plane", low="0 deg", high="60 deg")
    seat_material: MaterialName = said("seat material, a row of the catalog")
    seat_interference: Length = said(
        "how much larger the seat ring is than its hole",
        low="0 mm",
        high="0.5 mm",
        example="0.05 mm",
    )
    guide_material: MaterialName = said("guide material, a row of the catalog")
    retainer_material: MaterialName = said("spring retainer's material, a row of the catalog")
    tappet_material: MaterialName = said("tappet's or finger's material, a row of the catalog")
    lift: Length = said("largest lift", low="0.3 mm", high="20 mm", example="5 mm")
    mass: Mass = said("moving mass at the valve, spring's third included", low="0.5 g", high="1 kg")
    spring_rate: SpringRate = said("spring rate", low="0.005 N/mm", high="200 N/mm")
    spring_preload: Force = said("spring force with the valve shut", low="0 N", high="2000 N")
    lash: Length = said("clearance when shut", low="0 mm", high="2 mm", example="0.1 mm")
    flow_coefficient: Ratio = said(
        "how well it flows against the usual curve for its lift",
        low="0.3",
        high="1.3",
        example="1",
    )


class CamValve(Valve):
    """A valve with a cam's law."""

    cam_law: Literal[
        "polynomial_345",
        "polynomial_4567",
        "cycloidal",
        "harmonic",
        "modified_trapezoid",
        "modified_sine",
        "table",
    ] = said("law of the rise, or a lift table")
    lift_table: LiftTable | None = said(
        'table law: pairs of crank angle after opening and lift, [["0 deg", "0 mm"], ...]',
        columns=(("0 deg", "720 deg"), ("0 mm", "20 mm")),
        optional=True,
    )
    base_radius: Length = said("cam base circle radius", low="2 mm", high="60 mm")
    cam_ramp: Angle = said(
        "crank angle over which the cam takes up the lash, before the valve leaves its seat and "
        "again after it is back",
        low="2 deg",
        high="90 deg",
        example="40 deg",
    )
    cam_width: Length = said(
        "how wide the cam is where it is ridden on", low="2 mm", high="40 mm", example="8 mm"
    )
    cam_material: MaterialName = said("the cam's material, a row of the catalog")
    follower: Literal["flat", "roller", "curved"] = said("what rides on the cam")
    follower_radius: Length = said("roller or curved follower: radius", low="0 mm", high="200 mm")
    rocker: Literal["direct", "rocker"] = said("direct, or through a rocker")
    rocker_ratio: Ratio = said("valve lift over cam lift", low="0.3", high="4", example="1")
    rocker_arm: Length = said(
        "rocker: from its pivot to what rides on the cam", low="5 mm", high="120 mm"
    )


class Inlet(CamValve):
    """The inlet valve."""

    opens_before_top: Angle = said(
        "crank angle before top centre at which it leaves its seat", low="-60 deg", high="120 deg"
    )
    closes_after_bottom: Angle = said(
        "crank angle after bottom centre at which it is back", low="-60 deg", high="120 deg"
    )


class Exhaust(CamValve):
    """The exhaust valve."""

    opens_before_bottom: Angle = said(
        "crank angle before bottom centre at which it leaves its seat",
        low="-60 deg",
        high="120 deg",
    )
    closes_after_top: Angle = said(
        "crank angle after top centre at which it is back", low="-60 deg", high="120 deg"
    )


class Valves(Section):
    """Both valves of a cylinder."""

    placed: Literal["overhead", "side"] = said(
        "overhead in the head, or beside the bore in the cylinder under a wider head"
    )
    inlet: Inlet
    exhaust: Exhaust


class CamDrive(Section):
    """From crank to cam, two to one."""

    kind: Literal["belt", "chain", "gear"] = said("belt, chain or gear")
    count: int = said("how many drives side by side", low="1", high="4")
    belt: BeltName | None = said("belt, a row of the catalog", optional=True)
    pitch: Length = said(
        "tooth pitch", low="1 mm", high="20 mm", row=("belt", "pitch"), example="3 mm"
    )
    width: Length = said("belt or gear width", low="2 mm", high="60 mm", example="9 mm")
    teeth_crank: int = said("teeth on the crank", low="6", high="80", example="18")
    teeth_cam: int = said("teeth on the cam", low="12", high="160", example="36")
    centre_distance: Length = said("crank axis to cam axis", low="10 mm", high="600 mm")
    tension: Force = said("belt tension in each span when still", low="0 N", high="1000 N")
    wheel_material: MaterialName = said("material of its wheel on the crank, a row of the catalog")
    joint: Seat
