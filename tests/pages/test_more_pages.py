"""In a real browser: files side by side, rows of the catalog, inches, what is laid over."""

import shutil

import pytest
from tests.pages.served import ROOT, Served, Tab
from tests.pages.test_accessible import grave


@pytest.fixture(scope="module")
def two(tmp_path_factory):
    """A server over a folder with the single and a twin; the single stays as it is."""
    folder = tmp_path_factory.mktemp("two")
    for name in ("wren", "heron"):
        shutil.copy(ROOT / "engines" / f"{name}.toml", folder)
    with Served(folder, "wren.toml") as served:
        yield served


def test_a_file_of_the_folder_stands_beside_and_is_saved_under_another_name(browser, two):
    with Tab(browser, two, "/compare") as tab:
        tab.ready()
        tab.page.locator('[data-beside="file"]').check()
        tab.page.locator("table.beside td:has-text('opposed_twin')").wait_for()
        assert "valves.exhaust.head_diameter" in tab.page.locator("table.beside").first.inner_text()
        focused = "document.activeElement.dataset.name"
        assert tab.page.evaluate(focused) == "heron.toml"
        tab.page.locator('[data-aside] [name="name"]').fill("../a copy")
        tab.page.locator("[data-aside] button").click()
        tab.page.locator("[data-say]:has-text('a-copy.toml is written')").wait_for()
        copy, own = (two.folder / f"{name}.toml" for name in ("a-copy", "wren"))
        assert copy.read_text() == own.read_text()
        tab.page.locator("[data-aside] button").click()
        tab.page.locator("[data-say]:has-text('there already')").wait_for()
        tab.page.locator('[data-beside="file"][data-name="a-copy.toml"]').wait_for()
        tab.page.reload()
        tab.page.locator('[data-name="heron.toml"]:checked').wait_for()
        assert (tab.said, tab.outside(), grave(tab)) == ([], [], [])
        tab.page.locator('[data-name="heron.toml"]').uncheck()


def test_long_work_has_a_bar_and_a_stop(browser, two):
    with Tab(browser, two, "/compare") as tab:
        tab.ready()
        tab.page.locator('[data-beside="file"][data-name="heron.toml"]').check()
        tab.page.locator('[data-do="check beside"]').click()
        bar = tab.page.locator("[data-errand] progress")
        bar.wait_for()
        assert tab.page.locator('[data-do="plan"]').is_disabled()
        tab.page.reload()
        bar.wait_for()
        tab.page.locator('[data-do="halt"]').click()
        tab.page.locator("[data-errand]:has-text('stopping')").wait_for()
        tab.page.locator('[data-do="halt"]').click()
        tab.page.locator("[data-errand]").wait_for(state="hidden")
        assert tab.page.locator('[data-do="plan"]').is_enabled()


def test_a_row_of_the_catalog_is_chosen_by_keyboard(browser, lasting):
    with Tab(browser, lasting) as tab:
        tab.ready()
        tab.page.evaluate("document.querySelector('#section-crank').open = true")
        tab.page.locator('[data-rows="crank.main_bearing"]').focus()
        tab.page.keyboard.press("Enter")
        rows = tab.page.locator('[data-choices="crank.main_bearing"]')
        rows.locator('[data-choose="6002"]').wait_for()
        assert "25 mm" in rows.locator("details").text_content()
        assert grave(tab) == []
        rows.locator('[data-choose="6002"]').focus()
        tab.page.keyboard.press("Enter")
        tab.until(
            "document.querySelector('[data-choose=\"6002\"]')"
            "?.getAttribute('aria-pressed') == 'true'"
        )
        assert tab.field("crank.main_bearing").input_value() == "6002"
        tab.page.locator('[data-do="undo"]').click()
        tab.state("saved")


def test_inches_are_shown_and_typed_and_the_file_stays_as_written(browser, lasting):
    value = "document.querySelector('.entry [data-path=\"cylinder.%s\"]').value"
    with Tab(browser, lasting) as tab:
        tab.ready()
        tab.page.locator("#lengths").select_option("in")
        assert tab.field("cylinder.bore").input_value() == "1.575 in"  # 40 mm / 25.4 mm
        assert tab.field("cylinder.compression_ratio").input_value() == "6.5"
        tab.type("cylinder.stroke", "1,5")
        tab.state("changed")
        tab.until("document.querySelector('#text').value.includes('stroke = \"1.5 in\"')")
        assert 'bore = "40 mm"' in tab.page.locator("#text").input_value()
        words = "[...document.querySelectorAll('[data-slot=desk] text')].map(e => e.textContent)"
        tab.until(f"{words}.includes('stroke 1.5 in')")
        assert not any(" mm" in one for one in tab.page.evaluate(words))
        tab.page.reload()
        tab.ready()
        tab.until(f"{value % 'bore'} == '1.575 in'")
        tab.page.locator("#lengths").select_option("mm")
        tab.until(f"{value % 'bore'} == '40 mm'")
        assert tab.field("cylinder.stroke").input_value() == "1.5 in"
        assert tab.said == []
        tab.page.locator('[data-do="undo"]').click()
        tab.state("saved")


def test_warmth_is_laid_over_and_grows_with_the_seconds(browser, lasting):
    with Tab(browser, lasting, "/hold") as tab:
        tab.ready()
        tab.page.locator('[data-over="warm"]').check()
        tab.page.locator("[data-slot=desk] [data-part=isotherms-1]").wait_for(state="attached")
        words = "document.querySelector('[data-slot=over]').textContent"
        before = tab.page.evaluate(words)
        assert "crown" in before
        tab.page.locator("#seconds").fill("900")
        tab.until(f"{words} != {before!r}")
        tab.page.locator('[data-over="forces"]').check()
        tab.page.locator("[data-slot=desk] .ff-force").first.wait_for(state="attached")
        for name in ("warm", "forces"):
            tab.page.locator(f'[data-over="{name}"]').uncheck()
        tab.page.locator("[data-part=isotherms-1]").wait_for(state="detached")
        assert tab.said == []


def test_a_line_that_is_pointed_at_shows_the_path_of_its_load(browser, lasting):
    forces = "[...document.querySelectorAll('[data-slot=%s] .ff-force')].map(e => e.dataset.force)"
    told = "document.querySelector('[data-slot=over]').textContent"
    with Tab(browser, lasting, "/hold") as tab:
        tab.ready()
        tab.until("ff.at.settled")
        tab.page.locator('ol.at-hand [data-way="head.lift"]').hover()
        tab.until(f"{told}.startsWith('Head lifts: its load')")
        assert tab.page.evaluate(forces % "desk") == ["gas"]
        tab.page.locator('ol.at-hand [data-way="rod.buckle"] button').focus()
        tab.until(f"{told}.startsWith('Con rod buckles: its load')")
        assert "rod" in tab.page.evaluate(forces % "desk")
        tab.page.locator("[data-name]").first.hover()
        tab.until(f"{told} === ''")
        assert tab.page.evaluate(forces % "desk") == []
        assert tab.said == []
    with Tab(browser, lasting, "/hold", 390) as tab:
        tab.ready()
        tab.until("ff.at.settled")
        tab.page.locator('ol.at-hand [data-way="rod.buckle"] button').click()
        tab.until(f"{told}.startsWith('Con rod buckles: its load')")
        assert "rod" in tab.page.evaluate(forces % "narrow")
        seen = "document.activeElement.getBoundingClientRect().top < innerHeight"
        tab.until(f"document.activeElement.closest('[data-slot=narrow]') && {seen}")
        assert tab.said == []
