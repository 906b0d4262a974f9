"""A reader's browser opens the page with no network: silent, whole, on phone, desk and paper."""

import io
import re

import pypdfium2
import pytest
from tests.report.conftest import called

from firstfire.report import report

_A4, _LETTER = (595.3, 841.9), (612.0, 792.0)
"""Points: 210 x 297 mm, ISO 216; 8.5 x 11 in, ANSI/ASME Y14.1."""


@pytest.fixture(scope="module")
def files(wren, heron_page, wren_page, tmp_path_factory):
    folder = tmp_path_factory.mktemp("pages")
    hostile = report(called(wren, "x" * 300 + "<b>\u202eמנוע🔥", story="y" * 900))
    for name, page in (("wren", wren_page), ("heron", heron_page), ("hostile", hostile)):
        folder.joinpath(f"{name}.html").write_text(page, encoding="utf-8")
    return folder


class Opened:
    """A page in a browser without network, with all it said and asked for."""

    def __init__(self, browser, file, width, **options):
        self.context = browser.new_context(
            viewport={"width": width, "height": 900}, offline=True, **options
        )
        self.page = self.context.new_page()
        self.said, self.asked = [], []
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda fault: self.said.append(str(fault)))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.goto(file.as_uri())

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.context.close()


@pytest.mark.parametrize("name", ["wren", "heron", "hostile"])
@pytest.mark.parametrize("width", [320, 390, 768, 1440])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_silent_and_no_wider_than_the_screen(browser, files, name, width, scheme):
    file = files / f"{name}.html"
    with Opened(browser, file, width, color_scheme=scheme) as opened:
        opened.page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        wide = opened.page.evaluate("document.documentElement.scrollWidth")
        outside = [url for url in opened.asked if not url.startswith(("data:", file.as_uri()))]
        assert opened.said == []
        assert outside == []
        assert wide <= width


def test_the_font_that_is_shipped_is_used(browser, files):
    with Opened(browser, files / "wren.html", 1440) as opened:
        assert opened.page.evaluate("document.fonts.check('16px firstfire')")
        loaded = opened.page.evaluate(
            "[...document.fonts].filter(f => f.status == 'loaded').length"
        )
        assert loaded == 2


def test_figures_are_as_wide_as_one_another(browser, files):
    measure = """weight => { const c = document.createElement('canvas').getContext('2d');
        c.font = weight + ' 100px firstfire';
        return [...'0123456789'].map(d => c.measureText(d).width) }"""
    with Opened(browser, files / "wren.html", 1440) as opened:
        for weight in (400, 600):
            assert len(set(opened.page.evaluate(measure, weight))) == 1


def test_night_is_dark(browser, files):
    colour = "getComputedStyle(document.documentElement).backgroundColor"
    with Opened(browser, files / "wren.html", 1440, color_scheme="dark") as opened:
        assert opened.page.evaluate(colour) == "rgb(21, 25, 27)"
    with Opened(browser, files / "wren.html", 1440, color_scheme="light") as opened:
        assert opened.page.evaluate(colour) == "rgb(251, 250, 246)"


def test_lines_open_without_scripts(browser, files):
    with Opened(browser, files / "wren.html", 390, java_script_enabled=False) as opened:
        line = opened.page.locator(".ledger details").first
        assert not line.locator(".why").is_visible()
        line.locator("summary").click()
        assert line.locator(".why").is_visible()
        assert opened.said == []


def test_lines_open_by_keyboard(browser, files):
    with Opened(browser, files / "wren.html", 1440) as opened:
        line = opened.page.locator(".ledger details").first
        line.locator("summary").focus()
        opened.page.keyboard.press("Enter")
        assert line.locator(".why").is_visible()


def test_charts_are_read_off_by_keyboard(browser, files):
    with Opened(browser, files / "wren.html", 1440) as opened:
        plate = opened.page.locator("figure", has=opened.page.locator("#pressure-1-t"))
        plate.locator("svg.chart").first.focus()
        opened.page.keyboard.press("ArrowRight")
        said = plate.locator("output").inner_text()
        assert said.startswith("0°: ")
        assert re.search("mean cycle [0-9.]+\u202fbar", said)
        opened.page.keyboard.press("Escape")
        assert plate.locator("output").inner_text() == ""


def test_a_line_lights_its_part_and_a_part_its_line(browser, files):
    with Opened(browser, files / "wren.html", 1440) as opened:
        line = opened.page.locator(".ledger details").first
        part = line.get_attribute("data-part")
        drawn = opened.page.locator(f".ff-part[data-part='{part}']").first
        line.locator("summary").hover()
        assert "lit" in drawn.get_attribute("class")
        opened.page.mouse.move(2, 2)
        assert "lit" not in drawn.get_attribute("class")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_part_leads_to_its_line(browser, files, scripts):
    with Opened(browser, files / "wren.html", 1440, java_script_enabled=scripts) as opened:
        link = opened.page.locator(".ff-drawing a").first
        target = link.get_attribute("href")
        link.focus()
        opened.page.keyboard.press("Enter")
        opened.page.wait_for_url("**" + target)
        assert opened.page.locator(target).is_visible()


@pytest.mark.parametrize("size", [("A4", _A4), ("Letter", _LETTER)], ids=["A4", "Letter"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_on_paper(browser, files, size, scheme):
    with Opened(browser, files / "heron.html", 1440, color_scheme=scheme) as opened:
        printed = opened.page.pdf(format=size[0])
    document = pypdfium2.PdfDocument(io.BytesIO(printed))
    assert 5 <= len(document) <= 60
    text = ""
    for page in document:
        assert page.get_size() == pytest.approx(size[1], abs=1.0)
        text += page.get_textpage().get_text_range()
    # The ledger stands open on paper, and so do the inputs.
    assert "Worked through" in text
    assert "cylinder.bore" in text
    # Printed by day whatever the screen: the first page is nearly all paper.
    picture = document[0].render(scale=0.5).to_numpy()
    assert picture.mean() > 200


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["wren", "heron"])
def test_one_sheet_for_the_bench(browser, files, name, size):
    """By its address alone, so without scripts too: one page, all of it for the bench."""
    file = files / f"{name}.html"
    with Opened(browser, file, 1440, java_script_enabled=False) as opened:
        opened.page.locator("#print-sheet").click()
        printed = opened.page.pdf(format=size)
    document = pypdfium2.PdfDocument(io.BytesIO(printed))
    assert len(document) == 1
    text = document[0].get_textpage().get_text_range()
    for said in ("head bolts", "gauge shows", "Not to scale", "bursts it", "1 of 1"):
        assert said in text
    assert "Worked through" not in text


_SIZES = """() => [...document.querySelectorAll('svg text')]
    .filter(t => t.getClientRects().length && t.textContent.trim())
    .map(t => { const m = t.getScreenCTM();
        const size = parseFloat(getComputedStyle(t).fontSize);
        return [size * Math.hypot(m.a, m.b), t.textContent] })"""


@pytest.mark.parametrize("name", ["wren", "heron"])
def test_no_letters_under_nine_pixels_on_a_phone(browser, files, name):
    with Opened(browser, files / f"{name}.html", 390) as opened:
        sizes = opened.page.evaluate(_SIZES)
    assert len(sizes) > 50
    assert [words for size, words in sizes if size < 9.0] == []
