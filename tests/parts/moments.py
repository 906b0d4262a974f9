"""Plausible moments for parts to be judged in: loads by statics from a peak pressure, no room used.

Gas follows p V^1.35 from crankcase pressure at bottom centre to the peak and back; inertia is
exact for a steady speed. Temperatures fall exponentially from a hot face.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np

from firstfire import catalog
from firstfire.engine.arithmetic import worked_out
from firstfire.engine.engine import Engine
from firstfire.engine.geometry import firing_angles, geometry, mechanism
from firstfire.engine.moment import Moment
from firstfire.engine.read import read, understand
from firstfire.engine.records import (
    CylinderLoads,
    JournalLoad,
    Loads,
    PartTemperature,
    Temperatures,
    Way,
)
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.formulas import slider_crank
from firstfire.loads.crank_layout import journals

ROOT = Path(__file__).parents[2]
FILES = (
    "engines/wren.toml",
    "engines/heron.toml",
    "engines/plover.toml",
    "tests/strangers/1_resin_methanol.toml",
    "tests/strangers/2_v_twin.toml",
    "tests/strangers/3_inches.toml",
    "tests/strangers/4_even_v.toml",
    "tests/strangers/5_metal_wren.toml",
)
RPM = math.pi / 30
AIR = 101300.0
STEPS = 360


@cache
def engine(file: str) -> Engine:
    return read(ROOT / file)


@cache
def rows() -> catalog.Catalog:
    return catalog.load()


def said(text: str) -> Engine:
    return understand(text, "said.toml", rows())


def cylinder_loads(plain: PlainEngine, cylinder: int, peak: float, speed: float) -> CylinderLoads:
    parts = plain.cylinders[cylinder]
    size = geometry(plain).cylinders[cylinder]
    throw, rod, offset = mechanism(parts)
    angle = np.linspace(-2 * math.pi, 2 * math.pi, STEPS, endpoint=False)
    height = np.array([slider_crank.piston_height(a, throw, rod, offset) for a in angle])
    bend = np.array([slider_crank.piston_height_curvature(a, throw, rod, offset) for a in angle])
    lean = np.array([slider_crank.rod_angle(a, throw, rod, offset) for a in angle])
    area = math.pi / 4 * parts.cylinder.bore**2
    volume = size.clearance_volume + area * (height.max() - height)
    squeezed = (volume.max() / volume) ** 1.35
    burned = peak * (volume.min() / volume) ** 1.3
    fires = (angle >= 0) & (angle < 0.8 * math.pi)
    closed = np.abs(angle) < math.pi
    pressure = np.where(fires, burned, np.where(closed, AIR * squeezed, AIR))
    gas = area * (pressure - AIR)
    inertia = -size.reciprocating_mass * bend * speed**2
    along = gas - inertia
    thrust = along / np.cos(lean)
    turning = parts.rod.mass * (1 - parts.rod.reciprocating_fraction) * throw * speed**2
    return CylinderLoads(
        angle=angle,
        gas=gas,
        inertia=inertia,
        along_bore=along,
        rod=thrust,
        side=along * np.tan(lean),
        torque=thrust * throw * np.sin(angle + lean),
        crankpin=np.abs(thrust) + turning,
    )


def loads(plain: PlainEngine, peak: float, speed: float) -> Loads:
    each = tuple(cylinder_loads(plain, c, peak, speed) for c in range(len(plain.cylinders)))
    shaft = np.linspace(0, 4 * math.pi, STEPS, endpoint=False)
    shifted = [
        np.roll(one.torque, -STEPS // 2 + round(fires / (4 * math.pi) * STEPS))
        for one, fires in zip(each, firing_angles(plain), strict=True)
    ]
    torque = np.sum(shifted, axis=0)
    cam = np.zeros(STEPS)
    for parts in plain.cylinders:
        for valve in (parts.valves.inlet, parts.valves.exhaust):
            if valve.worked == "cam":
                # Spring and 2 bar on the head, against the steepest of a 3-4-5 rise in 115°.
                force = valve.spring_preload + valve.spring_rate * valve.lift / 2
                force += 2e5 * math.pi / 4 * valve.head_diameter**2
                peak_torque = force * 1.875 * valve.lift / 2.0
                cam = np.maximum(cam, peak_torque * np.cos(shaft) ** 2)
    return Loads(
        cylinders=each,
        shaft_angle=shaft,
        torque=torque,
        joint_torques={"1": torque - cam, "2": -cam},
        # Two bearings at equal distances: each side of a pin holds half of its cylinder's torque.
        joint_twists={"1": shifted[0] / 2 - cam / 2, "2": shifted[0] / 2 - cam / 2},
        main_bearings=tuple(
            np.max([one.crankpin for one in each], axis=0) / 2
            for _ in range(plain.crank.main_bearings)
        ),
        shaking_force=0.0,
        shaking_moment=0.0,
        journals=journal_loads(plain, each, torque, cam),
    )


def journal_loads(
    plain: PlainEngine, each: tuple[CylinderLoads, ...], torque: np.ndarray, cam: np.ndarray
) -> tuple[JournalLoad, ...]:
    """The flywheel's end passes all, the far end the cams; half of a rod's force bends each."""
    try:
        places = journals(plain)
    except OutsideValidity:
        return ()
    force = np.max([one.crankpin for one in each], axis=0) / 2
    passing = [torque - cam, *(torque / 2 for _ in places[2:]), -cam]
    return tuple(
        JournalLoad(one.name, one.length, through, force * one.length)
        for one, through in zip(places, passing, strict=True)
    )


def wall(face: float, back: float, reach: float, thickness: float, swing: float) -> PartTemperature:
    depth = np.linspace(0.0, thickness, 15)
    profile = back + (face - back) * np.exp(-depth / reach)
    return PartTemperature(surface=face, peak=face + swing, depth=depth, profile=profile)


Rises = Mapping[str, float | tuple[float, float]]
#: Rise of the hot face over the air, K, by part, and of the back where that isn't a tenth of it:
#: cold; ten seconds of full throttle, roughly.
COLD: dict[str, float] = {}
WARM: Rises = {
    "crown": 180.0, "shield": 280.0, "head": 140.0, "chamber_plate": 160.0, "liner": 60.0,
    "body": 25.0, "ring": 70.0, "skirt": 40.0, "boss": 40.0, "exhaust_port": 90.0,
    "shield_screws": (130.0, 130.0), "big_end": 60.0, "small_end": 45.0,
    "land": 70.0, "valves": (350.0, 300.0), "seats": (45.0, 45.0),
}  # fmt: skip


def temperatures(plain: PlainEngine, cylinder: int, rises: Rises) -> Temperatures:
    parts, air = plain.cylinders[cylinder], plain.surroundings.air_temperature
    thickness = {
        "crown": parts.piston.crown_thickness,
        "head": parts.head.thickness,
        "liner": (parts.liner.outside_diameter - parts.cylinder.bore) / 2,
        "body": (parts.body.outside_diameter - parts.liner.outside_diameter) / 2,
        "ring": 2e-3, "skirt": parts.piston.skirt_thickness, "boss": 5e-3, "exhaust_port": 6e-3,
        "big_end": parts.rod.eye_wall, "small_end": parts.rod.eye_wall,
        "land": 2e-3, "valves": 2e-3, "seats": 2e-3,
    }  # fmt: skip
    if parts.piston.shield.thickness > 0:
        thickness["shield"] = parts.piston.shield.thickness
        thickness["shield_screws"] = 1.5e-3
    if parts.head.chamber_plate is not None:
        thickness["chamber_plate"] = parts.head.chamber_plate_thickness
    found = {}
    for name, thick in thickness.items():
        given = rises.get(name, 0.0)
        rise, back = given if isinstance(given, tuple) else (given, 0.1 * given)
        bare = name in ("crown", "head") and "shield" not in thickness
        found[name] = wall(air + rise, air + back, 1.5e-3, thick, 150.0 if bare and rise else 5.0)
    return Temperatures(seconds=10.0, parts=found)


def moment(
    source: Engine | str,
    *,
    event: str = "full_throttle",
    peak: float = 35e5,
    rpm: float = 3000.0,
    cycles: float = 250.0,
    rises: Rises | None = None,
    cylinder: int = 0,
    hours: float = 12.0,
    sample: dict[str, float] | None = None,
) -> Moment:
    described = engine(source) if isinstance(source, str) else source
    plain = resolve(described, sample)
    return Moment(
        engine=plain,
        event=event,
        seconds=10.0,
        cycles=cycles,
        cylinder=cylinder,
        peak_pressure=peak,
        crankcase_pressure=AIR,
        speed=rpm * RPM,
        loads=loads(plain, peak, rpm * RPM),
        temperatures=temperatures(plain, cylinder, WARM if rises is None else rises),
        resting_hours=hours,
    )


def hotter(at: Moment, times: float) -> Moment:
    """The same moment with every rise over the air multiplied."""
    rises: dict[str, float | tuple[float, float]] = {
        name: (times * rise[0], times * rise[1]) if isinstance(rise, tuple) else times * rise
        for name, rise in WARM.items()
    }
    return replace(at, temperatures=temperatures(at.engine, at.cylinder, rises))


def numbers(way: Way) -> dict[str, float]:
    """What a working puts in and all that its lines find, by name, SI."""
    values = dict(way.inputs)
    for line in way.working:
        values[line.name] = worked_out(line.expression, values)
    return values
