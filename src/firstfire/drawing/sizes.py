"""One cylinder's levels and widths at one crank angle, mm in its own coordinates.

Its own coordinates: the crank axis at the origin, y out along the bore, x a quarter turn on in
the direction of rotation.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from firstfire.drawing import conventions as by
from firstfire.drawing.catalogued import screw
from firstfire.drawing.lifts import lifts
from firstfire.drawing.model import Fill, Loop
from firstfire.drawing.outlines import line
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import firing_angles, mechanism, mechanism_layout
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import slider_crank


@dataclass(frozen=True)
class ValveSizes:
    """One valve: where it stands, and what it is made of.

    Attributes
    ----------
    valve
        As the file has it.
    which
        ``inlet`` or ``exhaust``.
    x, y
        Middle of its seat in the roof.
    lean
        Its axis from the bore's, clockwise, rad.
    head, throat, stem, lift, largest_lift
        Radii, and how far it is open now and at most.
    seat_out, seat_high, cone
        Outer radius and height of its seat ring, and height of the cone in it.
    port, port_top, top
        Bore of the port, and levels above the seat of the port's roof and of the head's top.
    spring_mean, wire, spring_long
        Radius, wire's diameter and length when shut.
    """

    valve: CamValve
    which: str
    x: float
    y: float
    lean: float
    head: float
    throat: float
    stem: float
    lift: float
    largest_lift: float
    seat_out: float
    seat_high: float
    cone: float
    port: float
    port_top: float
    top: float
    spring_mean: float
    wire: float
    spring_long: float

    @property
    def tip(self) -> float:
        """Level of the stem's end above the seat when shut."""
        return self.top + self.spring_long + by.RETAINER + by.TIP


@dataclass(frozen=True)
class CylinderSizes:
    """All levels of one cylinder, from the crank axis outwards.

    Attributes
    ----------
    parts, number
        As the file has it; counted from 1.
    own
        Crank angle after its own firing top centre, rad.
    angle
        Crank angle from where throw and bore are parallel, rad.
    x
        Of the bore's axis.
    bore, throw, rod
        Radius, radius and length.
    pin
        Level of the piston pin.
    crankpin
        Where it is.
    crown, skirt
        Levels of the piston's two ends, shield included.
    top_crown, low_skirt
        The same at top centre, and at bottom centre.
    deck, face, flange, roof, block
        Levels of the body's top, the head's face, where its screws bear, its chamber's roof
        (at its edge) and its top.
    chamber
        Radius of the chamber.
    liner_end
        Level of the liner's lower end.
    block_half
        Half the width of the head above its flange.
    inlet, exhaust
        The valves.
    bolt
        Thread diameter of what holds the head down, m.
    inlet_side
        -1 where the inlet lies on the side of negative x.
    """

    parts: CylinderParts
    number: int
    own: float
    angle: float
    x: float
    bore: float
    throw: float
    rod: float
    pin: float
    crankpin: tuple[float, float]
    crown: float
    skirt: float
    top_crown: float
    low_skirt: float
    deck: float
    face: float
    flange: float
    roof: float
    block: float
    chamber: float
    liner_end: float
    block_half: float
    inlet: ValveSizes
    exhaust: ValveSizes
    bolt: float
    inlet_side: float

    @property
    def valves(self) -> tuple[ValveSizes, ValveSizes]:
        """Inlet and exhaust."""
        return self.inlet, self.exhaust

    @property
    def cam_level(self) -> float:
        """Level of the cam shaft: the file's where it leaves room for the springs."""
        return max(self.cam_wanted, self.cam_least)

    @property
    def cam_least(self) -> float:
        """Lowest level of a cam shaft over the valves."""
        return max(
            v.y + (v.tip + (by.TAPPET + _base(v)) * (v.valve.worked == "cam")) * math.cos(v.lean)
            for v in self.valves
        )

    cam_wanted: float = 0.0

    @property
    def gas(self) -> Fill:
        """What the cylinder holds: burned until the exhaust opens, then exhaust, then fresh."""
        parts = self.parts.valves
        into = self.own % (4 * math.pi)
        if into < math.pi - parts.exhaust.opens_before_bottom:
            return "burned"
        return "exhaust" if into < 2 * math.pi else "fresh"

    def roof_line(self) -> Loop:
        """The chamber's wall from left to right, from the head's face up and back to it."""
        peak = self.roof + self.chamber * math.tan(self.parts.head.valve_axis_angle)
        left, right = self.x - self.chamber, self.x + self.chamber
        middle = ((self.x, peak),) if peak > self.roof + 1e-9 else ()
        return line((left, self.face), (left, self.roof), *middle, (right, self.roof),
                    (right, self.face))  # fmt: skip


def _base(valve: ValveSizes) -> float:
    return valve.valve.base_radius * 1e3


def cylinder_sizes(
    plain: PlainEngine, index: int, crank_angle: float, inlet_side: float = -1.0
) -> CylinderSizes:
    """All sizes of a cylinder, counted from 0, at a crank angle after cylinder 1's firing top.

    Raises
    ------
    OutsideValidity
        Where the rod can't follow the crank.
    """
    parts = plain.cylinders[index]
    lengths = mechanism(parts)
    slider_crank.slider_crank_range(*lengths)
    own = crank_angle - firing_angles(plain)[index]
    angle = own + slider_crank.top_centre_angle(*lengths)
    throw, rod, offset = (1e3 * value for value in lengths)
    pin = 1e3 * slider_crank.piston_height(angle, *lengths)
    top = 1e3 * slider_crank.top_height(*lengths)
    stroke = 1e3 * slider_crank.stroke(*lengths)
    height, length = 1e3 * parts.piston.compression_height, 1e3 * parts.piston.length
    deck = top + height + 1e3 * parts.cylinder.deck
    face = deck + 1e3 * parts.gasket.thickness
    wide, deep = chamber_of(parts)
    roof = face + deep
    flange = face + 1e3 * parts.head.thickness
    opened = (float(lift[0]) for lift in lifts(parts, np.array([own])))
    valves = [
        _valve(parts, which, lift, (offset, roof), flange, wide, inlet_side)
        for which, lift in zip(("inlet", "exhaust"), opened, strict=True)
    ]
    # both springs stand on one level
    level = max(v.y + v.top for v in valves)
    inlet, exhaust = (_raised(v, level - v.y) for v in valves)
    made = CylinderSizes(
        parts=parts, number=index + 1, own=own, angle=angle, x=offset,
        bore=500 * parts.cylinder.bore, throw=throw, rod=rod, pin=pin,
        crankpin=(throw * math.sin(angle), throw * math.cos(angle)),
        crown=pin + height, skirt=pin + height - length, top_crown=top + height,
        low_skirt=top - stroke + height - length,
        deck=deck, face=face, flange=flange, roof=roof, block=level, chamber=wide,
        liner_end=deck - 1e3 * parts.liner.length,
        block_half=_block_half(parts, inlet, exhaust),
        inlet=inlet, exhaust=exhaust, bolt=screw(parts.head.fasteners.thread).diameter * 1e-3,
        inlet_side=inlet_side, cam_wanted=1e3 * plain.cam_drive.centre_distance,
    )  # fmt: skip
    return _clear_of_screws(made)


def _clear_of_screws(s: CylinderSizes) -> CylinderSizes:
    """Ports and all above them raised over the screws' heads, as far as the cam shaft lets them.

    Where it doesn't, the screws stand behind the pipes, and those hide their heads.
    """
    bolt = screw(s.parts.head.fasteners.thread)
    tall = 1.2 * bolt.nut + 0.4 * bolt.diameter
    tall = tall if s.parts.head.fasteners.stud else bolt.head
    over = s.flange + by.WASHER * bolt.diameter + tall + by.PIPE_WALL + 0.5
    low = min(v.y + v.port_top - v.port for v in s.valves)
    up = min(max(over - low, 0.0), max(s.cam_wanted - s.cam_least, 0.0))
    inlet, exhaust = (replace(v, port_top=v.port_top + up, top=v.top + up) for v in s.valves)
    return replace(s, inlet=inlet, exhaust=exhaust, block=s.block + up)


def bank(plain: PlainEngine, index: int) -> float:
    """How far a cylinder's bore is turned from upright on the sheet, clockwise, rad.

    The bores stand evenly to both sides of upright, as the engine stands on a bench.
    """
    banks = mechanism_layout(plain).banks
    return banks[index] - (min(banks) + max(banks)) / 2


def chamber_of(parts: CylinderParts) -> tuple[float, float]:
    """Radius and depth of the chamber in the head: what gasket and deck leave of its volume."""
    bore = 1e3 * parts.cylinder.bore
    lean = math.cos(parts.head.valve_axis_angle)
    heads = 1e3 * (parts.valves.inlet.head_diameter + parts.valves.exhaust.head_diameter) * lean
    across = heads + _bridge(parts)
    radius = min(bore / 2, max(across / 2 + by.CHAMBER_CLEAR, 0.43 * bore))
    left = 1e9 * volume_in_head(parts)
    tall = radius * math.tan(parts.head.valve_axis_angle)
    # under a pent roof about half of its height is volume
    return radius, max(by.LEAST_CHAMBER, left / (math.pi * radius**2) - tall / 2)


def volume_in_head(parts: CylinderParts) -> float:
    """What gasket and deck leave of the chamber's volume to the head, m³."""
    bore, gasket = parts.cylinder.bore, parts.gasket
    ring = gasket.inside_diameter if gasket.kind != "none" else bore
    left = parts.cylinder.chamber_volume - math.pi / 4 * bore**2 * parts.cylinder.deck
    return left - math.pi / 4 * ring**2 * gasket.thickness


def _bridge(parts: CylinderParts) -> float:
    inlet, exhaust = parts.valves.inlet, parts.valves.exhaust
    lean = math.cos(parts.head.valve_axis_angle)
    spare = parts.cylinder.bore - (inlet.head_diameter + exhaust.head_diameter) * lean
    return 1e3 * min(parts.head.valve_bridge, spare)


def _valve(
    parts: CylinderParts,
    which: str,
    lift: float,
    roof: tuple[float, float],
    flange: float,
    chamber: float,
    inlet_side: float,
) -> ValveSizes:
    valve: CamValve = getattr(parts.valves, which)
    other = parts.valves.exhaust if which == "inlet" else parts.valves.inlet
    side = inlet_side if which == "inlet" else -inlet_side
    head, throat, stem = (
        500 * size for size in (valve.head_diameter, valve.throat_diameter, valve.stem_diameter)
    )
    lean = parts.head.valve_axis_angle
    across = _bridge(parts) + 1e3 * (valve.head_diameter + other.head_diameter) * math.cos(lean)
    place = side * (across / 2 - head * math.cos(lean))
    level = roof[1] + (chamber - abs(place)) * math.tan(lean)
    cone = (head - throat) * math.tan(valve.seat_angle)
    seat_high = max(2 * by.SEAT_DEEP * head, cone + 0.6)
    port = 1e3 * (parts.runner.diameter if which == "inlet" else parts.stub.diameter)
    # a port leaves the head above its flange
    port_top = max(seat_high + by.PORT_RISE * 2 * throat, flange + 0.5 - level) + port
    mean = max(by.SPRING_MEAN * head, stem + by.GUIDE_WALL + 1.2)
    wire = 1e3 * (8 * valve.spring_rate * (2e-3 * mean) ** 3 * by.COILS / by.SPRING_SHEAR) ** 0.25
    return ValveSizes(
        valve=valve, which=which, x=roof[0] + place, y=level, lean=side * lean,
        head=head, throat=throat, stem=stem, lift=1e3 * lift, largest_lift=1e3 * valve.lift,
        seat_out=head + min(by.SEAT_WALL, 0.45 * _bridge(parts)), seat_high=seat_high, cone=cone,
        port=port, port_top=port_top, top=port_top + by.PORT_ROOF,
        spring_mean=mean, wire=wire,
        spring_long=(by.COILS + 1.5) * wire + by.SPRING_SPARE * 1e3 * valve.lift + 1.0,
    )  # fmt: skip


def _raised(valve: ValveSizes, top: float) -> ValveSizes:
    return replace(valve, top=top)


def _block_half(parts: CylinderParts, inlet: ValveSizes, exhaust: ValveSizes) -> float:
    """As wide as the valves and springs need, clear of the washers where that can be."""
    need = max(
        abs(v.x - 1e3 * parts.cylinder.offset) + max(v.throat + 1.5, v.spring_mean + v.wire + 1)
        for v in (inlet, exhaust)
    )
    fasteners = parts.head.fasteners
    clear = 500 * (fasteners.circle_diameter - fasteners.washer_diameter) - 0.6
    return max(need, min(clear, need + 6))
