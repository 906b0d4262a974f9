"""From an engine as it is described to the network of volumes and passages that the gas sees."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.crevices import burning_share
from firstfire.cycle.records import (
    BurnSpec,
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    ValveSpec,
    VolumeSpec,
    WallSpec,
)
from firstfire.engine.cam_lift import Span, valve_rise
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import firing_angles, mechanism, swept_volume
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import atmosphere

# Roof over the pocket of side valves, and its floor round them, over the valves' own faces (common
# practice, no source).
POCKET = 1.8
_LIFT_STEPS = 181

# Loss of a pipe as a share of its dynamic pressure: friction factor of a rough short pipe, and a
# sharp entrance. Incropera, Fundamentals of Heat and Mass Transfer, 6th ed., section 8.1, and any
# fluids text; from memory.
_FRICTION_FACTOR = 0.03
_ENTRANCE = 0.5
# A butterfly with its shaft, wide open. Common practice, no source.
_THROTTLE_COEFFICIENT = 0.8
# A small silencer passes about as much as an orifice of half the pipe. Common practice, no source.
_SILENCER = 0.5
# Bend and pocket between runner or stub and the valve's seat, as a share of a bore of length.
# Common practice, no source.
_PORT_LENGTH = 1.0
# Exhaust stub: gas to begin with, its wall above the air around, and the coefficient of a short
# pipe at some 30 m/s (forced gas 25 to 250 W/m²K, Incropera, Table 1.1, from memory).
# Inlet port and runner of a running engine above the air around, by what the head is made of, and
# their coefficient. Common practice, no source: what makes small engines breathe 5 % less air warm.
_WARM_METAL_PORT, _WARM_PLASTIC_PORT, _RUNNER_COEFFICIENT = 60.0, 25.0, 150.0
_FIRST_EXHAUST, _WARM_STUB, _STUB_COEFFICIENT = 600.0, 80.0, 60.0

# Oil film between a valve's stem and its guide, Pa s: base oil of a grease, engine oil when warm
# (makers' data, from memory); length of a guide in stem diameters and clearance all round, common
# practice, no source. It stills a suction valve, which else only the seat would.
_FILM = {"dry": 0.0, "grease": 0.05, "oil_in_fuel": 0.02, "splash": 0.02, "drip": 0.02}
_GUIDE_LENGTH, _GUIDE_CLEARANCE = 4.0, 0.03e-3


def network(
    engine: PlainEngine,
    walls: Sequence[Walls],
    burns: Sequence[BurnSpec | None],
    throttle_opening: float | None = None,
    *,
    first: bool = False,
) -> EngineSpec:
    """The whole engine as volumes and passages.

    Parameters
    ----------
    engine
        Plain numbers.
    walls
        Temperatures of each cylinder's walls.
    burns
        When and how each cylinder burns; None for one that isn't fired.
    throttle_opening
        0 to 1; None: as the file has it.
    first
        A first combustion: mixture is drawn in, but nothing is warm and the exhaust holds air.

    Notes
    -----
    Pressure losses of cleaner, throttle, runner and stub are orifices in series with the volumes
    between them; waves in pipes are left out, which holds while a pipe is short against the sound
    that runs through it in one opening: below some 8000 rpm for pipes under 150 mm.
    """
    phases = firing_angles(engine)
    opening = engine.intake.throttle_opening if throttle_opening is None else throttle_opening
    fired = any(burn is not None for burn in burns) and not first
    phi = engine.intake.equivalence_ratio if fired or first else 0.0
    volumes, passages = _shared(engine, opening, phi)
    cylinders, valves = [], []
    for place, parts in enumerate(engine.cylinders):
        number = place + 1
        cylinders.append(
            _cylinder(engine, parts, number, phases[place], walls[place], burns[place])
        )
        valves += [_inlet(engine, parts, number, phases[place]),
                   _exhaust(engine, parts, number, phases[place])]  # fmt: skip
        volumes += _own_volumes(engine, parts, number, phi, fired=fired)
        passages += _own_passages(engine, parts, number, opening)
    return EngineSpec(
        fuel=engine.fuel,
        equivalence_ratio=engine.intake.equivalence_ratio,
        cylinders=tuple(cylinders),
        volumes=tuple(volumes),
        passages=tuple(passages),
        valves=tuple(valves),
        ambient_pressure=engine.surroundings.air_pressure,
        ambient_temperature=engine.surroundings.air_temperature,
        water=steam_share(engine),
    )


def steam_share(engine: PlainEngine) -> float:
    """Mole fraction of steam in the air around."""
    around = engine.surroundings
    steam = atmosphere.vapour_pressure(around.air_temperature, around.humidity)
    return steam / around.air_pressure


def _at_rest(
    engine: PlainEngine, name: str, volume: float = 1.0, phi: float = 0.0, *, fixed: bool = False
) -> VolumeSpec:
    """A volume full of the air around, or of mixture made with it."""
    around = engine.surroundings
    return VolumeSpec(
        name,
        volume,
        fixed,
        pressure=around.air_pressure,
        temperature=around.air_temperature,
        equivalence_ratio=phi,
    )


def _shared(
    engine: PlainEngine, opening: float, phi: float
) -> tuple[list[VolumeSpec], list[PassageSpec]]:
    """Mouth, plenum, open air, crankcase, and what joins them."""
    case = engine.case
    volumes = [
        _at_rest(engine, "mouth", phi=phi, fixed=True),
        _at_rest(engine, "outside", fixed=True),
        _at_rest(engine, "case", case.volume),
    ]
    area = math.pi / 4 * case.breather_diameter**2
    share = {"open": 4.0, "closed": 1e-4}.get(case.breather, 1.0)
    one_way = case.breather == "one_way_valve"
    passages = [PassageSpec("breather", "case", "outside", area * share, 0.7, one_way)]
    if engine.intake.kind != "separate":
        volumes.append(_at_rest(engine, "plenum", engine.intake.plenum_volume, phi))
        passages.append(_throttle(engine, "throttle", "plenum", opening))
    return volumes, passages


def _throttle(engine: PlainEngine, name: str, into: str, opening: float) -> PassageSpec:
    """Throttle and air cleaner as one orifice: their resistances in series."""
    intake, around = engine.intake, engine.surroundings
    bore = math.pi / 4 * intake.throttle_diameter**2
    necked = venturi_area(engine)
    throttle = engine.doubt.flow * _THROTTLE_COEFFICIENT * min(opening * bore, necked)
    area = throttle
    if intake.air_cleaner_loss > 0:
        density = around.air_pressure / (287.0 * around.air_temperature)
        cleaner = bore * 10.0 * math.sqrt(density / (2 * intake.air_cleaner_loss))
        area = 1 / math.sqrt(1 / throttle**2 + 1 / cleaner**2)
    return PassageSpec(name, "mouth", into, area)


def venturi_area(engine: PlainEngine) -> float:
    """Narrowest area of the air way through carburettor or gas mixer, m²; infinite without one."""
    by = engine.intake.mixture_by
    if by == "injector":
        return math.inf
    made = engine.gas_mixer if by == "gas_mixer" else engine.carburettor
    return math.pi / 4 * made.venturi_diameter**2


def _pipe(length: float, diameter: float) -> tuple[float, float]:
    """Area and coefficient of a pipe with its entrance and friction."""
    loss = 1 + _ENTRANCE + _FRICTION_FACTOR * length / diameter
    return math.pi / 4 * diameter**2, 1 / math.sqrt(loss)


def _pipe_volume(length: float, diameter: float) -> float:
    return math.pi / 4 * diameter**2 * (length + _PORT_LENGTH * diameter)


def _own_volumes(
    engine: PlainEngine, parts: CylinderParts, number: int, phi: float, *, fired: bool
) -> list[VolumeSpec]:
    runner, stub = parts.runner, parts.stub
    around = engine.surroundings.air_temperature
    pipe = replace(
        _at_rest(engine, f"stub {number}", _pipe_volume(stub.length, stub.diameter)),
        temperature=_FIRST_EXHAUST if fired else around,
        burned_fraction=1.0 if fired else 0.0,
        wall_area=math.pi * stub.diameter * stub.length,
        wall_temperature=around + (_WARM_STUB if fired else 0.0),
        wall_coefficient=_STUB_COEFFICIENT,
    )
    port = _at_rest(engine, f"runner {number}", _pipe_volume(runner.length, runner.diameter), phi)
    metal = engine.materials[parts.head.material].metal
    warmed = _WARM_METAL_PORT if metal else _WARM_PLASTIC_PORT
    heated = replace(
        port,
        wall_area=math.pi * runner.diameter * (runner.length + _PORT_LENGTH * runner.diameter),
        wall_temperature=around + (warmed if fired else 0.0),
        wall_coefficient=_RUNNER_COEFFICIENT,
    )
    volumes = [heated, pipe]
    if engine.intake.kind == "separate":
        volumes.append(_at_rest(engine, f"plenum {number}", engine.intake.plenum_volume, phi))
    return volumes


def _own_passages(
    engine: PlainEngine, parts: CylinderParts, number: int, opening: float
) -> list[PassageSpec]:
    """Runner, stub and every leak of one cylinder."""
    cylinder, runner, stub = f"cylinder {number}", f"runner {number}", f"stub {number}"
    plenum = "plenum" if engine.intake.kind != "separate" else f"plenum {number}"
    out_area, out_coefficient = _pipe(parts.stub.length, parts.stub.diameter)
    if parts.stub.silencer:
        out_coefficient *= _SILENCER
    passages = [
        PassageSpec(f"arm {number}", plenum, runner,
                    *_pipe(parts.runner.length, parts.runner.diameter)),
        PassageSpec(f"tail {number}", stub, "outside", out_area, out_coefficient),
    ]  # fmt: skip
    if engine.intake.kind == "separate":
        passages.append(_throttle(engine, f"throttle {number}", plenum, opening))
    leaks = (
        ("ring", "case"),
        ("inlet_seat", runner),
        ("exhaust_seat", stub),
        ("gasket", "outside"),
        ("plug", "outside"),
        ("wall", "outside"),
    )
    for name, to in leaks:
        area = getattr(parts.leak, name)
        if area > 0:
            passages.append(PassageSpec(f"{name} leak {number}", cylinder, to, area))
    return passages


def _cylinder(
    engine: PlainEngine,
    parts: CylinderParts,
    number: int,
    phase: float,
    walls: Walls,
    burn: BurnSpec | None,
) -> CylinderSpec:
    throw, rod, offset = mechanism(parts)
    bore_area = math.pi / 4 * parts.cylinder.bore**2
    heads = (
        math.pi / 4 * (parts.valves.inlet.head_diameter**2 + parts.valves.exhaust.head_diameter**2)
    )
    side = parts.valves.placed == "side"
    return CylinderSpec(
        name=f"cylinder {number}",
        bore=parts.cylinder.bore,
        throw=throw,
        rod=rod,
        clearance_volume=swept_volume(parts) / (parts.cylinder.compression_ratio - 1),
        offset=offset,
        phase=phase,
        walls=WallSpec(
            walls.crown, walls.head, walls.valves, walls.liner, scale=engine.doubt.wall_heat
        ),
        burn=burn,
        crankcase="case",
        burns=burning_share(engine, parts),
        crown_area=bore_area,
        head_area=bore_area + POCKET * heads if side else max(bore_area - heads, 0.0),
        valves_area=heads if side else min(heads, bore_area),
    )


def _lift_law(valve: CamValve, duration: float) -> NDArray[np.float64]:
    """Lift over its maximum at even steps from opening to closing."""
    span = Span(0.0, duration)
    turned = np.linspace(0.0, duration, _LIFT_STEPS).tolist()
    law = np.array([valve_rise(valve, span, one) for one in turned]) / valve.lift
    law[0] = law[-1] = 0.0
    clipped: NDArray[np.float64] = np.clip(law, 0.0, 1.0)
    return clipped


def _poppet(valve: CamValve, name: str, cylinder: str, port: str, scale: float) -> ValveSpec:
    return ValveSpec(
        name=name,
        cylinder=cylinder,
        port=port,
        head_diameter=valve.head_diameter,
        throat_diameter=valve.throat_diameter,
        stem_diameter=valve.stem_diameter,
        max_lift=valve.lift,
        seat_angle=valve.seat_angle,
        scale=scale * valve.flow_coefficient,
    )


def _inlet(engine: PlainEngine, parts: CylinderParts, number: int, phase: float) -> ValveSpec:
    valve = parts.valves.inlet
    plain = _poppet(
        valve, f"inlet {number}", f"cylinder {number}", f"runner {number}", engine.doubt.flow
    )
    if valve.worked == "suction":
        return replace(
            plain,
            mass=valve.mass,
            spring_rate=valve.spring_rate,
            preload=valve.spring_preload,
            damping=_guide_drag(valve, engine.case.lubrication),
        )
    top = phase - 2 * math.pi
    opens = top - valve.opens_before_top
    closes = top + math.pi + valve.closes_after_bottom
    return replace(plain, opens=opens, closes=closes, lift_law=_lift_law(valve, closes - opens))


def _guide_drag(valve: CamValve, lubrication: str) -> float:
    """Drag of a stem in its guide for its speed, N s/m: shear of an oil film, ``μ π d L / c``."""
    area = math.pi * valve.stem_diameter**2 * _GUIDE_LENGTH
    return _FILM[lubrication] * area / _GUIDE_CLEARANCE


def _exhaust(engine: PlainEngine, parts: CylinderParts, number: int, phase: float) -> ValveSpec:
    valve = parts.valves.exhaust
    plain = _poppet(
        valve, f"exhaust {number}", f"cylinder {number}", f"stub {number}", engine.doubt.flow
    )
    opens = phase + math.pi - valve.opens_before_bottom
    closes = phase + 2 * math.pi + valve.closes_after_top
    return replace(plain, opens=opens, closes=closes, lift_law=_lift_law(valve, closes - opens))
