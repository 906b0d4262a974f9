"""The battery that turns an engine over, and what a starter gives on it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.sections.supply import Starter
from firstfire.formulas import dc_motor


@dataclass(frozen=True)
class Battery:
    """A motor's battery.

    Attributes
    ----------
    voltage
        At rest, V.
    winding, added
        Resistance of the motor, and of battery and leads, ohm.
    """

    voltage: float
    winding: float
    added: float

    @property
    def share(self) -> float:
        """Of torque and current at a stand that the motor keeps on it."""
        return dc_motor.stall_share(self.winding, self.added)

    @property
    def stall_current(self) -> float:
        """That the motor draws at a stand, A."""
        return self.voltage / (self.winding + self.added)

    def left(self, speed: float, free: float) -> float:
        """Voltage at its poles while the motor turns, V; speed and free speed in one unit."""
        return dc_motor.voltage_left(self.voltage, speed, free, self.winding, self.added)


def battery_of(starter: Starter) -> Battery | None:
    """What turns it over; None: an arm, no battery, or none that sags.

    Parameters
    ----------
    starter
        Plain numbers.
    """
    voltage, added = starter.battery_voltage, starter.battery_resistance
    by_arm = starter.pull_force is not None or starter.kind == "hand"
    if voltage is None or not added or by_arm:
        return None
    winding = dc_motor.winding_resistance(voltage, starter.stall_torque, starter.no_load_speed)
    return Battery(voltage, winding, added)


def torque_at_a_stand(starter: Starter) -> float:
    """What a starter gives at a stand on its own battery, at its own shaft, N·m.

    Parameters
    ----------
    starter
        Plain numbers.
    """
    battery = battery_of(starter)
    return starter.stall_torque * (1.0 if battery is None else battery.share)
