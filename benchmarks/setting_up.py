"""How long a timing table takes against `--help`, and all of `setup` against a check."""

import sys
import tempfile
from pathlib import Path

from benchmarks.alternate import median_times
from benchmarks.figure import Figure, at_most
from benchmarks.startup import _run

ROUNDS = 9
ENGINES = Path(__file__).parents[1] / "engines"


def measure() -> list[Figure]:
    command = str(Path(sys.executable).with_name("firstfire"))
    wren, heron = (str(ENGINES / f"{name}.toml") for name in ("wren", "heron"))
    table, help_time = median_times(
        lambda: _run(command, "timing", wren), lambda: _run(command, "--help"), ROUNDS
    )
    with tempfile.TemporaryDirectory() as folder:
        whole, check = median_times(
            lambda: _run(command, "setup", heron, "-o", folder, "--overwrite"),
            lambda: _run(command, "check", heron),
            2,
        )
    return [
        at_most(
            "firstfire timing, asked again ÷ firstfire --help", table / help_time, 3, "×",
            f"medians of {ROUNDS} turns each; the first time it reads and reckons",
        ),
        at_most("firstfire setup of a twin ÷ one check", whole / check, 4, "×", "medians of 2"),
    ]  # fmt: skip
