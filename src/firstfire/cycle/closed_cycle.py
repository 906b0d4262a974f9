"""One cylinder from inlet closing to exhaust opening, on the stepper of the whole engine.

The cylinder, and a crankcase that is held as it is, joined by one leak: a network of two volumes
and one passage, worked by the same compiled step as an engine with its manifolds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.build import build_engine, start_state, volumes_at
from firstfire.cycle.layout import State
from firstfire.cycle.records import (
    BurnSpec,
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    SteppingSpec,
    VolumeSpec,
    WallSpec,
)
from firstfire.cycle.run import Trace, run_traced
from firstfire.cycle.validity import refuse_below_zero, refuse_outside
from firstfire.errors import OutsideValidity
from firstfire.formulas import slider_crank

Floats = NDArray[np.float64]

TURN = 2.0 * math.pi


@dataclass(frozen=True)
class ClosedCycle:
    """What the gas did between inlet closing and exhaust opening.

    Attributes
    ----------
    angle
        Crank angle after firing top centre, rad, at every step; ends on both events.
    volume, pressure
        m³, Pa.
    temperature_unburned
        K, of the unburned zone, or of all the gas while none burns; NaN once all is burned.
    temperature_burned
        K, of the burned zone, and of all the gas once all is burned; NaN before the burn and
        without fire.
    burned_fraction
        Mass of the burned zone over all mass; 0 before the burn.
    mass_air, mass_fuel, mass_burned
        kg in the cylinder, both zones together.
    work
        ∫p dV over the whole, J: the gas on the piston, against vacuum.
    heat_to_walls
        J, over the whole.
    leaked_mass
        kg lost to the crankcase, less what came back.
    leaked_enthalpy
        J that went with it, heats of formation included, less what came back.
    """

    angle: Floats
    volume: Floats
    pressure: Floats
    temperature_unburned: Floats
    temperature_burned: Floats
    burned_fraction: Floats
    mass_air: Floats
    mass_fuel: Floats
    mass_burned: Floats
    work: float
    heat_to_walls: float
    leaked_mass: float
    leaked_enthalpy: float


def closed_cycle(
    *,
    bore: float,
    throw: float,
    rod: float,
    offset: float = 0.0,
    compression_ratio: float,
    speed: float,
    fuel: str,
    equivalence_ratio: float,
    residual_fraction: float = 0.0,
    inlet_closing: float,
    exhaust_opening: float,
    pressure: float,
    temperature: float,
    fire: bool = True,
    burn_start: float | None = None,
    burn_duration: float | None = None,
    wiebe_a: float = 5.0,
    wiebe_m: float = 2.0,
    wall_temperature: float = 400.0,
    wall_heat: str | None = "woschni",
    wall_heat_scale: float = 1.0,
    leak_area: float = 0.0,
    crankcase_pressure: float = 101325.0,
    crankcase_temperature: float = 330.0,
    relative_error: float = 3e-5,
    largest_step: float = math.radians(1.0),
) -> ClosedCycle:
    """Pressure, temperatures and burn of one cylinder from inlet closing to exhaust opening.

    Parameters
    ----------
    bore, throw, rod, offset
        m; throw is the crank radius, offset as in
        :mod:`firstfire.formulas.slider_crank`.
    compression_ratio
        Largest over smallest volume of the mechanism, offset and all.
    speed
        Of the crank, held, rad/s.
    fuel, equivalence_ratio
        A fuel of the catalog, and fuel/air over stoichiometric fuel/air of the fresh charge: 0
        (air alone, not fired) or 0.2 to 2.
    residual_fraction
        Burned gas of the same mixture in the charge, by mass.
    inlet_closing, exhaust_opening
        Crank angle after firing top centre, rad: the first negative, the second positive, within
        one turn either way.
    pressure, temperature
        At inlet closing, Pa and K.
    fire, burn_start, burn_duration, wiebe_a, wiebe_m
        Whether it burns; from which angle, over which, rad, and by which Wiebe law.
    wall_temperature, wall_heat, wall_heat_scale
        K of every wall; correlation ("woschni", "hohenberg", "annand") or None for no heat;
        multiplier on it.
    leak_area, crankcase_pressure, crankcase_temperature
        Effective area (coefficient of discharge included) from cylinder to crankcase, m², both
        ways; air at Pa and K in the crankcase.
    relative_error, largest_step
        Allowed error of a step in pressure, temperature and mass, and longest step, rad.

    Returns
    -------
    ClosedCycle

    Raises
    ------
    OutsideValidity
        An argument outside the range above; the message names it.
    CatalogError
        No such fuel.

    Examples
    --------
    >>> motored = closed_cycle(bore=0.05, throw=0.0225, rod=0.08, compression_ratio=8.0,
    ...     speed=300.0, fuel="iso-octane", equivalence_ratio=0.0, inlet_closing=-math.pi,
    ...     exhaust_opening=math.pi, pressure=1e5, temperature=300.0, fire=False, wall_heat=None)
    >>> print(f"{motored.pressure.max() / 1e5:.2f} bar")
    17.94 bar
    """
    refuse_outside(
        {
            "bore": (bore, 0.0, math.inf),
            "compression_ratio": (compression_ratio, 1.0, 30.0),
            "speed": (speed, 0.0, math.inf),
            "inlet_closing": (-inlet_closing, 0.0, TURN),
            "exhaust_opening": (exhaust_opening, 0.0, TURN),
            "pressure": (pressure, 2e3, 1e6),
            "temperature": (temperature, 200.0, 1000.0),
            "wall_temperature": (wall_temperature, 200.0, 1500.0),
            "crankcase_pressure": (crankcase_pressure, 1e3, 1e6),
            "crankcase_temperature": (crankcase_temperature, 200.0, 1000.0),
            "relative_error": (relative_error, 0.0, 0.1),
            "largest_step": (largest_step, 0.0, 0.5),
        }
    )
    refuse_below_zero(
        {
            "equivalence_ratio": equivalence_ratio,
            "wall_heat_scale": wall_heat_scale,
            "leak_area": leak_area,
        }
    )
    if not 0.0 <= residual_fraction < 1.0:
        raise OutsideValidity(f"residual_fraction is {residual_fraction:g}: it must be 0 to 1.")
    burn = None
    if fire:
        burn = _checked_burn(
            equivalence_ratio, burn_start, burn_duration, inlet_closing, exhaust_opening
        )
        burn = BurnSpec(burn.start, burn.duration, wiebe_a, wiebe_m)
        refuse_outside({"wiebe_a": (wiebe_a, 0.0, 100.0), "wiebe_m": (wiebe_m, -0.5, 20.0)})
    swept = math.pi / 4.0 * bore**2 * slider_crank.stroke(throw, rod, offset)
    wall = wall_temperature
    cylinder = CylinderSpec(
        name="cylinder",
        bore=bore,
        throw=throw,
        rod=rod,
        offset=offset,
        clearance_volume=swept / (compression_ratio - 1.0),
        walls=WallSpec(wall, wall, wall, wall, wall_heat, wall_heat_scale),
        burn=burn,
    )
    spec = EngineSpec(
        fuel=fuel,
        equivalence_ratio=equivalence_ratio if equivalence_ratio > 0.0 else 1.0,
        cylinders=(cylinder,),
        volumes=(
            VolumeSpec(
                "crankcase",
                fixed=True,
                pressure=crankcase_pressure,
                temperature=crankcase_temperature,
            ),
        ),
        passages=(PassageSpec("leak", "cylinder", "crankcase", leak_area),),
        stepping=SteppingSpec(relative_error, largest_step),
    )
    charge = VolumeSpec(
        "",
        pressure=pressure,
        temperature=temperature,
        equivalence_ratio=equivalence_ratio,
        burned_fraction=residual_fraction,
    )
    engines = build_engine(spec)
    state = start_state(spec, engines, inlet_closing, speed, [charge])
    return _gather(engines, *run_traced(engines, state, exhaust_opening))


def _checked_burn(
    equivalence_ratio: float,
    start: float | None,
    duration: float | None,
    inlet_closing: float,
    exhaust_opening: float,
) -> BurnSpec:
    """Start and duration of the burn, if they can be."""
    if equivalence_ratio == 0.0:
        raise OutsideValidity("equivalence_ratio is 0: air alone does not burn; give fire=False.")
    if start is None or not inlet_closing <= start < exhaust_opening:
        raise OutsideValidity(
            f"burn_start is {start}: a fired cycle needs it between inlet_closing "
            f"({inlet_closing:.4g} rad) and exhaust_opening ({exhaust_opening:.4g} rad)."
        )
    if duration is None or not 0.0 < duration < TURN:
        raise OutsideValidity(
            f"burn_duration is {duration}: a fired cycle needs it above 0 and under one turn, rad."
        )
    return BurnSpec(start, duration)


def _gather(engines: layout.Records, end: State, trace: Trace) -> ClosedCycle:
    """The cycle's arrays out of the trace of the stepper."""
    engine = engines[0]
    values, angle = trace.values, trace.angle
    volume_at, zone_at = layout.SHAFT_SIZE, int(engine["cylinders_at"])
    rest = values[:, volume_at + layout.AIR : volume_at + layout.AIR + 3]
    zone = values[:, zone_at + layout.ZONE_AIR : zone_at + layout.ZONE_AIR + 3]
    whole, hot = (rest + zone).sum(axis=1), zone.sum(axis=1)
    burning = hot > 0.0
    joined = np.zeros(len(angle), dtype=bool)
    fraction = hot / whole
    if burning.any() and not burning[-1]:
        last = int(np.flatnonzero(burning)[-1])
        joined[last + 1 :] = True
        fraction[last + 1 :] = fraction[last]
    mixed = values[:, volume_at + layout.TEMPERATURE]
    burned_temperature = np.where(burning, values[:, zone_at], np.where(joined, mixed, np.nan))
    sums = end.values[engine["cylinder_sums_at"] :]
    passed = end.values[engine["passage_sums_at"] :]
    return ClosedCycle(
        angle=angle,
        volume=np.array([volumes_at(engines, at)[0] for at in angle]),
        pressure=values[:, volume_at + layout.PRESSURE],
        temperature_unburned=np.where(joined, np.nan, mixed),
        temperature_burned=burned_temperature,
        burned_fraction=fraction,
        mass_air=rest[:, 0] + zone[:, 0],
        mass_fuel=rest[:, 1] + zone[:, 1],
        mass_burned=rest[:, 2] + zone[:, 2],
        work=float(sums[layout.WORK]),
        heat_to_walls=float(sums[layout.HEAT_CROWN : layout.CYLINDER_SUMS].sum()),
        leaked_mass=float(passed[layout.PASSED_MASS]),
        leaked_enthalpy=float(passed[layout.PASSED_ENTHALPY]),
    )
