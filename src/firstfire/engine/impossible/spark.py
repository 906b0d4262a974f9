"""What can't be of a coil, its points and its sensor."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault
from firstfire.engine.quantity import write_quantity
from firstfire.engine.values import Values
from firstfire.formulas.ignition_coil import stored_energy

_APART = 0.2
_RISEN = 0.95
"""Share of its lobe's rise that points may have for clearance."""


def _charges(ask: Values) -> Iterator[Fault]:
    """A driver that keeps all that the battery has."""
    drop, volts = ask.number("spark.coil.driver_drop"), ask.number("spark.coil.voltage")
    if drop >= volts:
        yield (
            "spark.coil.driver_drop",
            f"keeps all of the coil's {volts:.3g} V: the coil never charges",
            "A transistor keeps 1 to 2 V, points none.",
        )


def _energy(ask: Values) -> Iterator[Fault]:
    """Energy, winding and inductance that don't belong together."""
    each = ("spark.coil_energy", "spark.coil.resistance", "spark.coil.inductance")
    if not all(ask.said(path) for path in each):
        return
    volts = ask.number("spark.coil.voltage") - ask.number("spark.coil.driver_drop")
    current = volts / (ask.number(each[1]) + ask.number("spark.coil.resistor"))
    holds = stored_energy(ask.number(each[2]), current)
    if volts > 0.0 and abs(holds - ask.number(each[0])) > _APART * holds:
        told = write_quantity(holds, "energy", "mJ", digits=2)
        yield (
            each[0],
            f"isn't what the coil holds: its inductance at {current:.2g} A has {told}",
            f'Write coil_energy = "{told}", or leave it out.',
        )


def _points(ask: Values) -> Iterator[Fault]:
    """Points that never open, or never shut."""
    if ask["spark.source"] != "points":
        return
    gap, rise = ask.number("spark.points.gap"), ask.number("spark.points.lobe_rise")
    if rise < gap or (rise - gap) > _RISEN * rise:
        least = write_quantity(gap + 0.15e-3, "length")
        yield (
            "spark.points.lobe_rise", "doesn't open the points by their gap",
            f'A lobe rises by the gap and some clearance: lobe_rise = "{least}".',
        )  # fmt: skip
    shut, turn = ask.number("spark.points.shut_angle"), 2.0 * math.pi
    twice = ask["layout.kind"] != "single" and bool(ask["spark.wasted"])
    room = turn / 2.0 if twice and ask["layout.kind"] == "v_twin" else turn
    if shut > 0.9 * room:
        most = write_quantity(0.6 * room, "angle", digits=3)
        yield (
            "spark.points.shut_angle", "leaves the points no time to open: they never fire",
            f'Write shut_angle = "{most}" or less.',
        )  # fmt: skip


CHECKS: tuple[Check, ...] = (_charges, _energy, _points)
