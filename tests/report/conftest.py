"""A single and a twin, checked once for all tests here, with their pages."""

from dataclasses import replace
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.report import report
from firstfire.verdict.words.sentences import sentence

ENGINES = Path(__file__).resolve().parents[2] / "engines"
_RPM = 3.141592653589793 / 30


@pytest.fixture(scope="session")
def wren():
    return ff.check(ff.read(ENGINES / "wren.toml"), speeds=[2000 * _RPM, 4000 * _RPM], drawn=16)


@pytest.fixture(scope="session")
def heron():
    return ff.check(ff.read(ENGINES / "heron.toml"), speeds=[3000 * _RPM], drawn=16)


@pytest.fixture(scope="session")
def wren_page(wren):
    return report(wren)


@pytest.fixture(scope="session")
def heron_page(heron):
    return report(heron)


@pytest.fixture(scope="session", params=["wren", "heron"])
def each(request):
    """A result with its page."""
    return request.getfixturevalue(request.param), request.getfixturevalue(f"{request.param}_page")


def called(result, name, story=""):
    """The same result of an engine of another name."""
    renamed = replace(result, engine=replace(result.engine, name=name, story=story))
    return replace(renamed, sentence=sentence(renamed))
