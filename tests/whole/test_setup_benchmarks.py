"""The benchmark runner finds what measures, and shows a missed target as missed."""

import subprocess
import sys
from pathlib import Path

from benchmarks import seeded_faults
from benchmarks.figure import Figure, at_least, at_most
from benchmarks.run import benchmarks
from benchmarks.table import page

ROOT = Path(__file__).parents[2]


def test_a_benchmark_is_a_file_that_defines_measure(tmp_path: Path) -> None:
    (tmp_path / "pull.py").write_text("def measure():\n    return []\n")
    (tmp_path / "aid.py").write_text("def other():\n    return []\n")
    (tmp_path / "inner.py").write_text("class A:\n    def measure(self):\n        return []\n")
    assert benchmarks(tmp_path) == ["pull"]


def test_the_runner_finds_the_start_up_benchmark_and_not_itself() -> None:
    assert "startup" in benchmarks()
    assert "run" not in benchmarks()


def test_targets_are_met_up_to_and_including_the_limit() -> None:
    assert at_most("a", 3.0, 3.0, "×").met
    assert not at_most("a", 3.01, 3.0, "×").met
    assert at_least("a", 3.0, 3.0, "×").met
    assert not at_least("a", 2.99, 3.0, "×").met


def test_page_counts_and_marks_missed_targets() -> None:
    figures = [at_most("quick", 1.2345, 2, "s"), at_most("slow|er", 1234.5, 2, "s", "why")]
    text = page({"gas_speed": figures}, ["a machine"])
    assert "Missed targets: 1." in text
    assert "| quick | 1.23 s | at most 2 | met |  |" in text
    assert "| slow\\|er | 1230 s | at most 2 | **missed** | why |" in text
    assert "## gas speed" in text


def test_page_of_met_targets_says_so_and_is_the_same_each_time() -> None:
    results = {"a": [Figure("x", 0.0, "Pa", "none", True)]}
    assert "Every target is met." in page(results, [])
    assert page(results, []) == page(results, [])


def test_a_page_keeps_what_was_not_measured_anew_and_says_so() -> None:
    slow = {"a": [at_most("slow", 3.0, 2, "s")], "b_c": [at_most("slow too", 3.0, 2, "s")]}
    old = page(slow, ["a machine"])
    new = page({"a": [at_most("quick", 1.0, 2, "s")]}, ["another"], old)
    assert "| slow |" not in new
    assert "| quick |" in new
    assert "Missed targets: 1." in new
    assert "another" in new
    of_b_c = new.partition("\n## b c\n\n")[2]
    assert of_b_c.startswith("Measured before the machine above was described.\n\n| figure |")
    assert "| slow too | 3.00 s | at most 2 | **missed** |  |" in of_b_c
    # what was kept once is said once
    again = page({"a": [at_most("quick", 1.0, 2, "s")]}, ["another"], new)
    assert again == new


def test_a_benchmark_that_does_not_run_fails_the_runner() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks.run", "no_such_benchmark"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert "no_such_benchmark" in done.stdout
    assert "missed" in done.stdout


REACHED = seeded_faults.Reached(
    {"loads/shaft.py": {"3": ["tests/a.py::x", "tests/b.py::y"], "4": ["tests/a.py::x"]}},
    {"tests/a.py::x": (0.0, 1.0), "tests/b.py::y": (2.0, 0.5)},
)


def test_which_tests_reach_a_line_is_read_as_it_was_written(tmp_path: Path) -> None:
    seeded_faults._write(tmp_path / "kept.json", {"tests/a.py": "abc"}, REACHED)
    files, found = seeded_faults._read(tmp_path / "kept.json")
    assert files == {"tests/a.py": "abc"}
    assert found.tests == REACHED.tests
    assert {name: tuple(took) for name, took in found.seconds.items()} == REACHED.seconds


def test_a_changed_file_of_tests_takes_the_place_of_what_it_was() -> None:
    less = REACHED.but({"tests/a.py"})
    assert less.tests["loads/shaft.py"] == {"3": ["tests/b.py::y"], "4": []}
    assert set(less.seconds) == {"tests/b.py::y"}
    anew = seeded_faults.Reached(
        {"loads/shaft.py": {"5": ["tests/a.py::z"]}}, {"tests/a.py::z": (0, 1)}
    )
    more = less.and_also(anew)
    assert more.tests["loads/shaft.py"] == {"3": ["tests/b.py::y"], "4": [], "5": ["tests/a.py::z"]}
    assert set(more.seconds) == {"tests/b.py::y", "tests/a.py::z"}


def test_files_that_name_a_module_are_asked_where_nothing_is_seen_to_reach_it(monkeypatch) -> None:
    texts = {
        "a.py": "from firstfire.loads.shaft import turned\n",
        "b.py": "import math\nfrom firstfire.loads import masses, shaft\n",
        "c.py": "from firstfire.loads.shafts import turned\nfrom firstfire.loads import masses\n",
    }
    monkeypatch.setattr(seeded_faults, "_text", texts.get)
    found = seeded_faults.Reached({}, {f"{file}::one": (0.0, 1.0) for file in texts})
    assert found._naming("loads/shaft.py") == {"a.py::one", "b.py::one"}
