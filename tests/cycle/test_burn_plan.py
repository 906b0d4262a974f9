"""What a charge's state at the spark does to its burn, and when there is none."""

from __future__ import annotations

import math
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.catalog.properties import TABLES
from firstfire.cycle.burn_plan import (
    LEANEST,
    MOST_BURNED,
    RICHEST,
    Burn,
    Charge,
    burn_plan,
    flame_speed,
    lights,
)
from firstfire.cycle.equilibrium_states import burn_at_constant_volume
from firstfire.engine.resolve import PlainEngine, resolve

RPM = math.pi / 30
DEG = math.pi / 180
METAL = Path(__file__).parents[1] / "strangers" / "5_metal_wren.toml"
SPARK = -20 * DEG
# Of a 45 cm³ cylinder 20° before top centre: 6 bar, 560 K, about 11 cm³.
CHARGE = Charge(6e5, 560.0, 10.5e-6, 0.07, 1.0)
FUELS = ("petrol", "e10", "iso_octane", "propane", "ethanol", "methanol")


@pytest.fixture(scope="module")
def engine() -> PlainEngine:
    return resolve(ff.read(METAL))


def plan(
    engine: PlainEngine, charge: Charge = CHARGE, rpm: float = 2500, spark: float = SPARK
) -> Burn:
    burn = burn_plan(engine, engine.cylinders[0], rpm * RPM, spark, charge)
    assert burn is not None
    return burn


def test_no_burn_before_the_spark(engine: PlainEngine) -> None:
    for rpm in (300, 1000, 3000, 6000):
        burn = plan(engine, rpm=rpm)
        assert burn.spec.start >= SPARK
        assert 0 < burn.development < burn.spec.duration


def test_angle_grows_with_speed_but_less_than_speed_does(engine: PlainEngine) -> None:
    """With the cube root, if the charge is the same: Hires, Tabaczynski and Novak's form."""
    slow, fast = plan(engine, rpm=1000), plan(engine, rpm=4000)
    assert fast.spec.duration / slow.spec.duration == pytest.approx(4 ** (1 / 3))
    assert fast.development / slow.development == pytest.approx(4 ** (1 / 3))
    # In time it burns faster.
    assert fast.spec.duration / 4000 < slow.spec.duration / 1000


@pytest.mark.parametrize(
    "slower",
    [
        {"equivalence_ratio": 0.75},
        {"equivalence_ratio": 1.68},
        {"burned_fraction": 0.2},
        {"temperature": 450.0},
    ],
)
def test_what_slows_a_flame_lengthens_the_burn(
    engine: PlainEngine, slower: dict[str, float]
) -> None:
    slowed = plan(engine, replace(CHARGE, **slower))
    assert slowed.spec.duration > 1.1 * plan(engine).spec.duration
    assert slowed.development > 1.1 * plan(engine).development


def test_doubt_acts_on_both_angles_and_on_the_phase(engine: PlainEngine) -> None:
    read = ff.read(METAL)
    slow = resolve(ff.with_values(read, {"doubt.burn_duration": 1.4}))
    late = resolve(ff.with_values(read, {"doubt.burn_phase": "5 deg"}))
    assert plan(slow).spec.duration == pytest.approx(1.4 * plan(engine).spec.duration)
    assert plan(slow).development == pytest.approx(1.4 * plan(engine).development)
    assert plan(late).spec.start == pytest.approx(plan(engine).spec.start + 5 * DEG)
    assert plan(late).spec.duration == plan(engine).spec.duration


def test_the_burn_follows_its_spark(engine: PlainEngine) -> None:
    moved = plan(engine, spark=SPARK - 10 * DEG)
    assert moved.spec.start == pytest.approx(plan(engine).spec.start - 10 * DEG)


@pytest.mark.parametrize("fuel", FUELS)
def test_every_fuel_of_the_catalog_has_a_flame(fuel: str) -> None:
    at = flame_speed(fuel, CHARGE, 720.0, 20e5)
    assert 0.3 < at < 2.0
    assert flame_speed(fuel, replace(CHARGE, burned_fraction=0.2), 720.0, 20e5) < 0.8 * at
    assert flame_speed(fuel, CHARGE, 600.0, 20e5) < at


def test_those_are_all_the_fuels_there_are() -> None:
    tables = tomllib.loads((TABLES / "fuels.toml").read_text(encoding="utf-8"))
    assert set(tables) - {"sources"} == set(FUELS)


@pytest.mark.parametrize(
    ("changed", "burns"),
    [
        ({"equivalence_ratio": LEANEST + 0.01}, True),
        ({"equivalence_ratio": LEANEST - 0.01}, False),
        ({"equivalence_ratio": RICHEST + 0.01}, False),
        ({"burned_fraction": MOST_BURNED - 0.01}, True),
        ({"burned_fraction": MOST_BURNED + 0.01}, False),
        ({"equivalence_ratio": 0.0}, False),
    ],
)
def test_limits_of_lighting(engine: PlainEngine, changed: dict[str, float], burns: bool) -> None:
    charge = replace(CHARGE, **changed)
    assert lights(charge) is burns
    planned = burn_plan(engine, engine.cylinders[0], 2500 * RPM, SPARK, charge)
    assert (planned is not None) is burns


def test_a_flame_too_slow_to_live_does_not_burn() -> None:
    """Propane at 1.65 is within the limits of mixture, but its fitted parabola has run out."""
    engine = resolve(ff.with_values(ff.read(METAL), {"intake.fuel": "propane"}))
    rich = replace(CHARGE, equivalence_ratio=1.65)
    assert lights(rich)
    assert flame_speed("propane", rich, 560.0, 6e5) < 0.03
    assert burn_plan(engine, engine.cylinders[0], 2500 * RPM, SPARK, rich) is None


def test_a_shorter_and_shorter_burn_comes_to_burning_at_once() -> None:
    """Without losses, from top centre on: the peak tends to that of constant volume."""
    geometry = {"bore": 0.04, "throw": 0.018, "rod": 0.066, "compression_ratio": 6.5}
    state = {"pressure": 1e5, "temperature": 330.0}

    def peak(duration: float) -> float:
        fired = ff.closed_cycle(
            **geometry, **state, speed=250.0, fuel="petrol", equivalence_ratio=1.0,
            inlet_closing=-math.pi, exhaust_opening=math.pi, burn_start=-duration / 2,
            burn_duration=duration, wall_heat=None, largest_step=math.radians(0.1),
        )  # fmt: skip
        return float(fired.pressure.max())

    motored = ff.closed_cycle(
        **geometry, **state, speed=250.0, fuel="petrol", equivalence_ratio=1.0,
        inlet_closing=-math.pi, exhaust_opening=math.pi, fire=False, wall_heat=None,
    )  # fmt: skip
    top = int(motored.pressure.argmax())
    at_once = burn_at_constant_volume(
        "petrol", 1.0, float(motored.temperature_unburned[top]), float(motored.pressure[top])
    ).pressure
    off = [1 - peak(duration * DEG) / at_once for duration in (40.0, 10.0, 2.5, 1.0, 0.25)]
    assert off == sorted(off, reverse=True)
    assert off[0] > 0.1
    # What the piston moves within the burn goes with its square; the stepper's own error is left.
    assert 0.0 < off[-1] < 2e-4
