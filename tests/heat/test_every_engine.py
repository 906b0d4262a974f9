"""Every demo engine and stranger gets a network that runs, cools and answers."""

from pathlib import Path

import numpy as np
import pytest

from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.heat.advance import advance
from firstfire.heat.answers import char_depths, temperatures_at, walls
from firstfire.heat.history import cold
from firstfire.heat.outside import fan_film, outside, still_film
from firstfire.heat.running import resting, running

ROOT = Path(__file__).resolve().parents[2]
FILES = sorted((ROOT / "engines").glob("*.toml")) + [
    path for path in sorted((ROOT / "tests/strangers").glob("*.toml")) if "refused" not in path.stem
]


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_it_runs_and_cools(make, file):
    one = make(resolve(read(file)), speed_rpm=3000)
    history = advance(cold(one.network, 293.15), one.exposure, 30.0)
    history = advance(history, resting(one.engine, 0, one.network), 90.0)
    assert np.isfinite(history.temperatures).all()
    assert history.stored == pytest.approx(history.received.sum(axis=1), rel=1e-8, abs=1e-4)
    hottest_gas = one.cycle.gas_temperature.max()
    for seconds in (0.0, 1.0, 30.0, 90.0):
        for name, part in temperatures_at(history, seconds).parts.items():
            assert 293.0 < part.surface <= part.peak < hottest_gas, name
        seen = walls(history, seconds)
        assert min(seen.crown, seen.head, seen.valves, seen.liner) > 293.0
    assert all(depth > 0 for depth in char_depths(history, 90.0).values())


def test_every_cylinder_of_an_engine_has_its_own_walls(make):
    engine = resolve(read(ROOT / "engines" / "heron.toml"))
    one = make(engine)
    second = running(engine, 1, one.network, one.cycle)
    assert set(second.gas) == set(one.exposure.gas) - {"exhaust_port"}


def test_metal_engine_is_evener_than_a_printed_one(make):
    metal = make(resolve(read(ROOT / "tests/strangers" / "5_metal_wren.toml")))
    history = advance(cold(metal.network, 293.15), metal.exposure, 30.0)
    crown = temperatures_at(history, 30.0).parts["crown"]
    assert crown.profile[0] - crown.profile[-1] < 15.0
    assert char_depths(history, 30.0).keys() <= {"ring"}


def cooled(demo, **surroundings):
    """What cools wren's body in other surroundings: coefficient at 60 K above the air."""
    one = demo("wren")
    plain = one.engine
    changed = plain.model_copy(
        update={"surroundings": plain.surroundings.model_copy(update=surroundings)}
    )
    skin = one.network.stack("liner").layers[-1]
    speed = 0.0 if surroundings.get("air_temperature") == 293.0 else 300.0
    found = outside(changed, 0.060, skin, speed=speed)
    return found, found.constant + found.free * 60.0**found.exponent


def test_water_cools_more_than_a_fan_and_a_fan_more_than_still_air(demo):
    still = cooled(demo, cooling="still_air")[1]
    fan = cooled(demo, cooling="fan", air_speed=4.0)[1]
    water = cooled(demo, cooling="water_jacket")[1]
    # Incropera 6 Table 1.1 (from memory): free gas 2-25, forced 25-250, liquids 50-20 000
    assert 2 < still < 25 < fan < 250 < water < 20_000


def test_a_fan_on_the_shaft_stops_with_it(demo):
    running_film = cooled(demo, cooling="fan", air_speed=4.0)[0]
    standing = cooled(demo, cooling="fan", air_speed=4.0, air_temperature=293.0)[0]
    assert running_film.free == 0.0
    assert standing.constant == 0.0
    assert standing.free > 0.0


def test_doubt_about_cooling_multiplies_it(demo):
    one = demo("wren")
    doubted = one.engine.model_copy(
        update={"doubt": one.engine.doubt.model_copy(update={"outside_cooling": 2.0})}
    )
    skin = one.network.stack("liner").layers[-1]
    plain, double = (outside(e, 0.06, skin, speed=300.0) for e in (one.engine, doubted))
    assert double.constant == pytest.approx(2 * plain.constant)


@pytest.mark.parametrize("rise", [20.0, 60.0, 120.0])
def test_power_law_of_rising_air_follows_its_correlation(rise):
    from firstfire.formulas import forced_convection, free_convection
    from firstfire.formulas.ambient_air import dry_air

    free, exponent = still_film(0.06, 293.15, 101_325.0)
    air = dry_air(293.15 + rise / 2)
    number = free_convection.rayleigh(
        0.06, 293.15 + rise, 293.15, air.kinematic_viscosity, air.prandtl
    )
    nusselt = free_convection.level_tube_nusselt(number, air.prandtl)
    film = forced_convection.film_coefficient(nusselt, air.conductivity, 0.06)
    assert free * rise**exponent == pytest.approx(film, rel=0.02)


def test_fan_film_goes_with_about_the_root_of_speed():
    ratio = fan_film(8.0, 0.06, 293.15, 101_325.0) / fan_film(4.0, 0.06, 293.15, 101_325.0)
    assert 1.4 < ratio < 1.6
