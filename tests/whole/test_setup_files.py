"""The files that set firstfire up say what they must, and tie it to no one machine."""

import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from pathspec import GitIgnoreSpec

ROOT = Path(__file__).parents[2]
REQUIREMENT_FILES = ("requirements.txt", "requirements-dev.txt")
HEAVY = {"numpy", "scipy", "numba", "pint", "pydantic", "pyarrow", "typer", "rich", "tomlkit"}


def committed_files() -> Iterator[Path]:
    """Every file that git would take: all but .git and what .gitignore names."""
    ignored = GitIgnoreSpec.from_lines((ROOT / ".gitignore").read_text().splitlines())
    for folder, folders, names in os.walk(ROOT):
        inside = Path(folder).relative_to(ROOT)
        folders[:] = [
            name
            for name in folders
            if name != ".git" and not ignored.match_file(f"{inside / name}/")
        ]
        for name in names:
            if name != ".git" and not ignored.match_file(str(inside / name)):
                yield Path(folder) / name


def requirement_lines(name: str) -> list[str]:
    lines = (ROOT / name).read_text().splitlines()
    return [line for line in lines if line and not line.startswith("#")]


def pins(name: str) -> dict[str, Requirement]:
    lines = [line for line in requirement_lines(name) if line != "-r requirements.txt"]
    return {canonicalize_name(req.name): req for req in map(Requirement, lines)}


def asked_for(requirement: Requirement) -> Iterator[Requirement]:
    """What one installed package asks for on this machine, its extras as asked."""
    for line in requires(requirement.name) or []:
        needed = Requirement(line)
        marker = needed.marker
        if marker is None or any(
            marker.evaluate({"extra": extra}) for extra in requirement.extras or {""}
        ):
            yield needed


def closure(start: list[Requirement]) -> set[str]:
    reached: set[str] = set()
    waiting = list(start)
    while waiting:
        requirement = waiting.pop()
        name = canonicalize_name(requirement.name)
        if name not in reached:
            reached.add(name)
            waiting.extend(asked_for(requirement))
    return reached


@pytest.mark.parametrize(
    ("target", "last_command"),
    [
        (
            "demo",
            "echo 'The pages, to change a number and see it answer: "
            ".venv/bin/firstfire open engines/wren.toml'",
        ),
        (
            "test",
            '.venv/bin/pytest -n 2 -m "not long" --doctest-modules src/firstfire tests',
        ),
        ("lint", ".venv/bin/ruff format --check ."),
        ("types", ".venv/bin/mypy"),
        ("contract", ".venv/bin/lint-imports"),
        ("bench", ".venv/bin/python -m benchmarks.run"),
    ],
)
def test_make_target_sets_up_first_and_ends_with_its_command(
    target: str, last_command: str
) -> None:
    environment = {key: value for key, value in os.environ.items() if not key.startswith("MAKE")}
    said = subprocess.run(
        ["make", "--no-print-directory", "-n", target],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    assert said[0] == "scripts/system_packages demo"
    assert said[-1] == last_command
    installs = "scripts/set_up run" if target == "demo" else "scripts/set_up dev"
    assert installs in said


@pytest.mark.parametrize("name", REQUIREMENT_FILES)
def test_every_requirement_is_pinned_to_one_version(name: str) -> None:
    for requirement in pins(name).values():
        (specifier,) = requirement.specifier
        assert specifier.operator == "==", requirement
        assert "*" not in specifier.version, requirement
        assert requirement.url is None, requirement


def test_runtime_pins_are_all_that_the_package_and_its_build_need_and_no_more() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    wanted = [
        *map(Requirement, project["project"]["dependencies"]),
        *map(Requirement, project["build-system"]["requires"]),
        Requirement("editables"),
    ]
    pinned = pins("requirements.txt")
    assert set(pinned) == closure(wanted)
    for requirement in wanted:
        (pin,) = pinned[canonicalize_name(requirement.name)].specifier
        assert requirement.specifier.contains(pin.version), requirement


def test_nothing_that_a_pinned_package_needs_is_left_unpinned() -> None:
    pinned = pins("requirements.txt") | pins("requirements-dev.txt")
    assert closure(list(pinned.values())) == set(pinned)


# Debian's pip is told nowhere which registry to use: that is the machine's business.
ONE_PLACE = re.compile(
    r"\b(py[p]i|python[h]osted|npm[j]s|[d]ebian|[u]buntu|[c]rates|[a]naconda)\.(org|io|com)\b"
    r"|(?<![\w./-])/(root|work|opt|Users|home/\w+|mnt/\w+)/"
    r"|--(extra-)?index-url|--find-links|--trusted-host",
)


def test_no_committed_file_names_a_registry_or_a_folder_of_one_machine() -> None:
    own = Path(__file__)
    found = [
        f"{path.relative_to(ROOT)}: {match.group()}"
        for path in committed_files()
        if path != own
        for match in ONE_PLACE.finditer(path.read_text(encoding="utf-8", errors="replace"))
    ]
    assert found == []


def test_pattern_for_places_sees_what_it_is_for() -> None:
    for text in (
        "https://files.python" + "hosted.org/x",
        "see /home/someone/x",
        '"/opt/.venv/bin"',
    ):
        assert ONE_PLACE.search(text), text
    for text in ("tip/opt/flank", "out/opt/done", "src/firstfire"):
        assert not ONE_PLACE.search(text), text


def test_importing_firstfire_pulls_no_heavy_library() -> None:
    loaded = subprocess.run(
        [sys.executable, "-c", "import firstfire, sys; print(*sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout.split()
    assert "firstfire" in loaded
    assert HEAVY.isdisjoint(name.partition(".")[0] for name in loaded)


def test_commit_hooks_are_local() -> None:
    text = (ROOT / ".pre-commit-config.yaml").read_text()
    assert re.findall(r"repo: (\S+)", text) == ["local"]
    assert set(re.findall(r"language: (\S+)", text)) == {"system"}
