"""Wren and heron, checked once for all tests here."""

from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.runs.start.account import account, heard_at
from firstfire.runs.start.asked import Asked

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


@pytest.fixture(scope="session")
def wren():
    return ff.read(WREN)


@pytest.fixture(scope="session")
def result(wren):
    return ff.check(wren, speeds=[4000 * 3.141592653589793 / 30])


@pytest.fixture(scope="session")
def twin():
    heron = ff.read(WREN.with_name("heron.toml"))
    return ff.check(heron, speeds=[4000 * 3.141592653589793 / 30])


@pytest.fixture(scope="session")
def events(result):
    return {event.event: event for event in result.events}


@pytest.fixture(scope="session")
def starts(wren):
    """Wren started as it is written: it runs by itself."""
    asked = Asked(seconds=3.0, after=1.0, seed=1, let_go_at=heard_at(resolve(wren)))
    return account(wren, asked, count=8, tries=1)
