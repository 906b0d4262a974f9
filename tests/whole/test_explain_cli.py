"""`firstfire explain` as a person runs it."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
COMMAND = str(Path(sys.executable).with_name("firstfire"))


def explain(*words):
    return subprocess.run(
        [COMMAND, "explain", "engines/wren.toml", *words],
        cwd=ROOT, capture_output=True, text=True, check=False, timeout=300,
    )  # fmt: skip


def test_one_judgement_is_opened_in_json_at_the_event_asked_for():
    asked = explain("cheek", "--event", "first fire", "--set", "crank.cheek_width=36 mm", "--json")
    assert asked.returncode == 0, asked.stderr
    told = json.loads(asked.stdout)
    assert (told["id"], told["event"]) == ("crank.cheek.break", "first_fire")
    width = next(n for n in told["numbers"] if n["name"] == "crank.cheek_width")
    assert width["known"] == "tried"
    assert width["value"] == pytest.approx(0.036)
    values = {line["name"]: line["value"] for line in told["working"]}
    assert values["factor"] == told["factor"]


def test_a_wrong_id_gets_the_nearest_and_no_run():
    asked = explain("crank.chek")
    assert asked.returncode == 2
    assert "crank.cheek.break" in asked.stderr
    assert "Traceback" not in asked.stderr
    assert asked.stdout == ""


def test_a_wrong_event_is_told_which_there_are():
    asked = explain("cheek", "--event", "picnic")
    assert asked.returncode == 2
    assert "first_fire" in asked.stderr
