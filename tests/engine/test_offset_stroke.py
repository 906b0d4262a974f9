"""A cylinder beside its crank's axis: the stroke in the file is what the piston travels."""

import math

import pytest

from firstfire.cycle.assembly import network
from firstfire.cycle.build import build_engine
from firstfire.engine.geometry import geometry, mechanism
from firstfire.engine.resolve import resolve
from firstfire.loads.masses import throw_radius
from firstfire.runs.walls import cold

OFFSET = """
[rod]
length = "66 mm"
"""


@pytest.mark.parametrize("offset", [0.0, 6e-3, -6e-3])
def test_the_stroke_said_is_the_stroke_travelled(say, offset):
    plain = resolve(say(OFFSET), {"cylinder.offset": offset})
    (size,) = geometry(plain).cylinders
    assert size.stroke == pytest.approx(40e-3, rel=1e-12)
    assert size.displacement == pytest.approx(math.pi / 4 * 44e-3**2 * 40e-3, rel=1e-12)
    record = build_engine(network(plain, cold(plain), [None]))[0]["cylinders"][0]
    assert record["stroke"] == pytest.approx(40e-3, rel=1e-12)
    assert record["displacement"] == pytest.approx(size.displacement, rel=1e-12)
    assert record["displacement"] / record["clearance_volume"] + 1 == pytest.approx(
        plain.cylinders[0].cylinder.compression_ratio, rel=1e-12
    )
    assert throw_radius(plain, 0) == mechanism(plain.cylinders[0])[0] == record["throw"]


def test_the_throw_is_less_than_half_of_it(say):
    """By plane geometry: r² = s²/4 (1 - e²/(l² - s²/4)) = 400 mm² x (1 - 36/(4356 - 400))."""
    plain = resolve(say(OFFSET), {"cylinder.offset": 6e-3})
    assert mechanism(plain.cylinders[0])[0] == pytest.approx(19.9088e-3, abs=1e-7)
