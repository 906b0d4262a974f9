"""A print with fibres in it grows across its layers by another number than along them."""

from __future__ import annotations

import pytest
from tests.parts.moments import engine, moment

from firstfire.engine.read import with_values
from firstfire.engine.working import recorded
from firstfire.parts import ways


@pytest.mark.parametrize(
    ("made", "stacked", "grows_by"),
    [
        ("printed", "along_bore", "expansion"),
        ("printed", "across_bore", "expansion_across"),
        ("printed", "along_crank", "expansion_across"),
        ("rod", "across_bore", "expansion"),
    ],
)
def test_a_piston_grows_as_its_layers_lie(made: str, stacked: str, grows_by: str) -> None:
    piston = {"material": "pa12_cf", "made": made, "layers_stacked": stacked}
    described = with_values(
        engine("engines/wren.toml"), {f"piston.{name}": value for name, value in piston.items()}
    )
    here = recorded(moment(described))
    row = here.engine.materials["pa12_cf"]
    assert row["expansion"] != row["expansion_across"]
    swells = next(way for way in ways(here) if way.id == "piston.swell")
    assert swells.inputs["piston_expansion"] == row[grows_by]
