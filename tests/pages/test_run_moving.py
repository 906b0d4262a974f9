"""*Will it run* in a real browser: arrows at the joints, and a start that moves and is heard.

The start is made up: its way in time is what a page is told of one, whatever engine it is of.
"""

import math
import re

import pytest
from tests.pages.test_run_page import TURN, at, opened


def arrow(tab, name):
    """A named arrow of the mechanism: tail and head on its sheet; None where none is drawn."""
    return tab.page.evaluate(
        """name => { const words = [...document.querySelectorAll('#mechanism .m-forces text')]
        .find(t => t.textContent === name); const path = words?.previousElementSibling;
        if (!path || path.style.display === 'none') return null;
        return path.getAttribute('d').match(/-?[\\d.]+/g).slice(0, 4).map(Number); }""",
        name,
    )


def test_arrows_at_the_joints_follow_the_crank_to_scale(browser, lasting):
    """Tails stand on pin and crankpin; a length is the force that the words and the curve say."""
    with opened(browser, lasting) as tab:
        for angle in (10, 40, -15):
            at(tab, angle)
            x, y, to, down = arrow(tab, "piston pin")
            where = tab.page.evaluate(f"ff.places(ff.cylinder(), {angle})")
            assert (x, -y) == (pytest.approx(where["pin"][0]), pytest.approx(where["pin"][1]))
            assert down > y  # y grows downwards: it presses the rod
            cx, cy, *_ = arrow(tab, "crankpin")
            assert (cx, -cy) == tuple(pytest.approx(v) for v in where["crankpin"])
            said = tab.page.locator("#joint-words").inner_text()
            force = float(re.search(r"piston pin ([\d.]+)\u202fkN", said)[1])
            rule = tab.page.locator("#mechanism path.m-rule").get_attribute("d")
            scale = float(re.search(r"h([\d.]+)", rule)[1])  # of 1 kN
            assert tab.page.locator("#mechanism text.m-rule").text_content() == "1\u202fkN"
            assert math.hypot(to - x, down - y) / scale == pytest.approx(force, rel=0.01)
            curve = tab.page.locator("[data-chart=joint-forces-1] output").inner_text()
            told = float(re.search(r"in the rod ([\d.]+)\u202fkN", curve)[1])
            assert told == pytest.approx(force, rel=0.02)
        at(tab, -270)
        assert arrow(tab, "piston pin") is None  # too small to be seen, and said in words
        assert "\u202fN" in tab.page.locator("#joint-words").inner_text()


def test_a_curve_of_the_joints_turns_crank_and_arrows_and_they_can_be_put_away(browser, lasting):
    with opened(browser, lasting) as tab:
        at(tab, -200)
        curve = tab.page.locator("[data-chart=joint-forces-1] svg")
        curve.focus()
        for _ in range(21):
            tab.page.keyboard.press("Shift+ArrowRight")
        assert tab.page.locator(TURN).input_value() == "10"
        assert arrow(tab, "piston pin") is not None
        layer = tab.page.locator("#mechanism .m-forces")
        assert layer.is_visible()
        tab.page.locator("#forces").press(" ")
        assert layer.is_hidden()


STORY = {
    "time": [0.0, 0.5, 1.0], "angle": [-300.0, 90.0, 450.0], "rpm": [100.0, 130.0, 120.0],
    "pressure": [[1.0, 9.0, 1.0]], "burns": [[0, 0.4]], "misses": [],
    "told": [[0.0, "starter on"], [0.4, "it lights"]],
}  # fmt: skip
QUIET = {"samples": "AAAA" * 8820, "rate": 22050.0, "from": 0.0, "words": "Computed, quietly."}
CRANK = "#story-mechanism svg > g > g > g:has(> circle)"


def story_told(tab):
    tab.page.evaluate("story => ff.take({story})", STORY)
    tab.page.locator("#story-mechanism svg").wait_for()


def turned_to(tab):
    """Degrees that the crank of the start's mechanism is drawn at."""
    said = tab.page.locator(CRANK).first.get_attribute("transform")
    return -float(re.search(r"rotate\((.*)\)", said)[1])


def test_the_starts_mechanism_turns_by_its_own_angle(browser, lasting):
    with opened(browser, lasting) as tab:
        story_told(tab)
        for slider, angle, bar in ((0, -300, "1"), (500, 90, "9"), (750, 270, "5")):
            tab.page.locator("#story-time").fill(str(slider))
            assert (turned_to(tab) - angle) % 360 == pytest.approx(0, abs=1e-6)
            gas = tab.page.locator("#story-gas").inner_text()
            assert f", {bar}\u202fbar" in gas
        assert gas.startswith("270° after firing top: lets out")
        tab.page.locator("#story-time").fill("500")
        assert "burned gas drives it" in tab.page.locator("#story-gas").inner_text()
        tab.page.locator("#story-time").fill("0")
        tab.page.locator("#story-play").click()
        tab.until("Number(document.querySelector('#story-time').value) > 5")
        tab.page.locator("#story-play").click()
        seconds = float(tab.page.locator("#story-at").inner_text().split("\u202f")[0])
        assert (turned_to(tab) + 300 - 780 * seconds) % 360 == pytest.approx(0, abs=8) or (
            360 - (turned_to(tab) + 300 - 780 * seconds) % 360 < 8
        )


def test_a_start_is_heard_only_when_asked_for_and_moves_along(browser, lasting):
    with opened(browser, lasting) as tab:
        story_told(tab)
        tab.page.evaluate("sound => ff.take({start_sound: sound})", QUIET)
        assert tab.page.evaluate("ff.audio === undefined")  # it came, and nobody has asked
        tab.page.locator("#story-hear").click()
        tab.until("Number(document.querySelector('#story-time').value) > 100")
        assert tab.page.evaluate("ff.heardStart") == pytest.approx(0.6, abs=0.01)
        assert tab.page.locator("#story-heard").inner_text() == "Computed, quietly."
        tab.page.locator("#story-hush").wait_for(state="hidden")  # it ends by itself
        tab.page.locator("#story-hear").click()
        tab.page.locator("#story-hush").click()
        held = tab.page.locator("#story-time").input_value()
        tab.page.wait_for_timeout(150)
        assert tab.page.locator("#story-time").input_value() == held
        assert (tab.said, tab.outside()) == ([], [])


def test_where_less_motion_is_asked_for_a_start_is_heard_and_stands(browser, lasting):
    with opened(browser, lasting, reduced_motion="reduce") as tab:
        story_told(tab)
        tab.page.evaluate("sound => ff.take({start_sound: sound})", QUIET)
        assert tab.page.locator("#story-play").is_hidden()
        tab.page.locator("#story-hear").click()
        tab.page.locator("#story-hush").wait_for()
        assert "less motion" in tab.page.locator("#story-heard").inner_text()
        tab.page.locator("#story-hush").wait_for(state="hidden")
        assert tab.page.locator("#story-time").input_value() == "0"
