"""One server for all tests here that change nothing for good."""

import shutil

import pytest
from tests.pages.served import ROOT, Served


@pytest.fixture
def folder(tmp_path):
    """A folder with the single in it."""
    shutil.copy(ROOT / "engines" / "wren.toml", tmp_path / "wren.toml")
    return tmp_path


@pytest.fixture(scope="session")
def lasting(tmp_path_factory):
    """A server that all tests share that leave the engine as they found it."""
    place = tmp_path_factory.mktemp("engines")
    shutil.copy(ROOT / "engines" / "wren.toml", place / "wren.toml")
    with Served(place, "wren.toml") as served:
        yield served
