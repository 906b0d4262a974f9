"""Which part, and which depth of it, valves, crown, shield and port are judged by.

Worked cases are as warm all through, and what warmth leaves is put in there: so that is held here.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import Rises, moment, said

from firstfire.engine.moment import Moment
from firstfire.engine.read import with_values
from firstfire.engine.records import PartTemperature, Way
from firstfire.parts import ways

ENGINE = """
name = "warm"
[layout]
kind = "single"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
moisture = "dry"
"""
PLATE = {"head.chamber_plate": "aluminium_6061_t6", "head.chamber_plate_thickness": "3 mm"}
SHIELD = {"piston.shield.thickness": "1 mm"}
PEEK = {"valves.inlet.retainer_material": "peek", "valves.exhaust.retainer_material": "peek"}


def judged(way: str, rises: Rises, change: dict[str, str] | None = None) -> Way:
    return found(way, moment(with_values(said(ENGINE), change or {}), rises=rises))


def found(way: str, here: Moment) -> Way:
    return next(one for one in ways(here) if one.id == way)


@pytest.mark.parametrize(
    ("way", "change", "read", "not_read"),
    [
        ("piston.shield.loosen", SHIELD, {"shield_screws": (30.0, 30.0)}, {"shield": 60.0}),
        ("piston.crown.break", {}, {"crown": 40.0}, {"skirt": 40.0, "head": 40.0, "liner": 40.0}),
        ("valves.inlet.retainer", PEEK, {"head": (0.0, 60.0)}, {"valves": 60.0, "seats": 60.0}),
        ("valves.exhaust.retainer", PEEK, {"head": (0.0, 60.0)}, {"valves": 60.0, "seats": 60.0}),
    ],
)
def test_a_strength_is_that_of_the_part_that_is_warm(
    way: str, change: dict[str, str], read: Rises, not_read: Rises
) -> None:
    cold = judged(way, {}, change)
    assert judged(way, read, change).capacity < 0.95 * cold.capacity
    assert judged(way, not_read, change).capacity == cold.capacity


def falling(part: str, face: float, back: float, change: dict[str, str] | None = None) -> Moment:
    """Cold, but for one part that falls straight from face to back, K."""
    here = moment(with_values(said(ENGINE), change or {}), rises={})
    depth = here.temperatures.parts[part].depth
    hot = PartTemperature(face, face, depth, face - (face - back) * depth / depth[-1])
    parts = {**here.temperatures.parts, part: hot}
    return replace(here, temperatures=replace(here.temperatures, parts=parts))


def test_a_retainer_is_as_warm_as_the_heads_outside() -> None:
    there = found("valves.inlet.retainer", falling("head", 360.0, 310.0, PEEK))
    assert there.temperature == pytest.approx(310.0)


def test_port_and_seats_behind_a_plate_are_read_two_millimetres_down() -> None:
    # air of 293.15 K; 360 K at the face, 300 K at the back, 6 mm and 20 mm away
    port = found("exhaust_port.soften", falling("exhaust_port", 360.0, 300.0))
    assert port.demand == pytest.approx(360.0 - 60.0 * 2 / 6 - 293.15)
    seats = found("head.seat.loosen", falling("head", 360.0, 300.0, PLATE))
    assert seats.demand == pytest.approx(360.0 - 60.0 * 2 / 20 - 293.15)


@pytest.mark.parametrize(
    ("way", "part", "wall"),
    [("piston.crown.eat", "crown", 5.72), ("head.eat", "head", 20.0),
     ("exhaust_port.eat", "exhaust_port", 6.0)],
)  # fmt: skip
def test_fire_has_eaten_as_deep_as_it_chars(way: str, part: str, wall: float) -> None:
    burning = falling(part, 800.0, 300.0)
    limit = burning.engine.materials["petg"]["decomposition"]
    there = found(way, burning)
    assert there.capacity == pytest.approx(wall * 1e-3)
    # it chars down to where 800 K have fallen to the limit
    assert there.demand == pytest.approx(there.capacity * (800.0 - limit) / 500.0)
