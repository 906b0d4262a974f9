"""Setting up in a real browser: wheel, trial, measured overlays, chapters and their files."""

import math
import re
import signal

import pytest
from tests.pages.served import Served, Tab
from tests.pages.test_accessible import grave

HANDLE = '[data-turn="inlet-opens"]'
PRINTER = '[data-measured="printer"]'
_LONG = 120_000


@pytest.fixture(scope="module")
def setup(browser, lasting):
    """One tab that stays, so that the chapters are worked out once; the check is stopped."""
    with Tab(browser, lasting, "/setup", reduced_motion="reduce") as tab:
        stand(tab)
        yield tab


def stand(tab):
    """Wait until the wheel and a first chapter stand."""
    tab.page.wait_for_selector(HANDLE, timeout=_LONG)
    tab.page.evaluate("ff.send('stop')")
    tab.page.wait_for_selector('[data-turned="torque"]', timeout=_LONG)
    tab.page.wait_for_selector("[data-slot=set-proof] .said", timeout=_LONG)
    return tab


def cell(tab, row, column=-2):
    """Text of a cell of the table beside the wheel: the trial's, or with -3 the present's."""
    cells = tab.page.locator(f'[data-turned="{row}"] > *')
    return cells.nth(cells.count() + column).inner_text()


def undone(tab):
    """Undo until the engine is as it was: pressed again only while it can be."""
    pressed = "b => { if (!b.disabled) b.click(); return b.disabled; }"
    script = f"({pressed})(document.querySelector('[data-do=undo]'))"
    tab.page.wait_for_function(script, polling=150, timeout=_LONG)
    tab.until("!document.querySelector('.turns li.changed')")


def test_it_opens_silently_with_every_chapter(setup):
    titles = setup.page.locator("[data-chapter]:not([hidden])").all_inner_texts()
    assert titles[0] == "Timing"
    assert {"Cams, springs and gaps", "Wiring", "Fits, clearances and torques"} <= set(titles)
    assert setup.page.locator(".chapter .ff-drawing").count() > 8
    assert (setup.said, setup.outside()) == ([], [])


def test_an_event_is_turned_by_arrow_keys_and_undone_in_one_step(setup):
    before = cell(setup, "gap inlet")
    setup.page.locator(HANDLE).focus()
    for _ in range(4):
        setup.page.keyboard.press("PageUp")
    setup.page.keyboard.press("ArrowDown")
    handle = setup.page.locator(HANDLE)
    assert handle.get_attribute("aria-valuenow") == "29"
    assert handle.get_attribute("aria-valuetext") == "inlet opens 29° before top"
    setup.until("document.querySelector('[data-trials] [aria-pressed=true]')?.textContent"
                " === 'inlet opens 29° before top'")  # fmt: skip
    setup.until(f"document.querySelectorAll('[data-turned=\"gap inlet\"] > *').length === 4 && "
                f"!document.querySelector('[data-turned=\"gap inlet\"]').textContent"
                f".endsWith('{before}')")  # fmt: skip
    assert cell(setup, "gap inlet", -3) == before
    assert float(cell(setup, "gap inlet").split()[0]) < float(before.split()[0])
    assert setup.page.evaluate("document.activeElement.dataset.turn") == "inlet-opens"
    setup.until("!document.querySelector('[data-turned=torque].old')")
    assert "N·m" in cell(setup, "torque")
    setup.page.locator('[data-do="undo"]').click()
    setup.until("document.querySelector('[data-trials]').hidden")
    setup.until("document.querySelector('[data-turn=\"inlet-opens\"]').ariaValueNow === '10'")
    setup.state("saved")


def test_an_event_is_dragged_and_its_old_cycle_is_marked(setup):
    setup.page.locator("svg.wheel").scroll_into_view_if_needed()
    box = setup.page.locator("svg.wheel").bounding_box()
    ball = setup.page.locator('[data-turn="inlet-closes"] .ball').bounding_box()
    mid = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    at = ball["x"] + ball["width"] / 2 - mid[0], ball["y"] + ball["height"] / 2 - mid[1]
    setup.page.mouse.move(mid[0] + at[0], mid[1] + at[1])
    setup.page.mouse.down()
    for _ in range(5):  # a tenth of a turn anticlockwise, which is later on this wheel
        x, y = at
        c, s = math.cos(0.12), math.sin(0.12)
        at = x * c + y * s, y * c - x * s
        setup.page.mouse.move(mid[0] + at[0], mid[1] + at[1])
    setup.page.mouse.up()
    value = float(setup.page.locator('[data-turn="inlet-closes"]').get_attribute("aria-valuenow"))
    assert value == pytest.approx(40 + 34.4, abs=1.0)
    setup.until(f"document.querySelector('[data-trials] [aria-pressed=true]')?.textContent"
                f".includes('inlet closes {value:g}° after bottom')")  # fmt: skip
    row = "document.querySelector('[data-turned=kept]')"
    setup.until(f"{row}.children.length === 4")
    setup.until(f"parseFloat({row}.querySelector('b').textContent) < 90")
    assert cell(setup, "kept", -3) == "93 %"
    assert setup.page.locator(".wheel .ghost").count() == 1
    undone(setup)


def test_its_table_is_of_before_from_the_first_turn_to_its_answer(setup):
    of = "document.querySelector('#turned-of').textContent"
    assert setup.page.evaluate(of) == "Of the wheel as it stands."
    setup.page.locator(HANDLE).focus()
    # what stands at once, before an answer can have come
    said, marked, busy = setup.page.evaluate(
        """() => { document.activeElement.dispatchEvent(new KeyboardEvent('keydown', {key: 'PageUp',
        bubbles: true})); const slot = document.querySelector('[data-slot=turned]'); return [
        document.querySelector('#turned-of').textContent, slot.classList.contains('before'),
        slot.getAttribute('aria-busy')]; }"""
    )
    assert said == "Of before the last turn: being worked out anew."
    assert (marked, busy) == (True, "true")
    setup.until(f"{of} === 'Of the wheel as it stands.'")
    assert setup.page.locator("[data-slot=turned].before").count() == 0
    assert setup.page.locator('[data-turned="gap inlet"] > *').count() == 4
    undone(setup)
    assert setup.page.evaluate(of) == "Of the wheel as it stands."


def test_an_angle_is_typed_with_a_comma_too(setup):
    setup.page.locator("#turn-start-spark").fill("12,5")
    setup.page.keyboard.press("Tab")
    setup.until("document.querySelector('[data-turn=\"start-spark\"]').ariaValueNow === '12.5'")
    setup.until("document.querySelector('[data-trials]').textContent.includes('12.5° before top')")
    undone(setup)


def test_two_events_at_one_angle_do_not_hide_each_other(setup):
    running = setup.page.locator('[data-turn="running-spark"]').get_attribute("aria-valuenow")
    setup.page.locator("#turn-start-spark").fill(running)
    setup.page.keyboard.press("Tab")
    setup.until(
        f"document.querySelector('[data-turn=\"start-spark\"]').ariaValueNow === '{running}'"
    )
    wheel = setup.page.locator("svg.wheel").bounding_box()
    middle = wheel["x"] + wheel["width"] / 2, wheel["y"] + wheel["height"] / 2
    (ax, ay), (bx, by) = (
        (box["x"] + box["width"] / 2 - middle[0], box["y"] + box["height"] / 2 - middle[1])
        for which in ("running", "start")
        for box in [setup.page.locator(f'[data-turn="{which}-spark"] .ball').bounding_box()]
    )
    ball = setup.page.locator('[data-turn="start-spark"] .ball').bounding_box()["width"]
    assert math.hypot(ax - bx, ay - by) > 0.9 * ball
    turned = math.degrees(math.atan2(ay, ax) - math.atan2(by, bx))
    assert turned == pytest.approx(0, abs=2.5)  # their places on the spiral's two circles differ
    undone(setup)


def test_what_cannot_be_turned_so_far_is_said(setup):
    setup.page.locator("#turn-start-spark").fill("400")
    setup.page.keyboard.press("Tab")
    setup.until("document.querySelector('[data-turn=\"start-spark\"]').ariaValueNow === '60'")
    undone(setup)


def test_a_printers_error_is_a_chip_moves_sizes_and_is_taken_away(setup):
    folder = setup.served.folder
    before, drawn = (folder / "wren.toml").read_text(), "[data-slot=set-fits] table"
    sizes = setup.page.locator(drawn).first.text_content()
    form = setup.page.locator(PRINTER)
    form.locator("xpath=..").locator("summary").click()
    form.locator('[name="hole 3 read"]').fill("11,62")
    form.locator("button").click()
    chip = setup.page.locator("[data-laid] .chip")
    chip.wait_for(timeout=_LONG)
    assert "holes -0.38 mm" in chip.inner_text()
    assert "Laid over" in form.locator("[data-done]").inner_text()
    setup.page.wait_for_selector("[data-slot=set-fits]:not([data-old])", timeout=_LONG)
    assert setup.page.locator(drawn).first.text_content() != sizes
    with setup.page.expect_download() as fetched:
        chip.locator("a").click()
    assert 'layer = "printer"' in fetched.value.path().read_text()
    assert (folder / "wren.toml").read_text() == before
    chip.locator("button").click()
    chip.wait_for(state="detached")
    setup.state("saved")
    setup.until(f"document.querySelector('{drawn}').textContent === {sizes!r}", _LONG)


def test_a_reading_that_is_none_is_said_at_its_form(setup):
    form = setup.page.locator('[data-measured="bore"]')
    form.locator("xpath=..").locator("summary").click()
    form.locator('[name="top along"]').fill("<b>50</b>")
    form.locator("button").click()
    form.locator("[data-wrong] li").wait_for(timeout=_LONG)
    assert form.locator("b").count() == 0
    assert setup.page.locator("[data-laid] .chip").count() == 0


def test_sheets_are_fetched_and_nothing_is_written(setup):
    folder = setup.served.folder
    there = sorted(path.name for path in folder.iterdir())
    setup.until("document.querySelectorAll('#set-fits ~ div .files a').length > 3")
    for end, begins in (("pdf", b"%PDF"), ("svg", b"<svg"), ("dxf", b"  0")):
        link = setup.page.locator(f'.chapter a[href="/setup/files/degree-wheel.{end}"]')
        with setup.page.expect_download() as fetched:
            link.click()
        assert fetched.value.suggested_filename == f"wren-degree-wheel.{end}"
        assert fetched.value.path().read_bytes().lstrip().startswith(begins.strip())
    assert sorted(path.name for path in folder.iterdir()) == there


@pytest.mark.parametrize("name", ["nothing.pdf", "..%2f..%2fwren.toml", "wren.toml", "%00"])
def test_no_other_file_is_served(setup, name):
    answer = setup.page.request.get(f"{setup.served.base}/setup/files/{name}")
    assert answer.status in (400, 404)
    assert "schema" not in answer.text()


def test_a_number_opens_to_its_working(setup):
    fold = setup.page.locator('[data-fold="cams numbers"] > summary')
    fold.click()
    line = setup.page.locator('[data-why="set.cams.cam.inlet.contact"]')
    line.locator("summary").focus()
    setup.page.keyboard.press("Enter")
    line.locator(".working").wait_for()
    assert re.search(r"\d", line.locator(".working").inner_text())
    fold.click()


def test_a_step_that_is_ticked_stays_so(setup):
    tick = setup.page.locator("[data-tick]").nth(1)
    tick.check()
    setup.page.reload()
    stand(setup)
    assert setup.page.locator("[data-tick]").nth(1).is_checked()
    setup.page.locator("[data-tick]").nth(1).uncheck()


@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (1440, "dark")])
def test_nothing_grave_on_it_at_any_width(browser, setup, width, scheme):
    with Tab(browser, setup.served, "/setup", width, color_scheme=scheme) as tab:
        stand(tab)
        tab.page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        tab.page.locator(HANDLE).focus()
        tab.page.keyboard.press("ArrowUp")
        tab.page.locator(".turns li.changed").wait_for()
        tab.until("!document.querySelector('[data-turned=torque].old')")
        assert grave(tab) == []
        assert tab.page.evaluate("document.documentElement.scrollWidth") <= width
        undone(tab)


@pytest.mark.slow
def test_killed_while_chapters_are_worked_out_and_started_again_nothing_is_lost(browser, folder):
    """An overlay and a trial are there again, on every page, and both can be taken back."""
    served = Served(folder, "wren.toml")
    with Tab(browser, served, "/setup") as tab:
        tab.page.wait_for_selector(HANDLE, timeout=_LONG)
        form = tab.page.locator('[data-measured="bore"]')
        form.locator("xpath=..").locator("summary").click()
        form.locator('[name="top along"]').fill("40.12")
        form.locator("button").click()
        tab.page.locator("[data-laid] .chip").wait_for(timeout=_LONG)
        tab.page.locator(HANDLE).focus()
        tab.page.keyboard.press("ArrowUp")
        tab.page.locator("[data-trials] [aria-pressed=true]", has_text="inlet opens").wait_for()
        assert tab.page.locator("[data-slot=set-spark] .said").count() == 0  # that takes longest
        served.end(signal.SIGKILL)
    with Served(folder, "wren.toml") as again, Tab(browser, again, "/setup") as tab:
        tab.page.wait_for_selector(HANDLE, timeout=_LONG)
        assert "40.12 mm" in tab.page.locator("[data-laid]").inner_text()
        assert tab.page.locator(HANDLE).get_attribute("aria-valuenow") == "11"
        tab.page.wait_for_selector("[data-slot=set-cams] .said", timeout=_LONG)
        tab.page.goto(again.base + "/engine")
        tab.ready()
        bore = "document.querySelector('[data-slot=desk] [data-path=\"cylinder.bore\"]')"
        tab.until(f"{bore}?.dataset.value == '0.04012'")
        tab.page.locator('[data-do="undo"]').click()
        tab.page.locator("[data-trials]").wait_for(state="hidden")
        tab.page.locator('[data-do="undo"]').click()
        tab.page.locator("[data-laid] .chip").wait_for(state="detached")
        tab.until(f"{bore}?.dataset.value == '0.04'")
    assert "40.12" not in (folder / "wren.toml").read_text()
