"""What all tests share: Hypothesis without a clock, so that no slow machine fails one; a browser.

There is one browser a process: its library can't be begun twice in one.
"""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import sync_playwright

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip

settings.register_profile(
    "no clock",
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("no clock")


@pytest.fixture(scope="session")
def browser():
    assert CHROMIUM.exists(), "Chromium is not installed: system-packages.txt names it for tests."
    with sync_playwright() as player:
        opened = player.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield opened
        opened.close()
