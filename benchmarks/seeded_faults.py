"""Are wrong laws caught? Faults are put into the rooms one at a time, and the tests run.

    python -m benchmarks.seeded_faults --seed 7 --count 200 [--rooms parts,loads]

Which tests reach which line is found first, once, by running the tests of those rooms and those
against outside facts under coverage (a quarter of an hour for all; kept in `out/faults` until `src`
changes, and of changed files of tests only these are run again). For each fault those that reach
its line are run, the quickest first, for under a minute together, until one fails. A fault that
keeps tests from ending counts as caught. FIRSTFIRE_FAULTS and FIRSTFIRE_FAULTS_SEED make
`make bench` put in fewer, or others.
"""

import argparse
import hashlib
import json
import multiprocessing
import os
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from queue import SimpleQueue

from benchmarks.faults import Fault, chosen
from benchmarks.figure import Figure, at_least

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "src" / "firstfire"
ROOMS = ("parts", "loads", "heat", "runs", "verdict", "engine", "cycle", "setup")
KEPT = ROOT / "out" / "faults"
BUDGET, QUICK = 45.0, 20.0
"""Seconds of tests a fault may cost, as they took when nothing was wrong, and of these for the
quickest whatever they hold."""
PATIENCE = 240
"""Seconds of processor after which tests that don't end are stopped, busy machine or not."""
ASLEEP = 1800.0
"""Seconds after which they are stopped where they only wait."""
WANTED = 90
KEEPS = re.compile(r"^@(functools\.)?(lru_)?cache\b", re.MULTILINE)
"""A file of tests that keeps what one of them had found."""
CONSTANTS = "tests/outside/test_constants.py"
"""Tests of what stands at modules' heads, where none is seen to reach a line: it is read there, not
run."""


def measure() -> list[Figure]:
    count = int(os.environ.get("FIRSTFIRE_FAULTS", "200"))
    seed = int(os.environ.get("FIRSTFIRE_FAULTS_SEED", "1"))
    return figures(tried(ROOMS, count, seed), seed)


def figures(results: Sequence[tuple[Fault, str]], seed: int) -> list[Figure]:
    """The share caught in each room."""
    found = []
    for room in ROOMS:
        of_room = [by for fault, by in results if fault.file.startswith(f"{room}/")]
        if of_room:
            caught = 100.0 * sum(by != "" for by in of_room) / len(of_room)
            note = f"{len(of_room)} faults, seed {seed}"
            found.append(at_least(f"seeded faults caught in {room}", caught, WANTED, "%", note))
    return found


@dataclass(frozen=True)
class Reached:
    """Which tests reach which lines, and how long each takes to set up and to run, s."""

    tests: dict[str, dict[str, list[str]]]
    seconds: dict[str, tuple[float, float]]

    def of(self, fault: Fault) -> list[str]:
        """Tests that reach a fault's line, or else its file: the quickest, then some of each file.

        Before these, in turn, some of files that take something from its module, those that are
        called like it first.
        What is compiled, or run in another process, no one sees reached: then also those of files
        that name its module, and some of those that reach anything of its room.
        """
        lines = self.tests.get(fault.file, {})
        room = fault.file.partition("/")[0]
        there, first = set(lines.get(str(fault.line), ())), list[str]()
        there |= self._beside(there)
        wide, naming = there, self._naming(fault.file)
        if not there:
            there = {one for each in lines.values() for one in each} | naming
            wide = there | set(self._of_room(room))
            first = [test for test in self.seconds if _file(test) == CONSTANTS]
        quickest = sorted(there, key=lambda one: (self._costs(one), one))
        turns = self._in_turn(there & naming, f"tests/{room}/")
        turns.sort(key=lambda one: Path(fault.file).stem not in _file(one))
        own = self._within(QUICK / 2, turns, first)
        quick = self._within(QUICK, quickest, own)
        return self._within(BUDGET, self._in_turn(wide, f"tests/{room}/"), quick)

    def _beside(self, there: set[str]) -> set[str]:
        """All tests of files where one is seen to reach it and what it found is kept for the next.

        The next then asks of the same numbers, but runs nothing.
        """
        files = {file for file in map(_file, there) if KEEPS.search(_text(file))}
        return {test for test in self.seconds if _file(test) in files}

    def _naming(self, source: str) -> set[str]:
        """All tests of files that import from a module."""
        *package, name = ("firstfire", *Path(source).with_suffix("").parts)
        of, whole = re.escape(".".join(package)), re.escape(".".join((*package, name)))
        names = re.compile(rf"^from ({whole} import |{of} import .*\b{name}\b)", re.MULTILINE)
        files = {file for file in map(_file, self.seconds) if names.search(_text(file))}
        return {test for test in self.seconds if _file(test) in files}

    def _within(self, budget: float, order: Sequence[str], taken: Sequence[str]) -> list[str]:
        """Those taken, and of others in their order what fits into so many seconds with them."""
        found, files, spent = list[str](), set[str](), 0.0
        for test in (*taken, *(one for one in order if one not in taken)):
            file = _file(test)
            costs = self._runs(test) + (0.0 if file in files else self._shared[file])
            if spent + costs > budget and found:
                continue
            spent += costs
            found.append(test)
            files.add(file)
        return found

    def _in_turn(self, near: set[str], own: str) -> list[str]:
        """The quickest of each file of tests, then the next of each; of the room's own two each.

        Files of tests hold different things, and one has hundreds of quick tests that are alike.
        What takes a sixth of the time by itself comes last.
        """
        turn = dict[str, int]()
        of_file: dict[str, int] = defaultdict(int)
        for test in sorted(near, key=lambda one: (self._runs(one), one)):
            turn[test] = of_file[_file(test)] // (2 if test.startswith(own) else 1)
            of_file[_file(test)] += 1
        return sorted(
            near,
            key=lambda one: (self._costs(one) > BUDGET / 6, turn[one], self._costs(one), one),
        )

    def but(self, files: set[str]) -> "Reached":
        """Without the tests of some files."""
        tests = {
            source: {line: [one for one in those if _file(one) not in files]
                     for line, those in lines.items()}
            for source, lines in self.tests.items()
        }  # fmt: skip
        left = {test: took for test, took in self.seconds.items() if _file(test) not in files}
        return Reached(tests, left)

    def and_also(self, other: "Reached") -> "Reached":
        """Their tests and those of another, which are of other files."""
        tests = {source: dict(lines) for source, lines in self.tests.items()}
        for source, lines in other.tests.items():
            own = tests.setdefault(source, {})
            for line, those in lines.items():
                own[line] = sorted({*own.get(line, ()), *those})
        return Reached(tests, self.seconds | other.seconds)

    def _costs(self, test: str) -> float:
        return self._shared[_file(test)] + self._runs(test)

    def _of_room(self, room: str) -> list[str]:
        """Tests of a room, and all others that reach one of its files."""
        own = [test for test in self.seconds if test.startswith(f"tests/{room}/")]
        files = (lines for file, lines in self.tests.items() if file.startswith(f"{room}/"))
        others = (test for lines in files for each in lines.values() for test in each)
        return [*own, *(test for test in others if test.startswith("tests/outside/"))]

    def _runs(self, test: str) -> float:
        return self.seconds.get(test, (0.0, 1.0))[1]

    @cached_property
    def _shared(self) -> dict[str, float]:
        """What the tests of a file set up together: the longest that any of them took, s."""
        found: dict[str, float] = defaultdict(float)
        for test, (setting_up, _) in self.seconds.items():
            found[_file(test)] = max(found[_file(test)], setting_up)
        return found


def reached(rooms: Sequence[str]) -> Reached:
    """By the tests of some rooms; found anew where a source has changed, or for changed tests."""
    KEPT.mkdir(parents=True, exist_ok=True)
    source, now = _source(), _files_of(rooms)
    kept = KEPT / f"reached-{'-'.join(sorted(rooms))}-{source}.json"
    wider = [one for one in KEPT.glob(f"reached-*-{source}.json")
             if set(rooms) <= set(one.stem.split("-")[1:-1])]  # fmt: skip
    if wider:
        kept = wider[0]
        now |= _files_of(kept.stem.split("-")[1:-1])
        files, found = _read(kept)
    else:
        files, found = {}, Reached({}, {})
    other = {file for file in {*files, *now} if files.get(file) != now.get(file)}
    if other:
        found = found.but(other).and_also(_looked(sorted(other & set(now))))
        _write(kept, now, found)
    return found


def _read(kept: Path) -> tuple[dict[str, str], Reached]:
    """What was written, and which files of tests it is of; each test's name is there once."""
    known = json.loads(kept.read_text(encoding="utf-8"))
    names = known["names"]
    tests = {
        source: {line: [names[one] for one in those] for line, those in lines.items()}
        for source, lines in known["tests"].items()
    }
    return known["files"], Reached(tests, known["seconds"])


def _write(kept: Path, files: dict[str, str], found: Reached) -> None:
    lines = [those for of_line in found.tests.values() for those in of_line.values()]
    place = {name: at for at, name in enumerate(sorted({one for those in lines for one in those}))}
    tests = {
        source: {line: [place[one] for one in those] for line, those in lines.items()}
        for source, lines in found.tests.items()
    }
    beside = kept.with_suffix(".part")
    text = json.dumps(
        {"files": files, "names": list(place), "tests": tests, "seconds": found.seconds}
    )
    beside.write_text(text, encoding="utf-8")
    beside.replace(kept)


def _source() -> str:
    """What is tested, and what tests of several files share."""
    told = hashlib.sha256()
    tests = (ROOT / "tests").rglob("*")
    shared = (one for one in tests if one.suffix in (".py", ".toml") and not _holds_tests(one))
    for path in sorted((*SOURCE.rglob("*.py"), *shared)):
        told.update(path.read_bytes())
    return told.hexdigest()[:16]


def _files_of(rooms: Sequence[str]) -> dict[str, str]:
    """Files of tests that are asked for some rooms, with what tells one text from another."""
    places = [f"tests/{room}" for room in (*rooms, "formulas", "outside", "field", "strangers")]
    return {
        str(path.relative_to(ROOT)): hashlib.sha256(path.read_bytes()).hexdigest()[:16]
        for place in places
        for path in (ROOT / place).rglob("*.py")
        if _holds_tests(path)
    }


def _holds_tests(path: Path) -> bool:
    return path.suffix == ".py" and path.name.startswith("test_")


def _looked(files: Sequence[str]) -> Reached:
    if not files:
        return Reached({}, {})
    with tempfile.TemporaryDirectory() as folder:
        data, times = Path(folder) / "data", Path(folder) / "times.json"
        command = [
            *_pytest(), "-n", "2", "-m", "not long", "-p", "benchmarks.timed", "--cov=firstfire",
            "--cov-context=test", "--cov-report=", *files,
        ]  # fmt: skip
        subprocess.run(
            command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL,
            env={**os.environ, "COVERAGE_FILE": str(data), "FIRSTFIRE_TIMES": str(times),
                 "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}"},
        )  # fmt: skip
        return Reached(_contexts(data), json.loads(times.read_text(encoding="utf-8")))


def _pytest() -> list[str]:
    return [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider"]


def _contexts(data: Path) -> dict[str, dict[str, list[str]]]:
    """Tests by file and line. What a shared fixture reaches, every test of its file reaches."""
    from coverage import CoverageData

    known = CoverageData(str(data))
    known.read()
    named = {_test(one) for one in known.measured_contexts() if one}
    of_file: dict[str, list[str]] = {}
    for test in sorted(named):
        of_file.setdefault(_file(test), []).append(test)

    def tests(contexts: Iterable[str]) -> list[str]:
        found = set[str]()
        for one in filter(None, contexts):
            shared = one.endswith("|setup")
            found |= set(of_file[_file(_test(one))]) if shared else {_test(one)}
        return sorted(found)

    return {
        str(Path(path).relative_to(SOURCE)): {
            str(line): tests(contexts)
            for line, contexts in known.contexts_by_lineno(path).items()
        }
        for path in known.measured_files()
        if Path(path).is_relative_to(SOURCE)
    }  # fmt: skip


def _test(context: str) -> str:
    return context.rpartition("|")[0]


def _file(test: str) -> str:
    return test.partition("::")[0]


@cache
def _text(file: str) -> str:
    path = ROOT / file
    return path.read_text(encoding="utf-8") if path.is_file() else ""


def tried(rooms: Sequence[str], count: int, seed: int) -> list[tuple[Fault, str]]:
    """Each fault, and the test that caught it: "" where none did.

    Parameters
    ----------
    rooms, count, seed
        As `chosen` takes them.
    """
    tests = reached(rooms)
    faults = chosen(SOURCE, rooms, count, seed)
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(2) as hands:
        copies: SimpleQueue[Path] = SimpleQueue()
        for name in ("one", "other"):
            copies.put(_copied(Path(folder) / name))

        def one(fault: Fault) -> str:
            copy = copies.get()
            try:
                return _caught(copy, fault, tests.of(fault))
            finally:
                copies.put(copy)

        found = []
        for fault, by in zip(faults, hands.map(one, faults), strict=True):
            found.append((fault, by))
            print(f"{len(found)}/{len(faults)} {told(fault)}: {by or 'NOT CAUGHT'}", flush=True)
    return found


def _copied(place: Path) -> Path:
    """The whole project but what git leaves out, so that tests find their files."""
    wanted = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, check=True, capture_output=True, text=True,
    ).stdout  # fmt: skip
    for name in filter(None, wanted.split("\0")):
        if (ROOT / name).is_file():
            (place / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, place / name)
    return place


def _caught(copy: Path, fault: Fault, tests: Sequence[str]) -> str:
    """The first test that fails with the fault put in."""
    own = copy / "src" / "firstfire" / fault.file
    right = own.read_text(encoding="utf-8")
    own.write_text(fault.put_into(right), encoding="utf-8")
    try:
        return _failing(copy, [str(own), *tests] if ">>>" in right else list(tests))
    finally:
        own.write_text(right, encoding="utf-8")


def _failing(copy: Path, tests: list[str]) -> str:
    """By a process that has all libraries and none of our own modules."""
    if not tests:
        return ""
    with tempfile.TemporaryDirectory() as folder:
        said = Path(folder) / "said.txt"
        asked = NURSERY.Process(target=_asked, args=(copy, said, tests))
        asked.start()
        asked.join(ASLEEP)
        if asked.exitcode is None:
            asked.kill()
            asked.join()
        if asked.exitcode in (-signal.SIGXCPU, -signal.SIGKILL):
            return "did not end"
        if asked.exitcode == 0:
            return ""
        lines = said.read_text(encoding="utf-8", errors="replace").splitlines()
        named = [line for line in lines if line.startswith(("FAILED", "ERROR"))]
        return named[0][:100] if named else f"ended with {asked.exitcode}"


NURSERY = multiprocessing.get_context("forkserver")
NURSERY.set_forkserver_preload(
    ["numba", "scipy.optimize", "scipy.integrate", "pydantic", "pint", "pytest", "hypothesis"]
)


def _asked(copy: Path, said: Path, tests: list[str]) -> None:
    """Run tests on a copy of the project, and end with what pytest ends with."""
    import pytest

    resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, 2 * PATIENCE))
    os.chdir(copy)
    os.environ["PYTHONPATH"] = str(copy / "src")
    sys.path.insert(0, str(copy / "src"))
    own = re.compile(r"(firstfire|benchmarks)(\.|$)")
    for name in list(filter(own.match, sys.modules)):
        del sys.modules[name]  # the copy has its own
    with said.open("w", encoding="utf-8") as into:
        for stream in (1, 2):
            os.dup2(into.fileno(), stream)
        words = ["-q", "-x", "-p", "no:xdist", "-p", "no:cacheprovider", "--doctest-modules"]
        found = pytest.main([*words, "--tb=no", *tests])
        sys.stdout.flush()
    os._exit(int(found))


def told(fault: Fault) -> str:
    """Where it is and what was put in, on one line."""
    text = (SOURCE / fault.file).read_text(encoding="utf-8").encode()
    was = " ".join(text[fault.begin : fault.end].decode().split())
    return f"{fault.file}:{fault.line} {fault.kind}: {was[:50]} -> {fault.instead[:60]}"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--rooms", default=",".join(ROOMS))
    asked = parser.parse_args()
    found = figures(tried(asked.rooms.split(","), asked.count, asked.seed), asked.seed)
    for figure in found:
        print(f"{figure.name}: {figure.value:.0f} % ({figure.note})")
    return 0 if all(figure.met for figure in found) else 1


if __name__ == "__main__":
    sys.exit(main())
