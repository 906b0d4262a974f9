"""What an engine file says by arithmetic alone: volumes, angles, speeds, areas, clearances."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import firing, slider_crank

_CRITICAL_SPEEDS = 181


@dataclass(frozen=True)
class CylinderGeometry:
    """Of one cylinder, SI.

    Attributes
    ----------
    displacement
        Swept volume, m³.
    clearance_volume
        Volume left at top centre, m³.
    compression_ratio
        Largest over smallest volume.
    stroke
        The piston's travel, m (longer than twice the throw where the bore is offset).
    top_after_inline, bottom_after_inline
        Crank angle of top and bottom centre past the in-line position, rad.
    inlet_curtain, exhaust_curtain
        Circumference of the valve's throat times lift, m².
    inlet_throat, exhaust_throat
        Throat less stem, m².
    valve_to_wall
        Least gap between a valve's head and the bore, both valves spread evenly, m.
    valve_to_valve
        Gap left between the heads, m.
    rod_to_skirt
        Gap between the rod's shank and the liner's lower edge at its steepest, m.
    ring_squeeze, ring_fill, ring_stretch
        Of an O-ring in its groove; None for other rings.
    reciprocating_mass
        Piston, shield, pin, rings and the rod's share, kg.
    """

    displacement: float
    clearance_volume: float
    compression_ratio: float
    stroke: float
    top_after_inline: float
    bottom_after_inline: float
    inlet_curtain: float
    exhaust_curtain: float
    inlet_throat: float
    exhaust_throat: float
    valve_to_wall: float
    valve_to_valve: float
    rod_to_skirt: float
    ring_squeeze: float | None
    ring_fill: float | None
    ring_stretch: float | None
    reciprocating_mass: float


@dataclass(frozen=True)
class SpeedGeometry:
    """At one speed: mean and largest piston speed and largest acceleration, SI."""

    speed: float
    mean_piston_speed: float
    largest_piston_speed: float
    largest_piston_acceleration: float


@dataclass(frozen=True)
class Geometry:
    """Of the whole engine, SI.

    Attributes
    ----------
    displacement
        Of all cylinders, m³.
    cylinders
        Each one.
    firing_angles
        When each cylinder fires after cylinder 1, rad, 0 to 4π.
    firing_intervals
        From one firing to the next, rad; they add up to 4π.
    speeds
        At cranking, idle and each speed asked for.
    flywheel_inertia
        Of flywheel and load together, kg·m².
    """

    displacement: float
    cylinders: tuple[CylinderGeometry, ...]
    firing_angles: tuple[float, ...]
    firing_intervals: tuple[float, ...]
    speeds: tuple[SpeedGeometry, ...]
    flywheel_inertia: float


def geometry(engine: PlainEngine) -> Geometry:
    """All that follows from the file by arithmetic."""
    each = tuple(_cylinder(engine, parts) for parts in engine.cylinders)
    angles = firing_angles(engine)
    use = engine.use
    return Geometry(
        displacement=sum(c.displacement for c in each),
        cylinders=each,
        firing_angles=angles,
        firing_intervals=firing.firing_intervals(angles),
        speeds=tuple(
            _at_speed(engine.cylinders[0], speed)
            for speed in sorted({use.cranking_speed, use.idle_speed, *use.full_throttle_speeds})
        ),
        flywheel_inertia=engine.flywheel.inertia + engine.load.inertia,
    )


def firing_angles(engine: PlainEngine) -> tuple[float, ...]:
    """When each cylinder fires after cylinder 1, rad, 0 to 4π.

    Raises
    ------
    OutsideValidity
        Where the file asks cylinder 2 to fire away from its top centre.
    """
    layout = mechanism_layout(engine)
    lates = [_inline_to_top(parts) for parts in engine.cylinders]
    wanted = engine.layout.second_fires_after
    if wanted is None or len(engine.cylinders) == 1:
        return firing.firing_angles(layout, late=lates)
    early, later = (
        firing.firing_angles(layout, (False, second), lates) for second in (False, True)
    )
    chosen = min(early, later, key=lambda angles: abs(angles[1] - wanted))
    if abs(chosen[1] - wanted) > math.radians(1):
        tops = " or ".join(f"{math.degrees(a[1]):.0f}" for a in (early, later))
        raise OutsideValidity(
            f"layout.second_fires_after is {math.degrees(wanted):.0f}°, but cylinder 2 is at top "
            f"centre {tops}° after cylinder 1 fires. It can fire only there."
        )
    return chosen


def mechanism_layout(engine: PlainEngine) -> firing.Layout:
    """Directions of bores and crankpins."""
    said = engine.layout
    return layout_of(said.kind, said.v_angle, said.crank_offset)


def layout_of(kind: str, v_angle: float, crank_offset: float) -> firing.Layout:
    """The same of a layout by name, its V and the angle between its crankpins, rad."""
    if kind == "parallel_twin":
        return firing.parallel_twin(crank_offset)
    if kind == "v_twin":
        return firing.v_twin(v_angle, crank_offset)
    if kind == "opposed_twin":
        return firing.Layout((0.0, math.pi), (0.0, crank_offset))
    return firing.single()


def mechanism(parts: CylinderParts) -> tuple[float, float, float]:
    """Throw, rod length and bore offset, m.

    The file says what the piston travels; with an offset the crank's throw is a little less than
    half of it.
    """
    stroke, rod, offset = parts.cylinder.stroke, parts.rod.length, parts.cylinder.offset
    return slider_crank.throw_for_stroke(stroke, rod, offset), rod, offset


def swept_volume(parts: CylinderParts) -> float:
    """Of one cylinder, m³."""
    return math.pi / 4 * parts.cylinder.bore**2 * parts.cylinder.stroke


def _inline_to_top(parts: CylinderParts) -> float:
    return slider_crank.top_centre_angle(*mechanism(parts))


def _cylinder(engine: PlainEngine, parts: CylinderParts) -> CylinderGeometry:
    bore = parts.cylinder.bore
    swept = swept_volume(parts)
    inlet, exhaust = parts.valves.inlet, parts.valves.exhaust
    lean = math.cos(parts.head.valve_axis_angle)
    spare = bore - (inlet.head_diameter + exhaust.head_diameter) * lean
    bridge = min(parts.head.valve_bridge, spare)
    squeeze, fill, stretch = _ring(parts)
    return CylinderGeometry(
        displacement=swept,
        clearance_volume=swept / (parts.cylinder.compression_ratio - 1),
        compression_ratio=parts.cylinder.compression_ratio,
        stroke=parts.cylinder.stroke,
        top_after_inline=_inline_to_top(parts),
        bottom_after_inline=slider_crank.bottom_centre_angle(*mechanism(parts)),
        inlet_curtain=math.pi * inlet.throat_diameter * inlet.lift,
        exhaust_curtain=math.pi * exhaust.throat_diameter * exhaust.lift,
        inlet_throat=_throat(inlet.throat_diameter, inlet.stem_diameter),
        exhaust_throat=_throat(exhaust.throat_diameter, exhaust.stem_diameter),
        valve_to_wall=(spare - bridge) / 2,
        valve_to_valve=bridge,
        rod_to_skirt=_rod_to_skirt(parts),
        ring_squeeze=squeeze,
        ring_fill=fill,
        ring_stretch=stretch,
        reciprocating_mass=reciprocating_mass(engine, parts),
    )


def _throat(throat: float, stem: float) -> float:
    return math.pi / 4 * (throat**2 - stem**2)


def _rod_to_skirt(parts: CylinderParts) -> float:
    """Least gap between the rod's flank and the liner's lower edge, over a turn.

    The liner's lower edge is taken where the skirt leaves it at bottom centre by a tenth of
    the piston's length at most: its length below the crown's top position.
    """
    throw, rod, offset = mechanism(parts)
    top = slider_crank.top_height(throw, rod, offset)
    edge_height = top + parts.piston.compression_height - parts.liner.length
    half_bore, half_shank = parts.cylinder.bore / 2, parts.rod.shank_width / 2
    least = math.inf
    for step in range(_CRITICAL_SPEEDS):
        angle = 2 * math.pi * step / (_CRITICAL_SPEEDS - 1)
        pin = slider_crank.piston_height(angle, throw, rod, offset)
        lean = slider_crank.rod_angle(angle, throw, rod, offset)
        below = pin - edge_height
        if below <= 0 or below > rod * math.cos(lean):
            continue
        reach = abs(below * math.tan(lean)) + half_shank / math.cos(lean)
        least = min(least, half_bore - reach)
    return least


def _ring(parts: CylinderParts) -> tuple[float | None, float | None, float | None]:
    from firstfire.formulas import oring_gland

    rings = parts.rings
    if rings.kind != "o_ring" or not rings.count:
        return None, None, None
    groove = parts.cylinder.bore - parts.piston.skirt_clearance - 2 * rings.groove_depth
    gland = rings.groove_depth + parts.piston.skirt_clearance / 2
    section = oring_gland.stretched_section(rings.section, rings.inside_diameter, groove)
    return (
        oring_gland.squeeze(section, gland),
        oring_gland.fill(section, gland, rings.groove_width),
        oring_gland.stretch(rings.inside_diameter, groove),
    )


def reciprocating_mass(engine: PlainEngine, parts: CylinderParts) -> float:
    """Piston, shield, pin, rings and the rod's share, kg."""
    pin = parts.pin
    pin_volume = math.pi / 4 * (pin.diameter**2 - pin.inside_diameter**2) * pin.length
    rings = parts.rings
    across = rings.section if rings.kind == "o_ring" else rings.axial_height
    area = math.pi / 4 * rings.section**2 if rings.kind == "o_ring" else rings.section * across
    ring_volume = rings.count * area * math.pi * (parts.cylinder.bore - rings.section)
    return (
        parts.piston.mass
        + engine.materials[pin.material]["density"] * pin_volume
        + engine.materials[rings.material]["density"] * ring_volume
        + parts.rod.reciprocating_fraction * parts.rod.mass
    )


def _at_speed(parts: CylinderParts, speed: float) -> SpeedGeometry:
    throw, rod, offset = mechanism(parts)
    angles = [math.pi * 2 * n / 720 for n in range(720)]
    slopes = [slider_crank.piston_height_slope(a, throw, rod, offset) for a in angles]
    bends = [slider_crank.piston_height_curvature(a, throw, rod, offset) for a in angles]
    return SpeedGeometry(
        speed=speed,
        mean_piston_speed=parts.cylinder.stroke * speed / math.pi,
        largest_piston_speed=max(map(abs, slopes)) * speed,
        largest_piston_acceleration=max(map(abs, bends)) * speed**2,
    )
