"""Lists follow the width of the terminal, and nothing is cut in the middle of a word."""

import os
import subprocess
import sys

import pytest
from tests.whole.test_cli import ENGINES

from firstfire import catalog
from firstfire.catalog.names import plain
from firstfire.cli.catalog import catalog_text
from firstfire.engine.read import read
from firstfire.setup.parts_list import parts_list
from firstfire.setup.text import parts_text


@pytest.mark.parametrize("width", [60, 80, 120])
@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_a_parts_list_is_as_wide_as_is_told(name, width):
    found = parts_list(read(ENGINES / f"{name}.toml"))
    text = parts_text(found, width=width)
    assert width - 12 < max(map(len, text.splitlines())) <= width
    # The same words, however they are broken into lines.
    assert text.split() == parts_text(found).split()


@pytest.mark.parametrize("kind", catalog.kinds())
def test_rows_of_the_catalog_come_whole_under_headings(kind):
    lines = catalog_text(kind, None, None, as_json=False).splitlines()
    assert lines[0].split()[0] == "name"
    assert max(map(len, lines)) <= 80
    told = " ".join(" ".join(lines).split())
    for row in catalog.load().rows(kind):
        assert row.key in told
        # Nothing of a name is cut off, unless the key says it already.
        if plain(row.name) != plain(row.key):
            assert all(word in told for word in row.name.split())


@pytest.mark.parametrize(("columns", "widest"), [("60", 60), ("140", 120)])
def test_a_terminal_of_another_width_is_written_to_its_edge(columns, widest):
    """COLUMNS speaks for a terminal alone: what goes to a file stays at 80."""
    code = (
        "import sys; sys.stdout.isatty = lambda: True\n"
        "from firstfire.cli.terminal import columns; print(columns())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True,
        env={**os.environ, "COLUMNS": columns},
    )  # fmt: skip
    assert int(done.stdout) == widest
