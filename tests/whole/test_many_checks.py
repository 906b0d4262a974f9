"""Many checks side by side, freed memory overwritten: none crashes, each says the same again."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("many_checks.py")


@pytest.mark.long
def test_sixty_checks_with_freed_memory_overwritten() -> None:
    """Three of each of twenty engines, two at a time, each with its own threads.

    What is freed is overwritten at once, so that whatever is used after it was given back shows.
    """
    done = subprocess.run(
        [sys.executable, str(SCRIPT), "60", "2"], capture_output=True, text=True, check=False,
        env={**os.environ, "MALLOC_PERTURB_": "165"},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-2000:]
    said = json.loads(done.stdout)["said"]
    assert len(said) == 60
    by_engine: dict[str, set[str]] = {}
    for name, sentence in said:
        by_engine.setdefault(name, set()).add(sentence)
    assert len(by_engine) == 20
    assert {name: len(sentences) for name, sentences in by_engine.items()} == dict.fromkeys(
        by_engine, 1
    )
