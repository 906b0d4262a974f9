"""Drawings of single parts as files: paper, scale under a ruler, what a drawing program reads."""

from __future__ import annotations

import io
import math
import re
from typing import Any

import ezdxf
import pypdfium2
import pytest
from tests.drawing.conftest import plain_engine
from tests.drawing.part_sheets import DEMOS, SHEETS, drawn
from tests.drawing.test_svg import HOSTILE

from firstfire.catalog import Catalog
from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.model import Drawing, Lettering
from firstfire.drawing.outlines import box_of, reach
from firstfire.drawing.pdf import to_pdf
from firstfire.drawing.svg import to_svg
from firstfire.drawing.workshop.parts import part_drawing


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(("name", "part"), [s for s in SHEETS if s[0] in DEMOS])
def test_pdf_is_of_that_paper_and_to_the_scale_it_says(name: str, part: str, paper: Any) -> None:
    drawing = drawn(name, part, paper)
    document = pypdfium2.PdfDocument(to_pdf(drawing, paper=paper))
    assert len(document) == 1
    page = document[0]
    sheet = {"A4": (595.28, 841.89), "Letter": (612.0, 792.0)}[paper]
    assert sorted(page.get_size()) == pytest.approx(sorted(sheet), abs=0.1)
    text = page.get_textpage().get_text_range()
    said = re.search(r"Scale (\d+) : (\d+)", text)
    assert said is not None
    share = int(said[1]) / int(said[2])
    # a ruler on the page: the first view is drawn as a path of just that width and height
    wide, high = (x * share * 72 / 25.4 for x in first_outline(drawing))
    paths = [o.get_bounds() for o in page.get_objects() if o.type == 2]
    assert any(
        (right - left, top - low) == pytest.approx((wide, high), abs=2.0)
        for left, low, right, top in paths
    )
    for words in ("ISO 2768-m", "Edges broken", "Ra 3.2", "Estimate", "first angle", paper):
        assert words in text


def first_outline(drawing: Drawing) -> tuple[float, float]:
    shape = next(s for s in drawing.parts[0].shapes if not isinstance(s, Lettering))
    found = box_of(reach([shape]))
    return found.width, found.height


@pytest.mark.parametrize(("name", "part"), [s for s in SHEETS if s[0] in DEMOS])
def test_dxf_opens_without_a_fault_and_measures_itself(name: str, part: str) -> None:
    drawing = drawn(name, part)
    document: Any = ezdxf.read(io.StringIO(to_dxf(drawing)))  # type: ignore[attr-defined]
    audit = document.audit()
    assert not audit.errors, [e.message for e in audit.errors]
    wanted = sorted(1e3 * d.value for d in drawing.dimensions if math.dist(*d.line) > 1e-6)
    found = sorted(d.get_measurement() for d in document.modelspace().query("DIMENSION"))
    assert found == pytest.approx(wanted, abs=1e-6)


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_any_name(name: str) -> None:
    plain = plain_engine("wren").model_copy(update={"name": name})
    drawing = part_drawing(plain, Catalog(), "pin")
    to_svg(drawing)
    to_dxf(drawing)
    to_pdf(drawing)
