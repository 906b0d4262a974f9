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


def _oil(ask: Values) -> Iterator[Fault]:
    """An oil that doesn't thin as it warms."""
    warm, hot = ask.number("case.viscosity_40"), ask.number("case.viscosity_100")
    if hot >= warm:
        yield (
            "case.viscosity_100", "is as thick as at 40 degC, or thicker: oils thin as they warm",
            'Write two of one sheet, viscosity_40 = "100 mm^2/s" and viscosity_100 = "11 mm^2/s".',
        )  # fmt: skip


CHECKS: tuple[Check, ...] = (_battery, _oil)
