"""The words of a starter's battery that sags."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.battery import Battery, battery_of
from firstfire.formulas.ignition_coil import energy_at
from firstfire.runs.start.account import Account
from firstfire.verdict.numbers import THIN, figures


@dataclass(frozen=True)
class Sagged:
    """What a starter leaves of its battery while the engine is cranked.

    Attributes
    ----------
    battery
        What it is.
    least
        Voltage left where the starter turns slowest in the last second of cranking, V; at a stand
        where it comes to one.
    spark
        Energy of a spark then over that of a battery without current, for a coil on the same one;
        1 for one of its own.
    """

    battery: Battery
    least: float
    spark: float


def sagged(found: Account) -> Sagged | None:
    """What cranking leaves of the battery; None where none sags."""
    battery = battery_of(found.plain.starter)
    if battery is None:
        return None
    shaft, spun = found.cranked.shaft, found.cranked.spun
    late = spun.since(float(spun.time[-1]) - 1.0)
    turns = (late.rotor if shaft.rotor > 0.0 else late.speed) / shaft.starter_free
    least = battery.left(float(turns.min()), 1.0)
    shared = found.plain.spark.coil_on == "starter_battery"
    spark = energy_at(1.0, least, battery.voltage) if shared else 1.0
    return Sagged(battery, least, spark)


def battery(found: Account) -> str | None:
    """How far the battery sags, where one does."""
    has = sagged(found)
    if has is None:
        return None
    words = (
        f"{figures(has.battery.voltage, 3)}{THIN}V at rest, down to {figures(has.least, 2)}{THIN}V "
        f"while it cranks; stalled {figures(has.battery.stall_current, 2)}{THIN}A"
    )
    if has.spark < 1.0:
        words += f". A coil on it gives {round(100 * has.spark)}{THIN}% of its spark then"
    return words
