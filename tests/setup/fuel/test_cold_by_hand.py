"""How many times the fuel a cold engine wants: by the fuel's own way, followed here by hand."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.runs.fuelled import FuelState, mixture, next_cycle
from firstfire.runs.start.fuelling import path_of
from firstfire.runs.start.vapour import components
from firstfire.setup.fuel.cold import first_charge, settled

AIR, INTAKE, SECONDS, WARM = 4e-5, 9.5e4, 0.2, 293.15


@pytest.fixture(scope="module")
def plain():
    return resolve(ff.read("engines/heron.toml"))


def drawn(fuel):
    return SimpleNamespace(
        at=SimpleNamespace(air=(AIR,), fuel=(fuel,), intake=(INTAKE,), seconds=SECONDS)
    )


def cycle(plain, state, metered):
    after = next_cycle(
        state, path_of(plain, plain.cylinders[0]), fuel=components(plain.fuel), air_mass=AIR,
        port_temperature=WARM, air_temperature=min(WARM, plain.surroundings.air_temperature),
        air_pressure=INTAKE, metered_mass=metered, cycle_seconds=SECONDS,
    )  # fmt: skip
    return after.state, mixture(after, AIR)


def test_a_dry_engines_first_charge_comes_to_its_mixture(plain):
    """With a hundredth less it doesn't; asked for twice as much it wants half as many times."""
    wanted = plain.intake.equivalence_ratio
    times = first_charge(plain, drawn(2e-6), WARM)
    assert cycle(plain, FuelState(), times * 2e-6)[1] >= wanted
    assert cycle(plain, FuelState(), 0.99 * times * 2e-6)[1] < wanted
    assert first_charge(plain, drawn(4e-6), WARM) == pytest.approx(times / 2, rel=0.01)


def test_settled_it_keeps_its_mixture(plain):
    times = settled(plain, drawn(2e-6), WARM)
    state = FuelState()
    for _ in range(60):
        state, phi = cycle(plain, state, times * 2e-6)
    assert phi == pytest.approx(plain.intake.equivalence_ratio, rel=0.01)
    assert settled(plain, drawn(4e-6), WARM) == pytest.approx(times / 2, rel=0.01)
