"""What all tests share: Hypothesis without a clock, so that no slow machine fails one; a browser.

Its library can't be begun twice in one process: this is the only one. Where tests are shared out
over processes, those that share what was set up stay in one.
"""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import sync_playwright
from xdist.scheduler import LoadScopeScheduling

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip

TOGETHER = ("tests/report", "tests/pages")
"""Folders whose files share checks of whole engines, or a server."""


class Together(LoadScopeScheduling):
    """A file of tests runs in one process, so that nothing is worked out twice for it."""

    def _split_scope(self, nodeid: str) -> str:
        file = nodeid.partition("::")[0]
        folder = file.rpartition("/")[0]
        return folder if folder in TOGETHER else file


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """In the order in which they were collected."""
    config.option.loadscopereorder = False
    return Together(config, log)


def pytest_collection_modifyitems(items):
    """What takes long begins first: no process is left alone with it at the end."""

    def turn(item):
        if any(item.nodeid.startswith(f"{folder}/") for folder in TOGETHER):
            return 0
        return 1 if item.path in slow else 2

    slow = {item.path for item in items if item.get_closest_marker("slow")}
    items.sort(key=turn)


settings.register_profile(
    "no clock",
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("no clock")


# Of a module, not of all: its library keeps a thread of its own, beside which no work is shared out
# over processes.
@pytest.fixture(scope="module")
def browser():
    assert CHROMIUM.exists(), "Chromium is not installed: system-packages.txt names it for tests."
    with sync_playwright() as player:
        opened = player.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield opened
        opened.close()
