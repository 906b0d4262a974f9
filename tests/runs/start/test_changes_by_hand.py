"""What is tried to help a start: each number that is written comes from the engine's own."""

from __future__ import annotations

import math

import pytest
from tests.runs.start.books import engine

import firstfire as ff
from firstfire.engine.battery import battery_of
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.runs.start.changes import _candidates, _eased
from firstfire.runs.start.vapour import LIGHTS_WELL, warm_enough


def listed(best, **changes):
    given = {path.replace("__", "."): value for path, value in changes.items()}
    made = with_values(ff.read("engines/wren.toml"), given)
    return {key: (text, values) for text, values in _candidates(made, math.radians(best))
            for key in values}  # fmt: skip


def size(values, path):
    """A written value in its own unit."""
    return float(values[path].split()[0])


def test_rings_wheel_starter_and_mixture_are_changed_by_their_shares():
    """Oil leaves 0.3 of the rings' leak; a wheel five times as heavy is the last that is tried; a
    starter half again as fast turns through as much gearing; 15 % more fuel."""
    found = listed(
        5.0, leak__ring="0.2 mm^2", flywheel__inertia="0.0010 kg*m^2",
        use__cranking_speed="400 rpm", intake__equivalence_ratio="1.1",
    )  # fmt: skip
    assert size(found["leak.ring"][1], "leak.ring") == pytest.approx(0.06)
    assert size(found["flywheel.inertia"][1], "flywheel.inertia") == pytest.approx(0.005)
    assert size(found["use.cranking_speed"][1], "use.cranking_speed") == pytest.approx(600.0)
    assert float(found["use.cranking_speed"][1]["starter.ratio"]) == pytest.approx(1.5)
    assert "geared 1.5 to 1" in found["use.cranking_speed"][0]
    assert float(found["intake.equivalence_ratio"][1]["intake.equivalence_ratio"]) == (
        pytest.approx(1.265, abs=0.006)
    )


def test_another_spark_is_named_where_it_is_more_than_2_degrees_off():
    assert "spark.start_angle" not in listed(6.5, spark__start_angle="5 deg")
    text, values = listed(8.0, spark__start_angle="5 deg")["spark.start_angle"]
    assert size(values, "spark.start_angle") == pytest.approx(8.0)
    assert "before top" in text


def test_a_cold_engine_is_warmed_to_whole_degrees_that_light_well():
    cold = {"intake.fuel": "ethanol", "surroundings.air_temperature": "-5 °C"}
    made = with_values(ff.read("engines/wren.toml"), cold)
    warm = warm_enough(resolve(made), LIGHTS_WELL)
    _, values = {key: (text, values) for text, values in _candidates(made, 0.1) for key in values}[
        "surroundings.air_temperature"
    ]
    degrees = size(values, "surroundings.air_temperature")
    assert degrees == math.ceil(warm - 273.15)
    assert 5 < degrees < 40


def test_a_weak_battery_is_halved_in_resistance_and_compression_let_off():
    """Half of what battery and leads add; a hole as the rule has it, and one twice as wide."""
    plain = engine("wren", starter__battery_voltage="12 V", starter__battery_resistance="0.2 ohm")
    found = list(_eased(plain))
    battery = battery_of(plain.starter)
    assert battery.added == pytest.approx(0.2)
    values = [values for _, values in found]
    (added,) = (one for one in values if "starter.battery_resistance" in one)
    assert size(added, "starter.battery_resistance") == pytest.approx(0.1)
    holes = [one for one in values if "starter.decompression_diameter" in one]
    ruled = 1e3 * plain.starter.decompression_diameter
    assert [size(one, "starter.decompression_diameter") for one in holes] == pytest.approx(
        [ruled, 2 * ruled], rel=0.05
    )
    assert all(one["starter.decompression"] == "true" for one in holes)
