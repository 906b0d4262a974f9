"""A shut cylinder as it is described and gathered, and parabolas through uneven steps, by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import closed_cycle, layout
from firstfire.cycle.health import integral_weights
from firstfire.errors import OutsideValidity


def described(monkeypatch, **other):
    """What is built, begun and run of 10 cm² and twice 20 mm."""
    seen = {}

    def start(spec, engines, angle, speed, charge):
        assert engines == "engines"
        seen.update(spec=spec, angle=angle, speed=speed, charge=charge[0])
        return "state"

    def run(engines, state, until):
        assert (engines, state) == ("engines", "state")
        seen["until"] = until
        return "end", "trace"

    monkeypatch.setattr(closed_cycle, "build_engine", lambda spec: "engines")  # noqa: ARG005
    monkeypatch.setattr(closed_cycle, "start_state", start)
    monkeypatch.setattr(closed_cycle, "run_traced", run)
    monkeypatch.setattr(closed_cycle, "_gather", lambda *given: given)
    usual = {
        "bore": math.sqrt(4e-3 / math.pi), "throw": 0.02, "rod": 0.08, "compression_ratio": 9.0,
        "speed": 300.0, "fuel": "petrol", "equivalence_ratio": 1.1, "inlet_closing": -2.5,
        "exhaust_opening": 2.2, "pressure": 1e5, "temperature": 330.0, "burn_start": -0.3,
        "burn_duration": 1.0,
    }  # fmt: skip
    found = closed_cycle.closed_cycle(**{**usual, **other})
    assert found == ("engines", "end", "trace")
    return SimpleNamespace(**seen)


def test_a_shut_cylinder_is_described(monkeypatch):
    """10 cm² · 40 mm are 40 cm³, of which an eighth is left; a step is a degree at most."""
    seen = described(monkeypatch)
    cylinder = seen.spec.cylinders[0]
    assert cylinder.clearance_volume == pytest.approx(5e-6)
    assert (cylinder.throw, cylinder.rod, cylinder.offset) == (0.02, 0.08, 0.0)
    assert (cylinder.burn.start, cylinder.burn.duration) == (-0.3, 1.0)
    assert seen.spec.stepping.largest_angle == pytest.approx(math.pi / 180)
    assert (seen.angle, seen.speed, seen.until) == (-2.5, 300.0, 2.2)
    assert (seen.charge.pressure, seen.charge.temperature) == (1e5, 330.0)
    assert seen.charge.equivalence_ratio == 1.1


def test_a_cylinder_is_shut_and_burns_within_a_turn_of_its_top(monkeypatch):
    """A turn is 6.283 rad."""
    described(monkeypatch, burn_duration=6.28)
    described(monkeypatch, inlet_closing=-6.28, exhaust_opening=6.28)
    for name, value in (("burn_duration", 6.29), ("inlet_closing", -6.29),
                        ("exhaust_opening", 6.29)):  # fmt: skip
        with pytest.raises(OutsideValidity):
            described(monkeypatch, **{name: value})


def test_a_cycle_is_gathered_from_its_trace(monkeypatch):
    """Unburned, half burned, joined: of 4 kg 0, 2 and then still 2 within the burned zone."""
    zone = layout.SHAFT_SIZE + layout.VOLUME_SIZE
    sums = zone + layout.CYLINDER_SIZE
    passed = sums + layout.CYLINDER_SUMS
    values = np.zeros((3, passed + layout.PASSAGE_SUMS))
    at = layout.SHAFT_SIZE
    values[:, at + layout.PRESSURE] = 1e5, 5e5, 3e5
    values[:, at + layout.TEMPERATURE] = 400.0, 700.0, 1900.0
    values[:, at + layout.AIR : at + layout.AIR + 3] = [[2, 1, 1], [1, 0.5, 0.5], [0.5, 0.25, 3.25]]
    values[1, zone + layout.ZONE_AIR : zone + layout.ZONE_AIR + 3] = 0.25, 0.125, 1.625
    values[:, zone] = 400.0, 2500.0, 1900.0
    end = values[-1].copy()
    end[sums : sums + layout.CYLINDER_SUMS] = 100.0, 1.0, 2.0, 3.0, 4.0
    end[passed + layout.PASSED_MASS], end[passed + layout.PASSED_ENTHALPY] = 7.0, 8.0
    engine = {"cylinders_at": zone, "cylinder_sums_at": sums, "passage_sums_at": passed}
    monkeypatch.setattr(closed_cycle, "volumes_at", lambda engines, angle: [angle * len(engines)])
    trace = SimpleNamespace(values=values, angle=np.array([0.1, 0.2, 0.3]))
    found = closed_cycle._gather([engine], SimpleNamespace(values=end), trace)
    assert list(found.volume) == [0.1, 0.2, 0.3]
    assert list(found.pressure) == [1e5, 5e5, 3e5]
    assert list(found.burned_fraction) == [0.0, 0.5, 0.5]
    assert list(found.mass_air) == [2.0, 1.25, 0.5]
    assert list(found.mass_fuel) == [1.0, 0.625, 0.25]
    assert list(found.mass_burned) == [1.0, 2.125, 3.25]
    assert found.temperature_unburned == pytest.approx([400.0, 700.0, math.nan], nan_ok=True)
    assert found.temperature_burned == pytest.approx([math.nan, 2500.0, 1900.0], nan_ok=True)
    assert (found.work, found.heat_to_walls) == (100.0, 10.0)
    assert (found.leaked_mass, found.leaked_enthalpy) == (7.0, 8.0)


@pytest.mark.parametrize(
    ("time", "weights"),
    [
        ([0, 3], [1.5, 1.5]),
        ([0, 2, 4], [2 / 3, 8 / 3, 2 / 3]),
        # 11/6 (2 - 10), 11³/60 and 11/6 (2 - 0.1): just even enough.
        ([0, 1, 11], [-44 / 3, 1331 / 60, 20.9 / 6]),
        ([0, 10, 11], [20.9 / 6, 1331 / 60, -44 / 3]),
        # Chords.
        ([0, 1, 16], [0.5, 8.0, 7.5]),
        ([0, 15, 16], [7.5, 8.0, 0.5]),
        # An odd one of 2 after 1: -8/(6 · 3), 2/6 (3 + 2) and 2/6 (3 - 2/3).
        ([0, 1, 2, 4], [1 / 3, 4 / 3 - 4 / 9, 1 / 3 + 5 / 3, 7 / 9]),
        ([0, 1, 2, 17], [1 / 3, 4 / 3, 1 / 3 + 7.5, 7.5]),
        ([0, 2, 4, 4, 7], [2 / 3, 8 / 3, 2 / 3, 1.5, 1.5]),
    ],
)
def test_parabolas_through_uneven_steps(time, weights):
    """Each sums to all the time there is."""
    found = integral_weights(np.array(time, dtype=float))
    assert sum(weights) == pytest.approx(time[-1])
    assert found == pytest.approx(np.array(weights))
