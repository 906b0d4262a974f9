"""How long a twin's check with its report takes, against the check alone; and the page's size."""

import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.alternate import median_times
from benchmarks.figure import Figure, at_most

ROOT = Path(__file__).resolve().parents[1]


def measure() -> list[Figure]:
    command = str(Path(sys.executable).with_name("firstfire"))
    heron = str(ROOT / "engines" / "heron.toml")
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder) / "heron.html"
        reporting = [command, "check", heron, "--report", str(page), "--overwrite"]
        told, alone = median_times(
            lambda: subprocess.run(reporting, check=True, capture_output=True),
            lambda: subprocess.run([command, "check", heron], check=True, capture_output=True),
            3,
        )
        size = page.stat().st_size
    return [
        at_most(
            "twin's check with its report ÷ check alone",
            told / alone,
            1.3,
            "×",
            f"{told:.1f} s against {alone:.1f} s",
        ),
        at_most("a twin's report", size / 1e6, 1.5, "MB"),
    ]
