"""``firstfire fuel`` and ``firstfire tables`` as a person runs them."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WREN, HERON = ROOT / "engines" / "wren.toml", ROOT / "engines" / "heron.toml"
V_TWIN = ROOT / "tests" / "strangers" / "2_v_twin.toml"
COMMAND = (sys.executable, "-c", "from firstfire.cli.main import run; run()")


def firstfire(*typed: object) -> subprocess.CompletedProcess[str]:
    typed_as = [*COMMAND, *(str(one) for one in typed)]
    env = {**os.environ, "COLUMNS": "80", "NO_COLOR": "1"}
    return subprocess.run(
        typed_as, capture_output=True, text=True, timeout=300, env=env, check=False
    )


def test_fuel_is_told_within_eighty_columns() -> None:
    done = firstfire("fuel", WREN)
    assert done.returncode == 0, done.stderr
    assert max(map(len, done.stdout.splitlines())) <= 80
    for words in ("Main jet", "Idle jet", "Head", "fuel valve", "estimates"):
        assert words in done.stdout


def test_what_does_not_work_stands_first() -> None:
    done = firstfire("fuel", WREN, "--set", "tank.head=2 mm")
    head = " ".join(done.stdout.splitlines()[:6])
    assert "tank.head" in head
    assert "too low" in head
    assert "nearest that works" in head


def test_json_is_the_contract() -> None:
    told = json.loads(firstfire("fuel", V_TWIN, "--json").stdout)
    assert told["schema"] == "firstfire.fuel/1"
    schema = json.loads(firstfire("schema", "fuel").stdout)
    assert set(told) <= set(schema["properties"])


@pytest.mark.parametrize(
    ("file", "put", "said"),
    [(HERON, (), "no controller"),
     (V_TWIN, ("--set", "injector.flow=900 cm^3/min"), "nearest that works"),
     (V_TWIN, ("--set", "injector.flow=900 mm"), "injector.flow")],
)  # fmt: skip
def test_tables_refuse_in_one_message(
    file: Path, put: tuple[str, ...], said: str, tmp_path: Path
) -> None:
    done = firstfire("tables", file, "-o", tmp_path / "out", *put)
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()


def test_a_folder_that_has_tables_is_refused(tmp_path: Path) -> None:
    (tmp_path / "tables.h").write_text("mine")
    done = firstfire("tables", V_TWIN, "-o", tmp_path)
    assert done.returncode == 2
    assert "already" in done.stderr
    assert (tmp_path / "tables.h").read_text() == "mine"
    done = firstfire("tables", V_TWIN, "-o", tmp_path / "not" / "there")
    assert done.returncode == 2
    assert "Make it first" in done.stderr


@pytest.mark.slow
def test_ctrl_c_writes_nothing(tmp_path: Path) -> None:
    running = subprocess.Popen(
        [*COMMAND, "tables", str(V_TWIN), "-o", str(tmp_path / "out")],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    time.sleep(8.0)
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=60)
    assert running.returncode == 130
    assert "Traceback" not in err
    assert not (tmp_path / "out").exists()
    assert "Written" not in out
