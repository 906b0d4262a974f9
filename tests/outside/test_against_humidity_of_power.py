"""What moist air costs, against the standards by which power is brought to a standard day.

ISO 1585 (also UN Regulation 85), naturally aspirated spark ignition: power goes with the pressure
of the dry air to the 1.2 (from memory); SAE J1349 (June 1990): with the pressure itself, of the
indicated power. Both were made from many engines.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.cycle.fired import fired_cycle
from firstfire.formulas.atmosphere import vapour_pressure
from firstfire.runs.walls import assumed_warm

METAL = Path(__file__).parent.parent / "strangers" / "5_metal_wren.toml"
HOT, AIR = 308.15, 1e5


def imep(humidity: float) -> float:
    day = {
        "surroundings.humidity": humidity,
        "surroundings.air_temperature": HOT,
        "surroundings.air_pressure": AIR,
    }
    engine = ff.resolve(ff.read(METAL), day)
    spark = math.radians(-25)
    cycle = fired_cycle(engine, 2500 * math.pi / 30, spark, assumed_warm(engine)).cycle
    return cycle.cylinders[0].imep_net


def test_a_humid_day_costs_what_the_standards_say() -> None:
    """35 °C, 80 %: 4.5 % of the pressure is steam. 1 to 1.2 of it, and 1.5 % for a fixed spark."""
    dry = 1 - vapour_pressure(HOT, 0.8) / AIR
    found = imep(0.8) / imep(0.0)
    assert dry**1.2 - 0.015 <= found <= dry
    assert dry == pytest.approx(0.955, abs=1e-3)
