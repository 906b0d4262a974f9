"""What the tests of the pages share: one server, one hub's surroundings, engines run once."""

import shutil

import pytest
from tests.pages.served import ROOT, Served
from tests.pages.stood_in import WREN, Answers

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.pages.desk.desk import Desk
from firstfire.pages.show.hub import Hub
from firstfire.runs.at import bout_at


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


@pytest.fixture
def hub(tmp_path):
    """A hub whose answers are only asked for."""
    file = tmp_path / "wren.toml"
    file.write_text(WREN)
    made = Hub(Desk(file, journal=tmp_path / "journal"))
    made.office = Answers()
    yield made
    made.desk.close()


@pytest.fixture
def beside(hub):
    """The same with its long work only asked for too."""
    office = hub.beside._errands.office = Answers()
    office.hurry = lambda: office.asked.append("hurry")
    office.drop = lambda: office.asked.append("drop")
    return hub


@pytest.fixture(scope="session")
def wren():
    """The single, as its file has it."""
    return ff.read(ROOT / "engines" / "wren.toml")


@pytest.fixture(scope="session")
def plain(wren):
    """The same as numbers."""
    return resolve(wren)


@pytest.fixture(scope="session")
def fired(plain):
    """The single held at full throttle. Nobody changes it."""
    return at_full_throttle(plain)


@pytest.fixture(scope="session")
def heron():
    """The opposed twin held at full throttle, and its numbers."""
    plain = resolve(ff.read(ROOT / "engines" / "heron.toml"))
    return at_full_throttle(plain), plain


def at_full_throttle(plain):
    return bout_at(plain, "full_throttle", plain.use.full_throttle_speeds[0])
