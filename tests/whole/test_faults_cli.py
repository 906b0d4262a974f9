"""``firstfire faults`` and ``start --fault`` as a person uses them."""

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from firstfire.runs.start.faults.all import FAULTS

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


def firstfire(*words):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def test_all_faults_are_listed_with_their_sign_within_80_columns():
    done = firstfire("faults")
    assert done.returncode == 0, done.stderr
    assert max(map(len, done.stdout.splitlines())) <= 80
    said = " ".join(done.stdout.split())
    for fault in FAULTS:
        assert f"\n{fault.name}" in "\n" + done.stdout
        assert fault.sign in said
        assert fault.usual in said


def test_the_list_is_json_as_its_schema_says():
    said = json.loads(firstfire("faults", "--json").stdout)
    schema = json.loads(firstfire("schema", "faults").stdout)
    jsonschema.validate(said, schema)
    assert said["schema"] == "firstfire.faults/1"
    assert [fault["name"] for fault in said["faults"]] == [fault.name for fault in FAULTS]
    assert all(fault["sign"] and fault["what"] for fault in said["faults"])


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        ("spark_erly", "Did you mean spark_early"),
        ("leads_swapped", "it has one plug"),
        ("spark_early=20", 'Write --fault spark_early="20 deg".'),
        ("ring_leak=-1 mm^2", "beyond 0 mm^2 to 20 mm^2"),
    ],
)
def test_what_can_not_be_is_one_message_and_exit_code_2(fault, said):
    done = firstfire("start", WREN, "--fault", fault)
    assert done.returncode == 2
    assert done.stdout == ""
    assert "1 problem" in done.stderr
    assert said in " ".join(done.stderr.split())


def test_all_that_is_wrong_is_told_at_once():
    done = firstfire("start", WREN, "--spark", "400", "--temperature", "5000", "--traces", "a.txt",
                     "--fault", "spark_early=20", "--fault", "nonsense=3")  # fmt: skip
    assert done.returncode == 2
    assert not done.stdout
    for said in ("--spark", "a.txt", "surroundings.air_temperature", "an angle is wanted",
                 'no fault "nonsense"'):  # fmt: skip
        assert said in " ".join(done.stderr.split())
    assert "Traceback" not in done.stderr


def test_a_start_is_told_with_its_faults():
    """No spark, and a bearing that drags: both are named, and it never lights."""
    done = firstfire("start", WREN, "--engines", "8", "--tries", "1", "--json",
                     "--fault", "spark_never", "--fault", "dragging=1 N*m")  # fmt: skip
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout, parse_constant=pytest.fail)
    jsonschema.validate(told, json.loads(firstfire("schema", "start").stdout))
    assert told["wrong"] == ["spark_never", "dragging=1 N*m"]
    assert told["odds"]["starts"] == 0.0
    assert [limit["id"] for limit in told["limits"]] == ["spark"]
    assert not [one for one in told["story"] if "combustion" in one["what"]]
    assert told["slipped_deg"] == 0.0
    assert told["valve_room_m"] > 0.0
