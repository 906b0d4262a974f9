"""How to set it: this engine's own numbers, worked by hand, and its cautions at their place."""

from __future__ import annotations

import math

import pytest
from tests.drawing.conftest import FILES, plain_engine
from tests.setup.test_timing import engine

import firstfire as ff
from firstfire.engine.geometry import mechanism
from firstfire.setup.timing.steps import steps, stops
from firstfire.setup.timing.text import steps_text


def said(name: str, **tried: str) -> dict[str, str]:
    found = steps(ff.timing(engine(name, **tried)))
    return {step.title: " ".join((*step.do, step.caution)) for step in found}


def test_a_stop_for_wren_by_hand() -> None:
    # A fifth of 36 mm is 7 mm. s = 84 - 7 = 77 = 18 cos a + sqrt(66² - (18 sin a)²):
    # cos a = (77² + 18² - 66²) / (2 * 77 * 18) = 0.68434, a = 46.82°.
    text = said("wren")["Find true top centre of cylinder 1"]
    assert "about 7 mm below its top: about 46.8° either side" in text
    # Put on 4° out: 4 - 46.8 and 4 + 46.8; half of both is 4.
    assert "If it reads 317.2° and 50.8°, top is at 4°" in text


def test_an_offset_bore_is_not_halved() -> None:
    plain = plain_engine("wren", cylinder__offset="6 mm")
    before, after = stops(plain.cylinders[0], 7e-3)
    assert abs(before - after) > math.radians(0.5)
    text = said("wren", cylinder__offset="6 mm")["Find true top centre of cylinder 1"]
    assert "The bore is offset" in text
    assert "the halfway mark" in text
    # Both stop the piston at the same height: by plane geometry, the pin 7 mm below its top.
    r, rod, off = (1e3 * one for one in mechanism(plain.cylinders[0]))
    top = math.asin(off / (rod + r))
    high = math.sqrt((rod + r) ** 2 - off**2)
    for angle in (top - before, top + after):
        pin = r * math.cos(angle) + math.sqrt(rod**2 - (r * math.sin(angle) - off) ** 2)
        assert high - pin == pytest.approx(7.0, abs=1e-6)


def test_proof_spark_and_direction_have_this_engines_numbers() -> None:
    wren = said("wren")
    assert "inlet 0.03, exhaust 0.02 mm" in wren["Prove it by valve lift at the overlap top"]
    # 5° of a rim of 110 mm: 4.8 mm; 20°: 19.2 mm.
    assert "5° before top, 4.8 mm on the rim" in wren["Set the spark"]
    assert "20° before top, 19.2 mm on the rim" in wren["Set the spark"]
    assert "45° before bottom" in wren["Check the direction of rotation"]
    assert "as this engine runs" in wren["Check the direction of rotation"]
    other = said("wren", layout__rotation="anticlockwise")["Check the direction of rotation"]
    assert "runs anticlockwise" in other
    assert "set it to reverse" in other
    plover = said("plover")
    assert "The inlet has no lash" in plover["Set the lash"]
    assert (
        "a tooth late 30° after overlap top" in plover["Prove it by valve lift at the overlap top"]
    )
    heron = said("heron")
    assert "points just part" in heron["Set the spark"]
    assert "camshaft of its own" in heron["Time the cam by the mark"]


def test_what_it_offers_to_type_is_understood_and_is_a_tooth() -> None:
    for name in ("wren", "heron", "plover"):
        text = said(name)["What a reading says when it is off"]
        typed = text.split('--measured "')[1].split('"')[0]
        found = ff.misset(engine(name), [typed])
        assert found.found.fault.teeth == 1


@pytest.mark.parametrize("name", sorted(FILES))
def test_cautions_stand_where_hands_go_and_lines_fit(name: str) -> None:
    found = ff.timing(engine(name))
    text = steps_text(found)
    assert max(map(len, text.splitlines())) <= 80
    for word in ("plug out", "coil", "by hand", "shield", "eyes", "estimate", "Local codes"):
        assert word.lower() in " ".join(text.split()).lower()
