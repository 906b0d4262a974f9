"""A bigger O-ring in the same groove: tighter, harder to push, sooner rolled; or refused."""

import math
from itertools import pairwise

import pytest
from tests.parts.moments import engine, moment

import firstfire as ff
from firstfire.cycle.rubbing import rubbing
from firstfire.engine.geometry import geometry
from firstfire.engine.read import with_values
from firstfire.errors import EngineFileError
from firstfire.parts.all import ways
from firstfire.runs.moments import temperatures

GROOVE = {"rings.groove_depth": "2.238 mm", "rings.groove_width": "3.668 mm"}
SECTIONS = ("2.45 mm", "2.55 mm", "2.62 mm", "2.8 mm", "3 mm", "3.2 mm")


def in_the_same_groove(section):
    return with_values(engine("engines/wren.toml"), {**GROOVE, "rings.section": section})


@pytest.fixture(scope="module")
def bigger():
    return [in_the_same_groove(section) for section in SECTIONS]


def rises(numbers):
    return all(b > a for a, b in pairwise(numbers))


def test_it_is_squeezed_more_and_leaks_less(bigger):
    plains = [ff.resolve(one) for one in bigger]
    squeezes = [geometry(plain).cylinders[0].ring_squeeze for plain in plains]
    leaks = [plain.cylinders[0].leak.ring for plain in plains]
    assert rises(squeezes)
    assert rises([-leak for leak in leaks])
    assert leaks[0] > 10 * leaks[1]  # at 3 % of squeeze it no longer touches all round


def test_it_rubs_harder(bigger):
    assert rises([rubbing(ff.resolve(one), 0).line_level for one in bigger])


def test_it_outlives_its_squeeze_longer_but_rolls_and_fills_sooner(bigger):
    found = [{way.id: way.factor for way in ways(moment(one))} for one in bigger]
    assert rises([one["ring.leak"] for one in found])
    assert rises([-one["ring.roll"] for one in found])
    assert rises([-one["ring.fill"] for one in found])


def test_it_rubs_itself_warmer():
    """Ten seconds held at full throttle: the same gas, more drag."""
    warmth, drag = [], []
    for section in ("2.62 mm", "3 mm"):
        engine_ = in_the_same_groove(section)
        full = ff.run(engine_, "full_throttle", speeds=[3000 * math.pi / 30], drawn=1)
        bout = full.bouts[0]
        warmth.append(temperatures(bout, 0, 10.0).parts["ring"].surface)
        drag.append(bout.point.friction.by_contact["rings"])
    assert drag[1] > 1.3 * drag[0]
    assert warmth[1] > warmth[0] + 0.1


@pytest.mark.parametrize(
    ("section", "words"),
    [
        ("2.3 mm", "wouldn't touch the bore"),
        ("3.65 mm", "it squeezes a section of 3.65 mm by 35%"),
        ("3.7 mm", "narrower than the O-ring's section"),
    ],
)
def test_what_the_groove_cannot_take_is_refused(section, words):
    with pytest.raises(EngineFileError, match=words):
        in_the_same_groove(section)
