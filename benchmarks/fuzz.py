"""Tens of thousands of spoilt engine files: understood or refused in words, never a crash."""

import os
import subprocess
import sys
from pathlib import Path

from benchmarks.figure import Figure, at_most

EXAMPLES = 10_000
TIMES = 30
TESTS = Path(__file__).resolve().parents[1] / "tests"
READ = TESTS / "engine" / "test_fuzz.py"
USED = TESTS / "whole" / "test_spoilt.py"


def _failed(tests: Path, **wanted: str) -> float:
    """How many of a file's tests fail with so many examples."""
    done = subprocess.run(
        [sys.executable, "-m", "pytest", str(tests), "-q", "--no-header", "-p", "no:cacheprovider"],
        env={**os.environ, **wanted},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stdout + done.stderr)
    return float(done.stdout.count("FAILED"))


def measure() -> list[Figure]:
    return [
        at_most(
            "kinds of spoilt engine file that are neither understood nor refused in words",
            _failed(READ, FIRSTFIRE_FUZZ=str(EXAMPLES)),
            0,
            "of 3",
            f"{EXAMPLES} files of each kind, every unit name, numbers of 5000 digits",
        ),
        at_most(
            "kinds of extreme engine that drawing, list, judgement, check or comparison breaks on",
            _failed(USED, FIRSTFIRE_SPOILT=str(TIMES), FIRSTFIRE_SEED="2"),
            0,
            "of 7",
            f"edges of values, any materials, odd lift tables: {TIMES} times what tests try",
        ),
    ]
