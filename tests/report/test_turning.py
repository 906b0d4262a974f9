"""The crank turned in a reader's browser: parts stand where the drawing at that angle has them."""

import math
import re
from base64 import b64encode
from hashlib import sha256

import pytest
from tests.drawing.conftest import plain_engine
from tests.report.test_browser import Opened

from firstfire.drawing.format import DESK
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.report.page import environment
from firstfire.report.style import script
from firstfire.report.turning import turning

_CROWN = "document.querySelector('[data-part=piston-crown-1]').getBoundingClientRect().top"
_SHIFT = "document.querySelector('svg').getBoundingClientRect().top"


def _page(angle, moves=""):
    svg = to_svg(section(plain_engine("wren"), crank_angle=angle, fitted=DESK), prefix="part-",
                 size=False)  # fmt: skip
    template = environment().loader.get_source(environment(), "page.html.j2")[0]
    control = re.search(r'<p class="turning".*?</p>', template, re.DOTALL)[0]
    signed = f"sha256-{b64encode(sha256(script().encode()).digest()).decode()}"
    return (
        '<!doctype html><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" '
        f"content=\"default-src 'none'; style-src 'unsafe-inline'; script-src '{signed}'\">"
        f'<div class="for-desk" style="width:900px">{svg}</div>{control}'
        f'<script type="application/json" data-turns="for-desk">{moves}</script>'
        f"<script>{script()}</script>"
    )


@pytest.fixture(scope="module")
def turned(tmp_path_factory):
    file = tmp_path_factory.mktemp("turned") / "page.html"
    plain = plain_engine("wren")
    moves = turning(lambda angle: section(plain, crank_angle=angle, fitted=DESK), "part-")
    file.write_text(_page(math.radians(30), moves), encoding="utf-8")
    return file


@pytest.mark.parametrize("degrees", [90, 360, -150])
def test_the_piston_stands_where_the_drawing_at_that_angle_has_it(
    browser, turned, tmp_path, degrees
):  # fmt: skip
    still = tmp_path / "still.html"
    still.write_text(_page(math.radians(degrees)), encoding="utf-8")
    with Opened(browser, turned, 1000) as opened:
        page = opened.page
        rest = page.evaluate(f"{_CROWN} - {_SHIFT}")
        page.evaluate(
            "v => { const s = document.getElementById('crank-angle'); s.value = v;"
            "s.dispatchEvent(new Event('input')) }", degrees
        )  # fmt: skip
        got = page.evaluate(f"{_CROWN} - {_SHIFT}")
        said = page.get_attribute("#crank-angle", "aria-valuetext")
        assert opened.said == []
    with Opened(browser, still, 1000) as opened:
        asked = opened.page.evaluate(f"{_CROWN} - {_SHIFT}")
    assert got == pytest.approx(asked, abs=0.5)
    assert abs(got - rest) > 2
    assert said == f"{abs(degrees)}° {'before' if degrees < 0 else 'after'} firing top centre"


def test_without_scripts_the_drawing_is_whole_and_no_control_is_seen(browser, turned):
    with Opened(browser, turned, 1000, java_script_enabled=False) as opened:
        assert opened.page.locator("[data-part=piston-crown-1]").is_visible()
        assert not opened.page.locator("#crank-angle").is_visible()


def test_nothing_runs_by_itself_where_motion_is_not_wanted(browser, turned):
    with Opened(browser, turned, 1000, reduced_motion="reduce") as opened:
        assert opened.page.locator("#crank-angle").is_visible()
        assert not opened.page.locator("#turn-on").is_visible()
