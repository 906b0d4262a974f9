"""What can't be of a starter and what helps it."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault
from firstfire.engine.values import Values


def _battery(ask: Values) -> Iterator[Fault]:
    """A resistance without a voltage, or a coil on a battery that isn't there."""
    voltage, resistance = ask["starter.battery_voltage"], ask["starter.battery_resistance"]
    if resistance is not None and voltage is None:
        yield (
            "starter.battery_resistance", "is said without the battery's voltage",
            'Write battery_voltage = "12 V" below [starter].',
        )  # fmt: skip
    if ask["spark.coil_on"] == "starter_battery" and voltage is None:
        yield (
            "spark.coil_on", 'is "starter_battery", and the starter has no battery',
            'Write coil_on = "own", or starter.battery_voltage = "12 V".',
        )  # fmt: skip


CHECKS: tuple[Check, ...] = (_battery,)
