"""What all tests share: Hypothesis without a clock, so that no slow machine fails one; a browser.

Its library can't be begun twice in one process: this is the only one.
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


# Of a module, not of all: its library keeps a thread of its own, beside which no work is shared out
# over processes.
@pytest.fixture(scope="module")
def browser():
    assert CHROMIUM.exists(), "Chromium is not installed: system-packages.txt names it for tests."
    with sync_playwright() as player:
        opened = player.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield opened
        opened.close()
