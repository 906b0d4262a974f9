"""The scripts behind `make`, run with stand-ins for python3, apt-get and sudo first on the path."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = "firstfire-needs-this"
COPIED = ("scripts", "pyproject.toml", "requirements.txt", "requirements-dev.txt")

# Makes an environment whose python answers, and writes down what it was called with.
PYTHON3 = """
echo "python3 $*" >>"$LOG"
case "$*" in
    --version) echo "Python 3.11.2" ;;
    *"-m venv"*)
        mkdir -p .venv/bin
        printf '#!/bin/sh\\necho 3.11.2\\n' >.venv/bin/python
        chmod +x .venv/bin/python ;;
    *"-r requirements"*)
        [[ -z ${CUT_OFF:-} ]] || kill -TERM "$PPID"
        exit "${PIP_STATUS:-0}" ;;
esac
"""


class Stage:
    """A folder of stand-ins, a log of their calls, and a way to run a script among them."""

    def __init__(self, folder: Path) -> None:
        self.stand_ins = folder / "stand_ins"
        self.stand_ins.mkdir()
        self.log = folder / "log"
        self.log.touch()

    def stand_in(self, name: str, body: str) -> None:
        path = self.stand_ins / name
        path.write_text(f"#!/bin/bash\n{body}\n")
        path.chmod(0o755)

    def run(
        self, *command: str | Path, cwd: Path = ROOT, only: bool = False, **more: str
    ) -> subprocess.CompletedProcess[str]:
        search = str(self.stand_ins) if only else f"{self.stand_ins}:{os.environ['PATH']}"
        return subprocess.run(
            ["/bin/bash", *map(str, command)],
            cwd=cwd,
            env={"PATH": search, "LOG": str(self.log), **more},
            capture_output=True,
            text=True,
            check=False,
        )

    def calls(self) -> list[str]:
        """The calls since the last time this was asked."""
        lines = self.log.read_text().splitlines()
        self.log.write_text("")
        return lines


@pytest.fixture
def stage(tmp_path: Path) -> Stage:
    return Stage(tmp_path)


@pytest.fixture
def machine(stage: Stage, tmp_path: Path) -> tuple[Stage, Path]:
    """A machine on which the one listed package is missing."""
    packages = tmp_path / "packages.txt"
    packages.write_text(f"# a comment\ntest {PACKAGE} because of this test\n")
    stage.stand_in("dpkg-query", "exit 1")
    stage.stand_in("apt-get", 'echo "apt-get $*" >>"$LOG"')
    stage.stand_in("env", 'while [[ $1 == *=* ]]; do shift; done; exec "$@"')
    stage.stand_in("id", "echo 1000")
    return stage, packages


def test_a_missing_package_without_root_and_sudo_is_one_sentence_and_a_failure(
    machine: tuple[Stage, Path],
) -> None:
    stage, packages = machine
    stage.stand_in("sudo", "exit 1")
    done = stage.run(ROOT / "scripts/system_packages", "test", packages, only=True)
    assert done.returncode == 1
    assert done.stdout == ""
    (sentence,) = done.stderr.splitlines()
    assert f"apt-get install {PACKAGE}" in sentence
    assert stage.calls() == []


def test_a_missing_package_without_any_sudo_fails_in_the_same_way(
    machine: tuple[Stage, Path],
) -> None:
    stage, packages = machine
    done = stage.run(ROOT / "scripts/system_packages", "test", packages, only=True)
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1


@pytest.mark.parametrize("who", ["root", "sudo"])
def test_a_missing_package_is_installed_where_that_can_be_done(
    machine: tuple[Stage, Path], who: str
) -> None:
    stage, packages = machine
    stage.stand_in("id", f"echo {0 if who == 'root' else 1000}")
    stage.stand_in("sudo", 'shift; [[ $1 == true ]] || { echo sudo >>"$LOG"; "$@"; }')
    done = stage.run(ROOT / "scripts/system_packages", "test", packages, only=True)
    assert done.returncode == 0, done.stderr
    calls = stage.calls()
    assert ("sudo" in calls) == (who == "sudo")
    assert calls[-1].startswith("apt-get ")
    assert calls[-1].endswith(f"install --yes --no-install-recommends {PACKAGE}")


def test_a_failing_apt_get_fails_the_script(machine: tuple[Stage, Path]) -> None:
    stage, packages = machine
    stage.stand_in("id", "echo 0")
    stage.stand_in("apt-get", "exit 100")
    assert stage.run(ROOT / "scripts/system_packages", "test", packages, only=True).returncode == 1


def test_what_is_installed_or_for_another_use_is_left_alone(machine: tuple[Stage, Path]) -> None:
    stage, packages = machine
    assert stage.run(ROOT / "scripts/system_packages", "demo", packages, only=True).returncode == 0
    stage.stand_in("dpkg-query", "echo installed")
    assert stage.run(ROOT / "scripts/system_packages", "test", packages, only=True).returncode == 0
    assert stage.calls() == []


def test_every_line_of_the_list_says_for_what_and_why() -> None:
    for line in (ROOT / "system-packages.txt").read_text().splitlines():
        if line and not line.startswith("#"):
            use, _package, reason = line.split(maxsplit=2)
            assert use in {"demo", "test"}
            assert reason


@pytest.fixture
def checkout(stage: Stage, tmp_path: Path) -> tuple[Stage, Path]:
    """The files that installing reads, in a folder of their own, with a python3 that pretends."""
    folder = tmp_path / "checkout"
    folder.mkdir()
    for name in COPIED:
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, folder / name)
    stage.stand_in("python3", PYTHON3)
    return stage, folder


def installs(calls: list[str]) -> list[str]:
    return [call for call in calls if " install " in call]


def makes_environment(calls: list[str]) -> bool:
    return any("-m venv" in call for call in calls)


def test_set_up_installs_once_and_then_does_nothing(checkout: tuple[Stage, Path]) -> None:
    stage, folder = checkout
    assert stage.run("scripts/set_up", "run", cwd=folder).returncode == 0
    calls = stage.calls()
    assert makes_environment(calls)
    pinned, itself = installs(calls)
    assert pinned.endswith("-r requirements.txt")
    assert itself.endswith("--no-build-isolation --no-deps --editable .")
    again = stage.run("scripts/set_up", "run", cwd=folder)
    assert (again.returncode, again.stderr, stage.calls()) == (0, "", [])


def test_set_up_installs_again_when_a_pin_changes(checkout: tuple[Stage, Path]) -> None:
    stage, folder = checkout
    stage.run("scripts/set_up", "run", cwd=folder)
    stage.calls()
    with (folder / "requirements.txt").open("a") as file:
        file.write("another==1.0\n")
    assert stage.run("scripts/set_up", "run", cwd=folder).returncode == 0
    calls = stage.calls()
    assert installs(calls)
    assert not makes_environment(calls)


def test_set_up_starts_anew_after_it_was_cut_off(checkout: tuple[Stage, Path]) -> None:
    stage, folder = checkout
    cut_off = stage.run("scripts/set_up", "run", cwd=folder, CUT_OFF="yes", PIP_STATUS="1")
    assert cut_off.returncode == 130
    assert cut_off.stderr.splitlines()[-1].startswith("Stopped:")
    stage.calls()
    assert stage.run("scripts/set_up", "run", cwd=folder).returncode == 0
    calls = stage.calls()
    assert makes_environment(calls)
    assert installs(calls)
    stage.run("scripts/set_up", "run", cwd=folder)
    assert stage.calls() == []


def test_set_up_starts_anew_in_a_checkout_that_was_moved(checkout: tuple[Stage, Path]) -> None:
    stage, folder = checkout
    stage.run("scripts/set_up", "dev", cwd=folder)
    stage.calls()
    moved = folder.rename(folder.with_name("moved"))
    assert stage.run("scripts/set_up", "dev", cwd=moved).returncode == 0
    assert makes_environment(stage.calls())


def test_set_up_fails_with_a_sentence_when_pip_fails(checkout: tuple[Stage, Path]) -> None:
    stage, folder = checkout
    done = stage.run("scripts/set_up", "run", cwd=folder, PIP_STATUS="1")
    assert done.returncode == 1
    assert done.stderr.splitlines()[-1] == (
        "The packages could not be installed: see the lines above."
    )
    stage.calls()
    assert stage.run("scripts/set_up", "run", cwd=folder).returncode == 0
    assert installs(stage.calls())


def test_set_up_refuses_an_old_python(checkout: tuple[Stage, Path]) -> None:
    stage, folder = checkout
    stage.stand_in("python3", '[[ $1 == --version ]] && echo "Python 3.10.1"')
    done = stage.run("scripts/set_up", "run", cwd=folder)
    assert done.returncode == 1
    assert done.stderr == "Python 3.10.1 is too old: firstfire needs Python 3.11 or newer.\n"


@pytest.mark.parametrize("failing", ["lint", "types", "contract", "test"])
def test_ci_runs_every_step_and_fails_if_one_does(stage: Stage, failing: str) -> None:
    stage.stand_in("make", f'echo "$2" >>"$LOG"; [[ $2 != {failing} ]]')
    done = stage.run(ROOT / ".ci/run")
    assert done.returncode == 1
    assert done.stdout.splitlines()[-1] == f"Failed: {failing}"
    assert stage.calls() == ["lint", "types", "contract", "test"]


def test_ci_passes_when_every_step_does(stage: Stage) -> None:
    stage.stand_in("make", "true")
    assert stage.run(ROOT / ".ci/run").returncode == 0
