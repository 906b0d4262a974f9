"""Ctrl-C at any moment, on a busy machine, stops and keeps what is finished; it never crashes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
FILES = (ROOT / "engines" / "wren.toml", ROOT / "tests" / "strangers" / "5_metal_wren.toml")


def ended(how: str, count: int) -> list[str]:
    done = subprocess.run(
        [sys.executable, str(HERE / "pressed_often.py"), how, str(count), *map(str, FILES)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout.splitlines()


@pytest.mark.long
@pytest.mark.parametrize("how", ["check", "compare"])
def test_the_command_stops_with_130_at_any_moment(how: str) -> None:
    """Nine of 110 interrupted comparisons once ended in a segmentation fault."""
    found = ended(how, 12)
    assert len(found) == 12
    assert set(found) <= {"130 finished", "130 nothing"}
    assert "130 finished" in found


@pytest.mark.long
def test_a_check_from_python_is_interrupted_at_any_moment() -> None:
    """Ctrl-C then rises wherever the main thread is, and ends in nothing but itself."""
    assert set(ended("python", 12)) == {"Interrupted"}
