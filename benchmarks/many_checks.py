"""Five hundred checks of twenty engines in one process: none crashes, none keeps memory.

Two at a time, each with its own threads, the compiled code looking at every index and all freed
memory overwritten at once. FIRSTFIRE_MANY makes them fewer.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.figure import Figure, at_most

CHECKS = int(os.environ.get("FIRSTFIRE_MANY", "500"))
SCRIPT = Path(__file__).resolve().parents[1] / "tests" / "whole" / "many_checks.py"


def measure() -> list[Figure]:
    done = _run()
    crashed = at_most(
        "crashes in many checks side by side", float(done.returncode != 0), 0, "",
        f"{CHECKS} checks of 20 engines, bounds looked at, freed memory overwritten",
    )  # fmt: skip
    if done.returncode != 0:
        return [crashed]
    told = json.loads(done.stdout)
    different = len({tuple(one) for one in told["said"]}) - min(CHECKS, 20)
    # What is loaded and compiled once is there after every engine's first check.
    first, last = told["memory"][0], told["memory"][-1]
    return [
        crashed,
        at_most("engines that a later check says something else of", float(different), 0, "of 20"),
        at_most(
            "growth of memory over them", 100.0 * (last / first - 1.0), 10, "%",
            f"{first:.0f} MB after the first of each, {last:.0f} MB at the end",
        ),
    ]  # fmt: skip


def _run() -> subprocess.CompletedProcess[str]:
    with tempfile.TemporaryDirectory() as folder:
        # Compiled anew: code that was kept doesn't look at indices, and this must not be kept.
        apart = {"FIRSTFIRE_CACHE": folder, "NUMBA_CACHE_DIR": folder}
        looking = {"NUMBA_BOUNDSCHECK": "1", "MALLOC_PERTURB_": "165"}
        return subprocess.run(
            [sys.executable, str(SCRIPT), str(CHECKS), "2"],
            env={**os.environ, **apart, **looking}, capture_output=True, text=True, check=False,
        )  # fmt: skip
