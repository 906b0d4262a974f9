"""Arrows: as long as the force over the scale, in the directions of mechanics."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from tests.drawing.conftest import Measured, plain_engine

from firstfire.drawing.arrow_words import arrow_words
from firstfire.drawing.forces import forces_at
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.drawing.text import width_of
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import GasCycle, Loads
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.engine_loads import loads

BAR = 1e5


def pushed(plain: PlainEngine, speed: float = 200.0) -> Loads:
    """Each cylinder under a smooth made-up pressure, 30 bar at its firing top."""
    angle = np.linspace(-2 * math.pi, 2 * math.pi, 721)
    even = np.full(angle.size, 1.0)
    pressure = BAR * (1 + 29 * np.exp(-((angle / 0.5) ** 2)))
    gas = GasCycle(angle, speed * even, pressure, 1e-5 * even, 400 * even, even, BAR * even,
                   0 * even)  # fmt: skip
    return loads(plain, [gas] * len(plain.cylinders))


@pytest.mark.parametrize("degrees", [-200.0, 0.0, 25.0, 90.0])
def test_lengths_are_forces_over_the_scale(degrees: float) -> None:
    plain = plain_engine("heron")
    forces = forces_at(pushed(plain), plain, math.radians(degrees))
    drawing = section(plain, crank_angle=math.radians(degrees), forces=forces)
    assert len(drawing.arrows) == 10
    for arrow in drawing.arrows:
        long = math.dist(arrow.start, arrow.end) * drawing.newtons_per_mm
        assert long == pytest.approx(abs(arrow.force), abs=1e-6)
    assert drawing.newtons_per_mm == forces.newtons_per_mm


def test_gas_force_is_pressure_times_bore_area() -> None:
    """30 bar less 1 bar under the piston of 40 mm: π/4 d² Δp by hand, 3644 N."""
    plain = plain_engine("wren")
    forces = forces_at(pushed(plain), plain, 0.0)
    assert forces.cylinders[0].gas == pytest.approx(3644, abs=1)


def test_the_polygon_of_forces_on_the_pin_closes() -> None:
    """Gas and inertia down the bore, the wall sideways, and the rod: they add up to nothing."""
    plain = plain_engine("wren")
    for degrees in (20.0, 130.0, 400.0):
        forces = forces_at(pushed(plain), plain, math.radians(degrees))
        drawing = section(plain, crank_angle=math.radians(degrees), forces=forces)
        by = {a.name: (a.end[0] - a.start[0], a.end[1] - a.start[1]) for a in drawing.arrows}
        # the rod's arrow is the push on the rod: its push back, and the wall's, point back
        across = by["gas"][0] + by["inertia"][0] - by["rod"][0] - by["side"][0]
        along = by["gas"][1] + by["inertia"][1] - by["rod"][1] - by["side"][1]
        assert across == pytest.approx(0.0, abs=1e-6)
        assert along == pytest.approx(0.0, abs=1e-6)


def test_crankpin_arrow_is_the_records_size() -> None:
    plain = plain_engine("wren")
    felt = pushed(plain)
    for degrees in (-300.0, 5.0, 60.0, 170.0):
        forces = forces_at(felt, plain, math.radians(degrees))
        drawing = section(plain, crank_angle=math.radians(degrees), forces=forces)
        arrow = next(a for a in drawing.arrows if a.name == "crankpin")
        assert arrow.force == pytest.approx(forces.cylinders[0].crankpin, rel=1e-6)


def test_each_cylinder_has_its_own_moment() -> None:
    plain = plain_engine("heron")
    late = firing_angles(plain)[1]
    felt = pushed(plain)
    first, second = forces_at(felt, plain, 0.3), forces_at(felt, plain, 0.3 + late)
    assert second.cylinders[1].gas == pytest.approx(first.cylinders[0].gas, rel=1e-6)


def test_the_legend_says_how_long_an_arrow_is() -> None:
    plain = plain_engine("wren")
    forces = forces_at(pushed(plain), plain, 0.3)
    drawing = section(plain, crank_angle=0.3, forces=forces)
    said = [getattr(shape, "text", "") for shape in drawing.legend]
    newtons = 10 * drawing.unit * forces.newtons_per_mm
    assert any(f"10 mm on paper is {newtons:.0f}" in text for text in said)
    names = {g.attrib.get("data-force") for g in Measured(to_svg(drawing)).root.iter()}
    assert {"gas", "inertia", "rod", "side", "crankpin"} <= names


def test_words_at_arrows_lie_on_no_others() -> None:
    for name in ("wren", "heron", "2_v_twin"):
        plain = plain_engine(name)
        felt = pushed(plain)
        for degrees in (0.0, 20.0, 90.0, 300.0):
            forces = forces_at(felt, plain, math.radians(degrees))
            drawing = section(plain, crank_angle=math.radians(degrees), forces=forces)
            boxes = []
            for _, words in arrow_words(drawing.arrows, drawing.unit):
                high = words.height * drawing.unit
                wide = width_of(words.text) * high
                left = words.at[0] - {"start": 0, "middle": 0.5, "end": 1}[words.anchor] * wide
                boxes.append((left, words.at[1], left + wide, words.at[1] + high))
            for one, other in itertools.combinations(boxes, 2):
                across = one[0] < other[2] and other[0] < one[2]
                along = one[1] < other[3] and other[1] < one[3]
                assert not (across and along)
