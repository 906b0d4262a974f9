"""What the README shows under its first command is what that command prints, number for number."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block(after):
    """The first block of output behind some words."""
    return README.partition(after)[2].partition("```\n")[2].partition("```")[0]


@pytest.fixture(scope="module")
def printed():
    """What `make demo` runs, once."""
    makefile = (ROOT / "Makefile").read_text()
    demo = re.search(r"^demo:.*\n\t@\$\(BIN\)/firstfire (.+)$", makefile, re.M)
    assert demo is not None
    done = subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *demo[1].split()],
        capture_output=True, text=True, check=False, cwd=ROOT, encoding="utf-8",
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_first_block_is_what_make_demo_prints(printed):
    assert block("`make demo` ends in this") == printed


def test_it_is_one_screen(printed):
    lines = printed.splitlines()
    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80


def test_every_command_is_named():
    from typer.main import get_command

    from firstfire.cli.main import app

    for name in get_command(app).commands:
        assert f"firstfire {name}" in README or name == "schema", name
