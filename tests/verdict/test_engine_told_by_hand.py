"""What JSON says of an engine's shape: degrees of crank, whose reference is its firing order."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.engine.geometry import geometry
from firstfire.engine.resolve import resolve
from firstfire.verdict.told.result import _engine
from firstfire.verdict.words.sentences import firing


@pytest.mark.parametrize(
    ("file", "angles", "intervals"),
    [
        ("engines/wren.toml", [0.0], [720.0]),
        ("engines/heron.toml", [0.0, 360.0], [360.0, 360.0]),
        ("tests/strangers/2_v_twin.toml", [0.0, 450.0], [450.0, 270.0]),
    ],
)
def test_its_firing_angles_and_intervals_are_degrees(file, angles, intervals):
    """A single fires once in two turns, a boxer evenly, a V of 90° on one pin unevenly."""
    engine = ff.read(file)
    plain = resolve(engine)
    told = _engine(SimpleNamespace(engine=engine, plain=plain, geometry=geometry(plain)))
    assert told.firing_angles_deg == pytest.approx(angles)
    assert sorted(told.firing_intervals_deg) == pytest.approx(sorted(intervals))
    swept = sum(one.displacement for one in geometry(plain).cylinders)
    assert told.displacement_m3 == pytest.approx(swept)


@pytest.mark.parametrize(
    ("file", "said"),
    [
        ("engines/wren.toml", "every 720°"),
        ("engines/heron.toml", "every 360°"),
        ("tests/strangers/2_v_twin.toml", "450° and 270° apart"),
    ],
)
def test_how_it_fires_is_said_in_degrees(file, said):
    assert firing(geometry(resolve(ff.read(file)))) == said
