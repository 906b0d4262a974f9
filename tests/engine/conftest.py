"""A catalog, and small engines to change."""

import pytest

from firstfire import catalog
from firstfire.engine.read import understand

SMALL = """
name = "finch"
[layout]
kind = "single"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
"""


@pytest.fixture(scope="session")
def rows():
    return catalog.load()


@pytest.fixture
def say(rows):
    """Understand a small engine with more lines after it."""

    def understood(more="", base=SMALL):
        return understand(base + more, "finch.toml", rows)

    return understood


@pytest.fixture
def twin():
    return SMALL.replace('"single"', '"parallel_twin"')


@pytest.fixture
def small():
    return SMALL
