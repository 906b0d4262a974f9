"""Ten thousand spoilt engine files of each kind: understood or refused in words, never a crash."""

import os
import subprocess
import sys
from pathlib import Path

from benchmarks.figure import Figure, at_most

EXAMPLES = 10_000
TESTS = Path(__file__).resolve().parents[1] / "tests" / "engine" / "test_fuzz.py"


def measure() -> list[Figure]:
    done = subprocess.run(
        [sys.executable, "-m", "pytest", str(TESTS), "-q", "--no-header", "-p", "no:cacheprovider"],
        env={**os.environ, "FIRSTFIRE_FUZZ": str(EXAMPLES)},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stdout + done.stderr)
    failed = done.stdout.count("FAILED")
    return [
        at_most(
            "kinds of spoilt engine file that are neither understood nor refused in words",
            float(failed),
            0,
            "of 3",
            f"{EXAMPLES} files of each kind",
        )
    ]
