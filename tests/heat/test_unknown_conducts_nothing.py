"""A wall whose material doesn't tell how it takes heat is not warmed by a guess."""

from dataclasses import replace
from pathlib import Path

import pytest

from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.errors import OutsideValidity
from firstfire.heat.cylinder import network
from firstfire.runs.readers import watched

ENGINES = Path(__file__).resolve().parents[2] / "engines"
FILES = sorted(path.stem for path in ENGINES.glob("*.toml"))


@pytest.mark.parametrize("name", FILES)
def test_every_number_that_a_network_asks_for_is_needed(make, name):
    asked = set[str]()
    plain = watched(resolve(read(ENGINES / f"{name}.toml")), asked)
    make(plain)
    assert len(asked) > 10
    lax = []
    for path in sorted(asked):
        _, key, prop = path.split(".")
        old = plain.materials[key]
        if prop not in old.properties:
            continue
        told = {p: old.properties[p] for p in old.properties if p != prop}
        materials = {**plain.materials, key: replace(old, properties=told)}
        lacking = plain.model_copy(update={"materials": materials})
        try:
            make(lacking)
        except OutsideValidity as why:
            assert prop.replace("_", " ") in str(why), path
        else:
            lax.append(path)
    assert not lax


def test_a_plastic_that_tells_no_decomposition_has_no_network():
    """It had been taken to stand any heat, like a metal."""
    plain = resolve(read(ENGINES / "wren.toml"))
    key = plain.cylinders[0].piston.material
    old = plain.materials[key]
    told = {p: v for p, v in old.properties.items() if p != "decomposition"}
    materials = {**plain.materials, key: replace(old, properties=told)}
    with pytest.raises(OutsideValidity, match="decomposition"):
        network(plain.model_copy(update={"materials": materials}), 0)
