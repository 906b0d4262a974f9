"""Every example the schema and the messages give could be written into a file."""

import re

import pytest

from firstfire.catalog import load
from firstfire.engine.grammar import leaves
from firstfire.engine.leaf import read_leaf
from firstfire.engine.schema import engine_schema

SHOWN = [path for path, leaf in leaves().items() if leaf.written_example]


@pytest.mark.parametrize("path", SHOWN)
def test_an_example_lies_within_its_own_limits(path):
    leaf = leaves()[path]
    said = leaf.written_example
    whole = leaf.form == "integer"
    bare = whole or leaf.dimension == "ratio"
    read_leaf(leaf, (int(said) if whole else float(said)) if bare else said, load())


def test_the_schema_shows_these_examples():
    told = engine_schema()["properties"]["cylinder"]["properties"]["deck"]["description"]
    assert re.search(r"like 0\.5 mm$", told)
