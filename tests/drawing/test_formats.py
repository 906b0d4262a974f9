"""Drawings for a desk, a phone and half a sheet: readable, true of scale, still while turning."""

from __future__ import annotations

import itertools
import math

import pytest
from tests.drawing.conftest import FILES, ROOT, Measured, plain_engine

from firstfire.drawing.format import A4, DESK, NARROW, Format
from firstfire.drawing.model import Disc, Drawing, Lettering, Region
from firstfire.drawing.outlines import flattened
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.engine.read import read
from firstfire.engine.resolve import resolve

_PHONE, _MARGIN = 390.0, 16.0
_POINT = 25.4 / 72
WORST = {"head-1": "fails", "crankpin": "marginal", "rod-1": "holds"}


def words_of(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.legend if isinstance(shape, Lettering)]


def smallest(drawing: Drawing) -> float:
    """Size of the smallest letters, mm of the engine."""
    texts = Measured(to_svg(drawing)).root.iter("{http://www.w3.org/2000/svg}text")
    return min(float(text.attrib["font-size"]) for text in texts)


@pytest.mark.parametrize("name", sorted(FILES))
def test_letters_on_a_phone_and_on_half_a_sheet(name: str) -> None:
    drawing = section(plain_engine(name), fitted=NARROW, verdicts=WORST, first="head-1")
    on_phone = smallest(drawing) * (_PHONE - 2 * _MARGIN) / drawing.box.width
    assert on_phone >= 9.0  # px
    on_paper = smallest(drawing) * NARROW.wide / drawing.box.width / _POINT
    assert on_paper >= 6.0  # pt


@pytest.mark.parametrize("name", sorted(FILES))
@pytest.mark.parametrize("fitted", [A4, DESK, NARROW], ids=["A4", "desk", "narrow"])
def test_one_scale_at_every_angle(name: str, fitted: Format) -> None:
    plain = plain_engine(name)
    drawn = [section(plain, crank_angle=math.radians(a), fitted=fitted) for a in range(0, 720, 60)]
    assert len({drawing.unit for drawing in drawn}) == 1


def test_a_scale_is_said_only_where_a_ruler_finds_it() -> None:
    plain = plain_engine("wren")
    assert any(words.startswith("Scale 1 : 1") for words in words_of(section(plain)))
    for fitted in (DESK, NARROW):
        said = words_of(section(plain, fitted=fitted))
        assert any(words.startswith("Not to scale") for words in said)
        assert not any(words.startswith("Scale") for words in said)


@pytest.mark.parametrize("name", sorted(FILES))
def test_every_number_of_a_narrow_drawing_is_explained(name: str) -> None:
    drawing = section(plain_engine(name), fitted=NARROW)
    said = words_of(drawing)
    whole = section(plain_engine(name))
    for number in range(1, len(drawing.labels) + 1):
        assert drawing.labels[number - 1].dimension.text == str(number)
        assert str(number) in said
    for label in whole.labels:
        assert label.words in said


@pytest.mark.parametrize("name", sorted(FILES))
def test_one_cam_shaft_a_head(name: str) -> None:
    """Hatched discs of the cam: one shaft for each head, where crank to cam is measured."""
    plain = plain_engine(name)
    shafts = [
        shape
        for shape in section(plain).part("cam").shapes
        if isinstance(shape, Disc) and shape.fill == "metal" and shape.radius > 1.5
    ]
    assert len(shafts) == len(plain.cylinders)
    places = [shaft.centre for shaft in shafts]
    assert all(math.dist(a, b) > 10.0 for a, b in itertools.combinations(places, 2))


@pytest.mark.parametrize("name", sorted(FILES))
def test_no_screw_is_drawn_through_a_pipe(name: str) -> None:
    """A pipe lies over the screws that are turned into its plane, or clear of them."""
    order = [part.id for part in section(plain_engine(name)).parts]
    for pipe in ("intake", "exhaust"):
        assert order.index(pipe) > order.index("fasteners-1")


def test_the_carburettor_sits_on_its_runner() -> None:
    """Metal of the metering body begins where the runner's walls end."""
    shapes = [
        s for s in section(plain_engine("wren")).part("intake").shapes if isinstance(s, Region)
    ]
    across = {"solid": [], "metal": []}
    for shape in shapes:
        if shape.fill in across:
            across[shape.fill] += [x for loop in shape.loops for x, _ in flattened(loop)]
    # the inlet leaves to the left
    assert max(across["metal"]) == pytest.approx(min(across["solid"]), abs=1e-6)


def test_what_gives_way_first_stands_out_without_colour() -> None:
    drawing = section(plain_engine("heron"), verdicts={"joint": "fails"}, first="joint")
    part = Measured(to_svg(drawing)).part("joint")
    assert "ff-first" in part.attrib["class"]
    assert any("Drawn heavy, as it gives way first: crank joint" in w for w in words_of(drawing))


def test_two_drawings_on_a_page_keep_their_own_line_widths() -> None:
    plain = plain_engine("heron")
    desk = to_svg(section(plain, fitted=DESK), prefix="a-")
    narrow = to_svg(section(plain, fitted=NARROW), prefix="b-")
    assert ".ff-of-a-" in desk
    assert ".ff-of-a-" not in narrow


def test_valves_beside_the_bore_are_said_to_be_drawn_elsewhere() -> None:
    plain = resolve(read(ROOT / "tests" / "field" / "side_valve_145.toml"))
    said = [any("beside the bore" in words for words in words_of(section(p)))
            for p in (plain, plain_engine("wren"))]  # fmt: skip
    assert said == [True, False]
