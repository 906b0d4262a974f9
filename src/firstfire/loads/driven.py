"""The torque that what the engine drives takes from its shaft."""

from __future__ import annotations

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.propeller import static_torque

_AIR = 287.0  # J/(kg K)


def load_torque(engine: PlainEngine, speed: float) -> float:
    """Torque that the load takes at a speed with nothing asked of it, N·m.

    A propeller or fan turns with the shaft and takes its torque on the spot. A generator's torque
    grows with speed and a pump's with its square, both through the point that the file gives. A
    brake is let go when nothing is asked.

    Parameters
    ----------
    engine
        Plain numbers.
    speed
        rad/s.
    """
    load, around = engine.load, engine.surroundings
    if load.kind in ("propeller", "fan"):
        density = around.air_pressure / (_AIR * around.air_temperature)
        return static_torque(speed, load.diameter, load.pitch, density)
    if load.kind == "generator":
        return load.torque * speed / load.torque_at
    if load.kind == "pump":
        return load.torque * (speed / load.torque_at) ** 2
    return 0.0
