"""*Will it run* in a real browser: one slider turns mechanism and curves; a start is told."""

import math
import os
import signal

import pytest
from tests.pages.served import Served, Tab
from tests.pages.test_accessible import grave

_LONG = 240_000
TURN = "#turn"


def opened(browser, served, width=1440, **options):
    """A tab whose first cycle stands; the whole check behind is stopped."""
    tab = Tab(browser, served, "/run", width, **options)
    tab.page.wait_for_selector(".cycle-chart svg.chart", timeout=_LONG)
    tab.page.evaluate("ff.send('stop')")
    return tab


def at(tab, angle):
    tab.page.locator(TURN).fill(str(angle))


@pytest.mark.parametrize(("width", "scheme"), [(390, "dark"), (1440, "light")])
def test_it_opens_silently_and_has_nothing_grave(browser, lasting, width, scheme):
    with opened(browser, lasting, width, color_scheme=scheme, reduced_motion="reduce") as tab:
        tab.page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert grave(tab) == []
        assert (tab.said, tab.outside()) == ([], [])
        assert tab.page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_drawn_piston_and_rod_stand_where_the_crank_puts_them(browser, lasting):
    """Pin and crankpin are a rod's length apart, the crankpin a throw from the crank's axis."""
    with opened(browser, lasting) as tab:
        for angle in (-270, -33, 0, 90, 180):
            found = tab.page.evaluate(f"ff.places(ff.cylinder(), {angle})")
            c = tab.page.evaluate("(({throw: t, rod}) => ({t, rod}))(ff.cylinder())")
            (px, py), (cx, cy) = found["pin"], found["crankpin"]
            assert math.hypot(px - cx, py - cy) == pytest.approx(c["rod"], rel=1e-9)
            assert math.hypot(cx, cy) == pytest.approx(c["t"], rel=1e-9)
            assert cx == pytest.approx(c["t"] * math.sin(math.radians(angle)), abs=1e-9)
        at(tab, 90)
        moved = "document.querySelector('#mechanism .m-piston').getCTM().f"
        low = tab.page.evaluate(moved)
        at(tab, 0)
        assert tab.page.evaluate(moved) < low  # on the screen a higher piston has a smaller y


def test_the_slider_moves_all_cursors_and_a_curve_moves_the_slider(browser, lasting):
    with opened(browser, lasting) as tab:
        at(tab, 20)
        said = tab.page.locator("[data-chart=pressure-1] output").inner_text()
        assert said.startswith("20° after firing top: ")
        assert "20° after" in tab.page.locator("[data-chart=loop] output").inner_text()
        assert "It burns" in tab.page.locator("#gas-words").inner_text().capitalize()
        pressed = tab.page.locator("[data-chart=torque] svg")
        box = pressed.bounding_box()
        pressed.click(position={"x": box["width"] / 2, "y": box["height"] / 2})
        turned = int(tab.page.locator(TURN).input_value())
        # The middle of an axis from 0 to 720 is the other top.
        assert abs(turned) > 330
        assert f"{abs(turned)}°" in tab.page.locator("[data-chart=pressure-1] output").inner_text()


def test_a_point_of_the_loop_is_a_crank_angle(browser, lasting):
    with opened(browser, lasting) as tab:
        at(tab, 40)
        dot = tab.page.locator("[data-chart=loop] circle.cursor").bounding_box()
        at(tab, -200)
        tab.page.mouse.click(dot["x"] + dot["width"] / 2, dot["y"] + dot["height"] / 2)
        assert abs(int(tab.page.locator(TURN).input_value()) - 40) <= 3


def test_by_keyboard_alone(browser, lasting):
    with opened(browser, lasting, reduced_motion="reduce") as tab:
        tab.page.locator(TURN).focus()
        tab.page.keyboard.press("Home")
        tab.page.keyboard.press("ArrowRight")
        assert tab.page.locator(TURN).input_value() == "-359"
        said = tab.page.locator(TURN).get_attribute("aria-valuetext")
        assert said.startswith("359° before firing top. ")
        assert "bar" in said
        tab.page.locator("[data-chart=valve-flow-1] svg").focus()
        tab.page.keyboard.press("Shift+ArrowRight")
        assert tab.page.locator(TURN).input_value() == "-349"
        assert tab.page.locator("#play").is_hidden()  # motion is to be reduced
        tab.page.locator('[data-turn="15"]').press("Enter")
        assert tab.page.locator(TURN).input_value() == "15"


def test_a_chart_under_the_keys_keeps_them_when_its_answer_comes_anew(browser, lasting):
    with opened(browser, lasting) as tab:
        tab.page.locator("[data-chart=torque] svg").focus()
        tab.page.evaluate(
            "ff.take({put: {cycle: document.querySelector('[data-slot=cycle]').innerHTML}})"
        )
        assert tab.page.evaluate(
            "document.activeElement.closest('.cycle-chart')?.dataset.chart === 'torque'"
        )


def test_it_runs_when_asked_and_holds_when_asked(browser, lasting):
    with opened(browser, lasting) as tab:
        at(tab, -300)
        tab.page.locator("#play").click()
        tab.until("Number(document.querySelector('#turn').value) > -290")
        tab.page.locator("#play").click()
        assert tab.page.locator("#play").get_attribute("aria-pressed") == "false"
        held = tab.page.locator(TURN).input_value()
        tab.page.wait_for_timeout(200)
        assert tab.page.locator(TURN).input_value() == held


def test_another_event_has_another_cycle(browser, lasting):
    with opened(browser, lasting) as tab:
        burned = "[data-chart=gas-temperature-1] polyline[data-name=burned]"
        assert tab.page.locator(burned).count() == 1
        tab.page.locator("#run-event").select_option("cranking")
        tab.until(f"!document.querySelector('{burned}')")
        at(tab, 15)
        assert "unburned" in tab.page.locator("#gas-words").inner_text()
        tab.page.locator("#run-event").select_option("full_throttle@0")
        tab.until(f"document.querySelector('{burned}')")


def test_a_speed_that_is_chosen_is_run(browser, lasting):
    with opened(browser, lasting) as tab:
        before = tab.page.locator("[data-chart=torque] .caption").inner_text()
        assert "at 2000" in before
        tab.page.locator("#run-speed").fill("2750")
        tab.page.locator("#run-speed").press("Tab")
        caption = "document.querySelector('[data-chart=torque] .caption').textContent"
        tab.until(f"{caption}.includes('at 2750')")
        assert tab.page.locator("#run-event").input_value() == "full_throttle@2750rpm"
        tab.page.locator("#run-event").select_option("full_throttle@0")
        tab.until(f"{caption}.includes('at 2000')")
        assert tab.page.locator("#run-speed").input_value() == ""


SPEEDS = """<figure><svg class="chart" role="img" aria-label="Power" viewBox="0 0 300 200"
width="300" height="200" data-x="0 3000 30 290 0" data-y="0 500 180 10 0" data-ux="rpm" data-uy="W">
<polyline data-name="power" points="30,180 290,10"/></svg><figcaption><output></output>
</figcaption></figure>"""


def test_the_speed_that_is_run_stands_in_power_by_speed_and_a_press_runs_another(browser, lasting):
    with opened(browser, lasting) as tab:
        tab.page.evaluate("html => ff.take({put: {speeds: html}})", SPEEDS)
        line = tab.page.locator("[data-slot=speeds] line.cursor")
        assert float(line.get_attribute("x1")) == pytest.approx(30 + 260 * 2000 / 3000)
        said = tab.page.locator("[data-slot=speeds] output")
        assert said.inner_text().startswith("run at 2000\u202frpm: power ")
        chart = tab.page.locator("[data-slot=speeds] svg")
        box = chart.bounding_box()
        chart.click(position={"x": box["width"] * 160 / 300, "y": box["height"] / 2})
        tab.until("document.querySelector('#run-speed').value === '1500'")
        tab.until("document.querySelector('[data-slot=speeds] output').textContent"
                  ".startsWith('run at 1500')")  # fmt: skip
        tab.page.locator("#run-event").select_option("full_throttle@0")
        tab.until("document.querySelector('#run-speed').value === ''")


def test_a_sound_is_computed_when_asked_for_and_called_so(browser, lasting):
    with opened(browser, lasting) as tab:
        assert tab.page.evaluate("ff.audio === undefined")
        tab.page.locator("#hear").click()
        tab.until("document.querySelector('#hear-words').textContent.startsWith('Computed, of')")
        assert tab.page.evaluate("ff.heard") > 0.5
        tab.page.locator("#hush").click()
        assert tab.page.locator("#hush").is_hidden()
        assert (tab.said, tab.outside()) == ([], [])


def test_what_is_wrong_with_a_start_stands_at_its_field(browser, lasting):
    with opened(browser, lasting) as tab:
        tab.page.locator("#start-spark").fill("soon")
        tab.page.locator("#start-faults > summary").click()
        tab.page.locator("#fault-spark-early").check()
        tab.page.locator("#start-go").click()
        wrong = tab.page.locator("[data-wrong=spark]")
        wrong.wait_for(timeout=_LONG)
        assert tab.page.locator("#start-spark").get_attribute("aria-invalid") == "true"
        assert tab.page.locator("#start-progress").is_hidden()
        tab.page.locator("#start-spark").fill("")
        tab.page.locator('[data-size="spark_early"]').fill("900 deg")
        tab.page.locator("#start-go").click()
        tab.page.locator('[data-wrong="fault.spark_early"]').wait_for(timeout=_LONG)
        assert wrong.is_hidden()
        assert tab.said == []


def children_of(pid):
    """Processes below one, as the kernel tells them."""
    with open(f"/proc/{pid}/task/{pid}/children") as told:
        return [int(one) for one in told.read().split()]


def starting(served):
    """The server's process that tells a start; None where there is none."""
    for found in children_of(served.process.pid):
        with open(f"/proc/{found}/cmdline") as told:
            if "start_worker" in told.read():
                return found
    return None


def test_a_change_drops_the_start_of_the_engine_before(browser, folder):
    with Served(folder, "wren.toml") as served, opened(browser, served) as tab:
        tab.page.locator("#start-go").click()
        tab.page.locator("#start-progress").wait_for()
        assert starting(served) is not None
        tab.page.evaluate("ff.send('set', {path: 'cylinder.bore', said: '41 mm'})")
        tab.page.locator("#start-progress").wait_for(state="hidden")
        assert starting(served) is None
        tab.page.locator("#start-go").click()
        tab.page.locator("#start-progress").wait_for()
        begun = starting(served)
        served.end(signal.SIGKILL)
        for _ in range(300):  # who asked is gone: so is what works for it
            if not os.path.exists(f"/proc/{begun}"):
                break
            tab.page.wait_for_timeout(100)
        assert not os.path.exists(f"/proc/{begun}")


@pytest.mark.slow
def test_a_start_is_told_moved_and_marked_as_old_by_a_change(browser, folder):
    with Served(folder, "wren.toml") as served, opened(browser, served) as tab:
        tab.page.locator("#start-engines").select_option("12")
        tab.page.locator("#start-go").click()
        tab.page.locator("[data-slot=start] .moments").wait_for(timeout=600_000)
        told = tab.page.locator("[data-slot=start]").inner_text()
        for words in ("Kick-back", "Gas against friction", "Odds against the gauge", "estimate"):
            assert words in told
        slider = tab.page.locator("#story-time")
        slider.fill("1000")
        ended = tab.page.locator("#story-at").inner_text()
        assert ended.startswith(f"{tab.page.evaluate('ff.ends()'):.2f}")
        cursor = "[data-slot=start] .for-desk line.cursor"
        right = float(tab.page.locator(cursor).get_attribute("x1"))
        slider.fill("0")
        assert "starter on" in tab.page.locator("#story-said").inner_text().lower()
        assert float(tab.page.locator(cursor).get_attribute("x1")) < right
        assert tab.page.evaluate("ff.audio === undefined")
        tab.page.locator("#story-hear").click()
        tab.until("document.querySelector('#story-heard').textContent.startsWith('Computed, of')")
        assert tab.page.evaluate("ff.heardStart - ff.ends()") == pytest.approx(0, abs=0.05)
        tab.page.locator("#story-hush").click()
        assert grave(tab) == []
        assert (tab.said, tab.outside()) == ([], [])
        tab.page.reload()
        tab.page.locator("[data-slot=start] .moments").wait_for()
        tab.page.evaluate("ff.send('set', {path: 'cylinder.bore', said: '41 mm'})")
        tab.page.locator("[data-slot=start][data-old]").wait_for()
        tab.page.locator('[data-do="undo"]').click()
        tab.page.locator("[data-slot=start]:not([data-old])").wait_for()
