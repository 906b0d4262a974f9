"""Intake, mixture, exhaust, starter, surroundings, use, leak and doubt."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Angle,
    Area,
    Force,
    FuelName,
    Inertia,
    Length,
    MaterialName,
    Power,
    Pressure,
    Ratio,
    Resistance,
    Section,
    Speed,
    StarterName,
    Temperature,
    Time,
    Torque,
    Velocity,
    Voltage,
    Volume,
    said,
)


class Runner(Section):
    """The pipe from the shared intake to one cylinder's port."""

    length: Length = said("length to the valve", low="2 mm", high="1 m", example="60 mm")
    diameter: Length = said("bore", low="3 mm", high="80 mm", example="14 mm")


class Stub(Section):
    """One cylinder's exhaust, port included."""

    length: Length = said("length from the valve to the open air", low="2 mm", high="2 m")
    diameter: Length = said("bore", low="3 mm", high="80 mm")
    silencer: bool = said("whether a silencer hinders it")


class Intake(Section):
    """What all cylinders breathe through."""

    kind: Literal["single", "plenum", "y", "separate"] = said(
        "one runner, a shared plenum, a Y of runners, or a throttle for each cylinder"
    )
    plenum_volume: Volume = said("shared volume behind the throttle", low="0.2 cm^3", high="20 l")
    throttle_diameter: Length = said("throttle or carburettor bore", low="2 mm", high="60 mm")
    throttle_opening: Ratio = said(
        "how far it is open at full throttle, 0 to 1", low="0.01", high="1"
    )
    air_cleaner: Literal["none", "foam", "paper", "gauze"] = said("air cleaner")
    air_cleaner_loss: Pressure = said(
        "pressure lost in it at 10 m/s in the throttle",
        low="0 Pa",
        high="20000 Pa",
        example="500 Pa",
    )
    material: MaterialName = said("elbow's or manifold's material, a row of the catalog")
    wall: Length = said("its wall", low="0.3 mm", high="20 mm", example="3 mm")
    suction: Pressure = said("largest suction in it", low="0 bar", high="1 bar", example="0.7 bar")
    bay_temperature: Temperature | None = said(
        "air round it, where it is warmer than the surroundings",
        low="-40 °C",
        high="200 °C",
        optional=True,
    )
    mixture_by: Literal["carburettor", "injector", "gas_mixer"] = said("what meters the fuel")
    fuel: FuelName = said("fuel, a row of the catalog", example="petrol")
    equivalence_ratio: Ratio = said(
        "fuel over air against just enough; above 1 rich", low="0.4", high="1.8", example="1.1"
    )


class Starter(Section):
    """What turns it over."""

    kind: StarterName = said("starter, a row of the catalog", example="cordless_low")
    no_load_speed: Speed = said("speed with nothing to turn", low="1 rpm", high="60000 rpm")
    stall_torque: Torque = said("torque at standstill", low="0.001 N*m", high="1000 N*m")
    inertia: Inertia = said(
        "moment of inertia seen at its output", low="0 kg*m^2", high="2 kg*m^2",
        row=("kind", "rotor_inertia"),
    )  # fmt: skip
    pull_force: Force | None = said(
        "rope: pull of the arm",
        low="5 N",
        high="1000 N",
        row=("kind", "pull_force"),
        optional=True,
        example="150 N",
    )
    pull_length: Length | None = said(
        "rope: length of one pull", low="0.1 m", high="3 m", row=("kind", "pull_length"),
        optional=True, example="0.6 m",
    )  # fmt: skip
    drum_diameter: Length | None = said(
        "rope: diameter it winds on", low="10 mm", high="500 mm", row=("kind", "drum_diameter"),
        optional=True,
    )  # fmt: skip
    battery_voltage: Voltage | None = said(
        "electric: voltage of its battery at rest, for which torque and speed are told", low="1 V",
        high="100 V", row=("kind", "battery_voltage"), optional=True, example="12 V",
    )  # fmt: skip
    battery_resistance: Resistance | None = said(
        "electric: of battery and leads, beside what torque was told with", low="0 ohm",
        high="5 ohm", row=("kind", "battery_resistance"), optional=True, example="0.025 ohm",
    )  # fmt: skip
    ratio: Ratio = said("crank turns for one turn of the starter", low="0.02", high="20")
    coupling: Literal["one_way", "rigid"] = said("through a one-way clutch, or rigid")
    decompression: bool = said("whether compression can be let off for starting")
    decompression_diameter: Length = said(
        "decompression: bore of the hole in each cylinder, to the open air",
        low="0.2 mm", high="12 mm", example="2 mm",
    )  # fmt: skip
    decompression_until: Speed = said(
        "decompression: crank speed from which it is shut until the next start",
        low="10 rpm", high="6000 rpm", example="500 rpm",
    )  # fmt: skip
    decompression_shuts: Angle = said(
        "decompression: before each firing top, where it is shut; opened at the bottom before. 0: "
        "open all along", low="0 deg", high="170 deg", example="90 deg",
    )  # fmt: skip


class Surroundings(Section):
    """Air and cooling."""

    air_temperature: Temperature = said("air temperature", low="-40 °C", high="60 °C")
    air_pressure: Pressure = said("air pressure", low="0.5 bar", high="1.1 bar")
    humidity: Ratio = said("relative humidity, 0 to 1", low="0", high="1")
    cooling: Literal["still_air", "fan", "water_jacket"] = said("how heat gets away")
    air_speed: Velocity = said("fan: air speed over the engine", low="0 m/s", high="60 m/s")
    air_speed_at: Speed | None = said(
        "fan on the crank: engine speed at which the air is so fast; slower or faster with it",
        low="300 rpm",
        high="20000 rpm",
        optional=True,
    )
    water_temperature: Temperature = said("water jacket: temperature", low="0 °C", high="110 °C")


class Use(Section):
    """What it is asked to do."""

    full_throttle_speeds: tuple[Speed, ...] = said(
        'speeds to judge at full throttle, ["2000 rpm", "4000 rpm"]',
        columns=(("30 rpm", "20000 rpm"),),
    )
    cranking_speed: Speed = said("mean cranking speed", low="30 rpm", high="3000 rpm")
    stood: Time = said(
        "how long it has stood, not even turned by hand, before it is started", low="0 s",
        high="3650 day", example="12 hour",
    )  # fmt: skip
    idle_speed: Speed = said("lowest steady speed", low="300 rpm", high="6000 rpm")
    power_asked: Power | None = said(
        "power it is wished to make; a check says how near it comes",
        low="1 W",
        high="20 kW",
        optional=True,
    )
    power_asked_at: Speed | None = said(
        "speed at which that power is wished", low="30 rpm", high="20000 rpm", optional=True
    )


class Leak(Section):
    """Where gas gets out, each as an effective area."""

    ring: Area = said("past the rings into the crankcase", low="0 mm^2", high="20 mm^2")
    inlet_seat: Area = said("past the inlet seat", low="0 mm^2", high="20 mm^2")
    exhaust_seat: Area = said("past the exhaust seat", low="0 mm^2", high="20 mm^2")
    gasket: Area = said("past the head gasket", low="0 mm^2", high="20 mm^2")
    plug: Area = said("past the plug's thread", low="0 mm^2", high="20 mm^2")
    wall: Area = said("through a printed wall", low="0 mm^2", high="20 mm^2")


class FrictionDoubt(Section):
    """Doubt multipliers on friction."""

    ring: Ratio = said("on ring friction", low="0.05", high="20")
    skirt: Ratio = said("on skirt friction", low="0.05", high="20")
    bearings: Ratio = said("on bearing friction", low="0.05", high="20")
    valve_gear: Ratio = said("on valve-gear friction", low="0.05", high="20")
    belt: Ratio = said("on cam-drive friction", low="0.05", high="20")
    stuck: Ratio = said("on what stuck O-rings ask for beyond running", low="0", high="20")


class Doubt(Section):
    """Multipliers on published correlations, 1 at the centre."""

    wall_heat: Ratio = said("on heat from gas to wall", low="0.05", high="20")
    burn_duration: Ratio = said("on the duration of burning", low="0.05", high="20")
    burn_phase: Angle = said("added to the start of burning", low="-60 deg", high="60 deg")
    combustion_loss: Ratio = said("on the share of a charge left unburned", low="0", high="20")
    flow: Ratio = said("on valve and throttle flow coefficients", low="0.2", high="2")
    outside_cooling: Ratio = said("on cooling by air or water", low="0.05", high="20")
    port_film: Ratio = said("on heat from gas in the ports to their walls", low="0.05", high="20")
    contact: Ratio = said("on what touching faces conduct", low="0.05", high="20")
    softening: Ratio = said("on rises over 23 degC that soften", low="0.3", high="3", example="1")
    nut_factor: Ratio = said("on torque over preload and diameter of a screw", low="0.2", high="5")
    press_friction: Ratio = said("on friction in pressed and clamped joints", low="0.05", high="20")
    strength_bias: Ratio = said(
        "on strength, shared by this printer and spool", low="0.05", high="20"
    )
    strength_scatter: Ratio = said("on strength, part to part", low="0.05", high="20")
    friction: FrictionDoubt
