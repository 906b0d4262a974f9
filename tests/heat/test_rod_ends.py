"""The rod's sliding ends, a shield's screws and the top groove, by hand and by property."""

import math
from pathlib import Path

import numpy as np
import pytest

from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.heat.advance import advance
from firstfire.heat.answers import part_series, temperatures_at
from firstfire.heat.cylinder import network
from firstfire.heat.exposure import Exposure
from firstfire.heat.history import cold
from firstfire.heat.layers import layer
from firstfire.heat.rod_ends import rod_limits, rod_sources

AIR = 293.15
ENGINES = Path(__file__).resolve().parents[2] / "engines"


def rubbing(engine, power):
    """Only the big end rubs, and nothing cools."""
    parts = engine.cylinders[0]
    walls = network(engine, 0)
    exposure = Exposure(
        sources=rod_sources(engine, parts, power, 0.0), limits=rod_limits(engine, parts)
    )
    return walls, exposure


def test_a_printed_pin_and_eye_are_two_half_spaces_under_a_flux(demo):
    """Face of a half space under a constant flux: Carslaw and Jaeger, 2nd ed., section 2.9."""
    engine = demo("heron").engine
    parts, rod = engine.cylinders[0], engine.cylinders[0].rod
    walls, exposure = rubbing(engine, 60.0)
    assert "crankpin" not in walls.lump_nodes
    history = advance(cold(walls, AIR), exposure, 1.0)
    eye = layer("eye", engine.materials[rod.material], rod.eye_wall, made=rod, flow="radial")
    face = math.pi * engine.crank.crankpin_diameter * rod.big_end_width
    flux = 30.0 / face
    for seconds in (0.1, 0.3):
        rise = temperatures_at(history, seconds).parts["big_end"].surface - AIR
        by_hand = 2.0 * flux / eye.solid.effusivity * math.sqrt(seconds / math.pi)
        # the eye is round: its skin spreads a little, and cells are 6 µm at the face
        assert rise == pytest.approx(by_hand, rel=0.06)
    assert parts.rod.big_end == "plain"


def test_heat_of_a_steel_pin_goes_into_pin_and_webs(demo):
    engine = demo("wren").engine
    walls, exposure = rubbing(engine, 100.0)
    history = advance(cold(walls, AIR), exposure, 60.0)
    assert history.received[-1, 1] == pytest.approx(100.0 * 60.0, rel=1e-6)
    found = temperatures_at(history, 60.0).parts
    lumps = {one.name: one.capacity for one in walls.lumps}
    metal = sum(lumps[name] * (found[name].surface - AIR) for name in ("crankpin", "webs"))
    assert 0.6 * 6000.0 < metal < 6000.0
    assert found["big_end"].surface > found["crankpin"].surface > found["webs"].surface
    # its own heat for a while: capacity of the steel pin alone, mass times specific heat
    pin = engine.materials[engine.crank.crankpin_material]
    crank = engine.crank
    length = crank.crankpin_length + 2 * crank.joint.length
    by_hand = pin["density"] * pin["specific_heat"] * math.pi / 4 * crank.crankpin_diameter**2
    assert lumps["crankpin"] == pytest.approx(by_hand * length, rel=1e-9)


def test_a_molten_face_rubs_no_more(demo):
    engine = demo("heron").engine
    walls, exposure = rubbing(engine, 400.0)
    history = advance(cold(walls, AIR), exposure, 120.0)
    limit = engine.materials[engine.cylinders[0].rod.material]["decomposition"]
    assert part_series(history, "big_end", "surface").max() < limit + 5.0
    assert history.stored[-1] == pytest.approx(history.received[-1].sum(), rel=1e-8)


def test_ends_that_roll_are_not_followed():
    rolling = resolve(read(ENGINES / "wren.toml"), {"rod.big_end": "needle"})
    names = {stack.name for stack in network(rolling, 0).stacks}
    assert "big_end" not in names
    assert "small_end" in names


def test_more_friction_and_less_width_never_cool_an_end(demo):
    engine = demo("wren").engine
    mild, strong = (
        advance(cold(walls, AIR), exposure, 20.0)
        for walls, exposure in (rubbing(engine, 50.0), rubbing(engine, 100.0))
    )
    rise = [temperatures_at(one, 20.0).parts["big_end"].surface - AIR for one in (mild, strong)]
    assert rise[1] == pytest.approx(2.0 * rise[0], rel=1e-6)
    narrow = resolve(read(ENGINES / "wren.toml"), {"rod.big_end_width": 6e-3})
    walls, exposure = rubbing(narrow, 50.0)
    narrower = advance(cold(walls, AIR), exposure, 20.0)
    assert temperatures_at(narrower, 20.0).parts["big_end"].surface - AIR > rise[0]


def test_screws_follow_the_sheet_and_the_top_groove_is_warmer_than_the_belt(demo):
    one = demo("wren")
    history = advance(cold(one.network, AIR), one.exposure, 20.0)
    sheet, screws = (part_series(history, name, "mean") for name in ("shield", "shield_screws"))
    lag = np.interp(screws[-1], sheet, history.seconds)
    # 0.13 J/K of a 3 mm screw over 0.08 W/K (shank and contact under its head in series) are
    # 1.7 s; the plastic round it holds it back about as much again
    assert 1.0 < history.seconds[-1] - lag < 6.0
    for name in ("wren", "heron", "plover"):
        made = demo(name)
        found = temperatures_at(advance(cold(made.network, AIR), made.exposure, 10.0), 10.0).parts
        assert found["groove"].surface > found["land"].surface
        assert found["groove"].surface < found["crown"].surface
