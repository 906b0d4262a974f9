"""A plugin of pytest: how long each test takes to set up and to run, into FIRSTFIRE_TIMES."""

import json
import os
from collections import defaultdict
from pathlib import Path

import pytest

_times: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0])


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if report.when in ("setup", "call"):
        _times[report.nodeid][report.when == "call"] += report.duration


def pytest_sessionfinish(session: pytest.Session) -> None:
    if not hasattr(session.config, "workerinput"):  # what shares the work out hears of all tests
        Path(os.environ["FIRSTFIRE_TIMES"]).write_text(json.dumps(_times), encoding="utf-8")
