"""Spark: its coil, the breaker points or the sensor that it goes by, and the wiring."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Angle,
    Capacitance,
    Current,
    Energy,
    Force,
    Inductance,
    Length,
    Mass,
    Ratio,
    Resistance,
    Section,
    Speed,
    Time,
    Voltage,
    said,
)


class Coil(Section):
    """The ignition coil with what feeds and what switches it."""

    voltage: Voltage = said("of its battery at rest", low="1 V", high="100 V", example="12 V")
    resistance: Resistance = said(
        "of its primary winding", low="0.05 ohm", high="50 ohm", example="3.3 ohm"
    )
    inductance: Inductance = said("of its primary winding", low="0.1 mH", high="500 mH")
    resistor: Resistance = said(
        "in series with it, 0 for none", low="0 ohm", high="20 ohm", example="1.5 ohm"
    )
    turns_ratio: Ratio = said("secondary over primary turns", low="10", high="400", example="80")
    capacitance: Capacitance = said(
        "of secondary winding, lead and plug", low="5 pF", high="1000 pF", example="100 pF"
    )
    passed_on: Ratio = said(
        "share of its energy that reaches the secondary, 0 to 1", low="0.1", high="1", example="0.6"
    )
    mass: Mass = said("all of it", low="20 g", high="5 kg", example="300 g")
    dwell: Time = said(
        "controller: how long current flows before a spark", low="0.1 ms", high="200 ms",
        example="5 ms",
    )  # fmt: skip
    driver_drop: Voltage = said(
        "voltage that the closed driver keeps", low="0 V", high="10 V", example="1.5 V"
    )
    driver_clamp: Voltage | None = said(
        "voltage that the open driver limits the primary to", low="20 V", high="2000 V",
        optional=True, example="400 V",
    )  # fmt: skip


class Points(Section):
    """Breaker points on a lobe."""

    shut_angle: Angle = said("shut for so much of the crank", low="20 deg", high="320 deg")
    gap: Length = said("widest", low="0.05 mm", high="2 mm", example="0.35 mm")
    lobe_rise: Length = said(
        "of the lobe; what is more than the gap is the heel's clearance", low="0.05 mm",
        high="5 mm", example="0.5 mm",
    )  # fmt: skip
    lobe_ramp: Angle = said("of the lobe, over which it rises", low="5 deg", high="120 deg")
    arm_mass: Mass = said("of the moving arm, as if at its heel", low="0.2 g", high="100 g")
    spring_force: Force = said("on the heel, points shut", low="0.5 N", high="50 N")
    condenser: Capacitance = said(
        "across the points", low="0.001 uF", high="5 uF", example="0.22 uF"
    )


class Sensor(Section):
    """A switch that sees a tooth or magnet go by."""

    kind: Literal["hall", "reed"] = said("what switches")
    tooth: Angle = said(
        "of the crank, where nothing asks for both of its sides", low="1 deg", high="170 deg"
    )
    ahead: Angle = said(
        "by the clock: first edge before the earliest spark", low="2 deg", high="150 deg"
    )
    radius: Length = said("from its shaft's axis to the tooth", low="3 mm", high="300 mm")
    play: Length = said(
        "by which tooth and sensor, or lobe and heel, shift, either way",
        low="0 mm",
        high="3 mm",
        example="0.05 mm",
    )
    scatter: Time = said(
        "standard deviation of its delay", low="0 s", high="10 ms", example="0.01 ms"
    )
    blanked: Time = said(
        "after an edge no other is taken for so long", low="0 s", high="50 ms", example="1 ms"
    )


class Spark(Section):
    """What fires, and when."""

    source: Literal["points", "sensor"] = said("breaker points, or a sensor and microcontroller")
    timed_by: Literal["edge", "clock"] = said(
        "fires on an edge of the wheel, or by the clock from the last turn"
    )
    latency: Time = said("delay from edge to spark", low="0 s", high="50 ms", example="0.1 ms")
    start_angle: Angle = said("before top centre when starting", low="-40 deg", high="60 deg")
    running_angle: Angle = said("before top centre when running", low="-40 deg", high="70 deg")
    advance_table: tuple[tuple[Speed, Angle], ...] | None = said(
        'pairs of speed and angle before top centre, [["1000 rpm", "10 deg"], ...]',
        columns=(("0 rpm", "20000 rpm"), ("-40 deg", "70 deg")), optional=True,
    )  # fmt: skip
    wasted: bool = said("whether it also fires near top centre of the exhaust stroke")
    coil_energy: Energy = said("energy of one spark", low="1 mJ", high="1 J", example="30 mJ")
    coil_on: Literal["own", "starter_battery"] = said(
        "what feeds the coil: a battery of its own or a magneto, or the battery that turns it over"
    )
    limit_speed: Speed | None = said(
        "speed above which the engine is cut", low="300 rpm", high="20000 rpm", optional=True
    )
    limited_by: Literal["nothing", "spark", "fuel"] = said("what is cut above that speed")
    coil: Coil
    points: Points
    sensor: Sensor


class Wiring(Section):
    """What hangs on the battery beside coil and starter, and how far away."""

    length: Length = said("one way from battery to engine", low="50 mm", high="20 m", example="1 m")
    controller_current: Current = said(
        "that the controller draws", low="1 mA", high="5 A", example="0.1 A"
    )
    injector_resistance: Resistance = said(
        "of one injector's winding", low="0.3 ohm", high="50 ohm", example="12 ohm"
    )
    pump_current: Current = said(
        "that an electric fuel pump draws, 0 for none", low="0 A", high="20 A", example="2 A"
    )
