"""What a screen reader and tired eyes need: axe-core finds nothing serious, day or night."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from tests.pages.served import Served, Tab

_GRAVE = ("critical", "serious")


def grave(tab):
    """Critical and serious findings: rule, and the first places where it was found."""
    found = Axe().run(tab.page).response["violations"]
    return [
        (one["id"], [node["html"][:160] for node in one["nodes"]][:3])
        for one in found
        if one["impact"] in _GRAVE
    ]


@pytest.mark.parametrize("page", ["/engine", "/hold", "/compare"])
@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (1440, "dark")])
def test_nothing_grave_on_a_page(browser, lasting, page, width, scheme):
    with Tab(browser, lasting, page, width, color_scheme=scheme, reduced_motion="reduce") as tab:
        tab.ready()
        tab.page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert grave(tab) == []


def test_nothing_grave_where_something_is_wrong(browser, lasting):
    with Tab(browser, lasting) as tab:
        tab.ready()
        tab.type("cylinder.bore", "4000 mm")
        tab.page.locator('[data-row="cylinder.bore"] .wrong').wait_for()
        assert grave(tab) == []
        tab.page.locator('[data-do="undo"]').click()
        tab.state("saved")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_grave_on_the_first_page(browser, folder, scheme):
    with Served(folder) as served, Tab(browser, served, "/", color_scheme=scheme) as tab:
        tab.page.locator("[data-new] button").wait_for()
        assert grave(tab) == []


def test_reduced_motion_moves_nothing(browser, lasting):
    moving = "document.getAnimations().length"
    with Tab(browser, lasting, "/hold", reduced_motion="reduce") as tab:
        tab.ready()
        tab.page.locator("#seconds").fill("300")
        tab.until("document.querySelector('#at').textContent.includes('into it')")
        assert tab.page.evaluate(moving) == 0
