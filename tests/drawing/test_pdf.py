"""PDF, opened by another library: one page of the size asked for, to scale, its words in it."""

from __future__ import annotations

import ctypes
import math
from typing import Any

import pypdfium2
import pytest
from tests.drawing.conftest import plain_engine
from tests.drawing.test_svg import HOSTILE

from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.pdf import to_pdf
from firstfire.drawing.section import section

A4 = (595.28, 841.89)  # ISO 216: 210 × 297 mm in points of 1/72 inch
LETTER = (612.0, 792.0)  # 8.5 × 11 in


def page(data: bytes) -> Any:
    document = pypdfium2.PdfDocument(data)
    assert len(document) == 1
    return document[0]


@pytest.mark.parametrize("view", [section, along_crank], ids=["across", "along"])
@pytest.mark.parametrize(("paper", "size"), [("A4", A4), ("Letter", LETTER)])
def test_one_page_of_that_size(engine_name: str, view: Any, paper: Any, size: Any) -> None:
    got = page(to_pdf(view(plain_engine(engine_name)), paper=paper)).get_size()
    assert sorted(got) == pytest.approx(sorted(size), abs=0.1)


def test_to_scale_on_paper() -> None:
    """The flywheel's rim is the outermost circle: its width on the page, in millimetres."""
    plain = plain_engine("wren")
    drawing = section(plain)
    picture = page(to_pdf(drawing)).render(scale=4).to_pil().convert("L")
    wide, high = picture.size
    per_mm = 4 * 72 / 25.4
    # the page's middle is the sheet's middle
    axis = drawing.points["crank-1"]
    x = wide / 2 + (axis[0] - (drawing.box.left + drawing.box.right) / 2) / drawing.unit * per_mm
    y = high / 2 - (axis[1] - (drawing.box.bottom + drawing.box.top) / 2) / drawing.unit * per_mm
    radius = 500 * plain.flywheel.diameter / drawing.unit * per_mm
    dark = 0
    for degrees in range(200, 340, 2):
        a = math.radians(degrees)
        rim = []
        for r in (radius - 1, radius, radius + 1):
            spot = round(x + r * math.cos(a)), round(y - r * math.sin(a))
            rim.append(picture.getpixel(spot))
        dark += min(rim) < 180
    assert dark > 40  # a chain line is mostly there
    assert f"Scale 1 : {drawing.unit:g}" in page(to_pdf(drawing)).get_textpage().get_text_range()


def test_a_page_that_is_too_small_says_its_own_scale() -> None:
    drawing = section(plain_engine("2_v_twin"))
    for paper in ("A4", "Letter"):
        text = page(to_pdf(drawing, paper=paper)).get_textpage().get_text_range()  # type: ignore[arg-type]
        assert text.count("Scale 1 : ") == 1


def test_every_number_is_on_the_page() -> None:
    drawing = along_crank(plain_engine("plover"))
    text = page(to_pdf(drawing)).get_textpage().get_text_range()
    squeezed = "".join(text.split())
    for dimension in drawing.dimensions:
        assert "".join(f"{dimension.label}{dimension.text}".split()) in squeezed


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_any_name(name: str) -> None:
    plain = plain_engine("wren").model_copy(update={"name": name})
    page(to_pdf(section(plain))).render(scale=0.3)


def test_the_same_drawing_is_the_same_bytes() -> None:
    drawing = section(plain_engine("heron"))
    assert to_pdf(drawing) == to_pdf(drawing)


def test_what_gives_way_first_is_drawn_heavy_as_in_the_svg() -> None:
    def heavy(first: str) -> int:
        drawn = page(to_pdf(section(plain_engine("wren"), first=first)))
        return sum(_width(found) == pytest.approx(1.2 * 72 / 25.4, rel=0.01)
                   for found in drawn.get_objects())  # fmt: skip

    assert heavy("") == 0
    assert heavy("head-1") > 0
    assert heavy("piston-crown-1") > 0  # a region without a pen of its own


def _width(found: Any) -> float:
    width = ctypes.c_float()
    pypdfium2.raw.FPDFPageObj_GetStrokeWidth(found.raw, ctypes.byref(width))
    return width.value
