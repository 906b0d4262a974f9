"""Faults of what turns, and of what turns it."""

from __future__ import annotations

from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.faults.fault import (
    Fault,
    Layer,
    Obeyed,
    a_tooth,
    angle,
    obeys,
    sized,
    sparks_by_cam,
)
from firstfire.runs.start.faults.of_sparks import on_a_battery


def _battery(plain: PlainEngine, share: float) -> tuple[Layer, Obeyed]:
    """Speed and torque of a motor go with its voltage, a coil's energy with its square."""
    starter = plain.starter
    layer = {
        "starter.no_load_speed": write_quantity(share * starter.no_load_speed, "speed", digits=6),
        "starter.stall_torque": write_quantity(share * starter.stall_torque, "torque", digits=6),
    }
    if starter.battery_voltage is not None:
        layer["starter.battery_voltage"] = write_quantity(
            share * starter.battery_voltage, "voltage", digits=6
        )
    return layer if on_a_battery(plain) else {}, {"spark_share": share**2}


def _tooth(plain: PlainEngine, teeth: float) -> tuple[Layer, Obeyed]:
    """All cams later (or earlier) by so many teeth, and a spark whose wheel is on the camshaft."""
    off = teeth * a_tooth(plain)
    valves = plain.cylinders[0].valves
    layer: dict[str, object] = {}
    if valves.inlet.worked == "cam":
        layer["valves.inlet.opens_before_top"] = angle(valves.inlet.opens_before_top - off)
        layer["valves.inlet.closes_after_bottom"] = angle(valves.inlet.closes_after_bottom + off)
    layer["valves.exhaust.opens_before_bottom"] = angle(valves.exhaust.opens_before_bottom - off)
    layer["valves.exhaust.closes_after_top"] = angle(valves.exhaust.closes_after_top + off)
    return layer, {"spark_shift": off} if sparks_by_cam(plain) else {}


TURNING: tuple[Fault, ...] = (
    Fault("low_battery", "a low battery", "slow, weak spark", _battery,
          "share of its voltage", "ratio", "0.6", "0.05", "1"),
    Fault("reversed", "the starter, its clutch too, turns it backwards",
          "it sucks at its exhaust and blows out of its inlet", obeys(backwards=True)),
    Fault("dragging", "a dragging bearing", "hard to turn, hot at one place",
          sized("drag"), "its friction at the crank", "torque", "1 N*m", "0 N*m", "1000 N*m"),
    Fault("cam_tooth", "cam drive teeth off, late; a minus sign: early; with its spark, where that "
          "comes from the camshaft", "weak compression, spits or bangs", _tooth,
          "teeth", "ratio", "1", "-6", "6"),
    Fault("slipping_joint", "a crank joint that slips, towards the end with cam drive and spark",
          "it fires a few times, then ever later, then no more; a mark across the joint moves",
          sized("slips_at"), "torque of the gas that it holds", "torque", "20 N*m",
          "0.01 N*m", "10000 N*m"),
)  # fmt: skip
"""In the order in which they are listed."""
