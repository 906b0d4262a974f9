"""What rubs in an engine and how hard, from its description."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from firstfire.cycle.layout import IRON_RINGS, NO_RINGS, O_RINGS, PTFE_RINGS
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import reciprocating_mass
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import bearing_friction, oring_friction

# Coefficients by lubrication: plain bearings, skirt of plastic, skirt of metal, cam and follower,
# rings against the lubricated chart. Common practice, no source; bands in `doubt.friction`.
_PLAIN = {"dry": 0.20, "grease": 0.10, "oil_in_fuel": 0.10, "splash": 0.06, "drip": 0.08}
# A metal rod on a steel pin in flung oil floats on a film for most of the turn: 0.002 to 0.02 on a
# full film, to 0.08 on a mixed one (J. E. Shigley, Mechanical Engineering Design, 9th ed., section
# 12-2 and figure 12-4, from memory).
_PLAIN_METAL = {**_PLAIN, "splash": 0.03, "drip": 0.04}
_PLASTIC_SKIRT = {"dry": 0.25, "grease": 0.10, "oil_in_fuel": 0.10, "splash": 0.07, "drip": 0.08}
_METAL_SKIRT = {"dry": 0.30, "grease": 0.10, "oil_in_fuel": 0.08, "splash": 0.05, "drip": 0.06}
_CAM = {"dry": 0.20, "grease": 0.12, "oil_in_fuel": 0.15, "splash": 0.10, "drip": 0.10}
_RING = {"dry": 1.5, "grease": 1.0, "oil_in_fuel": 1.0, "splash": 1.0, "drip": 1.0}
_ROUGH = {"smooth": 1.0, "sanded": 1.2, "as_cut": 1.4, "as_printed": 2.0}
_ROLLING = 0.003  # needle or ball in a rod's eye; makers' data 0.002 to 0.004, from memory
_ROLLER_CAM = 0.02
# Base oil of a bearing grease at running temperature, m²/s; makers' data, from memory.
_GREASE_VISCOSITY = 60e-6
# One rubbing lip on a 15 mm shaft, N·m; seal makers' data 0.02 to 0.05, from memory.
_SEAL = 0.03
# Share of a belt's tension that is lost on its way round; belt makers' losses of 1 to 5 %, from
# memory. A gear or chain is taken alike.
_DRIVE_LOSS = 0.03

_RING_KINDS = {"none": NO_RINGS, "o_ring": O_RINGS, "metal": IRON_RINGS, "ptfe": PTFE_RINGS}


@dataclass(frozen=True)
class Rubbing:
    """What rubs in one cylinder; SI, as in :data:`firstfire.cycle.layout.RUBBING_RECORD`."""

    ring_kind: int = NO_RINGS
    ring_count: int = 0
    line_level: float = 0.0
    ring_length: float = 0.0
    ring_area: float = 0.0
    ring_spring: float = 0.0
    ring_doubt: float = 1.0
    skirt: float = 0.0
    crankpin: float = 0.0
    piston_pin: float = 0.0
    reciprocating_mass: float = 0.0


@dataclass(frozen=True)
class ShaftRubbing:
    """What rubs once an engine; as `firstfire.cycle.layout.SHAFT_RUBBING_RECORD`."""

    bearings: float = 0.0
    bearing_diameter: float = 0.0
    bearing_rating: float = 0.0
    bearing_drag: float = 0.0
    bearing_doubt: float = 1.0
    constant: float = 0.0
    drive: float = 0.0


def rubbing(engine: PlainEngine, place: int) -> Rubbing:
    """What rubs in the cylinder at `place`, counted from 0."""
    parts = engine.cylinders[place]
    lubricant = engine.case.lubrication
    metal = engine.materials[parts.piston.material].metal
    skirt = (_METAL_SKIRT if metal else _PLASTIC_SKIRT)[lubricant]
    plain = (_PLAIN_METAL if engine.materials[parts.rod.material].metal else _PLAIN)[lubricant]
    big = _plain_or_rolling(parts.rod.big_end, plain) * engine.crank.crankpin_diameter / 2
    small = _plain_or_rolling(parts.rod.small_end, plain) * parts.pin.diameter / 2
    bearings = engine.doubt.friction.bearings
    return replace(
        _rings(parts),
        ring_doubt=engine.doubt.friction.ring * _RING[lubricant] * _ROUGH[parts.liner.bore_finish],
        skirt=skirt * engine.doubt.friction.skirt,
        crankpin=big * bearings,
        piston_pin=small * bearings,
        reciprocating_mass=reciprocating_mass(engine, parts),
    )


def _plain_or_rolling(end: str, plain: float) -> float:
    return _ROLLING if end in ("needle", "ball") else plain


def _rings(parts: CylinderParts) -> Rubbing:
    rings, bore = parts.rings, parts.cylinder.bore
    common = Rubbing(_RING_KINDS[rings.kind], rings.count, ring_length=math.pi * bore)
    if rings.kind == "o_ring":
        groove = bore - parts.piston.skirt_clearance - 2 * rings.groove_depth
        # The chart begins where a ring just touches and ends at 30 % of squeeze, 60 to 95 Shore A.
        squeeze = min(max(rings.squeeze, 0.0), 0.30)
        hardness = min(max(rings.hardness, 60.0), 95.0)
        return replace(
            common,
            line_level=oring_friction.line_friction(squeeze, hardness),
            ring_area=oring_friction.projected_area(bore, groove),
        )
    return replace(
        common, ring_area=math.pi * bore * rings.axial_height, ring_spring=rings.wall_pressure
    )


def shaft_rubbing(engine: PlainEngine) -> ShaftRubbing:
    """What rubs once: main bearings, seals and cam drive."""
    crank, drive = engine.crank, engine.cam_drive
    mean = (crank.main_bearing_bore + crank.main_bearing_outside) / 2
    at_one = bearing_friction.viscous_torque(
        1e3, mean, _GREASE_VISCOSITY, bearing_friction.LUBRICATION_GREASE
    )
    seals = engine.case.shaft_seals * _SEAL * (crank.main_journal_diameter / 0.015) ** 2
    radius = drive.teeth_crank * drive.pitch / (2 * math.pi)
    return ShaftRubbing(
        bearings=float(crank.main_bearings),
        bearing_diameter=mean,
        bearing_rating=crank.main_bearing_static_load,
        bearing_drag=crank.main_bearings * at_one / 1e3 ** (2 / 3),
        bearing_doubt=engine.doubt.friction.bearings,
        constant=seals,
        drive=drive.count * _DRIVE_LOSS * 2 * drive.tension * radius * engine.doubt.friction.belt,
    )


def cam_rubbing(engine: PlainEngine, valve: CamValve) -> float:
    """Friction torque on the crank for each newton at a cam's valve, m; 0 for a suction valve."""
    if valve.worked == "suction":
        return 0.0
    sliding = _CAM[engine.case.lubrication]
    coefficient = _ROLLER_CAM if valve.follower == "roller" else sliding
    radius = valve.base_radius + valve.lift / 2
    return 0.5 * coefficient * radius * valve.rocker_ratio * engine.doubt.friction.valve_gear
