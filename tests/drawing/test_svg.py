"""SVG: well-formed, readable without seeing it, restylable, and safe with any name."""

from __future__ import annotations

import math
from xml.etree import ElementTree

import html5lib
import pytest
from tests.drawing.conftest import SVG, Measured, plain_engine

from firstfire.drawing import tokens
from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.model import Region
from firstfire.drawing.outlines import polygon
from firstfire.drawing.section import section
from firstfire.drawing.svg import number, to_svg
from firstfire.drawing.text import printable, width_of, wrapped

HOSTILE = (
    "<script>alert(1)</script>",
    "\"' onload=x & ]]> <!-- --> </svg>",
    "محرك صغير بأربعة أشواط",
    "🔥🛠️👩‍🔧 motor",
    "x" * 4000,
    "word " * 400,
    "a\x00b\x07\u202e\ud800c\nd\te",
    "",
    "   ",
    "小さな四サイクルエンジン",
    "e\u0301\u0301\u0301\u0301 z\u0336a\u0336l\u0336",
)


def named(name: str) -> str:
    plain = plain_engine("wren").model_copy(update={"name": name})
    return to_svg(section(plain))


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_any_name_is_only_text(name: str) -> None:
    svg = named(name)
    m = Measured(svg)
    usual = Measured(named("wren"))
    tags = {e.tag for e in m.root.iter()}
    assert tags == {e.tag for e in usual.root.iter()}
    assert not any(key.startswith("on") for e in m.root.iter() for key in e.attrib)
    assert (m.width) == usual.width
    assert abs(m.height - usual.height) < 12
    title = m.root.find(f"{SVG}title")
    assert title is not None
    assert (title.text or "").startswith(printable(name))
    # in a page too it stays one element
    page = html5lib.HTMLParser(strict=True).parse(f"<!DOCTYPE html><title>x</title><p>{svg}</p>")
    assert page is not None


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_a_long_name_keeps_to_its_block(name: str) -> None:
    for line in wrapped(name, 20.0, 2):
        assert width_of(line) <= 20.0
    assert len(wrapped(name, 20.0, 2)) <= 2


def test_every_part_is_named_for_who_cannot_see_it() -> None:
    for view in (section, along_crank):
        drawing = view(plain_engine("heron"), verdicts={"head-2": "fails"})
        m = Measured(to_svg(drawing))
        assert m.root.attrib["role"] == "img"
        ids = m.ids()
        assert len(ids) == len(set(ids))
        for reference in ("aria-labelledby", "aria-describedby"):
            assert m.root.attrib[reference] in ids
        for part in drawing.parts:
            group = m.part(part.id)
            assert group.attrib["id"] == part.id
            first, second, *_ = list(group)
            assert first.tag == f"{SVG}title"
            assert second.tag == f"{SVG}desc"
            assert (first.text or "").startswith(part.title)
        assert (m.part("head-2")[0].text or "") == "head of cylinder 2: fails"
        assert m.part("head-2").attrib["data-word"] == "fails"


def test_two_drawings_on_one_page_share_no_id() -> None:
    plain = plain_engine("wren")
    one = Measured(to_svg(section(plain), prefix="a-"))
    two = Measured(to_svg(along_crank(plain), prefix="b-"))
    assert not set(one.ids()) & set(two.ids())
    svg = to_svg(section(plain), prefix="a-")
    assert "url(#a-metal)" in svg
    assert "url(#metal)" not in svg


def test_colours_can_be_set_by_a_page() -> None:
    svg = to_svg(section(plain_engine("wren")))
    assert f"var(--ff-ink,{tokens.DAY['ink']})" in svg
    assert f"--ff-paper:{tokens.NIGHT['paper']}" in svg


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


@pytest.mark.parametrize("set_", [tokens.DAY, tokens.NIGHT], ids=["day", "night"])
def test_contrast_of_words_and_lines(set_: dict[str, str]) -> None:
    """WCAG 2.2: 4.5 for words (1.4.3), 3 for what has to be told apart (1.4.11)."""
    paper = luminance(set_["paper"])
    for name, least in (("ink", 4.5), ("pencil", 4.5), ("fails", 4.5), ("marginal", 4.5),
                        ("holds", 4.5), ("force", 4.5)):  # fmt: skip
        light = sorted((paper, luminance(set_[name])))
        assert (light[1] + 0.05) / (light[0] + 0.05) >= least
    for gas in ("fresh", "burned", "exhaust"):
        light = sorted((luminance(set_["ink"]), luminance(set_[gas])))
        assert (light[1] + 0.05) / (light[0] + 0.05) >= 4.5


def test_line_widths_are_the_standards() -> None:
    """ISO 128-2, line group 0.5: visible outlines 0.5, hidden, centre and thin lines 0.25."""
    assert tokens.WIDTHS["outline"] == 0.5
    assert {tokens.WIDTHS[p] for p in ("hidden", "centre", "thin")} == {0.25}
    assert tokens.WIDTHS["dimension"] == 0.18


def test_shafts_pins_bolts_rods_and_balls_are_not_hatched() -> None:
    """ISO 128-3 (practice for sections): solid round parts cut lengthways are left plain."""
    for name in ("wren", "heron", "2_v_twin"):
        across = section(plain_engine(name))
        along = along_crank(plain_engine(name))
        found = [across.part("rod-1"), along.part("shaft"), along.part("crankpin")]
        found.append(along.part("piston-pin-1"))
        if name != "heron":  # whose inserts, tubes of brass, are hatched
            found.append(across.part("fasteners-1"))
        for part in found:
            fills = {s.fill for s in part.shapes if isinstance(s, Region)}
            assert fills <= {"paper", "none"}
    inserts = section(plain_engine("heron")).part("fasteners-1")
    assert [s.fill for s in inserts.shapes if isinstance(s, Region)].count("metal left") == 1


def test_numbers_are_short_and_never_exponents() -> None:
    assert [number(v) for v in (1e-9, -1e-9, 1234.5678, -0.5, 1e6)] == [
        "0", "0", "1234.568", "-0.5", "1000000",
    ]  # fmt: skip


def test_a_section_of_the_same_engine_is_the_same_text() -> None:
    plain = plain_engine("plover")
    assert to_svg(section(plain)) == to_svg(section(plain))


def test_arcs_are_drawn_the_right_way_round() -> None:
    """A half circle over the top from right to left has its top above its ends."""
    from firstfire.drawing.outlines import flattened

    loop = ((1.0, 0.0, 1.0), (-1.0, 0.0, 0.0))
    assert max(y for _, y in flattened(loop)) == pytest.approx(1.0, abs=0.01)
    assert polygon((0, 0), (1, 0))[0] == (0, 0, 0.0)
    assert math.isclose(min(y for _, y in flattened(loop)), 0.0, abs_tol=1e-9)


def test_svg_is_parsed_without_complaint() -> None:
    ElementTree.fromstring(to_svg(section(plain_engine("2_v_twin")), size=False))
