"""Wren in metal, and its uncertain inputs, for every test of an event."""

from __future__ import annotations

from pathlib import Path

import pytest

import firstfire as ff
from firstfire.runs.spread import Trials

ENGINE = Path(__file__).parent.parent / "strangers" / "5_metal_wren.toml"


@pytest.fixture(scope="module")
def engine() -> ff.Engine:
    return ff.read(ENGINE)


@pytest.fixture(scope="module")
def trials(engine: ff.Engine) -> Trials:
    return Trials(engine)
