"""The books of a made-up engine over four seconds, every entry of them a round number.

Two cylinders, a crankcase under the second, and the surroundings. An inlet lets in from outside, a
leak goes from the second cylinder to the case, another comes back, and the case breathes out. A gas
of 1 kJ/(kg K) stands in for the real one. All amounts go evenly from first to last.
"""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import health, layout
from firstfire.cycle.health import Closure, closure
from firstfire.cycle.run import Trace

TIME = np.arange(5.0)
ZONES, SUMS, HEATS, PASSED, WIDTH = 26, 36, 46, 50, 70
# Pressure, temperature, air, fuel, burned (mg) at first and at last; then the room, cm³.
VOLUMES = (
    ((2e5, 500, 100, 10, 20), (2e5, 600, 110, 10, 20), (100, 120)),
    ((1.5e5, 450, 200, 0, 10), (1.5e5, 460, 190, 0, 10), (200, 210)),
    ((1e5, 300, 500, 0, 0), (1.1e5, 310, 520, 0, 0), (300, 290)),
    ((1e5, 300, 9e6, 0, 0), (1e5, 300, 9e6, 0, 0), (1e6, 1e6)),
)
# Temperature, air, fuel, burned of the burned zones.
HOT = (((2000, 10, 0, 30), (2100, 20, 0, 30)), ((1800, 0, 0, 10), (1800, 0, 0, 10)))
ENGINES = [{
    "volume_count": 4, "cylinder_count": 2, "passage_count": 4, "valve_count": 1,
    "volumes": {"kind": [layout.CYLINDER, layout.CYLINDER, layout.CRANKCASE, layout.FIXED]},
    "cylinders": {"crankcase": [-1, 2]}, "cylinders_at": ZONES, "cylinder_sums_at": SUMS,
    "volume_sums_at": HEATS, "passage_sums_at": PASSED, "gas": None,
    "passages": [{"start": 3, "end": 0}, {"start": 1, "end": 2}, {"start": 2, "end": 1},
                 {"start": 2, "end": 3}],
}]  # fmt: skip
# Mass, fuel and burned (mg), enthalpy (J) and mass that went back (mg) through each.
THROUGH = ((50, 0, 0, 15, 1), (10, 0, 0, 4, 2), (2, 0, 0, 1, 0), (30, 0, 0, 9, 0))
EVENT = np.dtype(
    [("burning", int), ("closed", int), ("fired", int), ("reference_fuel", float)]
)  # fmt: skip


def evenly(first: object, last: object) -> np.ndarray:
    first, last = np.array(first, float), np.array(last, float)
    return first + np.multiply.outer(TIME / 4, last - first)


def books(monkeypatch: pytest.MonkeyPatch, *, case_gains: float = 20, fuel: float = 1.0) -> Closure:
    values = np.zeros((5, WIDTH))
    rates = np.zeros(WIDTH)
    milligrams = np.array([1, 1, 1e-6, 1e-6, 1e-6])
    for row, (first, last, _) in enumerate(VOLUMES):
        at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
        values[:, at : at + 5] = evenly(first, last) * milligrams
        if row == 2:
            values[-1, at + layout.AIR] += (case_gains - 20) * 1e-6
        rates[HEATS + row] = 0.1 * (row + 1)
    for row, (first, last) in enumerate(HOT):
        at = ZONES + row * layout.CYLINDER_SIZE
        values[:, at : at + 4] = evenly(first, last) * np.array([1, 1e-6, 1e-6, 1e-6])
        own = SUMS + row * layout.CYLINDER_SUMS
        rates[own : own + 5] = (10, 1, 2, 3, 4) if row == 0 else (20, 5, 6, 7, 8)
        values[:, own] = TIME * rates[own]
    for passage, amounts in enumerate(THROUGH):
        at = PASSED + passage * layout.PASSAGE_SUMS
        values[:, at : at + 5] = evenly(np.zeros(5), amounts) * [1e-6, 1e-6, 1e-6, 1, 1e-6]
    for passage, rate in ((1, 4e-6), (2, 1e-6)):
        rates[PASSED + passage * layout.PASSAGE_SUMS] = rate
    events = np.zeros((5, 2), EVENT)
    events["closed"][2:, 1] = 1
    events["reference_fuel"][-1] = (1e-6 * fuel, 2e-6 * fuel)
    room = evenly(*np.transpose([v[2] for v in VOLUMES])) * 1e-6

    def even_rates(engines: object, doubled: Trace) -> tuple[np.ndarray, np.ndarray]:
        del engines
        return np.tile(rates, (len(doubled.time), 1)), room

    monkeypatch.setattr(health, "rates_of_trace", even_rates)
    monkeypatch.setattr(health, "mixture_state", lambda *state: (1000.0 * state[4],))
    gas = SimpleNamespace(lower_heating_value=40e6)
    return closure(ENGINES, gas, Trace(TIME, values, events))


# Mass by 1 kJ/(kg K) by temperature, less p V, of cylinders, case and both zones; J.
BEFORE = 65 - 20 + 94.5 - 30 + 150 - 30 + 80 + 18
AFTER = 84 - 24 + 92 - 31.5 + 161.2 - 31.9 + 105 + 18
# Work 30 W, heat 10 + 26 W and 1 W in four seconds, less what the case's gas takes up under the
# first piston, 10 W · 1.05 bar / 2 bar; enthalpy out 9 J, in 15 J.
OUT = 4 * (30 + 36 + 1 - 14) + 9 - 15


def test_energy(monkeypatch: pytest.MonkeyPatch) -> None:
    """Over 3 mg of fuel of 40 MJ/kg; without fuel over half of what the pistons' work moved."""
    left = AFTER - BEFORE + OUT
    assert books(monkeypatch).energy == pytest.approx(left / 120, rel=1e-9)
    assert books(monkeypatch, fuel=0.0).energy == pytest.approx(left / 60, rel=1e-9)


def test_mass(monkeypatch: pytest.MonkeyPatch) -> None:
    """Held: 10 - 10 + 20 + 10 mg more; came in 50, went out 30. Through cylinders 51 + 12 + 2."""
    assert books(monkeypatch).mass == pytest.approx((30 - 20) / 65, rel=1e-9)


def test_mass_of_a_shut_cylinder(monkeypatch: pytest.MonkeyPatch) -> None:
    """The second is shut for 3 s from 217.5 mg on: it lost 7.5 and leaked 3 · (4 - 1) mg."""
    found = books(monkeypatch, case_gains=10)
    assert found.mass == pytest.approx((9 - 7.5) / 217.5, rel=1e-9)
