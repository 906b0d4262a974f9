"""Runs every benchmark in a process of its own and writes docs/performance.md after each.

A benchmark is a file in this folder with a function `measure() -> list[Figure]`. The exit status
is 1 if a target is missed or a benchmark does not run to its end.

    python -m benchmarks.run               all of them, into docs/performance.md
    python -m benchmarks.run startup ...   only those named, shown and not written
    python -m benchmarks.run --write startup ...   those in the place of what the page had of them
"""

import argparse
import ast
import importlib
import json
import subprocess
import sys
import tempfile
from dataclasses import asdict
from pathlib import Path

from benchmarks.figure import Figure
from benchmarks.machine import describe
from benchmarks.table import page

FOLDER = Path(__file__).parent
REPORT = FOLDER.parent / "docs" / "performance.md"


def benchmarks(folder: Path = FOLDER) -> list[str]:
    """Give the names of the files in `folder` that define `measure`, in order."""
    return sorted(path.stem for path in folder.glob("*.py") if _measures(path))


def _measures(path: Path) -> bool:
    body = ast.parse(path.read_text(encoding="utf-8")).body
    return any(isinstance(node, ast.FunctionDef) and node.name == "measure" for node in body)


def measure_apart(name: str) -> list[Figure]:
    """Give the figures of one benchmark, measured in a fresh process."""
    with tempfile.TemporaryDirectory() as folder:
        answer = Path(folder) / "figures.json"
        command = [sys.executable, "-m", "benchmarks.run", "--into", str(answer), name]
        status = subprocess.run(command, check=False, cwd=FOLDER.parent).returncode
        if status != 0:
            note = f"benchmarks/{name}.py ended with status {status}"
            return [Figure(name, float("nan"), "", "runs to its end", False, note)]
        return [Figure(**fields) for fields in json.loads(answer.read_text(encoding="utf-8"))]


def _measure_here(name: str, answer: Path) -> None:
    figures = importlib.import_module(f"benchmarks.{name}").measure()
    answer.write_text(json.dumps([asdict(figure) for figure in figures]), encoding="utf-8")


def _say(name: str, figures: list[Figure]) -> None:
    for figure in figures:
        word = "met" if figure.met else "missed"
        print(f"{name}: {figure.name}: {figure.value:.3g} {figure.unit}, {figure.target}: {word}")


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.run", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="NAME", help="files of this folder, no .py")
    parser.add_argument("--into", type=Path, help=argparse.SUPPRESS)
    parser.add_argument("--write", action="store_true", help="write the page for those named too")
    asked = parser.parse_args()
    if asked.into:
        _measure_here(asked.names[0], asked.into)
        return 0
    results: dict[str, list[Figure]] = {}
    before = REPORT.read_text(encoding="utf-8") if REPORT.is_file() else ""
    for name in asked.names or benchmarks():
        results[name] = measure_apart(name)
        _say(name, results[name])
        if asked.write or not asked.names:
            REPORT.write_text(page(results, describe(), before), encoding="utf-8")
    return 0 if all(figure.met for figures in results.values() for figure in figures) else 1


if __name__ == "__main__":
    sys.exit(main())
