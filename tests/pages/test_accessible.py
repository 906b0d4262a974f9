"""Each page opens silently, and has what a screen reader and tired eyes need, day or night."""

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
def test_a_page_opens_silently_and_has_nothing_grave(browser, lasting, page, width, scheme):
    """It stays on this machine, and within its width, too."""
    with Tab(browser, lasting, page, width, color_scheme=scheme, reduced_motion="reduce") as tab:
        tab.ready()
        assert (tab.said, tab.outside()) == ([], [])
        assert tab.page.evaluate("document.documentElement.scrollWidth") <= width
        assert "token" not in tab.page.url
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


def test_nothing_grave_on_the_first_page(browser, folder):
    with Served(folder) as served, Tab(browser, served, "/") as tab:
        tab.page.locator("[data-new] button").wait_for()
        for scheme in ("light", "dark"):
            tab.page.emulate_media(color_scheme=scheme)
            assert grave(tab) == []


def test_reduced_motion_moves_nothing(browser, lasting):
    moving = "document.getAnimations().length"
    with Tab(browser, lasting, "/hold", reduced_motion="reduce") as tab:
        tab.ready()
        tab.page.locator("#seconds").fill("300")
        tab.until("document.querySelector('#at').textContent.includes('into it')")
        assert tab.page.evaluate(moving) == 0
