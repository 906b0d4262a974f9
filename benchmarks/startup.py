"""How long `firstfire --help` takes, against importing Typer and Rich alone."""

import subprocess
import sys
from pathlib import Path

from benchmarks.alternate import median_times
from benchmarks.figure import Figure, at_most

ROUNDS = 21


def _run(*command: str) -> None:
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def measure() -> list[Figure]:
    command = str(Path(sys.executable).with_name("firstfire"))
    help_time, import_time = median_times(
        lambda: _run(command, "--help"),
        lambda: _run(sys.executable, "-c", "import typer, rich"),
        ROUNDS,
    )
    return [
        at_most(
            "firstfire --help ÷ importing Typer and Rich",
            help_time / import_time,
            3,
            "×",
            f"medians of {ROUNDS} turns each",
        )
    ]
